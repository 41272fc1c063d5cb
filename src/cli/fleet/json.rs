//! What was done with a table, as one JSON object and in a sentence.

use std::path::Path;

use serde::Serialize;

use crate::flag::CAUTION;
use crate::fleet::Fleet;
use crate::fleet::whole::Done;
use crate::input::BoatFile;

/// What the answers are about.
#[derive(Clone, Debug)]
pub(in crate::cli) struct About<'a> {
    /// The command.
    pub command: &'static str,
    /// What was asked.
    pub of: &'static str,
    /// The table, where there is one.
    pub table: Option<&'a Path>,
    /// The boat file, where there is one.
    pub boat: Option<&'a BoatFile>,
    /// Length and CRC-32 of the table, or what was varied.
    pub checksum: String,
}

impl About<'_> {
    /// How many rows have a fault; none where there are none.
    pub fn faulty(&self, done: &Done) -> Option<String> {
        let said = match done.faulty {
            0 => return None,
            1 => "one row has a fault".to_owned(),
            count => format!("{count} rows have a fault"),
        };
        Some(format!("{said}: see the columns fault and cure"))
    }

    /// What was done.
    pub fn told(&self, done: &Done, path: &Path) -> String {
        let boats = match done.rows {
            1 => "one boat".to_owned(),
            rows => format!("{rows} boats"),
        };
        let before = match done.resumed {
            0 => String::new(),
            rows => format!(", {rows} of them before"),
        };
        format!("{}: {} of {boats}{before}.", path.display(), self.of)
    }
}

/// A file that was read.
#[derive(Serialize)]
struct Input {
    file: String,
    crc32: String,
}

/// What was done.
#[derive(Serialize)]
pub(in crate::cli) struct Written<'a> {
    program: &'static str,
    version: &'static str,
    command: &'static str,
    of: &'static str,
    table: Option<Input>,
    input: Option<Input>,
    rows: u64,
    rows_with_fault: u64,
    rows_resumed: u64,
    columns: Vec<&'a str>,
    warnings: Vec<String>,
    files: [String; 1],
    caution: &'static str,
}

impl<'a> Written<'a> {
    pub fn of(about: &'a About<'a>, fleet: &'a Fleet, path: &Path, done: &Done) -> Self {
        let crc32 = about.checksum.rsplit('-').next().unwrap_or_default().to_owned();
        let table = about.table.map(|path| Input { file: path.display().to_string(), crc32 });
        let input =
            about.boat.map(|boat| Input { file: boat.name.clone(), crc32: boat.checksum() });
        let boat = about.boat;
        let warnings = boat.iter().flat_map(|file| &file.warnings).map(ToString::to_string);
        Self {
            program: env!("CARGO_PKG_NAME"),
            version: env!("CARGO_PKG_VERSION"),
            command: about.command,
            of: about.of,
            table,
            input,
            rows: done.rows,
            rows_with_fault: done.faulty,
            rows_resumed: done.resumed,
            columns: fleet.columns().iter().map(|column| column.name.as_str()).collect(),
            warnings: warnings.chain(about.faulty(done)).collect(),
            files: [path.display().to_string()],
            caution: CAUTION,
        }
    }
}
