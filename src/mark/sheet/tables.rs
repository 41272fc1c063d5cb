//! Positions, holes, drills, settings and the symmetry check as tables.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};

use crate::document::{Block, Column, Table};
use crate::mark::holes::{DrillLine, HoleKind, LEAD_SHARE};
use crate::mark::placement::Placement;
use crate::mark::say::{Next, Say};
use crate::mark::symmetry::{Check, CheckKind, datum_height};
use crate::plane::linkage::Linkage;
use crate::units::number_with_decimals;

/// Where a measured length is written in.
const BLANK: &str = "________";

pub(super) fn blocks(placement: &Placement, say: Say) -> Vec<Block> {
    let titled = |title: &str, table| [Block::Section(title.to_owned()), Block::Table(table)];
    let mut blocks = how(placement, say).to_vec();
    blocks.extend(titled("1. Edges and middle of each plane", edges(placement, say)));
    blocks.extend(titled(
        "2. Holes of one plane (port and starboard alike, mirrored)",
        holes(placement, say),
    ));
    blocks.extend(titled("3. Drill table", drills(placement, say)));
    blocks.push(Block::Section("4. Settings".to_owned()));
    blocks.push(Block::Points(settings(placement, say)));
    blocks.extend(travel(placement, say).map(Block::Table));
    blocks
}

/// A cell of each item.
fn cells<T>(items: &[T], cell: impl Fn(&T) -> String) -> Vec<String> {
    items.iter().map(cell).collect()
}

fn how(placement: &Placement, say: Say) -> [Block; 3] {
    let first = if placement.is_measured_from_chine() {
        "Step or pod cut the edge short of the centreline: here the ends are taken from the chine first \
         (table 1, 'from chine'), holes from the inner edge, and the distances from the centreline \
         prove them where a straightedge or a tape reaches. "
    } else {
        "Take every distance from the centreline, never from the mark before it, so that errors do not \
         add up. "
    };
    [
        Block::Section("How distances are taken".to_owned()),
        Block::Paragraph(format!(
            "'Along' is measured on the bottom edge of the hull itself, up the slope of the deadrise, \
             from the centreline outward. 'Level' is the same mark measured level across the boat \
             from the centreline, with a straightedge and a spirit level across a level boat. 'Up' \
             is square to the bottom edge, on the face of the transom. {first}Port is the \
             mirror image of starboard: the numbers are the same."
        )),
        Block::Paragraph(format!("All tables are in {}.", say.unit_words())),
    ]
}

fn edges(placement: &Placement, say: Say) -> Table {
    let zero = Length::default();
    let hinge = say.bare(placement.transom.hinge_height);
    let marks = [
        ("inner edge", placement.inner, hinge.as_str()),
        ("middle of the span", placement.middle(), &hinge),
        ("outer edge", placement.outer, &hinge),
        ("chine", placement.edge(), "-"),
    ];
    let along = || cells(&marks, |&(_, along, _)| say.bare(along));
    let level = || cells(&marks, |&(_, along, _)| say.bare(placement.off_centre(along, zero)));
    let chine = cells(&marks, |&(_, along, _)| say.bare(placement.edge() - along));
    let numbers = |name, cells| Column::numbers(name, say.symbol(), cells);
    Table {
        title: "Along and level from the centreline; along from the chine; up, at the hinge"
            .to_owned(),
        columns: vec![
            Column::words("mark", cells(&marks, |&(name, ..)| name.to_owned())),
            numbers("port along", along()),
            numbers("stbd along", along()),
            numbers("port level", level()),
            numbers("stbd level", level()),
            numbers("from chine", chine),
            numbers("up", cells(&marks, |&(_, _, up)| up.to_owned())),
        ],
        ..Table::default()
    }
}

fn holes(placement: &Placement, say: Say) -> Table {
    let holes = &placement.holes;
    let level = cells(holes, |hole| say.bare(placement.off_centre(hole.along, hole.up)));
    let inner = cells(holes, |hole| say.bare(hole.along - placement.inner));
    let numbers = |name, cells| Column::numbers(name, say.symbol(), cells);
    Table {
        title: "Along from inner edge and centreline; level from centreline; up from bottom edge"
            .to_owned(),
        columns: vec![
            Column::words("hole", cells(holes, |hole| hole.name.clone())),
            numbers("along, inner edge", inner),
            numbers("along, centreline", cells(holes, |hole| say.bare(hole.along))),
            numbers("level, centreline", level),
            numbers("up, bottom edge", cells(holes, |hole| say.bare(hole.up))),
            Column::words("drill", cells(holes, |hole| drill(hole.drill, hole.kind, say))),
        ],
        notes: vec![format!(
            "H: hinge leaf. B: upper bracket of the actuator. L: lead-through of tube or cable, shown at \
             the foot of the upper pin: take its place from the passage of the bracket in hand.{}",
            if placement.hardware.has_two_tubes() {
                " Each cylinder has two tubes and each L stands for both."
            } else {
                ""
            }
        )],
        ..Table::default()
    }
}

fn drills(placement: &Placement, say: Say) -> Table {
    let lines = placement.drill_table();
    let (side, boat) =
        lines.iter().fold((0, 0), |(side, boat), line| (side + line.per_side, boat + line.total));
    let and = |mut cells: Vec<String>, last: String| {
        cells.push(last);
        cells
    };
    let depth =
        |depth: Option<Length>| depth.map_or_else(|| "through".to_owned(), |depth| say.bare(depth));
    let has_pilots = lines.iter().any(|line| line.kind.is_pilot());
    Table {
        columns: vec![
            Column::words("kind", cells(&lines, |line| line.kind.letter().to_string())),
            Column::words(
                "for",
                and(cells(&lines, |line| line.kind.words().to_owned()), "all drillings".to_owned()),
            ),
            Column::words("drill", cells(&lines, |line| drill_line(line, say))),
            Column::numbers("depth", say.symbol(), cells(&lines, |line| depth(line.depth))),
            Column::numbers(
                "side",
                "",
                and(cells(&lines, |line| line.per_side.to_string()), side.to_string()),
            ),
            Column::numbers(
                "boat",
                "",
                and(cells(&lines, |line| line.total.to_string()), boat.to_string()),
            ),
        ],
        strong: Some(lines.len()),
        notes: has_pilots
            .then(|| depth_rule().to_owned())
            .into_iter()
            .chain(second_tubes(placement))
            .collect(),
        ..Table::default()
    }
}

/// Lead-throughs that the table leaves out.
fn second_tubes(placement: &Placement) -> Option<String> {
    let lead = placement.drill_table().into_iter().find(|line| line.kind == HoleKind::Lead)?;
    placement.hardware.has_two_tubes().then(|| {
        format!(
            "One lead-through a cylinder is counted, and two tubes come from each: drill {} on the boat \
             instead of {}, unless their maker's fitting takes both through one.",
            2 * lead.total,
            lead.total
        )
    })
}

/// The drill of a hole; a blank where nobody says what is to pass.
fn drill(drill: Option<Length>, kind: HoleKind, say: Say) -> String {
    let next = if kind.is_pilot() { Next::Nearest } else { Next::Larger };
    drill.map_or_else(|| "as stated".to_owned(), |drill| say.drill(drill, next))
}

/// The same with both woods for a pilot.
fn drill_line(line: &DrillLine, say: Say) -> String {
    let soft = drill(line.drill, line.kind, say);
    match line.drill {
        Some(own) if line.kind.is_pilot() => {
            let hard = own * (LEAD_SHARE.1 / LEAD_SHARE.0);
            format!("{soft} soft, {} hard wood", say.drill(hard, Next::Nearest))
        }
        Some(_) => soft,
        None => "as the part's maker states: ____".to_owned(),
    }
}

const fn depth_rule() -> &'static str {
    "Pilots: 0.7 of the root of the screw in softwood and 0.9 in hardwood (USDA Wood Handbook, from \
     memory), with which its holding is counted; a pilot that the screw's own papers state comes \
     first. Depth: a diameter less than the screw is long, and never out at the inside: a flag of \
     tape on the drill."
}

fn settings(placement: &Placement, say: Say) -> Vec<String> {
    let (raised, lowered) = placement.travel;
    let gauge = &placement.gauge;
    let mut points = vec![
        format!(
            "Hinge line above the bottom edge, parallel to it: {}",
            say.length(placement.transom.hinge_height)
        ),
        format!(
            "Trailing edge above the extended bottom, plane retracted, at mid-span (the gauge \
             height): {}; so the retracted plane points up by {}",
            say.length(gauge.trailing_edge),
            say.angle(gauge.angle_up())
        ),
    ];
    points.extend(placement.brackets.first().map(|bracket| {
        let off_centre: Vec<String> =
            placement.brackets.iter().map(|bracket| say.length(bracket.off_centre)).collect();
        format!(
            "Foot of the upper pin above the hinge line, square to it: {}; off the centreline, \
             level: {}",
            say.length(bracket.above_hinge),
            off_centre.join(" and ")
        )
    }));
    if placement.hardware.is_chosen() {
        let travel = &placement.hardware.travel;
        points.push(format!(
            "Actuator from pin to pin: {} retracted, {} at full stroke; measure both on the one in \
             hand",
            say.length(travel.retracted_length),
            say.length(travel.retracted_length + travel.stroke)
        ));
    }
    points.push(format!("Travel: {} up to {} down", say.angle(-raised), say.angle(lowered)));
    points.extend(placement.waterline().map(|waterline| {
        format!(
            "Waterline at rest: {} above the keel along the face, as drawn",
            say.length(waterline)
        )
    }));
    points
}

/// Stroke and trailing edge against deflection, for the indicator and for checking.
fn travel(placement: &Placement, say: Say) -> Option<Table> {
    let linkage = Linkage::new(&placement.hardware.linkage).ok()?;
    let (raised, lowered) = placement.travel;
    let middle = [0.0, 5.0, 10.0, 15.0].map(Angle::new::<degree>);
    // A stop that reads the same to a tenth of a degree is one line.
    let apart = Angle::new::<degree>(0.05);
    let middle = middle.into_iter().filter(|&step| step > raised + apart && step < lowered - apart);
    let rows: Vec<_> = std::iter::once(raised)
        .chain(middle)
        .chain([lowered])
        .filter_map(|step| {
            let out = linkage.extension_for(step, &placement.hardware.travel).ok()?;
            Some((step, out, placement.pair.chord * step.sin() - placement.transom.hinge_height))
        })
        .collect();
    let lengths = |name, cells| Column::numbers(name, say.symbol(), cells);
    let out = cells(&rows, |&(_, out, _)| say.bare(out.max(Length::default())));
    let deflection = cells(&rows, |(step, ..)| number_with_decimals(step.get::<degree>(), 1));
    let touching = linkage.touching_deflection(placement.pair.chord).ok().map(|touching| {
        format!(
            "Zero is the plane parallel to the bottom. Down to about {} the trailing edge is not \
             yet below the extended bottom line, and the plane does next to nothing: a dead band \
             that the indicator will show.",
            say.angle(touching)
        )
    });
    Some(Table {
        title: "Trailing edge below (-: above) the extended bottom line, at mid-span".to_owned(),
        columns: vec![
            Column::numbers("deflection", "deg", deflection),
            lengths("actuator out", out),
            lengths("trailing edge", cells(&rows, |&(.., below)| say.bare(below))),
        ],
        notes: touching.into_iter().collect(),
        ..Table::default()
    })
}

/// The symmetry check with room for what is measured.
pub(super) fn checks(placement: &Placement, say: Say) -> [Block; 2] {
    let checks = &placement.checks();
    let blanks = || cells(checks, |_| BLANK.to_owned());
    let length = |check: &Check| say.bare(check.length);
    let datum = say.length(datum_height(&placement.transom));
    let mut notes = vec![format!(
        "The datum is a mark on the centreline {datum} above the keel, up the face of the transom. \
         The two diagonals from it, port and starboard, tell a plane that is turned; the two \
         cross diagonals tell a pair that is shifted sideways."
    )];
    if checks.iter().any(|check| check.blocked) {
        notes.push(
            "* Something amidships may be in the way: run the tape straight, clear of it and \
             parallel to the transom. Where it will not run straight the last three lines take its \
             place. The batten: straight, clamped level across, its upper edge touching the keel where \
             the bottom meets the transom; the heights are from that edge, up the face."
                .to_owned(),
        );
    }
    let columns = vec![
        Column::words("measure", cells(checks, measure)),
        Column::numbers("must be", say.symbol(), cells(checks, length)),
        Column::words("port", blanks()),
        Column::words("starboard", blanks()),
    ];
    [
        Block::Section("Symmetry check: fill in before the first hole".to_owned()),
        Block::Table(Table { columns, notes, ..Table::default() }),
    ]
}

/// What is measured, with a star where something is in the way of the tape.
fn measure(check: &Check) -> String {
    let words = match check.kind {
        CheckKind::CentreToInner => "centreline to inner edge, along",
        CheckKind::CentreToOuter => "centreline to outer edge, along",
        CheckKind::ChineToOuter => "chine to outer edge, along",
        CheckKind::EdgeToHinge => "bottom edge to hinge line, each end",
        CheckKind::DatumToInner => "datum to inner end of hinge line",
        CheckKind::DatumToOuter => "datum to outer end of hinge line",
        CheckKind::Cross => "inner end here to outer end across",
        CheckKind::ChineToInner => "chine corner to inner end of hinge line",
        CheckKind::BattenToInner => "level batten at the keel up to inner end",
        CheckKind::BattenToOuter => "level batten at the keel up to outer end",
    };
    format!("{words}{}", if check.blocked { " *" } else { "" })
}
