//! Scales of the drawings.

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
