//! What stands in a table: a value that was read, and one that is written.

use std::borrow::Cow;

use crate::field::Quantity;
use crate::units::UnitChoice;

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
    /// Its name without the unit.
    pub key: String,
    /// The unit as it is written beside a number; empty where there is none.
    pub unit: String,
    /// What it holds.
    pub kind: ColumnKind,
}

impl Column {
    /// A column without a unit.
    pub(super) fn plain(name: &str, kind: ColumnKind) -> Self {
        Self { name: name.to_owned(), key: name.to_owned(), unit: String::new(), kind }
    }

    /// A column of words.
    pub(super) fn text(name: &str) -> Self {
        Self::plain(name, ColumnKind::Text)
    }

    /// A column of a quantity; in SI with angles in degrees where no units are chosen.
    pub(super) fn quantity(key: &str, quantity: Quantity, units: Option<UnitChoice>) -> Self {
        let (ending, unit) = match (units, quantity) {
            (_, Quantity::Number | Quantity::Counted(_)) => (String::new(), String::new()),
            (Some(units), _) => {
                (format!("_{}", quantity.name_ending(units)), quantity.symbol(units))
            }
            (None, _) => (quantity.si_ending().to_owned(), si_symbol(quantity).to_owned()),
        };
        Self { name: format!("{key}{ending}"), key: key.to_owned(), unit, kind: ColumnKind::Number }
    }
}

const fn si_symbol(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::Speed => "m/s",
        Quantity::Angle => "deg",
        Quantity::Length => "m",
        Quantity::Force => "N",
        Quantity::ForcePerDegree => "N per deg",
        Quantity::Power => "W",
        Quantity::Pressure => "Pa",
        Quantity::Number | Quantity::Counted(_) => "",
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
