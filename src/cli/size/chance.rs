//! How sure a size is to be, and what is wished of it, as the command line says it.

use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

use crate::boat::{Boat, Wish};
use crate::cli::Failure;

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
    Boat::build(input).map_err(Failure::from)
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
