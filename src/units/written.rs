//! Units as they are written: which one a text carries, and what one of it is in SI.

use super::table::{Dimension, FOOT, UNITS, Unit, find_unit, normal_spelling};

/// The unit that a quantity is written in, in its preferred spelling: the feet where inches follow them.
///
/// Only for a text that was read as a quantity of that kind; none where no unit of it is found.
#[must_use]
pub fn unit_written(text: &str, wanted: Dimension) -> Option<&'static str> {
    // No unit begins like a number.
    let of_number = |c: char| c.is_ascii_digit() || c.is_whitespace() || "+-.".contains(c);
    let rests = text.char_indices().filter(|place| !of_number(place.1));
    let rests = rests.map(|(place, _)| &text[place..]);
    rests.filter_map(|rest| begins_with(rest, wanted)).next()
}

/// The unit that all of the rest of a text is, or the feet that it begins with.
fn begins_with(rest: &str, wanted: Dimension) -> Option<&'static str> {
    let whole = find_unit(&normal_spelling(rest), wanted).filter(|unit| unit.dimension == wanted);
    if let Some(unit) = whole {
        return Some(unit.spellings[0]);
    }
    let is_feet = wanted == Dimension::Length
        && FOOT.iter().any(|feet| {
            let after = rest.strip_prefix(feet).unwrap_or_default().trim_start();
            after.starts_with(|c: char| c.is_ascii_digit())
        });
    is_feet.then_some(FOOT[0])
}

/// How many SI units one of a unit is, by its preferred spelling.
#[must_use]
pub fn one_in_si(symbol: &str, wanted: Dimension) -> Option<f64> {
    let is_it = |unit: &&Unit| unit.dimension == wanted && unit.spellings[0] == symbol;
    UNITS.iter().find(is_it).map(|unit| unit.factor)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_the_unit_is_found_behind_any_number() {
        let length = |text| unit_written(text, Dimension::Length);
        for (text, unit) in [
            ("7.4 m", "m"),
            ("24 ft 3 in", "ft"),
            ("7'4\"", "ft"),
            ("7 1/2 in", "in"),
            ("610mm", "mm"),
            ("1.2e3 mm", "mm"),
            ("5 metres", "m"),
        ] {
            assert_eq!(length(text), Some(unit), "{text}");
        }
        assert_eq!(unit_written("6200 lbs", Dimension::Mass), Some("lb"));
        assert_eq!(unit_written("2e3 kg", Dimension::Mass), Some("kg"));
        assert_eq!(unit_written("50 km / h", Dimension::Speed), Some("km/h"));
        assert_eq!(unit_written("2300", Dimension::Mass), None);
    }

    #[test]
    fn regression_one_of_a_unit_is_what_the_reader_makes_of_it() {
        for (symbol, wanted) in [("lb", Dimension::Mass), ("kn", Dimension::Speed)] {
            let read = super::super::parse_si(&format!("1 {symbol}"), wanted).unwrap();
            assert_eq!(one_in_si(symbol, wanted), Some(read));
        }
        assert_eq!(one_in_si("lb", Dimension::Length), None);
    }
}
