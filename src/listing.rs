//! Lists that a person keeps as CSV files: a heading line that names known columns, and one line for each thing.
//!
//! The stock list, the trial log and the stations of a bottom are read through this; what their columns mean is theirs.

mod cells;
mod decimal;
mod encoding;
pub(crate) mod strict;

use std::ops::Range;
use std::path::{Path, PathBuf};

use csv::{ReaderBuilder, StringRecord, Trim};
use miette::Diagnostic;
use thiserror::Error;

pub(crate) use cells::{CellFault, Cells};
pub(crate) use decimal::Decimal;
pub use strict::StrictError;

use crate::error::{Lines, Unread, bytes_of};
use crate::schema::{Row, most};
use crate::units::quoted;

/// What kind of list it is, in the words of a refusal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ListKind {
    /// What it is called: `stock list`.
    pub name: &'static str,
    /// What to give when the file cannot be read.
    pub wanted: &'static str,
    /// How long it usually is.
    pub usual: &'static str,
    /// What its heading line begins with.
    pub headings: &'static str,
}

/// Why nothing of a list could be used.
#[derive(Debug, Error, Diagnostic)]
pub enum ListError {
    /// Nothing of that name, or the system refuses to read it.
    #[error("{}: cannot be read: {reason}", path.display())]
    #[diagnostic(help("{}", kind.wanted))]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        reason: String,
        /// What it was taken for.
        kind: ListKind,
    },
    /// Larger than 1 MiB.
    #[error("{}: larger than 1 MiB, so it is not a {}", path.display(), kind.name)]
    #[diagnostic(help("{}", kind.usual))]
    TooLarge {
        /// The file.
        path: PathBuf,
        /// What it was taken for.
        kind: ListKind,
    },
    /// Not text.
    #[error("{}: this is not text: line {line} holds something else", path.display())]
    #[diagnostic(help("save the sheet as CSV, and give that file; a workbook cannot be read"))]
    NotText {
        /// The file.
        path: PathBuf,
        /// First line that is not text, counted from 1.
        line: usize,
    },
    /// No heading line, or nothing of use below it.
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
}

/// The text of a list of at most 1 MiB, in whatever letters a spreadsheet saves it.
pub(crate) fn text_of_file(path: &Path, kind: ListKind) -> Result<String, ListError> {
    text_of_bytes(path, kind, bytes_of(path).map_err(|unread| unusable(path, kind, unread))?)
}

/// The same of bytes that are here already; `path` stands for the file in messages.
pub(crate) fn text_of_bytes(
    path: &Path,
    kind: ListKind,
    bytes: Vec<u8>,
) -> Result<String, ListError> {
    encoding::text_in(&bytes).map_err(|unread| unusable(path, kind, unread))
}

fn unusable(path: &Path, kind: ListKind, unread: Unread) -> ListError {
    let path = path.to_owned();
    match unread {
        Unread::Refused(reason) => ListError::Unreadable { path, reason, kind },
        Unread::TooLarge => ListError::TooLarge { path, kind },
        Unread::NotText { line } => ListError::NotText { path, line },
    }
}

/// The lines of a list with the places where they stand.
#[derive(Debug)]
pub(crate) struct Records<'a> {
    text: &'a str,
    lines: Lines,
    /// The heading line.
    pub headings: StringRecord,
    /// The lines below it that are not blank.
    pub rows: Vec<StringRecord>,
    /// How its numbers are written.
    pub decimal: Decimal,
}

/// What may stand between the columns: commas, or what spreadsheets write where a comma is the decimal mark.
const SEPARATORS: [u8; 3] = *b",;\t";
/// Lines above the headings that may hold a title.
const TITLE_LINES: usize = 10;

impl<'a> Records<'a> {
    /// The lines of a text; `name` stands for the file in messages, and `knows` says whether a
    /// heading is that of a known column.
    pub fn of(
        name: &str,
        text: &'a str,
        kind: ListKind,
        knows: impl Fn(&str) -> bool,
    ) -> Result<Self, ListError> {
        let text = text.trim_start_matches('\u{feff}');
        let known = |record: &StringRecord| record.iter().filter(|cell| knows(cell)).count();
        let mut best = (0, 0, Vec::new());
        for separator in SEPARATORS {
            let records = records(text, separator);
            // The line that names most columns; a title may stand above it.
            let lines = records.iter().take(TITLE_LINES).map(known).enumerate();
            let (place, count) =
                lines.fold(
                    (0, 0),
                    |(place, most), (here, count)| {
                        if count > most { (here, count) } else { (place, most) }
                    },
                );
            if count > best.1 || best.2.is_empty() {
                best = (place, count, records);
            }
        }
        let (place, _, mut records) = best;
        let mut records = records.drain(place.min(records.len())..);
        let headings = records.next().unwrap_or_default();
        usable(name, kind, &headings, knows)?;
        let rows: Vec<StringRecord> = records.collect();
        let decimal = Decimal::of(rows.iter().flat_map(StringRecord::iter));
        let lines = Lines::of(text.as_bytes());
        let records = Self { text, lines, headings, rows, decimal };
        records.few(name, kind)?;
        Ok(records)
    }

    /// Refuses a list with more lines than are taken of its kind.
    fn few(&self, name: &str, kind: ListKind) -> Result<(), ListError> {
        let Some([problem, help]) = most::too_many(kind.name, self.rows.len()) else {
            return Ok(());
        };
        let first = most::most_of(kind.name).and_then(|row| self.rows.get(row.most));
        let line = first.map_or(0, |record| self.line(record));
        let problem = format!("line {line}: {problem}");
        Err(ListError::Headings { name: name.to_owned(), problem, help })
    }

    /// The text without a mark of its byte order.
    pub const fn text(&self) -> &'a str {
        self.text
    }

    /// The bytes of the line on which a record begins. The reader gives the place before the blank
    /// lines and the comments that it skipped.
    pub fn place(&self, record: &StringRecord) -> Range<usize> {
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

    /// The line, counted from 1, on which a record begins.
    pub fn line(&self, record: &StringRecord) -> u64 {
        self.lines.number(self.place(record).start) as u64
    }

    /// What is wrong with a line as a whole, and what to write instead.
    pub fn misshapen(&self, record: &StringRecord) -> Option<(String, &'static str)> {
        if record.iter().any(|cell| cell.contains('\n')) {
            let help = "close each quotation mark on its line; write `in` for inches";
            return Some(("a quotation mark is not closed".to_owned(), help));
        }
        let (wanted, filled) = (
            self.headings.len(),
            record
                .iter()
                .enumerate()
                .filter(|(_, cell)| !cell.is_empty())
                .map(|(place, _)| place)
                .last(),
        );
        // Spreadsheets end their lines with as many empty cells as they please.
        let cells = match filled {
            Some(last) if record.len() > wanted => wanted.max(last + 1),
            _ => record.len(),
        };
        let help = "what stands between the columns may not stand in a cell: put such a cell in quotation marks";
        let problem = format!("the line has {cells} cells and the heading {wanted}");
        (cells != wanted).then_some((problem, help))
    }
}

/// The lines of a text that are neither blank nor comments, with something between the columns.
fn records(text: &str, separator: u8) -> Vec<StringRecord> {
    let mut reader = ReaderBuilder::new()
        .delimiter(separator)
        .has_headers(false)
        .flexible(true)
        .comment(Some(b'#'))
        .trim(Trim::All)
        .from_reader(text.as_bytes());
    // A comment that a spreadsheet put into quotation marks is one still.
    let is_said = |record: &StringRecord| {
        !record.iter().all(str::is_empty)
            && !record.get(0).is_some_and(|cell| cell.starts_with('#'))
    };
    reader.records().filter_map(Result::ok).filter(is_said).collect()
}

/// A heading line that has several columns of which some are known.
fn usable(
    name: &str,
    kind: ListKind,
    headings: &StringRecord,
    knows: impl Fn(&str) -> bool,
) -> Result<(), ListError> {
    let refused = |problem: String, help: &str| {
        Err(ListError::Headings { name: name.to_owned(), problem, help: help.to_owned() })
    };
    let first = headings.get(0).unwrap_or_default();
    if headings.iter().all(str::is_empty) {
        return refused(format!("the {} is empty", kind.name), kind.headings);
    }
    if !headings.iter().any(knows) {
        let problem = format!("`{}` is not the heading of a {}", quoted(first), kind.name);
        if first.starts_with('[') || first.contains('=') {
            return refused(
                format!("this is no {}; it looks like a boat file", kind.name),
                "the boat file comes first, the list after it: `planewright size BOAT --stock LIST`, `planewright trial BOAT LOG`",
            );
        }
        return refused(problem, kind.headings);
    }
    Ok(())
}

/// A page that documents the columns of a list: name, when it is needed, what is allowed, an example and its meaning.
pub(crate) fn documentation(head: &str, columns: &[Row]) -> String {
    let rows = columns.iter().map(|column| {
        format!(
            "| `{}` | {} | {} | {} | {} |\n",
            column.name,
            column.when(),
            column.allowed(),
            column.example,
            column.meaning
        )
    });
    let table = "| Column | Needed | Allowed | Example | Meaning |\n|---|---|---|---|---|\n";
    format!("{head}\n{table}{}", rows.collect::<String>())
}

/// A text that a spreadsheet does not take for a formula: an apostrophe stands before one that begins like one.
pub(crate) fn as_text(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::as_text;

    #[test]
    fn regression_no_name_is_a_formula_to_a_spreadsheet() {
        assert_eq!(as_text("=HYPERLINK(\"x\",1)"), "'=HYPERLINK(\"x\",1)");
        assert_eq!(as_text("\t=1"), "'\t=1");
        assert_eq!(as_text("six aboard"), "six aboard");
    }
}
