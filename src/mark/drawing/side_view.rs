//! The plane at mid-span seen from port, aft on the right: gauge height, travel, actuator.

use uom::si::angle::radian;
use uom::si::f64::Angle;

use crate::drawing::{Anchor, Drawing, PAPER, Rect, View};
use crate::mark::face::metres;
use crate::mark::pen;
use crate::mark::placement::Placement;
use crate::mark::say::Say;
use crate::mark::scale::scale_for;
use crate::mark::style::{BLACK, DIMENSION, HEAD, TINT};
use crate::units::number_with_decimals;

const SMALL_MM: f64 = 2.2;
/// Room at the left, above, at the right and below.
const AROUND_MM: (f64, f64, f64, f64) = (30.0, 8.0, 30.0, 11.0);
/// Share of the chord of hull bottom drawn ahead of the transom.
const AHEAD: f64 = 0.28;

/// Points of the linkage, metres aft and up of the foot of the transom.
struct Points {
    hinge: [f64; 2],
    upper_foot: [f64; 2],
    upper: [f64; 2],
    /// Up along the transom.
    up: [f64; 2],
}

impl Points {
    fn of(placement: &Placement) -> Self {
        let (sin, cos) = placement.transom.rake.get::<radian>().sin_cos();
        let linkage = &placement.hardware.linkage;
        let on_transom =
            |up_m: f64, off_m: f64| [up_m * sin + off_m * cos, up_m * cos - off_m * sin];
        let hinge_m = metres(placement.transom.hinge_height);
        let pin_m = hinge_m + metres(linkage.upper_pin_up_transom);
        Self {
            hinge: on_transom(hinge_m, 0.0),
            upper_foot: on_transom(pin_m, 0.0),
            upper: on_transom(pin_m, metres(linkage.upper_pin_stand_off)),
            up: [sin, cos],
        }
    }

    /// A point `aft_m` along the plate and `above_m` square to it.
    fn on_plate(&self, deflection: Angle, aft_m: f64, above_m: f64) -> [f64; 2] {
        let (sin, cos) = deflection.get::<radian>().sin_cos();
        [self.hinge[0] + aft_m * cos + above_m * sin, self.hinge[1] - aft_m * sin + above_m * cos]
    }
}

pub(super) fn draw(sheet: &mut Drawing, placement: &Placement, say: Say, region: Rect) {
    let chord_m = metres(placement.pair.chord);
    let points = Points::of(placement);
    let half_m = placement.brackets.first().map_or(0.0, |bracket| metres(bracket.half_height));
    let top_m = points.upper[1].max(points.upper_foot[1] + half_m) * 1.08;
    let drop = points.on_plate(placement.travel.1, chord_m, 0.0);
    let low_m = drop[1].min(-0.1 * chord_m);
    let (left, above, right, below) = AROUND_MM;
    let [wide, high] = [region.width(), region.height()];
    let room = [wide - left - right, high - above - below];
    let scale = scale_for([(1.0 + AHEAD) * chord_m, top_m - low_m], room);
    let origin_mm = [
        region.left + left + 1e3 * AHEAD * chord_m / scale,
        region.bottom - below + 1e3 * low_m / scale,
    ];
    let view = View { origin: origin_mm, per_m: 1e3 / scale };
    let title = format!(
        "SIDE VIEW AT MID-SPAN, FROM PORT · 1 : {}",
        number_with_decimals(scale, 1).trim_end_matches(".0")
    );
    sheet.text([region.left + 3.0, region.top + 4.5], 3.2, Anchor::Start, &title);
    hull(sheet, placement, &view, &points, top_m);
    plates(sheet, placement, &view, &points);
    dimensions(sheet, placement, say, &view, &points);
}

fn hull(sheet: &mut Drawing, placement: &Placement, view: &View, points: &Points, top_m: f64) {
    let chord_m = metres(placement.pair.chord);
    let foot = view.at([0.0, 0.0]);
    let ahead = view.at([-AHEAD * chord_m, 0.0]);
    let share = top_m / points.up[1];
    let top = view.at([points.up[0] * share, top_m]);
    let inside = [ahead[0], top[1]];
    sheet.shape(&[ahead, foot, top, inside], None, Some(TINT));
    sheet.open(&[ahead, foot, top], pen::OUTLINE);
    sheet.line(foot, view.at([1.12 * chord_m, 0.0]), pen::CENTRE);
}

fn plates(sheet: &mut Drawing, placement: &Placement, view: &View, points: &Points) {
    let chord_m = metres(placement.pair.chord);
    let linkage = &placement.hardware.linkage;
    let (raised, lowered) = placement.travel;
    let paper = |point: [f64; 2]| view.at(point);
    let (hinge, upper) = (paper(points.hinge), paper(points.upper));
    for (deflection, pen, thin) in
        [(lowered, pen::HIDDEN, pen::HIDDEN), (raised, pen::OUTLINE, pen::MEDIUM)]
    {
        let lower = points.on_plate(
            deflection,
            metres(linkage.lower_pin_aft),
            metres(linkage.lower_pin_above_plate),
        );
        let root = points.on_plate(deflection, metres(linkage.lower_pin_aft), 0.0);
        sheet.line(hinge, paper(points.on_plate(deflection, chord_m, 0.0)), pen);
        sheet.line(paper(root), paper(lower), thin.clone());
        sheet.line(upper, paper(lower), thin.clone());
        sheet.circle(paper(lower), 0.7, Some(thin), Some(PAPER));
    }
    sheet.line(paper(points.upper_foot), upper, pen::MEDIUM);
    sheet.circle(upper, 0.7, Some(pen::MEDIUM), Some(PAPER));
    sheet.circle(hinge, 0.6, Some(pen::MEDIUM), Some(BLACK));
}

fn dimensions(sheet: &mut Drawing, placement: &Placement, say: Say, view: &View, points: &Points) {
    let chord_m = metres(placement.pair.chord);
    let (raised, lowered) = placement.travel;
    let paper = |point: [f64; 2]| view.at(point);
    let edge = points.on_plate(raised, chord_m, 0.0);
    let below = view.at([edge[0], 0.0]);
    let gauge = &placement.gauge;
    let right = paper(edge)[0] + 4.0;
    let text = format!("{} gauge, plane up", say.drawn(gauge.trailing_edge));
    upright(sheet, paper(edge), below, right, &text);
    let hinge = paper(points.hinge);
    let foot = view.at([0.0, 0.0]);
    let beside = view.at([-AHEAD * chord_m, 0.0])[0];
    let pin = paper(points.upper_foot);
    let text = say.drawn(placement.hardware.linkage.upper_pin_up_transom);
    let left = beside - 4.0;
    measured_left(sheet, hinge, pin, left);
    let at = [left - 1.2, 0.5 * (hinge[1] + pin[1])];
    sheet.text(at, 2.6, Anchor::End, &text);
    sheet.text([at[0], at[1] + 3.4], SMALL_MM, Anchor::End, "along face");
    let text = format!("hinge {} up", say.drawn(placement.transom.hinge_height));
    sheet.text([beside - 1.2, foot[1] + 3.4], SMALL_MM, Anchor::End, &text);
    let drop = paper(points.on_plate(lowered, chord_m, 0.0));
    let down = format!("{} down, full stroke", say.angle(lowered));
    sheet.text([drop[0] + 1.5, drop[1] + 1.0], SMALL_MM, Anchor::Start, &down);
    // The chord below everything, where no line of the linkage crosses it.
    let tip = paper(edge);
    let y = drop[1].max(foot[1]) + 5.0;
    DIMENSION.level(sheet, [hinge, tip], y, &say.drawn(placement.pair.chord));
    let up = format!("{} up", say.angle(-raised));
    sheet.text(
        [right + 1.2, below[1] - 4.0 - view.length(metres(gauge.trailing_edge))],
        SMALL_MM,
        Anchor::Start,
        &up,
    );
}

/// A dimension along the transom, its line left of the hull.
fn measured_left(sheet: &mut Drawing, hinge: [f64; 2], pin: [f64; 2], x: f64) {
    for point in [hinge, pin] {
        sheet.line([point[0] - 0.8, point[1]], [x - 1.2, point[1]], pen::FINE);
    }
    sheet.line([x, pin[1]], [x, hinge[1]], pen::FINE);
    HEAD.draw(sheet, [x, pin[1]], [0.0, -1.0], BLACK);
    HEAD.draw(sheet, [x, hinge[1]], [0.0, 1.0], BLACK);
}

/// Upright dimension whose text stands beside it at the outside of the sheet.
fn upright(sheet: &mut Drawing, a: [f64; 2], b: [f64; 2], x: f64, text: &str) {
    let (high, low) = if a[1] < b[1] { (a, b) } else { (b, a) };
    for point in [high, low] {
        let reach = if x > point[0] { 1.2 } else { -1.2 };
        sheet.line([point[0] + 0.5 * reach, point[1]], [x + reach, point[1]], pen::FINE);
    }
    sheet.line([x, high[1] - 4.0], [x, low[1] + 4.0], pen::FINE);
    HEAD.draw(sheet, [x, high[1]], [0.0, 1.0], BLACK);
    HEAD.draw(sheet, [x, low[1]], [0.0, -1.0], BLACK);
    if !text.is_empty() {
        sheet.text([x + 1.2, 0.5 * (high[1] + low[1])], SMALL_MM, Anchor::Start, text);
    }
}
