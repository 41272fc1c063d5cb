//! How sure a size is to be, and what is wished of it, as the command line says it.

use serde::Serialize;
use uom::si::f64::{Length, Ratio};
use uom::si::{length::meter, ratio::ratio};

use crate::boat::{Boat, Wish, degrees};
use crate::cli::Failure;
use crate::size::Chance;

/// Least and largest chance that makes sense to ask for, in a hundred.
const CHANCES: std::ops::RangeInclusive<f64> = 50.0..=99.0;

/// Reads `--chance`, for clap: so many in a hundred, as a share of one.
pub(super) fn in_a_hundred(text: &str) -> Result<f64, String> {
    let plain = text.trim().trim_end_matches('%').trim_end();
    let number: Option<f64> = plain.parse().ok();
    match number.filter(|number| CHANCES.contains(number)) {
        Some(number) => Ok(number / 100.0),
        None => Err("a chance from 50 to 99 in a hundred is wanted, for example 80".to_owned()),
    }
}

/// The boat with a chance and wishes asked for on the command line in place of her file's.
///
/// Wishes take the place of the duties of the file.
pub(super) fn asked(boat: Boat, chance: Option<f64>, wishes: &[Wish]) -> Result<Boat, Failure> {
    if chance.is_none() && wishes.is_empty() {
        return Ok(boat);
    }
    let mut input = boat.input().clone();
    if let Some(chance) = chance {
        input.sizing.chance = Some(Ratio::new::<ratio>(chance));
    }
    if !wishes.is_empty() {
        input.duties.clear();
        input.wishes = wishes.to_vec();
    }
    Boat::build(input).map_err(Failure::first_fault)
}

/// How sure the answer is, in JSON.
#[derive(Serialize)]
pub(super) struct ChanceRecord {
    wanted: f64,
    reached: f64,
    standard_error: f64,
    is_reached: bool,
    /// Null for a duty that cannot be judged: the others alone are counted.
    each_duty: Vec<Option<f64>>,
    even_span_m: Option<f64>,
    even_chord_m: Option<f64>,
    draws: u32,
    seed: u64,
    seen_readings: usize,
}

impl From<&Chance> for ChanceRecord {
    fn from(chance: &Chance) -> Self {
        let metres = |length: Length| (length.get::<meter>() * 1e9).round() / 1e9;
        Self {
            wanted: chance.wanted,
            reached: chance.reached,
            standard_error: chance.error,
            is_reached: chance.is_reached(),
            each_duty: chance.each.clone(),
            even_span_m: chance.even.map(|pair| metres(pair.span)),
            even_chord_m: chance.even.map(|pair| metres(pair.chord)),
            draws: chance.draws,
            seed: chance.seed,
            seen_readings: chance.seen.len(),
        }
    }
}

/// What all usable deflection takes off the trim at the hump, with its range, in JSON.
#[derive(Serialize)]
pub(super) struct ReliefRecord {
    low: f64,
    median: f64,
    high: f64,
}

impl ReliefRecord {
    pub(super) fn of(chance: &Chance) -> Option<Self> {
        let [low, median, high] = chance.relief?.map(degrees);
        Some(Self { low, median, high })
    }
}

#[cfg(test)]
mod tests {
    use super::in_a_hundred;

    #[test]
    fn error_chances_are_from_50_to_99_in_a_hundred() {
        assert_eq!(in_a_hundred("90"), Ok(0.9));
        assert_eq!(in_a_hundred(" 75 %"), Ok(0.75));
        for text in ["49", "100", "0.9", "much", ""] {
            assert_eq!(
                in_a_hundred(text).unwrap_err(),
                "a chance from 50 to 99 in a hundred is wanted, for example 80"
            );
        }
    }
}
