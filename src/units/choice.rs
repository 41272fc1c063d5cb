//! The units of one output, chosen together.

use super::output_unit::{
    AreaUnit, ForceUnit, LengthUnit, MassUnit, MomentUnit, PowerUnit, SpeedUnit, UnitSystem,
};

/// One unit for each kind of quantity that an output shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct UnitChoice {
    /// Speeds.
    pub speed: SpeedUnit,
    /// Forces.
    pub force: ForceUnit,
    /// Powers.
    pub power: PowerUnit,
    /// Large lengths, of the boat.
    pub length: LengthUnit,
    /// Small lengths, of a plane.
    pub small_length: LengthUnit,
    /// Masses.
    pub mass: MassUnit,
    /// Moments.
    pub moment: MomentUnit,
    /// Areas of planes.
    pub area: AreaUnit,
}

impl From<UnitSystem> for UnitChoice {
    fn from(system: UnitSystem) -> Self {
        Self {
            speed: system.speed(),
            force: system.force(),
            power: system.power(),
            length: system.length(),
            small_length: system.small_length(),
            mass: system.mass(),
            moment: system.moment(),
            area: system.area(),
        }
    }
}

impl Default for UnitChoice {
    /// Knots, and metric for all else.
    fn default() -> Self {
        UnitSystem::Marine.into()
    }
}
