//! What can be wrong with a quantity written as text, and what to type instead.

use std::ops::Range;

use super::table::Dimension;

/// Longest piece of the reader's own text that a message repeats, in characters.
const QUOTED_CHARACTERS: usize = 40;

/// A quantity that could not be read.
///
/// The message says what is wrong; [`QuantityError::help`] says what is allowed and what to type
/// instead.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{problem}")]
pub struct QuantityError {
    /// What is wrong, in a sentence without a full stop.
    pub problem: QuantityProblem,
    /// The bytes of the text that are wrong, on character boundaries.
    pub span: Range<usize>,
    /// The kind of quantity that was wanted.
    pub wanted: Dimension,
    /// What to type instead, where it can be told.
    pub remedy: Option<String>,
}

impl QuantityError {
    /// What is allowed, and what to type instead.
    #[must_use]
    pub fn help(&self) -> String {
        let allowed = format!(
            "{} is a number with {}",
            self.wanted.with_article(),
            self.wanted.allowed_units()
        );
        match &self.remedy {
            Some(remedy) => format!("{remedy}; {allowed}"),
            None => allowed,
        }
    }
}

impl QuantityError {
    /// The problem and the help in one line, for a command line.
    #[must_use]
    pub fn one_line(&self) -> String {
        format!("{self}: {}", self.help())
    }
}

/// The ways in which the text of a quantity can be wrong.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum QuantityProblem {
    /// The text is empty or only spaces.
    #[error("nothing is written here")]
    Empty,
    /// No number stands at the beginning.
    #[error("`{}` does not begin with a number", quoted(.0))]
    NoNumber(String),
    /// Infinity, not-a-number, or a number too large for the machine.
    #[error("`{}` is not a finite number", quoted(.0))]
    NotFinite(String),
    /// A fraction over zero.
    #[error("`{}` divides by zero", quoted(.0))]
    DividesByZero(String),
    /// A comma stands where the decimal point should.
    #[error("`{}` has a decimal comma", quoted(.0))]
    DecimalComma(String),
    /// Groups of digits are set apart.
    #[error("`{}` has a thousands separator", quoted(.0))]
    ThousandsSeparator(String),
    /// One comma with three digits after it: a decimal comma or a thousands separator.
    #[error("`{}` can be read in two ways", quoted(.0))]
    AmbiguousComma(String),
    /// A number without a unit.
    #[error("`{}` has no unit", quoted(.0))]
    MissingUnit(String),
    /// A unit that the table does not hold.
    #[error("`{}` is not a unit of {}", quoted(.unit), .wanted.noun())]
    UnknownUnit {
        /// The unit as written.
        unit: String,
        /// The kind of quantity that was wanted.
        wanted: Dimension,
    },
    /// A unit of another kind.
    #[error("`{}` is a unit of {}, and {} is wanted here", quoted(.unit), .found.noun(), .wanted.with_article())]
    WrongKind {
        /// The unit as written.
        unit: String,
        /// The kind of quantity that this unit measures.
        found: Dimension,
        /// The kind of quantity that was wanted.
        wanted: Dimension,
    },
    /// Two quantities in a row that are not feet and inches.
    #[error("`{}` is more than one quantity", quoted(.0))]
    MoreThanOne(String),
}

/// Whether a character is not seen: a control, or a mark that turns the direction of reading or hides.
pub(crate) fn is_unseen(character: char) -> bool {
    character.is_control()
        || matches!(
            character,
            '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}'
        )
}

/// The text, cut short if it is long, without line breaks.
pub(crate) fn quoted(text: &str) -> String {
    let plain: String = text
        .chars()
        .map(|character| if is_unseen(character) { ' ' } else { character })
        .take(QUOTED_CHARACTERS + 1)
        .collect();
    if plain.chars().count() > QUOTED_CHARACTERS {
        let start: String = plain.chars().take(QUOTED_CHARACTERS).collect();
        format!("{start}...")
    } else {
        plain
    }
}
