//! Reads a trial log: a CSV file whose columns are those of [`COLUMNS`](super::COLUMNS).

use std::collections::BTreeMap;
use std::ops::Range;
use std::path::{Path, PathBuf};

use csv::{ReaderBuilder, StringRecord, Trim};
use miette::Diagnostic;
use thiserror::Error;

use super::columns::{COLUMNS, Column, Kind, column_of, nearest};
use super::row::{Cells, LogRow};
use crate::error::{FileFault, FileFaults, Unread, shown_name, text_of};
use crate::units::{parse_si, quoted};

/// Likeness above which a heading is taken for a misspelt one.
const CLOSE: f64 = 0.7;
/// Most runs of a log that are used; more are a recording, not a log of steady runs.
pub const MOST_ROWS: usize = 500;

/// A trial log as it was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Log {
    /// Name of the file as given.
    pub name: String,
    /// CRC-32 of its text, eight hexadecimal digits.
    pub checksum: String,
    /// Its runs, in the order of the file.
    pub rows: Vec<LogRow>,
    /// Columns that are not used, as sentences.
    pub warnings: Vec<String>,
}

/// Why a log could not be used.
#[derive(Debug, Error, Diagnostic)]
pub enum LogError {
    /// Nothing of that name, or the system refuses to read it.
    #[error("{}: cannot be read: {reason}", path.display())]
    #[diagnostic(help(
        "give the name of a trial log, a CSV file; `planewright trial --how` says what it holds"
    ))]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
    /// Larger than 1 MiB.
    #[error("{}: larger than 1 MiB, so it is not a trial log", path.display())]
    #[diagnostic(help(
        "a trial log has one line for each steady run, not a recording of every second"
    ))]
    TooLarge {
        /// The file.
        path: PathBuf,
    },
    /// Not text in UTF-8.
    #[error("{}: this is not text in UTF-8: line {line} holds something else", path.display())]
    #[diagnostic(help("save the sheet as CSV with the encoding UTF-8"))]
    NotText {
        /// The file.
        path: PathBuf,
        /// First line that is not text, counted from 1.
        line: usize,
    },
    /// No heading line, or not one of commas, or no run below it.
    #[error("{name}: {problem}")]
    #[diagnostic(help("{help}"))]
    Headings {
        /// Name of the file.
        name: String,
        /// What is wrong.
        problem: String,
        /// What to do.
        help: String,
    },
    /// Read, but with faults.
    #[error(transparent)]
    #[diagnostic(transparent)]
    Faults(#[from] FileFaults),
}

/// Reads a trial log of at most 1 MiB.
///
/// # Errors
/// When the file cannot be read as text, its headings are not those of a trial log, or a line has
/// a fault; all faults are reported together.
pub fn read_log(path: &Path) -> Result<Log, LogError> {
    let text = text_of(path).map_err(|unread| match unread {
        Unread::Refused(reason) => LogError::Unreadable { path: path.to_owned(), reason },
        Unread::TooLarge => LogError::TooLarge { path: path.to_owned() },
        Unread::NotText { line } => LogError::NotText { path: path.to_owned(), line },
    })?;
    parse_log(&shown_name(path), &text)
}

/// Reads the text of a trial log; `name` stands for the file in messages.
///
/// # Errors
/// As [`read_log`], of the text alone.
pub fn parse_log(name: &str, text: &str) -> Result<Log, LogError> {
    let text = text.trim_start_matches('\u{feff}');
    let mut reader = ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .comment(Some(b'#'))
        .trim(Trim::All)
        .from_reader(text.as_bytes());
    let mut records = reader.records();
    let headings = records.next().and_then(Result::ok).unwrap_or_default();
    usable(name, &headings)?;
    let mut desk = Desk {
        text,
        columns: Vec::new(),
        units: BTreeMap::new(),
        faults: Vec::new(),
        warnings: Vec::new(),
    };
    desk.take_headings(&headings);
    let mut rows = Vec::new();
    for record in records.filter_map(Result::ok) {
        rows.extend(desk.row(&record));
    }
    if !desk.faults.is_empty() {
        return Err(FileFaults::new(name, text, desk.faults).into());
    }
    let refused = |problem: String, help: &str| LogError::Headings {
        name: name.to_owned(),
        problem,
        help: help.to_owned(),
    };
    if rows.is_empty() {
        return Err(refused(
            "the log holds no runs".to_owned(),
            "write one line below the headings for each steady run",
        ));
    }
    if rows.len() > MOST_ROWS {
        let problem = format!("the log holds {} runs, more than {MOST_ROWS}", rows.len());
        return Err(refused(
            problem,
            "write one line for each steady run, its mean over half a minute",
        ));
    }
    let checksum = format!("{:08x}", crc32fast::hash(text.as_bytes()));
    Ok(Log { name: name.to_owned(), checksum, rows, warnings: desk.warnings })
}

/// A heading line that has several columns of which some are known.
fn usable(name: &str, headings: &StringRecord) -> Result<(), LogError> {
    let refused = |problem: String, help: &str| {
        Err(LogError::Headings { name: name.to_owned(), problem, help: help.to_owned() })
    };
    let start =
        "the first line names the columns, for example: speed (kn), trim (deg), deflection (deg)";
    let first = headings.get(0).unwrap_or_default();
    if headings.iter().all(str::is_empty) {
        return refused("the trial log is empty".to_owned(), start);
    }
    if headings.len() == 1 && first.contains([';', '\t']) {
        let help = "separate the columns with commas, and write decimals with a point";
        return refused("the columns are not separated by commas".to_owned(), help);
    }
    if !headings.iter().any(|heading| column_of(&split(heading).0).is_some()) {
        let problem = format!("`{}` is not the heading of a trial log", quoted(first));
        return refused(problem, start);
    }
    Ok(())
}

/// A heading as the columns are spelt, and the unit in brackets behind it.
fn split(heading: &str) -> (String, Option<String>) {
    let plain = |text: &str| text.trim().to_lowercase().replace([' ', '-'], "_");
    let unit = heading
        .split_once('(')
        .and_then(|(name, rest)| Some((name, rest.trim_end().strip_suffix(')')?)))
        .or_else(|| {
            let (name, rest) = heading.split_once('[')?;
            Some((name, rest.trim_end().strip_suffix(']')?))
        });
    match unit {
        Some((name, unit)) => (plain(name), Some(unit.trim().to_owned())),
        None => (plain(heading), None),
    }
}

/// Reads lines and gathers what is wrong with them.
struct Desk<'a> {
    text: &'a str,
    columns: Vec<Option<&'static Column>>,
    units: BTreeMap<&'static str, String>,
    faults: Vec<FileFault>,
    warnings: Vec<String>,
}

impl Desk<'_> {
    fn fault(&mut self, place: Range<usize>, problem: String, help: String) {
        self.faults.push(FileFault { problem, help, place: Some(place) });
    }

    /// The column under each heading, and the units that stand there.
    fn take_headings(&mut self, headings: &StringRecord) {
        let place = self.place_of(headings);
        for heading in headings {
            let (name, unit) = split(heading);
            let known = column_of(&name).or_else(|| self.unknown(heading, &name, &place));
            if let Some(column) = known {
                if self.columns.contains(&Some(column)) {
                    let problem = format!("the column {} is there twice", column.name);
                    self.fault(place.clone(), problem, "delete one of the two".to_owned());
                }
                self.take_unit(column, unit, &place);
            }
            self.columns.push(known);
        }
        for column in COLUMNS.iter().filter(|column| column.needed) {
            if !self.columns.contains(&Some(column)) {
                let help = format!("{}, for example {}", column.meaning, column.example);
                self.fault(place.clone(), format!("the column {} is missing", column.name), help);
            }
        }
    }

    /// A heading that is not known: a misspelt one is a fault, any other is not used.
    fn unknown(
        &mut self,
        heading: &str,
        name: &str,
        place: &Range<usize>,
    ) -> Option<&'static Column> {
        if heading.is_empty() {
            return None;
        }
        let (near, likeness) = nearest(name);
        let shown = quoted(heading);
        if likeness < CLOSE {
            self.warnings.push(format!(
                "the column `{shown}` is not used; the nearest known is `{}`",
                near.name
            ));
            return None;
        }
        self.fault(
            place.clone(),
            format!("there is no column `{shown}`"),
            format!("did you mean `{}`?", near.name),
        );
        // Its cells are checked all the same, unless the column itself is there too.
        (!self.columns.contains(&Some(near))).then_some(near)
    }

    fn take_unit(&mut self, column: &'static Column, unit: Option<String>, place: &Range<usize>) {
        let Some(unit) = unit else { return };
        let Kind::Quantity(dimension) = column.kind else { return };
        match parse_si(&format!("1 {unit}"), dimension) {
            Ok(_) => {
                self.units.insert(column.name, unit);
            }
            Err(error) => {
                self.fault(place.clone(), format!("{}: {error}", column.name), error.help());
            }
        }
    }

    /// The run of one line; none when it is blank or has faults.
    fn row(&mut self, record: &StringRecord) -> Option<LogRow> {
        if record.iter().all(str::is_empty) {
            return None;
        }
        let place = self.place_of(record);
        if record.iter().any(|cell| cell.contains('\n')) {
            let help = "close each quotation mark on its line".to_owned();
            self.fault(place, "a quotation mark is not closed".to_owned(), help);
            return None;
        }
        if record.len() != self.columns.len() {
            let (cells, wanted) = (record.len(), self.columns.len());
            self.fault(
                place,
                format!("the line has {cells} cells and the heading {wanted}"),
                "decimals have a point, and commas stand only between cells".to_owned(),
            );
            return None;
        }
        let named = self.columns.iter().zip(record);
        let texts: BTreeMap<&'static str, String> =
            named.filter_map(|(column, cell)| Some(((*column)?.name, cell.to_owned()))).collect();
        let line = self.text[..place.start].matches('\n').count() as u64 + 1;
        let mut cells = Cells { line, texts: &texts, units: &self.units, troubles: Vec::new() };
        let row = cells.row();
        for (problem, help) in std::mem::take(&mut cells.troubles) {
            self.fault(place.clone(), problem, help);
        }
        row
    }

    /// The bytes of the line on which a record begins. The reader gives the place before the blank
    /// lines and the comments that it skipped.
    fn place_of(&self, record: &StringRecord) -> Range<usize> {
        let place = record.position().map_or(0, csv::Position::byte);
        let mut start = usize::try_from(place).unwrap_or(0).min(self.text.len());
        while let Some((line, _)) = self.text.get(start..).and_then(|rest| rest.split_once('\n')) {
            if !line.starts_with('#') && !line.trim().is_empty() {
                break;
            }
            start += line.len() + 1;
        }
        let length = self.text[start..].find('\n').unwrap_or(self.text.len() - start);
        start..start + self.text[start..start + length].trim_end().len()
    }
}

#[cfg(test)]
#[path = "read_tests.rs"]
mod tests;
