//! Materials, what to accept after fitting, and living with planes.

use uom::si::angle::radian;
use uom::si::f64::{Angle, Length};
use uom::si::length::millimeter;

use crate::document::Block;
use crate::mark::accepted::{HEIGHT, PAIR};
use crate::mark::hardware::ActuatorKind;
use crate::mark::holes::{HoleKind, LEAD_SHARE};
use crate::mark::placement::Placement;
use crate::mark::say::{Next, Say};
use crate::stock::assess::BoltPattern;

pub(super) fn blocks(placement: &Placement, say: Say) -> Vec<Block> {
    let list = |title: &str, points| [Block::Section(title.to_owned()), Block::Points(points)];
    [
        list("Materials", materials(placement, say)),
        list(
            "What to measure after fitting, and what to accept (common practice)",
            acceptance(placement, say),
        ),
        list("Living with planes", LIVING.map(str::to_owned).to_vec()),
    ]
    .concat()
}

fn materials(placement: &Placement, say: Say) -> Vec<String> {
    let hardware = &placement.hardware;
    let table = placement.drill_table();
    let count =
        |kind: HoleKind| table.iter().find(|line| line.kind == kind).map_or(0, |line| line.total);
    let screw = |diameter: Length, length: Length| {
        format!("{} across, {} under the head", say.screw(diameter), say.length(length))
    };
    let (hinge, bracket) = (&hardware.hinge_screws, &hardware.bracket_screws);
    let actuators = 2 * hardware.actuator_positions.len();
    let mut list = vec![
        format!(
            "2 planes with hinges, span {}, chord {}; {actuators} actuators with upper brackets, \
             pins and pin locks",
            say.length(placement.pair.span),
            say.length(placement.pair.chord)
        ),
        match placement.holding.bolts.hinge.bolts() {
            Some(pattern) => bolts(pattern, count(HoleKind::HingeBolt), 2, "hinges", say),
            None => format!(
                "{} hinge screws, {}, stainless, and a few to spare",
                count(HoleKind::HingePilot),
                screw(hinge.diameter, hinge.length)
            ),
        },
        match placement.holding.bolts.bracket.bolts() {
            Some(pattern) => {
                bolts(pattern, count(HoleKind::BracketBolt), actuators, "brackets", say)
            }
            None => format!(
                "{} bracket screws, {}, stainless, and a few to spare",
                count(HoleKind::BracketPilot),
                screw(bracket.diameter, bracket.length)
            ),
        },
        "Bedding sealant for below the waterline, with its data sheet and the cleaner that it names; \
         thin epoxy for bare core; rags"
            .to_owned(),
        format!(
            "Drills: {}{}; depth stop or tape",
            drill_list(placement, say),
            if table.iter().any(|line| line.kind.is_pilot()) {
                "; countersink for the bevels of the screw holes"
            } else {
                ""
            }
        ),
        format!(
            "Gauge block {} high; straightedge longer than the chord by half; tape, plumb line, \
             spirit level, square, pencil, masking tape, centre punch",
            say.length(placement.gauge.trailing_edge)
        ),
        "Eye protection, respirator, gloves; chocks and wheel wedges; lamp for the second person \
         inside"
            .to_owned(),
    ];
    let tubes = "Hydraulic pump unit with its oil, tube, clips and the fittings that both their makers name";
    let cable = "Switch with indicator, fuse and holder, tinned cable, crimps, sealed connectors";
    match hardware.actuator {
        ActuatorKind::Hydraulic => list.extend([tubes.to_owned(), cable.to_owned()]),
        ActuatorKind::Electric => list.push(cable.to_owned()),
        ActuatorKind::Open => {
            list.extend([format!("If hydraulic: {}", lower_first(tubes)), cable.to_owned()]);
        }
    }
    list.push(
        "Where plane or bracket are of aluminium: sleeves and washers of plastic, or barrier paste, for \
         every stainless fastening"
            .to_owned(),
    );
    list.push("Anodes for the planes, and paint that suits their metal".to_owned());
    list
}

/// Bolts with what belongs to them.
fn bolts(pattern: &BoltPattern, count: usize, plates: usize, what: &str, say: Say) -> String {
    let [across, up] = pattern.backing_across_and_up();
    format!(
        "{count} metric bolts {} for the {what}, stainless A4-70, as long as transom, backing plate, washer, \
         nut and two threads, each with a washer of {} or wider and a locking nut, and a few to spare; \
         {plates} backing plates of stainless 316, {} across by {} up, {} thick, edges and corners rounded, holes {}",
        pattern.bolt.name(),
        say.at_least(pattern.bolt.washer()),
        say.at_least(across),
        say.at_least(up),
        say.at_least(pattern.backing.thickness),
        if pattern.between_rows > Length::default() {
            format!(
                "in two rows {} apart across, {} from one to the next up",
                say.length(pattern.between_rows),
                say.length(pattern.spacing)
            )
        } else {
            "in one row across, as in the leaf".to_owned()
        }
    )
}

fn drill_list(placement: &Placement, say: Say) -> String {
    let mut drills: Vec<String> = Vec::new();
    for line in placement.drill_table() {
        match line.drill {
            Some(drill) if line.kind.is_pilot() => {
                let root = drill / LEAD_SHARE.0;
                let wood = [LEAD_SHARE.0, LEAD_SHARE.1, 1.0].map(|share| root * share);
                drills.extend(wood.map(|drill| say.drill(drill, Next::Nearest)));
            }
            Some(drill) => drills.push(say.drill(drill, Next::Larger)),
            None => drills.push("one for the lead-through".to_owned()),
        }
    }
    let mut kept: Vec<String> = Vec::new();
    for drill in drills {
        if !kept.contains(&drill) {
            kept.push(drill);
        }
    }
    kept.join(", ")
}

fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// What 2 mm at the trailing edge are in deflection.
fn small_angle(placement: &Placement) -> Angle {
    let share: f64 = (Length::new::<millimeter>(2.0) / placement.pair.chord).into();
    Angle::new::<radian>(share.min(1.0).asin())
}

fn acceptance(placement: &Placement, say: Say) -> Vec<String> {
    let (small, pair) = (HEIGHT.said(say), PAIR.said(say));
    vec![
        format!(
            "Hinge line {} above the bottom edge at both ends of both planes: accept {small} either \
             way, but nowhere below the bottom edge.",
            say.length(placement.hinge.height)
        ),
        format!(
            "Trailing edge at mid-span, retracted, {} above the straightedge: accept {small}; port and \
             starboard within {small} of each other, which is {} of deflection.",
            say.length(placement.gauge.trailing_edge),
            say.angle(small_angle(placement))
        ),
        format!("All pairs of the symmetry table: port and starboard within {pair}."),
        format!(
            "Trailing edge at full stroke, inner and outer corner: within {pair} of each other, and port \
             like starboard; more means a twisted plane or a bent hinge."
        ),
        "Time for the full stroke, down and up: port and starboard within a tenth of each other, \
         and no longer when hot. Current within the maker's figure; less than a twentieth of the \
         battery's voltage lost at the motor."
            .to_owned(),
        "Planes down for an hour ashore, supply off: no creep, no oil. No water inside after an \
         hour afloat."
            .to_owned(),
    ]
}

const LIVING: [&str; 5] = [
    "Grounding: planes up before shoals, beaches and slipways; they and the drive are the first to \
     touch, and a plane that is down passes the blow to its actuator. After a knock look at hinge, \
     pins, actuator, bracket and gauge height before the next run.",
    "Trailer: planes up, clear of rollers, bunks and lights; look again where the ramp is \
     steepest, and after the first stretch of rough road.",
    "Lifting: mark the plane's place on the topsides so that slings never bear on plane, hinge or \
     actuator; straps forward of them.",
    "Astern: planes up. Going astern with planes down loads hinge, linkage and screws the wrong \
     way and can throw the stern about.",
    "Every season: screws, pins, hoses or harness, anodes, growth in the linkage; the gauge height \
     once. Growth and a bent plate change what a step on the switch does.",
];
