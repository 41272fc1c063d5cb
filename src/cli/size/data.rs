//! The answer of this command as data beside a report that has computed it already.

use super::shelf::json::Written;
use crate::cli::Failure;
use crate::cli::screen::json_text;
use crate::report::Gathered;

/// What `size --json` prints.
pub(in crate::cli) fn json_of(gathered: &Gathered) -> Result<String, Failure> {
    let shelf = gathered.shelf.as_ref().map(|shelf| Written { shelf, units: gathered.size.units });
    json_text(&gathered.size.enveloped(&gathered.sense, Vec::new(), shelf))
}
