//! Where the rows of a fleet come from: a file, or the values of a sweep.

use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

use miette::Diagnostic;
use thiserror::Error;

use super::Line;
use super::csv_table::CsvTable;
use crate::error::plain_reason;
use crate::save::SaveError;

/// Why a table could not be read or its answers not be written.
#[derive(Debug, Error, Diagnostic)]
#[non_exhaustive]
pub enum TableError {
    /// The system refuses to read it.
    #[error("{}: cannot be read: {reason}", path.display())]
    #[diagnostic(help("check name and permissions of the table"))]
    Unreadable {
        /// The table.
        path: PathBuf,
        /// What the system says.
        reason: String,
    },
    /// Its heading line or its form is none.
    #[error("{}: {problem}", path.display())]
    #[diagnostic(help("{help}"))]
    Form {
        /// The table.
        path: PathBuf,
        /// What is wrong.
        problem: String,
        /// What to do.
        help: String,
    },
    /// The answers could not be written.
    #[error(transparent)]
    #[diagnostic(transparent)]
    Save(#[from] SaveError),
    /// Whoever reads the output has stopped, or it cannot be written.
    #[error("the output cannot be written: {0}")]
    Output(std::io::Error),
}

/// How far the rows of a source were read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Place {
    /// Rows read.
    pub rows: u64,
    /// Bytes read, where it is a text.
    pub byte: u64,
    /// Lines read, where it is a text.
    pub line: u64,
}

/// Rows of a table, a few at a time.
pub trait Source {
    /// The headings of its columns.
    fn headings(&self) -> &[String];

    /// Its next rows, at most so many; none at its end.
    ///
    /// # Errors
    /// If it cannot be read any further.
    fn next(&mut self, most: usize) -> Result<Vec<Line>, TableError>;

    /// How far it was read.
    fn place(&self) -> Place;

    /// Goes on where it was read to once before.
    ///
    /// # Errors
    /// If that place cannot be found.
    fn go_to(&mut self, place: Place) -> Result<(), TableError>;

    /// Rows that there are, as far as is known beforehand.
    fn expected(&self) -> u64;

    /// A text that is another for other content.
    fn checksum(&self) -> &str;
}

/// Whether a path names a Parquet file.
#[must_use]
pub fn is_parquet(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("parquet"))
}

/// The table in a file: Parquet where its name ends so, else comma-separated values.
///
/// # Errors
/// If it cannot be read, has no headings, or is Parquet and this build has not the feature.
pub fn open(path: &Path) -> Result<Box<dyn Source>, TableError> {
    if is_parquet(path) {
        return parquet_table(path);
    }
    Ok(Box::new(CsvTable::open(path)?))
}

#[cfg(feature = "parquet")]
fn parquet_table(path: &Path) -> Result<Box<dyn Source>, TableError> {
    Ok(Box::new(super::parquet::ParquetTable::open(path)?))
}

#[cfg(not(feature = "parquet"))]
fn parquet_table(path: &Path) -> Result<Box<dyn Source>, TableError> {
    Err(without_parquet(path))
}

/// That this build knows no Parquet.
#[cfg(not(feature = "parquet"))]
pub(super) fn without_parquet(path: &Path) -> TableError {
    TableError::Form {
        path: path.to_owned(),
        problem: "this build neither reads nor writes Parquet".to_owned(),
        help: "build it with `cargo build --release --features parquet`, or name a .csv file"
            .to_owned(),
    }
}

pub(super) fn unreadable(path: &Path, error: &std::io::Error) -> TableError {
    let reason = match error.kind() {
        std::io::ErrorKind::NotFound => "there is no such file".to_owned(),
        std::io::ErrorKind::IsADirectory => "this is a directory".to_owned(),
        _ => plain_reason(error),
    };
    TableError::Unreadable { path: path.to_owned(), reason }
}

/// Bytes that are read at a time to tell what a file holds.
const AT_A_TIME: usize = 1 << 16;

/// Length and CRC-32 of a file, and the line breaks in it.
pub(super) fn content(path: &Path) -> Result<(String, u64), TableError> {
    let refused = |error: std::io::Error| unreadable(path, &error);
    let mut file = File::open(path).map_err(refused)?;
    let known = file.metadata().map_err(refused)?;
    if !known.is_file() {
        return Err(TableError::Form {
            path: path.to_owned(),
            problem: "this is no regular file, and a table is read more than once".to_owned(),
            help: "save what comes from a pipe in a file, and give that".to_owned(),
        });
    }
    let (mut hash, mut length, mut lines) = (crc32fast::Hasher::new(), 0_usize, 0_usize);
    let mut bytes = vec![0; AT_A_TIME];
    loop {
        let read = file.read(&mut bytes).map_err(refused)?;
        if read == 0 {
            break;
        }
        hash.update(&bytes[..read]);
        length += read;
        lines += bytes[..read].iter().filter(|&&byte| byte == b'\n').count();
    }
    Ok((format!("{length}-{:08x}", hash.finalize()), lines as u64))
}
