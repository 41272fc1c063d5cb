//! Drawings in millimetres as the pages of a PDF, true to size, the same bytes every time.

use krilla::Document;
use krilla::color::{Color, luma, rgb};
use krilla::geom::{Path, PathBuilder, Point as PdfPoint, Transform};
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::page::{PageLabel, PageSettings};
use krilla::paint::{Fill as PdfFill, FillRule, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, TextDirection};

use super::colour::Colour;
use super::error::DrawingError;
use super::geometry::Point;
use super::lettering::{font_data, width};
use super::sheet::{Drawing, Mark, Pen};

/// Points of a PDF in a millimetre.
const PT_PER_MM: f64 = 72.0 / 25.4;
/// Distance of a Bézier handle that makes a quarter of a unit circle, `4/3 (√2 − 1)`.
const QUARTER_HANDLE: f64 = 0.552_284_749_8;

/// The drawings as one PDF.
///
/// # Errors
/// [`DrawingError`] when font or writer fail.
pub(crate) fn pdf(sheets: &[Drawing], title: &str) -> Result<Vec<u8>, DrawingError> {
    let font = Font::new(font_data().into(), 0).ok_or(DrawingError::Font)?;
    let mut document = Document::new();
    document.set_metadata(
        Metadata::new()
            .title(title.to_owned())
            .creator(format!("Planewright {}", env!("CARGO_PKG_VERSION"))),
    );
    for sheet in sheets {
        let settings = PageSettings::from_wh(pt(sheet.size[0]), pt(sheet.size[1]))
            .ok_or_else(|| DrawingError::Pdf("a page has no size".to_owned()))?;
        let label = PageLabel::new(None, (sheets.len() > 1).then(|| sheet.title.clone()), None);
        let mut page = document.start_page_with(settings.with_page_label(label));
        let mut surface = page.surface();
        for mark in &sheet.marks {
            draw(&mut surface, mark, &font);
        }
        surface.finish();
        page.finish();
    }
    document.finish().map_err(|error| DrawingError::Pdf(format!("{error:?}")))
}

fn draw(surface: &mut Surface<'_>, mark: &Mark, font: &Font) {
    match mark {
        Mark::Stroke { points, pen } => paint(surface, polyline(points, false), Some(pen), None),
        Mark::Shape { points, pen, fill } => {
            paint(surface, polyline(points, true), pen.as_ref(), *fill);
        }
        Mark::Circle { centre, radius, pen, fill } => {
            paint(surface, circle(*centre, *radius), pen.as_ref(), *fill);
        }
        Mark::Text { at, size, anchor, turn_deg, colour, text } => {
            let left = anchor.left(width(text, *size));
            let (x, y) = (pt(at[0]), pt(at[1]));
            surface.push_transform(&Transform::from_rotate_at(*turn_deg as f32, x, y));
            surface.set_stroke(None);
            surface.set_fill(Some(ink(*colour)));
            let start = PdfPoint::from_xy(pt(at[0] + left), y);
            surface.draw_text(start, font.clone(), pt(*size), text, false, TextDirection::Auto);
            surface.pop();
        }
        Mark::Part { marks, .. } => marks.iter().for_each(|mark| draw(surface, mark, font)),
    }
}

fn paint(surface: &mut Surface<'_>, path: Option<Path>, pen: Option<&Pen>, fill: Option<Colour>) {
    let Some(path) = path else { return };
    surface.set_fill(fill.map(ink));
    surface.set_stroke(pen.map(stroke));
    surface.draw_path(&path);
}

fn ink(colour: Colour) -> PdfFill {
    let paint = shade(colour).into();
    PdfFill { paint, opacity: NormalizedF32::ONE, rule: FillRule::NonZero }
}

fn stroke(pen: &Pen) -> Stroke {
    let array: Vec<f32> = pen.dash.iter().map(|&dash| pt(dash)).collect();
    Stroke {
        paint: shade(pen.colour).into(),
        width: pt(pen.width),
        dash: (!array.is_empty()).then_some(StrokeDash { array, offset: 0.0 }),
        ..Stroke::default()
    }
}

/// Greys stay greys, so that a printer mixes no colours for them.
fn shade(Colour { red, green, blue }: Colour) -> Color {
    if red == green && green == blue {
        luma::Color::new(red).into()
    } else {
        rgb::Color::new(red, green, blue).into()
    }
}

fn polyline(points: &[Point], closed: bool) -> Option<Path> {
    let mut builder = PathBuilder::new();
    for (index, point) in points.iter().enumerate() {
        let (x, y) = (pt(point[0]), pt(point[1]));
        if index == 0 { builder.move_to(x, y) } else { builder.line_to(x, y) }
    }
    if closed {
        builder.close();
    }
    builder.finish()
}

fn circle([x, y]: Point, radius: f64) -> Option<Path> {
    let handle = QUARTER_HANDLE * radius;
    let mut builder = PathBuilder::new();
    builder.move_to(pt(x + radius), pt(y));
    // Each quarter turns the pair (along, across) by a right angle.
    for (along, across) in [
        ((1.0, 0.0), (0.0, 1.0)),
        ((0.0, 1.0), (-1.0, 0.0)),
        ((-1.0, 0.0), (0.0, -1.0)),
        ((0.0, -1.0), (1.0, 0.0)),
    ] {
        let at = |r: f64, s: f64| {
            (pt(x + r * along.0 + s * across.0), pt(y + r * along.1 + s * across.1))
        };
        let (first, second, end) = (at(radius, handle), at(handle, radius), at(0.0, radius));
        builder.cubic_to(first.0, first.1, second.0, second.1, end.0, end.1);
    }
    builder.close();
    builder.finish()
}

fn pt(millimetres: f64) -> f32 {
    (millimetres * PT_PER_MM) as f32
}
