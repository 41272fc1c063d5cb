//! The marking-out sheet.

mod cautions;
mod holding;
mod lists;
mod steps;
mod tables;

use super::face::deadrise_deg;
use super::placement::Placement;
use super::say::Say;
use crate::document::{Block, Document, Fact, Form, Picture};
use crate::units::number_with_decimals;

/// Difference in the bottom edge, as a share of it, beyond which the boat file is wrong; chosen
/// here.
const EDGE_SLACK: f64 = 0.005;

/// Everything, in the order in which it is read at the boat.
pub(super) fn document(placement: &Placement, say: Say, drawing: Option<Picture>) -> Document {
    let warning = placement.warning().map(|warning| Block::Alert(warning.to_owned()));
    let mut blocks: Vec<Block> = warning.into_iter().collect();
    blocks.push(Block::Terms(title(placement, say)));
    blocks.push(cautions::block(placement));
    blocks.extend(notes(placement, say));
    blocks.extend(drawing.map(|drawing| Block::Pictures(vec![drawing])));
    blocks.extend(tables::blocks(placement, say));
    blocks.extend(holding::blocks(placement, say));
    blocks.extend(steps::blocks(placement, say));
    blocks.extend(tables::checks(placement, say));
    blocks.extend(lists::blocks(placement, say));
    let checksum =
        placement.checksum.as_ref().map_or_else(String::new, |sum| format!(", input {sum}"));
    let maker = format!("Planewright {}{checksum}", env!("CARGO_PKG_VERSION"));
    Document {
        title: "Marking-out sheet for a pair of trim planes".to_owned(),
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
                "beam {}, deadrise {} deg; bottom edge {} from centreline to chine. Measure that \
                 edge on the boat: if it differs by more than {}, correct the boat file before \
                 marking anything.",
                say.length(transom.beam),
                number_with_decimals(deadrise_deg(transom), 1),
                say.length(placement.edge()),
                say.length(placement.edge() * EDGE_SLACK)
            ),
        ),
        Fact::new("Units", format!("{} The template is exact.", say.rounding())),
    ]
}

fn notes(placement: &Placement, say: Say) -> [Block; 2] {
    let practice = "Clearances, hinge and gauge heights, drill sizes and how far fittings are turned \
                    are common practice, no source. What the maker of the parts, the builder of the \
                    boat or the sealant's data sheet says comes first.";
    let notes = placement.notes.iter().map(|note| note.sentence(say));
    let strakes = placement.strakes.iter().map(|strake| strake.sentence(say.0.small_length()));
    let points = std::iter::once(practice.to_owned()).chain(notes).chain(strakes).collect();
    [Block::Section("Know before you start".to_owned()), Block::Points(points)]
}
