//! The answer as text for a person.

use super::Answered;
use crate::cli::screen::{CAUTION, Screen, paragraph};
use crate::size::Answer;
use crate::tell::{loadings, shelf, sizing};

/// All of it.
pub(super) fn report(answered: &Answered, screen: Screen) -> String {
    let boat = answered.answer.boat();
    let mut text = format!("{}\n", screen.heading(boat.name()));
    if let Some(scenario) = &boat.input().scenario {
        text.push_str(&paragraph("", scenario));
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
    text.push_str(&paragraph("", CAUTION));
    text
}

fn notes(answered: &Answered, screen: Screen) -> String {
    let suggestion = &answered.answer.suggestion;
    let mut text = String::new();
    for flag in suggestion.flags.iter() {
        text.push_str(&paragraph("  - ", &flag.line()));
    }
    for warning in &answered.answer.file.warnings {
        text.push_str(&paragraph("  ! ", &screen.warning(&warning.to_string())));
    }
    if matches!(suggestion.answer, Answer::Pair(_)) && answered.answer.boat().planes().is_some() {
        text.push_str(&paragraph(
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
