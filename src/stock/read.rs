//! Reads a stock list: a CSV file whose columns are those of [`COLUMNS`](super::COLUMNS).

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use csv::{ReaderBuilder, StringRecord, Trim};
use miette::Diagnostic;
use thiserror::Error;

use super::columns::{COLUMNS, Column, Need, column_of, nearest};
use super::part::Part;
use super::row::{Row, RowFault};
use crate::error::{Lines, Unread, shown_name, text_in, text_of};
use crate::units::quoted;

/// Likeness above which a heading is taken for a misspelt one.
const CLOSE: f64 = 0.7;

/// A stock list as it was read.
#[derive(Debug, Clone, PartialEq)]
pub struct StockList {
    /// Name of the file as given.
    pub name: String,
    /// The lines without faults, in the order of the file.
    pub parts: Vec<Part>,
    /// What was wrong with the headings and with the lines left out.
    pub faults: Vec<RowFault>,
}

/// Why nothing of a stock list could be used.
#[derive(Debug, Error, Diagnostic)]
pub enum StockError {
    /// Nothing of that name, or the system refuses to read it.
    #[error("{}: cannot be read: {reason}", path.display())]
    #[diagnostic(help("give the name of a stock list, a CSV file"))]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
    /// Larger than 1 MiB.
    #[error("{}: larger than 1 MiB, so it is not a stock list", path.display())]
    #[diagnostic(help("a stock list has one line for each kind of plane"))]
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
    /// No heading line, or not one of commas.
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

/// Reads a stock list of at most 1 MiB. Faults of lines are in the list, beside the good lines.
///
/// # Errors
/// When the file cannot be read as text, or its headings are not those of a stock list.
pub fn read_stock(path: &Path) -> Result<StockList, StockError> {
    let text = text_of(path).map_err(|unread| unusable(path, unread))?;
    parse_stock(&shown_name(path), &text)
}

/// The text of a stock list of which the bytes are here already, at most 1 MiB in UTF-8; `path` stands for it in messages.
///
/// # Errors
/// When it is larger or not text.
pub fn text_of_list(path: &Path, bytes: Vec<u8>) -> Result<String, StockError> {
    text_in(bytes).map_err(|unread| unusable(path, unread))
}

fn unusable(path: &Path, unread: Unread) -> StockError {
    let path = path.to_owned();
    match unread {
        Unread::Refused(reason) => StockError::Unreadable { path, reason },
        Unread::TooLarge => StockError::TooLarge { path },
        Unread::NotText { line } => StockError::NotText { path, line },
    }
}

/// Reads the text of a stock list; `name` stands for the file in messages.
///
/// # Errors
/// When it has no heading line, or not one separated by commas.
pub fn parse_stock(name: &str, text: &str) -> Result<StockList, StockError> {
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
    let mut list = StockList { name: name.to_owned(), parts: Vec::new(), faults: Vec::new() };
    let lines = Lines::of(text.as_bytes());
    let columns = list.columns(&headings, line_of(&headings, text, &lines));
    let mut lines_of_names = BTreeMap::new();
    for record in records.filter_map(Result::ok) {
        let line = line_of(&record, text, &lines);
        list.take_record(line, &columns, &record, &mut lines_of_names);
    }
    Ok(list)
}

/// A heading line that has several columns of which some are known.
fn usable(name: &str, headings: &StringRecord) -> Result<(), StockError> {
    let refused = |problem: String, help: &str| {
        let (name, help) = (name.to_owned(), help.to_owned());
        Err(StockError::Headings { name, problem, help })
    };
    let names: Vec<&str> = COLUMNS.iter().take(6).map(|column| column.name).collect();
    let start = format!("the first line names the columns: {}, …", names.join(", "));
    let first = headings.get(0).unwrap_or_default();
    if headings.iter().all(str::is_empty) {
        return refused("the stock list is empty".to_owned(), &start);
    }
    if headings.len() == 1 && first.contains([';', '\t']) {
        let help = "separate the columns with commas, and write decimals with a point";
        return refused("the columns are not separated by commas".to_owned(), help);
    }
    if !headings.iter().any(|heading| column_of(&plain(heading)).is_some()) {
        let problem = format!("`{}` is not the heading of a stock list", quoted(first));
        return refused(problem, &start);
    }
    Ok(())
}

/// A heading as the columns are spelt.
fn plain(heading: &str) -> String {
    heading.trim().to_lowercase().replace([' ', '-'], "_")
}

impl StockList {
    /// The column under each heading, with the faults of the headings.
    fn columns(&mut self, headings: &StringRecord, line: u64) -> Vec<Option<&'static Column>> {
        let mut columns: Vec<Option<&'static Column>> = Vec::new();
        for heading in headings {
            let known = column_of(&plain(heading));
            let twice = known.is_some_and(|known| columns.contains(&Some(known)));
            columns.push(known.filter(|_| !twice));
            if twice {
                self.fault(line, format!("the column {heading} is there twice"), "delete one");
            }
        }
        for (place, heading) in headings.iter().enumerate() {
            if column_of(&plain(heading)).is_some() || heading.is_empty() {
                continue;
            }
            let (near, likeness) = nearest(&plain(heading));
            let problem = format!("there is no column `{}`", quoted(heading));
            if likeness >= CLOSE && !columns.contains(&Some(near)) {
                columns[place] = Some(near);
                let remedy = format!("it is taken for `{}`; write it so", near.name);
                self.fault(line, problem, &remedy);
            } else {
                let remedy = format!(
                    "it is not used; the nearest known is `{}`: delete the column or make it a comment",
                    near.name
                );
                self.fault(line, problem, &remedy);
            }
        }
        let missing = COLUMNS.iter().filter(|column| column.need == Need::Always);
        for column in missing.filter(|column| !columns.contains(&Some(column))) {
            let remedy = format!("{}, for example {}", column.meaning, column.example);
            self.fault(line, format!("the column `{}` is missing", column.name), &remedy);
        }
        columns
    }

    fn fault(&mut self, line: u64, problem: String, remedy: &str) {
        self.faults.push(RowFault { line, column: None, problem, remedy: remedy.to_owned() });
    }

    /// The part of one line, or its faults.
    fn take_record(
        &mut self,
        line: u64,
        columns: &[Option<&'static Column>],
        record: &StringRecord,
        lines_of_names: &mut BTreeMap<String, u64>,
    ) {
        if record.iter().all(str::is_empty) {
            return;
        }
        if record.iter().any(|cell| cell.contains('\n')) {
            let remedy = "close each quotation mark on its line; write `in` for inches";
            self.fault(line, "a quotation mark is not closed".to_owned(), remedy);
            return;
        }
        if record.len() != columns.len() {
            let (cells, wanted) = (record.len(), columns.len());
            let problem = format!("the line has {cells} cells and the heading {wanted}");
            self.fault(line, problem, "decimals have a point, and commas stand only between cells");
            return;
        }
        let cells = match cells_of(columns, record) {
            Ok(cells) => cells,
            Err(error) => return self.fault(line, error.to_string(), "check the line"),
        };
        let mut row = Row { line, cells: &cells, faults: Vec::new() };
        let part = row.part();
        let absent = |column: &'static str| {
            let need = column_of(column).map(|column| column.need);
            need == Some(Need::Always) && !cells.contains_key(column)
        };
        // A column that is missing altogether was reported once, at the headings.
        let known = |fault: &RowFault| !fault.column.is_some_and(absent);
        self.faults.extend(row.faults.into_iter().filter(known));
        let Some(part) = part else { return };
        if let Some(first) = lines_of_names.insert(part.name.to_lowercase(), line) {
            lines_of_names.insert(part.name.to_lowercase(), first);
            let problem = format!("name: `{}` stands in line {first} already", quoted(&part.name));
            self.fault(line, problem, "give each part a name of its own");
            return;
        }
        self.parts.push(part);
    }
}

/// The cells of a line by their column.
fn cells_of(
    columns: &[Option<&'static Column>],
    record: &StringRecord,
) -> Result<BTreeMap<&'static str, String>, csv::Error> {
    let values: Vec<String> = record.deserialize(None)?;
    let named = columns.iter().zip(values);
    Ok(named.filter_map(|(column, cell)| Some(((*column)?.name, cell))).collect())
}

/// The line on which a record begins. The reader gives the place before the blank lines and the
/// comments that it skipped.
fn line_of(record: &StringRecord, text: &str, lines: &Lines) -> u64 {
    let place = record.position().map_or(0, csv::Position::byte);
    let mut place = usize::try_from(place).unwrap_or(0).min(text.len());
    while let Some((line, _)) = text.get(place..).and_then(|rest| rest.split_once('\n')) {
        if !line.starts_with('#') && !line.trim().is_empty() {
            break;
        }
        place += line.len() + 1;
    }
    lines.number(place) as u64
}

#[cfg(test)]
#[path = "read_tests.rs"]
mod tests;
