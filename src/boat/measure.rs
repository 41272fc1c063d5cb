//! A quantity of any kind the boat file knows, for tables that hold several kinds.

use std::fmt;

use uom::si::f64::{
    Angle, AngularVelocity, Area, Force, KinematicViscosity, Length, Mass, MassDensity, Power,
    Ratio, ThermodynamicTemperature, Torque, Velocity,
};
use uom::si::{
    angle::degree, angular_velocity::radian_per_second, area::square_meter, force::newton,
    kinematic_viscosity::square_meter_per_second, length::meter, mass::kilogram,
    mass_density::kilogram_per_cubic_meter, power::kilowatt, ratio::percent,
    thermodynamic_temperature::degree_celsius, torque::newton_meter, velocity::meter_per_second,
};

use crate::units::factor::RAD_S_PER_REVOLUTION_PER_MINUTE;
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
    pub const fn unit(&self) -> &'static str {
        match self {
            Self::Length(_) => "m",
            Self::Mass(_) => "kg",
            Self::Speed(_) => "m/s",
            Self::Angle(_) => "deg",
            Self::Power(_) => "kW",
            Self::Density(_) => "kg/m^3",
            Self::Viscosity(_) => "m^2/s",
            Self::Temperature(_) => "degC",
            Self::Area(_) => "m^2",
            Self::Share(_) => "%",
            Self::Moment(_) => "N m",
            Self::RotationSpeed(_) => "rpm",
            Self::Force(_) => "N",
            Self::Consumption(_) => "g/kWh",
            Self::Number(_) => "",
        }
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

/// A number as a person writes it: four significant digits, no trailing zeros.
#[must_use]
pub fn plain_number(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{value}");
    }
    let magnitude = value.abs().log10().floor();
    if !(-4.0..6.0).contains(&magnitude) {
        return format!("{value:.3e}");
    }
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let decimals = (3.0 - magnitude).max(0.0) as usize;
    let text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::plain_number;

    #[test]
    fn regression_numbers_read_as_written() {
        assert_eq!(plain_number(2.25), "2.25");
        assert_eq!(plain_number(0.0), "0");
        assert_eq!(plain_number(-18.0), "-18");
        assert_eq!(plain_number(12_345.6), "12346");
        assert_eq!(plain_number(1.19e-6), "1.190e-6");
        assert_eq!(plain_number(0.33333), "0.3333");
    }
}
