//! The tables of an answer, found in its JSON: each list of objects is one, named by the keys that lead to it.
//!
//! An object in a row becomes columns of its own, `planes_up_trim_deg`; two ends of a range become
//! `…_low` and `…_high`; words stand in one cell, apart by spaces. What is a list of objects again is
//! a table of its own, whose rows name the row that they belong to.

use std::io;

use serde_json::{Map, Value};

use super::rows::written;
use crate::field::{Quantity, unit_ending};
use crate::listing::as_text;
use crate::units::UnitChoice;

/// The one row of what stands in no list.
const ANSWER: &str = "answer";
/// Key of the loading conditions, and the column that names one.
const CONDITION: [&str; 2] = ["conditions", "condition"];
/// Flags of a number.
const FLAGS: &str = "flags";
/// What repeats some of the flags beside it.
const AMONG_FLAGS: [&str; 2] = ["danger", "untested"];
/// The planes that the answer is about.
const PLANES: &str = "planes";
/// How keys end that explain the words of the answer.
const MEANINGS: &str = "_meanings";

/// A table: names of its columns with what each is a quantity of, and its rows.
pub(super) struct Table {
    /// Keys that lead to it, with points between them.
    pub name: String,
    rows: Vec<Row>,
}

/// Cells by the name of their column, in order.
type Row = Vec<(Name, Value)>;

/// Name of a column in SI.
#[derive(Clone, Debug, Default, PartialEq)]
struct Name {
    before: String,
    /// The part that names a unit, as in the JSON.
    key: String,
    after: String,
}

/// What the rows of a list inherit from what it stands in.
#[derive(Clone, Default)]
struct Above {
    /// Which rows of other lists it stands in.
    which: Row,
    /// The flags nearest to it.
    flags: Option<Value>,
    /// The planes of the answer.
    planes: Row,
}

impl Name {
    fn of(key: &str) -> Self {
        Self { key: key.to_owned(), ..Self::default() }
    }

    /// The name of what stands below this one.
    fn below(&self, key: &str) -> Self {
        let has_unit = |name: &str| unit_ending(name).is_some() || name.ends_with("_deg");
        if has_unit(key) || !has_unit(&self.key) {
            Self { before: format!("{self}_"), key: key.to_owned(), after: String::new() }
        } else {
            Self { after: format!("{}_{key}", self.after), ..self.clone() }
        }
    }

    /// The same in units, with the quantity that its numbers must be converted as.
    fn in_units(&self, units: Option<UnitChoice>) -> (String, Option<Quantity>) {
        let Some((units, (name, quantity))) = units.zip(unit_ending(&self.key)) else {
            return (self.to_string(), None);
        };
        let Self { before, after, .. } = self;
        (format!("{before}{name}_{}{after}", quantity.name_ending(units)), Some(quantity))
    }
}

impl std::fmt::Display for Name {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}{}{}", self.before, self.key, self.after)
    }
}

/// Every table of an answer, in its order, and before them what stands in no list.
pub(super) fn tables(answer: &Value) -> Vec<Table> {
    let Value::Object(fields) = answer else { return Vec::new() };
    let mut own = Row::new();
    if let Some(planes) = fields.get(PLANES) {
        cells(&Name::of(PLANES), planes, &mut own);
    }
    let above = Above { planes: own, ..Above::default() };
    let mut tables =
        vec![Table { name: ANSWER.to_owned(), rows: vec![row(fields, &Above::default())] }];
    find(fields, "", &above, &mut tables);
    tables
}

/// Adds the tables below an object.
fn find(fields: &Map<String, Value>, path: &str, above: &Above, tables: &mut Vec<Table>) {
    let mut above = above.clone();
    if let Some(flags) = fields.get(FLAGS) {
        above.flags = Some(flags.clone());
    }
    for (key, value) in fields {
        let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
        match value {
            Value::Object(fields) => find(fields, &path, &above, tables),
            Value::Array(_) => {
                for one in objects(value) {
                    add(tables, &path, row(one, &above));
                    let mut below = above.clone();
                    below.which.extend(identity(key, one, &above.which));
                    find(one, &path, &below, tables);
                }
            }
            _ => {}
        }
    }
}

/// Adds a row to the table of a name, which stands at the place of its first row.
fn add(tables: &mut Vec<Table>, name: &str, row: Row) {
    match tables.iter_mut().find(|table| table.name == name) {
        Some(table) => table.rows.push(row),
        None => tables.push(Table { name: name.to_owned(), rows: vec![row] }),
    }
}

/// The objects of a list of objects.
fn objects(list: &Value) -> impl Iterator<Item = &Map<String, Value>> {
    list.as_array().into_iter().flatten().filter_map(Value::as_object)
}

/// What names a row to the rows of the lists in it: what stands first in it, with what stands second
/// where the first is a number, and its loading condition.
fn identity(list: &str, one: &Map<String, Value>, taken: &Row) -> Row {
    let mut found = Row::new();
    let is_taken = |name: &str| taken.iter().any(|(other, _)| other.to_string() == name);
    let second = usize::from(one.values().next().is_some_and(Value::is_number));
    for (place, (key, value)) in one.iter().enumerate() {
        if place > second && key != CONDITION[1] {
            continue;
        }
        let name = match [list, key.as_str()] {
            [list, "name"] if list == CONDITION[0] => Name::of(CONDITION[1]),
            _ if value.is_object() || key == "name" || is_taken(key) => Name::of(list).below(key),
            _ => Name::of(key),
        };
        cells(&name, value, &mut found);
    }
    found
}

/// One row: the cells of an object, the planes, its flags or those of what it stands in, and which row that is.
fn row(fields: &Map<String, Value>, above: &Above) -> Row {
    let mut row = Row::new();
    let has_flags = fields.contains_key(FLAGS);
    for (key, value) in fields {
        let repeats = has_flags && AMONG_FLAGS.contains(&key.as_str());
        if key != FLAGS && !repeats && !key.ends_with(MEANINGS) {
            cells(&Name::of(key), value, &mut row);
        }
    }
    let inner = row.iter().any(|(name, _)| name.key == FLAGS);
    let flags = fields.get(FLAGS).or_else(|| above.flags.as_ref().filter(|_| !inner));
    let flags = flags.map(|flags| (Name::of(FLAGS), flags.clone()));
    for (name, value) in above.planes.iter().cloned().chain(flags).chain(above.which.clone()) {
        // A row that says itself where it belongs, and whose size it is, is not told again.
        if row.iter().all(|(own, _)| *own != name) {
            row.push((name, value));
        }
    }
    row
}

/// The cells of a value under a name; none for a list of objects.
fn cells(name: &Name, value: &Value, row: &mut Row) {
    match value {
        Value::Object(fields) => {
            let has_flags = fields.contains_key(FLAGS);
            for (key, value) in fields {
                if !(has_flags && AMONG_FLAGS.contains(&key.as_str())) {
                    cells(&name.below(key), value, row);
                }
            }
        }
        Value::Array(list) => {
            if let Some([low, high]) = ends(&name.key, list) {
                for (end, value) in [("low", low), ("high", high)] {
                    let after = format!("{}_{end}", name.after);
                    row.push((Name { after, ..name.clone() }, value.clone()));
                }
            } else if !list.iter().any(Value::is_object) {
                row.push((name.clone(), value.clone()));
            }
        }
        _ => row.push((name.clone(), value.clone())),
    }
}

/// The two ends of a range: numbers that are no counts and belong to no list of `each`.
fn ends<'a>(key: &str, list: &'a [Value]) -> Option<[&'a Value; 2]> {
    match list {
        [low, high] if [low, high].iter().all(|end| end.is_f64()) && !key.starts_with("each_") => {
            Some([low, high])
        }
        _ => None,
    }
}

impl Table {
    /// It as text, in the units asked for, else in SI.
    pub(super) fn text(&self, units: Option<UnitChoice>) -> Result<String, io::Error> {
        let columns = self.columns();
        let (head, quantities): (Vec<_>, Vec<_>) =
            columns.iter().map(|name| name.in_units(units)).unzip();
        let cell = |row: &Row, place: usize| {
            let value = row.iter().find(|(name, _)| name == columns[place]).map(|(_, value)| value);
            let quantity = quantities[place].zip(units);
            value.map_or_else(String::new, |value| shown(value, quantity))
        };
        let row = |row: &Row| (0..columns.len()).map(|place| cell(row, place)).collect();
        written(&head, self.rows.iter().map(row))
    }

    /// Names of the columns that any row has, each behind the one that it follows there. One that is
    /// empty where it stands by itself and has parts elsewhere is those parts.
    fn columns(&self) -> Vec<&Name> {
        let mut columns: Vec<&Name> = Vec::new();
        for row in &self.rows {
            let mut place = 0;
            for (name, _) in row {
                match columns.iter().position(|known| *known == name) {
                    Some(found) => place = found + 1,
                    None => {
                        columns.insert(place, name);
                        place += 1;
                    }
                }
            }
        }
        let names: Vec<String> = columns.iter().map(ToString::to_string).collect();
        let is_whole = |name: &Name| {
            let parts = format!("{name}_");
            let is_empty = self.rows.iter().flatten().all(|(own, v)| own != name || v.is_null());
            is_empty && names.iter().any(|other| other.starts_with(&parts))
        };
        columns.retain(|name| !is_whole(name));
        columns
    }
}

/// A cell: numbers as in JSON or in a unit, words of a list apart by spaces, texts safe from a spreadsheet.
fn shown(value: &Value, quantity: Option<(Quantity, UnitChoice)>) -> String {
    match value {
        Value::Null => String::new(),
        Value::String(text) => as_text(text),
        Value::Array(list) => {
            let apart = if list.iter().any(is_sentence) { "; " } else { " " };
            let all: Vec<String> = list.iter().map(|one| shown(one, quantity)).collect();
            all.join(apart)
        }
        Value::Number(number) => match (number.as_f64().filter(|_| number.is_f64()), quantity) {
            (Some(si), Some((quantity, units))) => {
                crate::field::as_data(quantity.shown(si, units)).to_string()
            }
            (Some(si), None) => si.to_string(),
            _ => number.to_string(),
        },
        other => other.to_string(),
    }
}

fn is_sentence(value: &Value) -> bool {
    value.as_str().is_some_and(|text| text.contains(' '))
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::units::UnitSystem;

    fn text(answer: &Value, name: &str, units: Option<UnitChoice>) -> String {
        let tables = tables(answer);
        tables.iter().find(|table| table.name == name).expect(name).text(units).unwrap()
    }

    fn answer() -> Value {
        json!({
            "name": "=Heron",
            "planes": {"source": "fitted", "span_m": 0.6, "chord_m": 0.3},
            "conditions": [
                {"name": "light", "rows": [
                    {"speed_m_s": 10.0, "best": null, "flags": ["a", "b"], "danger": ["a"]},
                    {"speed_m_s": 11.0, "best": {"drag_n": 1000.0, "likely_n": [900.0, 1100.0]},
                     "flags": [], "danger": []},
                ]},
                {"name": "full", "rows": [{"speed_m_s": 12.5, "best": null, "flags": [], "danger": []}]},
            ],
            "pairs": [{"pair": {"span_m": 0.5, "chord_m": 0.2}, "counts": [1, 2],
                       "each": [{"share": 0.5}]}],
            "notes": ["one is said", "and more"],
            "flags": ["a", "b"],
            "flag_meanings": {"a": "A."},
        })
    }

    #[test]
    fn regression_rows_of_a_list_say_which_row_they_belong_to_and_keep_their_flags() {
        assert_eq!(
            text(&answer(), "conditions.rows", None),
            "speed_m_s,best_drag_n,best_likely_n_low,best_likely_n_high,\
             planes_source,planes_span_m,planes_chord_m,flags,condition\n\
             10,,,,fitted,0.6,0.3,a b,light\n\
             11,1000,900,1100,fitted,0.6,0.3,,light\n\
             12.5,,,,fitted,0.6,0.3,,full\n"
        );
    }

    #[test]
    fn regression_a_row_without_flags_has_those_of_the_answer() {
        assert_eq!(
            text(&answer(), "pairs.each", None),
            "share,planes_source,planes_span_m,planes_chord_m,flags,\
             pairs_pair_span_m,pairs_pair_chord_m\n\
             0.5,fitted,0.6,0.3,a b,0.5,0.2\n"
        );
        assert!(text(&answer(), "pairs", None).contains("counts"));
    }

    #[test]
    fn regression_the_answer_itself_is_one_row() {
        assert_eq!(
            text(&answer(), "answer", None),
            "name,planes_source,planes_span_m,planes_chord_m,notes,flags\n\
             '=Heron,fitted,0.6,0.3,one is said; and more,a b\n"
        );
    }

    #[test]
    fn regression_units_stand_in_the_head_with_their_numbers() {
        // 1 kn is 1852 m an hour; 1 ft is 0.3048 m (NIST SP 811).
        let units = Some(UnitChoice {
            speed: crate::units::SpeedUnit::Knot,
            ..UnitSystem::Imperial.into()
        });
        let text = text(&answer(), "conditions.rows", units);
        let mut lines = text.lines();
        let head = lines.next().unwrap();
        assert!(head.starts_with("speed_kn,best_drag_lbf,best_likely_lbf_low,"), "{head}");
        assert!(head.ends_with("planes_span_ft,planes_chord_ft,flags,condition"), "{head}");
        assert!(lines.next().unwrap().starts_with("19.4384449,"), "{text}");
    }
}
