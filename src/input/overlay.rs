//! A boat file of which some values are replaced, as often as wanted, or of which all come one by one.

use super::collect::{self, Document, LIST_MARK, Value};
use super::convert;
use super::read::{BoatFile, tree_of};
use crate::boat::{Boat, Stations};
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
}

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
        Ok(Self { document, text: file.text.clone(), stations })
    }

    /// The boat with these values in place of those of the file.
    ///
    /// # Errors
    /// Every fault of the values and of the boat.
    pub fn boat<'a>(
        &self,
        values: impl IntoIterator<Item = Set<'a>>,
    ) -> Result<Boat, Vec<FileFault>> {
        let mut document = self.document.clone();
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

/// Puts one value into the document, with the table that it stands in.
fn set(document: &mut Document, value: Set<'_>) {
    let Set { key, row, text } = value;
    if let Some((table, _)) = key.rsplit_once('.') {
        document.tables.entry(table.to_owned()).or_insert(0..0);
        if let Some((list, place)) = table.strip_suffix(']').and_then(|rest| rest.split_once('[')) {
            let place: usize = place.parse().unwrap_or(0);
            let length = document.list_lengths.entry(list.to_owned()).or_insert(0);
            *length = (*length).max(place + 1);
        }
    }
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
    document.values.insert(key.to_owned(), Value { place: 0..0, text: Some(text) });
}
