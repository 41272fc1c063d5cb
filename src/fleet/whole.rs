//! A whole table from its source into a file or a stream, a few rows at a time.

use std::io::Write;
use std::path::{Path, PathBuf};

use super::source::{Place, Source, TableError, is_parquet};
use super::{Fleet, Question};
use crate::listing::as_text;
use crate::save::{Growing, Overwrite};

/// Points of a run that are computed between one step of the file and the next.
const POINTS_IN_A_STEP: usize = 8192;
/// Sizes: a step then takes a second or less.
const SIZES_IN_A_STEP: usize = 32;

/// Where the answers go.
#[derive(Clone, Copy, Debug)]
pub struct Into<'a> {
    /// The file; Parquet where its name ends so.
    pub path: &'a Path,
    /// Files that are read, which it may not replace.
    pub inputs: &'a [PathBuf],
    /// Whether it may replace what is there.
    pub overwrite: Overwrite,
    /// Whether to go on with what a process that was ended has begun.
    pub resume: bool,
}

/// What was done.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Done {
    /// Rows of the table.
    pub rows: u64,
    /// Of these, rows with a fault.
    pub faulty: u64,
    /// Of these, rows that were there already.
    pub resumed: u64,
}

/// Boats of one step.
fn step(fleet: &Fleet) -> usize {
    match &fleet.question {
        Question::Run(run) => {
            let points = run.speeds.len().max(1) * run.deflections.len().max(1);
            (POINTS_IN_A_STEP / points).max(SIZES_IN_A_STEP)
        }
        Question::Size(_) => SIZES_IN_A_STEP,
    }
}

/// Carries all rows into a file, as comma-separated values or Parquet. `progress` hears how many more rows are done.
///
/// The bytes are the same on any number of cores, and however often it was ended and resumed.
///
/// # Errors
/// If the table cannot be read, or the file not be written; where it was begun with another
/// question or table. What was done stays, to be resumed.
pub fn to_file(
    fleet: &Fleet,
    source: &mut dyn Source,
    into: Into<'_>,
    progress: &dyn Fn(u64),
) -> Result<Done, TableError> {
    #[cfg(not(feature = "parquet"))]
    if is_parquet(into.path) {
        return Err(super::source::without_parquet(into.path));
    }
    let asked = crc32fast::hash(fleet.description().as_bytes());
    let stamp = format!(
        "{} {} {asked:08x} {}",
        env!("CARGO_PKG_NAME"),
        env!("CARGO_PKG_VERSION"),
        source.checksum()
    );
    let (mut file, mark) = if into.resume {
        Growing::resume(into.path, into.inputs, into.overwrite, &stamp)?
    } else {
        (Growing::begin(into.path, into.inputs, into.overwrite, &stamp)?, None)
    };
    let mut done = Done::default();
    if let Some([rows, byte, line, faulty]) = mark {
        source.go_to(Place { rows, byte, line })?;
        done = Done { rows, faulty, resumed: rows };
        progress(rows);
    } else {
        let Place { rows, byte, line } = source.place();
        file.step(&fleet.csv_head(), [rows, byte, line, 0])?;
    }
    // No spreadsheet opens what becomes Parquet: what is kept stays as it is there.
    let words = if is_parquet(into.path) { str::to_owned } else { as_text };
    each(fleet, source, words, &mut done, progress, &mut |bytes, place, faulty| {
        Ok(file.step(bytes, [place.rows, place.byte, place.line, faulty])?)
    })?;
    if is_parquet(into.path) {
        #[cfg(feature = "parquet")]
        file.finish_as(|grown, other| super::parquet::from_csv(fleet.columns(), grown, other))?;
    } else {
        file.finish()?;
    }
    Ok(done)
}

/// Writes all rows as comma-separated values to a stream.
///
/// # Errors
/// If the table cannot be read, or the stream takes no more.
pub fn to_stream(
    fleet: &Fleet,
    source: &mut dyn Source,
    out: &mut dyn Write,
    progress: &dyn Fn(u64),
) -> Result<Done, TableError> {
    out.write_all(&fleet.csv_head()).map_err(TableError::Output)?;
    let mut done = Done::default();
    each(fleet, source, as_text, &mut done, progress, &mut |bytes, _, _| {
        out.write_all(bytes).map_err(TableError::Output)
    })?;
    out.flush().map_err(TableError::Output)?;
    Ok(done)
}

/// What becomes of the lines of a step: their bytes, how far the source was read, and the rows with faults up to there.
type Take<'a> = dyn FnMut(&[u8], Place, u64) -> Result<(), TableError> + 'a;

fn each(
    fleet: &Fleet,
    source: &mut dyn Source,
    words: fn(&str) -> String,
    done: &mut Done,
    progress: &dyn Fn(u64),
    take: &mut Take<'_>,
) -> Result<(), TableError> {
    let step = step(fleet);
    loop {
        let lines = source.next(step)?;
        if lines.is_empty() {
            return Ok(());
        }
        let written = fleet.csv(done.rows + 1, &lines, words);
        done.rows += lines.len() as u64;
        done.faulty += written.faulty;
        take(&written.bytes, source.place(), done.faulty)?;
        progress(lines.len() as u64);
    }
}
