//! Which planes each boat of a table needs, a row for every boat.

use super::cell::{Cell, Column, ColumnKind};
use super::question::{SizeQuestion, doubts};
use crate::behaviour::sense::Sense;
use crate::boat::{Boat, Fault};
use crate::doubt::advise_with;
use crate::field::{InSi, as_data, unit_ending};
use crate::size::{Answer, Suggestion};
use crate::spelling::{by_likeness, plain};
use crate::units::quoted;

/// What is told of a size.
#[derive(Clone, Copy, Debug)]
pub struct SizeField {
    /// Its name as in the JSON of a size.
    pub name: &'static str,
    /// What it holds.
    kind: ColumnKind,
    /// Its value in SI, angles in degrees.
    value: fn(&Suggestion) -> Cell,
}

const fn field(name: &'static str, kind: ColumnKind, value: fn(&Suggestion) -> Cell) -> SizeField {
    SizeField { name, kind, value }
}

const fn number(name: &'static str, value: fn(&Suggestion) -> Cell) -> SizeField {
    field(name, ColumnKind::Number, value)
}

const fn words(name: &'static str, value: fn(&Suggestion) -> Cell) -> SizeField {
    field(name, ColumnKind::Text, value)
}

/// All of them, in the order in which they are written.
#[rustfmt::skip]
pub(super) const ALL: &[SizeField] = &[
    number("span_m", |s| Cell::number(s.suggested().map(|pair| pair.in_metres()[0]))),
    number("chord_m", |s| Cell::number(s.suggested().map(|pair| pair.in_metres()[1]))),
    number("area_m2", |s| Cell::number(s.suggested().map(|pair| pair.area().in_si()))),
    number("chance", |s| Cell::number(s.chance.as_ref().map(|chance| chance.reached))),
    number("chance_wanted", |s| Cell::number(s.chance.as_ref().map(|chance| chance.wanted))),
    number("relief_low_deg", |s| relief(s, 0)),
    number("relief_median_deg", |s| relief(s, 1)),
    number("relief_high_deg", |s| relief(s, 2)),
    number("relief_at_m_s", |s| Cell::number(s.chance.as_ref().and_then(|chance| chance.relief_speed).in_si())),
    words("set_by", |s| s.set_by.map_or(Cell::Empty, |index| Cell::Text(s.duty_name(index).into()))),
    words("set_in_condition", |s| s.governing.as_ref().map_or(Cell::Empty, |g| Cell::Text(g.condition.clone().into()))),
    number("set_at_m_s", |s| Cell::number(s.governing.as_ref().map(|governing| governing.speed).in_si())),
    field("fits_transom", ColumnKind::Truth, |s| s.fits_transom().map_or(Cell::Empty, Cell::Truth)),
    number("room_m", |s| Cell::number(Some(s.room.in_si()))),
    number("usable_deflection_deg", |s| Cell::number(Some(s.usable_deflection.in_si()))),
    number("bare_hump_resistance_n", |s| Cell::number(s.bare_hump_resistance.in_si())),
    number("rule_of_thumb_span_m", |s| Cell::number(Some(s.rule_of_thumb.span.in_si()))),
    words("rests_on_untested", |s| Cell::words(&s.rests_on_untested.words())),
    words("missing", missing),
];

/// Units that are the same whatever is chosen, by how names end.
const OTHER_UNITS: [(&str, &str); 2] = [("_deg", "deg"), ("_m2", "m^2")];

fn relief(suggestion: &Suggestion, place: usize) -> Cell {
    let relief = suggestion.chance.as_ref().and_then(|chance| chance.relief);
    Cell::number(relief.map(|relief| relief[place].in_si()))
}

/// What no pair does, and what would help.
fn missing(suggestion: &Suggestion) -> Cell {
    let Answer::Infeasible(shortfall) = &suggestion.answer else { return Cell::Empty };
    let remedies = shortfall.remedies.iter().map(|remedy| format!("; {remedy}"));
    Cell::Text(format!("{}{}", shortfall.missing, remedies.collect::<String>()).into())
}

/// What is told of a size by its name in JSON, with its unit or without.
///
/// # Errors
/// If there is none of that name.
pub fn size_field(name: &str) -> Result<SizeField, Fault> {
    let wanted = plain(name);
    let without = |field: &SizeField| unit_ending(field.name).map(|(before, _)| before);
    let found = ALL.iter().find(|field| field.name == wanted || without(field) == Some(&wanted));
    found.copied().ok_or_else(|| Fault {
        key: "run.fields".to_owned(),
        problem: format!("there is no field `{}`", quoted(name)),
        remedy: format!(
            "one of these, the likeliest first: {}",
            by_likeness(&wanted, ALL.iter().map(|field| field.name)).join(", ")
        ),
    })
}

pub(super) fn columns(question: &SizeQuestion) -> Vec<Column> {
    let column = |field: &SizeField| {
        if let Some((key, quantity)) = unit_ending(field.name) {
            return Column::quantity(key, quantity, question.units);
        }
        let other = OTHER_UNITS.iter().find_map(|(ending, unit)| {
            Some((field.name.strip_suffix(ending)?.to_owned(), (*unit).to_owned()))
        });
        let (key, unit) = other.unwrap_or_else(|| (field.name.to_owned(), String::new()));
        Column { name: field.name.to_owned(), key, unit, kind: field.kind }
    };
    let words = ["flags", "questions", "silence"].map(Column::text);
    let answer = [Column::text("answer")].into_iter();
    answer.chain(question.fields.iter().map(column)).chain(words).collect()
}

/// What the planes of a boat are to be, over all her loading conditions.
pub(super) fn answer(question: &SizeQuestion, boat: &Boat) -> Result<Vec<Cell>, Fault> {
    let boats = boat.in_all_conditions()?;
    let settings = &question.settings;
    let suggestion = advise_with(&boats, settings, question.drawn, &|_| ())?;
    let sense = Sense::of(&boats, settings);
    let cell = |field: &SizeField| match (field.value)(&suggestion) {
        Cell::Number(si) => {
            let shown = match (question.units, unit_ending(field.name)) {
                (Some(units), Some((_, quantity))) => quantity.shown(si, units),
                _ => si,
            };
            Cell::number(Some(as_data(shown)))
        }
        other => other,
    };
    let mut cells = vec![Cell::Text(suggestion.answer.word().into())];
    cells.extend(question.fields.iter().map(cell));
    cells.push(Cell::words(&suggestion.flags.words()));
    cells.push(doubts(sense.questions.iter().map(|question| question.word)));
    cells.push(doubts(sense.silences.iter().map(|silent| silent.silence.word())));
    Ok(cells)
}
