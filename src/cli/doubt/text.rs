//! The answer as text for a person.

use super::Doubted;
use crate::cli::charts;
use crate::cli::screen::{CAUTION, Screen};
use crate::document::Block;
use crate::doubt::DutiesDoubt;
use crate::input::BoatFile;
use crate::tell::doubt;
use crate::tell::short_form::ShortForm;

/// All of it, one loading condition after the other.
pub(super) fn report(all: &[Doubted], duties: &DutiesDoubt, screen: Screen) -> String {
    let blocks: Vec<String> = all.iter().map(|doubted| block(doubted, screen)).collect();
    let units = all[0].units;
    let mut told = doubt::duties(duties, all[0].boat().planes(), units);
    told.extend(doubt::needs(duties, units));
    format!("{}\n{}\n{}", blocks.join("\n\n"), screen.blocks(&told), screen.paragraph("", CAUTION))
}

/// The short answer of each loading, with the chance of the pair.
pub(super) fn short<'a>(
    all: &'a [Doubted],
    duties: &DutiesDoubt,
) -> Vec<(&'a BoatFile, ShortForm)> {
    let form = |doubted: &'a Doubted| {
        let told = doubted.told();
        let mut form = doubt::short_form(&told);
        form.what.extend(doubt::chance_in_short(&told, duties, all.len()));
        (&doubted.file, form)
    };
    all.iter().map(form).collect()
}

fn block(doubted: &Doubted, screen: Screen) -> String {
    let boat = doubted.boat();
    let mut text = format!("{}\n", screen.heading(&boat.full_name()));
    if let Some(scenario) = &boat.input().scenario {
        text.push_str(&screen.paragraph("", scenario));
    }
    let told = doubted.told();
    let parts = [
        doubt::in_short,
        doubt::seen,
        doubt::speeds,
        doubt::influences,
        doubt::to_measure,
        doubt::inputs,
    ];
    let mut blocks: Vec<Block> = parts.into_iter().flat_map(|part| part(&told)).collect();
    let warnings: Vec<String> = doubted.file.warnings.iter().map(ToString::to_string).collect();
    if !warnings.is_empty() || !doubted.charts.is_empty() {
        blocks.push(Block::Section("Notes".to_owned()));
        blocks.push(Block::Warnings(warnings));
    }
    text.push_str(&screen.blocks(&blocks));
    text.push_str(&charts::text(&doubted.charts));
    text
}
