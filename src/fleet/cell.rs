//! What stands in a table: a value that was read, and one that is written.

use std::borrow::Cow;

/// A value of a table that was read.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Nothing: the key is left out of this boat.
    Empty,
    /// A number in the unit of its heading.
    Number(f64),
    /// A text; a number in it may have a unit of its own.
    Text(String),
}

/// A value of the answer.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Nothing that exists.
    Empty,
    /// A count.
    Whole(u64),
    /// A number in the unit of its column.
    Number(f64),
    /// Words.
    Text(Cow<'static, str>),
    /// Yes or no.
    Truth(bool),
}

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ColumnKind {
    /// Counts.
    Whole,
    /// Numbers.
    Number,
    /// Words.
    Text,
    /// Yes or no.
    Truth,
}

/// A column of the answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// Its name with the unit.
    pub name: String,
    /// What it holds.
    pub kind: ColumnKind,
}

impl Column {
    /// A column of words.
    pub(super) fn text(name: &str) -> Self {
        Self { name: name.to_owned(), kind: ColumnKind::Text }
    }
}

impl Cell {
    /// A number, where it exists.
    pub(super) fn number(value: Option<f64>) -> Self {
        value.filter(|value| value.is_finite()).map_or(Self::Empty, Self::Number)
    }

    /// Words, where there are some.
    pub(super) fn words(words: &[&str]) -> Self {
        if words.is_empty() { Self::Empty } else { Self::Text(words.join(" ").into()) }
    }
}
