//! The answer as text for a person.

use super::RunOutput;
use crate::cli::charts;
use crate::cli::screen::{CAUTION, Screen};
use crate::document::Block;
use crate::input::BoatFile;
use crate::tell::run;
use crate::tell::short_form::ShortForm;

/// All of it, one loading condition after the other.
pub(super) fn report(runs: &[RunOutput], with_budget: bool, screen: Screen) -> String {
    let blocks: Vec<String> = runs.iter().map(|run| block(run, with_budget, screen)).collect();
    format!("{}\n{}", blocks.join("\n\n"), screen.paragraph("", CAUTION))
}

/// Speeds of the short answer when none are asked for.
const SPEEDS: usize = 8;

/// The short answer of each loading; with speeds asked for, all of them.
pub(super) fn short(runs: &[RunOutput], asked: usize) -> Vec<(&BoatFile, ShortForm)> {
    let rows = if asked == 0 { SPEEDS } else { asked };
    runs.iter().map(|run| (&run.file, run::short_form(&run.told(), rows))).collect()
}

/// One loading condition: head, summary, tables, notes.
fn block(run: &RunOutput, with_budget: bool, screen: Screen) -> String {
    let mut text = format!("{}\n", screen.heading(run.boat().name()));
    if let Some(scenario) = &run.boat().input().scenario {
        text.push_str(&screen.paragraph("", scenario));
    }
    text.push('\n');
    text.push_str(&screen.blocks(&parts(run, with_budget)));
    let notes = run::flags(&run.told());
    if notes.is_empty() && !run.charts.is_empty() {
        text.push_str(&screen.blocks(&[Block::Section("Notes".to_owned())]));
    }
    text.push_str(&screen.blocks(&notes));
    text.push_str(&charts::text(&run.charts));
    text
}

fn parts(run: &RunOutput, with_budget: bool) -> Vec<Block> {
    let told = run.told();
    let mut blocks = run::particulars_from(&told, &run.file);
    blocks.extend(run::estimates(&told));
    blocks.extend(run::in_short(&told));
    if !told.opinions.is_empty() {
        blocks.extend(run::second_opinion(told.second_opinion, told.units));
        blocks.extend(run::models(&told));
        return blocks;
    }
    blocks.extend(run::side_by_side(&told));
    blocks.extend(run::second_opinion(told.second_opinion, told.units));
    for set in told.sets {
        blocks.extend(run::table(&told, set));
    }
    blocks.extend(run::drive_trims(&told));
    if with_budget {
        for point in told.points() {
            blocks.extend(run::forces(&told, point));
        }
    }
    blocks
}
