//! What every told answer has in print: a head, notes on the file, the charts, and the caution; and the short form of them all.

use super::screen::{CAUTION, Screen};
use crate::chart::ChartFiles;
use crate::document::Block;
use crate::flag::CAUTION_IN_SHORT;
use crate::input::BoatFile;
use crate::tell::NOTES;
use crate::tell::short_form::{ShortForm, governing, unusual};

/// A title and the scenario of the boat.
pub(super) fn head(title: &str, file: &BoatFile, screen: Screen) -> String {
    let scenario = file.boat.input().scenario.as_deref();
    let scenario = scenario.map_or_else(String::new, |text| screen.paragraph("", text));
    format!("{}\n{scenario}", screen.heading(title))
}

/// An answer below its head; what is unusual in the boat file and the charts join its notes, which come last.
pub(super) fn page(
    head: &str,
    blocks: &[Block],
    file: &BoatFile,
    charts: &[ChartFiles],
    screen: Screen,
) -> String {
    let is_notes = |block: &Block| matches!(block, Block::Section(title) if title == NOTES);
    let warnings = file.warnings.iter().map(ToString::to_string).collect();
    let warnings = screen.blocks(&[Block::Warnings(warnings)]);
    let more = format!("{warnings}{}", super::charts::text(charts));
    let title = if more.is_empty() || blocks.iter().any(is_notes) {
        String::new()
    } else {
        screen.blocks(&[Block::Section(NOTES.to_owned())])
    };
    format!("{head}{}{title}{more}", screen.blocks(blocks))
}

/// One page for each loading condition, what not to forget of it, and the caution.
pub(super) fn pages(pages: &[String], cautions: &[Block], screen: Screen) -> String {
    let cautions = screen.blocks(cautions);
    format!("{}{cautions}\n{}", pages.join("\n\n"), screen.paragraph("", CAUTION))
}

/// How to see the rest of a short answer.
const REST: &str = "--full gives all tables and the reasons.";

/// The short answer: the loading that asks most, a line for each other one, the caution in a line, and how to see the rest.
pub(super) fn short<'a>(
    all: Vec<(&'a BoatFile, ShortForm)>,
    charts: impl IntoIterator<Item = &'a ChartFiles>,
    screen: Screen,
) -> String {
    let files: Vec<&BoatFile> = all.iter().map(|(file, _)| *file).collect();
    let named = |(file, form): (&BoatFile, ShortForm)| (file.boat.condition().name.clone(), form);
    let (place, mut blocks) = governing(all.into_iter().map(named).collect());
    let file = files[place];
    blocks.push(Block::Warnings(unusual(&file.warnings).collect()));
    short_under(&file.boat.full_name(), &blocks, charts, screen)
}

/// A short answer under a title.
pub(super) fn short_under<'a>(
    title: &str,
    blocks: &[Block],
    charts: impl IntoIterator<Item = &'a ChartFiles>,
    screen: Screen,
) -> String {
    let blocks = screen.blocks(blocks);
    let charts = super::charts::line(charts).map(|line| screen.paragraph("  ", &line));
    let charts = charts.unwrap_or_default();
    let foot = [CAUTION_IN_SHORT, REST].map(|line| screen.paragraph("  ", line)).concat();
    format!("{}\n{blocks}{charts}{foot}", screen.heading(title))
}
