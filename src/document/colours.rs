//! The colours of a page: one list for the screen, the printer and the typesetter.
//!
//! Ink on paper in the colours of the charts: deep water for letters, buff for what needs care. A
//! test holds every letter on every ground to the contrast asked for.

use std::fmt::Write as _;

/// A colour with the name that both style sheets know it by.
type Named = (&'static str, &'static str);

/// Letters.
const LETTERS: [Named; 3] = [("ink", "#0a2239"), ("quiet", "#3f5466"), ("warn", "#861d2c")];
/// What letters stand on, beside white paper.
const GROUNDS: [Named; 2] = [("water", "#e2edf2"), ("buff", "#f6f1e4")];
/// Lines that part things and say nothing by themselves.
const LINES: [Named; 2] = [("rule", "#9fb2bf"), ("hair", "#d3dde3")];

fn all() -> impl Iterator<Item = &'static Named> {
    LETTERS.iter().chain(&GROUNDS).chain(&LINES)
}

/// The list as variables of a style sheet.
pub(super) fn as_css() -> String {
    let mut text = ":root {".to_owned();
    for (name, value) in all() {
        let _ = write!(text, " --{name}: {value};");
    }
    text + " }\n"
}

/// The list as definitions of the typesetter's language.
#[cfg(feature = "pdf")]
pub(super) fn as_definitions() -> String {
    let mut text = String::new();
    for (name, value) in all() {
        let _ = writeln!(text, "#let {name} = rgb(\"{value}\")");
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance, WCAG 2.2 (W3C Recommendation 2023), from memory.
    fn luminance(hex: &str) -> f64 {
        let part = |place: usize| {
            let share = f64::from(u8::from_str_radix(&hex[place..place + 2], 16).unwrap()) / 255.0;
            if share <= 0.04045 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
    }

    fn contrast(one: &str, other: &str) -> f64 {
        let [one, other] = [luminance(one), luminance(other)];
        (one.max(other) + 0.05) / (one.min(other) + 0.05)
    }

    /// Known pairs, from memory: black on white 21, and #767676 on white 4.54, the lightest grey
    /// that passes; #777777 fails with 4.48.
    #[test]
    fn published_contrast_of_known_greys() {
        for (grey, printed) in [("#000000", 21.0), ("#767676", 4.54), ("#777777", 4.48)] {
            assert!((contrast(grey, "#ffffff") - printed).abs() < 0.005, "{grey}");
        }
    }

    #[test]
    fn practice_letters_stand_out_on_every_ground() {
        // WCAG 2.2, 1.4.3: 4.5 for letters of usual size.
        for (letter, value) in LETTERS {
            for (ground, under) in GROUNDS.iter().chain(&[("paper", "#ffffff")]) {
                let found = contrast(value, under);
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
