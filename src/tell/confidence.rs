//! The size for a share of the boats nearly like this one, in sentences.

use super::doubt::{does_not_fit, drawn_as_seen};
use crate::document::Block;
use crate::doubt::{ConfidentSize, Probability};
use crate::units::UnitChoice;

/// The answer under its heading.
#[must_use]
pub fn section(found: &ConfidentSize, units: UnitChoice) -> Vec<Block> {
    let title = format!("For {:.0} boats in a hundred", 100.0 * found.wanted);
    let mut blocks = vec![Block::Section(title)];
    blocks.extend(sentences(found, units).into_iter().map(Block::Paragraph));
    blocks.extend(found.seen.as_ref().map(does_not_fit).unwrap_or_default());
    blocks
}

fn share(probability: Probability) -> String {
    format!("{:.1} % (± {:.1})", 100.0 * probability.share, 100.0 * probability.error)
}

/// The answer in sentences.
#[must_use]
pub fn sentences(found: &ConfidentSize, units: UnitChoice) -> Vec<String> {
    let wanted = format!("{:.0} %", 100.0 * found.wanted);
    let mut lines = Vec::new();
    match (found.no_planes_needed(), found.pair, found.probability) {
        (true, _, _) => lines.push(format!(
            "No planes needed: the boat does every duty with planes up on {} of the boats drawn.",
            share(found.bare)
        )),
        (false, Some(pair), Some(probability)) => lines.push(format!(
            "{} does every duty on {} of the boats drawn; it is the least pair in whole steps that does so on at least {wanted}.",
            capital(&pair.text(units)),
            share(probability)
        )),
        _ => lines.push(not_reached(found, &wanted, units)),
    }
    lines.push(format!(
        "{} boats nearly like this one were drawn (seed {}), each off by as much as her values and the equations may be, by the same in every loading condition; all sizes were tried on the same boats. ± is the standard error that this number of draws leaves. `planewright doubt` shows what the answer follows and what to measure.",
        found.drawn.draws, found.drawn.seed
    ));
    lines.extend(drawn_as_seen(found.seen.as_ref()));
    lines
}

fn not_reached(found: &ConfidentSize, wanted: &str, units: UnitChoice) -> String {
    match found.best {
        Some((pair, probability)) => format!(
            "NO SIZE does every duty on {wanted} of the boats drawn. The best, {}, does on {}. Measure what matters most, ask less of the planes, or accept the risk.",
            pair.text(units),
            share(probability)
        ),
        None => format!(
            "NO SIZE does every duty on {wanted} of the boats drawn: there is room for none."
        ),
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
