//! What a boat's duties ask of a pair that is given, e.g. one from the shelf, whose usable
//! deflection may change with the speed.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};
use uom::si::velocity::meter_per_second;

use super::duty::{add_demand, demand, range, speeds_m_s};
use super::site::{Demand, DemandKind, DemandNeed, Limit, Need, Rules, Site};
use super::suggest::{bench, degrees, duties_asked, speed};
use crate::balance::Settings;
use crate::balance::forces::{PlaneSize, Prism};
use crate::balance::sweep::planing_start;
use crate::boat::{Boat, Duty, Fault, PlanePair};

/// Rounding allowed when a share is held against the allowed one.
const ROUNDING: f64 = 1e-6;
/// Deflection that stands for 'none at all', degrees: less is of no use.
const NONE_DEG: f64 = 1e-3;

/// A boat's duties, ready to be asked of any pair.
pub(crate) struct Asked<'a> {
    prism: &'a Prism,
    pub duties: Vec<Duty>,
    /// Whether they were generated from the boat.
    pub generated: bool,
    demands: Vec<Asking>,
    rules: Rules,
}

/// A demand with the speeds at which it is looked at.
struct Asking {
    demand: Demand,
    speeds_m_s: Vec<f64>,
    /// Those that are looked at together with other demands: the ends, and where a usual size
    /// needs most.
    shared_m_s: Vec<f64>,
}

/// One duty, judged for one pair.
#[derive(Clone, Debug, PartialEq)]
pub struct PairDuty {
    /// The duty.
    pub duty: Duty,
    /// Speed at which the pair uses the largest share of what it can be put to there.
    pub speed: Velocity,
    /// Deflection needed there of the deeper plane.
    pub needed: Angle,
    /// Deflection that can be used there.
    pub usable: Angle,
    /// The one over the other; none when no deflection does the duty.
    pub share_used: Option<f64>,
    /// Whether it is done with the share allowed and a safe run.
    pub met: bool,
    /// How far it is missed: 1 is only just done, more is missed. Never infinite.
    pub strain: f64,
    /// What limits it.
    pub limit: Limit,
    /// What the deflection allowed gives, in words with numbers.
    pub given: String,
}

impl<'a> Asked<'a> {
    /// The duties of a boat, or those generated for it.
    pub fn of(boat: &Boat, prism: &'a Prism) -> Result<Self, Fault> {
        let (duties, generated) = duties_asked(boat, prism)?;
        let bench = bench(boat, prism, &duties);
        let start_m_s = planing_start(boat).get::<meter_per_second>();
        let mut demands = Vec::new();
        for (place, duty) in duties.iter().enumerate() {
            let ends = speeds_m_s(duty, start_m_s);
            let mut demand = demand(duty, place);
            if let DemandKind::Resistance { at_most_n: factor } = demand.kind {
                let least_n = bench.least_resistance_n(&Site::new(prism, ends[0]));
                demand.kind = DemandKind::Resistance { at_most_n: factor * least_n };
            }
            let biting = bench.sites.iter().filter(|site| site.demands.contains(&demand));
            let mut shared_m_s: Vec<f64> = biting.map(|site| site.bare.speed_m_s).collect();
            shared_m_s.extend(ends);
            let mut speeds_m_s = shared_m_s.clone();
            if ends[1] > ends[0] {
                speeds_m_s.extend(range(ends[0], ends[1]));
            }
            demands.push(Asking { demand, speeds_m_s, shared_m_s });
        }
        Ok(Self { prism, duties, generated, demands, rules: bench.rules })
    }

    /// Share of the usable deflection that duties may use.
    pub fn share_allowed(&self) -> f64 {
        self.rules.share
    }

    /// Whether the boat does every duty with planes up.
    pub fn bare_does_all(&self) -> bool {
        self.demands.iter().all(|asking| {
            let does =
                |&speed_m_s: &f64| Site::new(self.prism, speed_m_s).bare_does(asking.demand.kind);
            asking.speeds_m_s.iter().all(does)
        })
    }

    /// Every duty for a pair that can be put down, at a speed, as far as `usable` says; never
    /// further than the boat file allows.
    pub fn judge<E>(
        &self,
        pair: PlanePair,
        usable: impl Fn(Velocity) -> Result<Angle, E>,
    ) -> Result<Vec<PairDuty>, E> {
        let size = PlaneSize::from(pair);
        let rules_at = |speed_m_s: f64| -> Result<Rules, E> {
            let deg = usable(speed(speed_m_s))?.get::<degree>();
            Ok(Rules { usable_deg: deg.min(self.rules.usable_deg).max(NONE_DEG), ..self.rules })
        };
        let mut sites = Vec::new();
        for asking in &self.demands {
            let mut worst = (0.0, None);
            for &speed_m_s in &asking.speeds_m_s {
                let mut site = Site::new(self.prism, speed_m_s);
                site.demands.push(asking.demand);
                let need = site.need(size, &rules_at(speed_m_s)?);
                if need.strain > worst.0 {
                    worst = (need.strain, Some(speed_m_s));
                }
            }
            for speed_m_s in asking.shared_m_s.iter().copied().chain(worst.1) {
                add_demand(&mut sites, self.prism, speed_m_s, asking.demand);
            }
        }
        let mut judged: Vec<Option<PairDuty>> = vec![None; self.duties.len()];
        for site in &sites {
            let rules = rules_at(site.bare.speed_m_s)?;
            let need = site.need(size, &rules);
            for (demand, own) in site.demands.iter().zip(&need.demands) {
                let found = self.one(site, size, &rules, &need, (demand, own));
                let kept = &mut judged[demand.duty];
                if kept.as_ref().is_none_or(|kept| is_worse(&found, kept)) {
                    *kept = Some(found);
                }
            }
        }
        Ok(judged.into_iter().flatten().collect())
    }

    fn one(
        &self,
        site: &Site<'_>,
        size: PlaneSize,
        rules: &Rules,
        need: &Need,
        (demand, own): (&Demand, &DemandNeed),
    ) -> PairDuty {
        let needed_deg = own.deflection_deg + 0.5 * own.difference_deg.abs();
        let share = needed_deg / rules.usable_deg;
        let does = own.possible && share <= rules.share + ROUNDING;
        PairDuty {
            duty: self.duties[demand.duty],
            speed: speed(site.bare.speed_m_s),
            needed: degrees(needed_deg),
            usable: degrees(rules.usable_deg),
            share_used: own.possible.then_some(share),
            met: does && need.strain <= 1.0 + ROUNDING,
            strain: need.strain,
            limit: need.limit,
            given: given(site, size, rules, demand.kind),
        }
    }
}

/// Largest mean deflection of a pair with a safe run at each speed: trim not under 2°, bow not
/// driven under, keel within the bottom; zero where none is.
#[must_use]
pub fn safe_deflections(
    boat: &Boat,
    settings: &Settings,
    pair: PlanePair,
    speeds: &[Velocity],
) -> Vec<Angle> {
    let prism = Prism::new(boat, settings);
    let safe = |at: &Velocity| {
        degrees(Site::new(&prism, at.get::<meter_per_second>()).safe_deg(PlaneSize::from(pair)))
    };
    speeds.iter().map(safe).collect()
}

/// Whether a duty is further from being done at one speed than at another.
fn is_worse(one: &PairDuty, other: &PairDuty) -> bool {
    let share = |duty: &PairDuty| duty.share_used.unwrap_or(f64::INFINITY);
    match (one.met, other.met) {
        (false, true) => true,
        (true, false) => false,
        (false, false) => one.strain > other.strain,
        (true, true) => share(one) > share(other),
    }
}

/// What the deflection that duties may use gives for a demand.
fn given(site: &Site<'_>, size: PlaneSize, rules: &Rules, kind: DemandKind) -> String {
    let allowed_deg = (rules.usable_deg * rules.share).min(site.safe_deg(size));
    let Some(forces) = site.settle(size, allowed_deg) else {
        return "she does not run there".to_owned();
    };
    match kind {
        DemandKind::Trim { at_most_deg } => {
            format!("{:.2} deg of trim where {at_most_deg:.2} is asked", forces.trim_deg)
        }
        DemandKind::Margin { margin_deg } => {
            let over_deg = site.above_limit_deg(size, allowed_deg, 0.0);
            let side = if over_deg > 0.0 { "over" } else { "under" };
            format!(
                "{:.2} deg {side} the porpoising limit where {margin_deg:.2} under is asked",
                over_deg.abs()
            )
        }
        DemandKind::Resistance { at_most_n } => {
            let [_, least_n] = site.least_resistance(size, site.running_deg(size), allowed_deg);
            format!("{:.1} % of the resistance that is asked for", 100.0 * least_n / at_most_n)
        }
        DemandKind::List { moment_n_m } => {
            let needed_deg = site.difference_deg(size, rules, moment_n_m).abs();
            let share = (rules.usable_deg * rules.share / needed_deg.max(NONE_DEG)).min(1.0);
            format!("{:.0} % of the heeling moment levelled", 100.0 * share)
        }
    }
}
