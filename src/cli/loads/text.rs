//! The loads as text for a person.

use super::Loaded;
use crate::cli::screen::{CAUTION, Screen};
use crate::document::Block;
use crate::tell::loads;

/// All of it, one loading condition after the other.
pub(super) fn report(all: &[Loaded], screen: Screen) -> String {
    let blocks: Vec<String> = all.iter().map(|loaded| block(loaded, screen)).collect();
    let handling = screen.blocks(&loads::handling());
    format!("{}{handling}\n{}", blocks.join("\n\n"), screen.paragraph("", CAUTION))
}

/// One loading condition.
fn block(loaded: &Loaded, screen: Screen) -> String {
    let told = loaded.told();
    let mut blocks = Vec::new();
    for part in [loads::planes, loads::verdict, loads::assumptions, loads::on_one_plane] {
        blocks.extend(part(&told));
    }
    if told.found.part.is_none() && told.found.not_described.is_none() {
        blocks.extend(without_part());
    }
    for part in [loads::reach, loads::actuator, loads::stroke, loads::strength, loads::flags] {
        blocks.extend(part(&told));
    }
    let charts = crate::cli::charts::text(&loaded.charts);
    format!("{}\n{}{charts}", screen.heading(&told.boat.full_name()), screen.blocks(&blocks))
}

/// How to see more; only the command line can ask for it.
fn without_part() -> [Block; 2] {
    [
        Block::Section("Actuator, plate and screws".to_owned()),
        Block::Paragraph("Name a part with --stock and --part to see its stroke, what its actuators push and hold, and what its plate and screws bear.".to_owned()),
    ]
}
