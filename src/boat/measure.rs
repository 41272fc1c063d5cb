//! A quantity of any kind the boat file knows, for tables that hold several kinds.

use std::fmt;

use uom::si::f64::{
    Angle, AngularVelocity, Area, Force, KinematicViscosity, Length, Mass, MassDensity, Power,
    Ratio, ThermodynamicTemperature, Torque, Velocity,
};
use uom::si::{
    angle::degree, angle::radian, angular_velocity::radian_per_second, area::square_meter,
    force::newton, kinematic_viscosity::square_meter_per_second, length::meter, mass::kilogram,
    mass_density::kilogram_per_cubic_meter, power::kilowatt, power::watt, ratio::percent,
    ratio::ratio, thermodynamic_temperature::degree_celsius, thermodynamic_temperature::kelvin,
    torque::newton_meter, velocity::meter_per_second,
};

use crate::schema::Kind;
use crate::units::factor::RAD_S_PER_REVOLUTION_PER_MINUTE;
pub use crate::units::plain_number;
use crate::units::{Dimension, SpecificConsumption, UnitChoice, one_in_si};

/// A quantity together with its kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Measure {
    /// A length.
    Length(Length),
    /// A mass.
    Mass(Mass),
    /// A speed.
    Speed(Velocity),
    /// An angle.
    Angle(Angle),
    /// A power.
    Power(Power),
    /// A density.
    Density(MassDensity),
    /// A kinematic viscosity.
    Viscosity(KinematicViscosity),
    /// A temperature.
    Temperature(ThermodynamicTemperature),
    /// An area.
    Area(Area),
    /// A share.
    Share(Ratio),
    /// A moment.
    Moment(Torque),
    /// A speed of rotation.
    RotationSpeed(AngularVelocity),
    /// A force.
    Force(Force),
    /// A specific fuel consumption.
    Consumption(SpecificConsumption),
    /// A number without a unit.
    Number(f64),
}

impl Measure {
    /// The number in the unit that [`Measure::unit`] names.
    #[must_use]
    pub fn value(&self) -> f64 {
        match self {
            Self::Length(x) => x.get::<meter>(),
            Self::Mass(x) => x.get::<kilogram>(),
            Self::Speed(x) => x.get::<meter_per_second>(),
            Self::Angle(x) => x.get::<degree>(),
            Self::Power(x) => x.get::<kilowatt>(),
            Self::Density(x) => x.get::<kilogram_per_cubic_meter>(),
            Self::Viscosity(x) => x.get::<square_meter_per_second>(),
            Self::Temperature(x) => x.get::<degree_celsius>(),
            Self::Area(x) => x.get::<square_meter>(),
            Self::Share(x) => x.get::<percent>(),
            Self::Moment(x) => x.get::<newton_meter>(),
            Self::RotationSpeed(x) => {
                x.get::<radian_per_second>() / RAD_S_PER_REVOLUTION_PER_MINUTE
            }
            Self::Force(x) => x.get::<newton>(),
            Self::Consumption(x) => x.grams_per_kilowatt_hour(),
            Self::Number(x) => *x,
        }
    }

    /// The number in the unit of an output, with its symbol.
    #[must_use]
    pub fn in_units(&self, units: UnitChoice) -> (f64, &'static str) {
        match *self {
            Self::Length(length) => (units.length.value(length), units.length.symbol()),
            Self::Speed(speed) => (units.speed.value(speed), units.speed.symbol()),
            Self::Force(force) => (units.force.value(force), units.force.symbol()),
            other => (other.value(), other.unit()),
        }
    }

    /// Its kind, where a person may have mistaken one unit of it for another.
    #[must_use]
    pub const fn dimension(&self) -> Option<Dimension> {
        match self {
            Self::Length(_) => Some(Dimension::Length),
            Self::Mass(_) => Some(Dimension::Mass),
            Self::Speed(_) => Some(Dimension::Speed),
            Self::Power(_) => Some(Dimension::Power),
            _ => None,
        }
    }

    /// The number in a unit of the boat file, as [`unit_written`](crate::units::unit_written) names it; in that of [`Measure::unit`] where it is none of its kind.
    #[must_use]
    pub fn number_in(&self, unit: &str) -> f64 {
        let one = |unit: &str| one_in_si(unit, self.dimension()?);
        match (one(unit), one(self.unit())) {
            (Some(asked), Some(own)) => self.value() * (own / asked),
            _ => self.value(),
        }
    }

    /// A length, mass, speed or power so many times as large; anything else as it is.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        match self {
            Self::Length(x) => Self::Length(x * factor),
            Self::Mass(x) => Self::Mass(x * factor),
            Self::Speed(x) => Self::Speed(x * factor),
            Self::Power(x) => Self::Power(x * factor),
            other => other,
        }
    }

    /// The unit of [`Measure::value`], spelt as the boat file spells it.
    #[must_use]
    pub fn unit(&self) -> &'static str {
        self.kind().unit()
    }
}

impl fmt::Display for Measure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", plain_number(self.value()))?;
        match self.unit() {
            "" => Ok(()),
            unit => write!(f, " {unit}"),
        }
    }
}

/// A quantity as a measure, and back where the measure is one of its kind; else the measure comes back.
macro_rules! to_and_fro {
    ($kind:ident is $quantity:ty) => {
        impl From<$quantity> for Measure {
            fn from(quantity: $quantity) -> Self {
                Self::$kind(quantity)
            }
        }

        impl TryFrom<Measure> for $quantity {
            type Error = Measure;

            fn try_from(measure: Measure) -> Result<Self, Measure> {
                match measure {
                    Measure::$kind(quantity) => Ok(quantity),
                    other => Err(other),
                }
            }
        }
    };
}

/// Each kind of measure: its dimension, its type, and how it comes from a number in SI.
macro_rules! measured {
    ($($kind:ident of $dimension:ident is $quantity:ty, $from_si:expr;)+) => {
        impl Measure {
            /// What kind of value it is.
            #[must_use]
            pub const fn kind(&self) -> Kind {
                match self {
                    $(Self::$kind(_) => Kind::Quantity(Dimension::$dimension),)+
                    Self::Number(_) => Kind::Number,
                }
            }

            /// The value of a kind, from the number that [`Kind::read`] gives: SI for a quantity.
            #[must_use]
            pub fn of(kind: Kind, number: f64) -> Self {
                match kind {
                    Kind::QuantityOr(dimension, _) => Self::of(Kind::Quantity(dimension), number),
                    $(Kind::Quantity(Dimension::$dimension) => Self::$kind($from_si(number)),)+
                    _ => Self::Number(number),
                }
            }
        }

        $(to_and_fro! { $kind is $quantity })+
    };
}

measured! {
    Length of Length is Length, Length::new::<meter>;
    Mass of Mass is Mass, Mass::new::<kilogram>;
    Speed of Speed is Velocity, Velocity::new::<meter_per_second>;
    Angle of Angle is Angle, Angle::new::<radian>;
    Power of Power is Power, Power::new::<watt>;
    Density of Density is MassDensity, MassDensity::new::<kilogram_per_cubic_meter>;
    Viscosity of KinematicViscosity is KinematicViscosity, KinematicViscosity::new::<square_meter_per_second>;
    Temperature of Temperature is ThermodynamicTemperature, ThermodynamicTemperature::new::<kelvin>;
    Area of Area is Area, Area::new::<square_meter>;
    Share of Fraction is Ratio, Ratio::new::<ratio>;
    Moment of Torque is Torque, Torque::new::<newton_meter>;
    RotationSpeed of RotationSpeed is AngularVelocity, AngularVelocity::new::<radian_per_second>;
    Force of Force is Force, Force::new::<newton>;
    Consumption of SpecificConsumption is SpecificConsumption, SpecificConsumption::from_kg_per_joule;
}

to_and_fro! { Number is f64 }

/// Values by the names of their keys, those that are given.
pub(super) type Named = Vec<(&'static str, Measure)>;

/// The values that are given among those that may be.
pub(super) fn given<const N: usize>(all: [(&'static str, Option<Measure>); N]) -> Named {
    all.into_iter().filter_map(|(name, value)| Some((name, value?))).collect()
}
