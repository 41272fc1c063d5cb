//! The headings of a table of boats: which key of the boat file each names, and in which unit.

use super::Wrong;
use super::cell::{Cell, Column, ColumnKind, Value};
use crate::boat::keys::{ASKED, TABLES};
use crate::boat::{Fault, Measure, row_of, without_positions};
use crate::schema::{Kind, Misread, Row, most};
use crate::spelling::nearest;
use crate::units::quoted;

/// Key of the stations, which stand in a file beside the boat file.
const STATIONS: &str = "hull.stations";
/// Key of a speed that a row asks about.
pub(super) const SPEED: &str = "run.speed";
/// Key of a deflection that a row asks about.
pub(super) const DEFLECTION: &str = "run.deflection";

/// One heading.
#[derive(Clone, Debug)]
pub(super) struct Heading {
    /// As it stands in the table.
    pub text: String,
    /// What its values are for.
    pub used: Use,
    /// The unit of bare numbers.
    unit: Option<String>,
    /// Whether its values stand beside the answers.
    pub is_kept: bool,
}

/// What the values of a column are for.
#[derive(Clone, Debug)]
pub(super) enum Use {
    /// A key of the boat file, places in lists counted from nought.
    Key { key: String, row: &'static Row },
    /// The speed asked about.
    Speed,
    /// The deflection asked about.
    Deflection,
    /// Only to be kept.
    Nothing,
}

/// All headings, checked.
pub(super) fn headings(texts: &[String], keep: &[String]) -> Result<Vec<Heading>, Fault> {
    if let Some(lost) = keep.iter().find(|name| !texts.iter().any(|text| is_named(text, name))) {
        let near = nearest(lost, texts.iter().map(String::as_str));
        let near = near.map_or_else(String::new, |(near, _)| format!("did you mean `{near}`? "));
        return Err(Fault {
            key: "run.keep".to_owned(),
            problem: format!("the table has no column `{}`", quoted(lost)),
            remedy: format!("{near}name a column as its heading has it"),
        });
    }
    let mut all: Vec<Heading> = Vec::new();
    for text in texts {
        let is_kept = keep.iter().any(|name| is_named(text, name));
        let heading = Heading::of(text, is_kept)?;
        let key = heading.key();
        if key.is_some() && all.iter().any(|other| other.key() == key) {
            return Err(wrong(text, "is there twice", "delete one of the two columns"));
        }
        all.push(heading);
    }
    Ok(all)
}

/// Whether a heading is meant: as it stands, or without its unit.
fn is_named(heading: &str, name: &str) -> bool {
    heading == name || split(heading).0 == name.trim()
}

/// A heading without its unit, and the unit in brackets at its end.
fn split(heading: &str) -> (&str, Option<&str>) {
    let heading = heading.trim();
    let unit = [('[', ']'), ('(', ')')].into_iter().find_map(|(open, close)| {
        heading.strip_suffix(close).and_then(|rest| rest.rsplit_once(open))
    });
    match unit {
        Some((name, unit)) => (name.trim(), Some(unit.trim())),
        None => (heading, None),
    }
}

fn wrong(heading: &str, problem: &str, remedy: &str) -> Fault {
    Fault {
        key: "table".to_owned(),
        problem: format!("the column `{}` {problem}", quoted(heading)),
        remedy: remedy.to_owned(),
    }
}

impl Heading {
    fn of(text: &str, is_kept: bool) -> Result<Self, Fault> {
        let (name, unit) = split(text);
        let used = match (used(text, name), is_kept) {
            (Ok(used), _) => used,
            (Err(_), true) => Use::Nothing,
            (Err(fault), false) => return Err(fault),
        };
        let heading = Self { text: text.to_owned(), used, unit: None, is_kept };
        let (Some(unit), Some(kind)) = (unit, heading.value_kind()) else { return Ok(heading) };
        match kind {
            Kind::Quantity(_) | Kind::QuantityOr(..) => match kind.read(&format!("1 {unit}")) {
                Err(Misread::Quantity(error)) => {
                    let problem = format!("has no unit that fits: {error}");
                    Err(wrong(text, &problem, &error.help()))
                }
                _ => Ok(Self { unit: Some(unit.to_owned()), ..heading }),
            },
            _ => Err(wrong(text, "has a unit, and its values have none", "write it without")),
        }
    }

    /// The key that its values are of.
    fn key(&self) -> Option<&str> {
        match &self.used {
            Use::Key { key, .. } => Some(key),
            Use::Speed => Some(SPEED),
            Use::Deflection => Some(DEFLECTION),
            Use::Nothing => None,
        }
    }

    fn value_kind(&self) -> Option<Kind> {
        match &self.used {
            Use::Key { row, .. } => Some(row.kind),
            Use::Speed | Use::Deflection => row_of(self.key()?).map(|row| row.kind),
            Use::Nothing => None,
        }
    }

    /// Whether its column says the same of every row: numbers where a unit is in the head.
    fn kind(&self) -> ColumnKind {
        let is_number = self.unit.is_some() || matches!(self.value_kind(), Some(Kind::Number));
        if is_number { ColumnKind::Number } else { ColumnKind::Text }
    }

    /// Its column beside the answers.
    pub fn column(&self) -> Column {
        Column {
            name: self.text.clone(),
            key: split(&self.text).0.to_owned(),
            unit: self.unit.clone().unwrap_or_default(),
            kind: self.kind(),
        }
    }

    /// A value as the boat file would have it; none where the row leaves it out.
    pub fn written(&self, value: &Value) -> Option<String> {
        match (value, &self.unit) {
            (Value::Empty, _) => None,
            // Data frames have it for what is not known.
            (Value::Number(number), _) if number.is_nan() => None,
            (Value::Number(number), Some(unit)) => Some(format!("{number} {unit}")),
            (Value::Number(number), None) => Some(number.to_string()),
            (Value::Text(text), _) if text.trim().is_empty() => None,
            (Value::Text(text), Some(unit)) if is_bare(text) => Some(format!("{text} {unit}")),
            (Value::Text(text), _) => Some(text.trim().to_owned()),
        }
    }

    /// A value as it stands beside the answers.
    pub fn kept(&self, value: &Value) -> Cell {
        let text = match value {
            Value::Text(text) if text.trim().is_empty() => return Cell::Empty,
            Value::Empty => return Cell::Empty,
            Value::Number(number) if number.is_nan() || self.kind() == ColumnKind::Number => {
                return Cell::number(Some(*number));
            }
            Value::Number(number) => return Cell::Text(number.to_string().into()),
            Value::Text(text) => text.trim(),
        };
        match (self.kind(), text.parse()) {
            (ColumnKind::Number, Ok(number)) => Cell::Number(number),
            // A number with a unit of its own, among those that have that of the head.
            (ColumnKind::Number, Err(_)) => Cell::number(self.in_unit_of_head(text)),
            _ => Cell::Text(text.to_owned().into()),
        }
    }

    fn in_unit_of_head(&self, text: &str) -> Option<f64> {
        let kind = self.value_kind()?;
        let (unit, si) = (self.unit.as_ref()?, kind.read(text).ok()?);
        let [zero, one] =
            [0, 1].map(|number| kind.read(&format!("{number} {unit}")).unwrap_or(f64::NAN));
        Some((si - zero) / (one - zero))
    }

    /// A speed or deflection that a row asks about.
    pub fn asked<Q: TryFrom<Measure>>(&self, text: &str) -> Result<Q, Wrong> {
        let key = self.key().unwrap_or_default();
        let kind = self.value_kind().unwrap_or(Kind::Text);
        let (said, cure) = match kind.read(text).map(|number| Measure::of(kind, number).try_into())
        {
            Ok(Ok(asked)) => return Ok(asked),
            Err(Misread::Quantity(error)) => (error.to_string(), error.help()),
            _ => (
                format!("`{}` is no quantity", quoted(text)),
                "write a number with its unit".to_owned(),
            ),
        };
        Err(Wrong { fault: format!("{key}: {said}"), cure })
    }
}

/// Whether a text is a number without a unit.
fn is_bare(text: &str) -> bool {
    !text.contains(|c: char| c.is_alphabetic() || "'\"”’″′°%".contains(c)) || {
        // 1.19e-6 has a letter, and is a number all the same.
        text.trim().parse::<f64>().is_ok()
    }
}

/// What a heading without its unit is for.
fn used(heading: &str, name: &str) -> Result<Use, Fault> {
    match name {
        SPEED => return Ok(Use::Speed),
        DEFLECTION => return Ok(Use::Deflection),
        STATIONS => {
            return Err(wrong(
                heading,
                "names a file for each boat, which a table cannot",
                "name the stations in the boat file given with --boat (in Python boat=), or give hull.chine_beam and hull.deadrise",
            ));
        }
        _ => {}
    }
    let plain = without_positions(name);
    let table = plain.rsplit_once('.').map_or("", |(table, _)| table);
    let known = TABLES.iter().find(|known| known.name == table);
    let Some((table, row)) = known.and_then(|known| Some((known, row_of(&plain)?))) else {
        return Err(unknown(heading, &plain));
    };
    if table.name == ASKED.name {
        return Err(unknown(heading, &plain));
    }
    if table.name.starts_with("condition") {
        let cure = "a row is one loading: write its weights, and each loading on a row of its own";
        return Err(wrong(heading, "is of another loading condition", cure));
    }
    let key = if table.list { entry(heading, name, table.name, row.name)? } else { plain };
    Ok(Use::Key { key, row })
}

/// The key of an entry of a list, which people count from one: `load[1].mass`.
fn entry(heading: &str, name: &str, table: &str, key: &str) -> Result<String, Fault> {
    let within = name.strip_prefix(table).and_then(|rest| rest.strip_prefix('['));
    let place = within.and_then(|rest| rest.split_once(']')?.0.trim().parse::<usize>().ok());
    let most = most::most_of(table).map_or(100, |row| row.most);
    match place {
        Some(place) if (1..=most).contains(&place) => Ok(format!("{table}[{}].{key}", place - 1)),
        _ => {
            let cure = format!("write `{table}[1].{key}` for the first, up to {most}");
            Err(wrong(heading, "does not say which entry of the list it is", &cure))
        }
    }
}

fn unknown(heading: &str, plain: &str) -> Fault {
    let all = TABLES.iter().flat_map(|table| table.keys.iter().map(|row| table.path_of(row)));
    let all: Vec<String> = all.chain([SPEED, DEFLECTION].map(str::to_owned)).collect();
    let near = nearest(plain, all.iter().map(String::as_str)).map_or("", |(near, _)| near);
    let cure = format!(
        "did you mean `{near}`? a column that is only to be kept beside the answers is named in --keep (in Python keep=)"
    );
    wrong(heading, "is no key of a boat file", &cure)
}
