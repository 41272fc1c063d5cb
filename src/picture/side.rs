//! The boat from her starboard side, the bow to the right.

use uom::si::angle::degree;
use uom::si::length::meter;

use super::pen;
use super::pose::Pose;
use super::shape::{Metres, Shape};
use super::style::{BOTTOM, FORM, TEXT_PX, WATER, WETTED, upright_dimension};
use super::{Scene, arrows, stern, words};
use crate::balance::Running;
use crate::drawing::{Anchor, Drawing, INK, PAPER, Point, TextBlock, View};

/// Room aft of the transom and ahead of the bow, as shares of the length over all.
const AFT: f64 = 0.17;
const AHEAD: f64 = 0.10;
/// Trim for which the frame has room; the boat of a larger one is drawn smaller.
const TRIM_WITH_ROOM_DEG: f64 = 8.5;
/// Room under the surface, as a share of the length over all.
const DEPTH: f64 = 0.16;
/// Room for the headline.
const HEAD_PX: f64 = 34.0;
/// Widest line of the reason why she does not run.
const REASON_PX: f64 = 620.0;
/// Length of the wake that is drawn, as a share of the length over all.
const WAKE: f64 = 0.15;

/// How the sheet is laid out.
pub(super) struct Layout {
    pub view: View,
    pub width_px: f64,
    pub height_px: f64,
}

/// Metres to pixels for pictures of a boat: the same for both views.
pub(super) fn px_per_m(shape: &Shape, width_px: f64) -> f64 {
    width_px / ((1.0 + AFT + AHEAD) * shape.overall_m)
}

impl Layout {
    fn of(scene: &Scene<'_>, shape: &Shape) -> Self {
        let width_px = scene.frame.width_px();
        let px_per_m = px_per_m(shape, width_px);
        let trim_deg = scene.point.running.map_or(0.0, |running| running.trim.get::<degree>());
        let sin = trim_deg.max(TRIM_WITH_ROOM_DEG).to_radians().sin();
        let above_m = shape.bow_height_m() + sin * shape.overall_m * 0.80;
        let surface = HEAD_PX + above_m * px_per_m;
        let deep_px = (DEPTH * shape.overall_m * px_per_m).max(least_depth_px(scene));
        let view = View { origin: [AFT * shape.overall_m * px_per_m, surface], per_m: px_per_m };
        Self { view, width_px, height_px: surface + deep_px }
    }
}

/// Room under the surface for dimensions, arrows and the detail.
fn least_depth_px(scene: &Scene<'_>) -> f64 {
    match (scene.frame.is_wide(), scene.budget.is_some()) {
        (true, true) => 190.0,
        (true, false) => 150.0,
        (false, true) => 84.0,
        (false, false) => 50.0,
    }
}

pub(super) fn draw(scene: &Scene<'_>) -> String {
    let shape = Shape::of(scene.boat);
    let layout = Layout::of(scene, &shape);
    let key = scene.budget.filter(|_| scene.frame.is_wide());
    let key_px = key.map_or(0.0, |budget| arrows::key_height_px(budget, layout.width_px));
    let title = words::side_title(scene);
    let mut art = Drawing::new([layout.width_px, layout.height_px + key_px], &title, FORM);
    match &scene.point.running {
        Some(running) => afloat(&mut art, scene, &shape, &layout, running),
        None => ghost(&mut art, scene, &shape, &layout),
    }
    art.text([8.0, 17.0], TEXT_PX + 2.0, Anchor::Start, &words::headline(scene));
    if let Some(budget) = key {
        arrows::key(&mut art, scene, budget, layout.height_px + 6.0);
    }
    art.svg(&words::side_description(scene))
}

/// The boat at her trim.
fn afloat(art: &mut Drawing, scene: &Scene<'_>, shape: &Shape, layout: &Layout, running: &Running) {
    let view = &layout.view;
    let pose = Pose::new(running.trim.get::<degree>(), running.draft.get::<meter>());
    art.part("picture-sea", |art| sea(art, shape, layout, &pose));
    art.part("picture-hull", |art| hull(art, shape, view, &pose, running));
    art.part("picture-planes", |art| stern::planes(art, scene, shape, view, &pose));
    art.part("picture-surface", |art| surface(art, layout));
    art.part("picture-dimensions", |art| dimensions(art, scene, shape, layout, &pose, running));
    arrows::draw(art, scene, shape, &pose, view);
    if scene.frame.is_wide() && scene.boat.planes().is_some() {
        let corner = [
            layout.width_px - stern::DETAIL_PX[0] - 10.0,
            layout.height_px - stern::DETAIL_PX[1] - 6.0,
        ];
        art.part("picture-detail", |art| stern::detail(art, scene, shape, corner));
    }
}

/// Water with the hollow that the boat leaves behind her.
fn sea(art: &mut Drawing, shape: &Shape, layout: &Layout, pose: &Pose) {
    let view = &layout.view;
    let (right, low) = (layout.width_px, layout.height_px);
    let mut outline: Vec<Point> = vec![[0.0, view.origin[1]]];
    outline.extend(view.all(&wake(shape, pose)));
    outline.extend([view.at([0.0, 0.0]), [right, view.origin[1]], [right, low], [0.0, low]]);
    art.shape(&outline, None, Some(WATER));
}

/// The surface behind the transom: from the level down to the keel's end.
fn wake(shape: &Shape, pose: &Pose) -> Vec<Metres> {
    let long_m = WAKE * shape.overall_m;
    (0..=16)
        .map(|step| {
            let t = f64::from(step) / 16.0;
            // From level water, steeper and steeper down to the transom's foot.
            [-long_m * (1.0 - t), -pose.draft_m * t * t * (1.5 - 0.5 * t)]
        })
        .collect()
}

fn hull(art: &mut Drawing, shape: &Shape, view: &View, pose: &Pose, running: &Running) {
    let place = |points: &[Metres]| -> Vec<Point> {
        points.iter().map(|&at| view.at(pose.at(at))).collect()
    };
    art.shape(&place(&shape.profile()), None, Some(PAPER));
    art.shape(&place(&shape.bottom_panel()), None, Some(BOTTOM));
    let [keel_m, chine_m] = wetted_m(running);
    art.shape(&place(&shape.wetted_side(keel_m, chine_m)), None, Some(WETTED));
    art.open(&place(&shape.chine()), pen::SKETCH);
    let mut sketched = shape.stem();
    sketched.extend(shape.sheer().into_iter().rev());
    art.open(&place(&sketched), pen::SKETCH);
    let top = shape.sheer()[0];
    let mut outline = vec![top];
    outline.extend(shape.keel());
    art.open(&place(&outline), pen::OUTLINE);
    art.open(&place(&shape.known_chine()), pen::EDGE);
    art.open(&place(&shape.parting_side(keel_m, chine_m)), pen::PARTING_LINE);
}

/// How much of keel and chine is wet.
fn wetted_m(running: &Running) -> [f64; 2] {
    [running.wetted_keel, running.wetted_chine].map(|length| length.get::<meter>())
}

/// The level surface ahead of the boat and behind the wake, with the mark of a water level.
fn surface(art: &mut Drawing, layout: &Layout) {
    let y = layout.view.origin[1];
    art.line([0.0, y], [layout.width_px, y], pen::WATERLINE);
    let x = layout.width_px - 26.0;
    art.shape(
        &[[x - 8.0, y - 12.0], [x + 8.0, y - 12.0], [x, y - 1.0]],
        Some(pen::WATERLINE),
        Some(PAPER),
    );
    for (step, half) in [(5.0, 9.0), (9.0, 5.0)] {
        art.line([x - half, y + step], [x + half, y + step], pen::WATERLINE);
    }
}

fn dimensions(
    art: &mut Drawing,
    scene: &Scene<'_>,
    shape: &Shape,
    layout: &Layout,
    pose: &Pose,
    running: &Running,
) {
    let view = &layout.view;
    trim_angle(art, view, pose, running, scene.frame.is_wide());
    if !scene.frame.is_wide() || scene.budget.is_some() {
        return;
    }
    let transom = view.at(pose.at([0.0, 0.0]));
    let draft_x = view.origin[0] - view.length(0.75 * AFT * shape.overall_m) + 26.0;
    let draft = format!("draft {}", words::length(scene, running.draft));
    let y = view.origin[1];
    art.line([draft_x - 8.0, transom[1]], [transom[0], transom[1]], pen::FINE);
    upright_dimension(art, draft_x, y, transom[1]);
    art.text([draft_x - 4.0, transom[1] + 13.0], TEXT_PX, Anchor::Middle, &draft);
}

/// The angle between surface and keel, where the keel leaves the water.
fn trim_angle(art: &mut Drawing, view: &View, pose: &Pose, running: &Running, is_named: bool) {
    let trim_deg = running.trim.get::<degree>();
    let keel_m = running.wetted_keel.get::<meter>();
    let start = view.at(pose.at([keel_m, 0.0]));
    let reach = (0.90 * (art_right(view) - start[0])).clamp(40.0, 330.0);
    let end = |deg: f64, reach: f64| {
        let (sin, cos) = deg.to_radians().sin_cos();
        [start[0] + reach * cos, start[1] - reach * sin]
    };
    art.line(start, end(trim_deg, reach + 12.0), pen::CENTRE);
    let arc: Vec<Point> =
        (0..=12).map(|step| end(trim_deg * f64::from(step) / 12.0, reach)).collect();
    art.open(&arc, pen::FINE);
    if !is_named {
        return;
    }
    let middle = end(0.5 * trim_deg, reach + 8.0);
    art.text(
        [middle[0], middle[1].min(start[1] - 9.0)],
        TEXT_PX,
        Anchor::Start,
        &format!("trim {}", words::trim(running)),
    );
}

/// Right edge of what a view shows before the margin.
fn art_right(view: &View) -> f64 {
    view.origin[0] * (1.0 + AHEAD) / AFT
}

/// A boat that does not run: her shape in dashes, and why.
fn ghost(art: &mut Drawing, scene: &Scene<'_>, shape: &Shape, layout: &Layout) {
    let view = &layout.view;
    let y = view.origin[1];
    let (right, low) = (layout.width_px, layout.height_px);
    art.part("picture-sea", |art| {
        art.shape(&[[0.0, y], [right, y], [right, low], [0.0, low]], None, Some(WATER));
        art.line([0.0, y], [right, y], pen::WATERLINE);
    });
    art.part("picture-ghost", |art| {
        let outline: Vec<Point> = view.all(&shape.profile());
        art.shape(&outline, Some(pen::GHOST), None);
    });
    let wide = (right - 32.0).min(REASON_PX);
    let reason = TextBlock::wrapped(scene.point.meaning(), TEXT_PX, wide);
    art.column(&reason, [16.0, y + 13.0], INK);
}
