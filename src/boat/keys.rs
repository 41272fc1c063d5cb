//! The one table of what a boat file may say: for each key what it holds, whether it is needed and
//! what is taken when it is left out, its limits, an example and its meaning.
//!
//! The reader, every range error and 'unusual value' warning, the starter file and the form of the
//! page all come from here. The hard limits admit tank models as well as 40 m craft; the usual
//! range is common practice, no source.

mod tables;

use super::bounds::without_positions;
use super::measure::Measure;
use crate::schema::{self, Kind, Limits, Need, Row};
pub use tables::{ASKED, DRIVE_KINDS, ROTATIONS, SIDES, TABLES, WATER_KINDS};

/// One table, or list of tables, of a boat file.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Table {
    /// Name in the file; empty for the keys above the first table.
    pub name: &'static str,
    /// Whether it may be given many times, as `[[name]]`.
    pub list: bool,
    /// What it is for.
    pub about: &'static str,
    /// Whether the starter file holds it (otherwise it stands there as a comment).
    pub starter: bool,
    /// Keys beside the needed ones that the starter file gives a value (others stand there as a comment).
    pub shown: &'static [&'static str],
    /// Its keys.
    pub keys: &'static [Row],
}

/// A number with limits in the unit of its kind.
pub(super) const fn quantity(
    name: &'static str,
    kind: Kind,
    need: Need,
    hard: (f64, f64),
    usual: (f64, f64),
    example: &'static str,
    meaning: &'static str,
) -> Row {
    Row { name, kind, need, limits: Limits::Range { hard, usual }, example, meaning }
}

/// Words or a text.
pub(super) const fn text(
    name: &'static str,
    kind: Kind,
    need: Need,
    example: &'static str,
    meaning: &'static str,
) -> Row {
    Row { name, kind, need, limits: Limits::None, example, meaning }
}

/// The table of that name.
#[must_use]
pub fn table(name: &str) -> Option<&'static Table> {
    TABLES.iter().find(|table| table.name == name)
}

/// The row of a key; list positions such as `load[2].mass` are looked up as `load.mass`, and what is asked stands below `run`.
#[must_use]
pub fn row_of(key: &str) -> Option<&'static Row> {
    let plain = without_positions(key);
    let (name, key) = plain.rsplit_once('.').unwrap_or(("", &plain));
    let table = if name == ASKED.name { Some(&ASKED) } else { table(name) };
    table?.key(key)
}

/// What is given for a key, or else the value that its row says is taken.
///
/// # Panics
/// If the row has no such value, or not of that kind: only rows are asked that have one.
pub(crate) fn or_default<Q: TryFrom<Measure>>(given: Option<Q>, key: &str) -> Q {
    let own = || {
        let row = row_of(key)?;
        Measure::of(row.kind, row.default()?).try_into().ok()
    };
    given.or_else(own).unwrap_or_else(|| panic!("the row of {key} names no value of its kind"))
}

impl Table {
    /// The key of that name.
    #[must_use]
    pub fn key(&self, name: &str) -> Option<&'static Row> {
        schema::named(self.keys, name)
    }

    /// Its header as written in a file: `[hull]`, `[[load]]`.
    #[must_use]
    pub fn header(&self) -> String {
        match (self.name, self.list) {
            ("", _) => String::new(),
            (name, false) => format!("[{name}]"),
            (name, true) => format!("[[{name}]]"),
        }
    }

    /// The key with its table: `hull.deadrise`, or `name` at the top.
    #[must_use]
    pub fn path_of(&self, key: &Row) -> String {
        match self.name {
            "" => key.name.to_owned(),
            name => format!("{name}.{}", key.name),
        }
    }

    /// Whether the starter file gives a key a value.
    #[must_use]
    pub fn shows(&self, key: &Row) -> bool {
        key.is_needed() || self.shown.contains(&key.name)
    }
}

/// A key with a value as it might be typed: `chine_beam = "2.25 m"`.
#[must_use]
pub fn example_line(key: &Row) -> String {
    let (name, value) = (key.name, key.example);
    match key.kind {
        Kind::Number | Kind::Count => format!("{name} = {value}"),
        Kind::Words(_) | Kind::Names => format!("{name} = [\"{value}\"]"),
        _ => format!("{name} = \"{value}\""),
    }
}

#[cfg(test)]
#[path = "keys_tests.rs"]
mod tests;
