//! Quantities as pieces, in the units asked for.

use uom::si::f64::{Angle, Length, Velocity};

use super::Piece;
use crate::boat::degrees;
use crate::units::{LengthUnit, UnitChoice, number_with_decimals};

/// A speed to one decimal.
pub(crate) fn speed(speed: Velocity, units: UnitChoice) -> Piece {
    Piece::quantity(number_with_decimals(units.speed.value(speed), 1), units.speed.symbol())
}

/// A speed as people say it: whole, or to one decimal where that is something else.
pub(crate) fn speed_as_asked(speed: Velocity, units: UnitChoice) -> Piece {
    let value = units.speed.value(speed);
    let decimals = usize::from((value - value.round()).abs() > 0.05);
    Piece::quantity(number_with_decimals(value, decimals), units.speed.symbol())
}

/// An angle to so many decimals, without the sign of a nought.
pub(crate) fn angle(angle: Angle, decimals: usize) -> Piece {
    Piece::quantity(angle_number(angle, decimals), "deg")
}

/// The number of it alone, where its unit is said already.
pub(crate) fn angle_number(angle: Angle, decimals: usize) -> String {
    number_with_decimals(degrees(angle), decimals)
}

/// `2 deg`, where that is a limit of the equations.
pub(crate) fn whole_degrees(degrees: u8) -> Piece {
    Piece::quantity(degrees.to_string(), "deg")
}

/// A small length: whole millimetres, or tenths of another unit.
pub(crate) fn small_length(length: Length, units: UnitChoice) -> Piece {
    Piece::quantity(small_length_number(length, units), units.small_length.symbol())
}

/// The number of it alone.
pub(crate) fn small_length_number(length: Length, units: UnitChoice) -> String {
    let unit = units.small_length;
    number_with_decimals(unit.value(length), usize::from(unit != LengthUnit::Millimetre))
}

/// A share in whole per cent.
pub(crate) fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}
