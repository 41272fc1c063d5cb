//! What every told answer has in print: a head, notes on the file, the charts, and the caution.

use super::screen::{CAUTION, Screen, paragraph};
use crate::chart::ChartFiles;
use crate::document::Block;
use crate::input::BoatFile;
use crate::tell::NOTES;

/// A title and the scenario of the boat.
pub(super) fn head(title: &str, file: &BoatFile, screen: Screen) -> String {
    let scenario = file.boat.input().scenario.as_deref();
    let scenario = scenario.map_or_else(String::new, |text| paragraph("", text));
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
    format!("{}{cautions}\n{}", pages.join("\n\n"), paragraph("", CAUTION))
}
