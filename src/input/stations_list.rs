//! Reads the stations of a bottom: a CSV file whose columns are those of [`COLUMNS`].

use std::path::Path;

use uom::si::f64::Length;
use uom::si::length::meter;

use super::stations::{StationsRead, Unread};
use crate::boat::{Station, Stations};
use crate::error::{FileFault, FileFaults, FileWarning, shown_name};
use crate::listing::strict::{self, Strict};
use crate::listing::{self, Cells, ListError, ListKind, StrictError};
use crate::schema::Need::Always;
use crate::schema::{Kind, Limits, Row, row as column};
use crate::units::Dimension;

/// What it is called, and how it begins.
const KIND: ListKind = ListKind {
    name: "list of stations",
    wanted: "hull.stations names a CSV file, looked for beside the boat file",
    usual: "a list of stations has ten to twenty lines",
    headings: "the first line names the columns, for example: station (m), keel_height (m), chine_height (m), chine_half_beam (m)",
};

const LENGTH: Kind = Kind::Quantity(Dimension::Length);
const HEIGHTS: Limits = Limits::Written("-10 m", "10 m");

/// All columns.
#[rustfmt::skip]
pub(crate) const COLUMNS: &[Row] = &[
    column("station", LENGTH, Always, Limits::Written("0 m", "60 m"), "1.25 m", "distance forward of the transom, along the keel; the first is the transom, 0, and the last the forward end of the chine"),
    column("keel_height", LENGTH, Always, HEIGHTS, "0 m", "height of the keel above any one level line"),
    column("chine_height", LENGTH, Always, HEIGHTS, "0.38 m", "height of the chine above the same line; at a chine flat its inner edge"),
    column("chine_half_beam", LENGTH, Always, Limits::Written("0 m", "6 m"), "1.12 m", "from the centreline to the chine; 0 only at the last station, where chine and keel may meet"),
];

/// Reads the list of that name in a folder.
pub(super) fn read(folder: &Path, named: &str) -> Result<StationsRead, Unread> {
    let path = folder.join(named);
    let text = listing::text_of_file(&path, KIND).map_err(|error| told(&error))?;
    parse(&shown_name(&path), named, &text)
}

/// The stations of a text; `name` stands for the file in messages, `source` is what the boat file calls it.
fn parse(name: &str, source: &str, text: &str) -> Result<StationsRead, Unread> {
    let list = strict::read(name, text, KIND, COLUMNS, |cells, _| station(cells));
    let Strict { rows, warnings, checksum } = list.map_err(|error| match error {
        StrictError::List(error) => told(&error),
        StrictError::Faults(faults) => Unread::Faults(faults),
    })?;
    let (stations, places): (Vec<Station>, Vec<_>) = rows.into_iter().unzip();
    let stations = Stations::new(source, &checksum, stations).map_err(|faults| {
        let faults = faults.into_iter().map(|fault| FileFault {
            problem: fault.problem,
            help: fault.remedy,
            place: fault.at.and_then(|at| places.get(at).cloned()),
        });
        let text = text.trim_start_matches('\u{feff}');
        Unread::Faults(FileFaults::new(name, text, faults.collect()))
    })?;
    let warning = |message| FileWarning {
        file: name.to_owned(),
        line: None,
        key: super::convert::STATIONS.to_owned(),
        message,
    };
    Ok(StationsRead { stations, warnings: warnings.into_iter().map(warning).collect() })
}

/// The refusal of the file as a whole.
fn told(error: &ListError) -> Unread {
    use miette::Diagnostic;
    Unread::File(error.to_string(), error.help().map_or_else(String::new, |help| help.to_string()))
}

/// The station of one line; none when it has faults, which are gathered.
fn station(cells: &mut Cells<'_>) -> Option<Station> {
    let [forward, keel, chine, half] =
        ["station", "keel_height", "chine_height", "chine_half_beam"]
            .map(|name| cells.need(name).map(Length::new::<meter>));
    Some(Station {
        forward: forward?,
        keel_height: keel?,
        chine_height: chine?,
        chine_half_beam: half?,
    })
}

/// Head of the documentation of the columns.
#[cfg(test)]
const HEAD: &str = "\
# Columns of a list of stations

The bottom of a boat as a naval architect has it: one line for each station, from the transom to the
forward end of the chine. The boat file names it, `stations = \"bottom.csv\"` below `[hull]`, in place
of `chine_beam` and `deadrise`; it is looked for beside the boat file. A length has its unit in the
heading for the whole column (`keel_height (mm)`) or in the cell. Commas, semicolons or tabs may
stand between the columns, a point or a comma before the decimals; lines that begin with `#` are
comments. A list with a fault is not used.

What is taken from it, after Savitsky & Brown (1976): the largest chine beam; the deadrise at
mid-chine length, half way to the last station; the angle between chine and keel from the transom
to there, which is the warp of their equations 9 and 10. Between two stations the bottom is taken
as straight. The keel line, from which trim and heights are measured, runs through the keel at the
transom and at mid-chine length; `bottom_length` is where the keel leaves it by a hundredth of the
beam, unless the boat file gives it. Beam and deadrise of the transom are those of the first
station, unless `[transom]` gives them.
";

#[cfg(test)]
#[path = "stations_list_tests.rs"]
mod tests;
