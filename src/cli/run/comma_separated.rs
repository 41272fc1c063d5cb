//! The points as comma-separated values, one row each.

use std::io;

use super::Run;
use crate::balance::{Point, fields};
use crate::field::Field;
use crate::units::UnitChoice;

/// All points under a row of names that carry the units: those given, else SI as in JSON.
///
/// A number that does not exist is an empty field; flags stand in one field,
/// apart by spaces, and the loading condition and the lift model in the last.
pub(super) fn rows(runs: &[Run], units: Option<UnitChoice>) -> Result<String, io::Error> {
    let name = |field: &Field<Point>| match units {
        None => field.si_name(),
        Some(units) => field.name_in(units),
    };
    let number = |field: &Field<Point>, point: &Point| {
        let value = match units {
            None => field.si(point),
            Some(units) => field.shown(point, units),
        };
        value.map_or_else(String::new, |value| value.to_string())
    };
    let (set, answered) = fields::ALL.split_at(fields::SET);
    let mut head: Vec<String> = set.iter().map(name).collect();
    head.push("outcome".to_owned());
    head.extend(answered.iter().map(name));
    head.extend(["flags", "condition", "model"].map(str::to_owned));
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(&head)?;
    for run in runs {
        for (model, point) in run.points_by_model() {
            let mut row: Vec<String> = set.iter().map(|field| number(field, point)).collect();
            row.push(point.outcome.word().to_owned());
            row.extend(answered.iter().map(|field| number(field, point)));
            row.extend([
                point.flags.words().join(" "),
                as_text(&run.boat().condition().name),
                model.word().to_owned(),
            ]);
            writer.write_record(&row)?;
        }
    }
    let bytes = writer.into_inner().map_err(|error| error.into_error())?;
    String::from_utf8(bytes).map_err(io::Error::other)
}

/// A text that a spreadsheet does not take for a formula: an apostrophe stands before one that begins like one.
fn as_text(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@']) { format!("'{text}") } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::as_text;

    #[test]
    fn regression_no_name_is_a_formula_to_a_spreadsheet() {
        assert_eq!(as_text("=HYPERLINK(\"x\",1)"), "'=HYPERLINK(\"x\",1)");
        assert_eq!(as_text("six aboard"), "six aboard");
    }
}
