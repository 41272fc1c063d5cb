//! A sizing in short: the pair, why, how sure, and how to use it at a few speeds.

use uom::si::f64::Velocity;

use super::{Sizing, schedule};
use crate::boat::{Wish, degrees};
use crate::document::{Column, Piece, Sentence, Table, fixed, said};
use crate::sentence::duty::condition;
use crate::size::{Answer, Binding};
use crate::tell::reasons::{answer, caveats, chance_of, over_limit, set_by};
use crate::tell::short_form::{ASKED, NEXT, SURE, ShortForm, cut, estimated, first_table};

/// Rows of the use by speed.
const ROWS: usize = 5;
/// Its columns in one loading: speed, use, never beyond, trim with planes up and as advised.
const COLUMNS: [usize; 5] = [0, 1, 2, 3, 4];
/// Its columns in several: speed, use, never beyond.
const IN_SEVERAL: [usize; 3] = [0, 1, 2];

/// A sizing in short, in every loading condition at once.
#[must_use]
pub fn short_form(sizing: &Sizing<'_>) -> ShortForm {
    let mut form = asked_only(sizing);
    let suggestion = sizing.suggestion;
    if suggestion.silence().is_some() {
        return form;
    }
    if suggestion.pair().is_some() {
        form.table = use_by_speed(sizing);
        form.point(SURE, chance_of(suggestion, sizing.units, "every duty", "the duties"));
        form.beware.extend(over_limit(sizing));
    }
    form.point(NEXT, Some(next(sizing)));
    form
}

/// The pair with what is asked of it, without settings: where parts stand beside it.
#[must_use]
pub fn asked_only(sizing: &Sizing<'_>) -> ShortForm {
    let mut form = ShortForm { what: answer(sizing), ..ShortForm::default() };
    if sizing.suggestion.silence().is_some() {
        return form;
    }
    form.point(ASKED, asked(sizing));
    form.beware = caveats(sizing);
    form.beware.extend(estimated(sizing.boat(), sizing.units));
    form
}

/// How to use them at a few speeds in the first loading, and the least limit of any.
fn use_by_speed(sizing: &Sizing<'_>) -> Option<Table> {
    let suggestion = sizing.suggestion;
    let mut table = first_table(schedule(sizing))?;
    let mut columns = COLUMNS.to_vec();
    let rows = &suggestion.schedule;
    if suggestion.conditions.len() > 1 {
        let least = |speed| {
            let all = suggestion.conditions.iter().flat_map(|own| &own.schedule);
            let here = all.filter(|row| row.speed == speed).map(|row| degrees(row.largest_safe));
            here.min_by(f64::total_cmp)
        };
        let limits: Vec<_> = rows.iter().map(|row| least(row.speed)).collect();
        columns = IN_SEVERAL.to_vec();
        columns.push(table.columns.len());
        let name = format!("use, {}", suggestion.conditions[0].condition);
        table.columns[1] = table.columns[1].clone().named(&name);
        table.columns.push(Column::numbers("in any loading", "deg", fixed(&limits, 1)));
    }
    // The hump and the speed that sets the size have their row, or the nearest there is.
    let hump = suggestion.conditions.first().map(|own| own.hump_speed);
    let governing = suggestion.governing.as_ref().map(|governing| governing.speed);
    let apart = |row: &crate::size::ScheduleRow, at: Velocity| (row.speed - at).abs();
    let nearest = |at: Velocity| {
        let all = rows.iter().enumerate();
        all.min_by(|a, b| apart(a.1, at).value.total_cmp(&apart(b.1, at).value))
    };
    let must: Vec<usize> = [governing, hump]
        .into_iter()
        .flatten()
        .filter_map(nearest)
        .map(|(index, _)| index)
        .collect();
    Some(cut(table, &columns, ROWS, &must))
}

/// What is asked, that which set the size with where it asks most.
fn asked(sizing: &Sizing<'_>) -> Option<Sentence> {
    let suggestion = sizing.suggestion;
    let told = suggestion.set_by.filter(|_| suggestion.pair().is_some());
    let duties = suggestion.duties.iter().enumerate();
    let others = duties.filter(|(place, _)| Some(*place) != told);
    let others = others.map(|(_, result)| condition(&result.duty, sizing.units));
    let first = told.and_then(|_| set_by(sizing, " in "));
    let first =
        first.map(|[duty, hardest]| said![duty, " (sets the size, hardest at ", hardest, ")"]);
    let all = Sentence::joined(first.into_iter().chain(others), "; ");
    let generated = suggestion.duties.iter().any(|duty| duty.generated);
    let is_least = matches!(suggestion.answer, Answer::Pair(_))
        && suggestion.set_by.is_none()
        && !suggestion.binding.contains(&Binding::Duty);
    let by_whom = match (generated, is_least) {
        (true, true) => ". GENERATED from the boat. Less than this smallest pair would do.",
        (false, true) => ". Less than this smallest pair would do.",
        (true, false) => ". GENERATED from the boat.",
        (false, false) => ".",
    };
    (!all.is_empty()).then(|| said![all, by_whom])
}

fn next(sizing: &Sizing<'_>) -> Sentence {
    let leans = sizing.boat().input().wishes.contains(&Wish::Leans);
    match sizing.suggestion.answer {
        Answer::Pair(_) if leans => said![
            Piece::name("planewright level"),
            " says how far down each plane levels her, ",
            Piece::name("doubt"),
            " what to measure first."
        ],
        Answer::Pair(_) => {
            said![Piece::name("planewright doubt"), " says what to measure first."]
        }
        _ => said![Piece::name("planewright run"), " shows how she runs at each speed."],
    }
}
