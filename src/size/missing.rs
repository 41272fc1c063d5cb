//! What the best pair misses, and what would help: the findings, without a word of how they are told.

use uom::si::f64::{Angle, Length, Velocity};

use super::result::Miss;
use super::silence::Silence;
use crate::boat::PlanePair;

/// How far the best admissible pair falls short.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Shortfall {
    /// The pair that falls least short; none when the transom has no room for any plane.
    pub best: Option<PlanePair>,
    /// Index of the duty it misses most, in the list of duties.
    pub duty: Option<usize>,
    /// Where and by how much; none when the transom has no room.
    pub miss: Option<Miss>,
    /// What it misses.
    pub missing: Missing,
    /// What would help, each tried where it can be.
    pub remedies: Vec<Remedy>,
}

impl Shortfall {
    /// Why there is nothing to ask, where that is what is missing.
    #[must_use]
    pub const fn silence(&self) -> Option<Silence> {
        match self.missing {
            Missing::Silence(silence) => Some(silence),
            _ => None,
        }
    }
}

/// A speed, in a loading condition.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Spot {
    /// The speed.
    pub speed: Velocity,
    /// Name of the loading condition; none where only one is asked about.
    pub condition: Option<String>,
}

/// What is missing. [`Display`](std::fmt::Display) says it in the default units.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Missing {
    /// Nothing can be said about planes for the boat.
    Silence(Silence),
    /// No duty of the boat file holds in any loading condition that is asked about.
    NoDutyHolds,
    /// Room on the transom for the smallest pair allowed.
    Room {
        /// Largest span there is room for on each side.
        largest: Length,
        /// Least span that may be suggested.
        needed: Length,
    },
    /// All is only just done, and no pair in whole steps does it at every speed that is judged.
    WholeSteps {
        /// Where it is only just done.
        at: Spot,
    },
    /// Deflection.
    Deflection {
        /// Where.
        at: Spot,
        /// Needed there, of the deeper plane.
        needed: Angle,
        /// What duties may use.
        usable: Angle,
        /// The trim that this holds, where a trim is asked for.
        held: Option<HeldTrim>,
    },
    /// She does not run, even with planes up.
    NoRunWithPlanesUp {
        /// Where.
        at: Spot,
    },
    /// A safe run at the deflection needed.
    SafeRun {
        /// Where.
        at: Spot,
        /// Mean deflection needed there.
        needed: Angle,
        /// Mean deflection at the end of the safe run.
        safe: Angle,
    },
    /// Less resistance.
    Resistance {
        /// Where.
        at: Spot,
        /// By how much it stays above what is asked, as a share of that.
        above: f64,
    },
    /// Any deflection that does what is asked.
    AnyDeflection {
        /// Where.
        at: Spot,
    },
}

/// The trim that the deflection allowed holds, beside the trim asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct HeldTrim {
    /// The trim it holds.
    pub trim: Angle,
    /// The trim asked for.
    pub asked: Angle,
}

/// What would help. [`Display`](std::fmt::Display) says it in the default units.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Remedy {
    /// What is to be checked on a boat of which nothing can be said.
    Cure(Silence),
    /// Another loading to ask about, or a duty that holds in this one.
    AskOtherwise,
    /// Smaller clearances, or a smaller plane allowed.
    MakeRoom,
    /// A change that was tried, and what it brings.
    Tried {
        /// What was changed.
        change: Change,
        /// What that brings.
        result: TriedResult,
    },
    /// Less asked of the planes.
    AskLess,
}

/// A change of the boat that is tried.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Change {
    /// The centre of gravity so far forward.
    MoveForward(Length),
    /// A chord as long as the span.
    SquareChord,
}

/// What a change brings.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum TriedResult {
    /// Some admissible pair does all duties.
    DoesAll,
    /// It helps, but not enough.
    Helps {
        /// What the pair that falls least short then needs, over what is allowed.
        utilisation: f64,
    },
}
