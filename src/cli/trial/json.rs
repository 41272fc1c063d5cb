//! What a trial tells as one JSON object: SI units, angles in degrees, null for what does not exist.

use super::{Outcome, Trial};
use crate::field::{InSi, written};
use crate::trial::{Learned, Refusal};

/// The log that was read.
struct Read<'a>(&'a Trial);

/// Why nothing is told.
struct Refused<'a>(&'a Refusal);

/// The boat file with what was learned.
struct Calibrated<'a>(&'a Outcome);

/// A key of it with its new value.
struct Change<'a>(&'a str, &'a str);

impl Trial {
    fn learned(&self) -> Option<&Learned> {
        self.outcome.as_ref().ok().map(|outcome| &outcome.learned)
    }

    fn warnings(&self) -> Vec<&String> {
        self.log.warnings.iter().chain(&self.pairing.warnings).collect()
    }

    /// A list of what was learned; empty where nothing was.
    fn list<T>(&self, of: fn(&Learned) -> &Vec<T>) -> &[T] {
        self.learned().map_or(&[], |learned| of(learned))
    }
}

impl Calibrated<'_> {
    fn changes(&self) -> Vec<Change<'_>> {
        self.0.calibrated.changes.iter().map(|(key, value)| Change(key, value)).collect()
    }
}

written! {
    Trial as trial {
        "log_warnings": trial.warnings(),
        "log": Read(trial),
        "refusal": trial.outcome.as_ref().err().map(Refused),
        "fitted": trial.list(|learned| &learned.fitted),
        "left": trial.list(|learned| &learned.left),
        "measurements": trial.list(|learned| &learned.compared),
        "unused": trial.list(|learned| &learned.unused),
        "trim_rms_before_deg": trial.learned().map(|l| l.rms_before).in_si(),
        "trim_rms_after_deg": trial.learned().map(|l| l.rms_after).in_si(),
        "trim_scatter_deg": trial.learned().map(|l| l.trim_scatter).in_si(),
        "condition_number": trial.learned().map(|l| l.condition_number),
        "propulsive_efficiency": trial.learned().map(|l| l.efficiency).in_si(),
        "propulsive_efficiency_is_given": trial.learned().map(|l| l.efficiency_is_given),
        "boat_file": trial.outcome.as_ref().ok().map(Calibrated),
    }
    Read<'_> as read {
        "file": read.0.log.name,
        "crc32": read.0.log.checksum,
        "runs": read.0.log.rows.len(),
        "measurements": read.0.pairing.measurements.len(),
    }
    Refused<'_> as refused {
        "reason": refused.0.word(),
        "sentence": refused.0.to_string(),
        "remedy": refused.0.remedy(),
    }
    Calibrated<'_> as file {
        "written_to": file.0.written.as_ref().map(|path| path.display().to_string()),
        "changes": file.changes(),
        "text": file.0.calibrated.file.text,
    }
    Change<'_> as change {
        "key": change.0,
        "value": change.1,
    }
}
