//! The units in which quantities are shown.

use clap::ValueEnum;
use uom::si::f64::{Area, Force, Length, Mass, Power, Torque, Velocity};
use uom::si::{
    area::square_meter, force::newton, length::meter, mass::kilogram, power::watt,
    torque::newton_meter, velocity::meter_per_second,
};

use super::factor::*;

/// Unit in which speeds are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SpeedUnit {
    /// Knots.
    #[value(name = "kn")]
    Knot,
    /// Statute miles per hour.
    #[value(name = "mph")]
    MilePerHour,
    /// Kilometres per hour.
    #[value(name = "km/h")]
    KilometrePerHour,
    /// Metres per second.
    #[value(name = "m/s")]
    MetrePerSecond,
}

impl SpeedUnit {
    /// The unit as written after a number.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Knot => "kn",
            Self::MilePerHour => "mph",
            Self::KilometrePerHour => "km/h",
            Self::MetrePerSecond => "m/s",
        }
    }

    pub(super) fn factor(self) -> f64 {
        match self {
            Self::Knot => M_S_PER_KNOT,
            Self::MilePerHour => M_S_PER_MILE_PER_HOUR,
            Self::KilometrePerHour => M_S_PER_KILOMETRE_PER_HOUR,
            Self::MetrePerSecond => 1.0,
        }
    }

    /// The speed as a number of this unit.
    #[must_use]
    pub fn value(self, speed: Velocity) -> f64 {
        speed.get::<meter_per_second>() / self.factor()
    }
}

/// Unit in which forces are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum ForceUnit {
    /// Newtons.
    #[value(name = "N")]
    Newton,
    /// Kilonewtons.
    #[value(name = "kN")]
    Kilonewton,
    /// Pounds-force.
    #[value(name = "lbf")]
    PoundForce,
}

impl ForceUnit {
    /// The unit as written after a number.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Newton => "N",
            Self::Kilonewton => "kN",
            Self::PoundForce => "lbf",
        }
    }

    pub(super) fn factor(self) -> f64 {
        match self {
            Self::Newton => 1.0,
            Self::Kilonewton => 1000.0,
            Self::PoundForce => N_PER_POUND_FORCE,
        }
    }

    /// The force as a number of this unit.
    #[must_use]
    pub fn value(self, force: Force) -> f64 {
        force.get::<newton>() / self.factor()
    }
}

/// Unit in which powers are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum PowerUnit {
    /// Kilowatts.
    #[value(name = "kW")]
    Kilowatt,
    /// Mechanical horsepower, 550 foot pounds-force per second.
    #[value(name = "hp")]
    Horsepower,
}

impl PowerUnit {
    /// The unit as written after a number.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Kilowatt => "kW",
            Self::Horsepower => "hp",
        }
    }

    pub(super) fn factor(self) -> f64 {
        match self {
            Self::Kilowatt => 1000.0,
            Self::Horsepower => W_PER_HORSEPOWER,
        }
    }

    /// The power as a number of this unit.
    #[must_use]
    pub fn value(self, power: Power) -> f64 {
        power.get::<watt>() / self.factor()
    }
}

/// Unit in which lengths are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum LengthUnit {
    /// Metres.
    #[value(name = "m")]
    Metre,
    /// Millimetres.
    #[value(name = "mm")]
    Millimetre,
    /// Inches.
    #[value(name = "in")]
    Inch,
    /// Feet.
    #[value(name = "ft")]
    Foot,
}

impl LengthUnit {
    /// The unit as written after a number.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Metre => "m",
            Self::Millimetre => "mm",
            Self::Inch => "in",
            Self::Foot => "ft",
        }
    }

    pub(super) fn factor(self) -> f64 {
        match self {
            Self::Metre => 1.0,
            Self::Millimetre => 0.001,
            Self::Inch => M_PER_INCH,
            Self::Foot => M_PER_FOOT,
        }
    }

    /// The length as a number of this unit.
    #[must_use]
    pub fn value(self, length: Length) -> f64 {
        length.get::<meter>() / self.factor()
    }
}

/// Unit in which masses are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum MassUnit {
    /// Kilograms.
    #[value(name = "kg")]
    Kilogram,
    /// Avoirdupois pounds.
    #[value(name = "lb")]
    Pound,
}

impl MassUnit {
    /// The unit as written after a number.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Kilogram => "kg",
            Self::Pound => "lb",
        }
    }

    pub(super) fn factor(self) -> f64 {
        match self {
            Self::Kilogram => 1.0,
            Self::Pound => KG_PER_POUND,
        }
    }

    /// The mass as a number of this unit.
    #[must_use]
    pub fn value(self, mass: Mass) -> f64 {
        mass.get::<kilogram>() / self.factor()
    }
}

/// Unit in which moments and torques are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum MomentUnit {
    /// Newton metres.
    #[value(name = "N m")]
    NewtonMetre,
    /// Pound-force feet.
    #[value(name = "lbf ft")]
    PoundForceFoot,
}

impl MomentUnit {
    /// The unit as written after a number.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::NewtonMetre => "N m",
            Self::PoundForceFoot => "lbf ft",
        }
    }

    pub(super) fn factor(self) -> f64 {
        match self {
            Self::NewtonMetre => 1.0,
            Self::PoundForceFoot => N_M_PER_POUND_FORCE_FOOT,
        }
    }

    /// The moment as a number of this unit.
    #[must_use]
    pub fn value(self, moment: Torque) -> f64 {
        moment.get::<newton_meter>() / self.factor()
    }
}

/// Unit in which areas are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum AreaUnit {
    /// Square metres.
    #[value(name = "m^2")]
    SquareMetre,
    /// Square inches.
    #[value(name = "in^2")]
    SquareInch,
    /// Square feet.
    #[value(name = "ft^2")]
    SquareFoot,
}

impl AreaUnit {
    /// The unit as written after a number.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::SquareMetre => "m^2",
            Self::SquareInch => "in^2",
            Self::SquareFoot => "ft^2",
        }
    }

    pub(super) fn factor(self) -> f64 {
        match self {
            Self::SquareMetre => 1.0,
            Self::SquareInch => M2_PER_SQUARE_INCH,
            Self::SquareFoot => M2_PER_SQUARE_FOOT,
        }
    }

    /// The area as a number of this unit.
    #[must_use]
    pub fn value(self, area: Area) -> f64 {
        area.get::<square_meter>() / self.factor()
    }
}

/// A whole set of units for output.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum UnitSystem {
    /// Knots, and metric for all else.
    Marine,
    /// Kilometres per hour, metres, millimetres, kilograms, newtons, kilowatts.
    Metric,
    /// Statute miles per hour, feet, inches, pounds, pounds-force, horsepower.
    Imperial,
}

impl UnitSystem {
    /// Unit for speeds.
    #[must_use]
    pub fn speed(self) -> SpeedUnit {
        match self {
            Self::Marine => SpeedUnit::Knot,
            Self::Metric => SpeedUnit::KilometrePerHour,
            Self::Imperial => SpeedUnit::MilePerHour,
        }
    }

    /// Unit for the large lengths of a boat.
    #[must_use]
    pub fn length(self) -> LengthUnit {
        match self {
            Self::Metric | Self::Marine => LengthUnit::Metre,
            Self::Imperial => LengthUnit::Foot,
        }
    }

    /// Unit for the small lengths of a plane.
    #[must_use]
    pub fn small_length(self) -> LengthUnit {
        match self {
            Self::Metric | Self::Marine => LengthUnit::Millimetre,
            Self::Imperial => LengthUnit::Inch,
        }
    }

    /// Unit for masses.
    #[must_use]
    pub fn mass(self) -> MassUnit {
        match self {
            Self::Metric | Self::Marine => MassUnit::Kilogram,
            Self::Imperial => MassUnit::Pound,
        }
    }

    /// Unit for forces.
    #[must_use]
    pub fn force(self) -> ForceUnit {
        match self {
            Self::Metric | Self::Marine => ForceUnit::Newton,
            Self::Imperial => ForceUnit::PoundForce,
        }
    }

    /// Unit for powers.
    #[must_use]
    pub fn power(self) -> PowerUnit {
        match self {
            Self::Metric | Self::Marine => PowerUnit::Kilowatt,
            Self::Imperial => PowerUnit::Horsepower,
        }
    }

    /// Unit for moments.
    #[must_use]
    pub fn moment(self) -> MomentUnit {
        match self {
            Self::Metric | Self::Marine => MomentUnit::NewtonMetre,
            Self::Imperial => MomentUnit::PoundForceFoot,
        }
    }

    /// Unit for the area of planes.
    #[must_use]
    pub fn area(self) -> AreaUnit {
        match self {
            Self::Metric | Self::Marine => AreaUnit::SquareMetre,
            Self::Imperial => AreaUnit::SquareInch,
        }
    }
}
