//! Every column of a trial log: what it holds, its limits, and what is taken when it is left empty.

use crate::listing;
use crate::schema::Need::{Always, Else};
use crate::schema::{Kind, Limits, Row, row as column};
use crate::units::Dimension;

/// Words for the direction of a run.
pub const DIRECTIONS: &[&str] = &["out", "back"];

const SPEED: Kind = Kind::Quantity(Dimension::Speed);
const ANGLE: Kind = Kind::Quantity(Dimension::Angle);
const PLANE_LIMITS: Limits = Limits::Written("0 deg", "30 deg");

/// All columns, in the order of the log that comes with the program.
#[rustfmt::skip]
pub const COLUMNS: &[Row] = &[
    column("speed", SPEED, Always, Limits::Written("0.5 kn", "115 kn"), "18.4 kn", "speed held steady over half a minute"),
    column("trim", ANGLE, Always, Limits::Written("-5 deg", "25 deg"), "4.6 deg", "running trim of the keel line, bow up positive: the inclinometer was set to zero on the keel line, or the trim at rest was subtracted and the keel's own slope at rest added"),
    column("deflection", ANGLE, Else("planes up, 0 deg"), PLANE_LIMITS, "5 deg", "mean deflection of the planes below the extended bottom line"),
    column("deflection_port", ANGLE, Else("that in deflection"), PLANE_LIMITS, "4 deg", "deflection of the port plane, with deflection_starboard and instead of deflection"),
    column("deflection_starboard", ANGLE, Else("that in deflection"), PLANE_LIMITS, "6 deg", "deflection of the starboard plane"),
    column("power", Kind::Quantity(Dimension::Power), Else("not measured"), Limits::Written("10 W", "20000 kW"), "142 kW", "shaft power of all engines together"),
    column("fuel", Kind::Quantity(Dimension::VolumeRate), Else("not measured"), Limits::Written("0.1 L/h", "10000 L/h"), "46 L/h", "fuel flow of all engines together; not used where power is given"),
    column("rpm", Kind::Number, Else("not measured"), Limits::Written("50", "20000"), "3400", "engine speed; only to tell whether two runs of a pair were made at the same throttle"),
    column("pair", Kind::Text, Else("a run by itself"), Limits::None, "A", "a name shared by runs over the same water in both directions at the same throttle; they are averaged"),
    column("direction", Kind::Choice(DIRECTIONS), Else("needed with pair"), Limits::None, "out", "which way a run of a pair went"),
    column("note", Kind::Text, Else("nothing"), Limits::None, "wake of a ferry", "anything worth remembering; shown beside an outlier"),
];

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
    listing::documentation(HEAD, COLUMNS)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_examples_and_limits_can_be_read() {
        crate::schema::prove(COLUMNS);
    }

    #[test]
    fn regression_the_columns_are_documented() {
        assert_eq!(include_str!("../../data/trials/COLUMNS.md"), documentation());
    }
}
