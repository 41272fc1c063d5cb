//! What a page is made of.

use super::column::Column;
use crate::sentence::Sentence;

/// A document to be read or printed.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// What it is, in a few words.
    pub title: String,
    /// What it is about.
    pub subject: String,
    /// Where it comes from: program, version and checksum of what it was computed from. No clock
    /// time, so that the same input gives the same bytes.
    pub origin: Vec<Fact>,
    /// How tightly it is set.
    pub form: Form,
    /// What it says, in reading order.
    pub blocks: Vec<Block>,
}

/// Size of the paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Sheet {
    /// 210 × 297 mm.
    #[default]
    A4,
    /// 8.5 × 11 in.
    Letter,
}

/// How tightly a document is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Many pages to look things up in.
    Record,
    /// All on one page.
    Sheet,
    /// A few pages to be read from beginning to end, in larger letters.
    Letter,
}

/// One part of a document.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// Who writes, to whom and when.
    Letterhead(Letterhead),
    /// Heading of a section.
    Section(String),
    /// Heading of a section that must not be overlooked.
    Alert(String),
    /// Heading inside a section.
    Heading(String),
    /// The sentence to be read if only one is read.
    Lead(String),
    /// A paragraph.
    Paragraph(String),
    /// A paragraph of pieces, which each renderer shows its own way.
    Said(Sentence),
    /// Short points.
    Points(Vec<String>),
    /// Names with their values.
    Facts(Vec<Fact>),
    /// Names with a sentence each, one below the other.
    Terms(Vec<Fact>),
    /// Short points not to be overlooked.
    Warnings(Vec<String>),
    /// A few numbers set large.
    KeyNumbers(Vec<KeyNumber>),
    /// A table.
    Table(Table),
    /// Pictures side by side; one alone takes the width.
    Pictures(Vec<Picture>),
    /// What must not be overlooked.
    Caution {
        /// Its heading.
        title: String,
        /// Its points.
        points: Vec<String>,
    },
    /// A card to cut out along its border, at its size on paper.
    CutOut(CutOut),
    /// Text to be copied as it stands, line by line.
    Verbatim(String),
    /// Lines to write on, each with what belongs there.
    WriteOn(Vec<String>),
    /// What follows begins a new page.
    NewPage,
}

/// Who writes, to whom and when.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Letterhead {
    /// A logo, with its description and no caption.
    pub logo: Option<Picture>,
    /// Who writes.
    pub name: String,
    /// Address and the like, a line each.
    pub lines: Vec<String>,
    /// To whom, number and dates.
    pub facts: Vec<Fact>,
}

/// A name with its value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fact {
    /// What it is.
    pub name: String,
    /// Its value with its unit.
    pub value: String,
    /// What else to know about it; may be empty.
    pub note: String,
}

impl Fact {
    /// A name with its value and no note.
    pub fn new(name: impl Into<String>, value: impl Into<String>) -> Self {
        Self { name: name.into(), value: value.into(), note: String::new() }
    }

    /// The same with a note.
    #[must_use]
    pub fn noted(mut self, note: impl Into<String>) -> Self {
        self.note = note.into();
        self
    }
}

/// A number set large, with its likely range and what it means.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeyNumber {
    /// What it is.
    pub name: String,
    /// The number with its unit.
    pub value: String,
    /// Its likely range in words.
    pub likely: String,
    /// What it means for whoever is aboard.
    pub meaning: String,
}

/// A table with a name, and remarks below it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Table {
    /// What it shows.
    pub title: String,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Row set in strong letters, counted from 0.
    pub strong: Option<usize>,
    /// Remarks below it.
    pub notes: Vec<String>,
}

impl Table {
    /// Rows of the longest column.
    #[must_use]
    pub fn rows(&self) -> usize {
        self.columns.iter().map(|column| column.cells.len()).max().unwrap_or(0)
    }

    /// A cell; empty where a column is shorter.
    #[must_use]
    pub fn cell(&self, column: usize, row: usize) -> &str {
        self.columns.get(column).and_then(|c| c.cells.get(row)).map_or("", String::as_str)
    }
}

/// A card of 90 × 55 mm, as it fits a dashboard: a few short lines, and what not to forget.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CutOut {
    /// What it is.
    pub title: String,
    /// Its columns, of few lines.
    pub columns: Vec<Column>,
    /// Remarks below them.
    pub notes: Vec<String>,
    /// What not to forget.
    pub caution: String,
}

/// A picture with its caption.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// The picture as one SVG document.
    pub svg: String,
    /// What it shows, printed below it.
    pub caption: String,
    /// The same in words, for who cannot see it.
    pub description: String,
}

impl Document {
    /// Every picture, in reading order.
    pub fn pictures(&self) -> impl Iterator<Item = &Picture> {
        self.blocks.iter().flat_map(|block| match block {
            Block::Pictures(pictures) => pictures.as_slice(),
            Block::Letterhead(head) => head.logo.as_slice(),
            _ => &[],
        })
    }
}
