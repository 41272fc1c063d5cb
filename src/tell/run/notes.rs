//! What a reader must know besides the numbers.

use super::RunText;
use crate::document::{Block, Fact};
use crate::flag::{Flag, Flags};

/// What the outcomes and the letters in the tables mean, and which values of the file look unusual.
#[must_use]
pub fn flags(run: &RunText<'_>) -> Vec<Block> {
    let outcomes = run.outcomes();
    let outcome = outcomes.iter().map(|o| Fact::new(o.word(), o.meaning())).collect::<Vec<_>>();
    let letter = |(letter, flag): (char, Flag)| Fact::new(letter.to_string(), flag.line());
    let letters: Vec<_> = Letters::of(run).each().map(letter).collect();
    let mut blocks: Vec<_> = [outcome, letters]
        .into_iter()
        .filter(|terms| !terms.is_empty())
        .map(Block::Terms)
        .collect();
    if !run.warnings.is_empty() {
        blocks.push(Block::Warnings(run.warnings.iter().map(ToString::to_string).collect()));
    }
    if !blocks.is_empty() {
        blocks.insert(0, Block::Section("Notes".to_owned()));
    }
    blocks
}

/// Letters that stand for flags in tables.
pub(super) struct Letters(Vec<Flag>);

impl Letters {
    pub(super) fn of(run: &RunText<'_>) -> Self {
        Self(run.flags())
    }

    /// The letters of the flags raised, apart by spaces.
    pub(super) fn text(&self, flags: Flags) -> String {
        let letters = self.each().filter(|(_, flag)| flags.contains(*flag));
        letters.map(|(letter, _)| letter.to_string()).collect::<Vec<_>>().join(" ")
    }

    /// Every letter with its flag.
    fn each(&self) -> impl Iterator<Item = (char, Flag)> {
        ('a'..='z').zip(self.0.iter().copied())
    }
}
