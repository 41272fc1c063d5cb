//! The work, step by step.

use uom::si::f64::Length;
use uom::si::length::inch;

use crate::document::Block;
use crate::mark::hardware::ActuatorKind;
use crate::mark::holes::{COUNTERBORE_IN, HoleKind, THROUGH_HOLE_IN};
use crate::mark::placement::Placement;
use crate::mark::say::Say;
use crate::mark::symmetry::datum_height;
use crate::plane::gauge::FACT_HINGE_IN;

/// How bolts are drawn tight. Common practice, no source.
const BOLTED: &str = "Bolts from outside, backing plate, wide washers and locking nuts inside, with \
     someone there; tighten from the middle outward, a turn at a time, by hand, until sealant \
     squeezes out visibly all round and before the wood begins to give; once more after the cure.";

/// One step: its title, what to do, and the caution that belongs there.
struct Step {
    title: &'static str,
    text: String,
    caution: Option<&'static str>,
}

fn step(title: &'static str, text: String, caution: Option<&'static str>) -> Step {
    Step { title, text, caution }
}

pub(super) fn blocks(placement: &Placement, say: Say) -> Vec<Block> {
    let steps = marking(placement, say)
        .into_iter()
        .chain(drilling(placement, say))
        .chain(connecting(placement));
    let title = Block::Section("Steps, in working order".to_owned());
    let blocks = steps.enumerate().flat_map(|(index, step)| {
        let caution = step.caution.map(|caution| format!("CAUTION: {caution}"));
        [Block::Heading(format!("{}. {}", index + 1, step.title)), Block::Paragraph(step.text)]
            .into_iter()
            .chain(caution.map(|caution| Block::Warnings(vec![caution])))
    });
    std::iter::once(title).chain(blocks).collect()
}

fn drill_of(placement: &Placement, kind: HoleKind, say: Say) -> (String, String, usize, usize) {
    let table = placement.drill_table();
    let line = table.iter().find(|line| line.kind == kind);
    line.map_or_else(
        || (String::new(), String::new(), 0, 0),
        |line| {
            let depth = line.depth.map_or_else(String::new, |depth| say.length(depth));
            (say.drill(line.drill), depth, line.per_side, line.total)
        },
    )
}

fn marking(placement: &Placement, say: Say) -> Vec<Step> {
    vec![
        kit(placement, say),
        centreline(placement, say),
        chines(placement, say),
        edges(placement, say),
        hinge_line(placement, say),
        symmetry(),
        dry_fit(),
    ]
}

fn kit(placement: &Placement, say: Say) -> Step {
    step(
        "Check the kit",
        format!(
            "Lay both planes, hinges, actuators and screws out against the materials list \
                 below. Each plane must measure {} by {}; swing each hinge through its travel; \
                 hold a screw beside its drill. Port and starboard planes may be handed: label \
                 them.",
            say.length(placement.pair.span),
            say.length(placement.pair.chord)
        ),
        None,
    )
}

fn centreline(placement: &Placement, say: Say) -> Step {
    let datum = say.length(datum_height(&placement.transom));
    step(
        "Find the centreline",
        format!(
            "Stretch a tape from chine corner to chine corner across the transom, which must \
                 read {}; halve it, and prove the half-way mark against the keel with a plumb \
                 line on a level boat; where they disagree the keel wins. Draw the centreline \
                 from the keel upward and put the datum on it {datum} above the keel.",
            say.length(placement.transom.beam)
        ),
        Some(
            "the boat must be level across and chocked; on a heeled boat the plumb line lies. \
                 Now look behind the transom, and chalk on the outside what stands there.",
        ),
    )
}

fn chines(placement: &Placement, say: Say) -> Step {
    let edge = placement.edge();
    step(
        "Mark the chines",
        format!(
            "Where a chine is rounded, take the corner where bottom and side would meet. The \
                 bottom edge must measure {} from centreline to chine on both sides; if the two \
                 sides differ, the hull is not quite symmetrical: keep the distances from the \
                 centreline alike and let the gaps to the chines differ.",
            say.length(edge)
        ),
        None,
    )
}

fn edges(placement: &Placement, say: Say) -> Step {
    let (inner, outer, edge) = (placement.inner, placement.outer, placement.edge());
    let level = |along| say.length(placement.off_centre(along, Length::default()));
    step(
        "Mark the edges of both planes",
        format!(
            "Along the bottom edge from the centreline, port and starboard: inner edge {}, \
                 outer edge {} (level: {} and {}). The outer edge then stands {} in from the \
                 chine.",
            say.length(inner),
            say.length(outer),
            level(inner),
            level(outer),
            say.length(edge - outer)
        ),
        None,
    )
}

fn hinge_line(placement: &Placement, say: Say) -> Step {
    let hinge = say.fine(placement.transom.hinge_height);
    let usual = say.fine(Length::new::<inch>(FACT_HINGE_IN));
    step(
        "Draw the hinge line",
        format!(
            "{hinge} above the bottom edge and parallel to it, from inner to outer edge, on \
                 both sides{}. It follows the deadrise: it is not level. Never lower: a hinge \
                 below the bottom edge drags and catches.",
            if placement.gauge.hinge_as_in_facts {
                String::new()
            } else {
                format!(" (usual is {usual})")
            }
        ),
        None,
    )
}

fn symmetry() -> Step {
    step(
        "Prove the symmetry",
        "Fill in the symmetry table below, all of it, before a drill is in the chuck. Anything \
             more than 3 mm (1/8 in) out: rub out and mark again."
            .to_owned(),
        None,
    )
}

fn dry_fit() -> Step {
    step(
        "Dry-fit",
        "Tape each plane in place with its hinge on the hinge line and its ends on the edge \
             marks. Swing it: over the whole travel nothing may touch drive, ladder, transducer \
             or the brackets of the swim platform, drive hard over and tilted as well. Prick the \
             hinge holes through the leaf itself: the leaf in hand wins over table 2, and the \
             two must agree within a screw's width."
            .to_owned(),
        None,
    )
}

fn drilling(placement: &Placement, say: Say) -> Vec<Step> {
    vec![
        hinge_pilots(placement, say),
        bracket_place(placement, say),
        bracket_pilots(placement, say),
        through_step(placement, say),
        bed_hinges(placement),
        bed_brackets(placement),
        clean_up(),
    ]
}

fn hinge_pilots(placement: &Placement, say: Say) -> Step {
    if placement.holding.bolts.hinge.bolts().is_some() {
        return bolt_holes(
            placement,
            HoleKind::HingeBolt,
            "Drill the bolt holes of the hinges",
            say,
        );
    }
    let (hinge_drill, hinge_depth, per_side, total) =
        drill_of(placement, HoleKind::HingePilot, say);
    step(
        "Drill the hinge pilots",
        format!(
            "{hinge_drill}, {hinge_depth} deep, {per_side} a side, {total} on the boat. Start \
                 with the two end holes, fit their screws dry, look along the hinge once more, \
                 then drill the rest. Square to the transom, tape flag on the drill."
        ),
        Some(
            "the first hole tells what the transom is made of. Wet or rotten dust, no core, or \
                 metal: stop, and ask the builder how planes are to be fastened to it.",
        ),
    )
}

/// Holes for through-bolts, of the hinges or of the brackets.
fn bolt_holes(placement: &Placement, kind: HoleKind, title: &'static str, say: Say) -> Step {
    let (drill, _, per_side, total) = drill_of(placement, kind, say);
    step(
        title,
        format!(
            "{drill} right through, square to the transom, {per_side} a side, {total} on the boat. \
                 Prick them through leaf or bracket itself. Start with two, fit their bolts dry with \
                 the backing plate behind, look along the hinge once more, then drill the rest. Seal \
                 the bare core of each hole at once with thin epoxy, and let it set."
        ),
        Some(
            "these holes meet tanks, hoses and cables, and the first tells what the transom is made \
                 of. Have someone inside with a light to watch, hands away, a stop on the drill. Wet or \
                 rotten dust, no core, or metal: stop, and ask the builder.",
        ),
    )
}

fn bracket_place(placement: &Placement, say: Say) -> Step {
    let gauge = say.fine(placement.gauge.trailing_edge);
    let above = placement.brackets.first().map_or_else(String::new, |b| say.length(b.above_hinge));
    let sides: Vec<String> =
        placement.brackets.iter().map(|bracket| say.length(bracket.off_centre)).collect();
    step(
        "Set the gauge and find the bracket",
        format!(
            "With the hinge held by its end screws and the actuator fully retracted and pinned \
                 to the plane, hold a straightedge along the bottom so that it runs out aft \
                 under the middle of the span. Raise the plane until its trailing edge stands \
                 {gauge} above the straightedge: a block of that height is the gauge. Swing the \
                 upper bracket to the transom on the middle line of the actuator and mark it. \
                 Its pin should come out about {above} above the hinge line, {} off the \
                 centreline measured level. The gauge wins over that number; if it differs by \
                 more than 6 mm (1/4 in), find out why first. Both sides the same.",
            sides.join(" and ")
        ),
        Some("keep fingers out of the linkage, and the actuator disconnected from its supply."),
    )
}

fn bracket_pilots(placement: &Placement, say: Say) -> Step {
    if placement.holding.bolts.bracket.bolts().is_some() {
        let title = "Drill the bolt holes of the brackets";
        return bolt_holes(placement, HoleKind::BracketBolt, title, say);
    }
    let (bracket_drill, bracket_depth, bracket_side, bracket_total) =
        drill_of(placement, HoleKind::BracketPilot, say);
    step(
        "Drill the bracket pilots",
        format!(
            "{bracket_drill}, {bracket_depth} deep, rims bevelled, {bracket_side} a side, \
                 {bracket_total} on the boat."
        ),
        None,
    )
}

fn bed_hinges(placement: &Placement) -> Step {
    let fastening = if placement.holding.bolts.hinge.bolts().is_some() {
        BOLTED
    } else {
        "Drive the screws from the middle outward until they draw the leaf flat and sealant \
             squeezes out visibly all round; then stop, by hand, not with a driver on full torque."
    };
    step(
        "Bed and fasten the hinges",
        format!(
            "Take the planes off again; dry, dust-free holes. Wipe the faces with 70 % alcohol, \
             or what the sealant's data sheet names, and let them dry. Marine polyurethane sealant into every hole, round every screw \
             or bolt and over the whole face of the leaf, edges too. {fastening}"
        ),
        Some(
            "no squeeze-out at some place means a leak at that place: take it off and bed it \
                 again.",
        ),
    )
}

fn bed_brackets(placement: &Placement) -> Step {
    let fastening =
        if placement.holding.bolts.bracket.bolts().is_some() { BOLTED } else { "With its screws." };
    step(
        "Bed and fasten the actuator brackets",
        format!(
            "Bedded like the hinges, tube or harness led through first with sealant packed round it \
             in the hole. {fastening} Pin the actuators, lock the pins, and check the gauge height \
             again before the sealant sets."
        ),
        None,
    )
}

fn clean_up() -> Step {
    step(
        "Clean up",
        "Tool the squeeze-out to a neat fillet and wipe off the rest with soapy water or 70 % \
             alcohol while it is soft, if the sealant's data sheet allows it: some cure badly \
             after alcohol. Let it cure for the time on its data sheet: the boat \
             stays ashore, and nobody works the planes."
            .to_owned(),
        None,
    )
}

fn through_step(placement: &Placement, say: Say) -> Step {
    let through = say.drill(Length::new::<inch>(THROUGH_HOLE_IN));
    let (wide, deep) = COUNTERBORE_IN;
    let (wide, deep) =
        (say.drill(Length::new::<inch>(wide)), say.length(Length::new::<inch>(deep)));
    let (_, _, _, total) = drill_of(placement, HoleKind::Through, say);
    let counterbore = format!(
        "For a hydraulic tube drill the counterbore first, {wide} and about {deep} deep from \
         outside, for the tube nut, then {through} on through its middle"
    );
    let text = match placement.hardware.actuator {
        ActuatorKind::Hydraulic => format!("{counterbore}; {total} on the boat."),
        ActuatorKind::Electric => format!("For the harness drill {through}; {total} on the boat."),
        ActuatorKind::Open => {
            format!("{counterbore}. For an electric harness {through} alone. {total} on the boat.")
        }
    };
    step(
        "Drill through",
        format!(
            "{text} Where the hardware allows it, above the waterline at rest. Seal the bare core \
             of each hole at once with thin epoxy or sealant, and let it set."
        ),
        Some(
            "this is the hole that meets tanks, hoses and cables. Have someone inside with a light \
             to watch, hands away from the spot, and put a stop on the drill.",
        ),
    )
}

fn connecting(placement: &Placement) -> Vec<Step> {
    let kind = placement.hardware.actuator;
    let mut steps = Vec::new();
    if kind != ActuatorKind::Electric {
        steps.push(step(
            "Connect the tubes",
            "Cut tube ends square and clean. Pipe-thread fittings: two turns past hand-tight. \
             Compression nuts: one turn past hand-tight, not more; an over-tightened nut kinks \
             the tube. Lead tubes without kinks, clipped, away from exhaust and steering. Fill \
             with the oil the pump's maker names and work the air out with the planes free."
                .to_owned(),
            Some("wipe up oil at once, and keep it out of the bilge."),
        ));
    }
    steps.extend([supply(placement), bonding()]);
    steps.extend(trying());
    steps
}

/// The circuit that feeds the planes.
fn supply(placement: &Placement) -> Step {
    let fuse = placement.hardware.fuse.map_or_else(
        || "of the rating that its maker gives".to_owned(),
        |fuse| {
            format!("of {:.1} A for each actuator", fuse.get::<uom::si::electric_current::ampere>())
                .replace(".0 A", " A")
        },
    );
    step(
        "Electrical supply",
        format!(
            "Own circuit with a fuse {fuse}, as near the battery as the local code asks. Tinned \
             cable sized for current and length there and back, so that the motor sees its \
             voltage; joints crimped, sealed, above the bilge water, with a drip loop before \
             each one."
        ),
        Some("battery connected last; a licensed electrician if any of this is new to you."),
    )
}

/// Different metals in salt water.
fn bonding() -> Step {
    step(
        "Bonding and anodes",
        "Planes, actuators, screws and hull fittings of different metals eat each other in salt \
         water. Screws of the same grade as the hinge; an anode on each plane if its maker \
         allows, with clean metal contact and never painted; join the planes to the boat's \
         bonding only if the whole boat is bonded, and follow the drive maker's advice on its \
         anodes. No copper bottom paint on aluminium planes."
            .to_owned(),
        None,
    )
}

/// From the first test ashore to the first run.
fn trying() -> Vec<Step> {
    vec![step(
        "Leak and function test ashore",
        "After the cure: hose the transom for ten minutes and look at every hole from inside. Work \
         both planes over the full travel five times: free, together, no knock, no oil, no warm \
         cable. Compare the indicator with the travel table. Port switch must do what its label \
         says: find out now, not at speed."
            .to_owned(),
        Some("nobody near the planes while they move."),
    ), step(
        "Launch and look again",
        "Look at every hole from inside when she floats, again after an hour, again after the \
         first run. A weep grows: haul out."
            .to_owned(),
        None,
    ), step(
        "First run",
        "Flat water, open water, everyone seated, kill cord on. Planes up at first. At a moderate \
         planing speed bring both down one small step at a time and wait after each; note trim \
         and feel of the helm. Then each side alone, a small step, to see which way she leans. \
         Only then a little faster. Never down at full speed until you know what a small step \
         does there."
            .to_owned(),
        Some(
            "too much plane at speed drives the bow down and she may broach. If the bow digs or \
             she steers by herself, throttle off gently and raise the planes.",
        ),
    )]
}
