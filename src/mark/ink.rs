//! Pen strokes on a sheet of paper, in millimetres from its upper left corner, down positive.
//!
//! Drawings and templates are built from these once and then written as SVG or PDF.

use crate::chart::text_width;

/// Usual size of text.
pub(super) const TEXT_MM: f64 = 2.6;
/// Drop of the baseline below the middle of a line of text, as a share of its size.
const BASELINE_DROP: f64 = 0.36;
/// Air around a text that stands on a line.
const HALO_MM: f64 = 0.5;

/// A point or a direction on the sheet.
pub(super) type Point = [f64; 2];

/// A pen: width, dashes, blackness.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Pen {
    pub width_mm: f64,
    /// Drawn and bare lengths by turns.
    pub dash_mm: &'static [f64],
    /// 0 black, 255 white.
    pub grey: u8,
}

impl Pen {
    pub const OUTLINE: Self = Self { width_mm: 0.5, dash_mm: &[], grey: 0 };
    pub const MEDIUM: Self = Self { width_mm: 0.3, dash_mm: &[], grey: 0 };
    pub const FINE: Self = Self { width_mm: 0.15, dash_mm: &[], grey: 0 };
    pub const HATCH: Self = Self { width_mm: 0.12, dash_mm: &[], grey: 120 };
    pub const CENTRE: Self = Self { width_mm: 0.18, dash_mm: &[7.0, 1.2, 1.2, 1.2], grey: 0 };
    pub const HIDDEN: Self = Self { width_mm: 0.25, dash_mm: &[2.0, 1.0], grey: 0 };
    pub const CUT: Self = Self { width_mm: 0.15, dash_mm: &[1.0, 1.5], grey: 90 };
}

/// A flat fill.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Fill(pub u8);

impl Fill {
    pub const BLACK: Self = Self(0);
    pub const WHITE: Self = Self(255);
    pub const TINT: Self = Self(232);
}

/// Where a text stands to its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

/// One stroke.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Mark {
    Line { from: Point, to: Point, pen: Pen },
    Path { points: Vec<Point>, closed: bool, pen: Option<Pen>, fill: Option<Fill> },
    Circle { centre: Point, radius_mm: f64, pen: Option<Pen>, fill: Option<Fill> },
    Text { at: Point, size_mm: f64, anchor: Anchor, turn_deg: f64, text: String },
}

/// A sheet with what is drawn on it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Sheet {
    pub width_mm: f64,
    pub height_mm: f64,
    pub title: String,
    pub marks: Vec<Mark>,
}

impl Sheet {
    pub fn new(width_mm: f64, height_mm: f64, title: &str) -> Self {
        Self { width_mm, height_mm, title: title.to_owned(), marks: Vec::new() }
    }

    pub fn line(&mut self, from: Point, to: Point, pen: Pen) {
        self.marks.push(Mark::Line { from, to, pen });
    }

    pub fn open(&mut self, points: &[Point], pen: Pen) {
        let points = points.to_vec();
        self.marks.push(Mark::Path { points, closed: false, pen: Some(pen), fill: None });
    }

    pub fn shape(&mut self, points: &[Point], pen: Option<Pen>, fill: Option<Fill>) {
        self.marks.push(Mark::Path { points: points.to_vec(), closed: true, pen, fill });
    }

    pub fn rectangle(&mut self, a: Point, b: Point, pen: Option<Pen>, fill: Option<Fill>) {
        self.shape(&[a, [b[0], a[1]], b, [a[0], b[1]]], pen, fill);
    }

    pub fn circle(&mut self, centre: Point, radius_mm: f64, pen: Option<Pen>, fill: Option<Fill>) {
        self.marks.push(Mark::Circle { centre, radius_mm, pen, fill });
    }

    /// Upright cross, `arm_mm` from its middle each way.
    pub fn cross(&mut self, centre: Point, arm_mm: f64, pen: Pen) {
        let [x, y] = centre;
        self.line([x - arm_mm, y], [x + arm_mm, y], pen);
        self.line([x, y - arm_mm], [x, y + arm_mm], pen);
    }

    /// Text with its middle line through `at`.
    pub fn text(&mut self, at: Point, size_mm: f64, anchor: Anchor, text: &str) {
        self.turned_text(at, size_mm, anchor, 0.0, text);
    }

    /// Text turned clockwise about `at`.
    pub fn turned_text(
        &mut self,
        at: Point,
        size_mm: f64,
        anchor: Anchor,
        turn_deg: f64,
        text: &str,
    ) {
        let (sin, cos) = turn_deg.to_radians().sin_cos();
        let drop = BASELINE_DROP * size_mm;
        let at = [at[0] - sin * drop, at[1] + cos * drop];
        let text = crate::chart::printable(text);
        self.marks.push(Mark::Text { at, size_mm, anchor, turn_deg, text });
    }

    /// Turned text on a white ground, so that it can stand on lines.
    pub fn text_on_ground(
        &mut self,
        at: Point,
        size_mm: f64,
        anchor: Anchor,
        turn_deg: f64,
        text: &str,
    ) {
        let wide = text_width(text, size_mm);
        let left = match anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -0.5 * wide,
            Anchor::End => -wide,
        };
        let (sin, cos) = turn_deg.to_radians().sin_cos();
        let half = 0.5 * size_mm;
        let corner = |x: f64, y: f64| [at[0] + x * cos - y * sin, at[1] + x * sin + y * cos];
        let (from, to) = (left - HALO_MM, left + wide + HALO_MM);
        let ground = [corner(from, -half), corner(to, -half), corner(to, half), corner(from, half)];
        self.shape(&ground, None, Some(Fill::WHITE));
        self.turned_text(at, size_mm, anchor, turn_deg, text);
    }

    /// Lines of text below each other; returns the middle height of the line after the last.
    pub fn lines(&mut self, at: Point, size_mm: f64, lines: &[String]) -> f64 {
        let mut y = at[1];
        for line in lines {
            self.text([at[0], y], size_mm, Anchor::Start, line);
            y += 1.45 * size_mm;
        }
        y
    }
}

/// Breaks a text at spaces so that no line is wider than the limit.
pub(super) fn wrapped(text: &str, size_mm: f64, limit_mm: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let joined = lines.last().map(|line| format!("{line} {word}"));
        match (joined, lines.last_mut()) {
            (Some(joined), Some(line)) if text_width(&joined, size_mm) <= limit_mm => {
                *line = joined
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

pub(super) fn plus(a: Point, b: Point) -> Point {
    [a[0] + b[0], a[1] + b[1]]
}

pub(super) fn minus(a: Point, b: Point) -> Point {
    [a[0] - b[0], a[1] - b[1]]
}

pub(super) fn times(a: Point, factor: f64) -> Point {
    [a[0] * factor, a[1] * factor]
}

pub(super) fn middle(a: Point, b: Point) -> Point {
    [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])]
}
