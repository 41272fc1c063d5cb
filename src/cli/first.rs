//! What must be settled before the answer of a command is believed: above its text, and in its JSON.

use super::screen::Screen;
use crate::answer::About;
use crate::balance::Settings;
use crate::behaviour::sense::Sense;
use crate::boat::Boat;
use crate::document::Block;
use crate::doubt::seen_of;
use crate::flag::Flags;
use crate::input::BoatFile;
use crate::size::{PairUsed, SeenTrims};
use crate::tell;
use crate::units::UnitChoice;

/// What must be settled first.
pub(super) struct First {
    sense: Sense,
    /// Trims that were read on the water, where the answer does not tell them itself.
    seen: SeenTrims,
    units: UnitChoice,
}

impl First {
    /// About a boat in each of the loading conditions that are asked about.
    pub(super) fn of<'a>(
        boats: impl IntoIterator<Item = &'a Boat>,
        settings: &Settings,
        units: UnitChoice,
    ) -> Self {
        let boats: Vec<Boat> = boats.into_iter().cloned().collect();
        let seen = boats.first().and_then(|boat| seen_of(boat, settings).ok());
        Self { sense: Sense::of(&boats, settings), seen: seen.unwrap_or_default(), units }
    }

    /// The same where it is known already.
    pub(super) fn known(sense: &Sense, units: UnitChoice) -> Self {
        Self { sense: sense.clone(), seen: SeenTrims::default(), units }
    }

    /// It as blocks; none when all is clear.
    pub(super) fn blocks(&self) -> Vec<Block> {
        self.with_seen(tell::sense::first(&self.sense, self.units))
    }

    /// What must be settled first, with what was seen otherwise below it.
    fn with_seen(&self, mut blocks: Vec<Block>) -> Vec<Block> {
        if let Some(seen) = tell::sense::seen_otherwise(&self.seen, self.units) {
            if blocks.is_empty() {
                blocks.push(Block::Alert(tell::sense::TITLE.to_owned()));
            }
            blocks.push(Block::Lead(seen));
        }
        blocks.extend(tell::sense::brought_to(&self.seen, self.units).map(Block::Lead));
        blocks
    }

    /// A text below what must be settled first.
    pub(super) fn above(&self, text: &str, screen: Screen) -> String {
        let first = screen.blocks(&self.blocks());
        if first.is_empty() {
            return text.to_owned();
        }
        format!("{}\n{text}", first.trim_start_matches('\n'))
    }

    /// A short answer below the same in short.
    pub(super) fn above_short(&self, text: &str, screen: Screen) -> String {
        let first = screen.blocks(&self.with_seen(tell::sense::in_short(&self.sense, self.units)));
        format!("{}{text}", first.trim_start_matches('\n'))
    }

    /// The same as lines for the error stream, where the output has no room for it.
    pub(super) fn warnings(&self) -> Vec<String> {
        let lines = tell::sense::lines(&self.sense, self.units);
        lines.into_iter().chain(tell::sense::seen_otherwise(&self.seen, self.units)).collect()
    }

    /// What a JSON answer is about, with it.
    pub(super) fn about<'a>(&'a self, file: &'a BoatFile, planes: PairUsed) -> About<'a> {
        About {
            file,
            planes,
            flags: Flags::NONE,
            sense: &self.sense,
            files: Vec::new(),
            units: self.units,
        }
    }
}
