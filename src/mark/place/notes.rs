//! Which of the things to know apply to a placement.

use uom::si::angle::{degree, radian};
use uom::si::f64::{Angle, Length};
use uom::si::length::{inch, meter, millimeter};

use crate::boat::{Boat, TransomForm};
use crate::mark::holes::HoleKind;
use crate::mark::note::{Note, USUAL_OUTER_MM};
use crate::mark::placement::Placement;
use crate::mark::symmetry::centre_obstacle_top;

/// Move of the bracket from its listed height that is worth a word, inches; chosen here.
const MOVED_IN: f64 = 1.0 / 16.0;
/// Rake that is worth a word, degrees; chosen here.
const RAKED_DEG: f64 = 1.0;

/// What applies to a placement whose bracket was moved by so much, up positive.
pub(super) fn notes(placement: &Placement, moved: Length, boat: &Boat) -> Vec<Note> {
    let hardware = &placement.hardware;
    let outer_gap = placement.edge() - placement.outer;
    let outside = |x: f64| x < USUAL_OUTER_MM.0 - 0.1 || x > USUAL_OUTER_MM.1 + 0.1;
    let moved_inboard = outer_gap > placement.transom.outer_clearance + Length::new::<meter>(1e-6);
    let most = placement.travel.1;
    let hinge = &placement.hinge;
    let transom = &placement.transom;
    let unknown = hardware.lead_through.is_none();
    let of_transom = [
        transom.unevenness.map(Note::Uneven),
        (transom.lower_edge_radius > Length::default())
            .then_some(Note::EdgeRound(transom.lower_edge_radius)),
        (transom.form != TransomForm::Plain).then_some(Note::Form(transom.form)),
        (transom.rake.get::<degree>().abs() >= RAKED_DEG)
            .then_some(Note::Raked { rake: transom.rake, is_computed: hardware.is_chosen() }),
        too_long(placement),
        placement.inside_propeller_water().map(Note::InnerEdgeNear),
    ];
    let all = [
        (boat.has_estimated_transom(), Note::TransomEstimated),
        (!boat.input().as_fitted.is_empty(), Note::AsFitted),
        (!hardware.is_chosen(), Note::UsualHardware),
        (hinge.is_raised(), Note::HingeRaised(hinge.height, dead_bands(placement))),
        (hinge.is_too_low(), Note::HingeTooLow(hinge.least)),
        (
            !moved_inboard && outside(outer_gap.get::<millimeter>()),
            Note::OuterEdgeUnusual(outer_gap),
        ),
        (moved_inboard, Note::MovedInboard),
        (hardware.is_chosen() && moved.abs().get::<inch>() > MOVED_IN, Note::BracketMoved(moved)),
        (hardware.is_chosen() && unknown, Note::LeadThroughUnknown),
        (lead_at_screw(placement), Note::LeadAtScrew),
        (most.get::<degree>() > 15.0 + 1e-6, Note::TravelBeyondTested(most)),
        (centre_obstacle_top(transom).is_some(), Note::CentreTaken),
    ];
    let all = all.into_iter().filter_map(|(applies, note)| applies.then_some(note));
    all.chain(of_transom.into_iter().flatten()).collect()
}

/// Deflection from which a plane works, with the hinge as computed and as marked.
fn dead_bands(placement: &Placement) -> [Angle; 2] {
    let chord = placement.pair.chord;
    [placement.hinge.planned, placement.hinge.height].map(|height| {
        let share: f64 = (height / chord).into();
        Angle::new::<radian>(share.clamp(-1.0, 1.0).asin())
    })
}

/// Screws that hold, and are longer than the transom is thick.
fn too_long(placement: &Placement) -> Option<Note> {
    let thickness = placement.transom.thickness?;
    let hardware = &placement.hardware;
    let bolts = &placement.holding.bolts;
    let held = [
        (bolts.hinge.bolts().is_none(), hardware.hinge_screws.length),
        (bolts.bracket.bolts().is_none(), hardware.bracket_screws.length),
    ];
    let longer = held.into_iter().any(|(by_screws, length)| by_screws && length >= thickness);
    longer.then_some(Note::ScrewTooLong(thickness))
}

/// Whether a bracket screw stands in the hole that leads through, or within its own radius of it.
fn lead_at_screw(placement: &Placement) -> bool {
    let screw = placement.hardware.bracket_screws.diameter;
    let of_kind = |kind| placement.holes.iter().filter(move |hole| hole.kind == kind);
    of_kind(HoleKind::Lead).any(|lead| {
        let Some(drill) = lead.drill else { return false };
        of_kind(HoleKind::BracketPilot).chain(of_kind(HoleKind::BracketBolt)).any(|hole| {
            let (along, up) = (hole.along - lead.along, hole.up - lead.up);
            along.get::<meter>().hypot(up.get::<meter>()) < (0.5 * drill + screw).get::<meter>()
        })
    })
}
