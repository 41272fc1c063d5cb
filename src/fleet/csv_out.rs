//! Answers as lines of comma-separated values.

use rayon::prelude::*;

use super::cell::Cell;
use super::{Fleet, Line};
use crate::listing::as_text;

/// Boats whose lines one core writes at a time.
const TOGETHER: usize = 16;

/// Lines of text, and what was counted in them.
#[derive(Debug, Default)]
pub(crate) struct Written {
    /// The lines.
    pub bytes: Vec<u8>,
    /// Rows of the table that have faults.
    pub faulty: u64,
}

impl Fleet {
    /// The heading line of the answers.
    pub(crate) fn csv_head(&self) -> Vec<u8> {
        let names = self.columns().iter().map(|column| as_text(&column.name));
        record(&names.collect::<Vec<_>>())
    }

    /// The lines of some rows, the first of which has this number; `words` is how texts stand in them.
    pub(crate) fn csv(&self, first: u64, lines: &[Line], words: fn(&str) -> String) -> Written {
        let numbered = (first..).zip(lines).collect::<Vec<_>>();
        let parts = numbered.par_chunks(TOGETHER).map(|part| {
            let mut written = Written::default();
            for &(number, line) in part {
                let rows = self.answer(number, line);
                let is_faulty = rows.iter().any(|row| matches!(row.last(), Some(Cell::Text(_))));
                written.faulty += u64::from(is_faulty);
                for row in rows {
                    let cells = row.iter().map(|cell| cell.in_csv(words)).collect::<Vec<_>>();
                    written.bytes.extend(record(&cells));
                }
            }
            written
        });
        let parts: Vec<Written> = parts.collect();
        let faulty = parts.iter().map(|part| part.faulty).sum();
        Written { bytes: parts.into_iter().flat_map(|part| part.bytes).collect(), faulty }
    }
}

impl Cell {
    fn in_csv(&self, words: fn(&str) -> String) -> String {
        match self {
            Self::Empty => String::new(),
            Self::Whole(count) => count.to_string(),
            Self::Number(number) => number.to_string(),
            // A mark such as -5 is no formula.
            Self::Text(text) if text.parse::<f64>().is_ok() => text.to_string(),
            Self::Text(text) => words(text),
            Self::Truth(truth) => truth.to_string(),
        }
    }
}

/// One line; cells with commas, quotation marks or line breaks stand in quotation marks (RFC 4180).
fn record(cells: &[String]) -> Vec<u8> {
    let mut line = String::with_capacity(16 * cells.len());
    for (place, cell) in cells.iter().enumerate() {
        if place > 0 {
            line.push(',');
        }
        if cell.contains([',', '"', '\n', '\r']) {
            line.push('"');
            line.push_str(&cell.replace('"', "\"\""));
            line.push('"');
        } else {
            line.push_str(cell);
        }
    }
    line.push('\n');
    line.into_bytes()
}
