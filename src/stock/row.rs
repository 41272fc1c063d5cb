//! One line of a stock list: reads its cells and gathers what is wrong with them.

use std::collections::BTreeMap;
use std::fmt;

use uom::si::f64::Length;
use uom::si::length::meter;

use super::columns::{Column, Kind, column_of};
use crate::units::{Dimension, parse_si, quoted};

/// One thing wrong with a stock list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RowFault {
    /// Line of the file, counted from 1.
    pub line: u64,
    /// Column, where it is one column's fault.
    pub column: Option<&'static str>,
    /// What is wrong, with the value.
    pub problem: String,
    /// What is allowed, and what to write instead.
    pub remedy: String,
}

impl fmt::Display for RowFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}: ", self.line)?;
        if let Some(column) = self.column {
            write!(f, "{column}: ")?;
        }
        write!(f, "{}; {}", self.problem, self.remedy)
    }
}

/// A line being read.
pub(super) struct Row<'a> {
    pub(super) line: u64,
    pub(super) cells: &'a BTreeMap<&'static str, String>,
    pub(super) faults: Vec<RowFault>,
}

impl Row<'_> {
    pub(super) fn fault(&mut self, column: Option<&'static str>, problem: String, remedy: String) {
        self.faults.push(RowFault { line: self.line, column, problem, remedy });
    }

    /// The text of a cell that is filled in.
    pub(super) fn text(&self, name: &str) -> Option<&str> {
        self.cells.get(name).map(|cell| cell.trim()).filter(|cell| !cell.is_empty())
    }

    /// The text of a cell that must be filled in.
    pub(super) fn need_text(&mut self, name: &'static str) -> Option<String> {
        let text = self.text(name).map(str::to_owned);
        if text.is_none() {
            self.missing(name);
        }
        text
    }

    fn missing(&mut self, name: &'static str) {
        let Some(column) = column_of(name) else { return };
        self.fault(
            Some(name),
            "nothing is written here".to_owned(),
            format!("write for example {} ({})", column.example, column.meaning),
        );
    }

    /// A value in SI or as the plain number, if the cell is filled in and right.
    pub(super) fn value(&mut self, name: &'static str) -> Option<f64> {
        let column = column_of(name)?;
        let text = self.text(name)?.to_owned();
        let read = match column.kind {
            Kind::Quantity(dimension) => quantity(&text, dimension),
            Kind::Spacing => quantity(&text, Dimension::Length),
            _ => column.value_of(&text).ok_or_else(|| not_a_number(column, &text)),
        };
        match read {
            Err((problem, remedy)) => {
                self.fault(Some(name), problem, remedy);
                None
            }
            Ok(value) if !column.admits(value) => {
                let problem = format!("`{}` is outside {}", quoted(&text), column.allowed());
                self.fault(Some(name), problem, example(column));
                None
            }
            Ok(value) => Some(value),
        }
    }

    /// A value that must be filled in.
    pub(super) fn need(&mut self, name: &'static str) -> Option<f64> {
        if self.text(name).is_none() {
            self.missing(name);
            return None;
        }
        self.value(name)
    }

    /// A value, or what is taken when the cell is empty; `None` when it is wrong.
    pub(super) fn value_or(&mut self, name: &'static str, otherwise: f64) -> Option<f64> {
        if self.text(name).is_none() { Some(otherwise) } else { self.value(name) }
    }

    /// A value that may be left out; the outer `None` when it is wrong.
    pub(super) fn optional(&mut self, name: &'static str) -> Option<Option<f64>> {
        if self.text(name).is_none() { Some(None) } else { self.value(name).map(Some) }
    }

    pub(super) fn need_length(&mut self, name: &'static str) -> Option<Length> {
        self.need(name).map(Length::new::<meter>)
    }

    /// A whole number that must be filled in.
    pub(super) fn need_count(&mut self, name: &'static str) -> Option<u32> {
        let value = self.need(name)?;
        self.whole(name, value)
    }

    /// A whole number, or what is taken when the cell is empty.
    pub(super) fn count_or(&mut self, name: &'static str, otherwise: u32) -> Option<u32> {
        let value = self.value_or(name, f64::from(otherwise))?;
        self.whole(name, value)
    }

    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    fn whole(&mut self, name: &'static str, value: f64) -> Option<u32> {
        if value.fract() == 0.0 {
            return Some(value as u32);
        }
        self.fault(
            Some(name),
            format!("{value} is not a whole number"),
            column_of(name).map_or_else(String::new, example),
        );
        None
    }

    /// The position of a word among those allowed; `None` when empty or wrong.
    pub(super) fn choice(&mut self, name: &'static str, words: &[&str]) -> Option<usize> {
        let text = self.text(name)?.to_owned();
        let position = words.iter().position(|word| word.eq_ignore_ascii_case(&text));
        if position.is_none() {
            let problem = format!("`{}` is not one of its words", quoted(&text));
            self.fault(Some(name), problem, format!("write {}", words.join(" or ")));
        }
        position
    }
}

fn example(column: &Column) -> String {
    format!("write for example {} ({})", column.example, column.meaning)
}

fn quantity(text: &str, dimension: Dimension) -> Result<f64, (String, String)> {
    parse_si(text, dimension).map_err(|error| (error.to_string(), error.help()))
}

fn not_a_number(column: &Column, text: &str) -> (String, String) {
    let wanted = match column.kind {
        Kind::With(unit) => format!("a number with {unit}"),
        _ => "a plain number with a decimal point".to_owned(),
    };
    (format!("`{}` is not {wanted}", quoted(text)), format!("write for example {}", column.example))
}
