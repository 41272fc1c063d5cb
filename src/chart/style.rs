//! Colours, dash patterns and symbols.
//!
//! The look is that of a sea chart and of an ink drawing: deep water blues,
//! buff for ground nobody has sounded, thin hatching. Every line differs from
//! its neighbours in lightness, dash pattern and symbol, so a figure survives
//! a black-and-white printer and colour-blind eyes.

use crate::drawing::{BRASS, BUFF, Colour, Form, HAIR, INK, PORT_LIGHT, Pen, Round, SEA, SHALLOWS};

/// Drawing units of a chart's SVG in a CSS pixel, which are those of the charting library.
pub(super) const STEPS_PER_PX: f64 = 4.0;

/// Charts are drawn in CSS pixels.
pub(super) const FORM: Form = Form {
    unit: "",
    steps: STEPS_PER_PX,
    decimals: 0,
    ink: INK,
    on_paper: true,
    round: Round::Joins,
    drop: 0.25,
    halo: [2.5, 0.625],
};

/// Grid lines.
pub(super) const GRID: Colour = HAIR;
/// Fill of limit bands: shallow water.
pub(super) const BAND_TINT: Colour = SHALLOWS;
/// Hatching and edges of limit bands.
pub(super) const BAND_LINE: Colour = Colour::new(0x6E, 0x8E, 0xA2);
/// Fill of untested regions: unsounded ground.
pub(super) const REGION_TINT: Colour = BUFF;
/// Hatching and edges of untested regions.
pub(super) const REGION_LINE: Colour = Colour::new(0xBC, 0xB0, 0x93);

/// Line colours from dark to light, cold and warm by turns.
const LINE_COLOURS: [Colour; 6] = [
    INK,
    PORT_LIGHT,
    SEA,
    Colour::new(0xA0, 0x55, 0x12), // oiled teak
    Colour::new(0x1D, 0x8F, 0x7C), // shallows
    BRASS,
];

/// Dash patterns: drawn and bare lengths by turns, in CSS pixels.
const DASHES: [&[f64]; 6] = [
    &[],
    &[12.0, 4.0],
    &[9.0, 3.0, 2.0, 3.0],
    &[5.0, 3.0],
    &[16.0, 3.0, 2.0, 3.0, 2.0, 3.0],
    &[2.0, 2.5],
];

/// The dash pattern of horizontal rules, unlike that of any series.
pub(super) const RULE_DASH: &[f64] = &[20.0, 5.0];

/// Symbols in the order of the styles.
const SYMBOLS: [Symbol; 6] = [
    Symbol::Disc,
    Symbol::OpenSquare,
    Symbol::Triangle,
    Symbol::OpenDiamond,
    Symbol::Cross,
    Symbol::OpenCircle,
];

/// A small mark set along a line at some of its points.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Symbol {
    /// A filled disc.
    Disc,
    /// A square with a white middle.
    OpenSquare,
    /// A filled triangle standing on its base.
    Triangle,
    /// A diamond with a white middle.
    OpenDiamond,
    /// Two short strokes crossing.
    Cross,
    /// A circle with a white middle.
    OpenCircle,
    /// A square with all its area filled.
    Square,
}

/// How one line is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct LineStyle {
    /// Colour of stroke and symbols.
    pub colour: Colour,
    /// Drawn and bare lengths by turns, CSS pixels; empty for a solid line.
    pub dash: Vec<f64>,
    /// Symbol set at some of the points; `None` for a bare line.
    pub symbol: Option<Symbol>,
    /// Stroke width, CSS pixels.
    pub width_px: f64,
}

impl LineStyle {
    /// The style of the line with this place in the chart, counted from 0.
    ///
    /// The first six differ in colour, lightness, dash pattern and symbol; the
    /// first 36 still differ from one another in the pair of colour and dash.
    pub fn nth(index: usize) -> Self {
        let (place, round) = (index % LINE_COLOURS.len(), index / LINE_COLOURS.len());
        Self {
            colour: LINE_COLOURS[place],
            dash: DASHES[(place + round) % DASHES.len()].to_vec(),
            symbol: Some(SYMBOLS[(place + 2 * round) % SYMBOLS.len()]),
            width_px: 1.9,
        }
    }

    /// The pen of the line; no line is thinner than a step of the sheet.
    pub(super) fn pen(&self) -> Pen {
        let width = self.width_px.max(1.0 / STEPS_PER_PX);
        Pen { colour: self.colour, width, dash: self.dash.clone().into() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{PAPER, QUIET_INK, contrast, luminance};

    /// Lightness L* from 0 (black) to 100 (white).
    ///
    /// Source: CIE 15:2004, lightness of the CIELAB space (from memory).
    fn lightness(colour: Colour) -> f64 {
        let y = luminance(colour);
        if y > (6.0_f64 / 29.0).powi(3) {
            116.0 * y.cbrt() - 16.0
        } else {
            y * (29.0_f64 / 3.0).powi(3)
        }
    }

    #[test]
    fn published_lines_and_text_reach_the_contrast_asked_for() {
        // WCAG 2.2: 3:1 for parts of graphics (1.4.11), 4.5:1 for text (1.4.3).
        for colour in LINE_COLOURS {
            let contrast = contrast(colour, PAPER);
            assert!(contrast >= 3.0, "{colour:?} has only {contrast:.2}");
        }
        for ink in [INK, QUIET_INK] {
            assert!(contrast(ink, PAPER) >= 4.5);
        }
    }

    #[test]
    fn physics_grey_shades_of_lines_are_all_different() {
        // About 2.3 is the least difference the eye sees (Mahy et al. 1994,
        // from memory); side by side on paper we ask for twice that.
        for (i, a) in LINE_COLOURS.iter().enumerate() {
            for b in &LINE_COLOURS[i + 1..] {
                let apart = (lightness(*a) - lightness(*b)).abs();
                assert!(apart > 4.6, "{a:?} and {b:?} are {apart:.1} apart");
            }
        }
    }

    #[test]
    fn physics_first_lines_differ_in_dash_and_symbol() {
        let styles: Vec<_> = (0..36).map(LineStyle::nth).collect();
        for (i, a) in styles.iter().enumerate() {
            assert_ne!(a.dash, RULE_DASH);
            for (j, b) in styles.iter().enumerate().skip(i + 1) {
                assert!(a.colour != b.colour || a.dash != b.dash, "{i} and {j}");
                if j < 6 {
                    assert_ne!(a.dash, b.dash);
                    assert_ne!(a.symbol, b.symbol);
                }
            }
        }
    }
}
