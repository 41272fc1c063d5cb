//! The answer as one JSON object: SI units, accelerations in g, angles in degrees, null for what does not exist.

use super::SeawayOutput;
use crate::behaviour::seaway::Seen;
use crate::field::{InSi, written};
use crate::tell::seaway::SEA_CAUTION;

/// The boat in all loading conditions asked about.
pub(super) struct Written<'a>(pub &'a [SeawayOutput]);

/// The waves of one of the heights asked about, by its place.
struct Waves<'a>(&'a Seen, usize);

written! {
    Written<'_> as all {
        "conditions": all.0,
        "cautions": [SEA_CAUTION],
    }
    SeawayOutput as one {
        "name": one.seen.boat.condition().name,
        "down_to_deg": one.seen.down_to.in_si(),
        "waves": (0..one.seen.waves.len()).map(|at| Waves(&one.seen, at)).collect::<Vec<_>>(),
        "limit": one.seen.limit,
        "estimates": one.seen.boat.estimates(),
    }
    Waves<'_> as waves {
        "wave_height_m": waves.0.waves[waves.1].in_si(),
        "rides": waves.0.in_waves(waves.0.waves[waves.1]),
        "fastest": waves.0.fastest.get(waves.1),
    }
}
