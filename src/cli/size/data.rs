//! The answer of this command as data beside a report that has computed it already.

use super::Answered;
use super::shelf::Shelf;
use crate::cli::Failure;
use crate::cli::screen::json_text;
use crate::report::Gathered;

/// What `size --json` prints.
pub(in crate::cli) fn json_of(gathered: &Gathered) -> Result<String, Failure> {
    let shelf = |shelf: &crate::report::Shelf| Shelf {
        list: shelf.list.clone(),
        ranking: shelf.ranking.clone(),
    };
    let answered = Answered {
        file: gathered.file.clone(),
        boats: gathered.boats.clone(),
        units: gathered.units,
        settings: gathered.settings,
        suggestion: gathered.suggestion.clone(),
        effects: gathered.effects.clone(),
        charts: Vec::new(),
        shelf: gathered.shelf.as_ref().map(shelf),
    };
    json_text(&answered.enveloped(&answered.first()))
}
