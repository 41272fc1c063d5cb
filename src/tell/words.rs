//! Numbers with their units, as sentences need them.

use uom::si::f64::{Angle, Length, Velocity};

use crate::boat::{Boat, degrees};
use crate::document::{Block, Fact, Piece};
use crate::units::{LengthUnit, UnitChoice, number_with_decimals};

/// `12.3 kn`.
pub(super) fn speed_text(speed: Velocity, units: UnitChoice) -> String {
    format!("{} {}", number_with_decimals(units.speed.value(speed), 1), units.speed.symbol())
}

/// `2.3 deg`, without the sign of a nought.
pub(super) fn angle_text(angle: Angle) -> String {
    format!("{} deg", number_with_decimals(degrees(angle) + 0.0, 1))
}

/// A speed to one decimal.
pub(super) fn speed(speed: Velocity, units: UnitChoice) -> Piece {
    Piece::quantity(number_with_decimals(units.speed.value(speed), 1), units.speed.symbol())
}

/// An angle to so many decimals, without the sign of a nought.
pub(super) fn angle(angle: Angle, decimals: usize) -> Piece {
    Piece::quantity(angle_number(angle, decimals), "deg")
}

/// The number of it alone, where its unit is said already.
pub(super) fn angle_number(angle: Angle, decimals: usize) -> String {
    number_with_decimals(degrees(angle), decimals)
}

/// `2 deg`, where that is a limit of the equations.
pub(super) fn whole_degrees(degrees: u8) -> Piece {
    Piece::quantity(degrees.to_string(), "deg")
}

/// A small length: whole millimetres, or tenths of another unit.
pub(super) fn small_length(length: Length, units: UnitChoice) -> Piece {
    Piece::quantity(small_length_number(length, units), units.small_length.symbol())
}

/// The number of it alone.
pub(super) fn small_length_number(length: Length, units: UnitChoice) -> String {
    let unit = units.small_length;
    number_with_decimals(unit.value(length), usize::from(unit != LengthUnit::Millimetre))
}

/// A share in whole per cent.
pub(super) fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

/// A number with so many significant digits, whole digits all kept.
pub(super) fn digits(value: f64, significant: i32) -> String {
    let magnitude = if value == 0.0 { 0.0 } else { value.abs().log10().floor() };
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let decimals = (f64::from(significant - 1) - magnitude).max(0.0) as usize;
    number_with_decimals(value, decimals)
}

/// Two of anything, once when they read the same.
pub(super) fn between(ends: [String; 2], joint: &str) -> String {
    let [low, high] = ends;
    if low == high { low } else { format!("{low}{joint}{high}") }
}

/// A section of blocks; nothing when all of them are empty.
pub(super) fn section(title: &str, blocks: Vec<Block>) -> Vec<Block> {
    let says = |block: &Block| match block {
        Block::Points(texts) | Block::Warnings(texts) => !texts.is_empty(),
        Block::Facts(facts) | Block::Terms(facts) => !facts.is_empty(),
        _ => true,
    };
    let mut all = vec![Block::Section(title.to_owned())];
    all.extend(blocks.into_iter().filter(says));
    if all.len() > 1 { all } else { Vec::new() }
}

/// The loading condition, where there are several.
pub(super) fn loading(boat: &Boat) -> Vec<Fact> {
    if boat.conditions().len() < 2 {
        return Vec::new();
    }
    let condition = boat.condition();
    let about = condition.about.as_ref().map_or_else(String::new, |about| format!(": {about}"));
    vec![Fact::new("Loading", format!("{}{about}", condition.name))]
}
