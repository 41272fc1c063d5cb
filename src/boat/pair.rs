//! The size of a plane as a person writes it, on the command line and on the page.

use super::{Measure, PlanePair, bound_of};
use crate::units::{parse_length, quoted};

/// What a size shall look like.
const WANTED: &str = "write span x chord of one plane with its unit, for example 600x300mm";

impl PlanePair {
    /// Reads the size of one plane, span by chord: `600x300mm`, `600 mm x 300 mm`, `24 x 9 1/2 in`.
    ///
    /// # Errors
    /// When it is no size, or a side lies outside what the boat file may hold; says what to write.
    pub fn read(text: &str) -> Result<Self, String> {
        let mut sides = text.split(['x', 'X', '×']).map(str::trim);
        let (Some(span), Some(chord), None) = (sides.next(), sides.next(), sides.next()) else {
            return Err(format!("`{}` is no size; {WANTED}", quoted(text)));
        };
        let unit = chord.trim_start_matches(|c: char| !c.is_alphabetic() && c != '\'' && c != '"');
        let is_bare = !span.contains(|c: char| c.is_alphabetic() || "'\"”″′".contains(c));
        let span = if is_bare { format!("{span} {unit}") } else { span.to_owned() };
        let length = |text: &str, key| {
            let length =
                parse_length(text).map_err(|error| format!("{}; {WANTED}", error.problem))?;
            match bound_of(key).and_then(|bound| bound.refusal(Measure::Length(length))) {
                Some(refusal) => Err(refusal.join("; ")),
                None => Ok(length),
            }
        };
        Ok(Self { span: length(&span, "planes.span")?, chord: length(chord, "planes.chord")? })
    }
}

#[cfg(test)]
mod tests {
    use uom::si::length::{inch, millimeter};

    use super::*;

    #[test]
    fn regression_a_size_is_read_however_it_is_written() {
        for (text, span_mm, chord_mm) in [
            ("600x300mm", 600.0, 300.0),
            ("600 x 300 mm", 600.0, 300.0),
            ("600 mm x 0.3 m", 600.0, 300.0),
            ("60×30 cm", 600.0, 300.0),
        ] {
            let pair = PlanePair::read(text).unwrap();
            approx::assert_relative_eq!(pair.span.get::<millimeter>(), span_mm, epsilon = 1e-9);
            approx::assert_relative_eq!(pair.chord.get::<millimeter>(), chord_mm, epsilon = 1e-9);
        }
        let pair = PlanePair::read("24 x 9 1/2 in").unwrap();
        approx::assert_relative_eq!(pair.span.get::<inch>(), 24.0, epsilon = 1e-9);
        approx::assert_relative_eq!(pair.chord.get::<inch>(), 9.5, epsilon = 1e-9);
    }

    #[test]
    fn error_a_size_that_is_none() {
        for text in ["600", "600x300", "600x300x4 mm", "axb mm", "600x300 kg", "600x300 m"] {
            assert!(PlanePair::read(text).is_err(), "{text}");
        }
    }
}
