//! Reads a trial log: a CSV file whose columns are those of [`COLUMNS`](super::COLUMNS).

use std::collections::BTreeMap;
use std::ops::Range;
use std::path::Path;

use csv::StringRecord;
use miette::Diagnostic;
use thiserror::Error;

use super::columns::COLUMNS;
use super::row::LogRow;
use crate::error::{FileFault, FileFaults, shown_name};
use crate::listing::{self, CellFault, Cells, ListError, ListKind, Records};
use crate::schema::{Kind, Misread, Row, named, nearest};
use crate::spelling::{CLOSE, plain};
use crate::units::quoted;

/// What it is called, and how it begins.
const KIND: ListKind = ListKind {
    name: "trial log",
    wanted: "give the name of a trial log, a CSV file; `planewright trial --how` says what it holds",
    usual: "a trial log has one line for each steady run, not a recording of every second",
    headings: "the first line names the columns, for example: speed (kn), trim (deg), deflection (deg)",
};
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
    /// Nothing of it can be read.
    #[error(transparent)]
    #[diagnostic(transparent)]
    List(#[from] ListError),
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
    parse_log(&shown_name(path), &listing::text_of_file(path, KIND)?)
}

/// Reads the text of a trial log; `name` stands for the file in messages.
///
/// # Errors
/// As [`read_log`], of the text alone.
pub fn parse_log(name: &str, text: &str) -> Result<Log, LogError> {
    let records =
        Records::of(name, text, KIND, |heading| named(COLUMNS, &split(heading).0).is_some())?;
    let text = records.text();
    let mut reader = LineReader {
        records: &records,
        columns: Vec::new(),
        units: BTreeMap::new(),
        faults: Vec::new(),
        warnings: Vec::new(),
    };
    reader.take_headings(&records.headings);
    let mut rows = Vec::new();
    for record in &records.rows {
        rows.extend(reader.row(record));
    }
    if !reader.faults.is_empty() {
        return Err(FileFaults::new(name, text, reader.faults).into());
    }
    let refused = |problem: String, help: &str| ListError::Headings {
        name: name.to_owned(),
        problem,
        help: help.to_owned(),
    };
    if rows.is_empty() {
        return Err(refused(
            "the log holds no runs".to_owned(),
            "write one line below the headings for each steady run",
        )
        .into());
    }
    if rows.len() > MOST_ROWS {
        let problem = format!("the log holds {} runs, more than {MOST_ROWS}", rows.len());
        return Err(refused(
            problem,
            "write one line for each steady run, its mean over half a minute",
        )
        .into());
    }
    let checksum = format!("{:08x}", crc32fast::hash(text.as_bytes()));
    Ok(Log { name: name.to_owned(), checksum, rows, warnings: reader.warnings })
}

/// A heading as the columns are spelt, and the unit in brackets behind it.
fn split(heading: &str) -> (String, Option<String>) {
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
struct LineReader<'a> {
    records: &'a Records<'a>,
    columns: Vec<Option<&'static Row>>,
    units: BTreeMap<&'static str, String>,
    faults: Vec<FileFault>,
    warnings: Vec<String>,
}

impl LineReader<'_> {
    fn fault(&mut self, place: Range<usize>, problem: String, help: String) {
        self.faults.push(FileFault { problem, help, place: Some(place) });
    }

    /// The column under each heading, and the units that stand there.
    fn take_headings(&mut self, headings: &StringRecord) {
        let place = self.records.place(headings);
        for heading in headings {
            let (name, unit) = split(heading);
            let known = named(COLUMNS, &name).or_else(|| self.unknown(heading, &name, &place));
            if let Some(column) = known {
                if self.columns.contains(&Some(column)) {
                    let problem = format!("the column {} is there twice", column.name);
                    self.fault(place.clone(), problem, "delete one of the two".to_owned());
                }
                self.take_unit(column, unit, &place);
            }
            self.columns.push(known);
        }
        for column in COLUMNS.iter().filter(|column| column.is_needed()) {
            if !self.columns.contains(&Some(column)) {
                let help = format!("{}, for example {}", column.meaning, column.example);
                self.fault(place.clone(), format!("the column {} is missing", column.name), help);
            }
        }
    }

    /// A heading that is not known: a misspelt one is a fault, any other is not used.
    fn unknown(&mut self, heading: &str, name: &str, place: &Range<usize>) -> Option<&'static Row> {
        if heading.is_empty() {
            return None;
        }
        let (near, likeness) = nearest(COLUMNS, name);
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

    fn take_unit(&mut self, column: &'static Row, unit: Option<String>, place: &Range<usize>) {
        let Some(unit) = unit else { return };
        if !matches!(column.kind, Kind::Quantity(_)) {
            return;
        }
        match column.kind.read(&format!("1 {unit}")) {
            Err(Misread::Quantity(error)) => {
                self.fault(place.clone(), format!("{}: {error}", column.name), error.help());
            }
            _ => {
                self.units.insert(column.name, unit);
            }
        }
    }

    /// The run of one line; none when it has faults.
    fn row(&mut self, record: &StringRecord) -> Option<LogRow> {
        let place = self.records.place(record);
        if let Some((problem, help)) = self.records.misshapen(record) {
            self.fault(place, problem, help.to_owned());
            return None;
        }
        let named = self.columns.iter().zip(record);
        let texts: BTreeMap<&'static str, String> =
            named.filter_map(|(column, cell)| Some(((*column)?.name, cell.to_owned()))).collect();
        let line = self.records.line(record);
        let mut cells = Cells {
            columns: COLUMNS,
            texts: &texts,
            units: &self.units,
            decimal: self.records.decimal,
            faults: Vec::new(),
        };
        let run = cells.run(line);
        for CellFault { column, problem, remedy } in std::mem::take(&mut cells.faults) {
            let named = column.map_or_else(String::new, |column| format!("{column}: "));
            self.fault(place.clone(), format!("{named}{problem}"), remedy);
        }
        run
    }
}

#[cfg(test)]
#[path = "read_tests.rs"]
mod tests;
