//! Strokes to SVG, in CSS pixels from the upper left corner, down positive.
//!
//! Presentation attributes only, no style sheets and no names: a picture may stand in a page
//! whose policy forbids styles, several times over, or alone in a file.

use std::fmt::Write;

use super::style::{FORCE, PAPER, Pen};
use crate::chart::{Colour, FONT_FAMILY, INK, printable, text_width};
use crate::units::number_with_decimals;

/// A point or a direction on the sheet.
pub(super) type Spot = [f64; 2];

/// Size of writing.
pub(super) const TEXT_PX: f64 = 14.0;
/// Drop of the baseline below the middle of a line of text, as a share of its size.
const BASELINE_DROP: f64 = 0.36;
/// Length and half breadth of the arrowhead of a dimension.
const DIMENSION_HEAD: [f64; 2] = [9.0, 2.2];
/// Length and half breadth of the arrowhead of a force.
const FORCE_HEAD: [f64; 2] = [11.0, 4.2];

/// Where a text stands to its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

/// A sheet with what is drawn on it.
pub(super) struct Art {
    width_px: f64,
    height_px: f64,
    body: String,
}

impl Art {
    pub fn new(width_px: f64, height_px: f64) -> Self {
        Self { width_px, height_px, body: String::new() }
    }

    /// A part of the picture, named for tests and for style sheets of pages.
    pub fn part(&mut self, name: &str, draw: impl FnOnce(&mut Self)) {
        let _ = writeln!(self.body, "<g class=\"picture-{name}\">");
        draw(self);
        self.body.push_str("</g>\n");
    }

    pub fn shape(&mut self, points: &[Spot], pen: Option<Pen>, fill: Option<Colour>) {
        self.path("polygon", points, pen, fill);
    }

    pub fn open(&mut self, points: &[Spot], pen: Pen) {
        self.path("polyline", points, Some(pen), None);
    }

    pub fn line(&mut self, from: Spot, to: Spot, pen: Pen) {
        self.open(&[from, to], pen);
    }

    fn path(&mut self, kind: &str, points: &[Spot], pen: Option<Pen>, fill: Option<Colour>) {
        let points: Vec<String> =
            points.iter().map(|at| format!("{},{}", number(at[0]), number(at[1]))).collect();
        let paint = paint(pen, fill);
        let _ = writeln!(self.body, "<{kind} points=\"{}\"{paint}/>", points.join(" "));
    }

    pub fn circle(&mut self, at: Spot, radius_px: f64, pen: Option<Pen>, fill: Option<Colour>) {
        let [x, y] = at.map(number);
        let radius = number(radius_px);
        let paint = paint(pen, fill);
        let _ = writeln!(self.body, "<circle cx=\"{x}\" cy=\"{y}\" r=\"{radius}\"{paint}/>");
    }

    /// Writing with its middle line through a spot.
    pub fn text(&mut self, at: Spot, size_px: f64, anchor: Anchor, text: &str) {
        let [x, y] = [at[0], at[1] + BASELINE_DROP * size_px].map(number);
        let anchor = match anchor {
            Anchor::Start => "",
            Anchor::Middle => " text-anchor=\"middle\"",
            Anchor::End => " text-anchor=\"end\"",
        };
        let (size, ink, text) = (number(size_px), hex(INK), escaped(text));
        let _ = writeln!(
            self.body,
            "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\" fill=\"{ink}\"{anchor}>{text}</text>"
        );
    }

    /// Writing on a ground of paper, so that it can stand on lines.
    pub fn text_on_ground(&mut self, at: Spot, size_px: f64, anchor: Anchor, text: &str) {
        let wide = text_width(text, size_px);
        let left = match anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -0.5 * wide,
            Anchor::End => -wide,
        };
        let (from, to) = (at[0] + left - 3.0, at[0] + left + wide + 3.0);
        let (top, low) = (at[1] - 0.62 * size_px, at[1] + 0.62 * size_px);
        self.shape(&[[from, top], [to, top], [to, low], [from, low]], None, Some(PAPER));
        self.text(at, size_px, anchor, text);
    }

    /// Filled arrowhead with its tip at `tip`, pointing along the unit vector `way`.
    fn head(&mut self, tip: Spot, way: Spot, [long, half]: [f64; 2], colour: Colour) {
        let back = [tip[0] - long * way[0], tip[1] - long * way[1]];
        let side = [-half * way[1], half * way[0]];
        let points =
            [tip, [back[0] + side[0], back[1] + side[1]], [back[0] - side[0], back[1] - side[1]]];
        self.shape(&points, None, Some(colour));
    }

    /// The arrow of a force.
    pub fn force(&mut self, tail: Spot, tip: Spot) {
        let way = unit([tip[0] - tail[0], tip[1] - tail[1]]);
        let neck = [tip[0] - 8.0 * way[0], tip[1] - 8.0 * way[1]];
        self.line(tail, neck, Pen::FORCE_LINE);
        self.head(tip, way, FORCE_HEAD, FORCE);
    }

    /// A letter in a ring.
    pub fn balloon(&mut self, at: Spot, letter: char) {
        self.circle(at, 9.5, Some(Pen::EDGE), Some(PAPER));
        self.text(at, 12.5, Anchor::Middle, &letter.to_string());
    }

    /// Level dimension between two spots with its line at height `y`, and its value on it.
    pub fn level_dimension(&mut self, a: Spot, b: Spot, y: f64, text: &str) {
        let reach = if y > a[1] { 4.0 } else { -4.0 };
        for at in [a, b] {
            self.line([at[0], at[1] + reach], [at[0], y + reach], Pen::FINE);
        }
        let (left, right) =
            if a[0] < b[0] { ([a[0], y], [b[0], y]) } else { ([b[0], y], [a[0], y]) };
        self.line(left, right, Pen::FINE);
        self.head(left, [-1.0, 0.0], DIMENSION_HEAD, INK);
        self.head(right, [1.0, 0.0], DIMENSION_HEAD, INK);
        let room = right[0] - left[0] - text_width(text, TEXT_PX) - 24.0;
        if room > 0.0 {
            let middle = [0.5 * (left[0] + right[0]), y];
            self.text_on_ground(middle, TEXT_PX, Anchor::Middle, text);
        } else {
            self.text_on_ground([right[0] + 8.0, y], TEXT_PX, Anchor::Start, text);
        }
    }

    /// Upright dimension at `x`, its value to the left of it.
    pub fn upright_dimension(&mut self, x: f64, top: f64, low: f64, text: &str) {
        self.line([x - 5.0, top], [x + 5.0, top], Pen::FINE);
        self.line([x - 5.0, low], [x + 5.0, low], Pen::FINE);
        self.line([x, top], [x, low], Pen::FINE);
        if low - top > 22.0 {
            self.head([x, top], [0.0, -1.0], DIMENSION_HEAD, INK);
            self.head([x, low], [0.0, 1.0], DIMENSION_HEAD, INK);
        }
        self.text([x - 8.0, 0.5 * (top + low)], TEXT_PX, Anchor::End, text);
    }

    /// The whole as an SVG document with a title and a description for those who cannot see it.
    pub fn finish(self, title: &str, description: &str) -> String {
        let (wide, high) = (number(self.width_px), number(self.height_px));
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"{wide}\" \
             height=\"{high}\" viewBox=\"0 0 {wide} {high}\" font-family=\"{FONT_FAMILY}, \
             Verdana, sans-serif\" stroke-linejoin=\"round\" stroke-linecap=\"round\">\n\
             <title>{}</title>\n<desc>{}</desc>\n{}</svg>\n",
            escaped(title),
            escaped(description),
            self.body
        )
    }
}

fn paint(pen: Option<Pen>, fill: Option<Colour>) -> String {
    let fill = fill.map_or_else(|| "none".to_owned(), hex);
    let stroke = pen.map_or_else(String::new, |pen| {
        let dashes: Vec<String> = pen.dash_px.iter().map(|&dash| number(dash)).collect();
        let dash = if dashes.is_empty() {
            String::new()
        } else {
            format!(" stroke-dasharray=\"{}\"", dashes.join(" "))
        };
        format!(" stroke=\"{}\" stroke-width=\"{}\"{dash}", hex(pen.colour), number(pen.width_px))
    });
    format!(" fill=\"{fill}\"{stroke}")
}

fn hex(colour: Colour) -> String {
    format!("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue)
}

fn number(value: f64) -> String {
    let text = number_with_decimals(value, 1);
    text.trim_end_matches(".0").to_owned()
}

fn escaped(text: &str) -> String {
    printable(text).replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

fn unit(way: Spot) -> Spot {
    let long = way[0].hypot(way[1]);
    if long > 0.0 { [way[0] / long, way[1] / long] } else { [1.0, 0.0] }
}
