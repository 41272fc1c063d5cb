//! The actuator that holds a plane down: what it can push and hold, and what that means in
//! deflection and speed.
//!
//! Load from below squeezes the actuator, so lowering a plane under way needs *push*. Raising it
//! under way is helped by the water; *pull* matters only at rest or astern.
//!
//! Two strengths are kept apart:
//! - **push**: what pump or motor can move the plane down against;
//! - **hold**: what the standing actuator bears. A closed valve traps the oil (hydraulic lock),
//!   and a screw with a flat thread does not run back, so hold is usually more than push; but
//!   only the maker's rating of valve, hose or screw says how much. Without a rating the push is
//!   used for both, which is on the safe side.
//!
//! Friction in hinge and pins is left out; a hydraulic cylinder's seals and an electric drive's
//! screw are in the efficiency or in the rated force. Trapped oil also shrinks and swells with
//! temperature and a seal may leak: a plane held for hours can creep, which is not computed.

pub mod electric;
pub mod hydraulic;

use thiserror::Error;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Force, Length, MassDensity, Pressure, Time, Torque, Velocity};
use uom::si::force::newton;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::velocity::meter_per_second;

pub use electric::{Electric, ElectricSpec};
pub use hydraulic::{Hydraulic, HydraulicSpec};

use super::hinge::HingeError;
use super::linkage::{Linkage, LinkageError};
use super::require::{BadInput, positive};

/// Why an actuator cannot do what was asked.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ActuatorError {
    /// An input no actuator can have.
    #[error(transparent)]
    Input(#[from] BadInput),
    /// The linkage cannot work where it was asked to.
    #[error(transparent)]
    Linkage(#[from] LinkageError),
    /// The hinge moment could not be computed.
    #[error(transparent)]
    Hinge(#[from] HingeError),
    /// Even the raised plane needs more push than there is.
    #[error(
        "the raised plane at {deflection_deg:.1}° already needs {needed_n:.0} N and the actuator \
         gives {available_n:.0} N; go slower, or take a stronger actuator or a longer lever"
    )]
    TooWeak {
        /// Raised deflection, degrees.
        deflection_deg: f64,
        /// Push needed there, newtons.
        needed_n: f64,
        /// Push there is, newtons.
        available_n: f64,
    },
    /// The tube eats the whole pump pressure.
    #[error(
        "the tube loses {loss_bar:.1} bar of the pump's {pump_bar:.1} bar at this flow, so \
         nothing is left to move the plane; take a wider or shorter tube or a thinner oil"
    )]
    TubeTooNarrow {
        /// Pressure lost, bar.
        loss_bar: f64,
        /// Pump pressure, bar.
        pump_bar: f64,
    },
    /// No standard size is large enough.
    #[error(
        "{what} of {needed:.1} {unit} is above the largest standard size listed, \
         {largest:.1} {unit}; split the circuit or have it designed"
    )]
    NoStandardSize {
        /// What was to be chosen.
        what: &'static str,
        /// Size needed.
        needed: f64,
        /// Largest in the list.
        largest: f64,
        /// Unit of both.
        unit: &'static str,
    },
}

/// An actuator of either kind, checked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Actuator {
    /// Oil cylinder with pump.
    Hydraulic(Hydraulic),
    /// Motor and screw.
    Electric(Electric),
}

impl Actuator {
    /// Load against which it still creeps out: full pump pressure at no flow, or rated force.
    pub fn push(&self) -> Force {
        match self {
            Self::Hydraulic(cylinder) => cylinder.push(),
            Self::Electric(motor) => motor.push(),
        }
    }

    /// Load it bears standing still; the push when no rating was given.
    pub fn hold(&self) -> Force {
        match self {
            Self::Hydraulic(cylinder) => cylinder.hold(),
            Self::Electric(motor) => motor.hold(),
        }
    }

    /// Whether the maker says what it bears standing still.
    pub fn has_holding_rating(&self) -> bool {
        match self {
            Self::Hydraulic(cylinder) => cylinder.spec().lock_pressure.is_some(),
            Self::Electric(motor) => motor.spec().holding_force.is_some(),
        }
    }

    /// Length from retracted to extended.
    pub fn stroke(&self) -> Length {
        match self {
            Self::Hydraulic(cylinder) => cylinder.spec().stroke,
            Self::Electric(motor) => motor.spec().stroke,
        }
    }

    /// Time for the full stroke out.
    pub fn time_to_extend(&self) -> Time {
        match self {
            Self::Hydraulic(cylinder) => cylinder.time_to_extend(),
            Self::Electric(motor) => motor.time_for_stroke(),
        }
    }

    /// Time for the full stroke in; `None` for a single-acting cylinder, which a spring or the
    /// water drives back at a rate that the pump does not set.
    pub fn time_to_retract(&self) -> Option<Time> {
        match self {
            Self::Hydraulic(cylinder) => cylinder.time_to_retract(),
            Self::Electric(motor) => Some(motor.time_for_stroke()),
        }
    }
}

/// What stops a plane going further down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StoppedBy {
    /// The end of the travel: the actuator had force to spare.
    EndOfTravel,
    /// The actuator's force.
    Force,
}

/// How far down a plane can be put.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// Largest deflection.
    pub deflection: Angle,
    /// Push needed there.
    pub push: Force,
    /// What set it.
    pub stopped_by: StoppedBy,
}

/// Steps in which the travel is searched from the raised end.
const SEARCH_STEPS: u32 = 64;
/// Halvings of one search step: 1e-12 of it is left.
const HALVINGS: u32 = 40;

/// Largest deflection reached from the raised end of `travel` with no more push than
/// `available`, at the dynamic pressure for which `hinge_moment` was made.
///
/// `hinge_moment` gives the moment about the hinge (positive closing the plane upward) at a
/// deflection: expected or design load, as the caller chooses.
///
/// # Algorithm
/// The travel is walked down in 64 steps to the first at which the push needed is above
/// `available`, then halved. With the push rising all the way, as it does for ordinary
/// linkages, this is plain bisection; where a poor linkage makes it rise and fall again, the
/// first crossing counts, for the actuator would stick there.
///
/// # Errors
/// [`ActuatorError::TooWeak`] when the raised end already needs too much, and the errors of
/// linkage and hinge moment.
pub fn largest_deflection(
    linkage: &Linkage,
    travel: (Angle, Angle),
    available: Force,
    hinge_moment: impl Fn(Angle) -> Result<Torque, HingeError>,
) -> Result<Reach, ActuatorError> {
    positive("the available force", available.get::<newton>(), "N")?;
    let push_at = |deflection: Angle| -> Result<Force, ActuatorError> {
        Ok(linkage.push_for(hinge_moment(deflection)?, deflection)?)
    };
    let (raised, lowered) = travel;
    let mut held = (raised, push_at(raised)?);
    if held.1 > available {
        return Err(ActuatorError::TooWeak {
            deflection_deg: raised.get::<degree>(),
            needed_n: held.1.get::<newton>(),
            available_n: available.get::<newton>(),
        });
    }
    for step in 1..=SEARCH_STEPS {
        let next = raised + (lowered - raised) * (f64::from(step) / f64::from(SEARCH_STEPS));
        let push = push_at(next)?;
        if push > available {
            return halve(held, next, available, push_at);
        }
        held = (next, push);
    }
    Ok(Reach { deflection: held.0, push: held.1, stopped_by: StoppedBy::EndOfTravel })
}

/// Closes in on the deflection between `held` and `beyond` at which the push is `available`.
fn halve(
    mut held: (Angle, Force),
    mut beyond: Angle,
    available: Force,
    push_at: impl Fn(Angle) -> Result<Force, ActuatorError>,
) -> Result<Reach, ActuatorError> {
    for _ in 0..HALVINGS {
        let middle = 0.5 * (held.0 + beyond);
        let push = push_at(middle)?;
        if push > available {
            beyond = middle;
        } else {
            held = (middle, push);
        }
    }
    Ok(Reach { deflection: held.0, push: held.1, stopped_by: StoppedBy::Force })
}

/// Speed above which `available` no longer suffices, when `push_needed` is the push at the
/// dynamic pressure `at_pressure`: the load goes with ½ρV², so
/// `V = √(2 q/ρ · available/needed)`. Derived here.
///
/// `None` when no push is needed. The load is taken at one trim and one wetted length; both
/// change with speed, so with the trim part counted the result holds near the speed of
/// `at_pressure`, and without it for all speeds.
///
/// # Errors
/// [`BadInput`] for a pressure, density or available force not above zero.
pub fn stall_speed(
    push_needed: Force,
    at_pressure: Pressure,
    available: Force,
    water_density: MassDensity,
) -> Result<Option<Velocity>, BadInput> {
    let pressure_pa = positive("the dynamic pressure", at_pressure.get::<pascal>(), "Pa")?;
    let available_n = positive("the available force", available.get::<newton>(), "N")?;
    let density = water_density.get::<kilogram_per_cubic_meter>();
    let density = positive("the water density", density, "kg/m^3")?;
    let needed_n = push_needed.get::<newton>();
    if needed_n <= 0.0 {
        return Ok(None);
    }
    let speed_m_s = (2.0 * pressure_pa / density * available_n / needed_n).sqrt();
    Ok(Some(Velocity::new::<meter_per_second>(speed_m_s)))
}

#[cfg(test)]
mod tests;
