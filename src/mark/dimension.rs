//! Dimension lines with arrows and values, and leaders.

use super::ink::{Anchor, Fill, Pen, Point, Sheet, TEXT_MM, middle, minus, plus, times};
use crate::chart::text_width;

const ARROW_LONG_MM: f64 = 2.2;
const ARROW_HALF_MM: f64 = 0.38;
/// Gap between the thing measured and its extension line.
const GAP_MM: f64 = 0.8;
const OVERSHOOT_MM: f64 = 1.2;
/// Length of the line outside when the arrows stand outside.
const OUTSIDE_MM: f64 = 4.5;

impl Sheet {
    /// Filled arrowhead with its tip at `tip`, pointing along the unit vector `way`.
    pub fn arrow_head(&mut self, tip: Point, way: Point) {
        let back = minus(tip, times(way, ARROW_LONG_MM));
        let side = times([-way[1], way[0]], ARROW_HALF_MM);
        self.shape(&[tip, plus(back, side), minus(back, side)], None, Some(Fill::BLACK));
    }

    /// Line with an arrowhead at its end.
    pub fn arrow(&mut self, from: Point, to: Point, pen: Pen) {
        let way = unit(minus(to, from));
        self.line(from, minus(to, times(way, 0.5 * ARROW_LONG_MM)), pen);
        self.arrow_head(to, way);
    }

    /// Dimension of the distance from `a` to `b`, its line parallel to `a b` and `offset_mm`
    /// to the right of it as one walks from `a` to `b` (down the sheet for a walk leftward is up).
    pub fn dimension(&mut self, a: Point, b: Point, offset_mm: f64, text: &str) {
        let along = unit(minus(b, a));
        let square = [-along[1], along[0]];
        let (from, to) = (plus(a, times(square, offset_mm)), plus(b, times(square, offset_mm)));
        self.dimension_line(a, b, from, to, text);
    }

    /// Dimension of the horizontal distance between two points, its line at height `y`.
    pub fn level_dimension(&mut self, a: Point, b: Point, y: f64, text: &str) {
        self.dimension_line(a, b, [a[0], y], [b[0], y], text);
    }

    fn dimension_line(&mut self, a: Point, b: Point, from: Point, to: Point, text: &str) {
        self.extension(a, from);
        self.extension(b, to);
        let span = minus(to, from);
        let long = span[0].hypot(span[1]);
        let along = unit(span);
        let wide = text_width(text, TEXT_MM);
        let inside = long > 2.0 * ARROW_LONG_MM + 1.5;
        if inside {
            self.line(from, to, Pen::FINE);
            self.arrow_head(from, times(along, -1.0));
            self.arrow_head(to, along);
        } else {
            let out = times(along, OUTSIDE_MM);
            self.line(minus(from, out), plus(to, out), Pen::FINE);
            self.arrow_head(from, along);
            self.arrow_head(to, times(along, -1.0));
        }
        let turn = readable_turn(along);
        if inside && long >= wide + 2.0 {
            self.text_on_ground(middle(from, to), TEXT_MM, Anchor::Middle, turn, text);
        } else {
            let reach = if inside { 1.0 } else { OUTSIDE_MM + 1.0 };
            let at = plus(to, times(along, reach + 0.5 * wide));
            self.text_on_ground(at, TEXT_MM, Anchor::Middle, turn, text);
        }
    }

    fn extension(&mut self, from: Point, to: Point) {
        let reach = minus(to, from);
        let long = reach[0].hypot(reach[1]);
        if long > GAP_MM {
            let way = unit(reach);
            let (start, end) = (plus(from, times(way, GAP_MM)), plus(to, times(way, OVERSHOOT_MM)));
            self.line(start, end, Pen::FINE);
        }
    }
}

pub(super) fn unit(a: Point) -> Point {
    let long = a[0].hypot(a[1]);
    if long > 0.0 { times(a, 1.0 / long) } else { [1.0, 0.0] }
}

/// Turn of a text along a direction that can be read from below or from the right.
fn readable_turn(along: Point) -> f64 {
    let turn = along[1].atan2(along[0]).to_degrees();
    if turn > 89.0 {
        turn - 180.0
    } else if turn <= -91.0 {
        turn + 180.0
    } else {
        turn
    }
}
