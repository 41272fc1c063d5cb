//! What the JSON of several commands says alike.

use serde::Serialize;

use crate::chart::ChartFiles;
use crate::input::BoatFile;

/// The boat file that an answer was computed from.
#[derive(Serialize)]
pub(super) struct InputRecord<'a> {
    file: &'a str,
    crc32: String,
}

impl<'a> InputRecord<'a> {
    pub(super) fn of(file: &'a BoatFile) -> Self {
        Self { file: &file.name, crc32: file.checksum() }
    }
}

/// Every file of some charts.
pub(super) fn chart_paths<'a>(charts: impl IntoIterator<Item = &'a ChartFiles>) -> Vec<String> {
    let files = charts.into_iter().flat_map(|chart| [&chart.svg, &chart.png]);
    files.map(|path| path.display().to_string()).collect()
}
