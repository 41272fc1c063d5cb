//! The points as comma-separated values, one row each.

use super::Run;
use super::columns::{ANSWER, CONDITION, Column};
use crate::balance::Point;
use crate::units::UnitChoice;

/// All points under a row of names that carry the units: those given, else SI as in JSON.
///
/// A number that does not exist is an empty field; flags stand in one field,
/// apart by spaces. The last field names the lift model.
pub(super) fn rows(run: &Run, units: Option<UnitChoice>) -> String {
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
    head.extend(["flags".to_owned(), "model".to_owned()]);
    let mut text = line(&head);
    let chosen = run.points().map(|point| (run.settings.model, point));
    let others = run
        .opinions
        .iter()
        .flat_map(|opinion| opinion.sets.iter().flatten().map(|point| (opinion.model, point)));
    for (model, point) in chosen.chain(others) {
        let mut fields: Vec<String> = CONDITION.iter().map(|c| number(c, point)).collect();
        fields.push(point.outcome.word().to_owned());
        fields.extend(ANSWER.iter().map(|c| number(c, point)));
        fields.push(point.flags.words().join(" "));
        fields.push(model.word().to_owned());
        text.push_str(&line(&fields));
    }
    text
}

/// One line. Names, numbers and flags hold nothing that would have to be quoted.
fn line(fields: &[String]) -> String {
    format!("{}\n", fields.join(","))
}
