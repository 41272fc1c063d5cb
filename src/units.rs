//! Units: the exact conversion factors, the reader for quantities written as text, and the
//! writers that show a quantity in the unit a person asked for.
//!
//! This is the only place in the crate that converts units. Every public edge carries
//! [`uom`] types, which keep a length from being taken for a speed. They do **not** keep two
//! moments about different points from being added, nor a force from being taken for a weight
//! at another gravity; names must do that.
//!
//! The factors are those of NIST Special Publication 811 (2008), appendix B, which follow from
//! the international yard and pound of 1959. `uom` carries some of them rounded (its pound is
//! 0.453 592 4 kg), so its pound, pound-force, horsepower and knot are never used: a quantity is
//! built from its SI base unit and the constants in [`factor`].

mod choice;
pub mod factor;
mod fuel;
mod output_unit;
mod parse;
mod quantity_error;
mod show;
mod table;
mod typed;
mod written;

pub use choice::{UnitChoice, UnitSystem};
pub use fuel::{FuelUnits, SpecificConsumption, parse_specific_consumption};
pub use output_unit::{
    AreaUnit, ForceUnit, LengthUnit, MassUnit, MomentUnit, PowerUnit, SpeedUnit,
};
pub use parse::parse_si;
pub use quantity_error::{QuantityError, QuantityProblem};
pub(crate) use quantity_error::{is_unseen, quoted};
pub(crate) use show::half_knots;
pub use show::{
    feet_and_inches, format_angle, format_area, format_force, format_length, format_mass,
    format_moment, format_power, format_share, format_speed, format_temperature, fraction_of_inch,
    number_with_decimals, plain_number,
};
pub use table::Dimension;
pub use typed::{
    parse_acceleration, parse_angle, parse_area, parse_density, parse_force, parse_fraction,
    parse_kinematic_viscosity, parse_length, parse_mass, parse_power, parse_pressure,
    parse_rotation_speed, parse_speed, parse_temperature, parse_time, parse_torque,
    parse_volume_rate,
};
pub use written::{one_in_si, unit_written};
