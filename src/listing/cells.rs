//! One line of a list: reads its cells by the rows of the columns and gathers what is wrong with them.

use std::collections::BTreeMap;

use uom::si::f64::Length;
use uom::si::length::meter;

use super::Decimal;
use crate::schema::{Kind, Misread, Row, named};
use crate::units::{QuantityProblem, quoted};

/// What is wrong with a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct CellFault {
    /// Column, where it is one column's fault.
    pub column: Option<&'static str>,
    /// What is wrong, with the value.
    pub problem: String,
    /// What is allowed, and what to write instead.
    pub remedy: String,
}

/// A line being read.
pub(crate) struct Cells<'a> {
    /// What the columns hold.
    pub columns: &'static [Row],
    /// Cells by column; one that is missing altogether is reported at the headings and not here.
    pub texts: &'a BTreeMap<&'static str, String>,
    /// Units that stand in the headings.
    pub units: &'a BTreeMap<&'static str, String>,
    /// How its numbers are written.
    pub decimal: Decimal,
    /// What is wrong so far.
    pub faults: Vec<CellFault>,
}

impl Cells<'_> {
    /// Remembers what is wrong.
    pub fn fault(&mut self, column: Option<&'static str>, problem: String, remedy: String) {
        self.faults.push(CellFault { column, problem, remedy });
    }

    /// The text of a cell that is filled in.
    pub fn text(&self, name: &str) -> Option<&str> {
        self.texts.get(name).map(|cell| cell.trim()).filter(|cell| !cell.is_empty())
    }

    /// The text of a cell that must be filled in.
    pub fn need_text(&mut self, name: &'static str) -> Option<String> {
        let text = self.text(name).map(str::to_owned);
        if text.is_none() {
            self.missing(name);
        }
        text
    }

    fn missing(&mut self, name: &'static str) {
        let Some(column) = named(self.columns, name) else { return };
        if self.texts.contains_key(name) || !column.is_needed() {
            let problem = "nothing is written here".to_owned();
            self.fault(Some(name), problem, column.write_instead());
        }
    }

    /// A value in SI or as the plain number, if the cell is filled in and right.
    pub fn value(&mut self, name: &'static str) -> Option<f64> {
        let column = named(self.columns, name)?;
        let text = self.text(name)?.to_owned();
        match column.kind.read(&self.with_unit(column, &text)) {
            Ok(value) if column.admits(value) => return Some(value),
            Ok(_) => {
                let problem = format!("`{}` is outside {}", quoted(&text), column.allowed());
                self.fault(Some(name), problem, column.write_instead());
            }
            Err(Misread::Quantity(mut error)) => {
                let unit = unit_of(column.example);
                if matches!(error.problem, QuantityProblem::MissingUnit(_)) {
                    error.remedy = Some(format!(
                        "write it with each number, `{} {unit}`, or once in the heading, `{name} ({unit})`",
                        quoted(&text)
                    ));
                } else if matches!(
                    error.problem,
                    QuantityProblem::WrongKind { .. } | QuantityProblem::NoNumber(_)
                ) {
                    error.remedy = Some(format!("write for example `{}`", column.example));
                }
                self.fault(Some(name), error.to_string(), error.help());
            }
            Err(Misread::Number) => {
                let wanted = match column.kind {
                    Kind::With(unit) => format!("a number with {unit}"),
                    _ => "a plain number with a decimal point".to_owned(),
                };
                let problem = format!("`{}` is not {wanted}", quoted(&text));
                self.fault(Some(name), problem, column.write_instead());
            }
        }
        None
    }

    /// A number as the program writes it, with the unit that stands in its heading where it has none.
    fn with_unit(&self, column: &Row, text: &str) -> String {
        let text = self.decimal.with_point(text, false);
        let is_bare = !text.contains(|c: char| c.is_alphabetic() || "'\"”’″′°%".contains(c));
        match self.units.get(column.name) {
            Some(unit) if is_bare => format!("{text} {unit}"),
            _ => text.into_owned(),
        }
    }

    /// A sum of money with the currency that stands beside it, if the cell is filled in and right.
    pub fn money(&mut self, name: &'static str) -> Option<(f64, Option<String>)> {
        let column = named(self.columns, name)?;
        let text = self.text(name)?.to_owned();
        let number = |c: char| c.is_ascii_digit() || "+-.,' ’\u{a0}\u{202f}".contains(c);
        let currency = text.trim_matches(number).to_owned();
        let bare = text.replace(&currency, "");
        let amount = self.decimal.with_point(bare.trim(), true);
        let amount = amount.replace([' ', '\''], "");
        let is_one = currency.chars().all(|c| !number(c) || c == ' ');
        match Kind::Number.read(&amount) {
            Ok(value) if is_one && column.admits(value) => {
                return Some((value, Some(currency).filter(|text| !text.is_empty())));
            }
            Ok(_) if is_one => {
                let problem = format!("`{}` is outside {}", quoted(&text), column.allowed());
                self.fault(Some(name), problem, column.write_instead());
            }
            _ => {
                let problem = format!("`{}` is not a sum of money", quoted(&text));
                self.fault(Some(name), problem, column.write_instead());
            }
        }
        None
    }

    /// A value that must be filled in.
    pub fn need(&mut self, name: &'static str) -> Option<f64> {
        if self.text(name).is_none() {
            self.missing(name);
            return None;
        }
        self.value(name)
    }

    /// A value, or what its row says is taken when the cell is empty; `None` when it is wrong.
    pub fn value_or_default(&mut self, name: &'static str) -> Option<f64> {
        match self.text(name) {
            None => named(self.columns, name)?.default(),
            Some(_) => self.value(name),
        }
    }

    /// A value that may be left out; the outer `None` when it is wrong.
    pub fn optional(&mut self, name: &'static str) -> Option<Option<f64>> {
        if self.text(name).is_none() { Some(None) } else { self.value(name).map(Some) }
    }

    /// A length that must be filled in.
    pub fn need_length(&mut self, name: &'static str) -> Option<Length> {
        self.need(name).map(Length::new::<meter>)
    }

    /// A whole number that must be filled in.
    pub fn need_count(&mut self, name: &'static str) -> Option<u32> {
        let value = self.need(name)?;
        self.whole(name, value)
    }

    /// A whole number, or what its row says is taken when the cell is empty.
    pub fn count_or_default(&mut self, name: &'static str) -> Option<u32> {
        let value = self.value_or_default(name)?;
        self.whole(name, value)
    }

    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    fn whole(&mut self, name: &'static str, value: f64) -> Option<u32> {
        if value.fract() == 0.0 {
            return Some(value as u32);
        }
        let remedy = named(self.columns, name).map_or_else(String::new, Row::write_instead);
        self.fault(Some(name), format!("{value} is not a whole number"), remedy);
        None
    }

    /// The position of a word among those that the column takes; `None` when empty or wrong.
    pub fn choice(&mut self, name: &'static str) -> Option<usize> {
        let text = self.text(name)?.to_owned();
        let Kind::Choice(words) = named(self.columns, name)?.kind else { return None };
        let position = words.iter().position(|word| word.eq_ignore_ascii_case(&text));
        if position.is_none() {
            let problem = format!("`{}` is not one of its words", quoted(&text));
            self.fault(Some(name), problem, format!("write {}", words.join(" or ")));
        }
        position
    }
}

/// The unit of an example: `mm` of `450 mm`.
pub(crate) fn unit_of(example: &str) -> &str {
    example.rsplit(' ').next().unwrap_or_default()
}
