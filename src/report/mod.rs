//! The papers from one computation: the architect's record, the dealer's page and the owner's letter.
//!
//! [`Gathered`] computes everything once; each reader's file puts it into a
//! [`Document`] in words of his own. No paper computes a number that the
//! command line would give differently, and none says more than the model knows.
//!
//! * `say`: numbers and likely ranges as all papers write them;
//! * [`gather`]: everything, once;
//! * `paper`: from a boat file to what is wanted, and from a paper to its bytes;
//! * `picture`: the boat at her trim, to scale, and the charts;
//! * `equations`: the table of what was used, with sources and ranges;
//! * `dealer`, `owner`, `architect`, `buyer`: what each of them is told;
//! * `helm`, `dash`: how to set the planes at each speed, and the card to cut out;
//! * `notice`: what whoever steers sees of it;
//! * `card`: what to measure, how, and what it narrows;
//! * `limits`: what none of them should expect.

mod architect;
mod buyer;
mod card;
mod choice;
mod dash;
mod dealer;
mod equations;
pub mod gather;
mod helm;
mod limits;
mod notice;
mod owner;
mod owner_words;
mod paper;
mod pictures;
mod say;
#[cfg(test)]
mod tests;
#[cfg(test)]
mod told_tests;

use thiserror::Error;

pub use equations::{EQUATIONS, Equation};
pub use gather::{Advised, Gathered, Wanted};
pub use paper::{Format, bytes};

use crate::boat::Fault;
use crate::chart::ChartError;
use crate::document::{Block, Document, Fact};
use crate::stock::assess::AssessError;

/// For whom a paper is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reader {
    /// Everything, to check it.
    Architect,
    /// One page to sell from.
    Dealer,
    /// Plain words.
    Owner,
    /// One file to send: the boat to be driven on a telephone, without the program.
    Buyer,
}

impl Reader {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Architect, Self::Dealer, Self::Owner, Self::Buyer];

    /// The stable word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Architect => "architect",
            Self::Dealer => "dealer",
            Self::Owner => "owner",
            Self::Buyer => "buyer",
        }
    }
}

/// Why a paper could not be made.
#[derive(Debug, Error)]
pub enum ReportError {
    /// A value that no boat, or not this one, can take.
    #[error(transparent)]
    Fault(#[from] Fault),
    /// A chart could not be drawn.
    #[error(transparent)]
    Chart(#[from] ChartError),
    /// A part could not be judged.
    #[error(transparent)]
    Assess(#[from] AssessError),
    /// A paper could not be typeset.
    #[cfg(feature = "pdf")]
    #[error(transparent)]
    Typeset(#[from] crate::document::typeset::TypesetError),
}

/// The paper for a reader.
///
/// # Errors
/// When a balance is asked for that the bounds do not allow, or a chart cannot be drawn.
pub fn document(gathered: &Gathered, reader: Reader) -> Result<Document, ReportError> {
    match reader {
        Reader::Architect => architect::document(gathered),
        Reader::Dealer => dealer::document(gathered),
        Reader::Owner => owner::document(gathered),
        Reader::Buyer => buyer::document(gathered),
    }
}

/// The recommendation and the numbers that matter with their likely range, as the dealer's page has them.
#[must_use]
pub fn in_short(gathered: &Gathered) -> Vec<Block> {
    let mut blocks = dealer::in_short(gathered);
    let below_the_lead = blocks.len().min(1);
    blocks.splice(below_the_lead..below_the_lead, dealer::caveats(gathered));
    blocks
}

/// What was seen of the boat on the water and what follows for the boats drawn, in sentences; none where nothing was.
#[must_use]
pub fn seen(gathered: &Gathered) -> Vec<String> {
    let fit = gathered.duties.seen.as_ref();
    let same = say::seen(fit, gathered.size.units).map(|seen| {
        format!(
            "Of this boat {seen} was read on the water: the boats drawn are those {}.",
            say::shown_the_same(fit)
        )
    });
    same.into_iter().chain(say::does_not_fit(fit)).collect()
}

/// Where a paper comes from. No clock time: the same input gives the same bytes.
fn origin(gathered: &Gathered) -> Vec<Fact> {
    let file = &gathered.size.file;
    let name = say::file(&file.name);
    let mut facts = vec![
        Fact::new("Computed by", concat!("planewright ", env!("CARGO_PKG_VERSION"))),
        Fact::new("Boat file", name),
        Fact::new("Its CRC-32", file.checksum()),
    ];
    facts.extend(file.boat.stations().map(|stations| {
        Fact::new("Its stations", format!("{}, CRC-32 {}", stations.source(), stations.checksum()))
    }));
    facts
}
