//! The planes from the side, at the scale of the boat and larger.

use uom::si::angle::{degree, radian};
use uom::si::f64::Angle;
use uom::si::length::meter;

use super::Scene;
use super::pen;
use super::pose::Pose;
use super::shape::{Metres, Shape};
use super::style::{BOTTOM, TEXT_PX};
use crate::boat::{Boat, PlanePair};
use crate::drawing::{Anchor, BRASS, Drawing, PAPER, Point, View};

/// Width and height of the detail.
pub(super) const DETAIL_PX: [f64; 2] = [206.0, 126.0];
/// Length of a chord in the detail.
const DETAIL_CHORD_PX: f64 = 84.0;
/// Thickness of a plate in the detail.
const PLATE_PX: f64 = 4.0;

/// A plane seen from the side: hinge and trailing edge at its inner and outer end.
pub(super) fn plate(boat: &Boat, deflection: Angle, shape: &Shape, pair: PlanePair) -> [Metres; 4] {
    let transom = boat.transom();
    let middle_m = transom.mid_span_off_centre(pair.span).get::<meter>();
    let half_m = 0.5 * pair.span.get::<meter>() * transom.face_deadrise().get::<radian>().cos();
    let (sin, cos) = deflection.get::<radian>().sin_cos();
    let chord_m = pair.chord.get::<meter>();
    let hinge_m = transom.hinge_height.get::<meter>();
    let [inner_m, outer_m] = [middle_m - half_m, middle_m + half_m]
        .map(|off_m| shape.bottom_height_m(off_m.max(0.0)) + hinge_m);
    [
        [0.0, inner_m],
        [0.0, outer_m],
        [-chord_m * cos, outer_m - chord_m * sin],
        [-chord_m * cos, inner_m - chord_m * sin],
    ]
}

/// The starboard plane where it stands.
pub(super) fn planes(
    art: &mut Drawing,
    scene: &Scene<'_>,
    shape: &Shape,
    view: &View,
    pose: &Pose,
) {
    let Some(pair) = scene.boat.planes() else { return };
    let corners: Vec<Point> = plate(scene.boat, scene.point.deflection, shape, pair)
        .iter()
        .map(|&at| view.at(pose.at(at)))
        .collect();
    art.shape(&corners, Some(pen::EDGE), Some(BRASS));
}

/// The plane at mid-span, square on, larger: bottom line, hinge, plate and deflection.
pub(super) fn detail(art: &mut Drawing, scene: &Scene<'_>, shape: &Shape, corner: Point) {
    let Some(pair) = scene.boat.planes() else { return };
    let px_per_m = DETAIL_CHORD_PX / pair.chord.get::<meter>();
    let [wide, high] = DETAIL_PX;
    let (right, low) = (corner[0] + wide, corner[1] + high);
    art.rectangle(corner, [right, low], Some(pen::FINE), Some(PAPER));
    let foot = [corner[0] + 138.0, corner[1] + 54.0];
    let lean_px = 46.0 * scene.boat.transom().rake.get::<radian>().tan();
    let hull = [
        foot,
        [foot[0] - lean_px, foot[1] - 46.0],
        [right - 1.0, foot[1] - 46.0],
        [right - 1.0, foot[1]],
    ];
    art.shape(&hull, None, Some(BOTTOM));
    art.open(&[hull[1], hull[0], hull[3]], pen::OUTLINE);
    let hinge_px = (scene.boat.transom().hinge_height.get::<meter>() * px_per_m).max(2.0);
    let hinge = [foot[0], foot[1] - hinge_px];
    let deflection = scene.point.deflection;
    let (sin, cos) = deflection.get::<radian>().sin_cos();
    art.line([foot[0], foot[1]], [corner[0] + 14.0, foot[1]], pen::CENTRE);
    let edge = [hinge[0] - DETAIL_CHORD_PX * cos, hinge[1] + DETAIL_CHORD_PX * sin];
    let thick = [PLATE_PX * sin, PLATE_PX * cos];
    let plate = [
        hinge,
        edge,
        [edge[0] - thick[0], edge[1] - thick[1]],
        [hinge[0] - thick[0], hinge[1] - thick[1]],
    ];
    art.shape(&plate, Some(pen::EDGE), Some(BRASS));
    art.circle(hinge, 3.0, Some(pen::EDGE), Some(PAPER));
    let tenths = crate::units::number_with_decimals(deflection.get::<degree>(), 1);
    let value = format!("{}°", tenths.trim_end_matches(".0"));
    let beside = [edge[0] - 8.0, 0.5 * (foot[1] + edge[1]) + 9.0];
    art.text(beside, TEXT_PX, Anchor::End, &value);
    let larger = px_per_m / super::side::px_per_m(shape, scene.frame.width_px());
    let caption = format!("a plane, drawn {larger:.0} times larger");
    art.text([corner[0] + 8.0, low - 10.0], 12.0, Anchor::Start, &caption);
}
