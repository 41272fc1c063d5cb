//! Border, title block and legend.

use crate::drawing::geometry::Lean;
use crate::drawing::{Anchor, Drawing, Rect, width};
use crate::mark::face::deadrise_deg;
use crate::mark::paper::Paper;
use crate::mark::pen;
use crate::mark::placement::Placement;
use crate::mark::say::Say;
use crate::mark::style::{HATCH_MM, TINT};
use crate::units::number_with_decimals;

const BORDER_MM: f64 = 8.0;
const LOWER_MM: f64 = 90.0;
const TITLE_WIDE_MM: f64 = 104.0;
const TITLE_HIGH_MM: f64 = 31.0;
const LEGEND_HIGH_MM: f64 = 9.0;
const SMALL_MM: f64 = 2.1;

/// How the sheet is shared out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Parts {
    border: Rect,
    pub transom: Rect,
    pub detail: Rect,
    pub side: Rect,
    legend: Rect,
    title: Rect,
}

impl Parts {
    pub fn of(width_mm: f64, height_mm: f64) -> Self {
        let border = Rect {
            left: BORDER_MM,
            top: BORDER_MM,
            right: width_mm - BORDER_MM,
            bottom: height_mm - BORDER_MM,
        };
        let (lower, across) = (border.bottom - LOWER_MM, border.right - TITLE_WIDE_MM);
        let title_top = border.bottom - TITLE_HIGH_MM;
        let legend_top = border.bottom - LEGEND_HIGH_MM;
        Self {
            border,
            transom: Rect { bottom: lower, ..border },
            detail: Rect { top: lower, right: across, bottom: legend_top, ..border },
            side: Rect { left: across, top: lower, bottom: title_top, ..border },
            legend: Rect { top: legend_top, right: across, ..border },
            title: Rect { left: across, top: title_top, ..border },
        }
    }
}

pub(super) fn draw(
    sheet: &mut Drawing,
    placement: &Placement,
    say: Say,
    parts: &Parts,
    scale: f64,
    paper: Paper,
) {
    for part in [parts.transom, parts.detail, parts.side, parts.legend, parts.title] {
        sheet.shape(&part.corners(), Some(pen::FINE), None);
    }
    sheet.shape(&parts.border.corners(), Some(pen::OUTLINE), None);
    title_block(sheet, placement, say, parts.title, scale, paper);
    legend(sheet, parts.legend);
}

fn title_block(
    sheet: &mut Drawing,
    placement: &Placement,
    say: Say,
    region: Rect,
    scale: f64,
    paper: Paper,
) {
    let (left, wide) = (region.left + 2.5, region.width() - 5.0);
    let size = (3.6 * wide / width(&placement.boat, 3.6)).min(3.6);
    sheet.text([left, region.top + 4.0], size, Anchor::Start, &placement.boat);
    let part = placement.hardware.part.as_deref().unwrap_or("no part chosen");
    let version = env!("CARGO_PKG_VERSION");
    let checksum =
        placement.checksum.as_ref().map_or_else(String::new, |sum| format!(" · input {sum}"));
    let lines = [
        placement.warning().map(str::to_owned).unwrap_or_default(),
        format!(
            "Pair of trim planes, span {}, chord {}: {part}",
            say.length(placement.pair.span),
            say.length(placement.pair.chord)
        ),
        format!(
            "Deadrise {} deg at the transom · lengths in {}",
            number_with_decimals(deadrise_deg(&placement.transom), 1),
            say.unit_words()
        ),
        format!(
            "View from aft 1 : {} on {} printed at 100 %. The written figures hold: do not measure \
             off this sheet",
            number_with_decimals(scale, 1).trim_end_matches(".0"),
            paper.name()
        ),
        "Do not drill from this sheet alone: read the marking-out sheet, look behind the transom, \
         measure twice"
            .to_owned(),
        format!("Planewright {version}{checksum}"),
    ];
    let mut y = region.top + 8.6;
    for line in lines.into_iter().filter(|line| !line.is_empty()) {
        y = sheet.print([left, y], SMALL_MM, wide, &line) + 0.25;
    }
}

fn legend(sheet: &mut Drawing, region: Rect) {
    let y = 0.5 * (region.top + region.bottom);
    let mut x = region.left + 3.0;
    let mut entry =
        |sheet: &mut Drawing, wide: f64, draw: &dyn Fn(&mut Drawing, f64), text: &str| {
            draw(sheet, x);
            sheet.text([x + wide + 1.2, y], SMALL_MM, Anchor::Start, text);
            x += wide + 1.2 + width(text, SMALL_MM) + 4.0;
        };
    entry(sheet, 3.0, &|s, x| s.cross([x + 1.5, y], 1.5, pen::FINE), "pilot or bolt hole");
    entry(
        sheet,
        4.0,
        &|s, x| {
            s.circle([x + 2.0, y], 2.0, Some(pen::FINE), None);
            s.circle([x + 2.0, y], 0.9, Some(pen::MEDIUM), None);
        },
        "through-hole in counterbore",
    );
    entry(
        sheet,
        7.0,
        &|s, x| s.rectangle([x, y - 1.2], [x + 7.0, y + 1.2], Some(pen::MEDIUM), Some(TINT)),
        "hinge leaf",
    );
    entry(sheet, 9.0, &|s, x| s.line([x, y], [x + 9.0, y], pen::OUTLINE), "hinge line, hull");
    entry(sheet, 11.0, &|s, x| s.line([x, y], [x + 11.0, y], pen::CENTRE), "centreline");
    entry(
        sheet,
        7.0,
        &|s, x| {
            let sample = Rect::around([x + 3.5, y], 7.0, 3.2).corners();
            s.shape(&sample, Some(pen::FINE), None);
            s.hatch(&sample, HATCH_MM, Lean::Forward, &pen::HATCH);
        },
        "in the way",
    );
}
