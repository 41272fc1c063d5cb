//! The colours of a page: one list for the screen, the printer and the typesetter.
//!
//! Ink on paper in the colours of the charts: deep water for letters, buff for what needs care. A
//! test holds every letter on every ground to the contrast asked for.

use std::fmt::Write as _;

use crate::drawing::{BUFF, Colour, HAIR, INK, PORT_LIGHT, QUIET_INK, SHALLOWS};

/// A colour with the name that both style sheets know it by.
type Named = (&'static str, Colour);

/// Letters.
const LETTERS: [Named; 3] = [("ink", INK), ("quiet", QUIET_INK), ("warn", PORT_LIGHT)];
/// What letters stand on, beside white paper.
const GROUNDS: [Named; 2] = [("water", SHALLOWS), ("buff", BUFF)];
/// Lines that part things and say nothing by themselves.
const LINES: [Named; 2] = [("rule", Colour::new(0x9F, 0xB2, 0xBF)), ("hair", HAIR)];

fn all() -> impl Iterator<Item = &'static Named> {
    LETTERS.iter().chain(&GROUNDS).chain(&LINES)
}

/// The list as variables of a style sheet.
pub(super) fn as_css() -> String {
    let mut text = ":root {".to_owned();
    for (name, value) in all() {
        let _ = write!(text, " --{name}: {};", value.hex());
    }
    text + " }\n"
}

/// The list as definitions of the typesetter's language.
#[cfg(feature = "pdf")]
pub(super) fn as_definitions() -> String {
    let mut text = String::new();
    for (name, value) in all() {
        let _ = writeln!(text, "#let {name} = rgb(\"{}\")", value.hex());
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{PAPER, contrast};

    #[test]
    fn practice_letters_stand_out_on_every_ground() {
        // WCAG 2.2, 1.4.3: 4.5 for letters of usual size.
        for (letter, value) in LETTERS {
            for (ground, under) in GROUNDS.iter().chain(&[("paper", PAPER)]) {
                let found = contrast(value, *under);
                assert!(found >= 4.5, "{letter} on {ground}: {found:.2}");
            }
        }
    }

    #[test]
    fn regression_the_style_sheet_names_no_colour_of_its_own() {
        let own = include_str!("page.css").replace("#fff;", "");
        assert!(!own.contains(": #") && !own.contains("rgb("), "a colour beside the list");
        for (name, _) in all() {
            assert!(own.contains(&format!("var(--{name})")), "{name}");
        }
    }
}
