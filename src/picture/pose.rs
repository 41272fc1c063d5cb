//! From the boat to the water to the sheet.

use super::shape::Metres;
use crate::drawing::Point;

/// How the boat lies in the water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Pose {
    sin: f64,
    cos: f64,
    /// Depth of the keel at the transom below the level surface.
    pub draft_m: f64,
}

impl Pose {
    pub fn new(trim_deg: f64, draft_m: f64) -> Self {
        let (sin, cos) = trim_deg.to_radians().sin_cos();
        Self { sin, cos, draft_m }
    }

    /// A point of the boat, ahead of the transom's foot and above the level surface.
    pub fn at(&self, [forward_m, above_m]: Metres) -> Metres {
        [
            forward_m * self.cos - above_m * self.sin,
            forward_m * self.sin + above_m * self.cos - self.draft_m,
        ]
    }
}

/// Scale and origin of a picture: the bow to the right.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct View {
    pub origin_px: Point,
    pub px_per_m: f64,
}

impl View {
    /// A point ahead of the transom and up, on the sheet.
    pub fn at(&self, [ahead_m, up_m]: Metres) -> Point {
        [self.origin_px[0] + self.px(ahead_m), self.origin_px[1] - self.px(up_m)]
    }

    pub fn px(&self, length_m: f64) -> f64 {
        length_m * self.px_per_m
    }

    pub fn all(&self, points: &[Metres]) -> Vec<Point> {
        points.iter().map(|&at| self.at(at)).collect()
    }
}
