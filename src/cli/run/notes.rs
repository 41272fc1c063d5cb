//! What a reader must know besides the numbers.

use super::Run;
use crate::balance::Outcome;
use crate::flag::{Flag, Flags};

/// All flags raised at any point, in order.
pub(super) fn flags_of(run: &Run) -> Vec<Flag> {
    let all =
        run.points_by_model().fold(run.pre_planing.flags, |all, (_, point)| all.union(point.flags));
    all.iter().collect()
}

/// All outcomes at any point but running, in order of first appearance.
pub(super) fn outcomes_of(run: &Run) -> Vec<Outcome> {
    let mut outcomes = Vec::new();
    for (_, point) in run.points_by_model() {
        if point.outcome != Outcome::Running && !outcomes.contains(&point.outcome) {
            outcomes.push(point.outcome);
        }
    }
    outcomes
}

/// Letters that stand for flags in tables.
pub(super) struct Letters(Vec<Flag>);

impl Letters {
    pub(super) fn of(run: &Run) -> Self {
        Self(flags_of(run))
    }

    /// The letters of the flags raised, apart by spaces.
    pub(super) fn text(&self, flags: Flags) -> String {
        let letters = self.each().filter(|(_, flag)| flags.contains(*flag));
        letters.map(|(letter, _)| letter.to_string()).collect::<Vec<_>>().join(" ")
    }

    /// Every letter with its flag.
    pub(super) fn each(&self) -> impl Iterator<Item = (char, Flag)> {
        ('a'..='z').zip(self.0.iter().copied())
    }
}
