//! The key on the right: names at the ends of the lines, each with a sample.

use super::figure::{draw_floor, fill_band, fill_region};
use super::layout::{KEY_GAP_PX, LABEL_PX, Layout, SAMPLE_GAP_PX, SAMPLE_PX};
use super::placement::spread;
use super::style::LineStyle;
use super::symbol::{draw_marker, draw_symbol};
use crate::drawing::{Drawing, INK, Pen, Point, Rect, TextBlock};

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
pub(super) fn draw_key(drawing: &mut Drawing, layout: &Layout, entries: &[Entry]) {
    let blocks = blocks_of(entries, layout.key_width_px);
    let wanted: Vec<(f64, f64)> = entries
        .iter()
        .zip(&blocks)
        .map(|(entry, block)| {
            let y = entry.at.map_or(layout.plot.bottom, |at| at[1]);
            (y, entry_height(block))
        })
        .collect();
    let middles = spread(&wanted, layout.plot.top, layout.plot.bottom);
    for (entry, y) in entries.iter().zip(&middles) {
        draw_sample(drawing, layout, entry, *y);
    }
    drawing.part("chart-key", |drawing| {
        let x = layout.key_left() + SAMPLE_PX + SAMPLE_GAP_PX;
        for (block, middle) in blocks.iter().zip(&middles) {
            drawing.column(block, [x, middle - block.height() / 2.0], INK);
        }
    });
}

/// Height the whole key needs, CSS pixels.
pub(super) fn key_height(entries: &[Entry], width_px: f64) -> f64 {
    blocks_of(entries, width_px).iter().map(entry_height).sum()
}

fn entry_height(block: &TextBlock) -> f64 {
    block.height().max(LABEL_PX) + KEY_GAP_PX
}

fn blocks_of(entries: &[Entry], width_px: f64) -> Vec<TextBlock> {
    let block = |entry: &Entry| TextBlock::wrapped(&entry.text, LABEL_PX, width_px);
    entries.iter().map(block).collect()
}

fn draw_sample(drawing: &mut Drawing, layout: &Layout, entry: &Entry, y: f64) {
    let left = layout.key_left();
    let right = left + SAMPLE_PX;
    let swatch = Rect::around([left + SAMPLE_PX / 2.0, y], SAMPLE_PX, LABEL_PX);
    match &entry.sample {
        Sample::Line(style) => draw_line_sample(drawing, layout, style, entry.at, y),
        Sample::Band => {
            let [a, b, c, d] = swatch.corners();
            fill_band(drawing, &swatch.corners(), &[vec![a, b], vec![d, c]]);
        }
        Sample::Region => fill_region(drawing, &swatch),
        Sample::Floor => draw_floor(drawing, left, right, y),
        Sample::Point(style) => drawing.part("chart-sample", |drawing| {
            draw_symbol(drawing, style, swatch.centre());
        }),
        Sample::Marker => drawing.part("chart-sample", |drawing| {
            draw_marker(drawing, swatch.centre());
        }),
    }
}

fn draw_line_sample(
    drawing: &mut Drawing,
    layout: &Layout,
    style: &LineStyle,
    end: Option<Point>,
    y: f64,
) {
    let (left, right) = (layout.key_left(), layout.key_left() + SAMPLE_PX);
    drawing.part("chart-sample", |drawing| {
        drawing.line([left, y], [right, y], style.pen());
        if let Some(end) = end.filter(|end| layout.plot.right - end[0] < NEAR_FRAME_PX) {
            let leader = Pen::solid(style.colour, 0.75);
            drawing.line([layout.plot.right + 1.0, end[1]], [left - 2.0, y], leader);
        }
        draw_symbol(drawing, style, [(left + right) / 2.0, y]);
    });
}
