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

/// The reader of each kind of quantity: what it takes, its name, the type that it gives, and the base unit of that.
macro_rules! readers {
    ($($(#[$about:meta])* $reader:ident: $dimension:ident($quantity:ident) in $base:ident, $kind:literal;)+) => {
        $(
            $(#[$about])*
            ///
            /// # Errors
            #[doc = concat!("If the text is not a finite number with a unit of ", $kind, ".")]
            pub fn $reader(text: &str) -> Result<$quantity, QuantityError> {
                parse_si(text, Dimension::$dimension).map($quantity::new::<$base>)
            }
        )+
    };
}

readers! {
    /// Reads a length: m, cm, mm, ft, in, also `7 ft 4 in` and `7 1/2 in`.
    parse_length: Length(Length) in meter, "length";
    /// Reads a speed: kn, km/h, mph, m/s or ft/s.
    parse_speed: Speed(Velocity) in meter_per_second, "speed";
    /// Reads a mass: kg, t, lb or g.
    parse_mass: Mass(Mass) in kilogram, "mass";
    /// Reads a force: N, kN or lbf.
    parse_force: Force(Force) in newton, "force";
    /// Reads a power: kW, W or hp (550 foot pounds-force per second).
    parse_power: Power(Power) in watt, "power";
    /// Reads an angle: deg or rad.
    parse_angle: Angle(Angle) in radian, "angle";
    /// Reads a temperature: degC, degF or K.
    parse_temperature: Temperature(ThermodynamicTemperature) in kelvin, "temperature";
    /// Reads a density in kg/m^3.
    parse_density: Density(MassDensity) in kilogram_per_cubic_meter, "density";
    /// Reads a kinematic viscosity: m^2/s or mm^2/s.
    parse_kinematic_viscosity: KinematicViscosity(KinematicViscosity) in square_meter_per_second, "kinematic viscosity";
    /// Reads a torque or moment: N m, kN m or lbf ft. The point it is taken about is the caller's.
    parse_torque: Torque(Torque) in newton_meter, "torque";
    /// Reads an area: m^2, cm^2, ft^2 or in^2.
    parse_area: Area(Area) in square_meter, "area";
    /// Reads a pressure or stress: bar, Pa, kPa, MPa, GPa or psi.
    parse_pressure: Pressure(Pressure) in pascal, "pressure";
    /// Reads a volume flow: L/min or m^3/s.
    parse_volume_rate: VolumeRate(VolumeRate) in cubic_meter_per_second, "volume flow";
    /// Reads a time: s, min or h.
    parse_time: Time(Time) in second, "time";
    /// Reads a speed of rotation: rpm, r/min or rad/s.
    parse_rotation_speed: RotationSpeed(AngularVelocity) in radian_per_second, "rotation";
    /// Reads an acceleration: g (9.806 65 m/s²) or m/s^2.
    parse_acceleration: Acceleration(Acceleration) in meter_per_second_squared, "acceleration";
}

/// Reads a dimensionless share: `3 %` and `0.03` are the same.
///
/// # Errors
/// If the text is not a finite number, plain or with `%`.
pub fn parse_fraction(text: &str) -> Result<f64, QuantityError> {
    parse_si(text, Dimension::Fraction)
}
