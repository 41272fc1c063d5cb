//! What one part does on one boat: how far down it can be put at each speed, whether its
//! actuators hold there, and whether plate and screws bear it.
//!
//! Two loads are kept apart. The *expected* load is that of steady running, and sets how far the
//! actuators can push. The *design* load is larger, an allowance for slamming, and strength is
//! judged by it. Both are for both planes alike; each plane carries its own.
//!
//! The load on a plane is taken at the trim and wetted length of the boat with the planes
//! parallel to the bottom. With the planes down the bottom runs wetter and the plane is a smaller
//! share of it: the expected load is then a little less (under 2 % for the chords tested).
//!
//! Planes are handled under way and hold large forces: keep hands clear, and have the fastening
//! looked at by a builder where there is any doubt about the transom.

mod flow;
mod loads;
mod strength;

use thiserror::Error;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Force, Length, Torque, Velocity};
use uom::si::force::newton;

pub use loads::{LoadAt, PartLoadAt, pair_loads, part_loads};
pub use strength::{Bearing, Screws};

use super::part::Part;
use crate::boat::{Boat, Fault, Fit};
use crate::plane::actuator::{ActuatorError, Reach, StoppedBy, largest_deflection};
use crate::plane::effect::LARGEST_TESTED_DEFLECTION_DEG;
use crate::plane::hinge::{DEFAULT_LOAD_FACTOR, HingeError, HingeFlag, TrimLoad};
use crate::plane::linkage::{Linkage, LinkageDimensions, LinkageError};
use crate::plane::require::BadInput;
use crate::plane::strength::StrengthError;
use crate::plane::strength::fastening::{
    DEFAULT_PLYWOOD_GRAVITY, DEFAULT_WITHDRAWAL_FACTOR, TransomMaterial, WET_SERVICE_FACTOR,
};
use flow::{Flow, Flows};

/// Part of a screw that holds nothing: its point and the skin it passes, metres. Common practice,
/// no source; a thick skin of laminate takes more.
const NOT_IN_WOOD_M: f64 = 0.008;

/// How a part is assessed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settings {
    /// How the load due to the boat's own trim is counted.
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

/// Largest deflection at one speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Largest {
    /// The deflection; the raised one when the actuators cannot lower the plane at all.
    pub deflection: Angle,
    /// What sets it.
    pub limited_by: LimitedBy,
}

/// A part on a boat at one speed, at the largest deflection that it can be put to there.
#[derive(Debug, Clone, PartialEq)]
pub struct AtSpeed {
    /// The speed.
    pub speed: Velocity,
    /// How far down each plane can be put.
    pub largest: Largest,
    /// Expected moment about the hinge line of one plane, positive closing the plane upward.
    pub expected_moment: Torque,
    /// Design moment about the same, of the same sign.
    pub design_moment: Torque,
    /// Expected push of each actuator.
    pub expected_push: Force,
    /// Push of each actuator under the design load.
    pub design_push: Force,
    /// Whether the standing actuators bear the design load.
    pub holds_design: bool,
    /// Plate and screws under the expected load.
    pub expected: Bearing,
    /// Plate and screws under the design load.
    pub design: Bearing,
    /// Where the expected load leaves the range of its theory.
    pub flags: Vec<HingeFlag>,
}

/// Speeds above which something no longer bears full deflection. They may lie beyond the boat's
/// top speed: a margin then.
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
    part: &'a Part,
    settings: &'a Settings,
    dimensions: LinkageDimensions,
    linkage: Linkage,
    raised: Angle,
    lowered: Angle,
    full: Angle,
    flows: Flows<'a>,
}

/// Assesses a pair of a part on a boat at the given speeds; those at which the boat does not run
/// are left out.
///
/// # Errors
/// When its linkage cannot work on this transom, when a setting is out of range, or when the
/// boat cannot be balanced at a speed.
pub fn assess(
    part: &Part,
    boat: &Boat,
    settings: &Settings,
    speeds: &[Velocity],
) -> Result<Assessment, AssessError> {
    let ready = Ready::new(part, boat, settings)?;
    let height = part.working_height_on(boat.transom())?;
    let mut by_speed = Vec::new();
    for &speed in speeds {
        if let Some(flow) = ready.flows.at(speed)? {
            by_speed.push(ready.at_speed(&flow)?);
        }
    }
    Ok(Assessment {
        fit: boat.transom().with_working_height(height).fits(part.pair()),
        linkage: ready.dimensions,
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
    ) -> Result<Self, LinkageError> {
        let dimensions = part.linkage_on(boat.transom())?;
        let linkage = Linkage::new(&dimensions)?;
        let (raised, lowered) = linkage.deflection_range(&part.travel)?;
        let full = lowered.min(Angle::new::<degree>(LARGEST_TESTED_DEFLECTION_DEG));
        let flows = Flows::new(boat, part.pair(), settings.load_factor, settings.trim_load);
        Ok(Self { part, settings, dimensions, linkage, raised, lowered, full, flows })
    }

    fn actuators(&self) -> f64 {
        f64::from(self.part.actuators)
    }

    fn at_speed(&self, flow: &Flow) -> Result<AtSpeed, AssessError> {
        let largest = self.largest(flow)?;
        let deflection = largest.deflection;
        let expected = flow.expected(deflection)?;
        let design = flow.design(deflection)?;
        let push = |moment| -> Result<Force, LinkageError> {
            Ok(self.linkage.push_for(moment, deflection)? / self.actuators())
        };
        let design_push = push(design.hinge_moment)?;
        Ok(AtSpeed {
            speed: flow.speed,
            largest,
            expected_moment: expected.total.hinge_moment,
            design_moment: design.hinge_moment,
            expected_push: push(expected.total.hinge_moment)?,
            design_push,
            holds_design: design_push <= self.part.actuator.hold(),
            expected: self.bearing(&expected.total, deflection)?,
            design: self.bearing(&design, deflection)?,
            flags: expected.flags,
        })
    }

    /// Largest deflection that the actuators can push the plane to against the expected load.
    fn largest(&self, flow: &Flow) -> Result<Largest, AssessError> {
        let available = self.part.actuator.push() * self.actuators();
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

    /// Speeds at which full deflection becomes too much, worked out from the top speed.
    ///
    /// The design load goes with the square of the speed exactly. The expected load also hangs
    /// on the running trim and wetted length, so its limits are approached in steps.
    fn limits(&self, top_speed: Velocity) -> Result<SpeedLimits, AssessError> {
        let actuator = &self.part.actuator;
        let all = |force: Force| force * self.actuators();
        let flow = self.flows.near(top_speed)?;
        let design = flow.design(self.full)?;
        let push = self.linkage.push_for(design.hinge_moment, self.full)?;
        let bearing = self.bearing(&design, self.full)?;
        let scaled = |capacity: f64| flow.speed * capacity.sqrt();
        let spare = bearing.plate.safety_factor / self.plate_factor();
        Ok(SpeedLimits {
            push: self.stall(all(actuator.push()), &flow)?,
            hold: self.stall(all(actuator.hold()), &flow)?,
            hold_design: scaled(all(actuator.hold()).get::<newton>() / push.get::<newton>()),
            plate: scaled(spare),
            screws: bearing.screws.spare().map(scaled),
        })
    }

    /// Speed at which the expected load at full deflection takes all of a force.
    fn stall(&self, available: Force, from: &Flow) -> Result<Velocity, AssessError> {
        const STEPS: u32 = 12;
        let mut flow = *from;
        for _ in 0..STEPS {
            let moment = flow.expected(self.full)?.total.hinge_moment;
            let needed = self.linkage.push_for(moment, self.full)?;
            let ratio = available.get::<newton>() / needed.get::<newton>();
            let speed = flow.speed * ratio.sqrt();
            flow = self.flows.near(speed)?.at_speed_of(speed, flow.density);
        }
        Ok(flow.speed)
    }
}

#[cfg(test)]
#[path = "assess/tests.rs"]
mod tests;
