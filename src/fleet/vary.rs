//! A sweep: keys of a boat file that are varied, and the rows that come of every combination.
//!
//! `weight.lcg = 2.6 m to 3.2 m, 7 values` or `planes.span = 400 mm, 500 mm`.

use super::source::{Place, Source, TableError};
use super::{Line, Value};
use crate::boat::{Fault, Measure, row_of};
use crate::schema::{Kind, Misread};
use crate::units::quoted;

/// Rows that a sweep may have.
pub const MOST_ROWS: u64 = 100_000_000;
/// Values that one key may take.
const MOST_VALUES: usize = 100_000;
/// Digits kept of a value between the ends of a range, so that 2.7 m is not 2.700 000 000 000 000 2 m.
const DIGITS: usize = 12;

/// A key with the values that it takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Varied {
    /// The key: `weight.lcg`.
    pub key: String,
    /// The unit of its values where they are numbers; empty for plain numbers and words.
    pub unit: String,
    /// The values.
    pub values: Vec<Value>,
}

/// What is wrong with a sentence that says what is varied.
fn wrong(said: &str, problem: &str, remedy: String) -> Fault {
    Fault { key: "run.vary".to_owned(), problem: format!("`{}`: {problem}", quoted(said)), remedy }
}

const EXAMPLES: &str =
    "write for example `weight.lcg = 2.6 m to 3.2 m, 7 values` or `planes.span = 400 mm, 500 mm`";

impl Varied {
    /// Reads `KEY = FROM to TO, N values`, or `KEY = VALUE, VALUE`; a unit that is left out is that of the last value.
    ///
    /// # Errors
    /// If it does not read so, or a value is none of its key.
    pub fn read(said: &str) -> Result<Self, Fault> {
        let example = || EXAMPLES.to_owned();
        let (key, values) = said
            .split_once('=')
            .ok_or_else(|| wrong(said, "no `=` stands behind the key", example()))?;
        let (key, values) = (key.trim().to_owned(), values.trim());
        super::columns::headings(std::slice::from_ref(&key), &[]).map_err(|fault| {
            wrong(said, "this is no key of a boat file that can be varied", fault.remedy)
        })?;
        let kind = row_of(&key).map_or(Kind::Text, |row| row.kind);
        let texts = match range(values) {
            Some((from, to, count)) => steps(said, from, to, count)?,
            None if values.contains(" to ") || values.contains("..") => {
                return Err(wrong(said, "a range needs the number of its values", example()));
            }
            None => list(values),
        };
        if texts.is_empty() || texts.iter().any(String::is_empty) {
            return Err(wrong(said, "a value is missing", example()));
        }
        if texts.len() > MOST_VALUES {
            return Err(wrong(
                said,
                "these are too many values",
                format!("give {MOST_VALUES} at most"),
            ));
        }
        Self::of(said, key, kind, texts)
    }

    /// From texts, each a value of the kind.
    fn of(said: &str, key: String, kind: Kind, texts: Vec<String>) -> Result<Self, Fault> {
        let is_word =
            |text: &String| !text.starts_with(|c: char| c.is_ascii_digit() || "+-.".contains(c));
        if !kind.is_number() || texts.iter().all(is_word) {
            let values = texts.into_iter().map(Value::Text).collect();
            return Ok(Self { key, unit: String::new(), values });
        }
        let mut units: Vec<&str> = texts.iter().map(|text| parts(text).1).collect();
        units.dedup();
        let number = |text: &String| {
            let read = kind.read(text).map_err(|misread| match misread {
                Misread::Quantity(error) => wrong(said, &error.to_string(), error.help()),
                Misread::Number => wrong(
                    said,
                    &format!("`{}` is not a plain number", quoted(text)),
                    EXAMPLES.to_owned(),
                ),
            })?;
            let own = parts(text).0.parse().ok().filter(|_| units.len() == 1);
            // Values in several units stand in that of the limits.
            Ok(Value::Number(own.unwrap_or_else(|| Measure::of(kind, read).value())))
        };
        let values = texts.iter().map(number).collect::<Result<Vec<_>, Fault>>()?;
        let is_plain = |text: &String| parts(text).0.parse::<f64>().is_ok();
        let unit =
            if units.len() == 1 && texts.iter().all(is_plain) { units[0] } else { kind.unit() };
        Ok(Self { unit: unit.to_owned(), key, values })
    }

    /// The heading of its column: `weight.lcg [m]`.
    #[must_use]
    pub fn heading(&self) -> String {
        match self.unit.as_str() {
            "" => self.key.clone(),
            unit => format!("{} [{unit}]", self.key),
        }
    }
}

/// The two ends and the count of `FROM to TO, N values`.
fn range(values: &str) -> Option<(&str, &str, &str)> {
    let (ends, count) = values.rsplit_once(',')?;
    let count = count.trim().strip_suffix("values")?.trim();
    let (from, to) = ends.split_once(" to ")?;
    Some((from.trim(), to.trim(), count))
}

/// A number and what stands behind it.
fn parts(text: &str) -> (&str, &str) {
    let text = text.trim();
    let is_number = |&(_, c): &(usize, char)| c.is_ascii_digit() || "+-.eE".contains(c);
    let end =
        text.char_indices().find(|place| !is_number(place)).map_or(text.len(), |place| place.0);
    (text[..end].trim(), text[end..].trim())
}

/// Values at equal steps from one end to the other.
fn steps(said: &str, from: &str, to: &str, count: &str) -> Result<Vec<String>, Fault> {
    let example = || EXAMPLES.to_owned();
    let count: usize =
        count.parse().ok().filter(|count| (2..=MOST_VALUES).contains(count)).ok_or_else(|| {
            wrong(
                said,
                "the number of values is none",
                format!("give a whole number from 2 to {MOST_VALUES}"),
            )
        })?;
    let ((first, first_unit), (last, unit)) = (parts(from), parts(to));
    if !first_unit.is_empty() && first_unit != unit {
        return Err(wrong(said, "its ends are in two units", "give both in one unit".to_owned()));
    }
    let ends: Option<[f64; 2]> = first.parse().ok().zip(last.parse().ok()).map(Into::into);
    let Some([first, last]) = ends else {
        return Err(wrong(said, "an end of the range is no number with a unit", example()));
    };
    #[allow(clippy::cast_precision_loss)]
    let at = |step: usize| first + (last - first) * (step as f64 / (count - 1) as f64);
    let rounded = |value: f64| format!("{:.*e}", DIGITS - 1, value).parse().unwrap_or(value);
    Ok((0..count).map(|step| format!("{} {unit}", rounded(at(step))).trim().to_owned()).collect())
}

/// Values apart by commas.
fn list(values: &str) -> Vec<String> {
    let texts: Vec<&str> = values.split(',').map(str::trim).collect();
    let unit = texts.last().map_or("", |last| parts(last).1);
    let whole = |text: &&str| match parts(text) {
        (number, "") if !number.is_empty() && !unit.is_empty() => format!("{number} {unit}"),
        _ => (*text).to_owned(),
    };
    texts.iter().map(whole).collect()
}

/// Every combination of some varied keys, the last of them changing fastest.
#[derive(Debug)]
pub struct Combinations {
    varied: Vec<Varied>,
    headings: Vec<String>,
    rows: u64,
    read: u64,
    checksum: String,
}

impl Combinations {
    /// Of these keys.
    ///
    /// # Errors
    /// If there are none, one is there twice, or they make more than [`MOST_ROWS`] rows.
    pub fn of(varied: Vec<Varied>) -> Result<Self, Fault> {
        let twice = varied
            .iter()
            .enumerate()
            .find(|(place, one)| varied[..*place].iter().any(|other| other.key == one.key));
        if let Some((_, twice)) = twice {
            return Err(wrong(
                &twice.key,
                "this key is varied twice",
                "give all its values in one --vary".to_owned(),
            ));
        }
        let counts = varied.iter().map(|one| one.values.len() as u64);
        let rows = counts.fold(1_u64, u64::saturating_mul);
        if varied.is_empty() || rows > MOST_ROWS {
            let problem = if varied.is_empty() {
                "nothing is varied".to_owned()
            } else {
                format!("{rows} combinations are too many")
            };
            return Err(Fault {
                key: "run.vary".to_owned(),
                problem,
                remedy: format!("{EXAMPLES}; at most {MOST_ROWS} combinations"),
            });
        }
        let headings = varied.iter().map(Varied::heading).collect();
        let checksum = format!("{:08x}", crc32fast::hash(format!("{varied:?}").as_bytes()));
        Ok(Self { varied, headings, rows, read: 0, checksum })
    }

    /// The keys.
    #[must_use]
    pub fn varied(&self) -> &[Varied] {
        &self.varied
    }

    fn line(&self, mut row: u64) -> Vec<Value> {
        let mut line: Vec<Value> = Vec::with_capacity(self.varied.len());
        for one in self.varied.iter().rev() {
            let count = one.values.len() as u64;
            let place = usize::try_from(row % count).unwrap_or(0);
            line.push(one.values[place].clone());
            row /= count;
        }
        line.reverse();
        line
    }
}

impl Source for Combinations {
    fn headings(&self) -> &[String] {
        &self.headings
    }

    fn next(&mut self, most: usize) -> Result<Vec<Line>, TableError> {
        let end = self.rows.min(self.read + most as u64);
        let lines = (self.read..end).map(|row| Ok(self.line(row))).collect();
        self.read = end;
        Ok(lines)
    }

    fn place(&self) -> Place {
        Place { rows: self.read, ..Place::default() }
    }

    fn go_to(&mut self, place: Place) -> Result<(), TableError> {
        self.read = place.rows;
        Ok(())
    }

    fn expected(&self) -> u64 {
        self.rows
    }

    fn checksum(&self) -> &str {
        &self.checksum
    }
}
