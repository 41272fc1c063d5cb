//! Measurements that must come out alike on both sides before a hole is drilled.

use uom::si::f64::Length;
use uom::si::length::{meter, millimeter};

use super::face::{above_keel, metres, off_centre};
use crate::boat::{Transom, TransomForm};
use crate::drawing::geometry::distance;

/// Least height of the datum above the keel as a share of the beam: lower, the diagonals run so
/// flat that they do not tell a plane that is turned; chosen here.
const DATUM_SHARE: f64 = 0.12;
/// Step of that height, millimetres; chosen here.
const DATUM_STEP_MM: f64 = 50.0;
/// Clear distance of the datum above what stands on the centreline, metres; chosen here.
const DATUM_CLEAR_M: f64 = 0.05;

/// What a check is measured between.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CheckKind {
    /// Datum on the centreline to the inner end of the hinge line.
    DatumToInner,
    /// Datum on the centreline to the outer end of the hinge line.
    DatumToOuter,
    /// Inner end of one hinge line to the outer end of the other.
    Cross,
    /// Centreline to the inner edge, along the bottom edge.
    CentreToInner,
    /// Centreline to the outer edge, along the bottom edge.
    CentreToOuter,
    /// Chine to the outer edge, along the bottom edge.
    ChineToOuter,
    /// Bottom edge to the hinge line, at either end.
    EdgeToHinge,
    /// Corner of the chine to the inner end of the hinge line, straight.
    ChineToInner,
    /// Level batten across the keel up to the inner end of the hinge line, on the face.
    BattenToInner,
    /// The same to the outer end.
    BattenToOuter,
}

/// One measurement, taken on both sides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Check {
    /// What it is measured between.
    pub kind: CheckKind,
    /// What it must be.
    pub length: Length,
    /// Whether something amidships may stand in the straight line.
    pub blocked: bool,
}

/// Height of the datum on the centreline above the keel: a share of the beam, or clear above what
/// stands on the centreline, rounded up. It is one mark, whatever the units of a sheet.
pub(super) fn datum_height(transom: &Transom) -> Length {
    let clear = Length::new::<meter>(DATUM_CLEAR_M);
    let above = centre_obstacle_top(transom).map_or(Length::default(), |top| top + clear);
    let least = (transom.beam * DATUM_SHARE).max(above);
    let step = Length::new::<millimeter>(DATUM_STEP_MM);
    let steps: f64 = (least / step).into();
    step * (steps - 1e-9).ceil()
}

/// Whether a tape across the middle of the transom may meet something: what stands there, a leg or
/// an outboard, a notch, a step or a pod.
pub(super) fn middle_is_taken(transom: &Transom) -> bool {
    centre_obstacle_top(transom).is_some()
        || transom.form != TransomForm::Plain
        || transom.clear_of_drive.is_some()
}

/// Top of the highest thing on the centreline, above the keel.
pub(super) fn centre_obstacle_top(transom: &Transom) -> Option<Length> {
    transom
        .obstacles
        .iter()
        .filter(|thing| thing.off_centre.abs() < thing.width / 2.0)
        .map(|thing| thing.to)
        .reduce(Length::max)
}

/// The checks of planes that stand from `inner` to `outer` along the bottom edge.
pub(super) fn checks(transom: &Transom, inner: Length, outer: Length, datum: Length) -> Vec<Check> {
    let hinge = transom.hinge_height;
    let point = |along: Length| {
        [off_centre(transom, along, hinge), above_keel(transom, along, hinge)].map(metres)
    };
    let (inner_end, outer_end) = (point(inner), point(outer));
    let datum = [0.0, datum.get::<meter>()];
    let mirrored = [-inner_end[0], inner_end[1]];
    let between = |a: [f64; 2], b: [f64; 2]| Length::new::<meter>(distance(a, b));
    let blocked = middle_is_taken(transom);
    let corner = {
        let (edge, zero) = (transom.half_girth(), Length::default());
        [off_centre(transom, edge, zero), above_keel(transom, edge, zero)].map(metres)
    };
    let check = |kind, length, blocked| Check { kind, length, blocked };
    let without_middle = [
        check(CheckKind::ChineToInner, between(corner, inner_end), false),
        check(CheckKind::BattenToInner, Length::new::<meter>(inner_end[1]), false),
        check(CheckKind::BattenToOuter, Length::new::<meter>(outer_end[1]), false),
    ];
    let mut checks = vec![
        check(CheckKind::CentreToInner, inner, false),
        check(CheckKind::CentreToOuter, outer, false),
        check(CheckKind::ChineToOuter, transom.half_girth() - outer, false),
        check(CheckKind::EdgeToHinge, hinge, false),
        check(CheckKind::DatumToInner, between(datum, inner_end), blocked),
        check(CheckKind::DatumToOuter, between(datum, outer_end), blocked),
        check(CheckKind::Cross, between(mirrored, outer_end), blocked),
    ];
    checks.extend(without_middle.into_iter().filter(|_| blocked));
    checks
}
