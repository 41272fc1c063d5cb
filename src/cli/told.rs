//! What every told answer has in print: a head, notes on the file, the charts, and the caution.

use super::screen::{CAUTION, Screen, paragraph};
use crate::chart::ChartFiles;
use crate::document::Block;
use crate::input::BoatFile;

/// A title and the scenario of the boat.
pub(super) fn head(title: &str, file: &BoatFile, screen: Screen) -> String {
    let scenario = file.boat.input().scenario.as_deref();
    let scenario = scenario.map_or_else(String::new, |text| paragraph("", text));
    format!("{}\n{scenario}", screen.heading(title))
}

/// Unusual values of the file, and the charts, below the notes of an answer.
pub(super) fn more_notes(file: &BoatFile, charts: &[ChartFiles], screen: Screen) -> String {
    let warnings = file.warnings.iter().map(ToString::to_string).collect();
    format!("{}{}", screen.blocks(&[Block::Warnings(warnings)]), super::charts_text(charts))
}

/// One page for each loading condition, what not to forget of it, and the caution.
pub(super) fn pages(pages: &[String], cautions: &[Block], screen: Screen) -> String {
    let cautions = screen.blocks(cautions);
    format!("{}{cautions}\n{}", pages.join("\n\n"), paragraph("", CAUTION))
}
