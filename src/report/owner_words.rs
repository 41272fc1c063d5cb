//! Duties as situations on the water, in words without formulas.

use super::gather::Gathered;
use super::say;
use crate::boat::measure::plain_number;
use crate::boat::{Duty, ListCause, Wish, degrees};
use crate::size::{DutyResult, Reached, off_centre_texts};
use crate::units::UnitChoice;
use uom::si::f64::{Angle, Length, Velocity};
use uom::si::length::meter;

/// What a duty is about, as one sentence of a story.
pub(super) fn situation(result: &DutyResult, gathered: &Gathered) -> String {
    let units = gathered.size.units;
    match result.duty {
        Duty::Relief { at_least, over: None } => format!(
            "as she climbs onto the plane, where the bow stands highest, the planes shall be able to bring the bow down by at least {}{}.",
            say::angle(at_least),
            why_at_the_hump(result, gathered)
        ),
        Duty::Relief { at_least, over: Some([from, to]) } => format!(
            "{} the planes shall be able to bring the bow down by at least {}{}.",
            over(from, to, units),
            say::angle(at_least),
            match is_wished(result, gathered, Wish::Porpoises) {
                true => ", since a lower bow keeps her further from nodding",
                false => "",
            }
        ),
        Duty::HumpTrim { at_most, from, to } => {
            let [onto, softer] = match is_past_the_hump(result, from, gathered) {
                true => ["", "; so she rides softer in a head sea"],
                false if from == to => ["", ""],
                false => [
                    "while she climbs onto the plane, ",
                    ", so that whoever steers sees what lies ahead",
                ],
            };
            format!(
                "{onto}{} the bow shall stand no higher than {}{softer}.",
                over(from, to, units),
                say::angle(at_most)
            )
        }
        Duty::PorpoisingMargin { margin, up_to } => format!(
            "up to {} she shall not begin to nod by herself (porpoise); {} of room are kept under the bow angle at which models did so in the tank.",
            say::speed(up_to, units),
            say::angle(margin)
        ),
        Duty::LeastResistance { within, speed } => format!(
            "at {} she shall run as easily as planes can make her, within {} %.",
            say::speed(speed, units),
            plain_number(100.0 * within.value)
        ),
        Duty::List { cause, speed } => format!(
            "at {} she shall run level with {}.",
            say::speed(speed, units),
            cause_words(cause, units)
        ),
    }
}

/// `at 21 kn` or `from 21 kn to 26 kn`.
fn over(from: Velocity, to: Velocity, units: UnitChoice) -> String {
    match from == to {
        true => format!("at {}", say::speed(from, units)),
        false => format!("from {} to {}", say::speed(from, units), say::speed(to, units)),
    }
}

/// Whether a duty was made from a wish of the boat file.
fn is_wished(result: &DutyResult, gathered: &Gathered, wish: Wish) -> bool {
    result.generated && gathered.boat().input().wishes.contains(&wish)
}

/// What the bow shall come down for at the hump.
fn why_at_the_hump(result: &DutyResult, gathered: &Gathered) -> &'static str {
    let [high, slow] = [Wish::BowHigh, Wish::SlowToPlane].map(|w| is_wished(result, gathered, w));
    match (high, slow) {
        (false, true) => ", so that she comes over the hump sooner",
        (true, true) => {
            ", so that whoever steers sees what lies ahead and she comes over the hump sooner"
        }
        _ => ", so that whoever steers sees what lies ahead",
    }
}

/// Whether a low bow is asked for from a speed past her hump on, in the loading where it asks most.
fn is_past_the_hump(result: &DutyResult, from: Velocity, gathered: &Gathered) -> bool {
    let conditions = &gathered.size.suggestion.conditions;
    let own = conditions.iter().find(|own| own.condition == result.condition);
    own.is_some_and(|own| from > own.hump_speed)
}

/// The same in three or four words.
pub(super) fn short(duty: &Duty) -> &'static str {
    match duty {
        Duty::Relief { over: None, .. } => "Bring the bow down while getting on plane",
        Duty::Relief { .. } => "Bring the bow down",
        Duty::HumpTrim { .. } => "Keep the bow down",
        Duty::PorpoisingMargin { .. } => "Do not begin to nod at speed",
        Duty::LeastResistance { .. } => "Run easily at cruising speed",
        Duty::List { .. } => "Run level with weight on one side",
    }
}

pub(super) fn cause_words(cause: ListCause, units: UnitChoice) -> String {
    match cause {
        ListCause::OffCentre { mass, distance } => {
            let side = if distance < Length::new::<meter>(0.0) { "port" } else { "starboard" };
            let [heavy, far] = off_centre_texts(mass, distance, units);
            format!("{heavy} sitting {far} to {side}")
        }
        ListCause::Moment(_) => "whatever heels her".to_owned(),
    }
}

/// What the bare boat and the pair reach, in one sentence; nothing where the boat has no balance.
pub(super) fn reached(result: &DutyResult) -> Option<String> {
    let both = |bare: Option<Angle>, with: Option<Angle>| Some((bare?, with?));
    match result.reached {
        Reached::Trim { bare, with } => both(bare, with).map(|(bare, with)| {
            format!(
                "With planes up the bow rises to {}; {} {}.",
                say::angle(bare),
                match result.met {
                    true => "it is done once they bring it down to",
                    false => "all the way down they bring it to",
                },
                say::angle(with)
            )
        }),
        Reached::Margin { bare, with } => both(bare, with).map(|(bare, with)| {
            let margin = |margin: Angle| match degrees(margin) {
                over if over < 0.0 => format!("{} over the limit", say::angle(-margin)),
                _ => format!("{} under it", say::angle(margin)),
            };
            format!(
                "With planes up she runs {}; with them set for it, {}.",
                margin(bare),
                margin(with)
            )
        }),
        Reached::Resistance { bare: Some(bare), with: Some(with), .. } => {
            let change = 100.0 * ((with / bare).value - 1.0);
            Some(format!(
                "Set for it, the planes change her resistance by {} % beside planes up.",
                crate::units::number_with_decimals(change, 1)
            ))
        }
        Reached::Difference { least, largest } => {
            let [one, other] = [least, largest].map(|a| degrees(a).abs());
            let (low, high) = if one < other { (one, other) } else { (other, one) };
            Some(format!(
                "The plane on the low side goes {} to {}° deeper than the other.",
                crate::units::number_with_decimals(low, 1),
                crate::units::number_with_decimals(high, 1)
            ))
        }
        Reached::Resistance { .. } => None,
    }
}
