//! The marking-out sheet.

mod cautions;
mod holding;
mod lists;
mod papers;
mod practice;
mod steps;
mod tables;

use uom::si::f64::Length;

use super::circuit;
use super::face::deadrise_text;
use super::placement::Placement;
use super::say::Say;
use crate::document::{Block, Document, Fact, Form, Picture};

/// Difference in the bottom edge, as a share of it, beyond which the boat file is wrong; chosen
/// here.
const EDGE_SLACK: f64 = 0.005;

/// Everything, in the order in which it is read at the boat.
pub(super) fn document(
    placement: &Placement,
    say: Say,
    drawing: Option<Picture>,
    circuits: Vec<Picture>,
) -> Document {
    let mut blocks: Vec<Block> = placement.warnings(say.0).into_iter().map(Block::Alert).collect();
    blocks.push(Block::Terms(title(placement, say)));
    blocks.push(cautions::block(placement));
    blocks.extend(notes(placement, say));
    blocks.extend(drawing.map(|drawing| Block::Pictures(vec![drawing])));
    blocks.extend(reasons(placement, say));
    blocks.extend(tables::blocks(placement, say));
    blocks.extend(holding::blocks(placement, say));
    blocks.extend(steps::blocks(placement, say));
    blocks.extend(tables::checks(placement, say));
    blocks.extend(circuit::blocks(placement, say));
    blocks.extend(circuits.into_iter().map(|circuit| Block::Pictures(vec![circuit])));
    blocks.extend(papers::blocks(placement, say));
    blocks.extend(lists::blocks(placement, say));
    blocks.extend(practice::blocks(placement, say));
    let checksum =
        placement.checksum.as_ref().map_or_else(String::new, |sum| format!(", input {sum}"));
    let maker = format!("Planewright {}{checksum}", env!("CARGO_PKG_VERSION"));
    Document {
        title: format!("Marking-out sheet for {}", placement.source_words()),
        subject: placement.boat.clone(),
        origin: vec![Fact::new("Made by", maker)],
        form: Form::Letter,
        blocks,
    }
}

fn title(placement: &Placement, say: Say) -> Vec<Fact> {
    let hardware = placement.hardware.part.as_deref().map_or_else(
        || "no part chosen; hardware by usual proportions".to_owned(),
        |part| format!("part {part}"),
    );
    let transom = &placement.transom;
    vec![
        Fact::new("Boat", &placement.boat),
        Fact::new(
            "Planes",
            format!(
                "two, each span {} and chord {}; {hardware}",
                say.length(placement.pair.span),
                say.length(placement.pair.chord)
            ),
        ),
        Fact::new(
            "Transom",
            format!(
                "beam {}, deadrise {}; bottom edge {} from centreline to chine. Measure that \
                 edge on the boat: if it differs by more than {}, correct the boat file before \
                 marking anything.",
                say.length(transom.beam),
                deadrise_text(transom),
                say.length(placement.edge()),
                say.length(placement.edge() * EDGE_SLACK)
            ),
        ),
        Fact::new("Units", format!("{} The template is exact.", say.rounding())),
    ]
}

/// Where the figures that place the planes come from.
fn reasons(placement: &Placement, say: Say) -> [Block; 2] {
    let transom = &placement.transom;
    let level = |along| say.length(placement.off_centre(along, Length::default()));
    let drive = transom.clear_of_drive.map_or_else(
        || {
            "The boat file names no outboard or leg that planes must keep clear of.".to_owned()
        },
        |clear| {
            format!(
                "The drive asks for {}: {}, half a propeller of {}{}, and {} more, since the water behind \
                 a plane spreads on its way to it.",
                say.length(clear.off_centre()),
                if clear.is_one_assumed {
                    "one shaft on the centreline (drive.engines does not say how many)".to_owned()
                } else {
                    format!("outermost shaft {} off the centreline", say.length(clear.shaft))
                },
                say.length(clear.propeller),
                if clear.is_estimated { " (ESTIMATED from power and kind)" } else { "" },
                say.length(clear.beside)
            )
        },
    );
    let points = vec![
        format!(
            "Outer end: {} from the chine, so that the water under it leaves below the bottom and not \
             round the chine; the boat file asks for {} at the least.",
            say.length(placement.edge() - placement.outer),
            say.length(transom.outer_clearance)
        ),
        format!(
            "Inner end: {} off the centreline, level; as far outboard as the span allows. {drive}",
            level(placement.inner)
        ),
        format!(
            "Hinge line: {} above the edge. The barrel, {}, and the unfairness of the edge, {}, ask \
             for {}{}.",
            say.length(placement.hinge.height),
            say.length(placement.hinge.barrel),
            say.length(transom.edge_fairness),
            say.length(placement.hinge.least),
            if transom.lower_edge_radius > Length::default() {
                ", and its radius is counted in"
            } else {
                ""
            }
        ),
        format!(
            "Gauge height: {}, that is the hinge height and {} of chord at {} up.",
            say.length(placement.gauge.trailing_edge),
            say.length(placement.pair.chord),
            say.angle(placement.gauge.angle_up())
        ),
        if placement.hardware.is_chosen() {
            "Brackets: where the retracted actuator holds the plane at that height, on this rake."
        } else {
            "Brackets: 0.8 of the chord above the hinge line, a usual proportion; the actuator in \
             hand decides, by the step 'Set the gauge and find the brackets'."
        }
        .to_owned(),
    ];
    [Block::Section("Where these figures come from".to_owned()), Block::Points(points)]
}

fn notes(placement: &Placement, say: Say) -> [Block; 2] {
    let practice = "What the maker of the parts, the builder of the boat or the sealant's data sheet \
                    says comes before this sheet. Figures marked common practice have no source.";
    let notes = placement.notes.iter().map(|note| note.sentence(say));
    let strakes = placement.strakes.iter().map(|strake| strake.sentence(|at| say.length(at)));
    let points = std::iter::once(practice.to_owned()).chain(notes).chain(strakes).collect();
    [Block::Section("Know before you start".to_owned()), Block::Points(points)]
}
