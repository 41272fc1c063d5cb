//! What a part does not bear, and what to do about it: sentences from numbers.

use uom::si::f64::{Force, Length};
use uom::si::{angle::degree, force::newton};

use crate::plane::strength::Verdict;
use crate::sentence::{Piece, Sentence, said};
use crate::stock::Gear;
use crate::stock::assess::{Bearer, BoltPattern, Check, HeldBy, Strength, ThroughBolts};
use crate::units::{LengthUnit, UnitChoice, number_with_decimals};

/// What is to be done to a part that has no allowance for slamming, so that it has; none where it
/// has one, or is unsafe.
#[must_use]
pub(crate) fn remedy(gear: &Gear, strength: &Strength, units: UnitChoice) -> Option<String> {
    if strength.verdict() != Verdict::NoSlammingAllowance {
        return None;
    }
    let weak = |bearer| strength.of(bearer).verdict() == Some(Verdict::NoSlammingAllowance);
    let mut ways: Vec<String> = bolts_text(&strength.bolts, units).into_iter().collect();
    if weak(Bearer::Plate) {
        ways.push(format!(
            "its plate of {} needs {}, or folds or ribs that its maker answers for",
            thickness(gear.thickness, units),
            thickness(strength.needed_thickness, units)
        ));
    }
    if weak(Bearer::Actuators) {
        ways.push(format!(
            "let the planes rest against a stop, or take actuators that bear {} standing still, not {}",
            force(rounded_up(strength.needed_hold), units),
            force(gear.actuator.hold(), units)
        ));
    }
    Some(ways.join("; "))
}

/// To a hundred newtons up, as a rating is chosen.
fn rounded_up(needed: Force) -> Force {
    Force::new::<newton>((needed.get::<newton>() / 100.0).ceil() * 100.0)
}

/// `through-bolt each plane: 12 bolts M6 ...`; none where nothing is to be bolted.
#[must_use]
pub(crate) fn bolts_text(bolts: &ThroughBolts, units: UnitChoice) -> Option<String> {
    let mut rows = Vec::new();
    let mut beyond = Vec::new();
    let bracket = if bolts.brackets > 1 { "each upper bracket" } else { "the upper bracket" };
    for (held, what) in [(&bolts.hinge, "the hinge leaf"), (&bolts.bracket, bracket)] {
        match held {
            HeldBy::Bolts(pattern) => rows.push(row(pattern, what, units)),
            HeldBy::Nothing => beyond.push(what),
            HeldBy::Screws | HeldBy::NotCovered => {}
        }
    }
    let mut parts = Vec::new();
    if !rows.is_empty() {
        parts.push(format!("through-bolt each plane: {}", rows.join(", and ")));
    }
    if !beyond.is_empty() {
        parts.push(format!(
            "no bolt through the holes of {} bears it: ask its maker for another",
            beyond.join(" and ")
        ));
    }
    (!parts.is_empty()).then(|| parts.join("; "))
}

fn row(pattern: &BoltPattern, what: &str, units: UnitChoice) -> String {
    format!(
        "{} {} bolts in {what} on a backing plate of {}",
        pattern.count,
        pattern.bolt.name(),
        backing(pattern, units)
    )
}

/// `600 x 35 x 4 mm`.
fn backing(pattern: &BoltPattern, units: UnitChoice) -> String {
    let unit = units.small_length;
    let whole = unit == LengthUnit::Millimetre;
    let side = |length, decimals| number_with_decimals(unit.value(length), decimals);
    let plate = &pattern.backing;
    format!(
        "{} x {} x {} {}",
        side(plate.length, if whole { 0 } else { 1 }),
        side(plate.width, if whole { 0 } else { 1 }),
        side(plate.thickness, if whole { 0 } else { 2 }),
        unit.symbol()
    )
}

/// What does not bear the load of steady running, each with its numbers, for a terminal; none where all do.
#[must_use]
pub(crate) fn unsafe_text(strength: &Strength, units: UnitChoice) -> Option<String> {
    unsafe_said(strength, units).map(|said| said.to_string())
}

/// What does not bear the load of steady running, each with its numbers; none where all do.
#[must_use]
pub(crate) fn unsafe_said(strength: &Strength, units: UnitChoice) -> Option<Sentence> {
    let all = strength.having(Verdict::Unsafe).map(|check| one_unsafe(check, units));
    Some(Sentence::joined(all, "; and ")).filter(|said| !said.is_empty())
}

fn one_unsafe(check: &Check, units: UnitChoice) -> Sentence {
    let borne = match check.bearer {
        Bearer::Plate => "the plate bears with its safety factor",
        Bearer::HingeScrews => "the hinge screws hold with their safety factor",
        Bearer::BracketScrews => "the bracket screws hold with their safety factor",
        Bearer::Actuators => "the standing actuators bear",
    };
    let speed = number_with_decimals(units.speed.value(check.speed), 1);
    let deflection = number_with_decimals(check.deflection.get::<degree>(), 1);
    said![
        "steady running at ",
        Piece::quantity(speed, units.speed.symbol()),
        " and ",
        Piece::quantity(deflection, "deg"),
        format!(" takes {:.0} % of what {borne}", 100.0 * check.steady.unwrap_or(f64::INFINITY)),
    ]
}

fn thickness(length: Length, units: UnitChoice) -> String {
    let unit = units.small_length;
    let decimals = if unit == LengthUnit::Millimetre { 1 } else { 3 };
    format!("{} {}", number_with_decimals(unit.value(length), decimals), unit.symbol())
}

fn force(force: Force, units: UnitChoice) -> String {
    format!("{} {}", number_with_decimals(units.force.value(force), 0), units.force.symbol())
}
