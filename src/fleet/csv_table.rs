//! A table as comma-separated values, of any length, read a few rows at a time.

use std::fs::File;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};

use csv::{ByteRecord, Position, Reader, ReaderBuilder, Trim};

use super::source::{Place, Source, TableError, content, unreadable};
use super::{Line, Value, Wrong};
use crate::listing::Decimal;

/// Rows that tell which decimal mark is meant.
const TELLING_ROWS: usize = 1000;
/// Letters of the heading line that are looked at.
const LONGEST_HEAD: u64 = 1 << 20;

/// A table in a file.
pub(super) struct CsvTable {
    path: PathBuf,
    reader: Reader<File>,
    headings: Vec<String>,
    decimal: Decimal,
    rows: u64,
    expected: u64,
    checksum: String,
}

impl CsvTable {
    pub fn open(path: &Path) -> Result<Self, TableError> {
        let (checksum, breaks) = content(path)?;
        let separator = separator(path)?;
        let mut reader = reader(path, separator)?;
        let headings = headings(path, &mut reader)?;
        // What comes first is read twice: once to see how its numbers are written.
        let mut begun = self::reader(path, separator)?;
        let telling = begun.byte_records().skip(1).take(TELLING_ROWS).filter_map(Result::ok);
        let cells: Vec<String> = telling
            .flat_map(|row| {
                row.iter()
                    .map(|cell| String::from_utf8_lossy(cell).into_owned())
                    .collect::<Vec<_>>()
            })
            .collect();
        let decimal = Decimal::of(cells.iter().map(String::as_str));
        let expected = breaks.saturating_sub(1);
        Ok(Self { path: path.to_owned(), reader, headings, decimal, rows: 0, expected, checksum })
    }

    fn line(&self, record: &ByteRecord) -> Line {
        let number = record.position().map_or(0, Position::line);
        let wrong = |fault: String, cure: &str| Wrong { fault, cure: cure.to_owned() };
        let (cells, wanted) = (record.len(), self.headings.len());
        let mut values = Vec::with_capacity(wanted);
        for cell in record {
            let Ok(text) = std::str::from_utf8(cell) else {
                let cure = "save the table with the encoding UTF-8";
                return Err(wrong(format!("line {number} holds letters that are not UTF-8"), cure));
            };
            if text.contains('\n') {
                let cure = "close each quotation mark on its line; write `in` for inches";
                return Err(wrong(format!("line {number}: a quotation mark is not closed"), cure));
            }
            values.push(self.value(text));
        }
        if cells < wanted || values[wanted..].iter().any(|value| *value != Value::Empty) {
            return Err(wrong(
                format!("line {number} has {cells} cells and the heading {wanted}"),
                "what stands between the columns may not stand in a cell: put such a cell in quotation marks",
            ));
        }
        values.truncate(wanted);
        Ok(values)
    }

    fn value(&self, text: &str) -> Value {
        match text {
            "" => Value::Empty,
            _ => Value::Text(self.decimal.with_point(text, false).into_owned()),
        }
    }
}

impl Source for CsvTable {
    fn headings(&self) -> &[String] {
        &self.headings
    }

    fn next(&mut self, most: usize) -> Result<Vec<Line>, TableError> {
        let mut lines = Vec::new();
        let mut record = ByteRecord::new();
        while lines.len() < most {
            match self.reader.read_byte_record(&mut record) {
                Ok(true) => lines.push(self.line(&record)),
                Ok(false) => break,
                Err(error) => return Err(unreadable(&self.path, &error.into())),
            }
        }
        self.rows += lines.len() as u64;
        Ok(lines)
    }

    fn place(&self) -> Place {
        let position = self.reader.position();
        Place { rows: self.rows, byte: position.byte(), line: position.line() }
    }

    fn go_to(&mut self, place: Place) -> Result<(), TableError> {
        let mut position = Position::new();
        position.set_byte(place.byte).set_line(place.line).set_record(place.rows + 1);
        self.rows = place.rows;
        self.reader.seek(position).map_err(|error| unreadable(&self.path, &error.into()))
    }

    fn expected(&self) -> u64 {
        self.expected
    }

    fn checksum(&self) -> &str {
        &self.checksum
    }
}

fn reader(path: &Path, separator: u8) -> Result<Reader<File>, TableError> {
    let file = File::open(path).map_err(|error| unreadable(path, &error))?;
    let mut builder = ReaderBuilder::new();
    builder.delimiter(separator).has_headers(false).flexible(true).comment(Some(b'#'));
    Ok(builder.trim(Trim::All).from_reader(file))
}

/// What stands between the columns of the heading line: what is there most often.
fn separator(path: &Path) -> Result<u8, TableError> {
    let file = File::open(path).map_err(|error| unreadable(path, &error))?;
    let mut lines = BufReader::new(std::io::Read::take(file, LONGEST_HEAD)).split(b'\n');
    let head = lines.find_map(|line| {
        line.ok().filter(|line| !line.starts_with(b"#") && line.iter().any(u8::is_ascii_graphic))
    });
    let head = head.unwrap_or_default();
    let count = |mark: &u8| head.iter().filter(|byte| *byte == mark).count();
    // The last of those that are there equally often: a comma where there is none.
    Ok(b"\t;,".iter().copied().max_by_key(count).unwrap_or(b','))
}

fn headings(path: &Path, reader: &mut Reader<File>) -> Result<Vec<String>, TableError> {
    let form = |problem: &str, help: &str| TableError::Form {
        path: path.to_owned(),
        problem: problem.to_owned(),
        help: help.to_owned(),
    };
    let mut head = ByteRecord::new();
    let found = reader.read_byte_record(&mut head);
    if !found.map_err(|error| unreadable(path, &error.into()))? {
        return Err(form(
            "the table is empty",
            "its first line names the columns by the keys of a boat file: hull.chine_beam [m],hull.deadrise [deg]",
        ));
    }
    let headings = head.iter().map(|cell| Some(std::str::from_utf8(cell).ok()?.to_owned()));
    let headings: Option<Vec<String>> = headings.collect();
    let not_text = || {
        form(
            "the heading line is not text in UTF-8",
            "save the sheet as CSV with the encoding UTF-8; a workbook cannot be read",
        )
    };
    let mut headings =
        headings.filter(|all| all.iter().all(|text| !text.contains('\0'))).ok_or_else(not_text)?;
    // Spreadsheets end their lines with as many empty cells as they please.
    while headings.last().is_some_and(String::is_empty) {
        headings.pop();
    }
    Ok(headings)
}
