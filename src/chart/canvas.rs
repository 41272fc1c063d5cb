//! Pen strokes to SVG, by way of the drawing engine.
//!
//! The engine rounds every coordinate to a whole unit, so it draws on a sheet
//! four times as large, which the `viewBox` then shrinks. It also knows no
//! dashes; each group of strokes is drawn on its own and wrapped in a `<g>`
//! that carries the dash pattern.

use plotters::coord::Shift;
use plotters::drawing::{DrawingArea, IntoDrawingArea};
use plotters::element::{Circle, PathElement, Polygon, Text};
use plotters::prelude::SVGBackend;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{Color, FontDesc, FontFamily, FontStyle, FontTransform, TextStyle};

use super::error::ChartError;
use super::font::{self, FONT_FAMILY, TextBlock};
use super::geometry::Point;
use super::style::{Colour, LineStyle, PAPER, Symbol};

/// Drawing units per CSS pixel.
const UNITS_PER_PX: f64 = 4.0;

/// The engine divides font sizes by this before writing them.
const ENGINE_FONT_FACTOR: f64 = 1.24;

/// Families tried by a viewer that lacks the embedded one: the widths are alike.
const FAMILY_LIST: &str = "DejaVu Sans, Verdana, sans-serif";

/// A sheet that collects drawn groups.
pub(super) struct Canvas {
    width_px: f64,
    height_px: f64,
    body: String,
}

/// The pen inside one group.
pub(super) struct Pen<'a> {
    area: DrawingArea<SVGBackend<'a>, Shift>,
}

/// Colour and width of a stroke.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stroke {
    pub colour: Colour,
    pub width_px: f64,
}

/// Which end of a text its position names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

impl Canvas {
    pub fn new(width_px: f64, height_px: f64) -> Result<Self, ChartError> {
        font::register()?;
        Ok(Self {
            width_px,
            height_px,
            body: String::new(),
        })
    }

    /// Draws one group: `part` names it, `dash` holds for all of its strokes.
    pub fn group(
        &mut self,
        part: &str,
        dash: &[f64],
        draw: impl FnOnce(&Pen) -> Result<(), ChartError>,
    ) -> Result<(), ChartError> {
        let size = (units(self.width_px) as u32, units(self.height_px) as u32);
        let mut sheet = String::new();
        let pen = Pen {
            area: SVGBackend::with_string(&mut sheet, size).into_drawing_area(),
        };
        draw(&pen)?;
        pen.area.present().map_err(engine_error)?;
        drop(pen);
        let inner = sheet
            .split_once('\n')
            .and_then(|(_, rest)| rest.trim_end().strip_suffix("</svg>"))
            .ok_or_else(|| ChartError::Draw("unexpected SVG from the engine".to_owned()))?;
        if inner.is_empty() {
            return Ok(());
        }
        self.body += &format!("<g class=\"chart-{part}\" stroke-linejoin=\"round\"");
        if !dash.is_empty() {
            let lengths: Vec<_> = dash.iter().map(|d| units(*d).to_string()).collect();
            self.body += &format!(" stroke-dasharray=\"{}\"", lengths.join(" "));
        }
        self.body += &format!(">\n{inner}</g>\n");
        Ok(())
    }

    /// The finished SVG document with its title and description.
    pub fn finish(self, title: &str, description: &str) -> String {
        // Quotes inside a text are escaped, so only attributes can match.
        let body = self.body.replace(
            &format!("font-family=\"{FONT_FAMILY}\""),
            &format!("font-family=\"{FAMILY_LIST}\""),
        );
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"{}\" height=\"{}\" \
             viewBox=\"0 0 {} {}\">\n<title>{}</title>\n<desc>{}</desc>\n{body}</svg>\n",
            self.width_px,
            self.height_px,
            units(self.width_px),
            units(self.height_px),
            escape(title),
            escape(description),
        )
    }
}

impl Pen<'_> {
    /// A polyline.
    pub fn line(&self, points: &[Point], stroke: Stroke) -> Result<(), ChartError> {
        if points.len() < 2 {
            return Ok(());
        }
        let points: Vec<_> = points.iter().map(|p| whole(*p)).collect();
        let width = units(stroke.width_px).max(1) as u32;
        let style = stroke.colour.rgb().stroke_width(width);
        self.area
            .draw(&PathElement::new(points, style))
            .map_err(engine_error)
    }

    /// A filled polygon.
    pub fn polygon(&self, points: &[Point], fill: Colour) -> Result<(), ChartError> {
        if points.len() < 3 {
            return Ok(());
        }
        let points: Vec<_> = points.iter().map(|p| whole(*p)).collect();
        self.area
            .draw(&Polygon::new(points, fill.rgb().filled()))
            .map_err(engine_error)
    }

    /// A filled disc.
    pub fn disc(&self, centre: Point, radius_px: f64, fill: Colour) -> Result<(), ChartError> {
        let radius = units(radius_px);
        self.area
            .draw(&Circle::new(whole(centre), radius, fill.rgb().filled()))
            .map_err(engine_error)
    }

    /// One line of text; `at` is on its middle line. Turned text reads upwards.
    pub fn text(
        &self,
        text: &str,
        at: Point,
        size_px: f64,
        colour: Colour,
        anchor: Anchor,
        turned: bool,
    ) -> Result<(), ChartError> {
        let across = match anchor {
            Anchor::Start => HPos::Left,
            Anchor::Middle => HPos::Center,
            Anchor::End => HPos::Right,
        };
        let size = size_px * UNITS_PER_PX * ENGINE_FONT_FACTOR;
        let mut font = FontDesc::new(FontFamily::Name(FONT_FAMILY), size, FontStyle::Normal);
        if turned {
            font = font.transform(FontTransform::Rotate270);
        }
        let ink = colour.rgb();
        let style = TextStyle::from(font)
            .color(&ink)
            .pos(Pos::new(across, VPos::Center));
        self.area
            .draw(&Text::new(text, whole(at), style))
            .map_err(engine_error)
    }

    /// Lines of text below one another around a centre; turned ones side by side.
    pub fn block(
        &self,
        block: &TextBlock,
        centre: Point,
        colour: Colour,
        turned: bool,
    ) -> Result<(), ChartError> {
        let middle = (block.lines.len() as f64 - 1.0) / 2.0;
        for (i, line) in block.lines.iter().enumerate() {
            let off = (i as f64 - middle) * block.pitch_px();
            let at = if turned {
                (centre.0 + off, centre.1)
            } else {
                (centre.0, centre.1 + off)
            };
            self.text(line, at, block.size_px, colour, Anchor::Middle, turned)?;
        }
        Ok(())
    }

    /// The symbol of a line style, with a rim of paper that parts it from the line.
    pub fn symbol(&self, style: &LineStyle, centre: Point) -> Result<(), ChartError> {
        let Some(symbol) = style.symbol else {
            return Ok(());
        };
        let ink = style.colour;
        let shape = |radius_px: f64| outline(symbol, centre, radius_px);
        match symbol {
            Symbol::Disc | Symbol::OpenCircle => {
                self.disc(centre, 5.0, PAPER)?;
                self.disc(centre, 4.0, ink)?;
                if symbol == Symbol::OpenCircle {
                    self.disc(centre, 2.5, PAPER)?;
                }
            }
            Symbol::Cross => {
                self.disc(centre, 5.0, PAPER)?;
                let stroke = Stroke {
                    colour: ink,
                    width_px: 1.75,
                };
                let corners = shape(5.0);
                self.line(&[corners[0], corners[2]], stroke)?;
                self.line(&[corners[1], corners[3]], stroke)?;
            }
            Symbol::OpenSquare | Symbol::OpenDiamond => {
                self.polygon(&shape(6.5), PAPER)?;
                self.polygon(&shape(5.25), ink)?;
                self.polygon(&shape(3.0), PAPER)?;
            }
            Symbol::Triangle | Symbol::Square => {
                self.polygon(&shape(6.5), PAPER)?;
                self.polygon(&shape(5.0), ink)?;
            }
        }
        Ok(())
    }
}

/// The corners of a symbol on a circle of this radius.
fn outline(symbol: Symbol, centre: Point, radius_px: f64) -> Vec<Point> {
    let (corners, first_deg) = match symbol {
        Symbol::Triangle => (3, 90.0),
        Symbol::OpenDiamond => (4, 90.0),
        _ => (4, 45.0),
    };
    (0..corners)
        .map(|i| {
            let turn = first_deg + 360.0 * f64::from(i) / f64::from(corners);
            let (sin, cos) = turn.to_radians().sin_cos();
            (centre.0 + radius_px * cos, centre.1 - radius_px * sin)
        })
        .collect()
}

/// Drawing units of a length.
fn units(length_px: f64) -> i32 {
    (length_px * UNITS_PER_PX).round() as i32
}

fn whole(point: Point) -> (i32, i32) {
    (units(point.0), units(point.1))
}

fn escape(text: &str) -> String {
    font::clean(text)
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

fn engine_error(error: impl std::fmt::Display) -> ChartError {
    ChartError::Draw(error.to_string())
}
