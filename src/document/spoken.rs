//! Blocks of the command line as they stand on a page.

use super::block::{Block, Document, Fact, KeyNumber, Table};
use crate::sentence::spoken;

impl Document {
    /// The same as it stands on a page.
    #[must_use]
    pub fn spoken(self) -> Self {
        Self { blocks: self.blocks.iter().map(Block::spoken).collect(), ..self }
    }
}

impl Block {
    /// The same as it stands on a page; sentences of pieces, what is to be copied as it stands, and pictures are left alone.
    #[must_use]
    pub fn spoken(&self) -> Self {
        let all = |texts: &[String]| texts.iter().map(|text| spoken(text)).collect();
        let facts = |facts: &[Fact]| facts.iter().map(fact).collect();
        match self {
            Self::Section(text) => Self::Section(spoken(text)),
            Self::Alert(text) => Self::Alert(spoken(text)),
            Self::Heading(text) => Self::Heading(spoken(text)),
            Self::Lead(text) => Self::Lead(spoken(text)),
            Self::Paragraph(text) => Self::Paragraph(spoken(text)),
            Self::Points(texts) => Self::Points(all(texts)),
            Self::Facts(all) => Self::Facts(facts(all)),
            Self::Terms(all) => Self::Terms(facts(all)),
            Self::Warnings(texts) => Self::Warnings(all(texts)),
            Self::KeyNumbers(numbers) => Self::KeyNumbers(numbers.iter().map(number).collect()),
            Self::Table(of) => Self::Table(table(of)),
            Self::Caution { title, points } => {
                Self::Caution { title: spoken(title), points: all(points) }
            }
            Self::Letterhead(_)
            | Self::Said(_)
            | Self::CutOut(_)
            | Self::Pictures(_)
            | Self::Verbatim(_)
            | Self::WriteOn(_)
            | Self::NewPage => self.clone(),
        }
    }
}

fn fact(fact: &Fact) -> Fact {
    Fact::new(spoken(&fact.name), spoken(&fact.value)).noted(spoken(&fact.note))
}

fn number(number: &KeyNumber) -> KeyNumber {
    let KeyNumber { name, value, likely, meaning } = number;
    let [name, value, likely, meaning] = [name, value, likely, meaning].map(|text| spoken(text));
    KeyNumber { name, value, likely, meaning }
}

fn table(table: &Table) -> Table {
    let mut table = table.clone();
    table.title = spoken(&table.title);
    for column in &mut table.columns {
        column.name = spoken(&column.name);
        for cell in &mut column.cells {
            *cell = spoken(cell);
        }
    }
    for note in &mut table.notes {
        *note = spoken(note);
    }
    table
}
