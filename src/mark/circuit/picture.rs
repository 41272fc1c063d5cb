//! The circuit as a drawing: boxes in the order in which the current or the oil passes them.

use super::Circuit;
use super::words::{feed_fuse_text, hole_text, own_fuse_text, tube_text};
use crate::drawing::{Anchor, Drawing, PAPER, Point};
use crate::mark::pen;
use crate::mark::placement::Placement;
use crate::mark::say::Say;
use crate::mark::style::{FORM, HEAD, TINT};

const SIZE_MM: Point = [190.0, 78.0];
const LETTER_MM: f64 = 2.6;
const SMALL_MM: f64 = 2.2;
const LINE_MM: f64 = 3.4;
/// Where the transom stands.
const TRANSOM_MM: f64 = 140.0;
/// Heights of the port and the starboard line.
const PORT_MM: f64 = 26.0;
const STARBOARD_MM: f64 = 52.0;
/// Half of what stands between a conductor and its return.
const APART_MM: f64 = 1.4;

/// A box with a few words.
struct Item {
    middle: Point,
    size: Point,
    words: &'static [&'static str],
}

/// Draws one circuit.
pub(in crate::mark) fn drawing(placement: &Placement, circuit: Circuit, say: Say) -> Drawing {
    let title = match circuit {
        Circuit::Electric => "WIRING, ELECTRIC ACTUATORS",
        Circuit::Hydraulic => "WIRING AND HOSES, HYDRAULIC CYLINDERS",
    };
    let mut sheet = Drawing::new(SIZE_MM, title, FORM);
    sheet.rectangle([0.5, 0.5], [SIZE_MM[0] - 0.5, SIZE_MM[1] - 0.5], Some(pen::FINE), None);
    sheet.text([4.0, 5.0], 3.2, Anchor::Start, title);
    transom(&mut sheet, placement, say);
    feed(&mut sheet, placement, circuit);
    match circuit {
        Circuit::Electric => electric(&mut sheet, placement),
        Circuit::Hydraulic => hydraulic(&mut sheet, placement, say),
    }
    let note = "A diagram, not to scale. Numbers in the table and the points below it; what the makers of \
                the parts and the local code ask comes first.";
    sheet.print([4.0, SIZE_MM[1] - 4.0], SMALL_MM, SIZE_MM[0] - 8.0, note);
    sheet
}

fn item(sheet: &mut Drawing, item: &Item) {
    let [x, y] = item.middle;
    let half = [0.5 * item.size[0], 0.5 * item.size[1]];
    let (from, to) = ([x - half[0], y - half[1]], [x + half[0], y + half[1]]);
    sheet.rectangle(from, to, Some(pen::MEDIUM), Some(PAPER));
    let first = y - 0.5 * LINE_MM * (item.words.len() as f64 - 1.0);
    for (line, words) in item.words.iter().enumerate() {
        sheet.text([x, first + LINE_MM * line as f64], LETTER_MM, Anchor::Middle, words);
    }
}

fn transom(sheet: &mut Drawing, placement: &Placement, say: Say) {
    let (left, right) = ([TRANSOM_MM - 2.0, 12.0], [TRANSOM_MM + 2.0, 66.0]);
    sheet.rectangle(left, right, Some(pen::MEDIUM), Some(TINT));
    sheet.text([TRANSOM_MM, 9.5], SMALL_MM, Anchor::Middle, "transom");
    sheet.text([TRANSOM_MM - 30.0, 9.5], SMALL_MM, Anchor::Middle, "inside");
    sheet.text(
        [TRANSOM_MM + 30.0, 9.5],
        SMALL_MM,
        Anchor::Middle,
        "outside, under way in the water",
    );
    let hole = hole_text(placement, say);
    for y in [PORT_MM, STARBOARD_MM] {
        for (line, words) in hole.split(", ").enumerate() {
            let at = [TRANSOM_MM + 3.5, y + 3.4 + LINE_MM * line as f64];
            sheet.text(at, SMALL_MM, Anchor::Start, words);
        }
    }
}

/// Battery, fuse, switch and the return.
fn feed(sheet: &mut Drawing, placement: &Placement, circuit: Circuit) {
    let y = 0.5 * (PORT_MM + STARBOARD_MM);
    let (plus, minus) = (y - 3.0, y + 4.0);
    sheet.line([16.0, plus], [68.0, plus], pen::MEDIUM);
    sheet.line([16.0, minus], [68.0, minus], pen::MEDIUM);
    item(
        sheet,
        &Item {
            middle: [14.0, y],
            size: [20.0, 14.0],
            words: &["battery", "switch off", "to work"],
        },
    );
    item(sheet, &Item { middle: [40.0, plus], size: [14.0, 6.0], words: &["fuse"] });
    let words: &[&str] = &["switch at the helm", "port | starboard", "with indicator"];
    item(sheet, &Item { middle: [72.0, y], size: [32.0, 14.0], words });
    let fuse = feed_fuse_text(placement, circuit);
    sheet.text([40.0, plus - 8.0], SMALL_MM, Anchor::Middle, &fuse);
    sheet.text([40.0, plus - 4.8], SMALL_MM, Anchor::Middle, "close to the battery");
    sheet.text([26.0, plus - 1.6], SMALL_MM, Anchor::Middle, "+");
    sheet.text([26.0, minus - 1.6], SMALL_MM, Anchor::Middle, "-");
    sheet.text([40.0, minus + 2.4], SMALL_MM, Anchor::Middle, "return, as thick as the feed");
}

fn electric(sheet: &mut Drawing, placement: &Placement) {
    let y = 0.5 * (PORT_MM + STARBOARD_MM);
    for (at, words) in [
        (PORT_MM, &["actuator", "PORT"] as &'static [&'static str]),
        (STARBOARD_MM, &["actuator", "STARBOARD"]),
    ] {
        let start = y + 0.25 * (at - y);
        // The conductor that turns first lies outside of the bend.
        let turn = if at < y { 1.0 } else { -1.0 };
        for apart in [-APART_MM, APART_MM] {
            let (out, along) = (100.0 + turn * apart, at + apart);
            let way = [[88.0, start + apart], [out, start + apart], [out, along], [164.0, along]];
            sheet.open(&way, pen::MEDIUM);
        }
        sheet.text([120.0, at - 8.0], SMALL_MM, Anchor::Middle, "cable by length, drip loop,");
        sheet.text([120.0, at - 4.8], SMALL_MM, Anchor::Middle, "2 cores and the indicator's");
        item(sheet, &Item { middle: [112.0, at - APART_MM], size: [12.0, 4.0], words: &["fuse"] });
        sheet.text([112.0, at + 4.8], SMALL_MM, Anchor::Middle, &own_fuse_text(placement));
        item(sheet, &Item { middle: [174.0, at], size: [24.0, 10.0], words });
    }
}

fn hydraulic(sheet: &mut Drawing, placement: &Placement, say: Say) {
    let y = 0.5 * (PORT_MM + STARBOARD_MM);
    sheet.line([88.0, y], [98.0, y], pen::MEDIUM);
    let tube = tube_text(placement, say);
    for (at, words) in [
        (PORT_MM, &["cylinder", "PORT"] as &'static [&'static str]),
        (STARBOARD_MM, &["cylinder", "STARBOARD"]),
    ] {
        sheet.open(&[[107.0, y], [107.0, at], [162.0, at]], pen::OUTLINE);
        HEAD.arrow(sheet, [154.0, at], [161.0, at], pen::MEDIUM);
        sheet.text([122.0, at - 2.4], SMALL_MM, Anchor::Middle, &tube);
        item(sheet, &Item { middle: [174.0, at], size: [24.0, 10.0], words });
    }
    let words: &[&str] = &["pump", "oil, locks"];
    item(sheet, &Item { middle: [107.0, y], size: [20.0, 12.0], words });
}
