//! The contents of a chart as shapes on the sheet, cut to the plot.

use super::contents::{Band, LineChart, Region, Series};
use super::layout::Layout;
use super::placement::Obstacles;
use super::scale::drawable;
use super::style::{LineStyle, Symbol};
use crate::drawing::geometry::{clip_polygon, clip_polyline, distance};
use crate::drawing::{Point, Rect};

/// Distance along a line between two of its symbols, CSS pixels.
const SYMBOL_PITCH_PX: f64 = 120.0;
/// How much further along each next line its symbols begin.
const SYMBOL_SHIFT_PX: f64 = 37.0;
/// Symbols keep this far off the frame and off markers.
const SYMBOL_MARGIN_PX: f64 = 8.0;
/// Half the side of the square around a symbol that labels keep off.
const SYMBOL_REACH_PX: f64 = 7.0;

/// All shapes of a chart, in the order of its contents.
pub(super) struct Shapes {
    pub lines: Vec<LineShape>,
    pub bands: Vec<BandShape>,
    /// Heights of the floors; `None` outside the plot.
    pub floors: Vec<Option<f64>>,
    /// Visible parts of the untested regions.
    pub regions: Vec<Option<Rect>>,
    /// Places of the markers; `None` outside the plot.
    pub markers: Vec<Option<Point>>,
}

/// One line: visible pieces, places of its symbols, and its last visible point.
pub(super) struct LineShape {
    pub style: LineStyle,
    /// The pieces in the units of the axes, and on the sheet.
    pub values: Vec<Vec<Point>>,
    pub pieces: Vec<Vec<Point>>,
    pub symbols: Vec<Point>,
    pub end: Option<Point>,
}

/// A band: its visible area and the visible pieces of its two edges.
pub(super) struct BandShape {
    pub area: Vec<Point>,
    pub edges: Vec<Vec<Point>>,
}

impl Shapes {
    pub fn of(chart: &LineChart, layout: &Layout) -> Self {
        let lines = chart.series.iter().enumerate();
        let visible = |point: (f64, f64)| {
            let drawn = drawable(point.0) && drawable(point.1);
            let at = drawn.then(|| layout.on_sheet(point));
            at.filter(|p| layout.plot.contains(*p))
        };
        let markers: Vec<_> = chart.markers.iter().map(|m| visible((m.x, m.y))).collect();
        Self {
            lines: lines.map(|(i, series)| LineShape::of(series, i, layout, &markers)).collect(),
            bands: chart.bands.iter().map(|band| BandShape::of(band, layout)).collect(),
            floors: chart
                .floors
                .iter()
                .map(|rule| visible((layout.x.from, rule.y)).map(|p| p[1]))
                .collect(),
            regions: chart.untested.iter().map(|region| region_rect(region, layout)).collect(),
            markers,
        }
    }

    /// Everything a label in the plot must keep off.
    pub fn obstacles(&self, plot: &Rect) -> Obstacles {
        let mut obstacles = Obstacles::default();
        let reach = 2.0 * SYMBOL_REACH_PX;
        for line in &self.lines {
            line.pieces.iter().for_each(|p| obstacles.add_line(p));
            for symbol in &line.symbols {
                obstacles.add_box(Rect::around(*symbol, reach, reach));
            }
        }
        for band in &self.bands {
            obstacles.add_line(&band.area);
            if let (Some(first), Some(last)) = (band.area.first(), band.area.last()) {
                obstacles.add_line(&[*last, *first]);
            }
        }
        for y in self.floors.iter().flatten() {
            obstacles.add_line(&[[plot.left, *y], [plot.right, *y]]);
        }
        for rect in self.regions.iter().flatten() {
            for x in [rect.left, rect.right] {
                obstacles.add_line(&[[x, rect.top], [x, rect.bottom]]);
            }
        }
        for marker in self.markers.iter().flatten() {
            obstacles.add_box(Rect::around(*marker, reach, reach));
        }
        obstacles
    }
}

impl LineShape {
    fn of(series: &Series, index: usize, layout: &Layout, markers: &[Option<Point>]) -> Self {
        let style = series.style.clone().unwrap_or_else(|| LineStyle::nth(index));
        let runs: Vec<Vec<Point>> =
            series.runs().map(|run| run.iter().map(|p| layout.on_sheet(*p)).collect()).collect();
        let values = visible_values(series, layout);
        let place = |&[x, y]: &Point| layout.on_sheet((x, y));
        let pieces: Vec<Vec<Point>> =
            values.iter().map(|piece| piece.iter().map(place).collect()).collect();
        let mut symbols = Vec::new();
        let mut until_next = 15.0 + index as f64 * SYMBOL_SHIFT_PX % SYMBOL_PITCH_PX;
        let free = |point: Point| {
            let far = |m: &Point| distance(*m, point) > 2.0 * SYMBOL_MARGIN_PX;
            let inner = layout.plot.grown(-SYMBOL_MARGIN_PX);
            inner.contains(point) && markers.iter().flatten().all(far)
        };
        for run in &runs {
            symbols_along(run, free, &mut until_next, &mut symbols);
        }
        for lone in runs.iter().filter(|run| run.len() == 1) {
            symbols.extend(lone.iter().filter(|p| layout.plot.contains(**p)));
        }
        let seen = |p: &&Point| layout.plot.contains(**p);
        let last_point = runs.iter().flatten().rfind(seen).copied();
        if symbols.is_empty() {
            symbols.extend(last_point);
        }
        let last_end = pieces.last().and_then(|piece| piece.last()).copied();
        // A single point after the last piece, or a piece cut at the frame.
        let end = match (last_point, last_end) {
            (Some(a), Some(b)) => Some(if a[0] > b[0] { a } else { b }),
            (a, b) => a.or(b),
        };
        Self { style, values, pieces, symbols, end }
    }

    /// The style of its symbols: a bare line still needs one where it is a single point.
    pub fn symbol_style(&self) -> LineStyle {
        let mut style = self.style.clone();
        if self.pieces.is_empty() && style.symbol.is_none() {
            style.symbol = Some(Symbol::Disc);
        }
        style
    }
}

/// The pieces of a line that the axes show, in their units.
fn visible_values(series: &Series, layout: &Layout) -> Vec<Vec<Point>> {
    let shown = Rect::between([layout.x.from, layout.y.from], [layout.x.to, layout.y.to]);
    let cut = |run: &[(f64, f64)]| {
        let points: Vec<Point> = run.iter().map(|&(x, y)| [x, y]).collect();
        clip_polyline(&shown, &points)
    };
    series.runs().flat_map(cut).collect()
}

/// Marks free points of one run about [`SYMBOL_PITCH_PX`] apart.
fn symbols_along(
    run: &[Point],
    free: impl Fn(Point) -> bool,
    until_next: &mut f64,
    symbols: &mut Vec<Point>,
) {
    for pair in run.windows(2) {
        let point = pair[1];
        *until_next -= distance(point, pair[0]);
        if *until_next <= 0.0 && free(point) {
            symbols.push(point);
            *until_next = SYMBOL_PITCH_PX;
        }
    }
}

impl BandShape {
    fn of(band: &Band, layout: &Layout) -> Self {
        let on_sheet = |edge: &[(f64, f64)]| -> Vec<Point> {
            edge.iter()
                .filter(|(x, y)| drawable(*x) && drawable(*y))
                .map(|p| layout.on_sheet(*p))
                .collect()
        };
        let (lower, upper) = (on_sheet(&band.lower), on_sheet(&band.upper));
        let mut around = lower.clone();
        around.extend(upper.iter().rev());
        let area = clip_polygon(&layout.plot, &around);
        if area.len() < 3 {
            return Self { area: Vec::new(), edges: Vec::new() };
        }
        let edges =
            [lower, upper].iter().flat_map(|edge| clip_polyline(&layout.plot, edge)).collect();
        Self { area, edges }
    }

    /// The upright rectangle around the area, or `None` without one.
    pub fn bounds(&self) -> Option<Rect> {
        let first = *self.area.first()?;
        let start = Rect::around(first, 0.0, 0.0);
        Some(self.area.iter().fold(start, |r, p| Rect {
            left: r.left.min(p[0]),
            top: r.top.min(p[1]),
            right: r.right.max(p[0]),
            bottom: r.bottom.max(p[1]),
        }))
    }
}

/// The visible part of an untested region; infinite ends reach the frame.
fn region_rect(region: &Region, layout: &Layout) -> Option<Rect> {
    let from = region.x_from.max(layout.x.from);
    let to = region.x_to.min(layout.x.to);
    if region.x_from.is_nan() || region.x_to.is_nan() || from >= to {
        return None;
    }
    Some(Rect {
        left: layout.on_sheet((from, layout.y.from))[0],
        right: layout.on_sheet((to, layout.y.from))[0],
        ..layout.plot
    })
}

#[cfg(test)]
mod tests {
    use super::super::contents::{Axis, Series};
    use super::*;

    fn shapes(points: Vec<(f64, f64)>, y: Axis) -> LineShape {
        let mut chart = LineChart::new("t", Axis::new("x", ""), y);
        chart.series.push(Series::new("s", points));
        let layout = Layout::of(&chart, 0.0).expect("layout");
        Shapes::of(&chart, &layout).lines.remove(0)
    }

    #[test]
    fn physics_a_missing_value_splits_the_line() {
        let gap = (2.0, f64::NAN);
        let line = shapes(
            vec![(0.0, 1.0), (1.0, 2.0), gap, (3.0, 2.0), (4.0, 1.0), (5.0, 1.0)],
            Axis::new("y", ""),
        );
        let lengths: Vec<_> = line.pieces.iter().map(Vec::len).collect();
        assert_eq!(lengths, [2, 3]);
    }

    #[test]
    fn physics_a_lone_point_keeps_its_symbol_and_its_label() {
        let line =
            shapes(vec![(0.0, 1.0), (1.0, 2.0), (2.0, f64::NAN), (3.0, 2.0)], Axis::new("y", ""));
        let end = line.end.expect("an end");
        assert!(line.symbols.contains(&end));
        assert!(end[0] > line.pieces[0][1][0]);
    }

    #[test]
    fn physics_a_line_is_cut_at_the_frame() {
        let steep = vec![(0.0, 0.0), (10.0, 1e280)];
        let line = shapes(steep, Axis::new("y", "").over(0.0, 1.0));
        assert_eq!(line.pieces.len(), 1);
        let outside = shapes(vec![(0.0, 3.0)], Axis::new("y", "").over(0.0, 1.0));
        assert!(outside.end.is_none() && outside.symbols.is_empty());
    }
}
