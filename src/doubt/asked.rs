//! Which pairs the duties are asked about.

use uom::si::area::square_meter;

use super::advise::advise_for;
use super::duties::{Drawn, DutiesDoubt, duties};
use super::running::Progress;
use crate::balance::Settings;
use crate::boat::{Boat, Fault, PlanePair};

/// Of the areas that a sizing looks at every second one is asked about here.
const EVERY: usize = 2;
/// Pairs of which the areas differ by less count as one.
const SAME_AREA: f64 = 1e-3;

/// How likely the duties are done by the pair fitted, the pair suggested, and larger and smaller ones of the latter.
///
/// # Errors
/// As [`crate::size::suggest_for`].
pub fn usual_duties(
    boats: &[Boat],
    settings: &Settings,
    drawn: Drawn,
    progress: Progress<'_>,
) -> Result<DutiesDoubt, Fault> {
    let suggestion = advise_for(boats, settings)?;
    let fitted = boats.first().and_then(Boat::planes);
    let mut pairs: Vec<PlanePair> = Vec::new();
    pairs.extend(suggestion.pair());
    pairs.extend(suggestion.trade_off.iter().step_by(EVERY).map(|point| point.pair));
    pairs.sort_by(|a, b| area_m2(a).total_cmp(&area_m2(b)));
    pairs.dedup_by(|a, b| (area_m2(a) / area_m2(b) - 1.0).abs() < SAME_AREA);
    let room = suggestion.room * (1.0 + 1e-9);
    pairs.retain(|pair| pair.span <= room);
    if let Some(fitted) = fitted {
        pairs.retain(|pair| *pair != fitted);
        pairs.push(fitted);
    }
    let pair = fitted.or_else(|| suggestion.pair());
    duties(boats, settings, &pairs, pair, drawn, progress)
}

fn area_m2(pair: &PlanePair) -> f64 {
    pair.area().get::<square_meter>()
}
