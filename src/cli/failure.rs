//! Why a command could not do its work.

use std::io;
use std::path::Path;

use miette::Diagnostic;
use thiserror::Error;

use crate::boat::{Fault, Faults};
use crate::chart::ChartError;
use crate::check::CheckError;
use crate::error::FileError;
use crate::fleet::source::TableError;
use crate::input::placed;
use crate::listing::ListError;
use crate::mark::{DrawError, MarkError};
use crate::save::SaveError;
use crate::stock::assess::AssessError;
use crate::trial::LogError;
use crate::web::ServeError;

/// Why a command could not do its work.
#[derive(Debug, Error, Diagnostic)]
pub(super) enum Failure {
    #[error(transparent)]
    #[diagnostic(transparent)]
    File(#[from] FileError),
    /// A value that no boat, or not this one, can take.
    #[error("{}: {}", spoken(&.0.key), .0.problem)]
    #[diagnostic(help("{}", .0.remedy))]
    Fault(Fault),
    #[error(transparent)]
    Check(#[from] CheckError),
    #[error(transparent)]
    Chart(#[from] ChartError),
    #[error(transparent)]
    #[diagnostic(transparent)]
    List(#[from] ListError),
    #[error(transparent)]
    #[diagnostic(transparent)]
    Log(#[from] LogError),
    #[error(transparent)]
    #[diagnostic(help("{}", .0.remedy()))]
    Assess(#[from] AssessError),
    #[error(transparent)]
    #[diagnostic(help("{}", .0.remedy()))]
    Mark(#[from] MarkError),
    #[error(transparent)]
    Draw(#[from] DrawError),
    #[error(transparent)]
    #[diagnostic(transparent)]
    Serve(#[from] ServeError),
    #[error(transparent)]
    #[diagnostic(transparent)]
    Save(#[from] SaveError),
    #[error(transparent)]
    #[diagnostic(transparent)]
    Table(TableError),
    #[cfg(feature = "pdf")]
    #[error(transparent)]
    Typeset(#[from] crate::document::typeset::TypesetError),
    #[error("the output cannot be written: {0}")]
    Output(#[from] io::Error),
}

impl From<TableError> for Failure {
    fn from(error: TableError) -> Self {
        match error {
            TableError::Output(error) => Self::Output(error),
            other => Self::Table(other),
        }
    }
}

impl From<Fault> for Failure {
    fn from(fault: Fault) -> Self {
        Self::Fault(fault)
    }
}

impl Failure {
    /// With the line of the boat file, where it is a fault of a value that stands in it.
    pub(super) fn placed_in(self, boat: &Path) -> Self {
        let fault = match self {
            Self::Fault(fault) | Self::Assess(AssessError::Boat(fault)) => fault,
            Self::Mark(MarkError::Assess(AssessError::Boat(fault))) => fault,
            other => return other,
        };
        match placed(boat, &fault) {
            Some(faults) => Self::File(faults.into()),
            None => Self::Fault(fault),
        }
    }

    /// Whether whoever reads the output has stopped reading.
    pub(super) fn is_closed_pipe(&self) -> bool {
        matches!(self, Self::Output(error) if error.kind() == io::ErrorKind::BrokenPipe)
    }
}

/// A key as the user typed it: bounds under `run` are those of the command line.
fn spoken(key: &str) -> String {
    key.strip_prefix("run.").map_or_else(|| key.to_owned(), |option| format!("--{option}"))
}

impl From<Faults> for Failure {
    /// The first: of a boat that was read already one is enough.
    fn from(faults: Faults) -> Self {
        Self::Fault(faults.into())
    }
}
