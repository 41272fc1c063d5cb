//! The loads in short: the verdict first, and what a plane carries at a few speeds.

use super::notes::{HANDLING, untested_in_short};
use super::{Loads, on_one_plane, sentence, verdict};
use crate::boat::degrees;
use crate::document::{Piece, Sentence, Table, said};
use crate::stock::assess::LoadAt;
use crate::tell::short_form::{NEXT, SURE, ShortForm, cut, estimated, first_sentence, first_table};
use crate::tell::words::{digits, speed};

/// Rows of the table.
const ROWS: usize = 6;
/// Its columns without a part: speed, deflection, expected load and moment, and those for design.
const COLUMNS: [usize; 6] = [0, 1, 2, 3, 5, 6];

/// Columns with a part: what bears, at which speed and deflection, its share in steady running and in slamming.
const BORNE: [usize; 5] = [0, 1, 2, 3, 4];

/// The loads in short.
#[must_use]
pub fn short_form(loads: &Loads<'_>) -> ShortForm {
    let found = loads.found;
    let mut form = ShortForm::default();
    let safe = safe_rows(loads);
    let shown = safe.iter().map(|&row| &found.loads[row]);
    let most = shown
        .chain(&found.allowed)
        .max_by(|a, b| a.design.force.value.total_cmp(&b.design.force.value));
    form.asks = most.map_or(0.0, |most| most.expected.hinge_moment.value);
    form.gist = most.map_or_else(Sentence::default, |most| heaviest(loads, most));
    form.table = match &found.part {
        Some(view) => {
            form.what.push(verdict::sentence(loads, view, false).into());
            Some(cut(verdict::table(loads, view), &BORNE, ROWS, &[]))
        }
        None => {
            form.point(
                SURE,
                Some(
                    "the load and moment are those of tank tests, the design load is a judgement."
                        .into(),
                ),
            );
            deepest(loads, &safe)
        }
    };
    form.what.push(sentence(loads).into());
    form.what.extend(most.map(|most| heaviest(loads, most)));
    if found.not_described.is_some() {
        form.what.push(
            "NOT KNOWN whether its plate, screws and actuators bear this: the stock list gives its size alone."
                .into(),
        );
        let next = "ask its maker what it bears, and hold that against the design load.";
        form.point(NEXT, Some(next.into()));
    } else if found.part.is_none() {
        let next = said![
            Piece::name("--stock"),
            " and ",
            Piece::name("--part"),
            " show what an actuator, plate and screws make of it."
        ];
        form.point(NEXT, Some(next));
    }
    form.beware = untested_in_short(loads).map(Sentence::from).into_iter().collect();
    form.beware.extend([HANDLING[0], HANDLING[3]].map(first_sentence));
    form.beware.extend(estimated(loads.boat, loads.units));
    form
}

/// Where a plane carries most.
fn heaviest(loads: &Loads<'_>, most: &LoadAt) -> Sentence {
    let (force, moment) = (loads.units.force, loads.units.moment);
    said![
        "At ",
        speed(most.speed, loads.units),
        format!(" and {} deg down one plane carries ", digits(degrees(most.deflection), 2)),
        Piece::quantity(digits(force.value(most.expected.force), 3), force.symbol()),
        ", and ",
        Piece::quantity(digits(moment.value(most.expected.hinge_moment), 3), moment.symbol()),
        " about its hinge; for slamming count on ",
        Piece::quantity(digits(force.value(most.design.force), 3), force.symbol()),
        ", the most of all speeds at what is allowed there."
    ]
}

/// The deepest setting at each speed that is safe there.
fn safe_rows(loads: &Loads<'_>) -> Vec<usize> {
    let found = loads.found;
    let is_safe = |row: &LoadAt| {
        let safe = found.safe_at(row.speed);
        safe.is_none_or(|safe| row.deflection.value <= safe.value * (1.0 + 1e-9))
    };
    let deepest = |speed| {
        let rows = found.loads.iter().enumerate();
        let here = rows.filter(|(_, row)| row.speed == speed && is_safe(row));
        here.max_by(|a, b| a.1.deflection.value.total_cmp(&b.1.deflection.value))
    };
    found.speeds.iter().filter_map(|&speed| Some(deepest(speed)?.0)).collect()
}

/// Some rows of the loads.
fn deepest(loads: &Loads<'_>, rows: &[usize]) -> Option<Table> {
    let mut table = cut(first_table(on_one_plane(loads))?, &COLUMNS, usize::MAX, &[]);
    for column in &mut table.columns {
        column.cells = rows.iter().map(|&row| column.cells[row].clone()).collect();
    }
    let all: Vec<usize> = (0..table.columns.len()).collect();
    Some(cut(table, &all, ROWS, &[]))
}
