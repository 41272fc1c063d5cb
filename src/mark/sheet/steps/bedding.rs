//! Bedding, and what is connected once it has cured: tubes and bonding dry, then the battery, and
//! only then oil under pressure.

use super::Step;
use crate::mark::hardware::ActuatorKind;
use crate::mark::placement::Placement;
use crate::plane::actuator::Actuator;

pub(super) fn steps(placement: &Placement) -> Vec<Step> {
    let mut steps = vec![hinges(placement), brackets(placement), cure()];
    let has_oil = placement.hardware.actuator != ActuatorKind::Electric;
    steps.extend(has_oil.then(tubes));
    steps.extend([bonding(), supply(placement)]);
    steps.extend(has_oil.then(filling));
    steps
}

/// How bolts or screws are drawn tight. Common practice, no source.
const fn tightened(bolted: bool) -> &'static str {
    if bolted {
        "Bolts from outside; inside, with someone there, backing plate, washers and locking nuts. \
         Draw them up a little at a time from the middle outward, to the torque that the papers of \
         bolt and sealant state; where nothing is stated, until sealant shows all round and before \
         the wood gives."
    } else {
        "Screws by hand, from the middle outward, until the leaf lies flat and sealant shows all \
         round; then stop: one that turns on without getting tighter has torn its thread, and is \
         replaced by a bolt."
    }
}

/// Stainless fastenings in aluminium.
const INSULATED: &str = "A plane or bracket of aluminium is kept apart from stainless fastenings: sleeves and washers of \
     plastic, or barrier paste on shank and under the head, as its maker's papers say.";

/// Where the backing plate of the hinge ends below, and what to do where the fillet is in its way.
fn seat(placement: &Placement) -> &'static str {
    if placement.holding.bolts.hinge.bolts().is_some() {
        " A backing plate must lie flat on the transom: where it would lie on the fillet between bottom \
         and transom, stop and ask the builder for a bevelled seat, or for a leaf that stands higher."
    } else {
        ""
    }
}

fn hinges(placement: &Placement) -> Step {
    Step::new(
        "Bed and fasten the hinges",
        "the leaf lies against the transom alone, the bracket follows from actuator and plane.",
        format!(
            "Clean faces with what the sealant's data sheet names. Sealant for below the waterline \
             into every hole, round every fastening and over the whole face of the leaf. {INSULATED} {}{}",
            tightened(placement.holding.bolts.hinge.bolts().is_some()),
            seat(placement)
        ),
    )
    .with_caution("no sealant at some place is a leak at that place: take it off and bed it again.")
}

fn brackets(placement: &Placement) -> Step {
    Step::new(
        "Bed and fasten the brackets",
        "the gauge is checked for the last time while the sealant still lets the bracket move.",
        format!(
            "Tube or cable led through first, sealant packed round it over the whole thickness. {} \
             Pin the actuators, lock the pins, check the gauge height on both sides.",
            tightened(placement.holding.bolts.bracket.bolts().is_some())
        ),
    )
}

fn cure() -> Step {
    Step::new(
        "Clean up, and wait for the cure",
        "a joint that is moved or wetted before it has cured leaks later.",
        "Take off what was squeezed out with what the sealant's data sheet names: some sealants do not \
         cure where the wrong cleaner was used. Write down when it will have cured, by the data sheet \
         and the temperature. Until then the boat stays ashore and nobody works the planes.",
    )
}

fn tubes() -> Step {
    Step::new(
        "Lay and tighten the tubes",
        "tubes are pulled at while they are led, so not before the fittings sit in cured sealant.",
        "From the pump to each cylinder, as the papers of both show. Ends cut square and clean, no kink, clipped, away from exhaust, steering \
         and sharp edges. Every fitting tightened as its maker states; where nothing is stated, \
         hand-tight and a little more. No oil yet: the pump has no supply.",
    )
}

fn filling() -> Step {
    Step::new(
        "Fill, bleed and test at pressure (hydraulic)",
        "the pump runs only with its supply, and every joint must stand before oil is behind it.",
        "Fill with the oil that the pump's maker names, and work the air out with the planes free. Then \
         full pressure at either end of the travel, with someone looking at every fitting from a step \
         away. One that weeps: pressure off, a little tighter, and again, no further than it takes. Top up \
         the oil with the planes up.",
    )
    .with_caution("let the pressure off before a fitting is touched; oil stays out of the bilge.")
}

fn supply(placement: &Placement) -> Step {
    let cable = if matches!(placement.hardware.drive, Some(Actuator::Electric(_))) {
        "by the table of lengths"
    } else {
        "by the papers of pump or actuator and the length of its way"
    };
    Step::new(
        "Electrical supply",
        "everything it moves or protects is in its place; the battery comes last, so that nothing moves \
         or sparks while hands are near.",
        format!(
            "A circuit of its own, its fuse as near the battery as the local code asks, tinned cable \
             {cable}, joints crimped and sealed above the bilge water, a drip loop before each. \
             Ignition-protected parts where petrol vapour can gather."
        ),
    )
    .with_caution("battery connected last; a licensed electrician if any of this is new to you.")
}

fn bonding() -> Step {
    Step::new(
        "Bonding and anodes",
        "it is joined to metal that is now in its place.",
        "Different metals eat each other in salt water: fastenings of the grade of the hinge, or \
         insulated from it; an anode \
         on each plane if its maker allows it, on clean metal and never painted; planes joined to the \
         boat's bonding only if the whole boat is bonded, and as the drive's maker advises. No copper \
         paint on aluminium.",
    )
}
