//! What one part does on one boat: how far down it can be put at each speed, how far that is
//! allowed, and what plate, screws and actuators bear there.
//!
//! Two loads are kept apart. The *expected* load is that of steady running; it sets how far the
//! actuators can push, and what does not bear it is unsafe. The *design* load is larger, an
//! allowance for slamming; what bears the first and not the second is named so, with what to do.
//! Both are for both planes alike; each plane carries its own.
//!
//! Both go with the square of the speed and with the deflection. Only the cross-check by thin-plate
//! theory depends on trim and wetted length; it takes those of the boat with the planes parallel to
//! the bottom.
//!
//! Planes are handled under way and hold large forces: keep hands clear, and have the fastening
//! looked at by a builder where there is any doubt about the transom.

mod bolts;
mod borne;
mod fastened;
mod fastenings;
mod flow;
mod loads;
mod strength;

use thiserror::Error;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Force, Length, Velocity};
use uom::si::force::newton;

pub use bolts::{BoltPattern, HeldBy, ThroughBolts};
pub(super) use borne::strength_of;
pub use borne::{Bearer, Check, Strength, strength};
pub use fastened::Fastened;
pub use fastenings::{Fastenings, Screws};
pub use loads::{LoadAt, PartLoadAt, pair_loads, part_loads};
pub use strength::Bearing;

use super::part::{Gear, Part};
use crate::balance::Settings as BalanceSettings;
use crate::boat::{Boat, Fault, Fit};
use crate::field::{InSi, by_word, written};
use crate::plane::actuator::{ActuatorError, Reach, StoppedBy, largest_deflection};
use crate::plane::effect::LARGEST_TESTED_DEFLECTION_DEG;
use crate::plane::hinge::{DEFAULT_LOAD_FACTOR, HingeError, TrimLoad};
use crate::plane::linkage::{Linkage, LinkageDimensions, LinkageError};
use crate::plane::require::BadInput;
use crate::plane::strength::StrengthError;
use crate::plane::strength::fastening::{
    DEFAULT_PLYWOOD_GRAVITY, DEFAULT_WITHDRAWAL_FACTOR, TransomMaterial, WET_SERVICE_FACTOR,
};
use crate::size::safe_deflections;
use flow::{Flow, Flows};

/// Part of a screw that holds nothing: its point and the skin it passes, metres. Common practice,
/// no source; a thick skin of laminate takes more.
const NOT_IN_WOOD_M: f64 = 0.008;

/// How a part is assessed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settings {
    /// How the load due to the boat's own trim is counted in the cross-check.
    pub trim_load: TrimLoad,
    /// Design load over the tank-test lift.
    pub load_factor: f64,
    /// Safety factor of the plate; the material's own when absent.
    pub plate_factor: Option<f64>,
    /// What the screws bite into.
    pub transom_material: TransomMaterial,
    /// Safety factor of the screws against withdrawal.
    pub withdrawal_factor: f64,
    /// Reduction for wood that is wet in service.
    pub wet_factor: f64,
    /// Length of a screw that holds nothing: point, and skin that it passes.
    pub not_in_wood: Length,
}

impl Default for Settings {
    /// The usual factors, and a transom with a plywood core: find out what yours is.
    fn default() -> Self {
        Self {
            trim_load: TrimLoad::FinitePlate,
            load_factor: DEFAULT_LOAD_FACTOR,
            plate_factor: None,
            transom_material: TransomMaterial::WoodOrPlywood {
                specific_gravity: DEFAULT_PLYWOOD_GRAVITY,
            },
            withdrawal_factor: DEFAULT_WITHDRAWAL_FACTOR,
            wet_factor: WET_SERVICE_FACTOR,
            not_in_wood: Length::new::<uom::si::length::meter>(NOT_IN_WOOD_M),
        }
    }
}

/// Why a part could not be assessed.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum AssessError {
    /// The list says nothing of its plate, screws and actuators.
    #[error("not known: the stock list describes neither plate nor screws nor actuators")]
    NotDescribed,
    /// Its linkage does not work on this transom.
    #[error(transparent)]
    Linkage(#[from] LinkageError),
    /// Its actuator.
    #[error(transparent)]
    Actuator(#[from] ActuatorError),
    /// Its strength.
    #[error(transparent)]
    Strength(#[from] StrengthError),
    /// The load on it.
    #[error(transparent)]
    Hinge(#[from] HingeError),
    /// A setting.
    #[error(transparent)]
    Input(#[from] BadInput),
    /// The boat with it.
    #[error(transparent)]
    Boat(#[from] Fault),
}

impl AssessError {
    /// What to do about it.
    #[must_use]
    pub const fn remedy(&self) -> &'static str {
        match self {
            Self::NotDescribed => {
                "fill in the columns of plate, screws and actuators: `planewright new --stock list.csv` shows them all"
            }
            Self::Linkage(_) => {
                "correct the pins, retracted_length and stroke of the part in the stock list, or take another part"
            }
            Self::Actuator(_) => {
                "correct the columns of the actuator in the stock list, or take another part"
            }
            Self::Strength(_) => {
                "correct the columns of plate and screws in the stock list, or take another part"
            }
            Self::Hinge(_) => {
                "ask at a speed in the planing range, or at another deflection; check planes.span and planes.chord"
            }
            Self::Input(_) => "correct that value in the stock list or the option that gives it",
            Self::Boat(_) => "correct that value in the boat file",
        }
    }
}

/// What sets how far down a plane can be put.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LimitedBy {
    /// The lift equation was not tested further.
    Tested,
    /// The stroke.
    Linkage,
    /// The push of the actuators.
    Actuator,
}

impl LimitedBy {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Tested => "tested-range",
            Self::Linkage => "stroke",
            Self::Actuator => "actuator",
        }
    }
}

by_word!(LimitedBy);

/// Largest deflection at one speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Largest {
    /// The deflection; the raised one when the actuators cannot lower the plane at all.
    pub deflection: Angle,
    /// What sets it.
    pub limited_by: LimitedBy,
}

/// A part on a boat at one speed, at the deflection allowed there.
#[derive(Debug, Clone, PartialEq)]
pub struct AtSpeed {
    /// How far down each plane can be put.
    pub largest: Largest,
    /// Largest deflection with a safe run.
    pub safe: Angle,
    /// The least of both and of what the boat file says can be used; the raised one when that is
    /// less than nothing.
    pub allowed: Angle,
    /// The loads at the deflection allowed, with the speed.
    pub load: PartLoadAt,
}

written! {
    AtSpeed as at {
        "speed_m_s": at.load.load.speed.in_si(),
        "largest_deflection_deg": at.largest.deflection.in_si(),
        "limited_by": at.largest.limited_by,
        "largest_safe_deg": at.safe.in_si(),
        "allowed_deg": at.allowed.in_si(),
        "verdict": at.load.verdict(),
    }
    SpeedLimits as to {
        "push_to_m_s": to.push.in_si(),
        "hold_to_m_s": to.hold.in_si(),
        "hold_design_to_m_s": to.hold_design.in_si(),
        "plate_to_m_s": to.plate.in_si(),
        "screws_to_m_s": to.screws.in_si(),
        "screws_covered": to.screws.is_some(),
    }
}

/// Speeds above which something no longer bears full deflection, for information: nothing is
/// judged by it where less is allowed. They may lie beyond the boat's top speed: a margin then.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpeedLimits {
    /// The actuators cannot push the plane to full deflection, expected load.
    pub push: Velocity,
    /// The standing actuators do not bear full deflection, expected load.
    pub hold: Velocity,
    /// The standing actuators do not bear the design load.
    pub hold_design: Velocity,
    /// The plate misses its safety factor under the design load.
    pub plate: Velocity,
    /// Hinge or bracket screws miss theirs under the design load; `None` where the transom is
    /// not covered.
    pub screws: Option<Velocity>,
}

impl SpeedLimits {
    /// The lower of each of two.
    #[must_use]
    pub fn narrower(&self, other: &Self) -> Self {
        Self {
            push: self.push.min(other.push),
            hold: self.hold.min(other.hold),
            hold_design: self.hold_design.min(other.hold_design),
            plate: self.plate.min(other.plate),
            screws: self.screws.zip(other.screws).map(|(own, others)| own.min(others)),
        }
    }
}

/// A part on a boat.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// Whether the pair fits the transom, and where.
    pub fit: Fit,
    /// The linkage as fitted, with the upper bracket's height on this transom.
    pub linkage: LinkageDimensions,
    /// Deflection with the actuators retracted.
    pub raised: Angle,
    /// Deflection with the actuators extended.
    pub lowered: Angle,
    /// Deflection at which the trailing edge reaches the extended bottom line; less does nothing.
    pub touching: Angle,
    /// Full deflection: 15° or what the stroke gives, whichever is less.
    pub full_deflection: Angle,
    /// Speeds at which full deflection is too much.
    pub limits: SpeedLimits,
    /// The speeds asked for at which the boat runs, in order.
    pub by_speed: Vec<AtSpeed>,
}

/// A part made ready on a boat.
pub(super) struct Ready<'a> {
    boat: &'a Boat,
    part: &'a Part,
    gear: &'a Gear,
    settings: &'a Settings,
    linkage: Linkage,
    fastenings: Fastenings,
    raised: Angle,
    lowered: Angle,
    full: Angle,
    flows: Flows<'a>,
}

/// Assesses a pair of a part on a boat at the given speeds; those at which the boat does not run
/// are left out.
///
/// # Errors
/// When the list does not describe it, when its linkage cannot work on this transom, when a setting is out of range, or when the
/// boat cannot be balanced at a speed.
pub fn assess(
    part: &Part,
    boat: &Boat,
    settings: &Settings,
    speeds: &[Velocity],
) -> Result<Assessment, AssessError> {
    let ready = Ready::new(part, boat, settings)?;
    let height = ready.gear.working_height_on(part.chord, boat.transom())?;
    let mut by_speed = Vec::new();
    for &speed in speeds {
        by_speed.extend(ready.at(speed)?);
    }
    Ok(Assessment {
        fit: boat.transom().with_working_height(height).fits(part.pair()),
        linkage: ready.fastenings.dimensions,
        raised: ready.raised,
        lowered: ready.lowered,
        touching: ready.linkage.touching_deflection(part.chord)?,
        full_deflection: ready.full,
        limits: ready.limits(boat.drive().top_speed)?,
        by_speed,
    })
}

impl<'a> Ready<'a> {
    pub(super) fn new(
        part: &'a Part,
        boat: &'a Boat,
        settings: &'a Settings,
    ) -> Result<Self, AssessError> {
        let gear = part.gear.as_ref().ok_or(AssessError::NotDescribed)?;
        let dimensions = gear.linkage_on(part.chord, boat.transom())?;
        let linkage = Linkage::new(&dimensions)?;
        let (raised, lowered) = linkage.deflection_range(&gear.travel)?;
        let full = lowered.min(Angle::new::<degree>(LARGEST_TESTED_DEFLECTION_DEG));
        let flows = Flows::new(boat, part.pair(), settings.load_factor, settings.trim_load);
        let fastenings = Fastenings::of_part(part, gear, dimensions);
        Ok(Self { boat, part, gear, settings, linkage, fastenings, raised, lowered, full, flows })
    }

    /// Push of one of its actuators.
    pub(super) fn push(&self) -> Force {
        self.gear.actuator.push()
    }

    fn actuators(&self) -> f64 {
        f64::from(self.gear.actuators)
    }

    /// The part at a speed; none where the boat does not run.
    pub(super) fn at(&self, speed: Velocity) -> Result<Option<AtSpeed>, AssessError> {
        let Some(flow) = self.flows.at(speed)? else { return Ok(None) };
        let largest = self.largest(&flow)?;
        let safe = self.safe(speed);
        let usable = self.boat.sizing().largest_deflection;
        let allowed = largest.deflection.min(usable).min(safe).max(self.raised);
        let load = self.loaded(&flow, allowed)?;
        Ok(Some(AtSpeed { largest, safe, allowed, load }))
    }

    /// Largest deflection with a safe run.
    fn safe(&self, speed: Velocity) -> Angle {
        let settings = BalanceSettings::default();
        let safe = safe_deflections(self.boat, &settings, self.part.pair(), &[speed]);
        safe.first().copied().unwrap_or_default()
    }

    /// The part with nothing on it, for a boat that runs nowhere.
    fn unloaded(&self) -> Result<PartLoadAt, AssessError> {
        self.loaded(&self.flows.anyway(self.boat.drive().top_speed), self.raised)
    }

    /// Largest deflection that the actuators can push the plane to against the expected load.
    fn largest(&self, flow: &Flow) -> Result<Largest, AssessError> {
        let available = self.gear.actuator.push() * self.actuators();
        let moment = |deflection| flow.expected(deflection).map(|load| load.total.hinge_moment);
        let end = if self.full == self.lowered { LimitedBy::Linkage } else { LimitedBy::Tested };
        match largest_deflection(&self.linkage, (self.raised, self.full), available, moment) {
            Ok(Reach { deflection, stopped_by, .. }) => Ok(Largest {
                deflection,
                limited_by: match stopped_by {
                    StoppedBy::EndOfTravel => end,
                    StoppedBy::Force => LimitedBy::Actuator,
                },
            }),
            Err(ActuatorError::TooWeak { .. }) => {
                Ok(Largest { deflection: self.raised, limited_by: LimitedBy::Actuator })
            }
            Err(error) => Err(error.into()),
        }
    }

    /// Speeds at which full deflection becomes too much: all loads go with the square of the speed.
    fn limits(&self, top_speed: Velocity) -> Result<SpeedLimits, AssessError> {
        let actuator = &self.gear.actuator;
        let flow = self.flows.anyway(top_speed);
        let (expected, design) = (flow.expected(self.full)?.total, flow.design(self.full)?);
        let expected_push = self.linkage.push_for(expected.hinge_moment, self.full)?;
        let design_push = self.linkage.push_for(design.hinge_moment, self.full)?;
        let bearing = self.bearing(&design, self.full)?;
        let scaled = |capacity: f64| flow.speed * capacity.sqrt();
        let over = |force: Force, push: Force| {
            scaled(self.actuators() * force.get::<newton>() / push.get::<newton>())
        };
        let spare = bearing.plate.safety_factor / self.plate_factor();
        Ok(SpeedLimits {
            push: over(actuator.push(), expected_push),
            hold: over(actuator.hold(), expected_push),
            hold_design: over(actuator.hold(), design_push),
            plate: scaled(spare),
            screws: bearing.screws.spare().map(scaled),
        })
    }
}

#[cfg(test)]
#[path = "assess/tests.rs"]
mod tests;
