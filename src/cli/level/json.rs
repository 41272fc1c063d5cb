//! The answer as one JSON object: SI units, angles in degrees, null for what does not exist.

use std::collections::BTreeMap;

use serde::Serialize;
use uom::si::f64::Velocity;

use super::LevelOutput;
use crate::cli::records::Size;
use crate::field::{InSi, written};
use crate::tell::level::{CAUTIONS, outcomes};

/// The boat in all loading conditions asked about.
pub(super) struct Written<'a>(pub &'a [LevelOutput]);

/// A plane with the side that it is on.
#[derive(Serialize)]
struct Plane {
    side: &'static str,
    #[serde(flatten)]
    size: Size,
}

/// The speeds at which the planes level her, where least is needed and where most is.
struct FromTo([Option<[Velocity; 2]>; 2]);

impl LevelOutput {
    fn planes(&self) -> Option<[Plane; 2]> {
        let plane = |side, size| Plane { side, size: Size(size) };
        self.levelled
            .planes
            .map(|[port, starboard]| [plane("port", port), plane("starboard", starboard)])
    }
}

written! {
    Written<'_> as all {
        "conditions": all.0,
        "outcome_meanings": all
            .0
            .iter()
            .flat_map(|one| outcomes(&one.told()))
            .map(|outcome| (outcome.word(), outcome.meaning()))
            .collect::<BTreeMap<_, _>>(),
        "cautions": CAUTIONS,
    }
    LevelOutput as one {
        "name": one.boat().condition().name,
        "planes": one.planes(),
        "usable_deflection_deg": one.boat().sizing().largest_deflection.in_si(),
        "from_duty": one.levelled.from_duty,
        "duty_generated": one.levelled.duty_generated,
        "reference": one.levelled.reference,
        "levelled_from_to_m_s": FromTo(one.levelled.from_to),
        "points": one.levelled.points,
        "setting": one.levelled.set,
        "stuck": one.levelled.stuck,
    }
    FromTo as speeds {
        "least_difference": speeds.0[0].in_si(),
        "largest_difference": speeds.0[1].in_si(),
    }
}
