//! A boat file of which some values are replaced, as often as wanted, or of which all come one by one.

use uom::si::f64::Length;
use uom::si::{length::meter, mass::kilogram};

use super::collect::{self, Document, LIST_MARK, Value};
use super::convert;
use super::read::{BoatFile, tree_of};
use crate::boat::{Boat, LoadItem, Stations, WeightInput};
use crate::error::{FileFault, FileFaults};
use crate::schema::{Kind, Row};
use crate::spelling::first_unseen;
use crate::units::quoted;

/// What every boat of a series has, before each gets values of its own.
#[derive(Debug, Default)]
pub(crate) struct Overlay {
    document: Document,
    text: String,
    stations: Option<Stations>,
    /// The totals of the loads that are listed, each by its key, and the same file without the list; none where no loads are listed.
    in_totals: Option<(Document, [(&'static str, String); 4])>,
}

/// Lists that are about the loads one by one.
const OF_LOADS: [&str; 2] = ["load", "condition"];

/// A value to be set: the key with its place in a list counted from nought (`load[0].mass`), its row and its text.
pub(crate) struct Set<'a> {
    pub key: &'a str,
    pub row: &'static Row,
    pub text: String,
}

impl Overlay {
    /// On the values of a boat file.
    ///
    /// # Errors
    /// As reading it.
    pub fn of(file: &BoatFile) -> Result<Self, FileFaults> {
        let document = collect::collect(tree_of(&file.name, &file.text)?.get_ref(), &file.text);
        let stations = file.boat.stations().cloned();
        let in_totals = match &file.boat.input().weight {
            WeightInput::Loads(items) => Some((without_loads(&document), totals(items))),
            WeightInput::Totals { .. } => None,
        };
        Ok(Self { document, text: file.text.clone(), stations, in_totals })
    }

    /// The boat with these values in place of those of the file.
    ///
    /// Where the file lists loads and a value is one of their totals, the totals stand in place of
    /// the list: those that are not given are its sums, and the other loading conditions, which
    /// are told by its items, are not there.
    ///
    /// # Errors
    /// Every fault of the values and of the boat.
    pub fn boat(&self, values: Vec<Set<'_>>) -> Result<Boat, Vec<FileFault>> {
        let has = |start: &str| values.iter().any(|value| value.key.starts_with(start));
        let mut document = match &self.in_totals {
            Some((document, totals)) if has("weight.") && !has("load[") => {
                let mut document = document.clone();
                for (key, text) in totals {
                    put(&mut document, key, text.clone());
                }
                document
            }
            _ => self.document.clone(),
        };
        for value in values {
            set(&mut document, value);
        }
        let mut input = convert::convert(&document, &self.text)?;
        input.stations.clone_from(&self.stations);
        Boat::build(input).map_err(|faults| {
            let faults = faults.into_iter().map(|fault| FileFault {
                problem: format!("{}: {}", document.spoken(&fault.key), fault.problem),
                help: fault.remedy,
                place: None,
            });
            faults.collect()
        })
    }
}

/// Mass and common centre of some loads.
fn totals(items: &[LoadItem]) -> [(&'static str, String); 4] {
    let mass_kg = |item: &LoadItem| item.mass.get::<kilogram>();
    let sum_kg: f64 = items.iter().map(mass_kg).sum();
    let centre = |of: fn(&LoadItem) -> Length| {
        let moment: f64 = items.iter().map(|item| mass_kg(item) * of(item).get::<meter>()).sum();
        format!("{} m", moment / sum_kg)
    };
    [
        ("weight.mass", format!("{sum_kg} kg")),
        ("weight.lcg", centre(|item| item.forward)),
        ("weight.vcg", centre(|item| item.up)),
        ("weight.tcg", centre(|item| item.starboard)),
    ]
}

/// The document without its loads, and without what names a loading condition that is told by them.
fn without_loads(document: &Document) -> Document {
    let mut document = document.clone();
    let is_of_loads = |key: &str| OF_LOADS.contains(&key.split(['[', '.']).next().unwrap_or(key));
    let names_condition = |key: &str| {
        key.ends_with("].condition") && (key.starts_with("duty[") || key.starts_with("seen["))
    };
    document.values.retain(|key, _| !is_of_loads(key) && !names_condition(key));
    document.tables.retain(|key, _| !is_of_loads(key));
    document.list_lengths.retain(|key, _| !is_of_loads(key));
    document.condition_names.clear();
    document
}

/// Puts one value into the document, with the table that it stands in.
fn put(document: &mut Document, key: &str, text: String) {
    if let Some((table, _)) = key.rsplit_once('.') {
        document.tables.entry(table.to_owned()).or_insert(0..0);
        if let Some((list, place)) = table.strip_suffix(']').and_then(|rest| rest.split_once('[')) {
            let place: usize = place.parse().unwrap_or(0);
            let length = document.list_lengths.entry(list.to_owned()).or_insert(0);
            *length = (*length).max(place + 1);
        }
    }
    document.values.insert(key.to_owned(), Value { place: 0..0, text: Some(text) });
}

/// The same with a text that came from outside.
fn set(document: &mut Document, value: Set<'_>) {
    let Set { key, row, text } = value;
    let text = match row.kind {
        Kind::Words(_) | Kind::Names => {
            let words = text.split([';', ',']).map(str::trim).filter(|word| !word.is_empty());
            words.collect::<Vec<_>>().join(&LIST_MARK.to_string())
        }
        _ => text,
    };
    let is_hidden = |c: char| c != LIST_MARK && first_unseen(&c.to_string()).is_some();
    if let Some(hidden) = text.chars().find(|&c| is_hidden(c)) {
        let seen = text.replace(is_hidden, "");
        document.faults.push(FileFault {
            problem: format!(
                "{}: `{}` holds U+{:04X}, a character that is not seen",
                document.spoken(key),
                quoted(&seen),
                u32::from(hidden)
            ),
            help: "write it again without that character".to_owned(),
            place: None,
        });
    }
    put(document, key, text);
}
