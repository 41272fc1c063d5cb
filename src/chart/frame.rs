//! Title block, scales along the frame, and notes.
//!
//! The two scales are ruled like the border of a sea chart: light and dark by
//! turns from one numbered tick to the next.

use super::layout::{BORDER_PX, Layout, NUMBER_PX, SHEET_WIDTH_PX, TICK_ROOM_PX, Writing};
use crate::drawing::{Anchor, Drawing, INK, Pen, Point, QUIET_INK, Rect};

/// Thickness of the ruled border.
const BORDER_SCALE_PX: f64 = 4.0;
const FRAME: Pen = Pen::solid(INK, 0.75);
/// Small ticks, and the lines that part the writing from the chart.
const THIN: Pen = Pen::solid(QUIET_INK, 0.5);

/// The frame with its ruled borders, ticks, numbers and axis labels.
pub(super) fn draw_frame(drawing: &mut Drawing, layout: &Layout) {
    let plot = &layout.plot;
    drawing.part("chart-frame", |drawing| {
        draw_borders(drawing, layout);
        draw_small_ticks(drawing, layout);
        let [a, b, c, d] = plot.corners();
        drawing.open(&[a, b, c, d, a], FRAME);
    });
    drawing.part("chart-axes", |drawing| {
        draw_numbers(drawing, layout);
        let below = TICK_ROOM_PX + 2.0 + NUMBER_PX * 1.25;
        let x_label_y = plot.bottom + below + layout.x_label.height() / 2.0 + 2.0;
        drawing.block(&layout.x_label, [plot.centre()[0], x_label_y], false);
        let y_label_top = plot.top - layout.y_label.height() - 9.0;
        drawing.column(&layout.y_label, [BORDER_PX, y_label_top], INK);
    });
}

/// Title and subtitle from the upper border down, a thin line under them, and the notes at the
/// foot of the sheet under theirs.
pub(super) fn draw_writing(drawing: &mut Drawing, writing: &Writing, title_line_y: f64) {
    let Writing { title, subtitle, footnote } = writing;
    let notes_height = footnote.height();
    let notes_top = drawing.size[1] - BORDER_PX + 6.0 - notes_height;
    drawing.part("chart-writing", |drawing| {
        let top = BORDER_PX - 4.0;
        drawing.column(title, [BORDER_PX, top], INK);
        drawing.column(subtitle, [BORDER_PX, top + title.height() + 1.0], QUIET_INK);
        sheet_line(drawing, title_line_y);
        if notes_height > 0.0 {
            sheet_line(drawing, notes_top - 6.0);
            drawing.column(footnote, [BORDER_PX, notes_top], QUIET_INK);
        }
    });
}

fn draw_borders(drawing: &mut Drawing, layout: &Layout) {
    let plot = &layout.plot;
    let outer_left = plot.left - BORDER_SCALE_PX;
    let outer_bottom = plot.bottom + BORDER_SCALE_PX;
    for (from, to) in dark_stretches(&layout.x.ticks(), layout.x.from, layout.x.to) {
        let strip = Rect {
            left: layout.on_sheet((from, layout.y.from))[0],
            right: layout.on_sheet((to, layout.y.from))[0],
            top: plot.bottom,
            bottom: outer_bottom,
        };
        drawing.shape(&strip.corners(), None, Some(INK));
    }
    for (from, to) in dark_stretches(&layout.y.ticks(), layout.y.from, layout.y.to) {
        let strip = Rect {
            left: outer_left,
            right: plot.left,
            top: layout.on_sheet((layout.x.from, to))[1],
            bottom: layout.on_sheet((layout.x.from, from))[1],
        };
        drawing.shape(&strip.corners(), None, Some(INK));
    }
    let outer: [Point; 5] = [
        [plot.left, plot.top],
        [outer_left, plot.top],
        [outer_left, outer_bottom],
        [plot.right, outer_bottom],
        [plot.right, plot.bottom],
    ];
    drawing.open(&outer, FRAME);
}

/// Every second stretch between ticks, the ends of the axis included.
fn dark_stretches(ticks: &[f64], from: f64, to: f64) -> Vec<(f64, f64)> {
    let inner = ticks.iter().copied().filter(|t| *t > from && *t < to);
    let mut stops = vec![from];
    stops.extend(inner);
    stops.push(to);
    stops.windows(2).map(|pair| (pair[0], pair[1])).step_by(2).collect()
}

fn draw_small_ticks(drawing: &mut Drawing, layout: &Layout) {
    let plot = &layout.plot;
    for x in x_places(layout, &layout.x.small_ticks()) {
        drawing.line([x, plot.bottom], [x, plot.bottom - 4.0], THIN);
    }
    for y in y_places(layout, &layout.y.small_ticks()) {
        drawing.line([plot.left, y], [plot.left + 4.0, y], THIN);
    }
}

fn draw_numbers(drawing: &mut Drawing, layout: &Layout) {
    let plot = &layout.plot;
    let row = plot.bottom + TICK_ROOM_PX + NUMBER_PX / 2.0;
    for (tick, x) in layout.x.ticks().iter().zip(x_places(layout, &layout.x.ticks())) {
        drawing.text([x, row], NUMBER_PX, Anchor::Middle, &layout.x.number(*tick));
    }
    let column = plot.left - TICK_ROOM_PX + 1.0;
    for (tick, y) in layout.y.ticks().iter().zip(y_places(layout, &layout.y.ticks())) {
        drawing.text([column, y], NUMBER_PX, Anchor::End, &layout.y.number(*tick));
    }
}

fn x_places(layout: &Layout, ticks: &[f64]) -> Vec<f64> {
    let place = |tick: &f64| layout.on_sheet((*tick, layout.y.from))[0];
    ticks.iter().map(place).collect()
}

fn y_places(layout: &Layout, ticks: &[f64]) -> Vec<f64> {
    let place = |tick: &f64| layout.on_sheet((layout.x.from, *tick))[1];
    ticks.iter().map(place).collect()
}

fn sheet_line(drawing: &mut Drawing, y: f64) {
    drawing.line([BORDER_PX, y], [SHEET_WIDTH_PX - BORDER_PX, y], THIN);
}
