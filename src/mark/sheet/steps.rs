//! The work, step by step, in the order in which one thing depends on another.

mod bedding;
mod drilling;
mod marking;
mod opening;
mod trying;

use crate::document::Block;
use crate::mark::placement::Placement;
use crate::mark::say::Say;

/// One step: its title, why it stands here, what to do, and the caution that belongs there.
struct Step {
    title: &'static str,
    why: &'static str,
    text: String,
    caution: Option<&'static str>,
}

impl Step {
    fn new(title: &'static str, why: &'static str, text: impl Into<String>) -> Self {
        Self { title, why, text: text.into(), caution: None }
    }

    const fn with_caution(mut self, caution: &'static str) -> Self {
        self.caution = Some(caution);
        self
    }
}

pub(super) fn blocks(placement: &Placement, say: Say) -> Vec<Block> {
    let steps = [
        marking::steps(placement, say),
        drilling::steps(placement, say),
        bedding::steps(placement),
        trying::steps(),
    ];
    let title = Block::Section("Steps, in working order".to_owned());
    let blocks = steps.into_iter().flatten().enumerate().flat_map(|(index, step)| {
        let caution = step.caution.map(|caution| format!("CAUTION: {caution}"));
        [
            Block::Heading(format!("{}. {}", index + 1, step.title)),
            Block::Paragraph(format!("{} Why here: {}", step.text, step.why)),
        ]
        .into_iter()
        .chain(caution.map(|caution| Block::Warnings(vec![caution])))
    });
    std::iter::once(title).chain(blocks).collect()
}
