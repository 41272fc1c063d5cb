//! What a part bears at the deflection that is allowed, on one boat or in several loading
//! conditions: plate, screws and actuators, each with its verdict.
//!
//! Allowed at a speed is the least of what the boat file says can be used, what the part can be put
//! to there, and the largest deflection with a safe run. Strength is judged there and nowhere else:
//! a plate that would fold at 15° and top speed is no worse for it where 5° already drive the bow
//! down.

use uom::si::f64::{Angle, Force, Length, Velocity};
use uom::si::velocity::meter_per_second;

use super::bolts::ThroughBolts;
use super::{AssessError, Bearing, LoadAt, Ready, Settings};
use crate::balance::sweep::planing_start;
use crate::boat::Boat;
use crate::field::{InSi, by_word, written};
use crate::plane::strength::Verdict;
use crate::stock::Part;

/// Speeds from the start of the planing range to top speed at which strength is judged.
const SPEEDS: u32 = 12;

/// What may give way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bearer {
    /// The plate.
    Plate,
    /// Screws of the hinge leaf.
    HingeScrews,
    /// Screws of the upper brackets.
    BracketScrews,
    /// The actuators standing still.
    Actuators,
}

impl Bearer {
    /// Stable word for outputs.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Plate => "plate",
            Self::HingeScrews => "hinge-screws",
            Self::BracketScrews => "bracket-screws",
            Self::Actuators => "actuators",
        }
    }

    /// The same for a person.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::Plate => "the plate",
            Self::HingeScrews => "the hinge screws",
            Self::BracketScrews => "the bracket screws",
            Self::Actuators => "the standing actuators",
        }
    }
}

by_word!(Bearer);

/// One of them under the two loads, at a speed and a deflection.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Check {
    /// What is loaded.
    pub bearer: Bearer,
    /// Share that the load of steady running takes of what it bears with its safety factor; none
    /// where that is not covered.
    pub steady: Option<f64>,
    /// The same of the slamming load.
    pub slamming: Option<f64>,
    /// The speed.
    pub speed: Velocity,
    /// The deflection.
    pub deflection: Angle,
}

impl Check {
    /// What is to be said of it; none where it is not covered.
    #[must_use]
    pub fn verdict(&self) -> Option<Verdict> {
        Some(Verdict::of(self.steady?, self.slamming?))
    }

    /// Worse of two: by verdict, then by the slamming load.
    pub(super) fn worse(self, other: Self) -> Self {
        let rank = |check: &Self| (check.verdict(), check.slamming.unwrap_or(0.0));
        let (own, others) = (rank(&self), rank(&other));
        if others.0 > own.0 || (others.0 == own.0 && others.1 > own.1) { other } else { self }
    }
}

written! {
    Check as check {
        "check": check.bearer,
        "verdict": check.verdict(),
        "speed_m_s": check.speed.in_si(),
        "deflection_deg": check.deflection.in_si(),
        "steady_share": check.steady,
        "slamming_share": check.slamming,
    }
    Strength as strength {
        "verdict": strength.verdict(),
        "checks": strength.checks,
        "needed_thickness_m": strength.needed_thickness.in_si(),
        "needed_hold_n": strength.needed_hold.in_si(),
        "hinge": strength.bolts.hinge,
        "bracket": strength.bolts.bracket,
    }
}

/// What a part bears at all speeds, each thing where it is worst off.
#[derive(Clone, Debug, PartialEq)]
pub struct Strength {
    /// Plate, hinge screws, bracket screws and actuators.
    pub checks: [Check; 4],
    /// Bolts in the place of the screws that do not bear the slamming load.
    pub bolts: ThroughBolts,
    /// Thickness of a flat plate that bears it.
    pub needed_thickness: Length,
    /// What an actuator must bear standing still under it.
    pub needed_hold: Force,
}

impl Strength {
    /// The worst verdict of what is covered.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        let all = self.checks.iter().filter_map(Check::verdict);
        all.max().unwrap_or(Verdict::Bears)
    }

    /// One of the checks.
    #[must_use]
    pub fn of(&self, bearer: Bearer) -> &Check {
        match bearer {
            Bearer::Plate => &self.checks[0],
            Bearer::HingeScrews => &self.checks[1],
            Bearer::BracketScrews => &self.checks[2],
            Bearer::Actuators => &self.checks[3],
        }
    }

    /// What has a verdict.
    pub fn having(&self, verdict: Verdict) -> impl Iterator<Item = &Check> {
        self.checks.iter().filter(move |check| check.verdict() == Some(verdict))
    }

    /// Whether the screws are covered by the equations for wood.
    #[must_use]
    pub fn covers_screws(&self) -> bool {
        self.of(Bearer::HingeScrews).verdict().is_some()
    }
}

/// What a part bears on a boat in some loading conditions, from the start of the planing range to
/// top speed, at the deflection allowed there.
///
/// # Errors
/// As [`super::assess`]; and when there is no boat.
pub fn strength(part: &Part, boats: &[Boat], settings: &Settings) -> Result<Strength, AssessError> {
    let ready = boats.iter().map(|boat| Ready::new(part, boat, settings));
    strength_of(&ready.collect::<Result<Vec<_>, _>>()?)
}

/// The same of a part made ready in each of the conditions.
pub(in crate::stock) fn strength_of(ready: &[Ready<'_>]) -> Result<Strength, AssessError> {
    let first = ready.first().ok_or_else(crate::size::no_condition)?;
    let mut loads = Vec::new();
    for own in ready {
        for speed in judged_speeds(own.boat) {
            loads.extend(own.at(speed)?.map(|at| at.load));
        }
    }
    if loads.is_empty() {
        // She runs nowhere: nothing is loaded.
        loads.push(first.unloaded()?);
    }
    let worst = |all: [Check; 4], one: [Check; 4]| [0, 1, 2, 3].map(|i| all[i].worse(one[i]));
    let checks = loads.iter().map(|at| at.checks).fold(loads[0].checks, worst);
    let thickness = loads.iter().map(|at| at.design.plate.needed_thickness);
    Ok(Strength {
        checks,
        bolts: ThroughBolts::of(&first.fastenings, &checks, &loads)?,
        needed_thickness: thickness.fold(Length::default(), Length::max),
        needed_hold: loads.iter().map(|at| at.design_push).fold(Force::default(), Force::max),
    })
}

/// Even steps from the start of the planing range to top speed.
pub(super) fn judged_speeds(boat: &Boat) -> Vec<Velocity> {
    let start = planing_start(boat).get::<meter_per_second>();
    let top = boat.drive().top_speed.get::<meter_per_second>().max(start);
    let at = |step: u32| start + (top - start) * f64::from(step) / f64::from(SPEEDS - 1);
    (0..SPEEDS).map(|step| Velocity::new::<meter_per_second>(at(step))).collect()
}

impl Ready<'_> {
    /// The checks under a load: pushes, and plate and screws, each steady and slamming.
    pub(super) fn checks(
        &self,
        load: &LoadAt,
        pushes: [Force; 2],
        bearings: [&Bearing; 2],
    ) -> [Check; 4] {
        let (required, hold) = (self.plate_factor(), self.gear.actuator.hold());
        let check = |bearer, [steady, slamming]: [Option<f64>; 2]| Check {
            bearer,
            steady,
            slamming,
            speed: load.speed,
            deflection: load.deflection,
        };
        let plate = bearings.map(|bearing| Some(required / bearing.plate.safety_factor));
        [
            check(Bearer::Plate, plate),
            check(Bearer::HingeScrews, bearings.map(|bearing| bearing.screws.hinge_share())),
            check(Bearer::BracketScrews, bearings.map(|bearing| bearing.screws.bracket_share())),
            check(Bearer::Actuators, pushes.map(|push| Some((push / hold).value))),
        ]
    }
}
