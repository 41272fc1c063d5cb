//! Measurements that must come out alike on both sides before a hole is drilled.

use uom::si::f64::Length;
use uom::si::length::{inch, meter};

use super::place::Placement;

/// Usual height of the datum on the centreline above the keel, inches; chosen here.
const DATUM_IN: f64 = 12.0;
/// Clear distance of the datum above what stands on the centreline, inches; chosen here.
const DATUM_CLEAR_IN: f64 = 2.0;

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
}

/// One measurement, taken on both sides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Check {
    /// What it is measured between.
    pub kind: CheckKind,
    /// What it must be.
    pub length: Length,
    /// Whether something on the centreline stands in the straight line.
    pub blocked: bool,
}

/// Height of the datum on the centreline above the keel: the usual one, or clear above what
/// stands on the centreline.
#[must_use]
pub fn datum_height(placement: &Placement) -> Length {
    let clear = Length::new::<inch>(DATUM_CLEAR_IN);
    let above = centre_obstacle_top(placement).map_or(Length::default(), |top| top + clear);
    Length::new::<inch>(DATUM_IN).max(Length::new::<inch>(above.get::<inch>().ceil()))
}

/// Top of the highest thing on the centreline, above the keel.
pub(super) fn centre_obstacle_top(placement: &Placement) -> Option<Length> {
    placement
        .transom
        .obstacles
        .iter()
        .filter(|thing| thing.off_centre.abs() < thing.width / 2.0)
        .map(|thing| thing.to)
        .reduce(Length::max)
}

pub(super) fn checks(placement: &Placement) -> Vec<Check> {
    let hinge = placement.transom.hinge_height;
    let point = |along: Length| {
        let metres = |length: Length| length.get::<meter>();
        [placement.off_centre(along, hinge), placement.above_keel(along, hinge)].map(metres)
    };
    let (inner, outer) = (point(placement.inner), point(placement.outer));
    let datum = [0.0, datum_height(placement).get::<meter>()];
    let mirrored = [-inner[0], inner[1]];
    let between = |a: [f64; 2], b: [f64; 2]| Length::new::<meter>((a[0] - b[0]).hypot(a[1] - b[1]));
    let blocked = centre_obstacle_top(placement).is_some();
    let check = |kind, length, blocked| Check { kind, length, blocked };
    vec![
        check(CheckKind::CentreToInner, placement.inner, false),
        check(CheckKind::CentreToOuter, placement.outer, false),
        check(CheckKind::ChineToOuter, placement.edge() - placement.outer, false),
        check(CheckKind::EdgeToHinge, hinge, false),
        check(CheckKind::DatumToInner, between(datum, inner), blocked),
        check(CheckKind::DatumToOuter, between(datum, outer), blocked),
        check(CheckKind::Cross, between(mirrored, outer), blocked),
    ]
}
