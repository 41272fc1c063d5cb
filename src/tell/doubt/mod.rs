//! How sure the answers are, told: likely ranges, what they follow, and the duties.
//!
//! Each part is a function of its own, so that whoever prints it can choose.

mod calibration;
mod duties;
mod inputs;
mod running;
mod seen;
mod short_form;

pub use calibration::{HONESTLY, calibration};
pub use duties::{duties, needs};
pub use inputs::inputs;
pub use running::{in_short, influences, speeds, to_measure};
pub use seen::{drawn_as_seen, seen};
pub use short_form::{chance_in_short, short_form};

use crate::boat::{Boat, Toleranced};
use crate::doubt::{Influence, RunningDoubt, What};
use crate::units::UnitChoice;

/// A boat with what very many boats nearly like her do.
#[derive(Clone, Copy, Debug)]
pub struct Doubted<'a> {
    /// The boat in one loading condition.
    pub boat: &'a Boat,
    /// What the boats drawn do.
    pub running: &'a RunningDoubt,
    /// Units of the output.
    pub units: UnitChoice,
}

/// What may be off, with its letters in words.
fn in_words(what: What) -> String {
    let name = what.name();
    match what {
        What::Value(Toleranced::Lcg) => {
            format!("{name} (how far forward of the transom her weight lies)")
        }
        What::Value(Toleranced::Vcg) => format!("{name} (how high above the keel her weight lies)"),
        _ => name.to_owned(),
    }
}

/// The same with its article; some of what an answer may follow is no noun but a clause.
fn in_a_sentence(what: What) -> String {
    let named = in_words(what);
    if named.starts_with("how ") { named } else { format!("the {named}") }
}

/// What an answer follows most, and what narrows it.
fn follows_most(answer: &str, first: &Influence) -> String {
    format!(
        "{answer} follows {} most of all; to narrow it, {}.",
        in_a_sentence(first.what),
        first.what.remedy()
    )
}
