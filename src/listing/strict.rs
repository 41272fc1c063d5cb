//! A list of which every line must be right, with units in its headings where a person puts them.

use std::collections::BTreeMap;
use std::ops::Range;

use csv::StringRecord;
use miette::Diagnostic;
use thiserror::Error;

use super::{CellFault, Cells, ListError, ListKind, Records};
use crate::error::{FileFault, FileFaults};
use crate::schema::{Kind, Misread, Row, named, nearest};
use crate::spelling::{CLOSE, plain};
use crate::units::quoted;

/// Why a list could not be used.
#[derive(Debug, Error, Diagnostic)]
pub enum StrictError {
    /// Nothing of it can be read.
    #[error(transparent)]
    #[diagnostic(transparent)]
    List(#[from] ListError),
    /// Read, but with faults.
    #[error(transparent)]
    #[diagnostic(transparent)]
    Faults(#[from] FileFaults),
}

/// The lines of a list as they were read.
#[derive(Debug)]
pub(crate) struct Strict<T> {
    /// What each line says, and its place in the text.
    pub rows: Vec<(T, Range<usize>)>,
    /// Columns that are not used, as sentences.
    pub warnings: Vec<String>,
    /// CRC-32 of the text, eight hexadecimal digits.
    pub checksum: String,
}

/// Reads every line of a text; `name` stands for the file in messages, `row` reads one line, given its number from 1.
pub(crate) fn read<T>(
    name: &str,
    text: &str,
    kind: ListKind,
    columns: &'static [Row],
    row: impl Fn(&mut Cells<'_>, u64) -> Option<T>,
) -> Result<Strict<T>, StrictError> {
    let knows = |heading: &str| named(columns, &split(heading).0).is_some();
    let records = Records::of(name, text, kind, knows)?;
    let mut reader = LineReader {
        records: &records,
        known: columns,
        columns: Vec::new(),
        units: BTreeMap::new(),
        faults: Vec::new(),
        warnings: Vec::new(),
    };
    reader.take_headings(&records.headings);
    let mut rows = Vec::new();
    for record in &records.rows {
        rows.extend(reader.row(record, &row).map(|read| (read, records.place(record))));
    }
    if !reader.faults.is_empty() {
        return Err(FileFaults::new(name, records.text(), reader.faults).into());
    }
    let checksum = format!("{:08x}", crc32fast::hash(records.text().as_bytes()));
    Ok(Strict { rows, warnings: reader.warnings, checksum })
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
    known: &'static [Row],
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
            let known = named(self.known, &name).or_else(|| self.unknown(heading, &name, &place));
            if let Some(column) = known {
                if self.columns.contains(&Some(column)) {
                    let problem = format!("the column {} is there twice", column.name);
                    self.fault(place.clone(), problem, "delete one of the two".to_owned());
                }
                self.take_unit(column, unit, &place);
            }
            self.columns.push(known);
        }
        for column in self.known.iter().filter(|column| column.is_needed()) {
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
        let (near, likeness) = nearest(self.known, name);
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

    /// What one line says; none when it has faults.
    fn row<T>(
        &mut self,
        record: &StringRecord,
        read: &impl Fn(&mut Cells<'_>, u64) -> Option<T>,
    ) -> Option<T> {
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
            columns: self.known,
            texts: &texts,
            units: &self.units,
            decimal: self.records.decimal,
            faults: Vec::new(),
        };
        let said = read(&mut cells, line);
        for CellFault { column, problem, remedy } in std::mem::take(&mut cells.faults) {
            let named = column.map_or_else(String::new, |column| format!("{column}: "));
            self.fault(place.clone(), format!("{named}{problem}"), remedy);
        }
        said
    }
}
