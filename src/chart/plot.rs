//! What stands in the plot in the units of its axes, by way of the charting library: grid and
//! lines.
//!
//! The library maps values to whole units of its sheet, so that is four times as large as the
//! chart. It draws on our sheet: every stroke it makes is one of the drawing.

use std::convert::Infallible;
use std::ops::Range;

use plotters::coord::cartesian::{Cartesian2d, MeshLine};
use plotters::coord::ranged1d::{BoldPoints, KeyPointHint, NoDefaultFormatting, Ranged};
use plotters::drawing::{DrawingArea, IntoDrawingArea};
use plotters::series::LineSeries;
use plotters::style::{Color, RGBColor, ShapeStyle};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, DrawingBackend, DrawingErrorKind,
};

use super::error::ChartError;
use super::layout::Layout;
use super::scale::Scale;
use super::style::{GRID, STEPS_PER_PX};
use crate::drawing::{Colour, Drawing, Pen, Point};

/// Width of grid lines.
const GRID_PX: f64 = 0.75;

/// The library's plot of one chart.
type Plot<'a> = DrawingArea<Strokes<'a>, Cartesian2d<Ruled, Ruled>>;

/// Thin lines at the numbered ticks.
pub(super) fn draw_grid(drawing: &mut Drawing, layout: &Layout) -> Result<(), ChartError> {
    let plot = plot(drawing, layout, &[]);
    let style = ruled(GRID, GRID_PX);
    plot.draw_mesh(
        |strokes, line| match line {
            MeshLine::XMesh(from, to, _) | MeshLine::YMesh(from, to, _) => {
                strokes.draw_line(from, to, &style)
            }
        },
        BoldPoints(usize::MAX),
        BoldPoints(usize::MAX),
    )
    .map_err(engine_error)
}

/// Pieces of one line, in the units of the axes.
pub(super) fn draw_pieces(
    drawing: &mut Drawing,
    layout: &Layout,
    pieces: &[Vec<Point>],
    pen: &Pen,
) -> Result<(), ChartError> {
    let plot = plot(drawing, layout, &pen.dash);
    for piece in pieces {
        let points = piece.iter().map(|&[x, y]| (x, y));
        for element in LineSeries::new(points, ruled(pen.colour, pen.width)) {
            plot.draw(&element).map_err(engine_error)?;
        }
    }
    Ok(())
}

fn plot<'a>(drawing: &'a mut Drawing, layout: &Layout, dash_px: &[f64]) -> Plot<'a> {
    let [x, y] = [&layout.x, &layout.y].map(Scale::clone);
    let frame = &layout.plot;
    let x = Ruled { scale: x, ends_px: [frame.left, frame.right] };
    let y = Ruled { scale: y, ends_px: [frame.bottom, frame.top] };
    let [across, down] = [&x, &y].map(|axis| axis.ends_px.map(steps));
    let limits = (across[0]..across[1], down[0]..down[1]);
    let strokes = Strokes { drawing, dash_px: dash_px.to_vec() };
    strokes.into_drawing_area().apply_coord_spec(Cartesian2d::new(x, y, limits))
}

fn ruled(colour: Colour, width_px: f64) -> ShapeStyle {
    let colour = RGBColor(colour.red, colour.green, colour.blue);
    Color::stroke_width(&colour, steps(width_px).max(1).unsigned_abs())
}

/// Steps of the library's sheet in a length.
fn steps(length_px: f64) -> i32 {
    (length_px * STEPS_PER_PX).round() as i32
}

fn px([x, y]: [i32; 2]) -> Point {
    [f64::from(x) / STEPS_PER_PX, f64::from(y) / STEPS_PER_PX]
}

fn engine_error(error: impl std::fmt::Display) -> ChartError {
    ChartError::Draw(error.to_string())
}

/// An axis of the chart as the library knows it: its ends need not be whole steps.
struct Ruled {
    scale: Scale,
    ends_px: [f64; 2],
}

impl Ranged for Ruled {
    type FormatOption = NoDefaultFormatting;
    type ValueType = f64;

    fn map(&self, value: &f64, _: (i32, i32)) -> i32 {
        let [from, to] = self.ends_px;
        steps(from + self.scale.fraction(*value) * (to - from))
    }

    fn key_points<Hint: KeyPointHint>(&self, _: Hint) -> Vec<f64> {
        self.scale.ticks()
    }

    fn range(&self) -> Range<f64> {
        self.scale.from..self.scale.to
    }
}

/// A drawing on which the library draws.
struct Strokes<'a> {
    drawing: &'a mut Drawing,
    dash_px: Vec<f64>,
}

impl Strokes<'_> {
    fn pen(&self, colour: BackendColor, width: u32) -> Pen {
        let (red, green, blue) = colour.rgb;
        let width = f64::from(width) / STEPS_PER_PX;
        Pen { colour: Colour::new(red, green, blue), width, dash: self.dash_px.clone().into() }
    }
}

impl DrawingBackend for Strokes<'_> {
    type ErrorType = Infallible;

    fn get_size(&self) -> (u32, u32) {
        let [wide, high] = self.drawing.size.map(|length| steps(length).unsigned_abs());
        (wide, high)
    }

    fn ensure_prepared(&mut self) -> Result<(), DrawingErrorKind<Infallible>> {
        Ok(())
    }

    fn present(&mut self) -> Result<(), DrawingErrorKind<Infallible>> {
        Ok(())
    }

    fn draw_pixel(
        &mut self,
        (x, y): BackendCoord,
        colour: BackendColor,
    ) -> Result<(), DrawingErrorKind<Infallible>> {
        let fill = self.pen(colour, 1).colour;
        self.drawing.rectangle(px([x, y]), px([x + 1, y + 1]), None, Some(fill));
        Ok(())
    }

    fn draw_line<S: BackendStyle>(
        &mut self,
        from: BackendCoord,
        to: BackendCoord,
        style: &S,
    ) -> Result<(), DrawingErrorKind<Infallible>> {
        self.draw_path([from, to], style)
    }

    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Result<(), DrawingErrorKind<Infallible>> {
        let points: Vec<Point> = path.into_iter().map(|(x, y)| px([x, y])).collect();
        self.drawing.open(&points, self.pen(style.color(), style.stroke_width()));
        Ok(())
    }
}
