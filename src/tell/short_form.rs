//! An answer in short: what, why, how sure, what to do next, and what to beware of.
//!
//! It is made of the sentences and columns of the long answer, chosen by each
//! kind of answer for itself; nothing is said here that is not said there.

use super::words::digits;
use crate::boat::{Boat, Estimate};
use crate::document::{Block, Fact, Piece, Sentence, Table, said};
use crate::error::FileWarning;
use crate::flag::{Flag, Standing};
use crate::sentence::glossary;
use crate::units::UnitChoice;

/// An answer in short, for one loading condition.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ShortForm {
    /// The loading in one line, for where another one stands in full.
    pub gist: Sentence,
    /// How much the loading asks, by whatever the command is about: the one that asks most is shown.
    pub asks: f64,
    /// The answer.
    pub what: Vec<Sentence>,
    /// Its numbers by speed, or part by part.
    pub table: Option<Table>,
    /// Why, how sure, what next: each with its name.
    pub points: Vec<(&'static str, Sentence)>,
    /// What to beware of.
    pub beware: Vec<Sentence>,
}

/// Names of what stands below an answer.
pub const WHY: &str = "Why";
/// What was asked.
pub const ASKED: &str = "Asked";
/// How sure it is.
pub const SURE: &str = "How sure";
/// What to do next.
pub const NEXT: &str = "Next";

impl ShortForm {
    /// Adds a point where there is something to say.
    pub(crate) fn point(&mut self, name: &'static str, said: Option<Sentence>) {
        self.points.extend(said.filter(|said| !said.is_empty()).map(|said| (name, said)));
    }

    /// It as blocks, with the other loadings in a line each.
    fn blocks(self, others: Vec<Fact>) -> Vec<Block> {
        let words = glossary::explained(&self.text());
        let words = words.map(|words| Fact::new("Words", words));
        let points = self.points.iter().map(|(name, said)| Fact::new(*name, capital(said)));
        let mut blocks = vec![Block::Said(Sentence::joined(self.what, " "))];
        blocks.extend(self.table.map(Block::Table));
        blocks.push(Block::Terms(points.chain(words).collect()));
        if !others.is_empty() {
            blocks.push(Block::Paragraph("In the other loadings:".to_owned()));
            blocks.push(Block::Terms(others));
        }
        blocks.push(Block::Warnings(self.beware.iter().map(ToString::to_string).collect()));
        blocks
    }

    /// What it says but the cautions, to look for words in.
    fn text(&self) -> String {
        let said = self.what.iter().chain(self.points.iter().map(|(_, said)| said));
        let said = said.map(ToString::to_string);
        let heads = self.table.iter().flat_map(|table| &table.columns);
        said.chain(heads.map(|column| column.name.clone())).collect::<Vec<_>>().join(" ")
    }
}

/// A sentence with a capital letter at its beginning.
fn capital(said: &Sentence) -> String {
    let text = said.to_string();
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The loading that asks most in full, by its place, and the others in a line each.
///
/// # Panics
/// Without any.
#[must_use]
pub fn governing(all: Vec<(String, ShortForm)>) -> (usize, Vec<Block>) {
    let most = |(at, (_, form)): (usize, &(String, ShortForm))| (at, form.asks);
    let by_asking = |a: &(usize, f64), b: &(usize, f64)| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0));
    let (place, _) =
        all.iter().enumerate().map(most).max_by(by_asking).expect("at least one loading");
    let mut own = ShortForm::default();
    let mut others = Vec::new();
    for (at, (name, form)) in all.into_iter().enumerate() {
        if at == place {
            own = form;
        } else {
            others.push(Fact::new(name, form.gist.to_string()));
        }
    }
    (place, own.blocks(others))
}

/// Some columns of a table, and so many rows of it: the first, the last, those that must be there, and others evenly between.
pub(crate) fn cut(mut table: Table, columns: &[usize], most: usize, must: &[usize]) -> Table {
    let rows = table.rows();
    let kept = thinned(rows, most, must);
    table.columns = columns
        .iter()
        .filter_map(|&place| table.columns.get(place).cloned())
        .map(|mut column| {
            column.cells = kept.iter().filter_map(|&row| column.cells.get(row).cloned()).collect();
            column
        })
        .filter(|column| !column.is_blank())
        .collect();
    table.notes.clear();
    table.title.clear();
    table.strong = None;
    table
}

/// The first table among some blocks.
pub(crate) fn first_table(blocks: Vec<Block>) -> Option<Table> {
    blocks.into_iter().find_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    })
}

/// Places of so many rows out of some.
fn thinned(rows: usize, most: usize, must: &[usize]) -> Vec<usize> {
    if rows <= most || most < 2 {
        return (0..rows).collect();
    }
    let last = rows - 1;
    let mut kept: Vec<usize> =
        (0..most).map(|place| (place * last + (most - 1) / 2) / (most - 1)).collect();
    let must: Vec<usize> = must.iter().copied().filter(|&must| must < rows).collect();
    for row in &must {
        let may_go = |&place: &usize| !must.contains(&kept[place]);
        let inner = (1..most - 1).filter(may_go);
        let nearest = inner.min_by_key(|&place| kept[place].abs_diff(*row));
        if let Some(nearest) = nearest.filter(|_| !kept.contains(row)) {
            kept[nearest] = *row;
        }
    }
    kept.sort_unstable();
    kept
}

/// The first sentence of a text.
pub(crate) fn first_sentence(text: &str) -> Sentence {
    let end = text.find(". ").map_or(text.len(), |at| at + 1);
    text[..end].to_owned().into()
}

/// What of some flags changes an answer: the dangers, and in one line what nobody tested.
pub(crate) fn flagged(flags: impl IntoIterator<Item = Flag>) -> Vec<Sentence> {
    let mut dangers: Vec<Sentence> = Vec::new();
    let mut untested: Vec<&str> = Vec::new();
    for flag in flags {
        match flag.standing() {
            Standing::Danger => dangers.push(Piece::terminal(flag.meaning()).into()),
            Standing::Untested => untested.extend(flag.untested_subject()),
            Standing::Rough => {}
        }
    }
    let mut all: Vec<Sentence> = Vec::new();
    if !dangers.is_empty() {
        all.push(Sentence::joined(dangers, " "));
    }
    if !untested.is_empty() {
        all.push(format!("UNTESTED at some speeds: {}.", untested.join(", ")).into());
    }
    all
}

/// What the file does not give, in one line by the names of its keys; nothing where it gives all.
pub(crate) fn estimated(boat: &Boat, units: UnitChoice) -> Option<Sentence> {
    let named = |estimate: &Estimate| {
        let (value, unit) = estimate.value.in_units(units);
        format!("{} {} {unit}", name(estimate), digits(value, 3))
    };
    let names: Vec<String> = boat.estimates().iter().map(named).collect();
    (!names.is_empty()).then(|| {
        said![format!("ESTIMATED, since the file does not give them: {}.", names.join(", "))]
    })
}

/// What else was estimated and has no place in the boat's own numbers, by name; nothing where all is given.
pub(crate) fn estimated_beside<'a>(
    estimates: impl IntoIterator<Item = &'a Estimate>,
) -> Option<Sentence> {
    let names: Vec<String> = estimates.into_iter().map(name).collect();
    (!names.is_empty()).then(|| format!("ESTIMATED: {}.", names.join(", ")).into())
}

/// The key of the boat file that would give it, without its table and as words.
fn name(estimate: &Estimate) -> String {
    let key = estimate.key.rsplit('.').next().unwrap_or(estimate.key);
    key.replace('_', " ")
}

/// Values of the file that look unusual.
pub(crate) fn unusual(warnings: &[FileWarning]) -> impl Iterator<Item = String> + '_ {
    warnings.iter().map(ToString::to_string)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::Column;

    #[test]
    fn regression_rows_are_thinned_evenly_and_what_must_be_there_is() {
        assert_eq!(thinned(14, 5, &[]), [0, 3, 7, 10, 13]);
        assert_eq!(thinned(14, 5, &[2]), [0, 2, 7, 10, 13]);
        assert_eq!(thinned(14, 5, &[13]), [0, 3, 7, 10, 13]);
        assert_eq!(thinned(14, 5, &[2, 4]), [0, 2, 4, 10, 13]);
        assert_eq!(thinned(3, 5, &[1]), [0, 1, 2]);
    }

    #[test]
    fn regression_a_table_is_cut_to_columns_and_rows() {
        let numbers = |name| Column::numbers(name, "m", (0..9).map(|n| n.to_string()).collect());
        let columns = vec![numbers("a"), numbers("b"), numbers("c")];
        let table = Table { columns, notes: vec!["long".to_owned()], ..Table::default() };
        let cut = cut(table, &[2, 0], 3, &[]);
        assert_eq!(cut.columns[0].name, "c");
        assert_eq!(cut.columns[1].cells, ["0", "4", "8"]);
        assert!(cut.notes.is_empty());
    }

    #[test]
    fn regression_the_loading_that_asks_most_stands_in_full() {
        let form = |asks, gist: &'static str| ShortForm {
            asks,
            gist: gist.into(),
            what: vec![format!("All of {gist}.").into()],
            ..ShortForm::default()
        };
        let all = [(1.0, "light"), (3.0, "full"), (2.0, "normal")];
        let all = all.map(|(asks, name)| (name.to_owned(), form(asks, name)));
        let (place, blocks) = governing(all.into());
        assert_eq!(place, 1);
        assert_eq!(blocks[0], Block::Said("All of full.".into()));
        let others = ["light", "normal"].map(|name| Fact::new(name, name));
        assert!(blocks.contains(&Block::Terms(others.into())));
    }

    #[test]
    fn regression_the_first_sentence_ends_at_its_full_stop() {
        assert_eq!(first_sentence("At 2.5 m. Then more.").to_string(), "At 2.5 m.");
        assert_eq!(first_sentence("One only").to_string(), "One only");
    }
}
