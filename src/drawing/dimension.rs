//! Arrows, and dimension lines with their values.

use super::colour::Colour;
use super::geometry::{Point, middle, minus, plus, times, unit};
use super::lettering::width;
use super::sheet::{Anchor, Drawing, Pen};

/// A filled arrowhead.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Head {
    pub long: f64,
    /// Half its breadth.
    pub half: f64,
    /// How far from the tip the line ends that carries it.
    pub neck: f64,
}

impl Head {
    /// The head alone with its tip at `tip`, pointing along the unit vector `way`.
    pub fn draw(&self, on: &mut Drawing, tip: Point, way: Point, colour: Colour) {
        let back = minus(tip, times(way, self.long));
        let side = times([-way[1], way[0]], self.half);
        on.shape(&[tip, plus(back, side), minus(back, side)], None, Some(colour));
    }

    /// A line with the head at its end.
    pub fn arrow(&self, on: &mut Drawing, from: Point, to: Point, pen: Pen) {
        let way = unit(minus(to, from));
        let colour = pen.colour;
        on.line(from, minus(to, times(way, self.neck)), pen);
        self.draw(on, to, way, colour);
    }
}

/// How dimensions are drawn.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Dimension {
    pub pen: Pen,
    pub head: Head,
    /// Size of the value.
    pub text: f64,
    /// Gap between the thing measured and its extension line.
    pub gap: f64,
    /// How far the extension line reaches over the dimension line.
    pub overshoot: f64,
    /// Least length with the heads inside.
    pub least: f64,
    /// Length of the line outside when the heads stand outside.
    pub outside: f64,
    /// Room that a value needs on its line beyond its own width.
    pub air: f64,
    /// Distance of a value beyond the end of its line.
    pub beyond: f64,
}

impl Dimension {
    /// Of the distance from `a` to `b`, its line parallel to `a b` and `offset` to the right of it
    /// as one walks from `a` to `b` (down the sheet for a walk leftward is up).
    pub fn along(&self, on: &mut Drawing, [a, b]: [Point; 2], offset: f64, text: &str) {
        let way = unit(minus(b, a));
        let square = times([-way[1], way[0]], offset);
        self.line(on, [a, b], [plus(a, square), plus(b, square)], text);
    }

    /// Of the horizontal distance between two points, its line at height `y`.
    pub fn level(&self, on: &mut Drawing, [a, b]: [Point; 2], y: f64, text: &str) {
        self.line(on, [a, b], [[a[0], y], [b[0], y]], text);
    }

    fn line(&self, on: &mut Drawing, [a, b]: [Point; 2], [from, to]: [Point; 2], text: &str) {
        self.extension(on, a, from);
        self.extension(on, b, to);
        let span = minus(to, from);
        let long = span[0].hypot(span[1]);
        let along = unit(span);
        let wide = width(text, self.text);
        let inside = long > self.least;
        let out = if inside { 0.0 } else { self.outside };
        let reach = times(along, out);
        on.line(minus(from, reach), plus(to, reach), self.pen.clone());
        let inward = if inside { times(along, -1.0) } else { along };
        self.head.draw(on, from, inward, self.pen.colour);
        self.head.draw(on, to, times(inward, -1.0), self.pen.colour);
        let at = if inside && long >= wide + self.air {
            middle(from, to)
        } else {
            plus(to, times(along, out + self.beyond + 0.5 * wide))
        };
        on.text_on_ground(at, self.text, Anchor::Middle, readable_turn(along), text);
    }

    fn extension(&self, on: &mut Drawing, from: Point, to: Point) {
        let reach = minus(to, from);
        if reach[0].hypot(reach[1]) > self.gap {
            let way = unit(reach);
            let start = plus(from, times(way, self.gap));
            on.line(start, plus(to, times(way, self.overshoot)), self.pen.clone());
        }
    }
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
