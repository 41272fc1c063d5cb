//! Numbers with their units, as sentences need them.

use uom::si::f64::{Angle, Velocity};

use crate::boat::{Boat, degrees};
use crate::document::{Block, Fact};
pub(super) use crate::sentence::quantity::{
    angle, angle_number, small_length, small_length_number, speed, whole_degrees,
};
use crate::units::{UnitChoice, number_with_decimals};

/// `12.3 kn`.
pub(super) fn speed_text(speed: Velocity, units: UnitChoice) -> String {
    format!("{} {}", number_with_decimals(units.speed.value(speed), 1), units.speed.symbol())
}

/// `2.3 deg`, without the sign of a nought.
pub(super) fn angle_text(angle: Angle) -> String {
    format!("{} deg", number_with_decimals(degrees(angle) + 0.0, 1))
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
