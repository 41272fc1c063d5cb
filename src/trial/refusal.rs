//! Why a log determines nothing.

use thiserror::Error;

use super::unknown::Unknown;

/// Why nothing can be learned from a log.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum Refusal {
    /// Planes down on a boat without.
    #[error("{lines}: planes are down, and the boat file has none")]
    NoPlanes {
        /// Where.
        lines: String,
    },
    /// Hardly anything to learn from.
    #[error(
        "the log has {count} usable measurements, and {least} are the fewest that can be judged (a pair of runs is one)"
    )]
    TooFew {
        /// Usable measurements.
        count: usize,
        /// Fewest that will do.
        least: usize,
    },
    /// All at the same speed.
    #[error(
        "all runs were made at about the same speed, {from} to {to}: where the centre of gravity is shows in how trim changes with speed"
    )]
    OneSpeed {
        /// Slowest.
        from: String,
        /// Fastest.
        to: String,
    },
    /// The readings do not determine any unknown better than it was known.
    #[error("the log cannot tell more than was known before: {}", expected(.0))]
    Undetermined(Vec<(Unknown, Option<f64>)>),
    /// The readings do not agree with each other under any values.
    #[error(
        "the runs contradict each other or the boat file: with the best values {wild} of {count} readings still are far off, and the rest scatter {scale:.1} times as much as is usual"
    )]
    Contradictory {
        /// Readings far off.
        wild: usize,
        /// Readings.
        count: usize,
        /// Scatter over the usual.
        scale: f64,
    },
    /// The best value of the centre of gravity is none a boat can have.
    #[error(
        "the log asks for a centre of gravity {value} forward of the transom, which cannot be believed of a boat that is described with {before}"
    )]
    BeyondBelief {
        /// What the log asks for.
        value: String,
        /// What the file says.
        before: String,
    },
    /// The search did not settle.
    #[error("no values were found that fit the log; the search did not settle")]
    NotSettled,
}

impl Refusal {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::NoPlanes { .. } => "no-planes",
            Self::TooFew { .. } => "too-few-measurements",
            Self::OneSpeed { .. } => "one-speed",
            Self::Undetermined(_) => "undetermined",
            Self::Contradictory { .. } => "contradictory",
            Self::BeyondBelief { .. } => "beyond-belief",
            Self::NotSettled => "not-settled",
        }
    }

    /// What to do about it.
    #[must_use]
    pub const fn remedy(&self) -> &'static str {
        match self {
            Self::NoPlanes { .. } => {
                "add [planes] with span and chord to the boat file, or empty the deflections of the log"
            }
            Self::TooFew { .. } => {
                "make more runs: at six speeds or more, from just on the plane to top speed, both ways"
            }
            Self::OneSpeed { .. } => {
                "run at speeds from just on the plane to top speed, at least half as fast again as the slowest"
            }
            Self::Undetermined(_) => {
                "make more runs, both ways, over a wider range of speeds, and some of them with the planes down"
            }
            Self::Contradictory { .. } => {
                "check the units and the sign of the trims, that all runs were made with the same load, and the boat file; run again in calm deep water"
            }
            Self::BeyondBelief { .. } => {
                "check that trim is that of the keel line, bow up positive, in degrees, and mass, beam, deadrise and thrust line of the boat file"
            }
            Self::NotSettled => "check the readings for a gross error, and run again",
        }
    }
}

fn expected(errors: &[(Unknown, Option<f64>)]) -> String {
    let each = errors.iter().map(|(unknown, error)| match error {
        Some(error) => format!(
            "{} would come out with {:.0} % of the doubt there was",
            unknown.spoken(),
            100.0 * error
        ),
        None => format!("{} would not come out at all", unknown.spoken()),
    });
    each.collect::<Vec<_>>().join("; ")
}
