//! The stations that a boat file names in a file of their own.

use std::path::Path;

use crate::boat::Stations;
use crate::error::{FileFaults, FileWarning};

/// Where the files are that a boat file names.
#[derive(Clone, Copy, Debug)]
pub enum Beside<'a> {
    /// The text came by itself: no other file is read.
    Nothing,
    /// In this folder.
    Folder(&'a Path),
    /// They were read before, as of this boat.
    Known(Option<&'a Stations>),
}

/// Stations that were read, and what was left of the list.
pub(super) struct StationsRead {
    pub stations: Stations,
    pub warnings: Vec<FileWarning>,
}

/// Why there are none.
pub(super) enum Unread {
    /// The file as a whole: what is wrong, and what to do.
    File(String, String),
    /// It was read, with faults of its own.
    Faults(FileFaults),
}

impl Unread {
    /// The faults, those of the file as a whole told as faults of the boat file that names it.
    pub fn into_faults(self, told: impl FnOnce(String, String) -> FileFaults) -> FileFaults {
        match self {
            Self::File(problem, help) => told(problem, help),
            Self::Faults(faults) => faults,
        }
    }
}

impl Beside<'_> {
    /// The stations of that name.
    pub(super) fn stations(&self, named: &str) -> Result<StationsRead, Unread> {
        match self {
            Self::Known(Some(known)) if known.source() == named => {
                Ok(StationsRead { stations: (*known).clone(), warnings: Vec::new() })
            }
            Self::Folder(folder) => read(folder, named),
            Self::Known(_) | Self::Nothing => Err(Unread::File(
                format!("the file `{}` is not at hand here", crate::units::quoted(named)),
                "a boat file that comes by itself brings no other with it: use the command line, or write chine_beam and deadrise in place of stations"
                    .to_owned(),
            )),
        }
    }
}

#[cfg(feature = "study")]
fn read(folder: &Path, named: &str) -> Result<StationsRead, Unread> {
    super::stations_list::read(folder, named)
}

/// Lists are read by the studies alone.
#[cfg(not(feature = "study"))]
fn read(_: &Path, _: &str) -> Result<StationsRead, Unread> {
    Err(Unread::File(
        "this build reads no lists".to_owned(),
        "build it with the feature study, or write chine_beam and deadrise in place of stations"
            .to_owned(),
    ))
}
