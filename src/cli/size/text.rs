//! The answer as text for a person.

use super::SizeOutput;
use crate::cli::screen::{CAUTION, Screen};
use crate::cli::told;
use crate::document::Block;
use crate::size::Answer;
use crate::tell::short_form::{governing, unusual};
use crate::tell::{loadings, shelf, sizing};

/// All of it.
pub(super) fn report(answered: &SizeOutput, screen: Screen) -> String {
    let boat = answered.answer.boat();
    let mut text = format!("{}\n", screen.heading(boat.name()));
    if let Some(scenario) = &boat.input().scenario {
        text.push_str(&screen.paragraph("", scenario));
    }
    let told = answered.answer.told();
    let mut blocks = sizing::suggestion(&told);
    blocks.extend(loadings::section(&told));
    if let Some(on_shelf) = &answered.shelf {
        blocks.extend(shelf::section(&on_shelf.list, &on_shelf.ranking, answered.answer.units));
    }
    blocks.extend(sizing::tables(&told));
    text.push_str(&screen.blocks(&blocks));
    text.push_str(&notes(answered, screen));
    text.push('\n');
    text.push_str(&screen.paragraph("", CAUTION));
    text
}

/// The short answer, for all loadings at once.
pub(super) fn short(answered: &SizeOutput, screen: Screen) -> String {
    let told = answered.answer.told();
    let form = match &answered.shelf {
        None => sizing::short_form(&told),
        Some(shelf) => {
            shelf::with_shelf(sizing::asked_only(&told), &shelf.ranking, answered.answer.units)
        }
    };
    let boat = answered.answer.boat();
    let title = match told.boats.len() {
        1 => boat.full_name(),
        several => format!("{}, in all {several} loadings", boat.name()),
    };
    let (_, mut blocks) = governing(vec![(String::new(), form)]);
    blocks.push(Block::Warnings(unusual(&answered.answer.file.warnings).collect()));
    told::short_under(&title, &blocks, &answered.charts, screen)
}

fn notes(answered: &SizeOutput, screen: Screen) -> String {
    let suggestion = &answered.answer.suggestion;
    let mut text = String::new();
    for flag in suggestion.flags.iter() {
        text.push_str(&screen.paragraph("  - ", &flag.line()));
    }
    for warning in &answered.answer.file.warnings {
        text.push_str(&screen.paragraph("  ! ", &screen.warning(&warning.to_string())));
    }
    if matches!(suggestion.answer, Answer::Pair(_)) && answered.answer.boat().planes().is_some() {
        text.push_str(&screen.paragraph(
            "  - ",
            "The boat has planes fitted; the suggestion is for a boat without. Compare with `planewright run` on the pair fitted.",
        ));
    }
    text.push_str(&crate::cli::charts::text(&answered.charts));
    if text.is_empty() {
        return text;
    }
    format!("\n{}\n{text}", screen.heading("Notes"))
}
