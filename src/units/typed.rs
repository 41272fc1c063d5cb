//! The reader for each kind of quantity, giving a typed value.

use uom::si::f64::{
    Acceleration, Angle, AngularVelocity, Area, Force, KinematicViscosity, Length, Mass,
    MassDensity, Power, Pressure, ThermodynamicTemperature, Time, Torque, Velocity, VolumeRate,
};
use uom::si::{
    acceleration::meter_per_second_squared, angle::radian, angular_velocity::radian_per_second,
    area::square_meter, force::newton, kinematic_viscosity::square_meter_per_second, length::meter,
    mass::kilogram, mass_density::kilogram_per_cubic_meter, power::watt, pressure::pascal,
    thermodynamic_temperature::kelvin, time::second, torque::newton_meter,
    velocity::meter_per_second, volume_rate::cubic_meter_per_second,
};

use super::parse::parse_si;
use super::quantity_error::QuantityError;
use super::table::Dimension;

/// Reads a length: m, cm, mm, ft, in, also `7 ft 4 in` and `7 1/2 in`.
///
/// # Errors
/// If the text is not a finite number with a unit of length.
pub fn parse_length(text: &str) -> Result<Length, QuantityError> {
    parse_si(text, Dimension::Length).map(Length::new::<meter>)
}

/// Reads a speed: kn, km/h, mph, m/s or ft/s.
///
/// # Errors
/// If the text is not a finite number with a unit of speed.
pub fn parse_speed(text: &str) -> Result<Velocity, QuantityError> {
    parse_si(text, Dimension::Speed).map(Velocity::new::<meter_per_second>)
}

/// Reads a mass: kg, t, lb or g.
///
/// # Errors
/// If the text is not a finite number with a unit of mass.
pub fn parse_mass(text: &str) -> Result<Mass, QuantityError> {
    parse_si(text, Dimension::Mass).map(Mass::new::<kilogram>)
}

/// Reads a force: N, kN or lbf.
///
/// # Errors
/// If the text is not a finite number with a unit of force.
pub fn parse_force(text: &str) -> Result<Force, QuantityError> {
    parse_si(text, Dimension::Force).map(Force::new::<newton>)
}

/// Reads a power: kW, W or hp (550 foot pounds-force per second).
///
/// # Errors
/// If the text is not a finite number with a unit of power.
pub fn parse_power(text: &str) -> Result<Power, QuantityError> {
    parse_si(text, Dimension::Power).map(Power::new::<watt>)
}

/// Reads an angle: deg or rad.
///
/// # Errors
/// If the text is not a finite number with a unit of angle.
pub fn parse_angle(text: &str) -> Result<Angle, QuantityError> {
    parse_si(text, Dimension::Angle).map(Angle::new::<radian>)
}

/// Reads a temperature: degC, degF or K.
///
/// # Errors
/// If the text is not a finite number with a unit of temperature.
pub fn parse_temperature(text: &str) -> Result<ThermodynamicTemperature, QuantityError> {
    parse_si(text, Dimension::Temperature).map(ThermodynamicTemperature::new::<kelvin>)
}

/// Reads a density in kg/m^3.
///
/// # Errors
/// If the text is not a finite number with a unit of density.
pub fn parse_density(text: &str) -> Result<MassDensity, QuantityError> {
    parse_si(text, Dimension::Density).map(MassDensity::new::<kilogram_per_cubic_meter>)
}

/// Reads a kinematic viscosity: m^2/s or mm^2/s.
///
/// # Errors
/// If the text is not a finite number with a unit of kinematic viscosity.
pub fn parse_kinematic_viscosity(text: &str) -> Result<KinematicViscosity, QuantityError> {
    parse_si(text, Dimension::KinematicViscosity)
        .map(KinematicViscosity::new::<square_meter_per_second>)
}

/// Reads a torque or moment: N m, kN m or lbf ft. The point it is taken about is the caller's.
///
/// # Errors
/// If the text is not a finite number with a unit of torque.
pub fn parse_torque(text: &str) -> Result<Torque, QuantityError> {
    parse_si(text, Dimension::Torque).map(Torque::new::<newton_meter>)
}

/// Reads an area: m^2, cm^2, ft^2 or in^2.
///
/// # Errors
/// If the text is not a finite number with a unit of area.
pub fn parse_area(text: &str) -> Result<Area, QuantityError> {
    parse_si(text, Dimension::Area).map(Area::new::<square_meter>)
}

/// Reads a pressure or stress: bar, Pa, kPa, MPa, GPa or psi.
///
/// # Errors
/// If the text is not a finite number with a unit of pressure.
pub fn parse_pressure(text: &str) -> Result<Pressure, QuantityError> {
    parse_si(text, Dimension::Pressure).map(Pressure::new::<pascal>)
}

/// Reads a volume flow: L/min or m^3/s.
///
/// # Errors
/// If the text is not a finite number with a unit of volume flow.
pub fn parse_volume_rate(text: &str) -> Result<VolumeRate, QuantityError> {
    parse_si(text, Dimension::VolumeRate).map(VolumeRate::new::<cubic_meter_per_second>)
}

/// Reads a time: s, min or h.
///
/// # Errors
/// If the text is not a finite number with a unit of time.
pub fn parse_time(text: &str) -> Result<Time, QuantityError> {
    parse_si(text, Dimension::Time).map(Time::new::<second>)
}

/// Reads a speed of rotation: rpm, r/min or rad/s.
///
/// # Errors
/// If the text is not a finite number with a unit of rotation.
pub fn parse_rotation_speed(text: &str) -> Result<AngularVelocity, QuantityError> {
    parse_si(text, Dimension::RotationSpeed).map(AngularVelocity::new::<radian_per_second>)
}
/// Reads an acceleration: g (9.806 65 m/s²) or m/s^2.
///
/// # Errors
/// If the text is not a finite number with a unit of acceleration.
pub fn parse_acceleration(text: &str) -> Result<Acceleration, QuantityError> {
    parse_si(text, Dimension::Acceleration).map(Acceleration::new::<meter_per_second_squared>)
}

/// Reads a dimensionless share: `3 %` and `0.03` are the same.
///
/// # Errors
/// If the text is not a finite number, plain or with `%`.
pub fn parse_fraction(text: &str) -> Result<f64, QuantityError> {
    parse_si(text, Dimension::Fraction)
}
