//! Reads a trial log: a CSV file whose columns are those of [`COLUMNS`](super::COLUMNS).

use std::path::Path;

use super::columns::COLUMNS;
use super::row::LogRow;
use crate::error::shown_name;
pub use crate::listing::StrictError as LogError;
use crate::listing::{self, ListError, ListKind, strict};

/// What it is called, and how it begins.
const KIND: ListKind = ListKind {
    name: "trial log",
    wanted: "give the name of a trial log, a CSV file; `planewright trial --how` says what it holds",
    usual: "a trial log has one line for each steady run, not a recording of every second",
    headings: "the first line names the columns, for example: speed (kn), trim (deg), deflection (deg)",
};
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
    let strict::Strict { rows, warnings, checksum } =
        strict::read(name, text, KIND, COLUMNS, |cells, line| cells.run(line))?;
    let rows: Vec<LogRow> = rows.into_iter().map(|(row, _)| row).collect();
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
    Ok(Log { name: name.to_owned(), checksum, rows, warnings })
}

#[cfg(test)]
#[path = "read_tests.rs"]
mod tests;
