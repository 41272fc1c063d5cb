//! Sheets as the pages of a PDF, true to size, the same bytes every time.

use krilla::Document;
use krilla::color::luma;
use krilla::geom::{Path, PathBuilder, Point as PdfPoint, Transform};
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::page::{PageLabel, PageSettings};
use krilla::paint::{Fill as PdfFill, FillRule, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, TextDirection};

use super::error::DrawError;
use super::ink::{Anchor, Fill, Mark, Pen, Point, Sheet};
use crate::chart::text_width;

/// Points of a PDF in a millimetre.
const PT_PER_MM: f64 = 72.0 / 25.4;
/// Distance of a Bézier handle that makes a quarter of a unit circle, `4/3 (√2 − 1)`.
const QUARTER_HANDLE: f64 = 0.552_284_749_8;

/// The sheets as one PDF.
///
/// # Errors
/// [`DrawError`] when font or writer fail.
pub(super) fn pdf(sheets: &[Sheet], title: &str) -> Result<Vec<u8>, DrawError> {
    let font = Font::new(dejavu::sans::regular().into(), 0).ok_or(DrawError::Font)?;
    let mut document = Document::new();
    document.set_metadata(
        Metadata::new()
            .title(title.to_owned())
            .creator(format!("Planewright {}", env!("CARGO_PKG_VERSION"))),
    );
    for sheet in sheets {
        let settings = PageSettings::from_wh(pt(sheet.width_mm), pt(sheet.height_mm))
            .ok_or_else(|| DrawError::Pdf("a page has no size".to_owned()))?;
        let label = PageLabel::new(None, (sheets.len() > 1).then(|| sheet.title.clone()), None);
        let mut page = document.start_page_with(settings.with_page_label(label));
        let mut surface = page.surface();
        for mark in &sheet.marks {
            draw(&mut surface, mark, &font);
        }
        surface.finish();
        page.finish();
    }
    document.finish().map_err(|error| DrawError::Pdf(format!("{error:?}")))
}

fn draw(surface: &mut Surface<'_>, mark: &Mark, font: &Font) {
    match mark {
        Mark::Line { from, to, pen } => {
            paint(surface, polyline(&[*from, *to], false), Some(*pen), None);
        }
        Mark::Path { points, closed, pen, fill } => {
            paint(surface, polyline(points, *closed), *pen, *fill);
        }
        Mark::Circle { centre, radius_mm, pen, fill } => {
            paint(surface, circle(*centre, *radius_mm), *pen, *fill);
        }
        Mark::Text { at, size_mm, anchor, turn_deg, text } => {
            let wide = text_width(text, *size_mm);
            let left = match anchor {
                Anchor::Start => 0.0,
                Anchor::Middle => 0.5 * wide,
                Anchor::End => wide,
            };
            let (x, y) = (pt(at[0]), pt(at[1]));
            surface.push_transform(&Transform::from_rotate_at(*turn_deg as f32, x, y));
            surface.set_stroke(None);
            surface.set_fill(Some(ink(0)));
            let start = PdfPoint::from_xy(pt(at[0] - left), y);
            surface.draw_text(start, font.clone(), pt(*size_mm), text, false, TextDirection::Auto);
            surface.pop();
        }
    }
}

fn paint(surface: &mut Surface<'_>, path: Option<Path>, pen: Option<Pen>, fill: Option<Fill>) {
    let Some(path) = path else { return };
    surface.set_fill(fill.map(|Fill(grey)| ink(grey)));
    surface.set_stroke(pen.map(stroke));
    surface.draw_path(&path);
}

fn ink(grey: u8) -> PdfFill {
    let paint = luma::Color::new(grey).into();
    PdfFill { paint, opacity: NormalizedF32::ONE, rule: FillRule::NonZero }
}

fn stroke(pen: Pen) -> Stroke {
    let array: Vec<f32> = pen.dash_mm.iter().map(|&dash| pt(dash)).collect();
    Stroke {
        paint: luma::Color::new(pen.grey).into(),
        width: pt(pen.width_mm),
        dash: (!array.is_empty()).then_some(StrokeDash { array, offset: 0.0 }),
        ..Stroke::default()
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

fn circle([x, y]: Point, radius_mm: f64) -> Option<Path> {
    let handle = QUARTER_HANDLE * radius_mm;
    let mut builder = PathBuilder::new();
    builder.move_to(pt(x + radius_mm), pt(y));
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
        let (first, second, end) =
            (at(radius_mm, handle), at(handle, radius_mm), at(0.0, radius_mm));
        builder.cubic_to(first.0, first.1, second.0, second.1, end.0, end.1);
    }
    builder.close();
    builder.finish()
}

fn pt(millimetres: f64) -> f32 {
    (millimetres * PT_PER_MM) as f32
}
