//! What a size of plane needs at one speed to do all that is asked for there.

use super::bench::FULL_UTILISATION;
use super::demand::{Demand, DemandKind, DemandNeed, Limit, Need, Rules};
use super::site::{FARTHEST_DEG, Site};
use crate::balance::forces::PlaneSize;
use crate::balance::{LARGEST_TRIM_DEG, LEAST_TRIM_DEG, TRIM_FLOOR_DEG};

/// Utilisation that stands for 'at no deflection at all'.
const OUT_OF_REACH: f64 = 100.0;

impl Site<'_> {
    /// Whether no planes are needed here, so that no size is used.
    pub fn is_idle(&self) -> bool {
        self.demands.iter().all(|demand| self.bare_does(demand.kind))
    }

    /// What a size needs here.
    pub fn need(&self, size: PlaneSize, rules: &Rules) -> Need {
        self.need_for(size, rules, &self.demands)
    }

    /// How much a size is used here: what [`Self::need`] says, from the hardest of each kind alone.
    pub fn utilisation(&self, size: PlaneSize, rules: &Rules) -> f64 {
        if self.demands.len() < 2 {
            return self.need(size, rules).utilisation;
        }
        let kinds = DemandKind::hardest(self.demands.iter().map(|demand| demand.kind));
        let hardest: Vec<Demand> = kinds.map(|kind| Demand { duty: 0, kind }).collect();
        self.need_for(size, rules, &hardest).utilisation
    }

    fn need_for(&self, size: PlaneSize, rules: &Rules, asked: &[Demand]) -> Need {
        let running_deg = if self.settle_bare().is_some() { 0.0 } else { self.running_deg(size) };
        let demands: Vec<DemandNeed> = asked
            .iter()
            .map(|demand| self.demand_need(size, rules, *demand, running_deg))
            .collect();
        let mut deflection_deg = running_deg;
        let mut difference_deg = 0.0_f64;
        for demand in &demands {
            deflection_deg = deflection_deg.max(demand.deflection_deg);
            difference_deg += demand.difference_deg;
        }
        let mut need = Need {
            speed_m_s: self.bare.speed_m_s,
            demands,
            deflection_deg,
            difference_deg,
            utilisations: [(0.0, Limit::Deflection); 3],
            utilisation: 0.0,
            limit: Limit::Deflection,
            set_by: None,
        };
        self.judge(size, rules, asked, &mut need);
        need.set_by = Self::set_by(asked, &need);
        need
    }

    /// The duty behind the utilisation: the resistance that stays too high, or the one that needs most.
    fn set_by(asked: &[Demand], need: &Need) -> Option<usize> {
        let resistance = |demand: &&Demand| matches!(demand.kind, DemandKind::Resistance { .. });
        let needed = |need: &&DemandNeed| need.deepest_deg();
        match need.limit {
            Limit::Duty => asked.iter().find(resistance).map(|demand| demand.duty),
            _ => need
                .demands
                .iter()
                .max_by(|a, b| needed(a).total_cmp(&needed(b)))
                .map(|need| need.duty),
        }
    }

    /// Sets utilisation and limit.
    fn judge(&self, size: PlaneSize, rules: &Rules, asked: &[Demand], need: &mut Need) {
        let used_deg = need.used_deg();
        need.utilisations = [
            (used_deg / rules.allowed_deg(), Limit::Deflection),
            (self.impossible(size, asked, need), Limit::Duty),
            (self.unsafe_run(size, need), Limit::SafeRun),
        ];
        for (utilisation, limit) in need.utilisations {
            if utilisation > need.utilisation {
                (need.utilisation, need.limit) = (utilisation, limit);
            }
        }
    }

    /// Utilisation of the safe run: 2° over the trim.
    ///
    /// Planes that stay up answer for nothing: how she runs bare is not of their doing.
    fn unsafe_run(&self, size: PlaneSize, need: &Need) -> f64 {
        if need.deflection_deg <= 0.0 {
            return if self.settle_bare().is_some() { 0.0 } else { OUT_OF_REACH };
        }
        let settled = || Some(self.settle(size, need.deflection_deg)?.trim_deg);
        if let Some(trim_deg) = self.trim_asked_for(size, need).or_else(settled) {
            return TRIM_FLOOR_DEG / trim_deg;
        }
        // The bow is driven under: beyond any trim there is.
        let driven_under = TRIM_FLOOR_DEG / LEAST_TRIM_DEG;
        let over =
            need.deflection_deg / self.safe_deg(size).max(need.deflection_deg / OUT_OF_REACH);
        driven_under.max(over)
    }

    /// The trim at the deflection chosen, where a demand for a trim set it and she has but one.
    fn trim_asked_for(&self, size: PlaneSize, need: &Need) -> Option<f64> {
        let deflection_deg = need.deflection_deg;
        #[allow(clippy::float_cmp)]
        let set_by = need.demands.iter().find(|own| own.deflection_deg == deflection_deg)?;
        let is_reached = deflection_deg < FARTHEST_DEG
            && self.bare.with_planes(size, deflection_deg).has_one_root();
        let trims = LEAST_TRIM_DEG..=LARGEST_TRIM_DEG;
        set_by.trim_deg.filter(|trim_deg| is_reached && trims.contains(trim_deg))
    }

    /// Utilisation of a resistance that the deflection chosen does not reach: above 1 by the share it misses.
    fn impossible(&self, size: PlaneSize, asked: &[Demand], need: &Need) -> f64 {
        let mut utilisation = 0.0_f64;
        for (demand, own) in asked.iter().zip(&need.demands) {
            let alone = own.possible && (own.deflection_deg - need.deflection_deg).abs() < 1e-12;
            if let DemandKind::Resistance { at_most_n } = demand.kind
                && !alone
            {
                let reached_n = self.resistance_n(size, need.deflection_deg);
                let over = if reached_n.is_finite() { reached_n / at_most_n } else { OUT_OF_REACH };
                if over > 1.0 + 1e-9 {
                    utilisation = utilisation.max(over);
                }
            }
        }
        utilisation
    }

    /// Whether a demand is done: together with all others here; else by itself, or, where each is done
    /// by itself and only all together are too much, unless it is the one that needs most.
    pub fn does(&self, size: PlaneSize, rules: &Rules<'_>, need: &Need, demand: &Demand) -> bool {
        if need.utilisation <= FULL_UTILISATION {
            return true;
        }
        let alone = |demand: &Demand| {
            let mut alone = Site::new(self.loaded, self.bare.prism, self.bare.speed_m_s);
            alone.demands.push(*demand);
            alone.need(size, rules).utilisation <= FULL_UTILISATION
        };
        if self.demands.iter().all(alone) {
            need.set_by.is_some_and(|duty| duty != demand.duty)
        } else {
            alone(demand)
        }
    }

    /// How near the bare boat comes to missing a demand; only to be compared between speeds.
    pub fn closeness_bare(&self, kind: DemandKind) -> f64 {
        let Some(forces) = self.settle_bare() else { return f64::INFINITY };
        match kind {
            DemandKind::Relief { .. } | DemandKind::Trim { .. } => forces.trim_deg,
            DemandKind::Margin { .. } => forces.trim_deg - self.bare_limit().lower_deg(),
            DemandKind::Resistance { .. } | DemandKind::List { .. } => 0.0,
        }
    }

    /// Whether the boat does a demand with planes up.
    pub fn bare_does(&self, kind: DemandKind) -> bool {
        match kind {
            DemandKind::Relief { at_least_deg } if at_least_deg > 0.0 => return false,
            DemandKind::List { moment_n_m } if moment_n_m != 0.0 => return false,
            _ => {}
        }
        let Some(forces) = self.settle_bare() else { return false };
        match kind {
            DemandKind::Trim { at_most_deg } => forces.trim_deg <= at_most_deg,
            DemandKind::Margin { margin_deg } => {
                let limit = self.bare_limit();
                !self.porpoising_is_tested(limit)
                    || forces.trim_deg <= limit.lower_deg() - margin_deg
            }
            DemandKind::Resistance { at_most_n } => {
                self.bare.resistance_parts_n(forces).iter().sum::<f64>() <= at_most_n
            }
            DemandKind::Relief { .. } | DemandKind::List { .. } => true,
        }
    }

    fn demand_need(
        &self,
        size: PlaneSize,
        rules: &Rules,
        demand: Demand,
        running_deg: f64,
    ) -> DemandNeed {
        let mut need = DemandNeed {
            duty: demand.duty,
            deflection_deg: 0.0,
            difference_deg: 0.0,
            possible: true,
            trim_deg: None,
        };
        if self.bare_does(demand.kind) {
            return need;
        }
        match demand.kind {
            DemandKind::Relief { at_least_deg } => {
                let target_deg = self.relieved_trim_deg(at_least_deg);
                need.deflection_deg = self.deflection_for_trim(size, target_deg);
                need.possible = target_deg >= TRIM_FLOOR_DEG;
                need.trim_deg = Some(target_deg);
            }
            DemandKind::Trim { at_most_deg } => {
                need.deflection_deg = self.deflection_for_trim(size, at_most_deg);
                need.trim_deg = Some(at_most_deg);
            }
            DemandKind::Margin { margin_deg } => {
                // Where the curve or the planes are untested she need only run.
                if self.porpoising_is_tested(self.bare_limit()) {
                    need.deflection_deg = self.deflection_for_margin(size, margin_deg);
                }
            }
            DemandKind::Resistance { at_most_n } => {
                (need.deflection_deg, need.possible) =
                    self.deflection_for_resistance(size, at_most_n, running_deg);
            }
            DemandKind::List { moment_n_m } => {
                need.difference_deg = moment_n_m / self.roll_per_degree_n_m(size, rules, 0.0);
                // The higher plane stands at the end of the dead band, where it begins to lift.
                need.deflection_deg = 0.5 * need.difference_deg.abs() + self.dead_band_deg(size);
            }
        }
        need
    }
}
