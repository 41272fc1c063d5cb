//! Every column of a trial log: what it holds, its limits, and what is taken when it is left empty.

use crate::listing;
use crate::spelling;
use crate::units::{Dimension, parse_si};

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Free text.
    Text,
    /// A number with a unit, in the cell or in the heading.
    Quantity(Dimension),
    /// A number without a unit.
    Number,
    /// One of these words.
    Choice(&'static [&'static str]),
}

/// One column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Column {
    /// Heading in the file.
    pub name: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// Whether every line must fill it in.
    pub needed: bool,
    /// What is taken when it is left empty.
    pub empty: &'static str,
    /// Least and largest value taken, as they would be written; empty where there is no limit.
    pub limits: (&'static str, &'static str),
    /// A value as it might be written.
    pub example: &'static str,
    /// What it means.
    pub meaning: &'static str,
}

/// Words for the direction of a run.
pub const DIRECTIONS: &[&str] = &["out", "back"];

const fn must(
    name: &'static str,
    kind: Kind,
    limits: (&'static str, &'static str),
    example: &'static str,
    meaning: &'static str,
) -> Column {
    Column { name, kind, needed: true, empty: "", limits, example, meaning }
}

const fn may(
    name: &'static str,
    kind: Kind,
    empty: &'static str,
    limits: (&'static str, &'static str),
    example: &'static str,
    meaning: &'static str,
) -> Column {
    Column { name, kind, needed: false, empty, limits, example, meaning }
}

const SPEED: Kind = Kind::Quantity(Dimension::Speed);
const ANGLE: Kind = Kind::Quantity(Dimension::Angle);
const NO_LIMITS: (&str, &str) = ("", "");
const PLANE_LIMITS: (&str, &str) = ("0 deg", "30 deg");

/// All columns, in the order of the log that comes with the program.
#[rustfmt::skip]
pub const COLUMNS: &[Column] = &[
    must("speed", SPEED, ("0.5 kn", "115 kn"), "18.4 kn", "speed held steady over half a minute"),
    must("trim", ANGLE, ("-5 deg", "25 deg"), "4.6 deg", "running trim of the keel line, bow up positive: the inclinometer was set to zero on the keel line, or the trim at rest was subtracted and the keel's own slope at rest added"),
    may("deflection", ANGLE, "planes up, 0 deg", PLANE_LIMITS, "5 deg", "mean deflection of the planes below the extended bottom line"),
    may("deflection_port", ANGLE, "that in deflection", PLANE_LIMITS, "4 deg", "deflection of the port plane, with deflection_starboard and instead of deflection"),
    may("deflection_starboard", ANGLE, "that in deflection", PLANE_LIMITS, "6 deg", "deflection of the starboard plane"),
    may("power", Kind::Quantity(Dimension::Power), "not measured", ("10 W", "20000 kW"), "142 kW", "shaft power of all engines together"),
    may("fuel", Kind::Quantity(Dimension::VolumeRate), "not measured", ("0.1 L/h", "10000 L/h"), "46 L/h", "fuel flow of all engines together; not used where power is given"),
    may("rpm", Kind::Number, "not measured", ("50", "20000"), "3400", "engine speed; only to tell whether two runs of a pair were made at the same throttle"),
    may("pair", Kind::Text, "a run by itself", NO_LIMITS, "A", "a name shared by runs over the same water in both directions at the same throttle; they are averaged"),
    may("direction", Kind::Choice(DIRECTIONS), "needed with pair", NO_LIMITS, "out", "which way a run of a pair went"),
    may("note", Kind::Text, "nothing", NO_LIMITS, "wake of a ferry", "anything worth remembering; shown beside an outlier"),
];

/// The column of that name.
#[must_use]
pub fn column_of(name: &str) -> Option<&'static Column> {
    COLUMNS.iter().find(|column| column.name == name)
}

/// The column that is spelt most like a heading, and how like it is, 0 to 1.
pub(super) fn nearest(heading: &str) -> (&'static Column, f64) {
    let near = spelling::nearest(heading, COLUMNS.iter().map(|column| column.name));
    near.and_then(|(name, likeness)| Some((column_of(name)?, likeness)))
        .unwrap_or((&COLUMNS[0], 0.0))
}

impl Column {
    fn limit(&self, text: &str) -> Option<f64> {
        match self.kind {
            Kind::Quantity(dimension) => parse_si(text, dimension).ok(),
            _ => text.parse().ok(),
        }
    }

    /// Whether a value, in SI or as the plain number, lies within the limits.
    pub(super) fn admits(&self, value: f64) -> bool {
        let slack = 1e-12 * value.abs();
        self.limit(self.limits.0).is_none_or(|least| value >= least - slack)
            && self.limit(self.limits.1).is_none_or(|most| value <= most + slack)
    }

    /// The limits as text, or what else is allowed.
    #[must_use]
    pub fn allowed(&self) -> String {
        match (self.kind, self.limits) {
            (Kind::Choice(words), _) => words.join(" or "),
            (Kind::Text, _) => "text".to_owned(),
            (_, (least, most)) => format!("{least} to {most}"),
        }
    }

    /// When it must be filled in, and what is taken when it is not.
    #[must_use]
    pub fn when(&self) -> String {
        if self.needed { "always".to_owned() } else { format!("no; left empty: {}", self.empty) }
    }
}

/// Head of the documentation of the columns.
const HEAD: &str = "\
# Columns of a trial log

A trial log is a CSV file in UTF-8, with commas between the columns, one heading line, and one line
for each run. A quantity has its unit in the cell, as in a boat file (`18.4 kn`, `4.6 deg`), or in
the heading for the whole column (`speed (kn)`, `trim (deg)`) with plain numbers below. Decimals
have a point. Lines that begin with `#` are comments. The columns may stand in any order, and those
that are not needed may be left out. A column that is not on this list is named and not used. A log
with a fault in a line is not used at all until the line is corrected or made a comment.

All runs of one log are made with the boat loaded as her file (or the condition asked for) says.
Runs that share a `pair` are averaged: first those of each direction, then the two directions, which
takes a steady current out of the speed and most of the wind out of the rest. A run by itself counts
with a wider error. `planewright trial --how` says how to measure.
";

/// The documentation of the columns, as it stands beside the log that comes with the program.
#[must_use]
pub fn documentation() -> String {
    listing::documentation(
        HEAD,
        COLUMNS.iter().map(|column| {
            let [name, example, meaning] =
                [column.name, column.example, column.meaning].map(str::to_owned);
            [name, column.when(), column.allowed(), example, meaning]
        }),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_examples_and_limits_can_be_read() {
        for column in COLUMNS {
            match column.kind {
                Kind::Choice(words) => assert!(words.contains(&column.example)),
                Kind::Text => {}
                Kind::Quantity(_) | Kind::Number => {
                    for text in [column.limits.0, column.limits.1, column.example] {
                        let value = column.limit(text).expect(column.name);
                        assert!(column.admits(value), "{} {text}", column.name);
                    }
                }
            }
        }
    }

    #[test]
    fn regression_the_columns_are_documented() {
        assert_eq!(include_str!("../../data/trials/COLUMNS.md"), documentation());
    }
}
