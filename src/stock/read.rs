//! Reads a stock list: a CSV file whose columns are those of [`COLUMNS`](super::COLUMNS).

use std::collections::BTreeMap;
use std::path::Path;

use csv::StringRecord;

use super::columns::{COLUMNS, STRENGTH, column_of};
use super::part::Part;
use super::row::RowFault;
use crate::error::shown_name;
use crate::listing::{self, Cells, Decimal, ListError, ListKind, Records};
use crate::schema::{Row, named, nearest};
use crate::spelling::{CLOSE, plain};
use crate::units::quoted;

/// What it is called, and how it begins.
const KIND: ListKind = ListKind {
    name: "stock list",
    wanted: "give the name of a stock list, a CSV file",
    usual: "a stock list has one line for each kind of plane",
    headings: "the first line names the columns; name, span, chord and price are enough: `planewright new --stock list.csv` writes a list to begin with",
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

/// The text of a stock list of which the bytes are here already, at most 1 MiB; `path` stands for it in messages.
///
/// # Errors
/// When it is larger or not text.
pub fn text_of_list(path: &Path, bytes: Vec<u8>) -> Result<String, ListError> {
    listing::text_of_bytes(path, KIND, bytes)
}

/// Reads the text of a stock list; `name` stands for the file in messages.
///
/// # Errors
/// When it has no heading line of a stock list.
pub fn parse_stock(name: &str, text: &str) -> Result<StockList, ListError> {
    let records = Records::of(name, text, KIND, |heading| column_of(heading).is_some())?;
    let mut list = StockList { name: name.to_owned(), parts: Vec::new(), faults: Vec::new() };
    let headings = list.headings(&records.headings, records.line(&records.headings));
    let mut lines_of_names = BTreeMap::new();
    for record in &records.rows {
        let line = records.line(record);
        match records.misshapen(record) {
            Some((problem, remedy)) => list.fault(line, problem, remedy),
            None => {
                let read = (record, records.decimal);
                list.take_record(line, &headings, read, &mut lines_of_names);
            }
        }
    }
    list.faults = RowFault::grouped(list.faults);
    Ok(list)
}

/// What the headings say.
struct Headings {
    /// The column under each.
    columns: Vec<Option<&'static Row>>,
    /// Units and currencies that stand in them.
    units: BTreeMap<&'static str, String>,
    /// Whether all columns are there that strength is judged by.
    is_described: bool,
}

impl StockList {
    /// The column under each heading, with the faults of the headings.
    fn headings(&mut self, headings: &StringRecord, line: u64) -> Headings {
        let mut columns: Vec<Option<&'static Row>> = Vec::new();
        let mut units = BTreeMap::new();
        for heading in headings {
            let known = column_of(heading);
            let column = known.as_ref().map(|(column, _)| *column);
            let twice = column.filter(|_| columns.contains(&column));
            columns.push(column.filter(|_| twice.is_none()));
            match (twice, known) {
                (Some(column), _) => {
                    let problem = format!("the column {} is there twice", column.name);
                    let remedy =
                        format!("`{}` is not used; delete one of the two", quoted(heading));
                    self.fault(line, problem, &remedy);
                }
                (None, Some((column, Some(unit)))) => {
                    units.insert(column.name, unit);
                }
                _ => {}
            }
        }
        for (index, heading) in headings.iter().enumerate() {
            if column_of(heading).is_some() || heading.is_empty() {
                continue;
            }
            let (near, likeness) = nearest(COLUMNS, &plain(heading));
            let problem = format!("there is no column `{}`", quoted(heading));
            if likeness >= CLOSE && !columns.contains(&Some(near)) {
                columns[index] = Some(near);
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
        let has = |column: &Row| columns.contains(&Some(column));
        let missing = COLUMNS.iter().filter(|column| column.is_needed() && !has(column));
        for column in missing {
            let remedy = format!("{}, for example {}", column.meaning, column.example);
            self.fault(line, format!("the column `{}` is missing", column.name), &remedy);
        }
        let priced = ["price", "pair_price"].map(|name| named(COLUMNS, name));
        if !columns.iter().any(|column| column.is_some() && priced.contains(column)) {
            let problem = "the column `price` is missing".to_owned();
            self.fault(
                line,
                problem,
                "price of one plane, or pair_price, that of a pair, for example 410",
            );
        }
        let of_strength = COLUMNS.iter().filter(|column| column.need == STRENGTH);
        let (there, lacking): (Vec<&Row>, Vec<&Row>) = of_strength.partition(|column| has(column));
        // What moves a plane is worth a column by itself.
        let says_more = there.iter().any(|column| column.name != "actuator");
        let is_described = lacking.is_empty();
        if says_more && !is_described {
            let lacking: Vec<&str> = lacking.iter().map(|column| column.name).collect();
            self.fault(
                line,
                "the strength of no part is known, since not all columns are there that it is judged by".to_owned(),
                &format!("missing are {}", lacking.join(", ")),
            );
        }
        Headings { columns, units, is_described }
    }

    fn fault(&mut self, line: u64, problem: String, remedy: &str) {
        let remedy = remedy.to_owned();
        self.faults.push(RowFault { lines: vec![line], column: None, problem, remedy });
    }

    /// The part of one line, or its faults.
    fn take_record(
        &mut self,
        line: u64,
        headings: &Headings,
        (record, decimal): (&StringRecord, Decimal),
        lines_of_names: &mut BTreeMap<String, u64>,
    ) {
        let cells = match cells_of(&headings.columns, record) {
            Ok(cells) => cells,
            Err(error) => return self.fault(line, error.to_string(), "check the line"),
        };
        let units = &headings.units;
        let mut row = Cells { columns: COLUMNS, texts: &cells, units, decimal, faults: Vec::new() };
        let part = row.part(headings.is_described);
        self.faults.extend(row.faults.into_iter().map(|fault| RowFault {
            lines: vec![line],
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
