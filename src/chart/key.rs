//! The key on the right: names at the ends of the lines, each with a sample.

use super::canvas::{Anchor, Canvas, Pen, Stroke};
use super::error::ChartError;
use super::figure::{draw_floor, draw_marker, fill_band, fill_region};
use super::font::TextBlock;
use super::geometry::{Point, Rect};
use super::layout::{KEY_GAP_PX, LABEL_PX, Layout, SAMPLE_GAP_PX, SAMPLE_PX};
use super::placement::spread;
use super::style::{INK, LineStyle};

/// Ends of lines this near the frame are joined to their names.
const NEAR_FRAME_PX: f64 = 6.0;

/// What a sample in the key shows.
pub(super) enum Sample {
    Line(LineStyle),
    Point(LineStyle),
    Band,
    Region,
    Floor,
    Marker,
}

/// One name in the key.
pub(super) struct Entry {
    pub text: String,
    pub sample: Sample,
    /// The place in the plot it belongs to; `None` goes to the bottom.
    pub at: Option<Point>,
}

/// Draws all names as near as possible to what they name.
pub(super) fn draw_key(
    canvas: &mut Canvas,
    layout: &Layout,
    entries: &[Entry],
) -> Result<(), ChartError> {
    let blocks = blocks_of(entries, layout.key_width_px);
    let wanted: Vec<(f64, f64)> = entries
        .iter()
        .zip(&blocks)
        .map(|(entry, block)| {
            let y = entry.at.map_or(layout.plot.bottom, |at| at.1);
            (y, entry_height(block))
        })
        .collect();
    let middles = spread(&wanted, layout.plot.top, layout.plot.bottom);
    for (entry, y) in entries.iter().zip(&middles) {
        draw_sample(canvas, layout, entry, *y)?;
    }
    canvas.group("key", &[], |pen| {
        let x = layout.key_left() + SAMPLE_PX + SAMPLE_GAP_PX;
        for (block, middle) in blocks.iter().zip(&middles) {
            let top = middle - block.height_px() / 2.0;
            for (i, line) in block.lines.iter().enumerate() {
                let y = top + (i as f64 + 0.5) * block.pitch_px();
                pen.text(line, (x, y), block.size_px, INK, Anchor::Start, false)?;
            }
        }
        Ok(())
    })
}

/// Height the whole key needs, CSS pixels.
pub(super) fn key_height(entries: &[Entry], width_px: f64) -> f64 {
    blocks_of(entries, width_px).iter().map(entry_height).sum()
}

fn entry_height(block: &TextBlock) -> f64 {
    block.height_px().max(LABEL_PX) + KEY_GAP_PX
}

fn blocks_of(entries: &[Entry], width_px: f64) -> Vec<TextBlock> {
    let block = |entry: &Entry| TextBlock::wrapped(&entry.text, LABEL_PX, width_px);
    entries.iter().map(block).collect()
}

fn draw_sample(
    canvas: &mut Canvas,
    layout: &Layout,
    entry: &Entry,
    y: f64,
) -> Result<(), ChartError> {
    let left = layout.key_left();
    let right = left + SAMPLE_PX;
    let swatch = Rect::around((left + SAMPLE_PX / 2.0, y), SAMPLE_PX, LABEL_PX);
    match &entry.sample {
        Sample::Line(style) => draw_line_sample(canvas, layout, style, entry.at, y),
        Sample::Band => {
            let [a, b, c, d] = swatch.corners();
            fill_band(canvas, &swatch.corners(), &[vec![a, b], vec![d, c]])
        }
        Sample::Region => fill_region(canvas, &swatch),
        Sample::Floor => draw_floor(canvas, left, right, y),
        Sample::Point(style) => {
            canvas.group("sample", &[], |pen| pen.symbol(style, swatch.centre()))
        }
        Sample::Marker => canvas.group("sample", &[], |pen| draw_marker(pen, swatch.centre())),
    }
}

fn draw_line_sample(
    canvas: &mut Canvas,
    layout: &Layout,
    style: &LineStyle,
    end: Option<Point>,
    y: f64,
) -> Result<(), ChartError> {
    let (left, right) = (layout.key_left(), layout.key_left() + SAMPLE_PX);
    let stroke = Stroke {
        colour: style.colour,
        width_px: style.width_px,
    };
    canvas.group("sample", &style.dash, |pen| {
        pen.line(&[(left, y), (right, y)], stroke)
    })?;
    canvas.group("sample", &[], |pen: &Pen| {
        if let Some(end) = end.filter(|end| layout.plot.right - end.0 < NEAR_FRAME_PX) {
            let leader = Stroke {
                colour: style.colour,
                width_px: 0.75,
            };
            pen.line(&[(layout.plot.right + 1.0, end.1), (left - 2.0, y)], leader)?;
        }
        pen.symbol(style, ((left + right) / 2.0, y))
    })
}
