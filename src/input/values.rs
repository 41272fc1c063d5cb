//! Reads single values out of a boat file and gathers what is wrong with them.

use std::ops::Range;

use super::collect::{Document, LIST_MARK, quoted_list};
use crate::boat::keys::{self, example_line};
use crate::boat::{Measure, Written, bound_of, row_of, without_positions};
use crate::error::FileFault;
use crate::schema::{Kind, Misread};
use crate::spelling;
use crate::units::{self, QuantityError, QuantityProblem};

/// Reads values out of a document and gathers what is wrong with them.
pub(super) struct Values<'a> {
    pub(super) document: &'a Document,
    source: &'a str,
    pub(super) faults: Vec<FileFault>,
    /// Everything read so far, for the range check.
    read: Vec<(String, Measure)>,
}

impl<'a> Values<'a> {
    /// A values for a document of the given source text, holding the faults of structure.
    pub(super) fn new(document: &'a Document, source: &'a str) -> Self {
        Self { document, source, faults: document.faults.clone(), read: Vec::new() }
    }

    /// The quantity or plain number of a key, if it is given and can be read.
    pub(super) fn value<Q: TryFrom<Measure>>(&mut self, key: &str) -> Option<Q> {
        let kind = row_of(key)?.kind;
        self.measured(key, kind)?.try_into().ok()
    }

    /// The same, or else the value that the row of the key says is taken.
    pub(super) fn value_or_default<Q: TryFrom<Measure>>(&mut self, key: &str) -> Q {
        keys::or_default(self.value(key), key)
    }

    /// The same of a key that must be given: a fault if it is not in the file at all.
    pub(super) fn needed<Q: TryFrom<Measure>>(&mut self, key: &str) -> Option<Q> {
        let value = self.value(key);
        self.need(key, value)
    }

    /// What a key gives, read as a value of some kind.
    pub(super) fn measured(&mut self, key: &str, kind: Kind) -> Option<Measure> {
        let text = self.document.values.get(key)?.text.as_ref()?;
        if matches!(kind, Kind::QuantityOr(..)) && is_word(text) {
            return None;
        }
        let misread = match kind.read(text) {
            Ok(number) => {
                let measure = Measure::of(kind, number);
                self.read.push((key.to_owned(), measure));
                return Some(measure);
            }
            Err(misread) => misread,
        };
        let example = bound_of(key).map(|bound| bound.example);
        let spoken = self.document.spoken(key);
        match misread {
            Misread::Number => {
                let problem = format!("{spoken}: `{}` is not a plain number", units::quoted(text));
                let example = example.unwrap_or("1");
                let help = format!("write a number without a unit, for example {example}");
                self.fault_at(key, problem, help);
            }
            Misread::Quantity(mut error) => {
                use QuantityProblem::{Empty, MissingUnit, NoNumber, WrongKind};
                if let (Empty | NoNumber(_) | WrongKind { .. }, Some(example)) =
                    (&error.problem, example)
                {
                    error.remedy = Some(format!("write for example `{example}`"));
                }
                if let (MissingUnit(number), Some(example)) = (&error.problem, example) {
                    let unit = error.wanted.unit_of_example(example);
                    if number == text.trim() {
                        error.remedy = Some(format!("write for example `{number} {unit}`"));
                    }
                }
                let place = self.place_within(key, text, &error);
                let problem = format!("{spoken}: {error}");
                self.faults.push(FileFault { problem, help: error.help(), place });
            }
        }
        None
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

    pub(super) fn text(&self, key: &str) -> Option<String> {
        self.document.values.get(key)?.text.clone()
    }

    /// The text of a key that must be given.
    pub(super) fn needed_text(&mut self, key: &str) -> Option<String> {
        let text = self.text(key);
        self.need(key, text)
    }

    /// The position of a word among those allowed.
    pub(super) fn choice(&mut self, key: &str) -> Option<usize> {
        let text = self.document.values.get(key)?.text.as_ref()?;
        let words = words_of(key);
        let position = words.iter().position(|word| word == text);
        if position.is_none() {
            let spoken = self.document.spoken(key);
            let problem = format!("{spoken}: `{}` is not one of its words", units::quoted(text));
            self.fault_at(key, problem, format!("write {}", quoted_list(words)));
        }
        position
    }

    /// The position of the word that is given for a quantity; none where a quantity is given, or nothing.
    pub(super) fn word_for(&mut self, key: &str) -> Option<usize> {
        let text = self.document.values.get(key)?.text.as_ref().filter(|text| is_word(text))?;
        let row = row_of(key)?;
        let words = words_of(key);
        let plain = spelling::plain(text);
        let position = words.iter().position(|word| spelling::plain(word) == plain);
        if position.is_none() {
            let near = spelling::nearest(text, words.iter().copied());
            let near = near.filter(|(_, likeness)| *likeness > spelling::CLOSE);
            let meant =
                near.map_or(String::new(), |(word, _)| format!("did you mean \"{word}\"? "));
            let problem = format!(
                "{}: `{}` is neither a quantity nor one of its words",
                self.document.spoken(key),
                units::quoted(text)
            );
            let words = quoted_list(words);
            let help =
                format!("{meant}write {words}, or a quantity, for example \"{}\"", row.example);
            self.fault_at(key, problem, help);
        }
        position
    }

    /// The positions of the words of a list among those allowed; a word given twice counts once.
    pub(super) fn words(&mut self, key: &str) -> Vec<usize> {
        let (document, words) = (self.document, words_of(key));
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
        let Some(table) = keys::table(&without_positions(place)) else { return };
        let Some(key) = table.key(name) else { return };
        let header = table.header();
        self.fault_at(
            path,
            format!("{} is missing", self.document.spoken(path)),
            format!("write below {header} for example\n{}\n({})", example_line(key), key.meaning),
        );
    }

    pub(super) fn missing_table(&mut self, name: &str) {
        let Some(table) = keys::table(name) else { return };
        if self.document.broken.contains(name) {
            return;
        }
        let lines: Vec<String> =
            table.keys.iter().filter(|key| table.shows(key)).map(example_line).collect();
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
            let bound = bound_of(&key);
            if let Some([problem, remedy]) = bound.and_then(|bound| bound.refusal(measure)) {
                let problem = format!("{}: {problem}", self.document.spoken(&key));
                self.fault_at(&key, problem, remedy);
            }
        }
    }
}

/// Whether a text is words, without any number in it.
fn is_word(text: &str) -> bool {
    text.contains(char::is_alphabetic) && !text.contains(|c: char| c.is_ascii_digit())
}

/// The words that a key takes.
fn words_of(key: &str) -> &'static [&'static str] {
    match row_of(key).map(|row| row.kind) {
        Some(Kind::Choice(words) | Kind::Words(words) | Kind::QuantityOr(_, words)) => words,
        _ => &[],
    }
}
