//! Area of planes against resistance at the hump.

use uom::si::f64::{Area, Force};
use uom::si::{area::square_meter, force::newton};

use super::bench::Bench;
use super::loaded::Loaded;
use super::result::TradePoint;
use super::site::{Site, settle};
use super::suggest::{Question, pair_of};
use crate::balance::forces::PlaneSize;

/// Areas looked at, as shares of the pair's own.
const SHARES: [f64; 14] = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.2, 1.4, 1.7, 2.0];

/// Hump resistance over areas of the pair's own span/chord, deeper ones where the transom takes no more span, with the best deflection that duties may use.
///
/// The resistance is that in one loading condition; `does_all` looks at all of them.
pub(crate) fn trade_off(
    question: &Question<'_>,
    loaded: &Loaded<'_>,
    size: PlaneSize,
) -> Vec<TradePoint> {
    let bench = &question.bench;
    let site = Site::new(0, &loaded.prism, loaded.hump_speed_m_s());
    let mut points = Vec::new();
    for share in SHARES {
        let span_m = (f64::sqrt(share) * size.span_m).min(bench.room.largest_span_m);
        let chord_m = share * size.span_m * size.chord_m / span_m;
        let scaled = PlaneSize { span_m, chord_m };
        let Some(resistance_n) = best_resistance_n(&site, bench, scaled) else { continue };
        points.push(TradePoint {
            area: Area::new::<square_meter>(scaled.area_m2()),
            pair: pair_of(scaled),
            hump_resistance: Force::new::<newton>(resistance_n),
            does_all: bench.does_all(scaled),
        });
    }
    points
}

/// Least resistance of a size at a site with the deflection that duties may use; none when she does not run.
fn best_resistance_n(site: &Site<'_>, bench: &Bench<'_>, size: PlaneSize) -> Option<f64> {
    let allowed_deg = bench.rules.usable_deg * bench.rules.share;
    let from_deg = site.running_deg(size);
    let to_deg = site.safe_deg(size).min(allowed_deg);
    let [_, resistance_n] = site.least_resistance(size, from_deg, to_deg.max(from_deg));
    resistance_n.is_finite().then_some(resistance_n)
}

/// Resistance at the hump with planes up; none when she does not run there.
pub(crate) fn bare_hump_resistance(loaded: &Loaded<'_>) -> Option<Force> {
    let condition = loaded.prism.at(loaded.hump_speed_m_s());
    let forces = settle(&condition)?;
    Some(Force::new::<newton>(condition.resistance_parts_n(&forces).iter().sum()))
}
