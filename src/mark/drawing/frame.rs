//! Border, title block and legend.

use crate::drawing::geometry::Lean;
use crate::drawing::{Anchor, Drawing, Rect, width};
use crate::mark::face::deadrise_text;
use crate::mark::paper::Paper;
use crate::mark::pen;
use crate::mark::placement::Placement;
use crate::mark::say::{Say, SheetUnits};
use crate::mark::style::{HATCH_MM, TINT};
use crate::units::number_with_decimals;

const BORDER_MM: f64 = 8.0;
const LOWER_MM: f64 = 90.0;
const TITLE_WIDE_MM: f64 = 104.0;
/// Least height of the title block; more lines make it higher.
const TITLE_HIGH_MM: f64 = 31.0;
/// From the top of the title block to the middle of its first small line.
const TITLE_HEAD_MM: f64 = 8.6;
/// Between the text of the title block and its sides.
const TITLE_SIDE_MM: f64 = 2.5;
/// Between one entry of the title block and the next, beyond the pitch of its lines.
const ENTRY_GAP_MM: f64 = 0.25;
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

    /// The same with a title block that has room for those entries.
    pub fn with_room_for(self, entries: &[String]) -> Self {
        let wide = self.title.width() - 2.0 * TITLE_SIDE_MM;
        let high = |entry: &String| Drawing::printed_height(SMALL_MM, wide, entry) + ENTRY_GAP_MM;
        // As far below the middle of the last line as the next line would stand.
        let needed = TITLE_HEAD_MM + entries.iter().map(high).sum::<f64>() - ENTRY_GAP_MM;
        let top = self.border.bottom - needed.max(TITLE_HIGH_MM);
        Self { side: Rect { bottom: top, ..self.side }, title: Rect { top, ..self.title }, ..self }
    }
}

pub(super) fn draw(sheet: &mut Drawing, placement: &Placement, parts: &Parts, entries: &[String]) {
    for part in [parts.transom, parts.detail, parts.side, parts.legend, parts.title] {
        sheet.shape(&part.corners(), Some(pen::FINE), None);
    }
    sheet.shape(&parts.border.corners(), Some(pen::OUTLINE), None);
    title_block(sheet, placement, parts.title, entries);
    legend(sheet, parts.legend);
}

fn title_block(sheet: &mut Drawing, placement: &Placement, region: Rect, entries: &[String]) {
    let (left, wide) = (region.left + TITLE_SIDE_MM, region.width() - 2.0 * TITLE_SIDE_MM);
    let size = (3.6 * wide / width(&placement.boat, 3.6)).min(3.6);
    sheet.text([left, region.top + 4.0], size, Anchor::Start, &placement.boat);
    let mut y = region.top + TITLE_HEAD_MM;
    for entry in entries {
        y = sheet.print([left, y], SMALL_MM, wide, entry) + ENTRY_GAP_MM;
    }
}

/// What the title block says below the name of the boat; the scale is that of the view from aft.
pub(super) fn entries(placement: &Placement, say: Say, scale: f64, paper: Paper) -> Vec<String> {
    let part = placement.hardware.part.as_deref().unwrap_or("no part chosen");
    let version = env!("CARGO_PKG_VERSION");
    let checksum =
        placement.checksum.as_ref().map_or_else(String::new, |sum| format!(" · input {sum}"));
    let lines = [
        format!(
            "For {}: span {}, chord {}; {part}",
            placement.source_words(),
            say.length(placement.pair.span),
            say.length(placement.pair.chord)
        ),
        format!(
            "Deadrise at the transom {} · lengths in {}",
            deadrise_text(&placement.transom),
            match say.0 {
                SheetUnits::Both => "millimetres | inches",
                SheetUnits::Millimetres | SheetUnits::Inches => say.unit_words(),
            }
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
    placement.warnings(say.0).into_iter().chain(lines).collect()
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
            s.circle([x + 2.0, y], 1.4, Some(pen::MEDIUM), None);
        },
        "lead-through",
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
