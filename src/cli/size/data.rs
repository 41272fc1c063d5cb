//! The answer of this command as data beside a report that has computed it already.

use super::shelf::json::Written;
use crate::answer::SizeAnswer;
use crate::cli::Failure;
use crate::cli::screen::json_text;
use crate::report::Gathered;

/// What `size --json` prints.
pub(in crate::cli) fn json_of(gathered: &Gathered) -> Result<String, Failure> {
    let answer = SizeAnswer {
        file: gathered.file.clone(),
        boats: gathered.boats.clone(),
        units: gathered.units,
        settings: gathered.settings,
        suggestion: gathered.suggestion.clone(),
        effects: gathered.effects.clone(),
    };
    let shelf = gathered.shelf.as_ref().map(|shelf| Written { shelf, units: gathered.units });
    json_text(&answer.enveloped(&gathered.sense, Vec::new(), shelf))
}
