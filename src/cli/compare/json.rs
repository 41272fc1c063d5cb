//! Pairs side by side as JSON: SI units, angles in degrees, null for what is not known.

use crate::boat::Boat;
use crate::doubt::Likely;
use crate::field::{InSi, written};
use crate::stock::compare::{ComparedPair, Comparison, SetAt};
use crate::stock::rank::PLANES_OF_A_BOAT;

/// All of it.
pub(super) struct Written<'a> {
    pub found: &'a Comparison,
    /// The boat in the loading condition of trims and settings.
    pub boat: &'a Boat,
}

written! {
    Written<'_> as all {
        "compared_in_condition": all.boat.condition().name,
        "relief_speed_m_s": all.found.relief_speed.in_si(),
        "draws": all.found.drawn.draws,
        "seed": all.found.drawn.seed,
        "chance_wanted": all.found.wanted,
        "duties_generated": all.found.generated,
        "duties": all.found.duties,
        "all_judged": all.found.is_all_judged,
        "pairs": all.found.pairs,
    }
    ComparedPair as pair {
        "part": pair.candidate.part().map(|part| part.name.as_str()),
        "span_m": pair.candidate.pair().span.in_si(),
        "chord_m": pair.candidate.pair().chord.in_si(),
        "area_m2": pair.candidate.pair().area().in_si(),
        "fits_transom": pair.fit.fits(),
        "missing_span_m": pair.fit.missing.in_si(),
        "chance": pair.all,
        "chance_of_each": pair.each,
        "relief_deg": pair.relief.map(|likely: Likely<_>| likely.in_si()),
        "hump": pair.hump,
        "cruise": pair.cruise,
        "strength": pair.strength,
        "pair_price": pair.price().map(|price| f64::from(PLANES_OF_A_BOAT) * price.amount),
        "currency": pair.price().and_then(|price| price.named()),
    }
    SetAt as at {
        "speed_m_s": at.speed.in_si(),
        "deflection_deg": at.deflection.in_si(),
        "trim_planes_up_deg": at.trim_up.in_si(),
        "trim_deg": at.trim.in_si(),
        "resistance_over_planes_up": at.resistance_ratio,
        "saving": at.saving,
    }
}
