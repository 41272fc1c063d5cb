//! Cuts marks to a window of a drawing and moves them onto a page.

use super::geometry::{Point, Rect, clip_polyline, plus, times};
use super::lettering::width;
use super::sheet::Mark;

/// Air between a text and the edge of the window.
const TEXT_AIR: f64 = 1.0;

/// A window of a drawing and how far it is moved to its page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Window {
    pub shown: Rect,
    /// The part up to the cut lines; a text belongs to the page on whose own part its anchor lies.
    pub own: Rect,
    pub shift: Point,
}

impl Window {
    /// What of a mark shows in the window, on the page. Circles and small shapes are whole or
    /// absent by their middle; a text of this page is moved wholly inside.
    pub fn cut(&self, mark: &Mark) -> Vec<Mark> {
        match mark {
            Mark::Stroke { points, pen } => clip_polyline(&self.shown, points)
                .into_iter()
                .filter(|piece| piece.iter().any(|point| *point != piece[0]))
                .map(|piece| Mark::Stroke { points: self.moved(&piece), pen: pen.clone() })
                .collect(),
            Mark::Shape { points, pen, fill } => {
                let sum = points.iter().fold([0.0, 0.0], |sum, &point| plus(sum, point));
                if !self.shown.contains(times(sum, 1.0 / points.len().max(1) as f64)) {
                    return Vec::new();
                }
                let points = self.moved(points);
                vec![Mark::Shape { points, pen: pen.clone(), fill: *fill }]
            }
            Mark::Circle { centre, radius, pen, fill } if self.shown.contains(*centre) => {
                let centre = plus(*centre, self.shift);
                vec![Mark::Circle { centre, radius: *radius, pen: pen.clone(), fill: *fill }]
            }
            Mark::Text { at, .. } if self.own.contains(*at) => vec![self.text(mark.clone())],
            Mark::Circle { .. } | Mark::Text { .. } => Vec::new(),
            Mark::Part { name, marks } => {
                let marks: Vec<Mark> = marks.iter().flat_map(|mark| self.cut(mark)).collect();
                let part = Mark::Part { name: name.clone(), marks };
                if matches!(&part, Mark::Part { marks, .. } if marks.is_empty()) {
                    Vec::new()
                } else {
                    vec![part]
                }
            }
        }
    }

    fn moved(&self, points: &[Point]) -> Vec<Point> {
        points.iter().map(|&point| plus(point, self.shift)).collect()
    }

    fn text(&self, mut mark: Mark) -> Mark {
        if let Mark::Text { at, size, anchor, turn_deg, text, .. } = &mut mark {
            let wide = width(text, *size);
            let left = anchor.left(wide);
            let (sin, cos) = turn_deg.to_radians().sin_cos();
            let shown = [[self.shown.left, self.shown.right], [self.shown.top, self.shown.bottom]];
            for (axis, turn) in [cos, sin].into_iter().enumerate() {
                let reach = [left, left + wide].map(|x| at[axis] + x * turn);
                let (low, high) = (reach[0].min(reach[1]), reach[0].max(reach[1]));
                at[axis] += (shown[axis][0] + TEXT_AIR - low).max(0.0);
                at[axis] -= (high + TEXT_AIR - shown[axis][1]).max(0.0);
            }
            *at = plus(*at, self.shift);
        }
        mark
    }
}
