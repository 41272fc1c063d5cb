//! What must be settled before the answer of a command is believed: above its text, and in its JSON.

use super::screen::Screen;
use crate::answer::About;
use crate::balance::Settings;
use crate::behaviour::sense::Sense;
use crate::boat::Boat;
use crate::document::Block;
use crate::flag::Flags;
use crate::input::BoatFile;
use crate::size::PairUsed;
use crate::tell;
use crate::units::UnitChoice;

/// What must be settled first.
pub(super) struct First {
    sense: Sense,
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
        Self { sense: Sense::of(&boats, settings), units }
    }

    /// The same where it is known already.
    pub(super) fn known(sense: &Sense, units: UnitChoice) -> Self {
        Self { sense: sense.clone(), units }
    }

    /// It as blocks; none when all is clear.
    pub(super) fn blocks(&self) -> Vec<Block> {
        tell::sense::first(&self.sense, self.units)
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
        let first = screen.blocks(&tell::sense::in_short(&self.sense, self.units));
        format!("{}{text}", first.trim_start_matches('\n'))
    }

    /// The same as lines for the error stream, where the output has no room for it.
    pub(super) fn warnings(&self) -> Vec<String> {
        tell::sense::lines(&self.sense, self.units)
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
