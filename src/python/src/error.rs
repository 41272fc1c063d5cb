//! Faults as exceptions that carry line and cure.

use planewright::boat::Fault;
use planewright::error::{FileError, FileFaults};
use pyo3::prelude::*;

/// What is wrong, what to write instead, and the line where it stands.
type Said = (String, String, Option<usize>);

fn raised(py: Python<'_>, name: &str, faults: Vec<Said>) -> PyErr {
    let made = py
        .import("planewright._errors")
        .and_then(|module| module.getattr("BoatError"))
        .and_then(|class| class.call1((name, faults)));
    match made {
        Ok(error) => PyErr::from_value(error),
        Err(error) => error,
    }
}

/// A fault of one value that was asked for.
pub fn of_fault(py: Python<'_>, fault: Fault) -> PyErr {
    let key = fault.key.strip_prefix("run.").unwrap_or(&fault.key);
    raised(py, "", vec![(format!("{key}: {}", fault.problem), fault.remedy, None)])
}

/// Anything that is said with a cure.
pub fn said(py: Python<'_>, problem: String, cure: String) -> PyErr {
    raised(py, "", vec![(problem, cure, None)])
}

pub fn of_file(py: Python<'_>, error: FileError) -> PyErr {
    match error {
        FileError::Faults(faults) => of_faults(py, &faults),
        other => {
            let cure = other.remedy().unwrap_or_default();
            raised(py, "", vec![(other.to_string(), cure, None)])
        }
    }
}

pub fn of_faults(py: Python<'_>, faults: &FileFaults) -> PyErr {
    let all = faults.faults().iter();
    let said = |fault: &planewright::error::FileFault| {
        (fault.problem.clone(), fault.help.clone(), faults.line_of(fault))
    };
    raised(py, &faults.to_string(), all.map(said).collect())
}
