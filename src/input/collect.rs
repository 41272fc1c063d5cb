//! Walks the TOML tree of a boat file: gathers the values with their places, and the faults of
//! structure (unknown keys and tables, values of the wrong type).

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use crate::boat::keys::{self, TABLES, Table, example_line};
use crate::boat::without_positions;
use crate::error::FileFault;
use crate::schema::{Kind, Row, most};
use crate::spelling;

/// A value as it stands in the file.
#[derive(Debug, Clone)]
pub(super) struct Value {
    /// Bytes of the file that it takes.
    pub(super) place: Range<usize>,
    /// Its text, or nothing if it is of a type that the key does not take.
    pub(super) text: Option<String>,
}

/// What a boat file says, flattened.
#[derive(Debug, Clone, Default)]
pub(super) struct Document {
    /// Values by key: `hull.deadrise`, `load[0].mass`.
    pub(super) values: BTreeMap<String, Value>,
    /// Headers of the tables by name: `hull`, `load[0]`.
    pub(super) tables: BTreeMap<String, Range<usize>>,
    /// Number of tables in each list: `load`, `condition[0].load`.
    pub(super) list_lengths: BTreeMap<String, usize>,
    /// Names of loading conditions by the path of their table, for messages.
    pub(super) condition_names: BTreeMap<String, String>,
    /// Tables written in a form that they do not take.
    pub(super) broken: BTreeSet<&'static str>,
    /// Faults of structure.
    pub(super) faults: Vec<FileFault>,
}

impl Document {
    /// The place of a key, or else of its table, or else of the first load.
    pub(super) fn place_of(&self, key: &str) -> Option<Range<usize>> {
        let table = key.rsplit_once('.').map_or(key, |(table, _)| table);
        let value = self.values.get(key).map(|value| &value.place);
        value
            .or_else(|| self.tables.get(table))
            .or_else(|| self.tables.get("load[0]").filter(|_| matches!(table, "load" | "weight")))
            .cloned()
    }

    /// A key for people: those of a loading condition with its name, `condition `full`, load.mass (entry 1)`.
    pub(super) fn spoken(&self, key: &str) -> String {
        let within = key.strip_prefix("condition[").and_then(|rest| rest.split_once(']'));
        let Some((place, below)) = within else { return spoken_key(key) };
        let name = self.condition_names.get(&format!("condition[{place}]"));
        let Some(name) = name.filter(|_| below != ".name") else { return spoken_key(key) };
        let whole = format!("condition `{}`", crate::units::quoted(name));
        match below.strip_prefix('.') {
            None => whole,
            Some(below) => format!("{whole}, {}", spoken_key(below)),
        }
    }
}

/// Gathers everything in a TOML tree that belongs to a boat.
pub(super) fn collect(tree: &DeTable<'_>, text: &str) -> Document {
    let mut walk = Walk { text, document: Document::default() };
    let top = &TABLES[0];
    for (name, value) in tree.iter() {
        let written = name.get_ref().as_ref();
        if let Some(key) = top.key(written) {
            walk.value(key.name.to_owned(), key, value);
        } else if let Some(table) = top_table(written) {
            walk.table_or_list(table, table.name, name.span(), value);
        } else {
            walk.unknown_at_top(written, name.span());
            if let Some(meant) = misspelt_table(written, tree) {
                walk.table_or_list(meant, meant.name, name.span(), value);
            }
        }
    }
    walk.document
}

struct Walk<'a> {
    text: &'a str,
    document: Document,
}

impl Walk<'_> {
    fn fault(&mut self, place: Range<usize>, problem: String, help: String) {
        self.document.faults.push(FileFault { problem, help, place: Some(place) });
    }

    /// A table, or all of a list, that stands at a path: `hull`, `condition[0].load`.
    fn table_or_list(
        &mut self,
        table: &'static Table,
        path: &str,
        name: Range<usize>,
        value: &Spanned<DeValue<'_>>,
    ) {
        match (value.get_ref(), table.list) {
            (DeValue::Table(keys), false) => self.keys(table, path.to_owned(), name, keys),
            (DeValue::Array(items), true) => {
                let taken = self.few(table.name, path, items);
                for (index, item) in taken.iter().enumerate() {
                    let path = format!("{path}[{index}]");
                    match item.get_ref() {
                        DeValue::Table(keys) => self.keys(table, path, item.span(), keys),
                        _ => self.not_a_table(table, item.span()),
                    }
                }
                self.document.list_lengths.insert(path.to_owned(), taken.len());
            }
            _ => self.not_a_table(table, name),
        }
    }

    /// As many entries as are taken; a fault at the first that is not.
    fn few<'i, 'd>(
        &mut self,
        of: &str,
        path: &str,
        items: &'i [Spanned<DeValue<'d>>],
    ) -> &'i [Spanned<DeValue<'d>>] {
        let Some(row) = most::most_of(of).filter(|row| items.len() > row.most) else {
            return items;
        };
        let problem = format!("{}: {}", self.document.spoken(path), row.problem(items.len()));
        self.fault(items[row.most].span(), problem, row.cure.to_owned());
        &items[..row.most]
    }

    fn not_a_table(&mut self, table: &'static Table, place: Range<usize>) {
        let header = table.header();
        let examples: Vec<String> =
            table.keys.iter().filter(|key| key.is_needed()).map(example_line).collect();
        let below = examples.join(", ");
        let problem = if table.list {
            format!("{} is a list: each entry has the header {header}", table.name)
        } else {
            format!("{} is a table with the header {header}, given once", table.name)
        };
        let help = if below.is_empty() {
            format!("write {header} on a line of its own, and its keys below")
        } else {
            format!("write {header} on a line of its own, and below it {below}")
        };
        self.document.broken.insert(table.name);
        self.fault(place, problem, help);
    }

    fn keys(
        &mut self,
        table: &'static Table,
        path: String,
        header: Range<usize>,
        keys: &DeTable<'_>,
    ) {
        if table.name == "condition"
            && let Some(DeValue::String(name)) = keys.get("name").map(Spanned::get_ref)
        {
            self.document.condition_names.insert(path.clone(), name.clone().into_owned());
        }
        for (name, value) in keys.iter() {
            let written = name.get_ref().as_ref();
            let within = keys::table(&format!("{}.{written}", table.name));
            match (table.key(written), within) {
                (Some(key), _) => self.value(format!("{path}.{}", key.name), key, value),
                (None, Some(within)) => {
                    self.table_or_list(within, &format!("{path}.{written}"), name.span(), value);
                }
                (None, None) if misspelt_within(written, table).is_some() => {
                    self.misspelt_list(table, &path, written, name.span(), value);
                }
                (None, None) => {
                    self.unknown_key(table, written, name.span());
                    if let Some(meant) = misspelt_key(written, table, keys) {
                        self.value(format!("{path}.{}", meant.name), meant, value);
                    }
                }
            }
        }
        self.document.tables.insert(path, header);
    }

    fn value(&mut self, path: String, key: &Row, value: &Spanned<DeValue<'_>>) {
        let place = value.span();
        let written = self.text.get(place.clone()).unwrap_or_default();
        let takes_numbers =
            matches!(key.kind, Kind::Number | Kind::Quantity(crate::units::Dimension::Fraction));
        let text = match value.get_ref() {
            DeValue::String(text) => Some(text.clone().into_owned()),
            DeValue::Integer(_) | DeValue::Float(_) if takes_numbers => {
                Some(written.replace('_', ""))
            }
            DeValue::Array(items) if matches!(key.kind, Kind::Words(_) | Kind::Names) => {
                joined(self.few(most::ENTRIES, &path, items))
            }
            _ => None,
        };
        if text.is_none() {
            self.wrong_type(&path, key, written.to_owned(), place.clone());
        }
        let text = text.map(|text| self.seen(&path, key, text, &place));
        self.document.values.insert(path, Value { place, text });
    }

    /// A text with what is not seen in it refused; a longer text may have several lines.
    fn seen(&mut self, path: &str, key: &Row, text: String, place: &Range<usize>) -> String {
        let may_have_lines = matches!(key.name, "scenario" | "about");
        let lines = |c: char| may_have_lines && matches!(c, '\n' | '\r' | '\t');
        let text = if may_have_lines { text.replace(lines, " ") } else { text };
        // Entries of a list stand in one text, each checked by itself.
        let is_list = matches!(key.kind, Kind::Words(_) | Kind::Names);
        let mut entries = text.split(|c| is_list && c == LIST_MARK);
        if let Some(found) = entries.find_map(spelling::first_unseen) {
            let problem = format!(
                "{}: holds U+{:04X}, a character that is not seen",
                self.document.spoken(path),
                u32::from(found)
            );
            let help = "write it again without that character".to_owned();
            self.fault(place.clone(), problem, help);
        }
        text
    }

    fn wrong_type(&mut self, path: &str, key: &Row, written: String, place: Range<usize>) {
        let short = crate::units::quoted(&written);
        let is_number = written.starts_with(|c: char| c.is_ascii_digit() || "+-.".contains(c));
        let spoken = self.document.spoken(path);
        let (problem, help) = match key.kind {
            Kind::Quantity(dimension) | Kind::QuantityOr(dimension, _) if is_number => (
                format!("{spoken}: {short} has no unit"),
                format!(
                    "write for example \"{short} {}\", in quotation marks; {} is a number with {}",
                    dimension.unit_of_example(key.example),
                    dimension.with_article(),
                    dimension.allowed_units()
                ),
            ),
            Kind::Quantity(dimension) | Kind::QuantityOr(dimension, _) => (
                format!("{spoken}: {short} is not {}", dimension.with_article()),
                format!(
                    "write a number with its unit in quotation marks: {}",
                    dimension.allowed_units()
                ),
            ),
            Kind::Number | Kind::With(_) | Kind::Count | Kind::Spacing => {
                (format!("{spoken}: {short} is not a number"), "write a plain number".to_owned())
            }
            Kind::Choice(words) => (
                format!("{spoken}: {short} is not one of its words"),
                format!("write one of {}", quoted_list(words)),
            ),
            Kind::Words(words) => (
                format!("{spoken}: {short} is not a list of words"),
                format!("write [\"{}\"], or more of {}", words[0], quoted_list(words)),
            ),
            Kind::Names => (
                format!("{spoken}: {short} is not a name, or a list of names"),
                "write names in quotation marks: [\"one\", \"another\"]".to_owned(),
            ),
            Kind::Text => (
                format!("{spoken}: {short} is not text"),
                format!("write text in quotation marks: \"{short}\""),
            ),
        };
        self.fault(place, problem, help);
    }

    /// A table within a table whose name is nearly right: named, and read all the same.
    fn misspelt_list(
        &mut self,
        table: &Table,
        path: &str,
        written: &str,
        place: Range<usize>,
        value: &Spanned<DeValue<'_>>,
    ) {
        let Some(meant) = misspelt_within(written, table) else { return };
        let (_, name) = meant.name.rsplit_once('.').unwrap_or(("", meant.name));
        let header = table.header();
        let short = crate::units::quoted(written);
        self.fault(
            place.clone(),
            format!("{header} has no `{short}`"),
            format!("did you mean `{}`?", meant.header()),
        );
        self.table_or_list(meant, &format!("{path}.{name}"), place, value);
    }

    fn unknown_key(&mut self, table: &Table, written: &str, place: Range<usize>) {
        let short = crate::units::quoted(written);
        let header = table.header();
        let elsewhere = TABLES.iter().find(|other| other.key(written).is_some());
        let help = match elsewhere {
            Some(other) if other.name.is_empty() => {
                format!("`{short}` belongs at the top of the file, above the first table;")
            }
            Some(other) if nearest(written, table).1 < spelling::CLOSE => {
                format!("`{short}` belongs in {};", other.header())
            }
            _ => format!("did you mean `{}`?", nearest(written, table).0),
        };
        let allowed: Vec<&str> = table.keys.iter().map(|key| key.name).collect();
        self.fault(
            place,
            format!("{header} has no key `{short}`"),
            format!("{help} {header} takes {}", listed(&allowed)),
        );
    }

    fn unknown_at_top(&mut self, written: &str, place: Range<usize>) {
        let short = crate::units::quoted(written);
        let mut names: Vec<&str> = TABLES[0].keys.iter().map(|key| key.name).collect();
        names.extend(TABLES.iter().map(|table| table.name).filter(|name| !name.is_empty()));
        let (near, _) = nearest_of(written, &names);
        let homes: Vec<String> =
            TABLES.iter().filter(|table| table.key(written).is_some()).map(Table::header).collect();
        let help = if homes.is_empty() {
            let shown = keys::table(near).map_or_else(|| near.to_owned(), Table::header);
            format!("did you mean `{shown}`?")
        } else {
            format!("`{short}` belongs below {}", homes.join(" or "))
        };
        self.fault(place, format!("a boat file has no `{short}` at the top"), help);
    }
}

/// Stands between the words of a list once they are joined; no word holds it.
pub(super) const LIST_MARK: char = '\n';

/// The words of a list in one text, or nothing if something else is among them.
fn joined(items: &[Spanned<DeValue<'_>>]) -> Option<String> {
    let words = items.iter().map(|item| match item.get_ref() {
        DeValue::String(word) => Some(word.as_ref()),
        _ => None,
    });
    Some(words.collect::<Option<Vec<_>>>()?.join(&LIST_MARK.to_string()))
}

/// The table of that name that stands by itself, not within another.
fn top_table(name: &str) -> Option<&'static Table> {
    keys::table(name).filter(|table| !table.name.is_empty() && !table.name.contains('.'))
}

/// The key that a misspelt one stands for, if that key itself is not given: its value is checked.
fn misspelt_key(written: &str, table: &Table, given: &DeTable<'_>) -> Option<&'static Row> {
    let (near, likeness) = nearest(written, table);
    let known = TABLES.iter().find(|other| other.name == table.name)?.key(near)?;
    (likeness >= spelling::CLOSE && given.keys().all(|name| name.get_ref().as_ref() != near))
        .then_some(known)
}

/// The table within a table that a misspelt one stands for.
fn misspelt_within(written: &str, table: &Table) -> Option<&'static Table> {
    let within = TABLES.iter().find(|within| {
        let name = within.name.strip_prefix(table.name).and_then(|name| name.strip_prefix('.'));
        name.is_some_and(|name| nearest_of(written, &[name]).1 >= spelling::CLOSE)
    });
    within.filter(|_| !table.name.is_empty())
}

/// The table that a misspelt one stands for, if that table itself is not given.
fn misspelt_table(written: &str, tree: &DeTable<'_>) -> Option<&'static Table> {
    let names: Vec<&str> = TABLES.iter().skip(1).map(|table| table.name).collect();
    let (near, likeness) = nearest_of(written, &names);
    let meant = keys::table(near)?;
    (likeness >= spelling::CLOSE && tree.keys().all(|name| name.get_ref().as_ref() != near))
        .then_some(meant)
}

/// The key of the table that is spelt most like the word, and how like it is (0 to 1).
fn nearest(written: &str, table: &Table) -> (&'static str, f64) {
    let names: Vec<&'static str> = table.keys.iter().map(|key| key.name).collect();
    nearest_of(written, &names)
}

fn nearest_of<'a>(written: &str, names: &[&'a str]) -> (&'a str, f64) {
    spelling::nearest(&spelling::plain(written), names.iter().copied()).unwrap_or_default()
}

/// `a, b and c`.
pub(super) fn listed(words: &[&str]) -> String {
    match words.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        _ => words.concat(),
    }
}

/// `"a", "b" or "c"`.
pub(super) fn quoted_list(words: &[&str]) -> String {
    let quoted: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
    match quoted.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        _ => quoted.concat(),
    }
}

/// A key for people, who count from one: `load[2].mass` becomes `load.mass (entry 3)`, and
/// `condition[1].load[0].mass` becomes `condition.load.mass (entry 2.1)`.
pub(super) fn spoken_key(key: &str) -> String {
    let positions = key.split('[').skip(1).filter_map(|rest| rest.split_once(']')?.0.parse().ok());
    let counted: Vec<String> = positions.map(|index: usize| (index + 1).to_string()).collect();
    if counted.is_empty() {
        return key.to_owned();
    }
    format!("{} (entry {})", without_positions(key), counted.join("."))
}
