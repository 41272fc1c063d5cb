//! What is asked about a boat before she is believed, as far as the boat alone tells.
//!
//! Boats are described by people who mistype and mismeasure. Every value here
//! was accepted: it is possible. A [`Question`] says that it is not usual for a
//! boat of this size, what may have happened, and what to write instead if it
//! did. The answer is given all the same.
//!
//! The usual ranges are common practice, no source. They are wide enough for
//! open boats of 4 m and cruisers of 15 m, light and loaded; what is outside
//! one is more often a slip than a boat. How far a model reaches is another
//! matter: that is what [`crate::flag`] is for.

mod bottom;
mod drive;
mod figures;
mod loads;
mod planes;
mod slip;
#[cfg(test)]
mod tests;
mod weight;

pub(crate) use slip::{MASSES, POWERS, SPEEDS, Slip, slips};

use super::{Boat, Measure, measure::plain_number};
use figures::Figures;

/// Something about a boat that is not usual, and what may be behind it.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// The stable word.
    pub word: &'static str,
    /// Key in the boat file; `load` where the loads sum to it.
    pub key: String,
    /// What it is, in words: `her mass`.
    pub about: &'static str,
    /// The value.
    pub value: Measure,
    /// What is usual for a boat of this size.
    pub usual: [Measure; 2],
    /// The unit that the value is written in.
    pub unit: &'static str,
    /// What is usual in general: `0.28 to 0.46 of the bottom length`.
    pub rule: String,
    /// What may have happened.
    pub cause: String,
    /// What to write instead.
    pub cure: String,
    /// Name of the loading condition it was found in; none where she has but one, or it is found in all.
    pub condition: Option<String>,
}

impl Question {
    /// The value, in the unit that it is written in: `3.9 m`.
    #[must_use]
    pub fn value_text(&self) -> String {
        in_unit(self.value, self.unit)
    }

    /// What is usual: `1.62 to 2.66 m`.
    #[must_use]
    pub fn usual_text(&self) -> String {
        let [low, high] =
            self.usual.map(|end| plain_number(three_digits(end.number_in(self.unit))));
        format!("{low} to {high} {}", self.unit)
    }
}

/// The questions about a boat in the loading condition that she is in, in the order of the boat file.
#[must_use]
pub fn questions(boat: &Boat) -> Vec<Question> {
    let mut figures = Figures::of(boat);
    let mut all = Vec::new();
    // A slip that would explain a question is taken for granted in those after it, so that one slip asks once.
    all.extend(bottom::beam_against_length(boat, &mut figures));
    all.extend(bottom::bottom_against_overall(boat, &mut figures));
    all.extend(bottom::deadrise(boat));
    all.extend(weight::mass_against_size(boat, &mut figures));
    all.extend(weight::centre_along(boat, &figures));
    all.extend(weight::centre_up(boat, &figures));
    all.extend(drive::power_against_mass(boat, &figures));
    all.extend(drive::speed_against_size(boat, &figures));
    all.extend(planes::against_beam(boat, &figures));
    all
}

/// One thing that may have happened, and what to write if it did.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Guess {
    pub cause: String,
    pub cure: String,
}

impl Guess {
    pub fn new(cause: impl Into<String>, cure: impl Into<String>) -> Self {
        Self { cause: cause.into(), cure: cure.into() }
    }
}

/// A question in the making.
pub(crate) struct Draft<'a> {
    pub word: &'static str,
    pub key: &'a str,
    pub about: &'static str,
    pub value: Measure,
    pub usual: [Measure; 2],
    pub rule: String,
}

impl Draft<'_> {
    /// The key whose unit it is told in: that of the first load where the loads sum to it.
    fn unit_key(&self) -> &str {
        match (self.key, self.value) {
            ("load", Measure::Mass(_)) => "load[0].mass",
            ("load", _) => "load[0].forward",
            (key, _) => key,
        }
    }

    /// The question with what may have happened; `otherwise` where nothing that was tried fits.
    pub fn with(self, boat: &Boat, guesses: Vec<Guess>, otherwise: Guess) -> Question {
        let guesses = if guesses.is_empty() { vec![otherwise] } else { guesses };
        let joined =
            |part: fn(&Guess) -> &str| guesses.iter().map(part).collect::<Vec<_>>().join("; or ");
        Question {
            word: self.word,
            key: self.key.to_owned(),
            about: self.about,
            value: self.value,
            usual: self.usual,
            unit: boat.input().written.unit_of(self.unit_key(), self.value),
            rule: self.rule,
            cause: joined(|guess| &guess.cause),
            cure: joined(|guess| &guess.cure),
            condition: None,
        }
    }
}

/// A value with its unit, in a unit of the boat file.
pub(crate) fn in_unit(value: Measure, unit: &str) -> String {
    format!("{} {unit}", plain_number(value.number_in(unit)))
}

/// What to write at a key: `write lcg = "2.14 m" below [weight]`.
pub(crate) fn write(key: &str, text: &str) -> String {
    match key.split_once('.') {
        Some((table, key)) => format!("write {key} = \"{text}\" below [{table}]"),
        None => format!("write {key} = \"{text}\""),
    }
}

/// Ends of a usual range as people say them.
fn three_digits(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    #[allow(clippy::cast_possible_truncation)]
    let power = 10_f64.powi(2 - value.abs().log10().floor() as i32);
    (value * power).round() / power
}

/// Whether a number lies in a range.
pub(crate) fn within(value: f64, [low, high]: [f64; 2]) -> bool {
    (low..=high).contains(&value)
}
