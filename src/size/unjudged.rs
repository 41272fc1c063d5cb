//! What nobody can judge: a margin under the porpoising limit that is short where the limit or the planes were not tested.

use uom::si::angle::degree;
use uom::si::f64::Angle;

use super::bench::Bench;
use super::demand::DemandKind;
use super::site::Site;

/// What the deflections found leave of a margin, degrees.
const FOUND_DEG: f64 = 0.05;

/// Whether so little margin is short of what is asked.
pub(super) fn is_short(margin: Angle, reached: Angle) -> bool {
    (margin - reached).get::<degree>() > FOUND_DEG
}

/// Whether a margin under the porpoising limit reads as one over it.
#[must_use]
pub fn is_over(margin: Angle) -> bool {
    is_short(Angle::new::<degree>(0.0), margin)
}

impl Bench<'_> {
    /// Of each of so many duties whether it counts as done only because nobody can judge it where it asks most.
    ///
    /// It is the same for every pair, so that none looks less able than another for what is not judged.
    pub fn unjudged(&self, duties: usize) -> Vec<bool> {
        (0..duties).map(|duty| self.is_unjudged(duty)).collect()
    }

    fn is_unjudged(&self, duty: usize) -> bool {
        let mut is_short_anywhere = false;
        for site in &self.sites {
            for demand in site.demands.iter().filter(|demand| demand.duty == duty) {
                if !site.bare_does(demand.kind) {
                    return false;
                }
                is_short_anywhere |= site.is_short_bare(demand.kind);
            }
        }
        is_short_anywhere
    }
}

impl Site<'_> {
    /// Whether a margin asked is short with planes up.
    fn is_short_bare(&self, kind: DemandKind) -> bool {
        let (DemandKind::Margin { margin_deg }, Some(bare)) = (kind, self.settle_bare()) else {
            return false;
        };
        let reached_deg = self.bare.porpoising_limit().lower_deg() - bare.trim_deg;
        is_short(Angle::new::<degree>(margin_deg), Angle::new::<degree>(reached_deg))
    }
}
