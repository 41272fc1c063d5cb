//! Title block, grid, scales along the frame, and notes.
//!
//! The two scales are ruled like the border of a sea chart: light and dark by
//! turns from one numbered tick to the next.

use super::canvas::{Anchor, Canvas, Pen, Stroke};
use super::error::ChartError;
use super::font::TextBlock;
use super::geometry::{Point, Rect};
use super::layout::{BORDER_PX, Layout, NUMBER_PX, SHEET_WIDTH_PX, TICK_ROOM_PX};
use super::style::{Colour, GRID, INK, PAPER, QUIET_INK};

/// Thickness of the ruled border.
const BORDER_SCALE_PX: f64 = 4.0;
const FRAME: Stroke = Stroke {
    colour: INK,
    width_px: 0.75,
};

/// The bare sheet.
pub(super) fn draw_paper(canvas: &mut Canvas, layout: &Layout) -> Result<(), ChartError> {
    let sheet = Rect {
        left: 0.0,
        top: 0.0,
        right: SHEET_WIDTH_PX,
        bottom: layout.height_px,
    };
    canvas.group("paper", &[], |pen| pen.polygon(&sheet.corners(), PAPER))
}

/// Thin lines at the numbered ticks.
pub(super) fn draw_grid(canvas: &mut Canvas, layout: &Layout) -> Result<(), ChartError> {
    let thin = Stroke {
        colour: GRID,
        width_px: 0.75,
    };
    canvas.group("grid", &[], |pen| {
        for x in x_places(layout, &layout.x.ticks()) {
            pen.line(&[(x, layout.plot.top), (x, layout.plot.bottom)], thin)?;
        }
        for y in y_places(layout, &layout.y.ticks()) {
            pen.line(&[(layout.plot.left, y), (layout.plot.right, y)], thin)?;
        }
        Ok(())
    })
}

/// The frame with its ruled borders, ticks, numbers and axis labels.
pub(super) fn draw_frame(canvas: &mut Canvas, layout: &Layout) -> Result<(), ChartError> {
    canvas.group("frame", &[], |pen| {
        draw_borders(pen, layout)?;
        draw_small_ticks(pen, layout)?;
        let [a, b, c, d] = layout.plot.corners();
        pen.line(&[a, b, c, d, a], FRAME)
    })?;
    canvas.group("axes", &[], |pen| {
        draw_numbers(pen, layout)?;
        let plot = &layout.plot;
        let below = TICK_ROOM_PX + 2.0 + NUMBER_PX * 1.25;
        let x_middle = (plot.left + plot.right) / 2.0;
        let x_label_y = plot.bottom + below + layout.x_label.height_px() / 2.0 + 2.0;
        pen.block(&layout.x_label, (x_middle, x_label_y), INK, false)?;
        let y_label_top = plot.top - layout.y_label.height_px() - 9.0;
        lines_from_left(pen, &layout.y_label, y_label_top, INK)
    })
}

/// The title block above and the notes below, each with its thin line.
pub(super) fn draw_writing(canvas: &mut Canvas, layout: &Layout) -> Result<(), ChartError> {
    canvas.group("writing", &[], |pen| {
        let top = BORDER_PX - 4.0;
        lines_from_left(pen, &layout.title, top, INK)?;
        let below_title = top + layout.title.height_px() + 1.0;
        lines_from_left(pen, &layout.subtitle, below_title, QUIET_INK)?;
        sheet_line(pen, layout.title_line_y())?;
        let notes_height = layout.footnote.height_px();
        if notes_height > 0.0 {
            let notes_top = layout.height_px - BORDER_PX + 6.0 - notes_height;
            sheet_line(pen, notes_top - 6.0)?;
            lines_from_left(pen, &layout.footnote, notes_top, QUIET_INK)?;
        }
        Ok(())
    })
}

fn draw_borders(pen: &Pen, layout: &Layout) -> Result<(), ChartError> {
    let plot = &layout.plot;
    let outer_left = plot.left - BORDER_SCALE_PX;
    let outer_bottom = plot.bottom + BORDER_SCALE_PX;
    for (from, to) in dark_stretches(&layout.x.ticks(), layout.x.from, layout.x.to) {
        let strip = Rect {
            left: layout.on_sheet((from, layout.y.from)).0,
            right: layout.on_sheet((to, layout.y.from)).0,
            top: plot.bottom,
            bottom: outer_bottom,
        };
        pen.polygon(&strip.corners(), INK)?;
    }
    for (from, to) in dark_stretches(&layout.y.ticks(), layout.y.from, layout.y.to) {
        let strip = Rect {
            left: outer_left,
            right: plot.left,
            top: layout.on_sheet((layout.x.from, to)).1,
            bottom: layout.on_sheet((layout.x.from, from)).1,
        };
        pen.polygon(&strip.corners(), INK)?;
    }
    let outer: [Point; 5] = [
        (plot.left, plot.top),
        (outer_left, plot.top),
        (outer_left, outer_bottom),
        (plot.right, outer_bottom),
        (plot.right, plot.bottom),
    ];
    pen.line(&outer, FRAME)
}

/// Every second stretch between ticks, the ends of the axis included.
fn dark_stretches(ticks: &[f64], from: f64, to: f64) -> Vec<(f64, f64)> {
    let inner = ticks.iter().copied().filter(|t| *t > from && *t < to);
    let mut stops = vec![from];
    stops.extend(inner);
    stops.push(to);
    stops
        .windows(2)
        .map(|pair| (pair[0], pair[1]))
        .step_by(2)
        .collect()
}

fn draw_small_ticks(pen: &Pen, layout: &Layout) -> Result<(), ChartError> {
    let plot = &layout.plot;
    let thin = Stroke {
        colour: QUIET_INK,
        width_px: 0.5,
    };
    for x in x_places(layout, &layout.x.small_ticks()) {
        pen.line(&[(x, plot.bottom), (x, plot.bottom - 4.0)], thin)?;
    }
    for y in y_places(layout, &layout.y.small_ticks()) {
        pen.line(&[(plot.left, y), (plot.left + 4.0, y)], thin)?;
    }
    Ok(())
}

fn draw_numbers(pen: &Pen, layout: &Layout) -> Result<(), ChartError> {
    let plot = &layout.plot;
    let row = plot.bottom + TICK_ROOM_PX + NUMBER_PX / 2.0;
    for (tick, x) in layout
        .x
        .ticks()
        .iter()
        .zip(x_places(layout, &layout.x.ticks()))
    {
        let number = layout.x.number(*tick);
        pen.text(&number, (x, row), NUMBER_PX, INK, Anchor::Middle, false)?;
    }
    let column = plot.left - TICK_ROOM_PX + 1.0;
    for (tick, y) in layout
        .y
        .ticks()
        .iter()
        .zip(y_places(layout, &layout.y.ticks()))
    {
        let number = layout.y.number(*tick);
        pen.text(&number, (column, y), NUMBER_PX, INK, Anchor::End, false)?;
    }
    Ok(())
}

fn x_places(layout: &Layout, ticks: &[f64]) -> Vec<f64> {
    let place = |tick: &f64| layout.on_sheet((*tick, layout.y.from)).0;
    ticks.iter().map(place).collect()
}

fn y_places(layout: &Layout, ticks: &[f64]) -> Vec<f64> {
    let place = |tick: &f64| layout.on_sheet((layout.x.from, *tick)).1;
    ticks.iter().map(place).collect()
}

fn sheet_line(pen: &Pen, y: f64) -> Result<(), ChartError> {
    let thin = Stroke {
        colour: QUIET_INK,
        width_px: 0.5,
    };
    pen.line(&[(BORDER_PX, y), (SHEET_WIDTH_PX - BORDER_PX, y)], thin)
}

/// Lines of text from the left border downwards.
fn lines_from_left(
    pen: &Pen,
    block: &TextBlock,
    top: f64,
    colour: Colour,
) -> Result<(), ChartError> {
    for (i, line) in block.lines.iter().enumerate() {
        let y = top + (i as f64 + 0.5) * block.pitch_px();
        pen.text(
            line,
            (BORDER_PX, y),
            block.size_px,
            colour,
            Anchor::Start,
            false,
        )?;
    }
    Ok(())
}
