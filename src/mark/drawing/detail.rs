//! One plane's holes seen square on: running dimensions from the inner edge and the bottom edge.

use uom::si::f64::Length;

use crate::drawing::{Anchor, Drawing, Rect, View, width};
use crate::mark::face::metres;
use crate::mark::holes::HoleKind;
use crate::mark::pen;
use crate::mark::placement::Placement;
use crate::mark::say::{Next, Say};
use crate::mark::scale::scale_for;
use crate::mark::style::{DIMENSION, TINT};
use crate::units::number_with_decimals;

const SMALL_MM: f64 = 2.2;
/// Circle of a lead-through of which nobody says how wide it is.
const LEAD_MM: f64 = 1.4;
/// Room for titles above, running dimensions below, heights at the right.
const AROUND_MM: (f64, f64, f64, f64) = (12.0, 17.0, 20.0, 17.0);
/// Least distance between two written heights.
const APART_MM: f64 = 2.9;
/// Least distance from one name of a hinge screw to the next that is written.
const LABEL_APART_MM: f64 = 6.0;

pub(super) fn draw(sheet: &mut Drawing, placement: &Placement, say: Say, region: Rect) {
    let (left, above, right, below) = AROUND_MM;
    // Room for the longest figure, whatever the units.
    let longest = width(&say.bare_drawn(placement.outer), SMALL_MM);
    let (right, below) = (right.max(9.0 + longest), below.max(8.0 + longest));
    let [wide, high] = [region.width(), region.height()];
    let (span_m, top_m) = (metres(placement.pair.span), metres(placement.top()));
    let room = [wide - left - right, high - above - below];
    let scale = scale_for([span_m, top_m], room);
    let spare = room[0] - 1e3 * span_m / scale;
    let origin_mm = [region.left + left + 0.5 * spare, region.bottom - below];
    let view = View { origin: origin_mm, per_m: 1e3 / scale };
    let title = format!(
        "HOLES, STARBOARD, SQUARE ON · 1 : {}",
        number_with_decimals(scale, 1).trim_end_matches(".0")
    );
    let at = [region.left + 3.0, region.top + 4.5];
    sheet.text(at, 3.2, Anchor::Start, &title);
    let figures = format!(
        "Figures in {}: below, from the inner edge; at the right, above the bottom edge. Port: \
         mirror image.",
        say.unit_words()
    );
    sheet.text([at[0], at[1] + 4.2], SMALL_MM, Anchor::Start, &drill_words(placement, say));
    sheet.text([at[0], at[1] + 7.6], SMALL_MM, Anchor::Start, &figures);
    hardware(sheet, placement, say, &view);
    holes(sheet, placement, &view);
    running(sheet, placement, say, &view);
    heights(sheet, placement, say, &view);
}

/// `H 4 mm, 30 deep`: every kind of hole with its drill.
fn drill_words(placement: &Placement, say: Say) -> String {
    let lines = placement.drill_table().into_iter().map(|line| {
        let depth = line.depth.map_or_else(
            || "through".to_owned(),
            |depth| format!("{} deep", say.bare_drawn(depth)),
        );
        let next = if line.kind.is_pilot() { Next::Nearest } else { Next::Larger };
        let drill =
            line.drill.map_or_else(|| "as stated".to_owned(), |drill| say.drill(drill, next));
        format!("{}: {drill}, {depth}", line.kind.letter())
    });
    lines.collect::<Vec<_>>().join(" · ")
}

fn hardware(sheet: &mut Drawing, placement: &Placement, say: Say, view: &View) {
    let span_m = metres(placement.pair.span);
    let hinge_m = metres(placement.transom.hinge_height);
    let leaf_m = hinge_m + metres(placement.hardware.hinge_screws.leaf_height);
    let beyond_m = 8.0 / view.per_m;
    sheet.line(view.at([-beyond_m, 0.0]), view.at([span_m + 0.5 * beyond_m, 0.0]), pen::OUTLINE);
    let (low, high) = (view.at([0.0, hinge_m]), view.at([span_m, leaf_m]));
    sheet.rectangle(low, high, Some(pen::MEDIUM), Some(TINT));
    sheet.line(low, view.at([span_m, hinge_m]), pen::OUTLINE);
    let screws = placement.hardware.bracket_screws;
    let half_m = metres(0.5 * screws.across + screws.edge_distance);
    for bracket in &placement.brackets {
        let (middle_m, up_m) = (metres(bracket.along - placement.inner), metres(bracket.up));
        let tall_m = metres(bracket.half_height);
        let low = view.at([middle_m - half_m, up_m - tall_m]);
        let high = view.at([middle_m + half_m, up_m + tall_m]);
        sheet.rectangle(low, high, Some(pen::MEDIUM), None);
        sheet.line(view.at([middle_m, 0.0]), view.at([middle_m, up_m + tall_m]), pen::CENTRE);
        let row_m = up_m + tall_m - metres(screws.edge_distance);
        let column_m = metres(0.5 * screws.across);
        let [left, right] = [-1.0, 1.0].map(|way| view.at([middle_m + way * column_m, row_m]));
        DIMENSION.level(sheet, [left, right], high[1] - 2.5, &say.bare_drawn(screws.across));
    }
}

fn holes(sheet: &mut Drawing, placement: &Placement, view: &View) {
    let leaf = placement.transom.hinge_height + placement.hardware.hinge_screws.leaf_height;
    let leaf = view.at([0.0, metres(leaf)]);
    let mut free_from = f64::NEG_INFINITY;
    for hole in &placement.holes {
        let at = view.at([metres(hole.along - placement.inner), metres(hole.up)]);
        match hole.kind {
            HoleKind::HingePilot | HoleKind::HingeBolt => {
                sheet.cross(at, 1.2, pen::FINE);
                if at[0] >= free_from {
                    let place = [at[0] + 0.3, leaf[1] - 1.6];
                    sheet.text_on_ground(place, 1.9, Anchor::Start, 0.0, &hole.name);
                    free_from = at[0] + LABEL_APART_MM;
                }
            }
            HoleKind::BracketPilot | HoleKind::BracketBolt => {
                sheet.cross(at, 1.2, pen::FINE);
                let outward = placement
                    .brackets
                    .iter()
                    .map(|bracket| metres(hole.along - bracket.along))
                    .min_by(|a, b| a.abs().total_cmp(&b.abs()))
                    .unwrap_or(1.0);
                let (step, anchor) =
                    if outward < 0.0 { (-1.0, Anchor::End) } else { (1.0, Anchor::Start) };
                let beyond = view.length(metres(placement.hardware.bracket_screws.edge_distance));
                let x = at[0] + step * (beyond.max(1.2) + 0.8);
                sheet.text([x, at[1] - 1.4], 1.9, anchor, &hole.name);
            }
            HoleKind::Lead => {
                let radius = hole.drill.map_or(LEAD_MM, |drill| view.length(metres(drill) / 2.0));
                let pen = if hole.drill.is_some() { pen::MEDIUM } else { pen::HIDDEN };
                sheet.circle(at, radius, Some(pen), None);
            }
        }
    }
}

/// Distances from the inner edge, written upright below the bottom edge.
fn running(sheet: &mut Drawing, placement: &Placement, say: Say, view: &View) {
    let zero = Length::default();
    let ends = [zero, placement.pair.span];
    let screws = placement.holes.iter().filter(|hole| hole.kind.is_of_hinge());
    let mut marks: Vec<(Length, Length)> =
        screws.map(|hole| (hole.along - placement.inner, hole.up)).collect();
    marks.extend(placement.brackets.iter().map(|bracket| (bracket.along - placement.inner, zero)));
    marks.extend(ends.map(|end| (end, placement.transom.hinge_height)));
    marks.sort_by(|a, b| metres(a.0).total_cmp(&metres(b.0)));
    marks.dedup_by(|a, b| metres(a.0 - b.0).abs() < 1e-4);
    let wanted: Vec<f64> = marks.iter().map(|mark| view.at([metres(mark.0), 0.0])[0]).collect();
    let places = spread(&wanted, APART_MM);
    for ((along, up), x) in marks.iter().zip(places) {
        let (start, edge) =
            (view.at([metres(*along), metres(*up)]), view.at([metres(*along), 0.0]));
        let (knee, foot) = ([edge[0], edge[1] + 1.5], [x, edge[1] + 3.5]);
        sheet.open(&[start, knee, foot], pen::FINE);
        let at = [x, foot[1] + 0.8];
        sheet.turned_text(at, SMALL_MM, Anchor::End, -90.0, &say.bare_drawn(*along));
    }
}

/// Heights above the bottom edge, written at the right.
fn heights(sheet: &mut Drawing, placement: &Placement, say: Say, view: &View) {
    let span_m = metres(placement.pair.span);
    let hinge = placement.transom.hinge_height;
    let mut marks: Vec<(Length, Length)> = vec![(Length::default(), placement.pair.span)];
    marks.push((hinge, placement.pair.span));
    marks.push((hinge + placement.hardware.hinge_screws.row_height, placement.pair.span));
    let last = placement.brackets.last().map_or(placement.inner, |bracket| bracket.along);
    for hole in placement.holes.iter().filter(|hole| hole.along >= last) {
        if matches!(hole.kind, HoleKind::BracketPilot | HoleKind::BracketBolt | HoleKind::Lead) {
            marks.push((hole.up, hole.along - placement.inner));
        }
    }
    marks.sort_by(|a, b| metres(a.0).total_cmp(&metres(b.0)));
    marks.dedup_by(|a, b| metres(a.0 - b.0).abs() < 1e-4);
    let wanted: Vec<f64> = marks.iter().map(|mark| -view.at([0.0, metres(mark.0)])[1]).collect();
    let places = spread(&wanted, APART_MM);
    let right = view.at([span_m, 0.0])[0];
    for ((up, along), y) in marks.iter().zip(places) {
        let start = view.at([metres(*along), metres(*up)]);
        let (knee, end) = ([right + 4.0, start[1]], [right + 7.0, -y]);
        let from = if metres(*along) < span_m { [start[0] + 1.6, start[1]] } else { start };
        sheet.open(&[from, knee, end], pen::FINE);
        sheet.text([end[0] + 0.6, end[1]], SMALL_MM, Anchor::Start, &say.bare_drawn(*up));
    }
}

/// Rising places moved apart to a least distance, each as near its wish as the ones before allow.
pub(super) fn spread(wanted: &[f64], apart: f64) -> Vec<f64> {
    let mut places: Vec<f64> = Vec::with_capacity(wanted.len());
    for &wish in wanted {
        let least = places.last().map_or(f64::NEG_INFINITY, |last| last + apart);
        places.push(wish.max(least));
    }
    places
}
