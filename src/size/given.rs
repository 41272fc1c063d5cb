//! What a boat's duties ask of a pair that is given, e.g. one from the shelf, whose usable
//! deflection may change with the speed.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};
use uom::si::velocity::meter_per_second;

use super::bench::Bench;
use super::demand::{Demand, DemandKind, DemandNeed, Limit, Need, Rules};
use super::loaded::{Asking, Loaded};
use super::site::Site;
use super::suggest::{degrees, speed};
use crate::balance::Settings;
use crate::balance::forces::{PlaneSize, Prism};
use crate::boat::{Boat, Duty, Fault, PlanePair};
use crate::flag::Flag;

/// Deflection that stands for 'none at all', degrees: less is of no use.
const NONE_DEG: f64 = 1e-3;

/// A boat's duties, ready to be asked of any pair.
pub(crate) struct AskedOfPair<'a> {
    pub asking: Asking,
    bench: Bench<'a>,
}

/// One duty, judged for one pair.
#[derive(Clone, Debug, PartialEq)]
pub struct PairDuty {
    /// The duty.
    pub duty: Duty,
    /// Name of the loading condition in which it is furthest from being done.
    pub condition: String,
    /// Index of it among those asked about.
    pub(crate) loaded: usize,
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
    pub utilisation: f64,
    /// What limits it.
    pub limit: Limit,
    /// What the deflection allowed gives.
    pub given: Given,
}

/// What the deflection that duties may use gives for one of them. [`Display`](std::fmt::Display) says it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Given {
    /// Nothing: she does not run there.
    NoRun,
    /// So much off the trim with planes up.
    Relief {
        /// What is taken off.
        taken: Angle,
        /// What is asked for.
        asked: Angle,
    },
    /// A running trim.
    Trim {
        /// The trim.
        trim: Angle,
        /// The most that is asked for.
        asked: Angle,
    },
    /// A margin under the porpoising limit.
    Margin {
        /// How far under it she trims; negative over it.
        under: Angle,
        /// What is asked for.
        asked: Angle,
    },
    /// Resistance.
    Resistance {
        /// The least of it, over what is asked for.
        share: f64,
    },
    /// Part of the heeling moment levelled.
    Levelled {
        /// That part.
        share: f64,
    },
}

impl<'a> AskedOfPair<'a> {
    /// The duties of a boat in some loading conditions, or those generated for her.
    pub fn of(loaded: &'a [Loaded<'a>], settings: &Settings) -> Result<Self, Fault> {
        let asking = Asking::of(loaded, settings)?;
        let bench = Bench::new(loaded, &asking.duties);
        Ok(Self { asking, bench })
    }

    /// Share of the usable deflection that duties may use.
    pub fn share_allowed(&self) -> f64 {
        self.bench.rules.share
    }

    /// Whether every duty can be judged on the boat as described.
    pub fn is_all_judged(&self) -> bool {
        !self.bench.unjudged(self.asking.duties.len()).contains(&true)
    }

    /// Whether the boat does every duty with planes up.
    pub fn bare_does_all(&self) -> bool {
        self.bench.bare_does_all()
    }

    /// Every duty for a pair that can be put down, in the condition of an index and at a speed, as far as `usable` says; never
    /// further than the boat file allows.
    pub fn judge<E>(
        &self,
        pair: PlanePair,
        usable: impl Fn(usize, Velocity) -> Result<Angle, E>,
    ) -> Result<Vec<PairDuty>, E> {
        let size = PlaneSize::from(pair);
        let mut judged: Vec<Option<PairDuty>> = vec![None; self.asking.duties.len()];
        for site in self.bench.all_sites() {
            let rules = self.rules_at(usable(site.loaded, speed(site.bare.speed_m_s))?);
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

    /// Whether planes of such a chord were not tested at the speed where a duty asks most of them, at the deflection it needs there, no further than what they can be put to.
    pub fn is_chord_untested(&self, pair: PlanePair, duty: &PairDuty) -> bool {
        let is_there = |site: &&Site<'_>| {
            site.loaded == duty.loaded && speed(site.bare.speed_m_s) == duty.speed
        };
        let deflection_deg = duty.needed.min(duty.usable).get::<degree>();
        self.bench.all_sites().find(is_there).is_some_and(|site| {
            let flags = site.flags(Some((pair.into(), deflection_deg)));
            flags.contains(Flag::PlaneChordBeyondTested)
        })
    }

    /// How far down the deeper plane of a pair goes at every speed that is looked at, to do what is
    /// asked there and no further than it can be put; speeds at which the planes stay up are left out.
    pub fn put_to<E>(
        &self,
        pair: PlanePair,
        usable: impl Fn(usize, Velocity) -> Result<Angle, E>,
    ) -> Result<Vec<(usize, Velocity, Angle)>, E> {
        let mut found = Vec::new();
        for site in self.bench.all_sites() {
            let at = speed(site.bare.speed_m_s);
            let rules = self.rules_at(usable(site.loaded, at)?);
            let used_deg = site.need(pair.into(), &rules).used_deg().min(rules.usable_deg);
            if used_deg > NONE_DEG {
                found.push((site.loaded, at, degrees(used_deg)));
            }
        }
        Ok(found)
    }

    /// The rules for a pair that can be put down so far, never further than the boat file allows.
    fn rules_at(&self, usable: Angle) -> Rules<'a> {
        let own = self.bench.rules;
        let usable_deg = usable.get::<degree>().min(own.usable_deg).max(NONE_DEG);
        Rules { usable_deg, ..own }
    }

    fn one(
        &self,
        site: &Site<'_>,
        size: PlaneSize,
        rules: &Rules<'_>,
        need: &Need,
        (demand, own): (&Demand, &DemandNeed),
    ) -> PairDuty {
        let needed_deg = own.deepest_deg();
        let share = needed_deg / rules.usable_deg;
        PairDuty {
            duty: self.asking.duties[demand.duty].duty,
            condition: self.bench.loaded[site.loaded].name().to_owned(),
            loaded: site.loaded,
            speed: speed(site.bare.speed_m_s),
            needed: degrees(needed_deg),
            usable: degrees(rules.usable_deg),
            share_used: own.possible.then_some(share),
            met: site.does(size, rules, need, demand),
            utilisation: need.utilisation,
            limit: need.limit,
            given: given(site, size, rules, demand.kind),
        }
    }
}

/// Largest mean deflection of a pair without danger at each speed: trim not under 2°, bow not
/// driven under; zero where none is.
#[must_use]
pub fn safe_deflections(
    boat: &Boat,
    settings: &Settings,
    pair: PlanePair,
    speeds: &[Velocity],
) -> Vec<Angle> {
    let prism = Prism::new(boat, settings);
    let safe = |at: &Velocity| {
        degrees(Site::new(0, &prism, at.get::<meter_per_second>()).safe_deg(PlaneSize::from(pair)))
    };
    speeds.iter().map(safe).collect()
}

/// Whether a duty is further from being done at one speed than at another.
fn is_worse(one: &PairDuty, other: &PairDuty) -> bool {
    let share = |duty: &PairDuty| duty.share_used.unwrap_or(f64::INFINITY);
    match (one.met, other.met) {
        (false, true) => true,
        (true, false) => false,
        (false, false) => one.utilisation > other.utilisation,
        (true, true) => share(one) > share(other),
    }
}

/// What the deflection that duties may use gives for a demand.
fn given(site: &Site<'_>, size: PlaneSize, rules: &Rules<'_>, kind: DemandKind) -> Given {
    let allowed_deg = (rules.usable_deg * rules.share).min(site.safe_deg(size));
    let Some(forces) = site.settle(size, allowed_deg) else {
        return Given::NoRun;
    };
    match kind {
        DemandKind::Relief { at_least_deg } => Given::Relief {
            taken: degrees(site.relieved_trim_deg(0.0) - forces.trim_deg),
            asked: degrees(at_least_deg),
        },
        DemandKind::Trim { at_most_deg } => {
            Given::Trim { trim: degrees(forces.trim_deg), asked: degrees(at_most_deg) }
        }
        DemandKind::Margin { margin_deg } => Given::Margin {
            under: degrees(site.margin_deg(size, allowed_deg).unwrap_or(0.0)),
            asked: degrees(margin_deg),
        },
        DemandKind::Resistance { at_most_n } => {
            let [_, least_n] = site.least_resistance(size, site.running_deg(size), allowed_deg);
            Given::Resistance { share: least_n / at_most_n }
        }
        DemandKind::List { moment_n_m } => {
            let needed_deg = (moment_n_m / site.roll_per_degree_n_m(size, rules, 0.0)).abs();
            let share = (rules.usable_deg * rules.share / needed_deg.max(NONE_DEG)).min(1.0);
            Given::Levelled { share }
        }
    }
}
