//! Reads a stock list: a CSV file whose columns are those of [`COLUMNS`](super::COLUMNS).

use std::collections::BTreeMap;
use std::path::Path;

use csv::StringRecord;

use super::columns::COLUMNS;
use super::part::Part;
use super::row::RowFault;
use crate::error::shown_name;
use crate::listing::{self, Cells, ListError, ListKind, Records};
use crate::schema::{Row, named, nearest};
use crate::spelling::{CLOSE, plain};
use crate::units::quoted;

/// What it is called, and how it begins.
const KIND: ListKind = ListKind {
    name: "stock list",
    wanted: "give the name of a stock list, a CSV file",
    usual: "a stock list has one line for each kind of plane",
    headings: "the first line names the columns: name, span, chord, thickness, material, modulus, …",
};

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

/// Reads a stock list of at most 1 MiB. Faults of lines are in the list, beside the good lines.
///
/// # Errors
/// When the file cannot be read as text, or its headings are not those of a stock list.
pub fn read_stock(path: &Path) -> Result<StockList, ListError> {
    parse_stock(&shown_name(path), &listing::text_of_file(path, KIND)?)
}

/// The text of a stock list of which the bytes are here already, at most 1 MiB in UTF-8; `path` stands for it in messages.
///
/// # Errors
/// When it is larger or not text.
pub fn text_of_list(path: &Path, bytes: Vec<u8>) -> Result<String, ListError> {
    listing::text_of_bytes(path, KIND, bytes)
}

/// Reads the text of a stock list; `name` stands for the file in messages.
///
/// # Errors
/// When it has no heading line, or not one separated by commas.
pub fn parse_stock(name: &str, text: &str) -> Result<StockList, ListError> {
    let records =
        Records::of(name, text, KIND, |heading| named(COLUMNS, &plain(heading)).is_some())?;
    let mut list = StockList { name: name.to_owned(), parts: Vec::new(), faults: Vec::new() };
    let columns = list.columns(&records.headings, records.line(&records.headings));
    let mut lines_of_names = BTreeMap::new();
    for record in &records.rows {
        let line = records.line(record);
        match records.misshapen(record) {
            Some((problem, remedy)) => list.fault(line, problem, remedy),
            None => list.take_record(line, &columns, record, &mut lines_of_names),
        }
    }
    Ok(list)
}

impl StockList {
    /// The column under each heading, with the faults of the headings.
    fn columns(&mut self, headings: &StringRecord, line: u64) -> Vec<Option<&'static Row>> {
        let mut columns: Vec<Option<&'static Row>> = Vec::new();
        for heading in headings {
            let known = named(COLUMNS, &plain(heading));
            let twice = known.is_some_and(|known| columns.contains(&Some(known)));
            columns.push(known.filter(|_| !twice));
            if twice {
                self.fault(line, format!("the column {heading} is there twice"), "delete one");
            }
        }
        for (place, heading) in headings.iter().enumerate() {
            if named(COLUMNS, &plain(heading)).is_some() || heading.is_empty() {
                continue;
            }
            let (near, likeness) = nearest(COLUMNS, &plain(heading));
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
        let missing = COLUMNS.iter().filter(|column| column.is_needed());
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
        columns: &[Option<&'static Row>],
        record: &StringRecord,
        lines_of_names: &mut BTreeMap<String, u64>,
    ) {
        let cells = match cells_of(columns, record) {
            Ok(cells) => cells,
            Err(error) => return self.fault(line, error.to_string(), "check the line"),
        };
        let units = BTreeMap::new();
        let mut row = Cells { columns: COLUMNS, texts: &cells, units: &units, faults: Vec::new() };
        let part = row.part();
        self.faults.extend(row.faults.into_iter().map(|fault| RowFault {
            line,
            column: fault.column,
            problem: fault.problem,
            remedy: fault.remedy,
        }));
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
    columns: &[Option<&'static Row>],
    record: &StringRecord,
) -> Result<BTreeMap<&'static str, String>, csv::Error> {
    let values: Vec<String> = record.deserialize(None)?;
    let named = columns.iter().zip(values);
    Ok(named.filter_map(|(column, cell)| Some(((*column)?.name, cell))).collect())
}

#[cfg(test)]
#[path = "read_tests.rs"]
mod tests;
