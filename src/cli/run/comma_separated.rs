//! The points as comma-separated values, one row each.

use std::io;

use super::Run;
use super::columns::{ANSWER, CONDITION, Column};
use crate::balance::Point;
use crate::units::UnitChoice;

/// All points under a row of names that carry the units: those given, else SI as in JSON.
///
/// A number that does not exist is an empty field; flags stand in one field,
/// apart by spaces, and the loading condition and the lift model in the last.
pub(super) fn rows(runs: &[Run], units: Option<UnitChoice>) -> Result<String, io::Error> {
    let name =
        |column: &Column| units.map_or_else(|| column.si_name(), |units| column.name_in(units));
    let number = |column: &Column, point: &Point| {
        let value = match units {
            None => column.si_value(point),
            Some(units) => column.value_in(point, units),
        };
        value.map_or_else(String::new, |value| value.to_string())
    };
    let mut head: Vec<String> = CONDITION.iter().map(name).collect();
    head.push("outcome".to_owned());
    head.extend(ANSWER.iter().map(name));
    head.extend(["flags", "condition", "model"].map(str::to_owned));
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(&head)?;
    for run in runs {
        for (model, point) in run.points_by_model() {
            let mut fields: Vec<String> = CONDITION.iter().map(|c| number(c, point)).collect();
            fields.push(point.outcome.word().to_owned());
            fields.extend(ANSWER.iter().map(|c| number(c, point)));
            fields.push(point.flags.words().join(" "));
            fields.push(run.boat().condition().name.clone());
            fields.push(model.word().to_owned());
            writer.write_record(&fields)?;
        }
    }
    let bytes = writer.into_inner().map_err(|error| error.into_error())?;
    String::from_utf8(bytes).map_err(io::Error::other)
}
