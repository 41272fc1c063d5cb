//! Reads single values out of a boat file and gathers what is wrong with them.

use std::ops::Range;

use uom::si::f64::{Angle, Area, Length, Mass, Ratio, Velocity};
use uom::si::ratio::ratio;

use super::collect::{Document, LIST_MARK, quoted_list};
use super::schema;
use crate::boat::{Measure, Written, bound_of, without_positions};
use crate::error::FileFault;
use crate::units::{self, QuantityError, QuantityProblem};

/// Reads values out of a document and gathers what is wrong with them.
pub(super) struct Desk<'a> {
    pub(super) document: &'a Document,
    source: &'a str,
    pub(super) faults: Vec<FileFault>,
    /// Everything read so far, for the range check.
    read: Vec<(String, Measure)>,
}

impl<'a> Desk<'a> {
    /// A desk for a document of the given source text, holding the faults of structure.
    pub(super) fn new(document: &'a Document, source: &'a str) -> Self {
        Self { document, source, faults: document.faults.clone(), read: Vec::new() }
    }

    pub(super) fn length(&mut self, key: &str) -> Option<Length> {
        self.quantity(key, units::parse_length, Measure::Length)
    }

    pub(super) fn mass(&mut self, key: &str) -> Option<Mass> {
        self.quantity(key, units::parse_mass, Measure::Mass)
    }

    pub(super) fn speed(&mut self, key: &str) -> Option<Velocity> {
        self.quantity(key, units::parse_speed, Measure::Speed)
    }

    pub(super) fn angle(&mut self, key: &str) -> Option<Angle> {
        self.quantity(key, units::parse_angle, Measure::Angle)
    }

    pub(super) fn area(&mut self, key: &str) -> Option<Area> {
        self.quantity(key, units::parse_area, Measure::Area)
    }

    pub(super) fn share(&mut self, key: &str) -> Option<Ratio> {
        let parse = |text: &str| units::parse_fraction(text).map(Ratio::new::<ratio>);
        self.quantity(key, parse, Measure::Share)
    }

    /// The quantity of a key, if it is given and can be read.
    pub(super) fn quantity<Q: Copy>(
        &mut self,
        key: &str,
        parse: impl Fn(&str) -> Result<Q, QuantityError>,
        measure: impl Fn(Q) -> Measure,
    ) -> Option<Q> {
        let text = self.document.values.get(key)?.text.as_ref()?;
        match parse(text) {
            Ok(quantity) => {
                self.read.push((key.to_owned(), measure(quantity)));
                Some(quantity)
            }
            Err(mut error) => {
                use QuantityProblem::{Empty, NoNumber, WrongKind};
                if let (Empty | NoNumber(_) | WrongKind { .. }, Some(bound)) =
                    (&error.problem, bound_of(key))
                {
                    error.remedy = Some(format!("write for example `{}`", bound.example));
                }
                let place = self.place_within(key, text, &error);
                let problem = format!("{}: {error}", self.document.spoken(key));
                self.faults.push(FileFault { problem, help: error.help(), place });
                None
            }
        }
    }

    /// The bytes of the file at which a quantity goes wrong.
    fn place_within(&self, key: &str, text: &str, error: &QuantityError) -> Option<Range<usize>> {
        let whole = self.document.place_of(key)?;
        let inside = whole.start + 1..whole.end.saturating_sub(1);
        let is_plain = !text.is_empty() && self.source.get(inside.clone()) == Some(text);
        if is_plain {
            Some(inside.start + error.span.start..inside.start + error.span.end)
        } else {
            Some(whole)
        }
    }

    pub(super) fn number(&mut self, key: &str) -> Option<f64> {
        let text = self.document.values.get(key)?.text.as_ref()?;
        match text.trim().parse::<f64>() {
            Ok(number) if number.is_finite() => {
                self.read.push((key.to_owned(), Measure::Number(number)));
                Some(number)
            }
            _ => {
                let spoken = self.document.spoken(key);
                let problem = format!("{spoken}: `{}` is not a plain number", units::quoted(text));
                let example = bound_of(key).map_or("1", |bound| bound.example);
                let help = format!("write a number without a unit, for example {example}");
                self.fault_at(key, problem, help);
                None
            }
        }
    }

    pub(super) fn text(&self, key: &str) -> Option<String> {
        self.document.values.get(key)?.text.clone()
    }

    /// The position of a word among those allowed.
    pub(super) fn choice(&mut self, key: &str, words: &[&str]) -> Option<usize> {
        let text = self.document.values.get(key)?.text.as_ref()?;
        let position = words.iter().position(|word| word == text);
        if position.is_none() {
            let spoken = self.document.spoken(key);
            let problem = format!("{spoken}: `{}` is not one of its words", units::quoted(text));
            self.fault_at(key, problem, format!("write {}", quoted_list(words)));
        }
        position
    }

    /// The positions of the words of a list among those allowed; a word given twice counts once.
    pub(super) fn words(&mut self, key: &str, words: &[&str]) -> Vec<usize> {
        let document = self.document;
        let text = document.values.get(key).and_then(|value| value.text.as_deref());
        let mut positions = Vec::new();
        for given in text.unwrap_or_default().split(LIST_MARK).filter(|word| !word.is_empty()) {
            match words.iter().position(|word| *word == given) {
                Some(position) if !positions.contains(&position) => positions.push(position),
                Some(_) => {}
                None => {
                    let spoken = self.document.spoken(key);
                    let word = units::quoted(given);
                    let problem = format!("{spoken}: `{word}` is not one of its words");
                    self.fault_at(key, problem, format!("write {}", quoted_list(words)));
                }
            }
        }
        positions
    }

    /// The names of a list, or the one name given; a list that is given and empty is a fault.
    pub(super) fn names(&mut self, key: &str) -> Vec<String> {
        let Some(value) = self.document.values.get(key) else { return Vec::new() };
        let Some(text) = &value.text else { return Vec::new() };
        if text.is_empty() {
            let problem = format!("{}: the list is empty", self.document.spoken(key));
            self.fault_at(key, problem, "name at least one, or delete the line".to_owned());
            return Vec::new();
        }
        text.split(LIST_MARK).map(str::to_owned).collect()
    }

    /// Whether the table is in the file, in the right form.
    pub(super) fn given(&self, table: &str) -> bool {
        self.document.tables.contains_key(table)
    }

    pub(super) fn count(&self, list: &str) -> usize {
        self.document.list_lengths.get(list).copied().unwrap_or(0)
    }

    pub(super) fn if_given<T>(
        &mut self,
        table: &str,
        read: fn(&mut Self) -> Option<T>,
    ) -> Option<T> {
        if self.given(table) { read(self) } else { None }
    }

    /// The value, or a fault if its key is not in the file at all.
    pub(super) fn need<T>(&mut self, path: &str, value: Option<T>) -> Option<T> {
        if value.is_none() && !self.document.values.contains_key(path) {
            self.missing_key(path);
        }
        value
    }

    fn missing_key(&mut self, path: &str) {
        let (place, name) = path.rsplit_once('.').unwrap_or(("", path));
        let Some(table) = schema::table(&without_positions(place)) else { return };
        let Some(key) = table.key(name) else { return };
        let header = table.header();
        self.fault_at(
            path,
            format!("{} is missing", self.document.spoken(path)),
            format!(
                "write below {header} for example\n{}\n({})",
                table.example_line(key),
                table.meaning(key)
            ),
        );
    }

    pub(super) fn missing_table(&mut self, name: &str) {
        let Some(table) = schema::table(name) else { return };
        if self.document.broken.contains(name) {
            return;
        }
        let lines: Vec<String> = table
            .keys
            .iter()
            .filter(|key| key.starter)
            .map(|key| table.example_line(key))
            .collect();
        let instead =
            if name == "weight" { "\nor list the items, each below [[load]]" } else { "" };
        self.faults.push(FileFault {
            problem: format!("the table {} is missing", table.header()),
            help: format!("write for example\n{}\n{}{instead}", table.header(), lines.join("\n")),
            place: None,
        });
    }

    pub(super) fn fault_at(&mut self, key: &str, problem: String, help: String) {
        let place = self.document.place_of(key);
        self.faults.push(FileFault { problem, help, place });
    }

    /// The units of everything read so far that one may be mistaken for another of.
    pub(super) fn written(&self) -> Written {
        let unit = |(key, measure): &(String, Measure)| {
            let text = self.document.values.get(key)?.text.as_ref()?;
            Some((key.clone(), units::unit_written(text, measure.dimension()?)?))
        };
        self.read.iter().filter_map(unit).collect()
    }

    /// Checks the values that could be read, since the boat cannot be built to check them.
    pub(super) fn add_range_faults(&mut self) {
        for (key, measure) in std::mem::take(&mut self.read) {
            if let Some(bound) = bound_of(&key).filter(|bound| !bound.admits(measure)) {
                self.fault_at(
                    &key,
                    format!(
                        "{}: {measure} is outside {}",
                        self.document.spoken(&key),
                        bound.allowed()
                    ),
                    format!("{}; for example \"{}\"", bound.why, bound.example),
                );
            }
        }
    }
}
