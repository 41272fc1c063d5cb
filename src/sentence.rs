//! A sentence as the pieces it is made of, so that whoever shows it need not read it first.

use std::borrow::Cow;
use std::fmt;

pub mod duty;
pub mod glossary;
pub(crate) mod quantity;
mod terminal;

pub use terminal::spoken;

/// One piece of a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Piece {
    /// Words, shown as they are.
    Text(Cow<'static, str>),
    /// A number with its unit.
    Quantity {
        /// The number, already written.
        number: String,
        /// Symbol of the unit, as an input file has it: `deg`, `m^2`.
        unit: &'static str,
    },
    /// Two numbers of one unit, from the lower to the higher.
    Range {
        /// Both, already written.
        ends: [String; 2],
        /// Symbol of the unit.
        unit: &'static str,
    },
    /// A name that somebody gave, or a word to be typed.
    Name(String),
    /// Words of others written for a terminal, e.g. of an error: they are read again for a page.
    Terminal(String),
}

/// Pieces in reading order. [`Display`](fmt::Display) writes them for a terminal, [`on_page`](Self::on_page) for a page.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sentence(Vec<Piece>);

/// A sentence of pieces: `said!["at ", speed, " it needs ", angle]`.
macro_rules! said {
    ($($piece:expr),* $(,)?) => {{
        #[allow(unused_mut)]
        let mut sentence = $crate::sentence::Sentence::default();
        $(sentence.add($piece);)*
        sentence
    }};
}
pub(crate) use said;

impl Piece {
    /// A number with its unit.
    #[must_use]
    pub const fn quantity(number: String, unit: &'static str) -> Self {
        Self::Quantity { number, unit }
    }

    /// A name that somebody gave, or a word to be typed.
    #[must_use]
    pub fn name(name: impl Into<String>) -> Self {
        Self::Name(name.into())
    }

    /// Words of others written for a terminal.
    pub(crate) fn terminal(words: impl fmt::Display) -> Self {
        Self::Terminal(words.to_string())
    }

    /// As it stands on a page.
    fn on_page(&self) -> Cow<'_, str> {
        match self {
            Self::Text(text) => Cow::Borrowed(text),
            Self::Quantity { number, unit } => format!("{number}{}", unit_on_page(unit)).into(),
            Self::Range { ends: [low, high], unit } => {
                format!("{low} to {high}{}", unit_on_page(unit)).into()
            }
            Self::Name(name) => format!("\u{201c}{name}\u{201d}").into(),
            Self::Terminal(words) => spoken(words).into(),
        }
    }
}

/// A unit behind its number as it stands on a page: `°` close to it, `m²` apart.
fn unit_on_page(unit: &str) -> String {
    match unit {
        "" => String::new(),
        "deg" => "°".to_owned(),
        other => format!(" {}", other.replace("^2", "²")),
    }
}

/// A unit behind its number on a terminal.
fn spaced(unit: &str) -> [&str; 2] {
    [if unit.is_empty() { "" } else { " " }, unit]
}

impl fmt::Display for Piece {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Text(text) => f.write_str(text),
            Self::Terminal(words) => f.write_str(words),
            Self::Quantity { number, unit } => {
                let [space, unit] = spaced(unit);
                write!(f, "{number}{space}{unit}")
            }
            Self::Range { ends: [low, high], unit } => {
                let [space, unit] = spaced(unit);
                write!(f, "{low}..{high}{space}{unit}")
            }
            Self::Name(name) => write!(f, "`{name}`"),
        }
    }
}

impl fmt::Display for Sentence {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|piece| piece.fmt(f))
    }
}

impl Sentence {
    /// Adds a piece, or all pieces of another sentence.
    pub fn add(&mut self, more: impl Into<Self>) {
        self.0.extend(more.into().0);
    }

    /// Whether it says nothing.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// As it stands on a page: names in quotation marks, `6.5°`, `m²`, `3 to 7`.
    #[must_use]
    pub fn on_page(&self) -> String {
        self.0.iter().map(Piece::on_page).collect()
    }

    /// The same with a capital letter at its beginning, where that is a word.
    #[must_use]
    pub fn capital(mut self) -> Self {
        if let Some(Piece::Text(text)) = self.0.first_mut() {
            let mut letters = text.chars();
            let first = letters.next().into_iter().flat_map(char::to_uppercase);
            *text = Cow::Owned(first.chain(letters).collect());
        }
        self
    }

    /// Several as one, with the same words between any two of them.
    #[must_use]
    pub fn joined(all: impl IntoIterator<Item = Self>, between: &'static str) -> Self {
        let mut joined = Self::default();
        for one in all {
            if !joined.is_empty() {
                joined.add(between);
            }
            joined.add(one);
        }
        joined
    }
}

impl From<Piece> for Sentence {
    fn from(piece: Piece) -> Self {
        Self(vec![piece])
    }
}

impl From<&'static str> for Sentence {
    fn from(text: &'static str) -> Self {
        if text.is_empty() { Self::default() } else { Piece::Text(text.into()).into() }
    }
}

impl From<String> for Sentence {
    fn from(text: String) -> Self {
        if text.is_empty() { Self::default() } else { Piece::Text(text.into()).into() }
    }
}

impl<P: Into<Self>> From<Option<P>> for Sentence {
    fn from(piece: Option<P>) -> Self {
        piece.map_or_else(Self::default, Into::into)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn quantity(number: &str, unit: &'static str) -> Piece {
        Piece::quantity(number.to_owned(), unit)
    }

    fn range(low: &str, high: &str, unit: &'static str) -> Piece {
        Piece::Range { ends: [low.to_owned(), high.to_owned()], unit }
    }

    #[test]
    fn regression_each_reader_sees_the_pieces_as_people_write_them() {
        for (said, terminal, page) in [
            (
                said!["in ", Piece::name("light"), ", at ", quantity("6.5", "deg")],
                "in `light`, at 6.5 deg",
                "in “light”, at 6.5°",
            ),
            (
                said![range("3.4", "6.8", "deg"), " under"],
                "3.4..6.8 deg under",
                "3.4 to 6.8° under",
            ),
            (said![quantity("0.426", "m^2"), "."], "0.426 m^2.", "0.426 m²."),
            (said!["at ", quantity("18", "mph")], "at 18 mph", "at 18 mph"),
            (said![quantity("3", "")], "3", "3"),
            (
                said!["no: ", Piece::terminal("`x` is under 2 deg")],
                "no: `x` is under 2 deg",
                "no: “x” is under 2°",
            ),
            (said!["", None::<Piece>], "", ""),
        ] {
            assert_eq!(said.to_string(), terminal);
            assert_eq!(said.on_page(), page);
        }
    }

    #[test]
    fn regression_what_a_name_holds_is_never_read() {
        let said = said!["loaded ", Piece::name("5 deg, 2..3 `m^2`")];
        assert_eq!(said.on_page(), "loaded “5 deg, 2..3 `m^2`”");
        assert_eq!(said.to_string(), "loaded `5 deg, 2..3 `m^2``");
    }

    #[test]
    fn regression_sentences_join_and_begin_with_a_capital() {
        let parts = [said!["at ", quantity("5", "kn")], said![quantity("6", "kn"), " too"]];
        let joined = Sentence::joined(parts, "; and ").capital();
        assert_eq!(joined.to_string(), "At 5 kn; and 6 kn too");
        assert_eq!(Sentence::from("über").capital().to_string(), "Über");
        assert!(Sentence::joined([], "; ").is_empty());
        let begins = Sentence::from(quantity("3", "deg"));
        assert_eq!(begins.clone().capital(), begins);
    }
}
