//! Resistance from rest to top speed, with the planes up, held, or used as well as they can be.
//!
//! From the speed at which the boat counts as planing (Cv 1) the resistance is
//! that of the planing balance. Below, it is
//!
//! * the pre-planing regression from F∇ 1 upward, where the boat file gives
//!   what it asks. It is brought to the planing balance by a factor that goes
//!   from 1 at F∇ 1 smoothly to what is needed at the joint, so that nothing jumps;
//! * below that, and from rest to the joint where there is no regression, a
//!   parabola through rest: R rises with V², as friction does. It is marked as
//!   an interpolation: time to plane hardly depends on it, since thrust exceeds
//!   resistance there several times.
//!
//! A boat whose stern is too heavy at Cv 1 is joined where she first finds a balance.

use std::fmt;

use uom::si::angle::degree;
use uom::si::f64::{Angle, Force, Velocity};
use uom::si::{force::newton, velocity::meter_per_second};

use crate::balance::forces::{Condition, PlaneSize, Prism};
use crate::balance::sweep::planing_start;
use crate::balance::{Outcome, Point, PrePlaning, Settings, point_at};
use crate::boat::{Boat, PlanePair};
use crate::field::by_word;
use crate::flag::Flags;
use crate::numeric::{level_interpolation, root_between};
use crate::size::Site;

/// How the planes are used on the way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Way {
    /// Up all the way.
    Up,
    /// Held at one mean deflection.
    Held(Angle),
    /// At each speed where the resistance is least with a safe run: trim not under 2°, bow not driven under.
    Best,
}

impl Way {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Up => "planes-up",
            Self::Held(_) => "held",
            Self::Best => "best",
        }
    }

    /// The deflection at which they are held, if they are.
    #[must_use]
    pub const fn held(self) -> Option<Angle> {
        match self {
            Self::Held(deflection) => Some(deflection),
            Self::Up | Self::Best => None,
        }
    }
}

/// Where a resistance comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// The planing balance.
    Balance,
    /// The pre-planing regression, brought to the planing balance at the joint.
    Regression,
    /// A parabola through rest.
    Interpolation,
}

impl Basis {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Balance => "planing-balance",
            Self::Regression => "pre-planing-regression",
            Self::Interpolation => "interpolation",
        }
    }

    /// One sentence for a person.
    #[must_use]
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Balance => "From the planing balance, as in `run`.",
            Self::Regression => {
                "Below planing, from the regression of Mercier & Savitsky (1973), brought to the planing balance at Cv 1."
            }
            Self::Interpolation => {
                "Below planing, interpolated to nothing at rest, by the square of the speed."
            }
        }
    }
}

by_word!(Basis, Way);

impl fmt::Display for Basis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// Resistance at one speed, and where it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drag {
    /// The resistance; none where the boat finds no balance.
    pub resistance: Option<Force>,
    /// Where it comes from.
    pub basis: Basis,
    /// Mean deflection of the planes; none before she planes when it is not held.
    pub deflection: Option<Angle>,
    /// What to know before trusting it.
    pub flags: Flags,
}

/// No planes at all.
const NO_PLANES: PlaneSize = PlaneSize { span_m: 0.0, chord_m: 0.0 };

/// A boat ready to be asked for her resistance at any speed.
#[derive(Clone, Debug)]
pub struct FromRest {
    prism: Prism,
    size: PlaneSize,
    way: Way,
    regression: Option<PrePlaning>,
    /// Speed and deflection, for [`Way::Best`].
    schedule: Vec<[f64; 2]>,
    joint: Joint,
}

/// Steps at which the regression must have a number up to where the planing balance begins.
const REGRESSION_STEPS: u32 = 20;

/// Where the planing balance begins.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Joint {
    speed_m_s: f64,
    resistance_n: f64,
}

impl FromRest {
    /// A boat with a pair used in one way; `up_to` is the highest speed that will be asked for.
    ///
    /// # Errors
    /// What she does at the start of planing, when she finds no balance at any speed up to there.
    pub fn of(
        boat: &Boat,
        settings: &Settings,
        pair: Option<PlanePair>,
        way: Way,
        up_to: Velocity,
    ) -> Result<Self, Outcome> {
        let mut from_rest = Self {
            prism: Prism::new(boat, settings),
            size: pair.map_or(NO_PLANES, PlaneSize::from),
            way,
            regression: PrePlaning::of(boat, settings),
            schedule: Vec::new(),
            joint: Joint { speed_m_s: f64::INFINITY, resistance_n: 0.0 },
        };
        let start_m_s = planing_start(boat).get::<meter_per_second>();
        let speeds_m_s = speeds_m_s(start_m_s, up_to.get::<meter_per_second>());
        if way == Way::Best && pair.is_some() {
            let usable_deg = boat.sizing().largest_deflection.get::<degree>();
            from_rest.schedule = from_rest.best_schedule(&speeds_m_s, usable_deg);
        }
        match from_rest.first_balance(&speeds_m_s) {
            Some(joint) => Ok(Self { joint, ..from_rest }),
            None => Err(from_rest.outcome(start_m_s)),
        }
    }

    /// Resistance at a speed.
    #[must_use]
    pub fn at(&self, speed: Velocity) -> Drag {
        let speed_m_s = speed.get::<meter_per_second>();
        let basis = self.basis(speed_m_s);
        let resistance_n = self.resistance_n(speed_m_s);
        let flags = match basis {
            Basis::Balance => self.point(speed_m_s).flags,
            Basis::Regression => self.regression.map(|r| r.flags()).unwrap_or_default(),
            Basis::Interpolation => Flags::default(),
        };
        let deflection_deg = match (self.way, basis) {
            (Way::Best, Basis::Regression | Basis::Interpolation) => None,
            _ => Some(self.deflection_deg(speed_m_s)),
        };
        Drag {
            resistance: resistance_n.map(Force::new::<newton>),
            basis,
            deflection: deflection_deg.map(Angle::new::<degree>),
            flags,
        }
    }

    /// What the planing balance says at a speed at or above the joint.
    #[must_use]
    pub fn planing_point(&self, speed: Velocity) -> Option<Point> {
        let speed_m_s = speed.get::<meter_per_second>();
        (speed_m_s >= self.joint.speed_m_s).then(|| self.point(speed_m_s))
    }

    /// Speed from which the resistance is that of the planing balance.
    #[must_use]
    pub fn joint(&self) -> Velocity {
        Velocity::new::<meter_per_second>(self.joint.speed_m_s)
    }

    /// Speed from which the regression is used, when it is.
    #[must_use]
    pub fn regression_start(&self) -> Option<Velocity> {
        self.regression_start_m_s().map(Velocity::new::<meter_per_second>)
    }

    /// How the planes are used.
    #[must_use]
    pub const fn way(&self) -> Way {
        self.way
    }

    /// Resistance; none where the boat finds no balance.
    pub(crate) fn resistance_n(&self, speed_m_s: f64) -> Option<f64> {
        if speed_m_s >= self.joint.speed_m_s {
            return self.balance_n(speed_m_s);
        }
        let Some(start_m_s) = self.regression_start_m_s() else {
            return Some(self.joint.resistance_n * (speed_m_s / self.joint.speed_m_s).powi(2));
        };
        if speed_m_s >= start_m_s {
            return self.joined_regression_n(start_m_s, speed_m_s);
        }
        let at_start_n = self.joined_regression_n(start_m_s, start_m_s)?;
        Some(at_start_n * (speed_m_s / start_m_s).powi(2))
    }

    /// Where the resistance at a speed comes from.
    pub(crate) fn basis(&self, speed_m_s: f64) -> Basis {
        match self.regression_start_m_s() {
            _ if speed_m_s >= self.joint.speed_m_s => Basis::Balance,
            Some(start_m_s) if speed_m_s >= start_m_s => Basis::Regression,
            _ => Basis::Interpolation,
        }
    }

    /// F∇ 1, when the regression stands from there to the joint.
    fn regression_start_m_s(&self) -> Option<f64> {
        let regression = self.regression?;
        let start_m_s = regression.speeds()[0].get::<meter_per_second>();
        // A hair above F∇ 1, so that the regression has an answer there.
        let start_m_s = start_m_s * (1.0 + 1e-12);
        let joint_m_s = self.joint.speed_m_s;
        let mut speeds_m_s = (0..=REGRESSION_STEPS).map(|step| {
            start_m_s + (joint_m_s - start_m_s) * f64::from(step) / f64::from(REGRESSION_STEPS)
        });
        let reaches = start_m_s < joint_m_s
            && speeds_m_s.all(|speed_m_s| regression.resistance_n(speed_m_s).is_some());
        reaches.then_some(start_m_s)
    }

    /// The regression with its factor: 1 where it begins, what meets the balance at the joint.
    fn joined_regression_n(&self, start_m_s: f64, speed_m_s: f64) -> Option<f64> {
        let regression = self.regression?;
        let at_joint_n = regression.resistance_n(self.joint.speed_m_s)?;
        let share = (speed_m_s - start_m_s) / (self.joint.speed_m_s - start_m_s);
        let smooth = share * share * (3.0 - 2.0 * share);
        let factor = 1.0 + smooth * (self.joint.resistance_n / at_joint_n - 1.0);
        Some(regression.resistance_n(speed_m_s)? * factor)
    }

    fn deflection_deg(&self, speed_m_s: f64) -> f64 {
        match self.way {
            Way::Up => 0.0,
            Way::Held(deflection) => deflection.get::<degree>(),
            Way::Best => level_interpolation(&self.schedule, speed_m_s),
        }
    }

    /// Resistance of the planing balance; none where there is no stable one.
    fn balance_n(&self, speed_m_s: f64) -> Option<f64> {
        let site = Site::new(0, &self.prism, speed_m_s);
        let resistance_n = site.resistance_n(self.size, self.deflection_deg(speed_m_s));
        resistance_n.is_finite().then_some(resistance_n)
    }

    fn condition(&self, speed_m_s: f64) -> Condition<'_> {
        let bare = self.prism.at(speed_m_s);
        if self.size == NO_PLANES {
            bare
        } else {
            bare.with_planes(self.size, self.deflection_deg(speed_m_s))
        }
    }

    fn point(&self, speed_m_s: f64) -> Point {
        point_at(&self.condition(speed_m_s), None)
    }

    /// What the balance says where the boat does not run.
    pub(crate) fn outcome(&self, speed_m_s: f64) -> Outcome {
        self.point(speed_m_s).outcome
    }

    /// Deflection of least resistance with a safe run at each speed.
    fn best_schedule(&self, speeds_m_s: &[f64], usable_deg: f64) -> Vec<[f64; 2]> {
        let best = |&speed_m_s: &f64| {
            let site = Site::new(0, &self.prism, speed_m_s);
            let least_deg = site.running_deg(self.size).min(usable_deg);
            let safe_deg = site.safe_deg(self.size).min(usable_deg).max(least_deg);
            [speed_m_s, site.least_resistance(self.size, least_deg, safe_deg)[0]]
        };
        speeds_m_s.iter().map(best).collect()
    }

    /// The slowest speed with a balance, to within rounding.
    fn first_balance(&self, speeds_m_s: &[f64]) -> Option<Joint> {
        let first = speeds_m_s.iter().position(|&v| self.balance_n(v).is_some())?;
        let mut runs_m_s = speeds_m_s[first];
        if let Some(before) = first.checked_sub(1) {
            // The sign of this has its root where the balance begins.
            let side = |v: f64| if self.balance_n(v).is_some() { 1.0 } else { -1.0 };
            let edge_m_s = root_between([speeds_m_s[before], -1.0], [runs_m_s, 1.0], 0.0, side);
            let inside_m_s = edge_m_s.map(|edge_m_s| edge_m_s + 1e-9 * edge_m_s);
            let runs = |&inside_m_s: &f64| self.balance_n(inside_m_s).is_some();
            runs_m_s = inside_m_s.filter(runs).unwrap_or(runs_m_s);
        }
        Some(Joint { speed_m_s: runs_m_s, resistance_n: self.balance_n(runs_m_s)? })
    }
}

/// Speeds that the planing range is looked at.
fn speeds_m_s(start_m_s: f64, up_to_m_s: f64) -> Vec<f64> {
    const STEPS: u32 = 100;
    let step_m_s = ((up_to_m_s - start_m_s) / f64::from(STEPS)).max(0.0);
    (0..=STEPS).map(|step| start_m_s + step_m_s * f64::from(step)).collect()
}

#[cfg(test)]
#[path = "from_rest_tests.rs"]
mod tests;
