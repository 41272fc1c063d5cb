//! A sheet with the marks on it, in its own unit from its upper left corner, down positive.

use std::borrow::Cow;

use super::colour::{Colour, PAPER};
use super::geometry::{Lean, Point, Rect, hatch};
use super::lettering::{TextBlock, clean, width};

/// Distance between the middles of two lines of small print, in units of its size.
const PRINT_PITCH: f64 = 1.45;

/// A pen: colour, width and dashes in the unit of the drawing.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Pen {
    pub colour: Colour,
    pub width: f64,
    /// Drawn and bare lengths by turns; empty for a solid line.
    pub dash: Cow<'static, [f64]>,
}

impl Pen {
    /// A pen that draws without a break.
    pub const fn solid(colour: Colour, width: f64) -> Self {
        Self::dashed(colour, width, &[])
    }

    /// A pen that draws and leaves bare these lengths by turns.
    pub const fn dashed(colour: Colour, width: f64, dash: &'static [f64]) -> Self {
        Self { colour, width, dash: Cow::Borrowed(dash) }
    }
}

/// Where a text stands to its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Anchor {
    Start,
    Middle,
    End,
}

impl Anchor {
    /// Left end of a text of this width, from its point.
    pub fn left(self, wide: f64) -> f64 {
        match self {
            Self::Start => 0.0,
            Self::Middle => -0.5 * wide,
            Self::End => -wide,
        }
    }
}

/// What of a stroke is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Round {
    Nothing,
    Joins,
    JoinsAndEnds,
}

/// What all drawings of one kind have in common.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Form {
    /// Unit of width and height as SVG writes it; empty for CSS pixels.
    pub unit: &'static str,
    /// Steps of the SVG's own grid in one unit.
    pub steps: f64,
    /// Decimals of a step that are written.
    pub decimals: usize,
    /// Colour of letters.
    pub ink: Colour,
    /// Whether the sheet is white; else what lies below shows through.
    pub on_paper: bool,
    pub round: Round,
    /// Drop of the baseline below the middle of a line of text, as a share of its size.
    pub drop: f64,
    /// Paper around a text that stands on lines: beside it, and half its height as a share of its
    /// size.
    pub halo: [f64; 2],
}

/// One mark on a sheet. A text stands with its baseline on its point.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Mark {
    Stroke { points: Vec<Point>, pen: Pen },
    Shape { points: Vec<Point>, pen: Option<Pen>, fill: Option<Colour> },
    Circle { centre: Point, radius: f64, pen: Option<Pen>, fill: Option<Colour> },
    Text { at: Point, size: f64, anchor: Anchor, turn_deg: f64, colour: Colour, text: String },
    Part { name: String, marks: Vec<Mark> },
}

/// A sheet with what is drawn on it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Drawing {
    pub size: [f64; 2],
    pub title: String,
    pub form: Form,
    pub marks: Vec<Mark>,
}

impl Drawing {
    pub fn new(size: [f64; 2], title: &str, form: Form) -> Self {
        Self { size, title: clean(title), form, marks: Vec::new() }
    }

    /// A named part of the drawing; left out when nothing is drawn in it.
    pub fn part<T>(&mut self, name: &str, draw: impl FnOnce(&mut Self) -> T) -> T {
        let before = std::mem::take(&mut self.marks);
        let answer = draw(self);
        let marks = std::mem::replace(&mut self.marks, before);
        if !marks.is_empty() {
            self.marks.push(Mark::Part { name: name.to_owned(), marks });
        }
        answer
    }

    pub fn line(&mut self, from: Point, to: Point, pen: Pen) {
        self.open(&[from, to], pen);
    }

    /// A polyline; a lone point leaves no mark.
    pub fn open(&mut self, points: &[Point], pen: Pen) {
        if points.len() > 1 {
            self.marks.push(Mark::Stroke { points: points.to_vec(), pen });
        }
    }

    /// A polygon; less than three points leave no mark.
    pub fn shape(&mut self, points: &[Point], pen: Option<Pen>, fill: Option<Colour>) {
        if points.len() > 2 {
            self.marks.push(Mark::Shape { points: points.to_vec(), pen, fill });
        }
    }

    pub fn rectangle(&mut self, a: Point, b: Point, pen: Option<Pen>, fill: Option<Colour>) {
        self.shape(&[a, [b[0], a[1]], b, [a[0], b[1]]], pen, fill);
    }

    /// A bar of equal parts, ink and paper by turns.
    pub fn bar(&mut self, bar: &Rect, parts: u32, pen: &Pen) {
        let step = bar.width() / f64::from(parts);
        for part in 0..parts {
            let left = bar.left + step * f64::from(part);
            let fill = if part % 2 == 0 { self.form.ink } else { PAPER };
            let part = Rect { left, right: left + step, ..*bar };
            self.shape(&part.corners(), Some(pen.clone()), Some(fill));
        }
    }

    pub fn circle(&mut self, centre: Point, radius: f64, pen: Option<Pen>, fill: Option<Colour>) {
        self.marks.push(Mark::Circle { centre, radius, pen, fill });
    }

    /// Upright cross, `arm` from its middle each way.
    pub fn cross(&mut self, [x, y]: Point, arm: f64, pen: Pen) {
        self.line([x - arm, y], [x + arm, y], pen.clone());
        self.line([x, y - arm], [x, y + arm], pen);
    }

    /// Parallel lines at 45° over a polygon, `spacing` apart, square to the lines.
    pub fn hatch(&mut self, polygon: &[Point], spacing: f64, lean: Lean, pen: &Pen) {
        for (from, to) in hatch(polygon, spacing, lean) {
            self.line(from, to, pen.clone());
        }
    }

    /// Text in ink with its middle line through `at`.
    pub fn text(&mut self, at: Point, size: f64, anchor: Anchor, text: &str) {
        self.turned_text(at, size, anchor, 0.0, text);
    }

    /// Text in ink turned clockwise about `at`.
    pub fn turned_text(&mut self, at: Point, size: f64, anchor: Anchor, turn_deg: f64, text: &str) {
        let (sin, cos) = turn_deg.to_radians().sin_cos();
        let drop = self.form.drop * size;
        let at = [at[0] - sin * drop, at[1] + cos * drop];
        let (colour, text) = (self.form.ink, clean(text));
        self.marks.push(Mark::Text { at, size, anchor, turn_deg, colour, text });
    }

    /// Text of any colour with its middle line through `at`.
    pub fn letters(&mut self, at: Point, size: f64, anchor: Anchor, colour: Colour, text: &str) {
        let at = [at[0], at[1] + self.form.drop * size];
        let text = clean(text);
        self.marks.push(Mark::Text { at, size, anchor, turn_deg: 0.0, colour, text });
    }

    /// Turned text on a ground of paper, so that it can stand on lines.
    pub fn text_on_ground(
        &mut self,
        at: Point,
        size: f64,
        anchor: Anchor,
        turn_deg: f64,
        text: &str,
    ) {
        let wide = width(text, size);
        let left = anchor.left(wide);
        let (sin, cos) = turn_deg.to_radians().sin_cos();
        let [beside, half] = [self.form.halo[0], self.form.halo[1] * size];
        let corner = |x: f64, y: f64| [at[0] + x * cos - y * sin, at[1] + x * sin + y * cos];
        let (from, to) = (left - beside, left + wide + beside);
        let ground = [corner(from, -half), corner(to, -half), corner(to, half), corner(from, half)];
        self.shape(&ground, None, Some(PAPER));
        self.turned_text(at, size, anchor, turn_deg, text);
    }

    /// Small print broken to a width, from the middle of its first line down; returns the middle
    /// height of the line after the last.
    pub fn print(&mut self, at: Point, size: f64, wide: f64, text: &str) -> f64 {
        let mut y = at[1];
        for line in TextBlock::wrapped(text, size, wide).lines {
            self.text([at[0], y], size, Anchor::Start, &line);
            y += PRINT_PITCH * size;
        }
        y
    }

    /// How far small print broken to a width goes on down: what [`print`](Self::print) adds.
    pub fn printed_height(size: f64, wide: f64, text: &str) -> f64 {
        TextBlock::wrapped(text, size, wide).lines.len() as f64 * PRINT_PITCH * size
    }

    /// Lines of text below one another from their upper left corner.
    pub fn column(&mut self, block: &TextBlock, [left, top]: Point, colour: Colour) {
        for (line, text) in block.lines.iter().enumerate() {
            let y = top + (line as f64 + 0.5) * block.pitch();
            self.letters([left, y], block.size, Anchor::Start, colour, text);
        }
    }

    /// Lines of text below one another around a centre; turned ones read upwards, side by side.
    pub fn block(&mut self, block: &TextBlock, centre: Point, turned: bool) {
        let middle = (block.lines.len() as f64 - 1.0) / 2.0;
        for (line, text) in block.lines.iter().enumerate() {
            let off = (line as f64 - middle) * block.pitch();
            let (at, turn_deg) = if turned {
                ([centre[0] + off, centre[1]], -90.0)
            } else {
                ([centre[0], centre[1] + off], 0.0)
            };
            self.turned_text(at, block.size, Anchor::Middle, turn_deg, text);
        }
    }
}
