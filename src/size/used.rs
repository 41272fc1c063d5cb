//! Which pair of planes an answer is about: the one fitted, else the one suggested.

use super::result::{Answer, Suggestion};
use crate::boat::{Boat, PlanePair};
use crate::units::UnitChoice;

/// Where a pair comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PairSource {
    /// Fitted, by the boat file.
    Fitted,
    /// None is fitted; suggested for the duties in all loading conditions.
    Suggested,
    /// A part of a stock list.
    Listed,
    /// Chosen by whoever asks, e.g. on the page.
    Advised,
    /// None is fitted, and the sizing finds none to be needed, or none that does.
    Nowhere,
    /// Left out: she was seen to trim otherwise than she is described, so that there is no setting.
    Withheld,
}

/// The pair that an answer is about, the same in all loading conditions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PairUsed {
    /// The pair; none when it comes from nowhere.
    pub pair: Option<PlanePair>,
    /// Where it comes from.
    pub source: PairSource,
}

impl Suggestion {
    /// The pair suggested, where it does what is asked, as the planes that an answer is about.
    #[must_use]
    pub const fn used(&self) -> PairUsed {
        match self.answer {
            Answer::Pair(pair) => PairUsed { pair: Some(pair), source: PairSource::Suggested },
            _ => PairUsed { pair: None, source: PairSource::Nowhere },
        }
    }
}

impl PairUsed {
    /// The pair fitted, or none.
    #[must_use]
    pub fn fitted(boat: &Boat) -> Self {
        match boat.planes() {
            pair @ Some(_) => Self { pair, source: PairSource::Fitted },
            None => Self { pair: None, source: PairSource::Nowhere },
        }
    }

    /// Its source in one word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self.source {
            PairSource::Fitted => "fitted",
            PairSource::Suggested => "suggested",
            PairSource::Listed => "listed",
            PairSource::Advised => "advised",
            PairSource::Nowhere | PairSource::Withheld => "none",
        }
    }

    /// The pair in a few words: `Her planes: 610 x 229 mm.`, and without 'her' where none are fitted.
    #[must_use]
    pub fn in_short(self, units: UnitChoice) -> String {
        match self.pair {
            Some(pair) if self.source == PairSource::Fitted => {
                format!("Her planes: {}.", pair.text(units))
            }
            Some(pair) => format!("Planes {}.", pair.text(units)),
            None => "No planes.".to_owned(),
        }
    }

    /// The pair in words: `two of 610 x 229 mm, as fitted`.
    #[must_use]
    pub fn sentence(self, units: UnitChoice) -> String {
        let Some(pair) = self.pair else {
            if self.source == PairSource::Withheld {
                return "up: there is no setting, since she was seen to trim otherwise than she is described".to_owned();
            }
            return "none fitted, and `size` suggests none".to_owned();
        };
        let why = match self.source {
            PairSource::Fitted => "as fitted",
            PairSource::Advised => "as advised",
            _ => "as `size` suggests; none are fitted",
        };
        format!("two of {}, {why}", pair.text(units))
    }
}
