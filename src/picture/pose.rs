//! From the boat to the water.

use super::shape::Metres;

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
