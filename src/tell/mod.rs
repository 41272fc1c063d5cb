//! Results told to a person: what the command line, the reports and the page say alike.
//!
//! Each room turns one kind of result into [`Block`](crate::document::Block)s
//! and leaves their look to whoever shows them.

pub mod compare;
pub mod doubt;
pub mod drive;
pub mod fuel;
pub mod level;
pub mod loadings;
pub mod loads;
pub mod on_plane;
pub(crate) mod over_limit;
pub mod reasons;
pub mod run;
pub(crate) mod saving;
pub mod seaway;
pub mod sense;
pub mod shelf;
pub mod short_form;
pub mod sizing;
pub mod trial;
mod words;

pub use crate::size::in_words as shortfall;

use crate::boat::{Boat, Toleranced};
use crate::document::{Piece, Sentence};
use crate::flag::Flag;
use crate::plane::effect::EFFECTIVENESS_LOG_SPREAD;

/// Where the spread of what planes do from boat to boat is from.
#[must_use]
pub(crate) fn spread_basis(boat: &Boat) -> String {
    match boat.tolerance_of(Toleranced::PlaneEffectiveness) {
        None => format!(
            "That is the scatter of tank runs with planes, about {:.0} % (Gaylo & Roske 2019); a trial narrows it.",
            100.0 * EFFECTIVENESS_LOG_SPREAD
        ),
        Some(_) => "So the boat file has it, from a trial.".to_owned(),
    }
}

/// What a flag means.
#[must_use]
pub fn meaning(flag: Flag) -> Sentence {
    Piece::terminal(flag.meaning()).into()
}

/// Title of the section of notes, the last of every answer that has one.
pub const NOTES: &str = "Notes";
