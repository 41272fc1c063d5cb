//! Cuts strokes to a window of the picture and moves them onto a page.

use super::ink::{Anchor, Mark, Point, minus, plus, times};
use crate::chart::text_width;

/// A window of the picture and how far it is moved to its page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Window {
    pub from: Point,
    pub to: Point,
    /// The part up to the cut lines; a text belongs to the page on whose own part its anchor lies.
    pub own: (Point, Point),
    pub shift: Point,
}

impl Window {
    fn holds(&self, point: Point) -> bool {
        between(point, self.from, self.to)
    }

    /// What of a stroke shows in the window, on the page. Circles and small shapes are whole or
    /// absent by their middle; a text of this page is moved wholly inside.
    pub fn cut(&self, mark: &Mark) -> Vec<Mark> {
        match mark {
            Mark::Line { from, to, pen } => self
                .segment(*from, *to)
                .map(|(from, to)| Mark::Line { from, to, pen: *pen })
                .into_iter()
                .collect(),
            Mark::Path { points, closed: false, pen: Some(pen), .. } => points
                .windows(2)
                .filter_map(|pair| self.segment(pair[0], pair[1]))
                .map(|(from, to)| Mark::Line { from, to, pen: *pen })
                .collect(),
            Mark::Path { points, closed, pen, fill } => {
                let sum = points.iter().fold([0.0, 0.0], |sum, &point| plus(sum, point));
                if !self.holds(times(sum, 1.0 / points.len().max(1) as f64)) {
                    return Vec::new();
                }
                let points = points.iter().map(|&point| plus(point, self.shift)).collect();
                vec![Mark::Path { points, closed: *closed, pen: *pen, fill: *fill }]
            }
            Mark::Circle { centre, radius_mm, pen, fill } if self.holds(*centre) => {
                let centre = plus(*centre, self.shift);
                vec![Mark::Circle { centre, radius_mm: *radius_mm, pen: *pen, fill: *fill }]
            }
            Mark::Text { at, .. } if between(*at, self.own.0, self.own.1) => {
                vec![self.text(mark.clone())]
            }
            Mark::Circle { .. } | Mark::Text { .. } => Vec::new(),
        }
    }

    /// The part of a segment inside, on the page (Liang and Barsky 1984).
    fn segment(&self, a: Point, b: Point) -> Option<(Point, Point)> {
        let way = minus(b, a);
        let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
        for axis in 0..2 {
            let (low, high) = (self.from[axis] - a[axis], self.to[axis] - a[axis]);
            if way[axis] == 0.0 {
                if low > 0.0 || high < 0.0 {
                    return None;
                }
                continue;
            }
            let (first, second) = (low / way[axis], high / way[axis]);
            enter = enter.max(first.min(second));
            leave = leave.min(first.max(second));
        }
        let place = |share: f64| plus(plus(a, times(way, share)), self.shift);
        (enter < leave).then(|| (place(enter), place(leave)))
    }

    fn text(&self, mut mark: Mark) -> Mark {
        if let Mark::Text { at, size_mm, anchor, turn_deg, text } = &mut mark {
            let wide = text_width(text, *size_mm);
            let left = match anchor {
                Anchor::Start => 0.0,
                Anchor::Middle => -0.5 * wide,
                Anchor::End => -wide,
            };
            let (sin, cos) = turn_deg.to_radians().sin_cos();
            let ends = [left, left + wide];
            for (axis, turn) in [cos, sin].into_iter().enumerate() {
                let reach = ends.map(|x| at[axis] + x * turn);
                let (low, high) = (reach[0].min(reach[1]), reach[0].max(reach[1]));
                let air = 1.0;
                at[axis] += (self.from[axis] + air - low).max(0.0);
                at[axis] -= (high + air - self.to[axis]).max(0.0);
            }
            *at = plus(*at, self.shift);
        }
        mark
    }
}

fn between(point: Point, from: Point, to: Point) -> bool {
    (0..2).all(|axis| point[axis] >= from[axis] && point[axis] <= to[axis])
}
