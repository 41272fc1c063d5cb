//! The embedded lettering and its widths.

use std::sync::{Arc, OnceLock};

use ab_glyph::{Font, FontRef};
use resvg::usvg::{self, fontdb};

/// The family name of the font embedded in the program and written in every drawing.
pub const FONT_FAMILY: &str = "DejaVu Sans";

/// The licence of the embedded font, to be shipped with the program.
pub const FONT_LICENCE: &str = include_str!("DEJAVU-LICENSE.txt");

/// Distance between the middles of two lines of text, in units of the size.
const LINE_PITCH: f64 = 1.25;

/// The embedded font as a file.
pub(super) fn font_data() -> &'static [u8] {
    dejavu::sans::regular()
}

/// Options for reading a drawing's SVG, holding the embedded font and no other.
pub(crate) fn svg_options() -> usvg::Options<'static> {
    static FONTS: OnceLock<Arc<fontdb::Database>> = OnceLock::new();
    let fonts = FONTS.get_or_init(|| {
        let mut database = fontdb::Database::new();
        database.load_font_data(font_data().to_vec());
        database.set_sans_serif_family(FONT_FAMILY);
        database.set_serif_family(FONT_FAMILY);
        Arc::new(database)
    });
    usvg::Options {
        font_family: FONT_FAMILY.to_owned(),
        fontdb: Arc::clone(fonts),
        ..usvg::Options::default()
    }
}

fn face() -> Option<&'static FontRef<'static>> {
    static FACE: OnceLock<Option<FontRef<'static>>> = OnceLock::new();
    FACE.get_or_init(|| FontRef::try_from_slice(font_data()).ok()).as_ref()
}

/// Width of one line of text in the unit of its size, without kerning.
pub(crate) fn width(text: &str, size: f64) -> f64 {
    let Some(face) = face() else {
        return 0.0;
    };
    let units: f32 = text.chars().map(|c| face.h_advance_unscaled(face.glyph_id(c))).sum();
    f64::from(units) / f64::from(face.units_per_em().unwrap_or(1.0)) * size
}

/// Text fit for an SVG: control characters and line ends become single spaces.
pub(crate) fn clean(text: &str) -> String {
    let printable: String = text
        .chars()
        .map(|c| {
            let odd = c.is_control() || matches!(c, '\u{FFFE}' | '\u{FFFF}');
            if odd { ' ' } else { c }
        })
        .collect();
    printable.split(' ').filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
}

/// One or more lines of text with their size on the sheet.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct TextBlock {
    pub lines: Vec<String>,
    pub size: f64,
    pub width: f64,
}

impl TextBlock {
    /// Breaks a text at spaces so that no line is wider than `limit`.
    ///
    /// A word wider than that is broken between letters.
    pub fn wrapped(text: &str, size: f64, limit: f64) -> Self {
        let mut lines: Vec<String> = Vec::new();
        let mut line = String::new();
        for word in clean(text).split(' ').filter(|word| !word.is_empty()) {
            let joined = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
            if width(&joined, size) <= limit {
                line = joined;
                continue;
            }
            if !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            for letter in word.chars() {
                line.push(letter);
                if width(&line, size) > limit && line.chars().count() > 1 {
                    line.pop();
                    lines.push(std::mem::replace(&mut line, letter.to_string()));
                }
            }
        }
        if !line.is_empty() {
            lines.push(line);
        }
        let width = lines.iter().map(|line| width(line, size)).fold(0.0, f64::max);
        Self { lines, size, width }
    }

    /// Distance between the middles of two lines.
    pub fn pitch(&self) -> f64 {
        self.size * LINE_PITCH
    }

    /// Height of all lines together; 0 for an empty text.
    pub fn height(&self) -> f64 {
        self.lines.len() as f64 * self.pitch()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn published_widths_agree_with_the_shaping_library() {
        // The outlines laid out by usvg are the reference.
        for text in ["Running trim", "0123456789", "deadrise 18.5°"] {
            let svg = format!(
                "<svg xmlns='http://www.w3.org/2000/svg' width='900' height='90'>\
                 <text x='9' y='50' font-size='40' font-family='{FONT_FAMILY}'>{text}</text></svg>"
            );
            let tree = usvg::Tree::from_str(&svg, &svg_options()).expect("valid SVG");
            let laid_out = f64::from(tree.root().bounding_box().width());
            assert_relative_eq!(width(text, 40.0), laid_out, max_relative = 0.02);
        }
    }

    #[test]
    fn physics_wrapped_lines_fit_and_lose_nothing() {
        let text = "Estimated inputs: centre of gravity, deadrise transversecentreofgravityoffset";
        let block = TextBlock::wrapped(text, 12.0, 90.0);
        assert!(block.lines.len() > 3);
        assert!(block.width <= 90.0);
        let letters = |s: &str| s.replace(' ', "");
        assert_eq!(letters(&block.lines.concat()), letters(text));
    }

    #[test]
    fn error_control_characters_are_taken_out() {
        assert_eq!(clean("a\u{1}b\n\n c\t"), "a b c");
        assert_eq!(TextBlock::wrapped("\n", 12.0, 90.0).height(), 0.0);
    }

    #[test]
    fn practice_the_licence_goes_with_the_font() {
        assert!(FONT_LICENCE.contains("Permission is hereby granted"));
    }
}
