//! Bolts that are thicker than the holes of the part they go through.

use uom::si::f64::Length;

use crate::mark::placement::Placement;
use crate::mark::say::{Next, Say};
use crate::stock::assess::BoltPattern;

/// Least distance from the middle of a bolt's hole to the edge of its plate, over the hole's own
/// width (EN 1993-1-8, table 3.3, from memory).
const EDGE_OVER_HOLE: f64 = 1.2;
/// By how much a hole may be narrower than the bolt's own and still be called the same, metres.
const SAME_HOLE_M: f64 = 5e-4;

/// Bolts of the hinge leaf.
pub(super) fn of_leaf(placement: &Placement, say: Say) -> String {
    let screws = &placement.hardware.hinge_screws;
    let edge = screws.edge_distance.min(screws.leaf_height - screws.row_height);
    let bolts = placement.holding.bolts.hinge.bolts();
    text(placement, bolts, ("hinge leaf", screws.diameter, edge), say)
}

/// Bolts of the upper bracket.
pub(super) fn of_bracket(placement: &Placement, say: Say) -> String {
    let screws = &placement.hardware.bracket_screws;
    let bolts = placement.holding.bolts.bracket.bolts();
    text(placement, bolts, ("bracket", screws.diameter, screws.edge_distance), say)
}

/// What to do before the transom is drilled for bolts; empty where screws hold, or the holes are
/// wide enough.
fn text(
    placement: &Placement,
    bolts: Option<&BoltPattern>,
    (what, own, edge): (&str, Length, Length),
    say: Say,
) -> String {
    let Some(pattern) = bolts else { return String::new() };
    let (bolt, hole) = (pattern.bolt.name(), pattern.bolt.hole);
    let drill = say.drill(hole, Next::Larger);
    if !placement.hardware.is_chosen() {
        return format!(
            "The {what} in hand must take {bolt}: where its own holes are narrower than {drill}, stop, \
             and ask its maker whether they may be opened. "
        );
    }
    if own + Length::new::<uom::si::length::meter>(SAME_HOLE_M) >= hole {
        return String::new();
    }
    let least = EDGE_OVER_HOLE * hole;
    let judged = format!(
        "from the middle of the hole to the edge there are {}, where bolts ask for {} (1.2 of the \
         hole, EN 1993-1-8, from memory)",
        say.length(edge),
        say.at_least(least)
    );
    if edge < least {
        return format!(
            "STOP: the {what}'s own holes are for screws of {} and too near its edge to be opened to \
             {drill} for {bolt}: {judged}. Ask its maker, or take another part. ",
            say.screw(own)
        );
    }
    format!(
        "The {what}'s own holes are for screws of {}: open them to {drill} for {bolt} first, on the \
         bench, once its maker agrees; {judged}. A countersink in them wants a washer that fills it. ",
        say.screw(own)
    )
}
