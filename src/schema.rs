//! Rows: what one key of a boat file, or one column of a list, may hold.
//!
//! A row says everything of its value once: what kind it is, what is taken when it is left out,
//! its limits, an example and its meaning. Reading, the texts of faults, the starter file, the
//! form of the page and the tables of columns all take it from there.

pub mod most;

use crate::spelling;
use crate::units::{Dimension, QuantityError, parse_si};

/// What a value is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Free text.
    Text,
    /// A number with a unit.
    Quantity(Dimension),
    /// A number with a unit, or one of these words for it.
    QuantityOr(Dimension, &'static [&'static str]),
    /// A number with this one unit.
    With(&'static str),
    /// A number without a unit.
    Number,
    /// A whole number.
    Count,
    /// `even`, or a length.
    Spacing,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// A list of any of these words.
    Words(&'static [&'static str]),
    /// A name that the file gives elsewhere, or a list of them.
    Names,
}

/// Why a text is no number of its kind.
#[derive(Debug, Clone, PartialEq)]
pub enum Misread {
    /// It is no quantity with a unit.
    Quantity(QuantityError),
    /// It is no plain number, or not one with its one unit.
    Number,
}

impl Kind {
    /// The number that a text stands for: in SI for a quantity, else as it is written.
    ///
    /// # Errors
    /// If the text is not of this kind; words and names are never numbers.
    pub fn read(self, text: &str) -> Result<f64, Misread> {
        let quantity = |dimension| parse_si(text, dimension).map_err(Misread::Quantity);
        match self {
            Self::Quantity(dimension) | Self::QuantityOr(dimension, _) => quantity(dimension),
            Self::Spacing => quantity(Dimension::Length),
            Self::With(unit) => plain(text.trim().strip_suffix(unit).unwrap_or(text)),
            Self::Number | Self::Count => plain(text),
            Self::Text | Self::Choice(_) | Self::Words(_) | Self::Names => Err(Misread::Number),
        }
    }

    /// The unit in which limits stand that are given as numbers; empty for a plain number.
    #[must_use]
    pub fn unit(self) -> &'static str {
        match self {
            Self::Quantity(dimension) | Self::QuantityOr(dimension, _) => {
                dimension.unit_of_limits()
            }
            Self::With(unit) => unit,
            _ => "",
        }
    }

    /// Whether a value of this kind is a number.
    #[must_use]
    pub const fn is_number(self) -> bool {
        matches!(
            self,
            Self::Quantity(_)
                | Self::QuantityOr(..)
                | Self::With(_)
                | Self::Number
                | Self::Count
                | Self::Spacing
        )
    }
}

/// A finite number without a unit.
pub(crate) fn plain(text: &str) -> Result<f64, Misread> {
    text.trim().parse().ok().filter(|number: &f64| number.is_finite()).ok_or(Misread::Number)
}

/// When a value must be given, and what is taken when it is not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Need {
    /// Always.
    Always,
    /// Where something else is so: `hydraulic`.
    If(&'static str),
    /// Never: this value is taken, and what is to be said of it.
    Default(&'static str, &'static str),
    /// Never: what is done instead.
    Else(&'static str),
}

/// What a value must lie within.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Limits {
    /// Anything.
    None,
    /// Least and largest value taken, as they would be written.
    Written(&'static str, &'static str),
    /// Numbers in the unit of the kind.
    Range {
        /// Smallest and largest value taken.
        hard: (f64, f64),
        /// What is usual; outside it the value is taken with a warning.
        usual: (f64, f64),
    },
}

/// One value that a file may give.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// Its name in the file.
    pub name: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// When it must be given.
    pub need: Need,
    /// What it must lie within.
    pub limits: Limits,
    /// A value as it might be written.
    pub example: &'static str,
    /// What it means.
    pub meaning: &'static str,
}

/// A row, in the order in which its table reads.
pub(crate) const fn row(
    name: &'static str,
    kind: Kind,
    need: Need,
    limits: Limits,
    example: &'static str,
    meaning: &'static str,
) -> Row {
    Row { name, kind, need, limits, example, meaning }
}

impl Row {
    /// Whether a file is incomplete without it.
    #[must_use]
    pub fn is_needed(&self) -> bool {
        self.need == Need::Always
    }

    /// What happens when it is left out, beginning with the value taken where there is one.
    #[must_use]
    pub fn absent(&self) -> String {
        match self.need {
            Need::Always | Need::If(_) => String::new(),
            Need::Default(value, remark) => format!("{value}{remark}"),
            Need::Else(instead) => instead.to_owned(),
        }
    }

    /// The number that is taken when it is left out, as [`Kind::read`] gives it.
    #[must_use]
    pub fn default(&self) -> Option<f64> {
        match self.need {
            Need::Default(value, _) => self.kind.read(value).ok(),
            _ => None,
        }
    }

    /// Whether a number, as [`Kind::read`] gives it, lies within limits that are written.
    #[must_use]
    pub fn admits(&self, value: f64) -> bool {
        let Limits::Written(least, most) = self.limits else { return true };
        let limit = |text: &str| self.kind.read(text).ok();
        let slack = 1e-12 * value.abs();
        limit(least).is_none_or(|least| value >= least - slack)
            && limit(most).is_none_or(|most| value <= most + slack)
    }

    /// The limits as text, or what else is allowed.
    #[must_use]
    pub fn allowed(&self) -> String {
        match (self.kind, self.limits) {
            (Kind::Choice(words) | Kind::Words(words), _) => words.join(" or "),
            (Kind::Spacing, Limits::Written(least, most)) => format!("even, or {least} to {most}"),
            (Kind::With(unit), Limits::Written(least, most)) => format!("{least} to {most} {unit}"),
            (_, Limits::Written(least, most)) => format!("{least} to {most}"),
            (Kind::QuantityOr(_, words), Limits::Range { hard, .. }) => {
                format!("{}, or {}", range_text(hard, self.kind.unit()), words.join(" or "))
            }
            (kind, Limits::Range { hard, .. }) => range_text(hard, kind.unit()),
            (_, Limits::None) => "text".to_owned(),
        }
    }

    /// When it must be filled in, and what is taken when it is not.
    #[must_use]
    pub fn when(&self) -> String {
        match self.need {
            Need::Always => "always".to_owned(),
            Need::If(so) => format!("if {so}"),
            Need::Default(..) | Need::Else(_) => format!("no; left empty: {}", self.absent()),
        }
    }

    /// What to write instead of a wrong value.
    #[must_use]
    pub fn write_instead(&self) -> String {
        format!("write for example {} ({})", self.example, self.meaning)
    }
}

/// `0 to 40 deg`.
pub(crate) fn range_text((low, high): (f64, f64), unit: &str) -> String {
    let [low, high] = [low, high].map(crate::units::plain_number);
    format!("{low} to {high} {unit}").trim_end().to_owned()
}

/// The row of that name.
#[must_use]
pub fn named(rows: &'static [Row], name: &str) -> Option<&'static Row> {
    rows.iter().find(|row| row.name == name)
}

/// The row that is spelt most like a name, and how like it is, 0 to 1.
pub(crate) fn nearest(rows: &'static [Row], name: &str) -> (&'static Row, f64) {
    let near = spelling::nearest(name, rows.iter().map(|row| row.name));
    near.and_then(|(name, likeness)| Some((named(rows, name)?, likeness)))
        .unwrap_or((&rows[0], 0.0))
}

/// Proves of every row that its example, its limits and what is taken for it can be read, and lie within the limits.
#[cfg(test)]
pub(crate) fn prove(rows: &[Row]) {
    for row in rows {
        assert!(!row.meaning.is_empty() && !row.example.is_empty(), "{}", row.name);
        match row.kind {
            Kind::Choice(words) | Kind::Words(words) => {
                assert!(words.contains(&row.example), "{}", row.name);
            }
            Kind::Spacing => assert!(row.example == "even"),
            kind if kind.is_number() => {
                let example = kind.read(row.example).expect(row.name);
                assert!(row.admits(example), "{}", row.name);
            }
            _ => assert!(row.limits == Limits::None, "{}", row.name),
        }
        if let Limits::Written(least, most) = row.limits {
            let [least, most] = [least, most].map(|limit| row.kind.read(limit).expect(row.name));
            assert!(least < most && row.admits(least) && row.admits(most), "{}", row.name);
            assert!(!row.admits(least - 1e-9 - 1e-3 * least.abs()), "{}", row.name);
            assert!(!row.admits(most * 1.001), "{}", row.name);
        }
        if let Need::Default(value, _) = row.need {
            match row.kind {
                Kind::Choice(words) => assert!(words.contains(&value), "{}", row.name),
                Kind::Spacing => assert_eq!(value, "even"),
                _ => assert!(row.admits(row.default().expect(row.name)), "{}", row.name),
            }
        }
    }
}
