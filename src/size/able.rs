//! Whether a size does what is asked at a speed when all usable deflection is used, and by how much not.
//!
//! One residual of the pitch moment for each trim that is asked for: at the trim
//! wanted and the deflection there is, a moment bow down says that less would do.
//! So the same question can be asked of hundreds of boats nearly like one.

use super::bench::{Bench, FULL_UTILISATION};
use super::demand::{DemandKind, Rules};
use super::site::Site;
use crate::balance::forces::{Condition, PlaneSize};
use crate::balance::{LARGEST_TRIM_DEG, LEAST_TRIM_DEG, TRIM_FLOOR_DEG};
use crate::numeric::root_between;

/// Convergence of the vertical balance, as a share of the weight.
const VERTICAL_TOLERANCE: f64 = 1e-8;
/// Lack at which a span counts as found.
const CLOSE: f64 = 1e-6;
/// Lack that stands for 'at no deflection'.
const OUT_OF_REACH: f64 = 1e3;

impl Site<'_> {
    /// How far a size falls short here with the deflection that duties may use; not above zero when it does all.
    ///
    /// A share of the deflection for a list, of weight × beam for a trim; only its
    /// sign and its zero mean something.
    pub fn lack(&self, size: PlaneSize, rules: &Rules<'_>) -> f64 {
        let all = self.demands.iter().map(|demand| demand.kind);
        self.lack_of(size, rules, all)
    }

    /// The same for some of what is asked.
    pub fn lack_of(
        &self,
        size: PlaneSize,
        rules: &Rules<'_>,
        kinds: impl Iterator<Item = DemandKind>,
    ) -> f64 {
        let undone = DemandKind::hardest(kinds.filter(|&kind| !self.bare_does(kind)));
        let difference_deg: f64 = undone
            .clone()
            .map(|kind| match kind {
                DemandKind::List { moment_n_m } => {
                    moment_n_m / self.roll_per_degree_n_m(size, rules, 0.0)
                }
                _ => 0.0,
            })
            .sum::<f64>()
            .abs();
        let allowed_deg = rules.allowed_deg();
        let mean_deg = allowed_deg - 0.5 * difference_deg;
        let mut lack = if difference_deg > 0.0 {
            (difference_deg + self.dead_band_deg(size)) / allowed_deg - 1.0
        } else {
            f64::NEG_INFINITY
        };
        if self.settle_bare().is_none() {
            // Whatever is asked, she must run.
            let condition = self.bare.with_planes(size, mean_deg.max(0.0));
            let own = self.lack_at(&condition, LARGEST_TRIM_DEG);
            lack = lack.max(own);
        }
        for kind in undone {
            let own = match kind {
                DemandKind::List { .. } => continue,
                DemandKind::Resistance { .. } => self.utilisation(size, rules) - FULL_UTILISATION,
                _ => self.lack_of_trim(size, mean_deg.max(0.0), kind),
            };
            lack = lack.max(own);
        }
        lack
    }

    /// Moment bow up, over weight × beam, that is left at the trim wanted with planes at a mean deflection.
    fn lack_of_trim(&self, size: PlaneSize, deflection_deg: f64, kind: DemandKind) -> f64 {
        let condition = self.bare.with_planes(size, deflection_deg);
        let wanted_deg = match kind {
            DemandKind::Relief { at_least_deg } => self.relieved_trim_deg(at_least_deg),
            DemandKind::Trim { at_most_deg } => at_most_deg,
            DemandKind::Margin { margin_deg } => {
                if !self.porpoising_is_tested(self.bare_limit()) {
                    return f64::NEG_INFINITY;
                }
                let wanted_deg = condition.porpoising_limit().lower_deg() - margin_deg;
                if wanted_deg < TRIM_FLOOR_DEG {
                    return self.lack_of_margin(size, deflection_deg, margin_deg);
                }
                wanted_deg
            }
            DemandKind::Resistance { .. } | DemandKind::List { .. } => return f64::NEG_INFINITY,
        };
        self.lack_at(&condition, wanted_deg)
    }

    /// How far the deflection that a margin takes lies beyond what there is, where all of it has the planes carry
    /// so much that the limit itself falls below the floor of the trim: less does it, or none.
    fn lack_of_margin(&self, size: PlaneSize, deflection_deg: f64, margin_deg: f64) -> f64 {
        let there_is_deg = deflection_deg.min(self.safe_deg(size));
        if there_is_deg <= 0.0 {
            return OUT_OF_REACH;
        }
        self.deflection_for_margin(size, margin_deg) / there_is_deg - 1.0
    }

    /// Moment bow up, over weight × beam, that is left at a trim in a condition.
    fn lack_at(&self, condition: &Condition<'_>, wanted_deg: f64) -> f64 {
        if wanted_deg < TRIM_FLOOR_DEG {
            return OUT_OF_REACH;
        }
        if condition.hull_load_n() <= 0.0 {
            return f64::NEG_INFINITY;
        }
        let trim_deg = wanted_deg.clamp(LEAST_TRIM_DEG, LARGEST_TRIM_DEG);
        let forces = self.forces_near(condition, trim_deg, VERTICAL_TOLERANCE);
        if forces.lifted_off {
            return f64::NEG_INFINITY;
        }
        -forces.moment_n_m / (self.bare.prism.weight_n * self.bare.prism.beam_m)
    }
}

impl Bench<'_> {
    /// The least span that does what is asked at each site with a chord; infinite where none that fits does.
    ///
    /// The sites are looked at in an order of their own, the hardest first. One at which a span
    /// suffices that is needed elsewhere in the same loading condition is given the least span there
    /// is: only the largest of each condition is exact.
    pub fn least_spans_m(&self, chord_m: f64, order: &[usize]) -> Vec<f64> {
        let Some([least, largest]) = self.room.spans_m(chord_m) else {
            return vec![f64::INFINITY; self.sites.len()];
        };
        let mut spans_m = vec![least; self.sites.len()];
        let mut enough_m = vec![least; self.loaded.len()];
        for &index in order {
            let site = &self.sites[index];
            let enough_m = &mut enough_m[site.loaded];
            if let Some(span_m) = self.least_span_at_m(site, chord_m, [*enough_m, largest]) {
                (spans_m[index], *enough_m) = (span_m, span_m.min(largest));
            }
        }
        spans_m
    }

    /// Indices of the sites, that which needs the largest span with a chord first.
    pub fn hardest_first(&self, chord_m: f64) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.sites.len()).collect();
        if let Some(ends_m) = self.room.spans_m(chord_m) {
            let needed_m = |site| self.least_span_at_m(site, chord_m, ends_m).unwrap_or(0.0);
            let needed_m: Vec<f64> = self.sites.iter().map(needed_m).collect();
            order.sort_by(|&a, &b| needed_m[b].total_cmp(&needed_m[a]));
        }
        order
    }

    /// The least span between two that does what is asked at a site; infinite where the larger does not, none where the smaller does.
    fn least_span_at_m(
        &self,
        site: &Site<'_>,
        chord_m: f64,
        [least, largest]: [f64; 2],
    ) -> Option<f64> {
        let lack = |span_m: f64| site.lack(PlaneSize { span_m, chord_m }, &self.rules);
        if site.is_idle() {
            return None;
        }
        let low = [least, lack(least)];
        if low[1] <= CLOSE {
            return None;
        }
        let high = [largest, lack(largest)];
        if high[1] > 0.0 {
            return Some(f64::INFINITY);
        }
        Some(root_between(low, high, CLOSE, lack).unwrap_or(f64::INFINITY))
    }
}
