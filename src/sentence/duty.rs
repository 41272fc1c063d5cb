//! What a duty asks, in words: as a condition, as a situation on the water, and as a title.

use uom::si::angle::degree;
use uom::si::f64::{Length, Mass, Velocity};
use uom::si::length::meter;
use uom::si::ratio::percent;

use super::quantity::{angle, speed_as_asked};
use super::{Piece, Sentence, said};
use crate::boat::measure::plain_number;
use crate::boat::{Duty, ListCause, Wish};
use crate::units::UnitChoice;

/// The condition of a duty, for whoever works with numbers.
#[must_use]
pub fn condition(duty: &Duty, units: UnitChoice) -> Sentence {
    let written = |value: f64, unit| Piece::quantity(plain_number(value), unit);
    let speed = |speed: Velocity| written(units.speed.value(speed), units.speed.symbol());
    match *duty {
        Duty::Relief { at_least, over } => {
            let off = written(at_least.get::<degree>(), "deg");
            let at = match over {
                None => ", at the hump".into(),
                Some(ends) => said![" ", between(ends, speed)],
            };
            said!["at least ", off, " off the trim with planes up", at]
        }
        Duty::HumpTrim { at_most, from, to } => {
            let at_most = written(at_most.get::<degree>(), "deg");
            said!["trim at most ", at_most, " ", between([from, to], speed)]
        }
        Duty::LeastResistance { within, speed: at } => said![
            "resistance within ",
            written(within.get::<percent>(), "%"),
            " of the least that any pair reaches at ",
            speed(at),
        ],
        Duty::PorpoisingMargin { margin, up_to } => said![
            "trim at least ",
            written(margin.get::<degree>(), "deg"),
            " under the porpoising limit up to ",
            speed(up_to),
        ],
        Duty::List { cause: ListCause::Moment(moment), speed: at } => said![
            "a heeling moment of ",
            written(units.moment.value(moment), units.moment.symbol()),
            " levelled at ",
            speed(at),
        ],
        Duty::List { cause: ListCause::OffCentre { mass, distance }, speed: at } => {
            let [heavy, far] = off_centre_texts(mass, distance, units);
            let side = side(distance);
            said![format!("{heavy} at {far} to {side} levelled at "), speed(at)]
        }
    }
}

/// What the story of a duty depends on beside the duty itself.
#[derive(Clone, Copy)]
pub(crate) struct Story<'a> {
    /// The wishes it was made from; none where it stands in the boat file.
    pub wishes: &'a [Wish],
    /// Whether it holds from a speed past the hump on.
    pub is_past_the_hump: bool,
    /// The units it is told in.
    pub units: UnitChoice,
}

/// A duty as a situation on the water, without formulas: one sentence without a capital letter.
#[must_use]
pub(crate) fn situation(duty: &Duty, story: Story<'_>) -> Sentence {
    let speed = |speed| speed_as_asked(speed, story.units);
    match *duty {
        Duty::Relief { at_least, over: None } => said![
            "as she climbs onto the plane, where the bow stands highest, the planes shall be able to bring the bow down by at least ",
            angle(at_least, 1),
            why_at_the_hump(story.wishes),
            ".",
        ],
        Duty::Relief { at_least, over: Some(ends) } => said![
            between(ends, speed),
            " the planes shall be able to bring the bow down by at least ",
            angle(at_least, 1),
            match story.wishes.contains(&Wish::Porpoises) {
                true => ", since a lower bow keeps her further from nodding.",
                false => ".",
            },
        ],
        Duty::HumpTrim { at_most, from, to } => {
            let [onto, softer] = match story.is_past_the_hump {
                true => ["", "; so she rides softer in a head sea."],
                false if from == to => ["", "."],
                false => [
                    "while she climbs onto the plane, ",
                    ", so that whoever steers sees what lies ahead.",
                ],
            };
            let over = between([from, to], speed);
            said![onto, over, " the bow shall stand no higher than ", angle(at_most, 1), softer]
        }
        Duty::PorpoisingMargin { margin, up_to } => said![
            "up to ",
            speed(up_to),
            " she shall not begin to nod by herself (porpoise); ",
            angle(margin, 1),
            " of room are kept under the bow angle at which models did so in the tank.",
        ],
        Duty::LeastResistance { within, speed: at } => said![
            "at ",
            speed(at),
            " she shall run as easily as planes can make her, within ",
            Piece::quantity(plain_number(100.0 * within.value), "%"),
            ".",
        ],
        Duty::List { cause, speed: at } => {
            let heels = cause_words(cause, story.units);
            said!["at ", speed(at), " she shall run level with ", heels, "."]
        }
    }
}

/// A duty in three or four words.
#[must_use]
pub(crate) const fn title(duty: &Duty) -> &'static str {
    match duty {
        Duty::Relief { over: None, .. } => "Bring the bow down while getting on plane",
        Duty::Relief { .. } => "Bring the bow down",
        Duty::HumpTrim { .. } => "Keep the bow down",
        Duty::PorpoisingMargin { .. } => "Do not begin to nod at speed",
        Duty::LeastResistance { .. } => "Run easily at cruising speed",
        Duty::List { .. } => "Run level with weight on one side",
    }
}

/// `at 21 kn` or `from 21 kn to 26 kn`.
fn between([from, to]: [Velocity; 2], speed: impl Fn(Velocity) -> Piece) -> Sentence {
    match from == to {
        true => said!["at ", speed(from)],
        false => said!["from ", speed(from), " to ", speed(to)],
    }
}

/// What the bow shall come down for at the hump.
fn why_at_the_hump(wishes: &[Wish]) -> &'static str {
    match [Wish::BowHigh, Wish::SlowToPlane].map(|wish| wishes.contains(&wish)) {
        [false, true] => ", so that she comes over the hump sooner",
        [true, true] => {
            ", so that whoever steers sees what lies ahead and she comes over the hump sooner"
        }
        _ => ", so that whoever steers sees what lies ahead",
    }
}

/// What heels her, for somebody aboard.
#[must_use]
pub(crate) fn cause_words(cause: ListCause, units: UnitChoice) -> String {
    match cause {
        ListCause::OffCentre { mass, distance } => {
            let [heavy, far] = off_centre_texts(mass, distance, units);
            format!("{heavy} sitting {far} to {}", side(distance))
        }
        ListCause::Moment(_) => "whatever heels her".to_owned(),
    }
}

/// A mass off the centreline and its distance, each in whole units of the last place that anybody weighs or measures a person to.
#[must_use]
pub fn off_centre_texts(mass: Mass, distance: Length, units: UnitChoice) -> [String; 2] {
    let rounded = |value: f64, places: f64, unit| {
        format!("{} {unit}", plain_number((value * places).round() / places))
    };
    [
        rounded(units.mass.value(mass), 10.0, units.mass.symbol()),
        rounded(units.length.value(distance.abs()), 100.0, units.length.symbol()),
    ]
}

/// The side on which something lies that far to starboard.
fn side(distance: Length) -> &'static str {
    if distance.get::<meter>() < 0.0 { "port" } else { "starboard" }
}
