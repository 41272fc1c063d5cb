//! Border, title block and legend.

use super::Region;
use crate::chart::text_width;
use crate::mark::ink::{Anchor, Fill, Pen, Sheet, wrapped};
use crate::mark::paper::Paper;
use crate::mark::place::{Placement, deadrise_deg};
use crate::mark::say::Say;
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
    border: Region,
    pub transom: Region,
    pub detail: Region,
    pub side: Region,
    legend: Region,
    title: Region,
}

impl Parts {
    pub fn of(width_mm: f64, height_mm: f64) -> Self {
        let border = Region {
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
            transom: Region { bottom: lower, ..border },
            detail: Region { top: lower, right: across, bottom: legend_top, ..border },
            side: Region { left: across, top: lower, bottom: title_top, ..border },
            legend: Region { top: legend_top, right: across, ..border },
            title: Region { left: across, top: title_top, ..border },
        }
    }
}

pub(super) fn draw(
    sheet: &mut Sheet,
    placement: &Placement,
    say: Say,
    parts: &Parts,
    scale: f64,
    paper: Paper,
) {
    for part in [parts.transom, parts.detail, parts.side, parts.legend, parts.title] {
        sheet.rectangle([part.left, part.top], [part.right, part.bottom], Some(Pen::FINE), None);
    }
    let border = parts.border;
    let (from, to) = ([border.left, border.top], [border.right, border.bottom]);
    sheet.rectangle(from, to, Some(Pen::OUTLINE), None);
    title_block(sheet, placement, say, parts.title, scale, paper);
    legend(sheet, parts.legend);
}

fn title_block(
    sheet: &mut Sheet,
    placement: &Placement,
    say: Say,
    region: Region,
    scale: f64,
    paper: Paper,
) {
    let (left, wide) = (region.left + 2.5, region.size()[0] - 5.0);
    let size = (3.6 * wide / text_width(&placement.boat, 3.6)).min(3.6);
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
        y = sheet.lines([left, y], SMALL_MM, &wrapped(&line, SMALL_MM, wide)) + 0.25;
    }
}

fn legend(sheet: &mut Sheet, region: Region) {
    let y = 0.5 * (region.top + region.bottom);
    let mut x = region.left + 3.0;
    let mut entry = |sheet: &mut Sheet, wide: f64, draw: &dyn Fn(&mut Sheet, f64), text: &str| {
        draw(sheet, x);
        sheet.text([x + wide + 1.2, y], SMALL_MM, Anchor::Start, text);
        x += wide + 1.2 + text_width(text, SMALL_MM) + 4.0;
    };
    entry(sheet, 3.0, &|s, x| s.cross([x + 1.5, y], 1.5, Pen::FINE), "pilot or bolt hole");
    entry(
        sheet,
        4.0,
        &|s, x| {
            s.circle([x + 2.0, y], 2.0, Some(Pen::FINE), None);
            s.circle([x + 2.0, y], 0.9, Some(Pen::MEDIUM), None);
        },
        "through-hole in counterbore",
    );
    entry(
        sheet,
        7.0,
        &|s, x| s.rectangle([x, y - 1.2], [x + 7.0, y + 1.2], Some(Pen::MEDIUM), Some(Fill::TINT)),
        "hinge leaf",
    );
    entry(sheet, 9.0, &|s, x| s.line([x, y], [x + 9.0, y], Pen::OUTLINE), "hinge line, hull");
    entry(sheet, 11.0, &|s, x| s.line([x, y], [x + 11.0, y], Pen::CENTRE), "centreline");
    entry(
        sheet,
        7.0,
        &|s, x| {
            s.rectangle([x, y - 1.6], [x + 7.0, y + 1.6], Some(Pen::FINE), None);
            for i in 0..4 {
                let at = x + 1.6 * f64::from(i);
                s.line([at, y + 1.6], [at + 2.2, y - 1.6], Pen::HATCH);
            }
        },
        "in the way",
    );
}
