//! How sure: likely ranges, what they follow, and how the equations stood against published tests.

use crate::document::Block;
use crate::doubt::calibrate::{calibrated, coverage, printed};
use crate::report::gather::Gathered;
use crate::tell::doubt::{
    Doubted, HONESTLY, calibration, duties, in_short, influences, needs, seen, speeds, to_measure,
};

/// Where it is told how.
const HOW_TO_MEASURE: &str = "How to measure deadrise, chine beam and LCG, and what each narrows: the last page of the owner's letter.";

pub(super) fn section(gathered: &Gathered) -> Vec<Block> {
    let units = gathered.size.units;
    let mut blocks = Vec::new();
    if let Some(hump) = &gathered.hump {
        for running in [Some(&hump.up), hump.down.as_ref()].into_iter().flatten() {
            let boat = &hump.boat;
            let doubted = Doubted { boat, running, units };
            blocks.extend(in_short(&doubted));
            blocks.extend(seen(&doubted));
            blocks.extend(speeds(&doubted));
        }
        let doubted = Doubted { boat: &hump.boat, running: &hump.up, units };
        blocks.extend(influences(&doubted));
        blocks.extend(to_measure(&doubted));
        blocks.push(Block::Paragraph(HOW_TO_MEASURE.to_owned()));
    }
    blocks.extend(duties(&gathered.duties, None, units));
    blocks.extend(needs(&gathered.duties, units));
    let all = printed();
    blocks.extend(calibration(&calibrated(&all, None), &coverage(&all)));
    if !blocks.contains(&Block::Paragraph(HONESTLY.to_owned())) {
        blocks.push(Block::Paragraph(HONESTLY.to_owned()));
    }
    blocks
}
