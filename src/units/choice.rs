//! The units of one output, chosen together.

use super::output_unit::{
    AreaUnit, ForceUnit, LengthUnit, MassUnit, MomentUnit, PowerUnit, SpeedUnit,
};

/// A whole set of units for output.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum UnitSystem {
    /// Knots, and metric for all else.
    #[default]
    Marine,
    /// Kilometres per hour, metres, millimetres, kilograms, newtons, kilowatts.
    Metric,
    /// Statute miles per hour, feet, inches, pounds, pounds-force, horsepower.
    Imperial,
}

impl UnitSystem {
    /// Every system, in the order in which they are listed.
    pub const ALL: &[Self] = &[Self::Marine, Self::Metric, Self::Imperial];

    /// The word by which it is asked for.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Marine => "marine",
            Self::Metric => "metric",
            Self::Imperial => "imperial",
        }
    }

    /// The system of that word, in capital letters or small ones.
    #[must_use]
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|system| system.word().eq_ignore_ascii_case(word))
    }

    /// Unit for the small lengths of a plane.
    #[must_use]
    pub fn small_length(self) -> LengthUnit {
        UnitChoice::from(self).small_length
    }

    /// Which units it has, in words.
    #[must_use]
    pub const fn about(self) -> &'static str {
        match self {
            Self::Marine => "Knots, and metric for all else",
            Self::Metric => {
                "Kilometres per hour, metres, millimetres, kilograms, newtons, kilowatts"
            }
            Self::Imperial => {
                "Statute miles per hour, feet, inches, pounds, pounds-force, horsepower"
            }
        }
    }
}

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

const METRIC: UnitChoice = UnitChoice {
    speed: SpeedUnit::KilometrePerHour,
    force: ForceUnit::Newton,
    power: PowerUnit::Kilowatt,
    length: LengthUnit::Metre,
    small_length: LengthUnit::Millimetre,
    mass: MassUnit::Kilogram,
    moment: MomentUnit::NewtonMetre,
    area: AreaUnit::SquareMetre,
};

const IMPERIAL: UnitChoice = UnitChoice {
    speed: SpeedUnit::MilePerHour,
    force: ForceUnit::PoundForce,
    power: PowerUnit::Horsepower,
    length: LengthUnit::Foot,
    small_length: LengthUnit::Inch,
    mass: MassUnit::Pound,
    moment: MomentUnit::PoundForceFoot,
    area: AreaUnit::SquareInch,
};

impl From<UnitSystem> for UnitChoice {
    fn from(system: UnitSystem) -> Self {
        match system {
            UnitSystem::Marine => Self { speed: SpeedUnit::Knot, ..METRIC },
            UnitSystem::Metric => METRIC,
            UnitSystem::Imperial => IMPERIAL,
        }
    }
}

impl Default for UnitChoice {
    /// Knots, and metric for all else.
    fn default() -> Self {
        UnitSystem::Marine.into()
    }
}
