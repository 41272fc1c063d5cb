//! The drawing of a whole chart.

use super::contents::LineChart;
use super::describe::describe;
use super::error::ChartError;
use super::frame::{draw_frame, draw_writing};
use super::key::{Entry, Sample, draw_key, key_height};
use super::layout::{LABEL_PX, Layout, SHEET_WIDTH_PX};
use super::placement::{Obstacles, Placed, leader, places_along, places_inside};
use super::plot::{draw_grid, draw_pieces};
use super::shapes::{LineShape, Shapes};
use super::style::{BAND_LINE, BAND_TINT, FORM, REGION_LINE, REGION_TINT, RULE_DASH};
use super::symbol::{draw_marker, draw_symbol};
use crate::drawing::geometry::{Lean, polygon_contains};
use crate::drawing::{Colour, Drawing, INK, PAPER, Pen, Point, Rect, TextBlock};

/// Widest label inside the plot before it is broken into lines.
const LABEL_WIDTH_PX: f64 = 190.0;
/// Said of contents the axes leave out.
const OUTSIDE: &str = "(outside the range)";
/// Said of a line without a single value.
const NO_VALUES: &str = "(no values)";

/// A label inside the plot with the tint behind it and the point it leads to.
struct Label {
    placed: Placed,
    tint: Colour,
    leads_to: Option<Point>,
}

/// The SVG document of a chart.
pub(super) fn draw(chart: &LineChart) -> Result<String, ChartError> {
    let (layout, shapes, names) = arrange(chart)?;
    let mut drawing = Drawing::new([SHEET_WIDTH_PX, layout.height_px], &chart.title, FORM);
    for rect in shapes.regions.iter().flatten() {
        fill_region(&mut drawing, rect);
    }
    for band in &shapes.bands {
        fill_band(&mut drawing, &band.area, &band.edges);
    }
    drawing.part("chart-grid", |drawing| draw_grid(drawing, &layout))?;
    draw_frame(&mut drawing, &layout);
    for y in shapes.floors.iter().flatten() {
        draw_floor(&mut drawing, layout.plot.left, layout.plot.right, *y);
    }
    draw_labels(&mut drawing, &names.labels);
    for line in &shapes.lines {
        draw_line(&mut drawing, &layout, line)?;
    }
    drawing.part("chart-markers", |drawing| {
        shapes.markers.iter().flatten().for_each(|at| draw_marker(drawing, *at));
    });
    draw_key(&mut drawing, &layout, &names.entries);
    draw_writing(&mut drawing, &layout.writing, layout.title_line_y());
    Ok(drawing.svg(&describe(chart, &layout.x, &layout.y)))
}

/// Lays the chart out, on a taller sheet if the key would not fit.
fn arrange(chart: &LineChart) -> Result<(Layout, Shapes, Namer), ChartError> {
    let mut layout = Layout::of(chart, 0.0)?;
    // Each round is taller than the one before, and no key needs more than a
    // place for every name, so this ends.
    loop {
        let shapes = Shapes::of(chart, &layout);
        let names = name_everything(chart, &shapes, &layout);
        let needed = key_height(&names.entries, layout.key_width_px);
        if needed <= layout.plot.height() {
            return Ok((layout, shapes, names));
        }
        layout = Layout::of(chart, needed)?;
    }
}

/// Finds every name a place: in the plot where it is clear, else in the key.
fn name_everything(chart: &LineChart, shapes: &Shapes, layout: &Layout) -> Namer {
    let mut namer = Namer {
        plot: layout.plot,
        tinted: tinted_areas(shapes),
        obstacles: shapes.obstacles(&layout.plot),
        labels: Vec::new(),
        entries: Vec::new(),
    };
    for (series, line) in chart.series.iter().zip(&shapes.lines) {
        let text = match line.end {
            Some(_) => series.label.clone(),
            None if series.runs().next().is_none() => format!("{} {NO_VALUES}", series.label),
            None => format!("{} {OUTSIDE}", series.label),
        };
        namer.entries.push(Entry {
            text,
            sample: match line.pieces.is_empty() && line.end.is_some() {
                true => Sample::Point(line.symbol_style()),
                false => Sample::Line(line.symbol_style()),
            },
            at: line.end,
        });
    }
    let shunned: Vec<_> = shapes.bands.iter().map(|band| band.area.clone()).collect();
    for (marker, at) in chart.markers.iter().zip(&shapes.markers) {
        namer.name_marker(&marker.label, *at, &shunned);
    }
    for (rule, y) in chart.floors.iter().zip(&shapes.floors) {
        namer.name_floor(&rule.label, *y);
    }
    for (region, rect) in chart.untested.iter().zip(&shapes.regions) {
        namer.name_region(&region.label, *rect);
    }
    for (band, shape) in chart.bands.iter().zip(&shapes.bands) {
        namer.name_band(&band.label, &shape.area, shape.bounds());
    }
    namer
}

/// Everything tinted, in the order in which it hides what lies below.
fn tinted_areas(shapes: &Shapes) -> Vec<(Vec<Point>, Colour)> {
    let bands = shapes.bands.iter().rev();
    let regions = shapes.regions.iter().rev().flatten();
    bands
        .map(|band| (band.area.clone(), BAND_TINT))
        .chain(regions.map(|rect| (rect.corners().to_vec(), REGION_TINT)))
        .collect()
}

struct Namer {
    plot: Rect,
    /// Tinted areas, the topmost first.
    tinted: Vec<(Vec<Point>, Colour)>,
    obstacles: Obstacles,
    labels: Vec<Label>,
    entries: Vec<Entry>,
}

impl Namer {
    fn name_floor(&mut self, text: &str, y: Option<f64>) {
        let block = TextBlock::wrapped(text, LABEL_PX, self.plot.width() / 2.0);
        let placed = y.and_then(|y| {
            let centres = places_along(y, &block, &self.plot);
            self.obstacles.place(&block, false, &self.plot, &centres)
        });
        let at = y.map(|y| [self.plot.right, y]);
        self.settle(text, placed, Sample::Floor, at, None);
    }

    fn name_marker(&mut self, text: &str, at: Option<Point>, shunned: &[Vec<Point>]) {
        let block = TextBlock::wrapped(text, LABEL_PX, LABEL_WIDTH_PX);
        let placed = at.and_then(|at| self.obstacles.place_beside(&block, &self.plot, at, shunned));
        self.settle(text, placed, Sample::Marker, at, at);
    }

    fn name_region(&mut self, text: &str, rect: Option<Rect>) {
        let placed = rect.and_then(|rect| {
            let ideal = [rect.centre()[0], rect.top];
            self.place_in_area(text, &rect.corners(), &rect, ideal)
        });
        let at = rect.map(|rect| rect.centre());
        self.settle(text, placed, Sample::Region, at, None);
    }

    fn name_band(&mut self, text: &str, area: &[Point], bounds: Option<Rect>) {
        let placed =
            bounds.and_then(|bounds| self.place_in_area(text, area, &bounds, bounds.centre()));
        let at = bounds.map(|bounds| bounds.centre());
        self.settle(text, placed, Sample::Band, at, None);
    }

    /// On one line if that fits, else broken ever narrower, else turned.
    fn place_in_area(
        &mut self,
        text: &str,
        area: &[Point],
        bounds: &Rect,
        ideal: Point,
    ) -> Option<Placed> {
        let centres = places_inside(area, bounds, ideal);
        for (limit_px, turned) in [
            (LABEL_WIDTH_PX, false),
            (LABEL_WIDTH_PX * 0.6, false),
            (LABEL_WIDTH_PX * 0.4, false),
            (LABEL_WIDTH_PX * 1.5, true),
        ] {
            let block = TextBlock::wrapped(text, LABEL_PX, limit_px);
            let placed = self.obstacles.place(&block, turned, bounds, &centres);
            if placed.is_some() {
                return placed;
            }
        }
        None
    }

    /// Notes the label found, or an entry in the key.
    fn settle(
        &mut self,
        text: &str,
        placed: Option<Placed>,
        sample: Sample,
        at: Option<Point>,
        leads_to: Option<Point>,
    ) {
        let Some(placed) = placed else {
            let text = match at {
                Some(_) => text.to_owned(),
                None => format!("{text} {OUTSIDE}"),
            };
            self.entries.push(Entry { text, sample, at });
            return;
        };
        let centre = placed.rect.centre();
        let mut tinted = self.tinted.iter();
        let tint = tinted
            .find(|(area, _)| polygon_contains(area, centre))
            .map_or(PAPER, |(_, tint)| *tint);
        self.labels.push(Label { placed, tint, leads_to });
    }
}

fn draw_labels(drawing: &mut Drawing, labels: &[Label]) {
    drawing.part("chart-labels", |drawing| {
        for label in labels {
            let rect = &label.placed.rect;
            drawing.shape(&rect.grown(2.5).corners(), None, Some(label.tint));
            if let Some(target) = label.leads_to {
                let (from, to) = leader(rect, target);
                drawing.line(from, to, Pen::solid(INK, 0.75));
            }
            drawing.block(&label.placed.block, rect.centre(), label.placed.turned);
        }
    });
}

fn draw_line(drawing: &mut Drawing, layout: &Layout, line: &LineShape) -> Result<(), ChartError> {
    drawing.part("chart-series", |drawing| {
        draw_pieces(drawing, layout, &line.values, &line.style.pen())
    })?;
    let style = line.symbol_style();
    drawing.part("chart-symbols", |drawing| {
        line.symbols.iter().for_each(|at| draw_symbol(drawing, &style, *at));
    });
    Ok(())
}

/// A band: tint, hatching up to the right, and its two edges.
pub(super) fn fill_band(drawing: &mut Drawing, area: &[Point], edges: &[Vec<Point>]) {
    drawing.part("chart-band", |drawing| {
        drawing.shape(area, None, Some(BAND_TINT));
        drawing.hatch(area, 8.0, Lean::Forward, &Pen::solid(BAND_LINE, 0.5));
        edges.iter().for_each(|edge| drawing.open(edge, Pen::solid(BAND_LINE, 1.25)));
    });
}

/// An untested region: tint, wide hatching down to the right, and its two sides.
pub(super) fn fill_region(drawing: &mut Drawing, rect: &Rect) {
    drawing.part("chart-untested", |drawing| {
        let [a, b, c, d] = rect.corners();
        drawing.shape(&[a, b, c, d], None, Some(REGION_TINT));
        drawing.hatch(&[a, b, c, d], 14.0, Lean::Backward, &Pen::solid(REGION_LINE, 0.5));
        drawing.line(a, d, Pen::solid(REGION_LINE, 1.0));
        drawing.line(b, c, Pen::solid(REGION_LINE, 1.0));
    });
}

/// A floor: a dashed line on short slanted strokes, as ground is drawn.
pub(super) fn draw_floor(drawing: &mut Drawing, left: f64, right: f64, y: f64) {
    drawing.part("chart-floor", |drawing| {
        drawing.line([left, y], [right, y], Pen::dashed(INK, 1.25, RULE_DASH));
        let mut x = left + 8.0;
        while x < right {
            drawing.line([x, y], [x - 5.0, y + 5.0], Pen::solid(INK, 0.75));
            x += 12.5;
        }
    });
}
