//! The points as comma-separated values, one row each.

use std::io;

use super::RunOutput;
use crate::balance::{Point, fields};
use crate::cli::data::rows::written;
use crate::field::{Field, Quantity, as_data};
use crate::listing::as_text;
use crate::units::UnitChoice;

/// All points under a row of names that carry the units: those given, else SI as in JSON.
///
/// A number that does not exist is an empty field; flags stand in one field,
/// apart by spaces, and behind it the loading condition and the lift model; before it the planes that she has.
pub(super) fn rows(runs: &[RunOutput], units: Option<UnitChoice>) -> Result<String, io::Error> {
    let name = |field: &Field<Point>| match units {
        None => field.si_name(),
        Some(units) => field.name_in(units),
    };
    let in_units = |si: f64, quantity: Quantity| {
        as_data(units.map_or(si, |units| quantity.shown(si, units))).to_string()
    };
    let number = |field: &Field<Point>, point: &Point| {
        field.si(point).map_or_else(String::new, |si| in_units(si, field.quantity))
    };
    let (set, answered) = fields::ALL.split_at(fields::SET);
    let mut head: Vec<String> = set.iter().map(name).collect();
    head.push("outcome".to_owned());
    head.extend(answered.iter().map(name));
    let length = units.map_or("m", |units| units.length.symbol());
    head.push("planes_source".to_owned());
    head.extend([format!("planes_span_{length}"), format!("planes_chord_{length}")]);
    head.extend(["flags", "condition", "model"].map(str::to_owned));
    let row = |run: &RunOutput, model: &'static str, point: &Point| {
        let mut row: Vec<String> = set.iter().map(|field| number(field, point)).collect();
        row.push(point.outcome.word().to_owned());
        row.extend(answered.iter().map(|field| number(field, point)));
        let planes = run.planes;
        row.push(planes.word().to_owned());
        let size = planes.pair.map(|pair| pair.in_metres());
        let side = |side: usize| size.map(|size| in_units(size[side], Quantity::Length));
        row.extend([0, 1].map(|place| side(place).unwrap_or_default()));
        row.extend([
            point.flags.words().join(" "),
            as_text(&run.boat().condition().name),
            model.to_owned(),
        ]);
        row
    };
    let rows = runs.iter().flat_map(|run| {
        run.points_by_model().map(move |(model, point)| (run, model.word(), point))
    });
    written(&head, rows.map(|(run, model, point)| row(run, model, point)))
}
