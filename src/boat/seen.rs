//! What was seen of the boat on the water: her trim at a speed.
//!
//! One reading says more of her than most measures taken ashore: whatever is
//! wrong with weights and equations shows in it together.

use uom::si::f64::{Angle, Velocity};

use super::PlanePair;
use super::keys::or_default;
use super::measure::{Named, given};

/// A trim that was read at a speed held steady.
#[derive(Clone, Debug, PartialEq)]
pub struct Seen {
    /// Speed through the water.
    pub speed: Velocity,
    /// Mean deflection of the planes; zero with planes up, or without any.
    pub deflection: Angle,
    /// Running trim of the keel line, bow up positive.
    pub trim: Angle,
    /// Nine such readings in ten lie within this of the true trim; when absent, as by a telephone's
    /// inclinometer. What its row takes for that is common practice, no source: the line it is laid
    /// on, the waves, the load on the day.
    pub by: Option<Angle>,
    /// Name of the loading condition she was in; that of the loads as they are listed when absent.
    pub condition: Option<String>,
    /// The pair that was down; the pair fitted when absent. A boat that is given another pair keeps it here.
    pub planes: Option<PlanePair>,
}

impl Seen {
    /// Its values by their keys.
    pub(super) fn measures(&self) -> Named {
        given([
            ("speed", Some(self.speed.into())),
            ("deflection", Some(self.deflection.into())),
            ("trim", Some(self.trim.into())),
            ("by", self.by.map(Into::into)),
        ])
    }
}

impl Seen {
    /// Half of the range that holds the true trim in nine of ten such readings.
    #[must_use]
    pub fn half_width(&self) -> Angle {
        or_default(self.by, "seen.by")
    }

    /// Whether planes were down.
    #[must_use]
    pub fn is_with_planes(&self) -> bool {
        self.deflection > Angle::default()
    }
}
