//! Points, rectangles, clipping and hatching.
//!
//! x grows to the right, y grows downwards; no function asks for the unit.

/// A point or a direction on a sheet: x and y.
pub(crate) type Point = [f64; 2];

pub(crate) fn plus(a: Point, b: Point) -> Point {
    [a[0] + b[0], a[1] + b[1]]
}

pub(crate) fn minus(a: Point, b: Point) -> Point {
    [a[0] - b[0], a[1] - b[1]]
}

pub(crate) fn times(a: Point, factor: f64) -> Point {
    [a[0] * factor, a[1] * factor]
}

pub(crate) fn middle(a: Point, b: Point) -> Point {
    [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])]
}

pub(crate) fn distance(a: Point, b: Point) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// The direction of a vector; to the right where it has none.
pub(crate) fn unit(a: Point) -> Point {
    let long = a[0].hypot(a[1]);
    if long > 0.0 { times(a, 1.0 / long) } else { [1.0, 0.0] }
}

/// An upright rectangle on a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Rect {
    pub left: f64,
    pub top: f64,
    pub right: f64,
    pub bottom: f64,
}

impl Rect {
    /// The rectangle of this size around a centre.
    pub fn around(centre: Point, wide: f64, high: f64) -> Self {
        Self {
            left: centre[0] - wide / 2.0,
            top: centre[1] - high / 2.0,
            right: centre[0] + wide / 2.0,
            bottom: centre[1] + high / 2.0,
        }
    }

    /// The rectangle from an upper left to a lower right corner.
    pub fn between(from: Point, to: Point) -> Self {
        Self { left: from[0], top: from[1], right: to[0], bottom: to[1] }
    }

    pub fn width(&self) -> f64 {
        self.right - self.left
    }

    pub fn height(&self) -> f64 {
        self.bottom - self.top
    }

    pub fn centre(&self) -> Point {
        [(self.left + self.right) / 2.0, (self.top + self.bottom) / 2.0]
    }

    /// The rectangle moved out by the same distance on all four sides.
    pub fn grown(&self, by: f64) -> Self {
        Self {
            left: self.left - by,
            top: self.top - by,
            right: self.right + by,
            bottom: self.bottom + by,
        }
    }

    pub fn corners(&self) -> [Point; 4] {
        [
            [self.left, self.top],
            [self.right, self.top],
            [self.right, self.bottom],
            [self.left, self.bottom],
        ]
    }

    pub fn overlaps(&self, other: &Rect) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    pub fn holds(&self, inner: &Rect) -> bool {
        self.left <= inner.left
            && self.right >= inner.right
            && self.top <= inner.top
            && self.bottom >= inner.bottom
    }

    pub fn contains(&self, point: Point) -> bool {
        (self.left..=self.right).contains(&point[0]) && (self.top..=self.bottom).contains(&point[1])
    }
}

/// The part of a segment inside a rectangle, or `None` when it misses.
///
/// Source: Liang and Barsky (1984), "A new concept and method for line
/// clipping", ACM Transactions on Graphics 3(1) (from memory).
pub(crate) fn clip_segment(rect: &Rect, from: Point, to: Point) -> Option<(Point, Point)> {
    let (dx, dy) = (to[0] - from[0], to[1] - from[1]);
    let mut enter: f64 = 0.0;
    let mut leave: f64 = 1.0;
    for (direction, distance) in [
        (-dx, from[0] - rect.left),
        (dx, rect.right - from[0]),
        (-dy, from[1] - rect.top),
        (dy, rect.bottom - from[1]),
    ] {
        if direction == 0.0 {
            if distance < 0.0 {
                return None;
            }
        } else if direction < 0.0 {
            enter = enter.max(distance / direction);
        } else {
            leave = leave.min(distance / direction);
        }
    }
    let at = |t: f64| [from[0] + t * dx, from[1] + t * dy];
    // Whole ends are kept exactly, so that neighbouring pieces join again.
    let start = if enter > 0.0 { at(enter) } else { from };
    let end = if leave < 1.0 { at(leave) } else { to };
    (enter <= leave).then_some((start, end))
}

/// Whether two segments cross.
pub(crate) fn segments_cross(first: (Point, Point), second: (Point, Point)) -> bool {
    let side = |(a, b): (Point, Point), p: Point| {
        (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0.0
    };
    side(first, second.0) != side(first, second.1) && side(second, first.0) != side(second, first.1)
}

/// The pieces of a polyline inside a rectangle, each with at least two points.
pub(crate) fn clip_polyline(rect: &Rect, line: &[Point]) -> Vec<Vec<Point>> {
    let mut pieces: Vec<Vec<Point>> = Vec::new();
    for pair in line.windows(2) {
        let Some((start, end)) = clip_segment(rect, pair[0], pair[1]) else {
            continue;
        };
        match pieces.last_mut() {
            Some(piece) if piece.last() == Some(&start) => piece.push(end),
            _ => pieces.push(vec![start, end]),
        }
    }
    pieces
}

/// The part of a polygon inside a rectangle.
///
/// Source: Sutherland and Hodgman (1974), "Reentrant polygon clipping",
/// Communications of the ACM 17(1) (from memory).
pub(crate) fn clip_polygon(rect: &Rect, polygon: &[Point]) -> Vec<Point> {
    let left = cut(polygon, |p| p[0] - rect.left);
    let right = cut(&left, |p| rect.right - p[0]);
    let top = cut(&right, |p| p[1] - rect.top);
    cut(&top, |p| rect.bottom - p[1])
}

/// The part of a polygon where `inside` (linear in the point) is not negative.
fn cut(polygon: &[Point], inside: impl Fn(Point) -> f64) -> Vec<Point> {
    let mut kept = Vec::new();
    let Some(&last) = polygon.last() else {
        return kept;
    };
    let mut previous = last;
    for &point in polygon {
        let (before, now) = (inside(previous), inside(point));
        if (before < 0.0) != (now < 0.0) {
            let t = before / (before - now);
            kept.push(plus(previous, times(minus(point, previous), t)));
        }
        if now >= 0.0 {
            kept.push(point);
        }
        previous = point;
    }
    kept
}

/// Which way hatch lines lean.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Lean {
    /// Like a slash: up to the right.
    Forward,
    /// Like a backslash: down to the right.
    Backward,
}

/// Parallel 45° lines filling a polygon, `spacing` apart (square to the lines).
///
/// The lines of all polygons lie on one common family, so areas side by side match.
pub(crate) fn hatch(polygon: &[Point], spacing: f64, lean: Lean) -> Vec<(Point, Point)> {
    let lean_sign = if lean == Lean::Forward { 1.0 } else { -1.0 };
    let along = |p: Point| p[0] + lean_sign * p[1];
    let step = spacing * std::f64::consts::SQRT_2;
    let least = polygon.iter().map(|p| along(*p)).fold(f64::MAX, f64::min);
    let most = polygon.iter().map(|p| along(*p)).fold(f64::MIN, f64::max);
    let mut lines = Vec::new();
    let mut index = (least / step).ceil();
    while polygon.len() > 2 && index * step <= most {
        let level = index * step;
        let mut crossings: Vec<Point> = edges(polygon)
            .filter_map(|(a, b)| {
                let (va, vb) = (along(a) - level, along(b) - level);
                ((va < 0.0) != (vb < 0.0)).then(|| {
                    let t = va / (va - vb);
                    plus(a, times(minus(b, a), t))
                })
            })
            .collect();
        crossings.sort_by(|a, b| a[0].total_cmp(&b[0]));
        lines.extend(crossings.chunks_exact(2).map(|pair| (pair[0], pair[1])));
        index += 1.0;
    }
    lines
}

/// Whether a point lies inside a polygon (even-odd rule).
pub(crate) fn polygon_contains(polygon: &[Point], point: Point) -> bool {
    edges(polygon)
        .filter(|(a, b)| {
            (a[1] > point[1]) != (b[1] > point[1])
                && point[0] < a[0] + (point[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
        })
        .count()
        % 2
        == 1
}

/// The sides of a closed polygon.
fn edges(polygon: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    (0..polygon.len()).map(|i| (polygon[i], polygon[(i + 1) % polygon.len()]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    const SQUARE: Rect = Rect { left: 0.0, top: 0.0, right: 10.0, bottom: 10.0 };

    /// Area by the trapezoid (shoelace) formula.
    fn area(polygon: &[Point]) -> f64 {
        edges(polygon).map(|(a, b)| (a[0] * b[1] - b[0] * a[1]) / 2.0).sum::<f64>().abs()
    }

    #[test]
    fn physics_a_line_leaving_and_returning_is_cut_in_two() {
        let pieces =
            clip_polyline(&SQUARE, &[[1.0, 5.0], [5.0, 5.0], [5.0, -5.0], [8.0, -5.0], [8.0, 4.0]]);
        assert_eq!(
            pieces,
            vec![vec![[1.0, 5.0], [5.0, 5.0], [5.0, 0.0]], vec![[8.0, 0.0], [8.0, 4.0]]]
        );
    }

    #[test]
    fn physics_a_line_outside_vanishes() {
        assert_eq!(clip_segment(&SQUARE, [-3.0, 8.0], [2.0, 13.0]), None);
        assert_eq!(clip_segment(&SQUARE, [-5.0, 20.0], [15.0, 20.0]), None);
    }

    #[test]
    fn physics_a_half_covered_triangle_keeps_its_area_inside() {
        // Right triangle with legs of 20; the square cuts off all but 10 x 10.
        let clipped = clip_polygon(&SQUARE, &[[0.0, 0.0], [20.0, 0.0], [0.0, 20.0]]);
        assert_relative_eq!(area(&clipped), 100.0, max_relative = 1e-12);
    }

    #[test]
    fn physics_hatching_covers_the_area() {
        // Lines one pixel apart: their total length is the area of an L shape.
        let shape =
            [[0.0, 0.0], [60.0, 0.0], [60.0, 20.0], [20.0, 20.0], [20.0, 60.0], [0.0, 60.0]];
        for lean in [Lean::Forward, Lean::Backward] {
            let length: f64 =
                hatch(&shape, 0.1, lean).iter().map(|(a, b)| distance(*a, *b) * 0.1).sum();
            assert_relative_eq!(length, 60.0 * 20.0 + 20.0 * 40.0, max_relative = 2e-3);
        }
        assert!(hatch(&shape[..2], 1.0, Lean::Forward).is_empty());
    }

    #[test]
    fn physics_inside_and_outside_of_a_notch() {
        let notch = [[0.0, 0.0], [9.0, 0.0], [9.0, 9.0], [4.5, 2.0], [0.0, 9.0]];
        assert!(polygon_contains(&notch, [1.0, 5.0]));
        assert!(!polygon_contains(&notch, [4.5, 5.0]));
        assert!(!polygon_contains(&notch, [12.0, 5.0]));
    }
}
