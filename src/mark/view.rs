//! From the transom to the sheet: scale and frame.

use crate::drawing::Point;

/// Scales that a draughtsman's rule has or that divide simply, 1 : n.
const SCALES: [f64; 17] =
    [1.0, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 75.0];

/// Least reduction at which something fits.
pub(super) fn scale_for(size_m: Point, room_mm: Point) -> f64 {
    let needed = (1e3 * size_m[0] / room_mm[0]).max(1e3 * size_m[1] / room_mm[1]);
    SCALES
        .into_iter()
        .find(|&scale| scale >= needed)
        .unwrap_or_else(|| 25.0 * (needed / 25.0).ceil())
}

/// A view at 1 : `scale`, with the model's origin at a point of the sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct View {
    pub origin_mm: Point,
    pub scale: f64,
}

impl View {
    /// A point of the model, metres to the right and up, on the sheet.
    pub fn at(&self, right_m: f64, up_m: f64) -> Point {
        [self.origin_mm[0] + self.mm(right_m), self.origin_mm[1] - self.mm(up_m)]
    }

    /// A length of the model on the sheet.
    pub fn mm(&self, length_m: f64) -> f64 {
        1e3 * length_m / self.scale
    }
}
