//! Holes: those that hold the hinge first, since bracket and lead-through follow from it.

use uom::si::f64::Length;
use uom::si::length::meter;

use super::{Step, opening};
use crate::mark::hardware::ActuatorKind;
use crate::mark::holes::{DrillLine, Hole, HoleKind, Pilot};
use crate::mark::placement::Placement;
use crate::mark::say::{Next, Say};

pub(super) fn steps(placement: &Placement, say: Say) -> Vec<Step> {
    vec![
        hinge_holes(placement, say),
        bracket_place(placement, say),
        bracket_holes(placement, say),
        lead_through(placement, say),
        seal_cores(),
    ]
}

fn line_of(placement: &Placement, kind: HoleKind) -> Option<DrillLine> {
    placement.drill_table().into_iter().find(|line| line.kind == kind)
}

/// How many there are.
fn counted(line: &DrillLine) -> String {
    format!("{} a side, {} on the boat", line.per_side, line.total)
}

/// Pilots of screws of this diameter.
fn pilots(placement: &Placement, kind: HoleKind, say: Say) -> Option<String> {
    let line = line_of(placement, kind)?;
    let screws = &placement.hardware;
    let diameter = match kind {
        HoleKind::HingePilot => screws.hinge_screws.diameter,
        _ => screws.bracket_screws.diameter,
    };
    let pilot = Pilot::of(diameter);
    let depth = line.depth.map_or_else(String::new, |depth| say.length(depth));
    Some(format!(
        "Pilots of {} in softwood or plywood of softwood, {} in hardwood, {depth} deep, {}. Try one \
         in an offcut of the same make-up: the screw must go in by hand without a creak, and hold. \
         Through a skin of laminate open the hole to the root of the screw, {}, and bevel its rim to \
         the width of the thread, so that the skin does not chip.",
        say.drill(pilot.soft, Next::Nearest),
        say.drill(pilot.hard, Next::Nearest),
        counted(&line),
        say.drill(pilot.root, Next::Nearest)
    ))
}

/// Holes of bolts.
fn through(placement: &Placement, kind: HoleKind, say: Say) -> Option<String> {
    let line = line_of(placement, kind)?;
    let drill = line.drill.map_or_else(String::new, |drill| say.drill(drill, Next::Larger));
    Some(format!("{drill} right through, square to the transom, {}.", counted(&line)))
}

fn hinge_holes(placement: &Placement, say: Say) -> Step {
    let bolted = through(placement, HoleKind::HingeBolt, say);
    let holes = bolted.or_else(|| pilots(placement, HoleKind::HingePilot, say));
    Step::new(
        "Drill for the hinges",
        "the bracket's place is found with the hinge hanging, so the hinge comes first; and its \
         first hole tells what the transom is made of while there is only one.",
        format!(
            "{}Prick the holes through the leaf itself. One end hole first; then the other end, the \
             leaf hung on both and looked along; then the rest. {}",
            opening::of_leaf(placement, say),
            holes.unwrap_or_default()
        ),
    )
    .with_caution(
        "someone inside with a light, hands away, a stop on the drill. Wet or rotten dust, no core, \
         foam, or metal: stop, close the hole, and ask the builder how planes are to be fastened.",
    )
}

fn bracket_place(placement: &Placement, say: Say) -> Step {
    let above = placement.brackets.first().map_or_else(String::new, |b| say.length(b.above_hinge));
    let sides: Vec<String> =
        placement.brackets.iter().map(|bracket| say.length(bracket.off_centre)).collect();
    Step::new(
        "Set the gauge and find the brackets",
        "the bracket's height sets how far up the plane stands, and only the hung plane shows it.",
        format!(
            "Hinge hung, actuator fully in and pinned to the plane. {} hold a straightedge to the \
             bottom so that it runs out aft, and set the trailing edge {} above it on a block of that \
             height: the plane then points up by {}, clear of the water \
             that leaves the edge (the wish transom.retracted_angle; 1 to 3 deg is common practice, \
             no source). Bring the bracket to the transom on the actuator's own line. Its pin should \
             come out {above} above the hinge line along the face, {} off the centreline, level. The \
             gauge wins; more than {} away from these figures, find out why first. Both sides alike.",
            gauge_place(placement, say),
            say.length(placement.gauge.trailing_edge),
            say.angle(placement.gauge.angle_up()),
            sides.join(" and "),
            say.custom("5", "3/16")
        ),
    )
    .with_caution("actuator disconnected from its supply, fingers out of the linkage.")
}

/// Where the straightedge is held: beside a strake that runs out under the middle of the span.
fn gauge_place(placement: &Placement, say: Say) -> String {
    let at = placement.gauge_along();
    if at == placement.middle() {
        return "Under the middle of the span".to_owned();
    }
    format!(
        "At {} along the bottom edge from the centreline (a strake runs out under the middle of the \
         span)",
        say.length(at)
    )
}

fn bracket_holes(placement: &Placement, say: Say) -> Step {
    let bolted = through(placement, HoleKind::BracketBolt, say);
    let holes = bolted.or_else(|| pilots(placement, HoleKind::BracketPilot, say));
    Step::new(
        "Drill for the brackets",
        "their place has just been found on the hung plane.",
        format!(
            "{}Pricked through the bracket itself. {}",
            opening::of_bracket(placement, say),
            holes.unwrap_or_default()
        ),
    )
}

fn lead_through(placement: &Placement, say: Say) -> Step {
    let what = match placement.hardware.actuator {
        ActuatorKind::Hydraulic => "the tube",
        ActuatorKind::Electric => "the cable with its plug",
        ActuatorKind::Open => "the tube, or the cable with its plug",
    };
    let line = line_of(placement, HoleKind::Lead);
    let drill = line.as_ref().and_then(|line| line.drill);
    let total = line.as_ref().map_or(0, |line| line.total);
    let size = drill.map_or_else(
        || {
            format!(
                "as wide as the maker of the part states; where nothing is stated, as wide as the \
                 largest part of {what} and {} more: ________",
                say.custom("2", "1/16")
            )
        },
        |drill| {
            format!(
                "{}: {what} and the sealant round it; what the maker of the part states comes first",
                say.drill(drill, Next::Larger)
            )
        },
    );
    let height = height_of_lead(placement);
    let two = placement.hardware.has_two_tubes();
    let number = if two {
        format!(
            "{} on the boat, one for each of the two tubes of a cylinder, side by side along, or {total} \
             where their maker's fitting takes both through one",
            2 * total
        )
    } else {
        format!("{total} on the boat, one for each actuator")
    };
    let tubes = match placement.hardware.actuator {
        ActuatorKind::Open => {
            "Do two tubes come from a cylinder, each has its own hole of its own size, side by side \
             along, unless their maker's fitting takes both through one. "
        }
        ActuatorKind::Electric | ActuatorKind::Hydraulic => "",
    };
    let widest = widest_lead(placement).map_or_else(String::new, |widest| {
        format!(
            "Between the bracket's fastenings no hole is wider than {}, or a washer loses its seat. ",
            say.at_most(widest)
        )
    });
    Step::new(
        "Drill the lead-through",
        "where it comes out depends on the bracket, and it is the one hole that a leak would follow \
         inside: only now is it known that everything else fits.",
        format!(
            "{number}, {size}. {tubes}{widest}Through the passage of \
             the bracket in hand where it has one, else beside it and higher. {height} A fitting that wants the hole widened for a nut \
             or a gland: as its maker states. A backing plate behind it has the same hole."
        ),
    )
    .with_caution(
        "this hole meets tanks, hoses and cables: someone inside with a light, hands away, a stop on \
         the drill.",
    )
}

/// The widest hole at the foot of the pin that leaves the washers of its bracket's fastenings their
/// seat; none where the nearest leave none.
fn widest_lead(placement: &Placement) -> Option<Length> {
    let lead = placement.holes.iter().find(|hole| hole.kind == HoleKind::Lead)?;
    let washer = placement.holding.bolts.bracket.bolts().map_or_else(
        || 2.0 * placement.hardware.bracket_screws.diameter,
        |pattern| pattern.bolt.washer(),
    );
    let of_bracket =
        |kind: HoleKind| matches!(kind, HoleKind::BracketPilot | HoleKind::BracketBolt);
    let apart = |hole: &Hole| {
        let (along, up) = (hole.along - lead.along, hole.up - lead.up);
        Length::new::<meter>(along.get::<meter>().hypot(up.get::<meter>()))
    };
    let nearest = placement
        .holes
        .iter()
        .filter(|hole| of_bracket(hole.kind))
        .map(apart)
        .reduce(Length::min)?;
    Some(2.0 * nearest - washer).filter(|widest| *widest > Length::default())
}

/// Whether the hole stands above the waterline at rest.
fn height_of_lead(placement: &Placement) -> &'static str {
    let Some(waterline) = placement.waterline() else {
        return "Where the hardware allows it, above the waterline at rest.";
    };
    let heights = placement.brackets.iter().map(|b| placement.above_keel(b.along, b.up));
    let lowest = heights.reduce(Length::min);
    if lowest.is_some_and(|lowest| lowest > waterline) {
        "As marked it lies ABOVE the waterline at rest, and under water as she gathers way or backs."
    } else {
        "As marked it lies BELOW the waterline at rest: a fitting made for that, with its own seal, \
         or lead it higher."
    }
}

fn seal_cores() -> Step {
    Step::new(
        "Seal the bare core",
        "bedding sticks to sealed wood alone, and the resin must set before anything is bedded.",
        "Every hole: dry, dust out, thin epoxy into the core of the whole hole, let it set as its data \
         sheet says, and clear it with the drill by hand.",
    )
}
