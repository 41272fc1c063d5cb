//! From a model in metres to the sheet.

use super::geometry::Point;

/// Scale and origin of a view.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct View {
    /// The model's origin on the sheet.
    pub origin: Point,
    /// Units of the drawing in a metre of the model.
    pub per_m: f64,
}

impl View {
    /// A point of the model, metres to the right and up, on the sheet.
    pub fn at(&self, [right_m, up_m]: [f64; 2]) -> Point {
        [self.origin[0] + self.length(right_m), self.origin[1] - self.length(up_m)]
    }

    /// The same for many points.
    pub fn all(&self, points: &[[f64; 2]]) -> Vec<Point> {
        points.iter().map(|&at| self.at(at)).collect()
    }

    /// A length of the model on the sheet.
    pub fn length(&self, length_m: f64) -> f64 {
        length_m * self.per_m
    }
}
