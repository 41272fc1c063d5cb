//! Contrast of the page's colours, computed from its style sheet.

use std::collections::BTreeMap;

use super::asset::STYLE;

/// Text and the ground it stands on. WCAG 2.2, 1.4.3: at least 4.5 to 1.
const TEXTS: [(&str, &str); 25] = [
    ("ink", "paper"),
    ("ink", "table"),
    ("ink", "buff"),
    ("ink", "plate"),
    ("ink", "shallow"),
    ("ink", "blush"),
    ("quiet", "paper"),
    ("quiet", "table"),
    ("quiet", "buff"),
    ("quiet", "shallow"),
    ("sea", "paper"),
    ("sea", "table"),
    ("sea", "buff"),
    ("port", "paper"),
    ("port", "blush"),
    ("port", "table"),
    ("brass-dark", "plate"),
    ("brass-dark", "paper"),
    ("paper", "ink"),
    ("paper", "sea"),
    ("sea", "plate"),
    ("port", "buff"),
    ("paper", "port"),
    ("ink", "brass"),
    ("quiet", "blush"),
];

/// Parts that must be seen, and what they stand beside. WCAG 2.2, 1.4.11: at least 3 to 1.
const PARTS: [(&str, &str); 7] = [
    ("edge", "paper"),
    ("edge", "table"),
    ("sea", "paper"),
    ("sea", "table"),
    ("brass", "paper"),
    ("brass", "ink"),
    ("port", "paper"),
];

/// The named colours of the style sheet.
fn colours() -> BTreeMap<&'static str, [u8; 3]> {
    let root = STYLE.split(":root {").nth(1).and_then(|rest| rest.split('}').next()).unwrap();
    root.lines()
        .filter_map(|line| line.trim().strip_prefix("--")?.strip_suffix(';')?.split_once(": #"))
        .map(|(name, hex)| {
            let part = |at: usize| u8::from_str_radix(&hex[at..at + 2], 16).unwrap();
            (name, [part(0), part(2), part(4)])
        })
        .collect()
}

/// Relative luminance of an sRGB colour; WCAG 2.2, definition of "relative luminance" (from memory).
fn luminance(colour: [u8; 3]) -> f64 {
    let [red, green, blue] = colour.map(|part| {
        let s = f64::from(part) / 255.0;
        if s <= 0.04045 { s / 12.92 } else { ((s + 0.055) / 1.055).powf(2.4) }
    });
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

fn contrast(one: [u8; 3], other: [u8; 3]) -> f64 {
    let [one, other] = [one, other].map(|colour| luminance(colour) + 0.05);
    one.max(other) / one.min(other)
}

#[test]
fn published_text_and_parts_reach_the_contrast_asked_for() {
    let colours = colours();
    for (pairs, least) in [(&TEXTS[..], 4.5), (&PARTS[..], 3.0)] {
        for (front, ground) in pairs {
            let found = contrast(colours[front], colours[ground]);
            assert!(found >= least, "{front} on {ground}: {found:.2}, at least {least} is needed");
        }
    }
}

#[test]
fn published_contrast_of_black_on_white_is_21() {
    assert!((contrast([0; 3], [255; 3]) - 21.0).abs() < 1e-9);
}

#[test]
fn regression_every_colour_of_the_sheet_is_named_once() {
    let rules = STYLE.split(":root {").nth(1).unwrap().split_once('}').unwrap().1;
    let stray: Vec<&str> =
        rules.lines().filter(|line| line.contains(": #") && !line.contains("#000")).collect();
    assert!(stray.is_empty(), "{stray:?}");
    for name in colours().keys() {
        let uses = format!("var(--{name})");
        assert!(STYLE.contains(&uses), "{name} is not used");
    }
}
