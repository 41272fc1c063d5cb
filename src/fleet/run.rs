//! How each boat of a table runs, a row for every point.

use uom::si::f64::{Angle, Velocity};

use super::cell::{Cell, Column};
use super::question::{RunQuestion, Steady, doubts};
use crate::balance::{Balance, Point, fields};
use crate::boat::sense::questions;
use crate::boat::{Boat, Fault};
use crate::field::{Field, as_data};
use crate::spelling::{by_likeness, plain};
use crate::units::quoted;

/// The numbers that are told when none are named.
pub(super) const USUAL: [Field<Point>; 9] = [
    fields::TRIM,
    fields::WETTED_LENGTH_RATIO,
    fields::WETTED_KEEL,
    fields::WETTED_CHINE,
    fields::RESISTANCE,
    fields::THRUST,
    fields::PLANE_LIFT,
    fields::PLANE_DRAG,
    fields::PORPOISING_LIMIT,
];

/// The number of a point by its name without the unit.
///
/// # Errors
/// If there is none of that name.
pub fn run_field(name: &str) -> Result<Field<Point>, Fault> {
    let answered = &fields::ALL[fields::SET..];
    let wanted = plain(name);
    let found = answered.iter().find(|field| [field.key, &field.si_name()].contains(&&*wanted));
    found.copied().ok_or_else(|| Fault {
        key: "run.fields".to_owned(),
        problem: format!("there is no field `{}`", quoted(name)),
        remedy: format!(
            "one of these, the likeliest first: {}",
            by_likeness(&wanted, answered.iter().map(|field| field.key)).join(", ")
        ),
    })
}

pub(super) fn columns(question: &RunQuestion) -> Vec<Column> {
    let column = |field: &Field<Point>| Column::quantity(field.key, field.quantity, question.units);
    let set = fields::ALL[..fields::SET].iter().map(column);
    let answered = question.fields.iter().map(column);
    let words = ["flags", "questions"].map(Column::text);
    set.chain([Column::text("outcome")]).chain(answered).chain(words).collect()
}

/// The points of a boat: for each deflection all speeds.
pub(super) fn answer(
    question: &RunQuestion,
    boat: &Boat,
    steady: &Steady,
) -> Result<Vec<Vec<Cell>>, Fault> {
    let balance = Balance::of(boat, &question.settings);
    let asked = doubts(questions(boat).iter().map(|question| question.word));
    let row = |deflection: Angle, speed: Velocity| {
        let point = balance.point(speed, deflection)?;
        let number = |field: &Field<Point>| {
            let shown = match question.units {
                None => field.si(&point),
                Some(units) => field.shown(&point, units),
            };
            Cell::number(shown.map(as_data))
        };
        let mut cells: Vec<Cell> = fields::ALL[..fields::SET].iter().map(number).collect();
        cells.push(Cell::Text(point.outcome.word().into()));
        cells.extend(question.fields.iter().map(number));
        cells.extend([Cell::words(&point.flags.words()), asked.clone()]);
        Ok(cells)
    };
    let one = |own: Option<Angle>| own.map(|own| vec![own]);
    let deflections = one(steady.deflection).unwrap_or_else(|| question.deflections.clone());
    let speeds = steady.speed.map_or_else(|| question.speeds.clone(), |own| vec![own]);
    let all = deflections
        .iter()
        .flat_map(|&deflection| speeds.iter().map(move |&speed| (deflection, speed)));
    all.map(|(deflection, speed)| row(deflection, speed)).collect()
}
