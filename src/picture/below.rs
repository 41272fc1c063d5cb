//! The bottom from below, the bow to the right: starboard is above.

use uom::si::angle::radian;
use uom::si::length::meter;

use super::pen;
use super::shape::{Metres, Shape};
use super::side::px_per_m;
use super::style::{BOTTOM, DIMENSION, FORM, TEXT_PX, WETTED, upright_dimension};
use super::{Scene, words};
use crate::balance::Running;
use crate::drawing::{Anchor, BRASS, Drawing, PAPER, Point, Rect, View};

/// Room aft of the transom, as in the side view.
const AFT: f64 = 0.17;
/// Room above and below the hull for the dimensions.
const AROUND_PX: f64 = 46.0;
/// Room for the headline.
const HEAD_PX: f64 = 26.0;
/// Steps of the scale bar that are tried, in the unit of lengths.
const BAR_STEPS: [f64; 5] = [0.5, 1.0, 2.0, 5.0, 10.0];

pub(super) fn draw(scene: &Scene<'_>) -> String {
    let shape = Shape::of(scene.boat);
    let width_px = scene.frame.width_px();
    let px_per_m = px_per_m(&shape, width_px);
    let half_px = px_per_m * shape.sheer_plan().iter().map(|at| at[1]).fold(0.0, f64::max);
    let around_px = if scene.frame.is_wide() { AROUND_PX } else { 16.0 };
    let height_px = HEAD_PX + 2.0 * (half_px + around_px) + 20.0;
    let middle = HEAD_PX + around_px + half_px;
    let view = View { origin: [AFT * shape.overall_m * px_per_m, middle], per_m: px_per_m };
    let mut art = Drawing::new([width_px, height_px], &words::below_title(scene), FORM);
    art.part("picture-hull", |art| hull(art, &shape, &view));
    if let Some(running) = &scene.point.running {
        art.part("picture-wetted", |art| wetted(art, &shape, &view, running));
    }
    art.part("picture-planes", |art| planes(art, scene, &view));
    art.part("picture-centreline", |art| {
        let [left, right] = [-0.6 * AFT, 1.04].map(|share| view.at([share * shape.overall_m, 0.0]));
        art.line(left, right, pen::CENTRE);
    });
    if let Some(running) = scene.point.running.as_ref().filter(|_| scene.frame.is_wide()) {
        art.part("picture-dimensions", |art| {
            dimensions(art, scene, &shape, &view, running, half_px)
        });
    }
    art.part("picture-scale", |art| scale_bar(art, scene, &view, [8.0, height_px - 14.0]));
    art.text([8.0, 14.0], TEXT_PX, Anchor::Start, &headline(scene));
    if scene.frame.is_wide() {
        for (side, y) in [("starboard", middle - half_px), ("port", middle + half_px)] {
            art.text([width_px - 8.0, y], 12.0, Anchor::End, side);
        }
    }
    art.svg(&words::below_description(scene))
}

fn headline(scene: &Scene<'_>) -> String {
    match &scene.point.running {
        Some(_) => "The bottom from below: the shaded part is wet".to_owned(),
        None => "The bottom from below".to_owned(),
    }
}

/// The line of one side, and the same mirrored.
fn both(half: &[Metres]) -> Vec<Metres> {
    let mirrored = half.iter().rev().map(|&[x, y]| [x, -y]);
    half.iter().copied().chain(mirrored).collect()
}

fn hull(art: &mut Drawing, shape: &Shape, view: &View) {
    art.shape(&view.all(&both(&shape.sheer_plan())), Some(pen::SKETCH), Some(PAPER));
    art.shape(&view.all(&both(&shape.chine_plan())), Some(pen::SKETCH), Some(BOTTOM));
    let known = shape.known_chine_plan();
    art.open(&view.all(&known), pen::EDGE);
    art.open(&view.all(&known.iter().map(|&[x, y]| [x, -y]).collect::<Vec<_>>()), pen::EDGE);
    let half_m = shape.stern_half_beam_m();
    art.line(view.at([0.0, -half_m]), view.at([0.0, half_m]), pen::OUTLINE);
}

fn wetted(art: &mut Drawing, shape: &Shape, view: &View, running: &Running) {
    let [keel_m, chine_m] = [running.wetted_keel, running.wetted_chine].map(|l| l.get::<meter>());
    let half = shape.wetted_half(keel_m, chine_m);
    art.shape(&view.all(&both(&half)), Some(pen::EDGE), Some(WETTED));
    let [_, keel, end, ..] = half[..] else { return };
    let mirror = |[x, y]: Metres| [x, -y];
    art.open(&view.all(&[end, keel, mirror(end)]), pen::PARTING_LINE);
}

fn planes(art: &mut Drawing, scene: &Scene<'_>, view: &View) {
    let Some(pair) = scene.boat.planes() else { return };
    let transom = scene.boat.transom();
    let middle_m = transom.mid_span_off_centre(pair.span).get::<meter>();
    let half_m = 0.5 * pair.span.get::<meter>() * transom.face_deadrise().get::<radian>().cos();
    let long_m = pair.chord.get::<meter>() * scene.point.deflection.get::<radian>().cos();
    let fits = transom.fits(pair).fits();
    for side in [1.0, -1.0] {
        let [inner, outer] = [middle_m - half_m, middle_m + half_m].map(|off| side * off);
        let corners = view.all(&[[0.0, inner], [0.0, outer], [-long_m, outer], [-long_m, inner]]);
        let (pen, fill) = if fits { (pen::EDGE, Some(BRASS)) } else { (pen::GHOST, None) };
        art.shape(&corners, Some(pen), fill);
    }
}

fn dimensions(
    art: &mut Drawing,
    scene: &Scene<'_>,
    shape: &Shape,
    view: &View,
    running: &Running,
    half_px: f64,
) {
    let middle = view.origin[1];
    let stern = |up: f64| view.at([0.0, up * shape.half_beam_m(0.0)]);
    let chine_m = running.wetted_chine.get::<meter>();
    if chine_m > 0.0 {
        let text = format!("chine wetted {}", words::length(scene, running.wetted_chine));
        let end = view.at([chine_m, shape.half_beam_m(chine_m)]);
        DIMENSION.level(art, [stern(1.0), end], middle - half_px - 20.0, &text);
    }
    let text = format!("keel wetted {}", words::length(scene, running.wetted_keel));
    let low = middle + half_px + 18.0;
    let end: Point = view.at([running.wetted_keel.get::<meter>(), 0.0]);
    art.line([end[0], end[1]], [end[0], low], pen::FINE);
    DIMENSION.level(art, [stern(-1.0), [end[0], low - 8.0]], low, &text);
    let x = view.at([-0.75 * AFT * shape.overall_m, 0.0])[0] + 34.0;
    let half = view.length(0.5 * shape.beam_m);
    upright_dimension(art, x, middle - half, middle + half);
    let beam = words::length(scene, scene.boat.hull().chine_beam);
    art.text_on_ground([x, middle], TEXT_PX, Anchor::Middle, 0.0, &beam);
}

/// A bar of round length, so that the scale survives any printer.
fn scale_bar(art: &mut Drawing, scene: &Scene<'_>, view: &View, at: Point) {
    let unit = scene.units.length;
    let one_m = uom::si::f64::Length::new::<meter>(1.0);
    let px_per_unit = view.per_m / unit.value(one_m);
    let step = BAR_STEPS.into_iter().rfind(|step| step * px_per_unit <= 130.0).unwrap_or(0.1);
    let long = step * px_per_unit;
    let bar = Rect { left: at[0], right: at[0] + long, top: at[1] - 3.0, bottom: at[1] + 3.0 };
    art.bar(&bar, 2, &pen::FINE);
    let text = format!("{} {}", crate::boat::measure::plain_number(step), unit.symbol());
    art.text([at[0] + long + 8.0, at[1]], 12.0, Anchor::Start, &text);
}
