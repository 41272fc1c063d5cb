//! Which of the things to know apply to a placement.

use uom::si::angle::degree;
use uom::si::f64::Length;
use uom::si::length::{inch, meter};

use crate::boat::Boat;
use crate::mark::holes::{BRACKET_PILOT_IN, HINGE_PILOT_IN, HoleKind, pilot};
use crate::mark::note::{LEAST_INNER_IN, Note, USUAL_OUTER_IN};
use crate::mark::placement::Placement;
use crate::mark::symmetry::centre_obstacle_top;

/// Move of the bracket from its listed height that is worth a word, inches; chosen here.
const MOVED_IN: f64 = 1.0 / 16.0;

/// What applies to a placement whose bracket was moved by so much, up positive.
pub(super) fn notes(placement: &Placement, moved: Length, boat: &Boat) -> Vec<Note> {
    let (hardware, bolts) = (&placement.hardware, &placement.holding.bolts);
    let outer_gap = placement.edge() - placement.outer;
    let outside = |x: f64| x < USUAL_OUTER_IN.0 - 0.01 || x > USUAL_OUTER_IN.1 + 0.01;
    let moved_inboard = outer_gap > placement.transom.outer_clearance + Length::new::<meter>(1e-6);
    let fits = |usual_in, screw| pilot(usual_in, screw).1;
    let most = placement.travel.1;
    let height = placement.transom.hinge_height;
    [
        (boat.has_estimated_transom(), Note::TransomEstimated),
        (!hardware.is_chosen(), Note::UsualHardware),
        (!placement.gauge.chord_within_facts, Note::ChordOutsideFacts),
        (!placement.gauge.hinge_as_in_facts, Note::HingeHeightUnusual(height)),
        (
            placement.inner.get::<inch>() < LEAST_INNER_IN - 0.01,
            Note::InnerEdgeNear(placement.inner),
        ),
        (!moved_inboard && outside(outer_gap.get::<inch>()), Note::OuterEdgeUnusual(outer_gap)),
        (moved_inboard, Note::MovedInboard),
        (hardware.is_chosen() && moved.abs().get::<inch>() > MOVED_IN, Note::BracketMoved(moved)),
        (
            bolts.hinge.bolts().is_none() && !fits(HINGE_PILOT_IN, hardware.hinge_screws.diameter),
            Note::HingePilotUnusual,
        ),
        (
            bolts.bracket.bolts().is_none()
                && !fits(BRACKET_PILOT_IN, hardware.bracket_screws.diameter),
            Note::BracketPilotUnusual,
        ),
        (counterbore_at_screw(placement), Note::CounterboreAtScrew),
        (most.get::<degree>() > 15.0 + 1e-6, Note::TravelBeyondTested(most)),
        (centre_obstacle_top(&placement.transom).is_some(), Note::CentreTaken),
    ]
    .into_iter()
    .filter_map(|(applies, note)| applies.then_some(note))
    .collect()
}

/// Whether a bracket screw stands in the counterbore, or within its own radius of it.
fn counterbore_at_screw(placement: &Placement) -> bool {
    let screw = placement.hardware.bracket_screws.diameter;
    let of_kind = |kind| placement.holes.iter().filter(move |hole| hole.kind == kind);
    of_kind(HoleKind::Counterbore).any(|bore| {
        of_kind(HoleKind::BracketPilot).chain(of_kind(HoleKind::BracketBolt)).any(|hole| {
            let (along, up) = (hole.along - bore.along, hole.up - bore.up);
            along.get::<meter>().hypot(up.get::<meter>())
                < (0.5 * bore.drill + screw).get::<meter>()
        })
    })
}
