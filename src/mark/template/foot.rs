//! The strip below the picture on every page: scale lines, directions, join map, words.

use super::Set;
use crate::boat::TransomForm;
use crate::boat::transom::Side;
use crate::drawing::geometry::middle;
use crate::drawing::{Anchor, Drawing, PAPER, Point, width};
use crate::mark::face::slope;
use crate::mark::pen;
use crate::mark::placement::Placement;
use crate::mark::say::Say;
use crate::mark::style::{HEAD, TINT};
use crate::mark::tiles::Tiles;

const SMALL_MM: f64 = 2.1;
/// Length of the metric scale line.
pub(in crate::mark) const METRIC_LINE_MM: f64 = 100.0;
/// Length of the inch scale line: 4 in.
pub(in crate::mark) const INCH_LINE_MM: f64 = 4.0 * 25.4;
const TICK_MM: f64 = 1.5;
const ARROW_MM: f64 = 11.0;
/// Room beside the words for directions and join map.
const BESIDE_WORDS_MM: f64 = 78.0;
/// The word at the arrow that points outboard, which points to the words on port.
const OUTBOARD_MM: f64 = 8.0;

pub(super) fn draw(
    sheet: &mut Drawing,
    placement: &Placement,
    say: Say,
    set: &Set,
    (row, column): (usize, usize),
    [left, top]: Point,
) {
    let (tiles, side) = (&set.tiles, set.picture.side);
    let right = tiles.page_mm[0] - left;
    let wide = right - left - BESIDE_WORDS_MM - OUTBOARD_MM;
    scale_line(sheet, [left, top + 5.5], METRIC_LINE_MM, 10, "100 mm");
    scale_line(sheet, [left, top + 11.5], INCH_LINE_MM, 4, "4 in");
    let mut y = top + 15.5;
    for text in texts(placement, say, set) {
        y = sheet.print([left, y], SMALL_MM, wide, &text);
    }
    directions(sheet, placement, side, [left + wide + OUTBOARD_MM + 14.0, top + 17.5]);
    let name = Tiles::name(row, column);
    sheet.text([right, top + 7.0], 8.0, Anchor::End, &name);
    let side = if side == Side::Port { "PORT" } else { "STARBOARD" };
    sheet.text([right, top + 13.5], 2.8, Anchor::End, side);
    join_map(sheet, set, (row, column), [right, top + 17.0]);
}

/// A line of an exact length with ticks, its name at its end.
fn scale_line(sheet: &mut Drawing, from: Point, long_mm: f64, parts: usize, name: &str) {
    let [x, y] = from;
    sheet.line(from, [x + long_mm, y], pen::MEDIUM);
    for part in 0..=parts {
        let at = x + long_mm * part as f64 / parts as f64;
        let tall = if part == 0 || part == parts { TICK_MM } else { 0.5 * TICK_MM };
        sheet.line([at, y - tall], [at, y + tall], pen::FINE);
    }
    let middle = x + 0.5 * long_mm;
    sheet.text_on_ground([middle, y], 2.6, Anchor::Middle, 0.0, name);
}

fn texts(placement: &Placement, say: Say, set: &Set) -> [String; 3] {
    let frame = set.tiles.on_page();
    let join = if set.pages.len() > 1 {
        "Cut at the dashed lines at right and below and lay over the next page, diamond on diamond (no \
         holes). "
    } else {
        ""
    };
    let lines = placement.warnings(say.0);
    let mut warning: String = lines.iter().map(|line| format!("{line}. ")).collect();
    if !warning.is_empty() {
        warning.push_str("READ THE SHEET FIRST. ");
    }
    [
        format!(
            "{warning}Print at 100 %, do not fit to page. Both lines above must measure true, and the frame \
             {:.0} by {:.0} mm; if they do not, throw the page away.",
            frame.width(),
            frame.height()
        ),
        format!(
            "{join}Lay it on the transom by bottom edge and {}, check it against the \
             marking-out sheet, then prick through.",
            match placement.transom.form {
                TransomForm::Stepped | TransomForm::Pod => "corner of the chine",
                TransomForm::Plain | TransomForm::Notched => "centreline",
            }
        ),
        format!(
            "{}. Planes {} by {}, seen from aft; the other side is the mirror image. \
             Planewright {}{}",
            placement.boat,
            say.length(placement.pair.span),
            say.length(placement.pair.chord),
            env!("CARGO_PKG_VERSION"),
            placement.checksum.as_ref().map_or_else(String::new, |sum| format!(", input {sum}"))
        ),
    ]
}

/// Arrows that say which way is outboard along the edge, level, and plumb up.
fn directions(sheet: &mut Drawing, placement: &Placement, side: Side, at: Point) {
    let outward = if side == Side::Port { -1.0 } else { 1.0 };
    let (sin, cos) = slope(&placement.transom);
    let from = [at[0] - outward * 5.0, at[1] + 5.0];
    let tip = |right: f64, up: f64| [from[0] + ARROW_MM * outward * right, from[1] - ARROW_MM * up];
    let anchor = if outward > 0.0 { Anchor::Start } else { Anchor::End };
    HEAD.arrow(sheet, from, tip(1.0, 0.0), pen::MEDIUM);
    let outboard = tip(1.0, 0.0);
    sheet.text([outboard[0] + outward, outboard[1] - 0.6], SMALL_MM, anchor, "outboard");
    HEAD.arrow(sheet, from, tip(cos, -sin), pen::FINE);
    let level = tip(cos, -sin);
    sheet.text([level[0] + outward, level[1] + 1.8], SMALL_MM, anchor, "level");
    HEAD.arrow(sheet, from, tip(sin, cos), pen::MEDIUM);
    let up = tip(sin, cos);
    sheet.text([up[0], up[1] - 2.0], SMALL_MM, Anchor::Middle, "plumb up");
}

/// Small plan of all pages with this one dark; blank ones, which are not printed, are struck out.
/// Its upper right corner is given.
fn join_map(sheet: &mut Drawing, set: &Set, here: (usize, usize), [right, top]: Point) {
    let tiles = &set.tiles;
    let (room_wide, room_high) = (34.0, 15.0);
    let cell = (room_wide / tiles.columns as f64).min(room_high / tiles.rows as f64).min(7.0);
    let left = right - cell * tiles.columns as f64;
    for row in 0..tiles.rows {
        for column in 0..tiles.columns {
            let from = [left + cell * column as f64, top + cell * row as f64];
            let to = [from[0] + cell, from[1] + cell];
            let fill = if (row, column) == here { TINT } else { PAPER };
            sheet.rectangle(from, to, Some(pen::FINE), Some(fill));
            if !set.pages.contains(&(row, column)) {
                sheet.line([from[0], to[1]], [to[0], from[1]], pen::HATCH);
                continue;
            }
            let name = Tiles::name(row, column);
            let size = SMALL_MM.min(0.8 * cell * SMALL_MM / width(&name, SMALL_MM));
            sheet.text(middle(from, to), size, Anchor::Middle, &name);
        }
    }
}
