//! Every force on the boat at one point, where it acts, and what all of them sum to.

use super::Run;
use crate::balance::{Contribution, Outcome, Point};
use crate::boat::degrees;
use crate::cli::screen::{Screen, paragraph};
use crate::cli::table::{Column, aligned, table};
use crate::units::number_with_decimals;

const DIRECTIONS: &str = "Forward along the course and up against gravity are positive. Points of action are measured \
forward of the transom along the keel, and above the keel line. Moments are about the centre of gravity, positive bow \
down. The hump factor is not a force of the balance: it raises the resistance found.";

/// Every force on the boat at one point.
pub(super) fn budget(run: &Run, point: &Point, screen: Screen) -> String {
    let speed = run.units.speed;
    let title = format!(
        "Forces and moments at {} {}, planes at {} deg",
        number_with_decimals(speed.value(point.speed), 2),
        speed.symbol(),
        number_with_decimals(degrees(point.deflection), 1)
    );
    let mut text = format!("\n{}\n", screen.heading(&title));
    let Some(budget) = run.balance().budget(point) else {
        let why = match point.outcome {
            Outcome::Running => "The 1964 cases are no balance of single forces.",
            outcome => outcome.meaning(),
        };
        text.push_str(&format!("  {why}\n"));
        return text;
    };
    let list = &budget.contributions;
    let (force, length, moment) = (run.units.force, run.units.length, run.units.moment);
    let column = |name: &str, unit: &str, sums: bool, value: &dyn Fn(&Contribution) -> f64| {
        let mut values: Vec<_> = list.iter().map(|c| Some(value(c))).collect();
        let sum: f64 = values.iter().flatten().sum();
        if sums {
            values.push(Some(sum));
        }
        Column::numbers(name, unit, aligned(&values, if sums { 5 } else { 3 }))
    };
    let mut names: Vec<_> = list.iter().map(|c| c.name.to_owned()).collect();
    names.push("SUM".to_owned());
    text.push_str(&table(
        &[
            Column::words("force", names),
            column("forward", force.symbol(), true, &|c| force.value(c.forward)),
            column("up", force.symbol(), true, &|c| force.value(c.up)),
            column("acts forward", length.symbol(), false, &|c| length.value(c.acts_forward)),
            column("acts above keel", length.symbol(), false, &|c| length.value(c.acts_above_keel)),
            column("moment", moment.symbol(), true, &|c| moment.value(c.moment_bow_down)),
        ],
        screen,
    ));
    text.push_str(&paragraph("  ", DIRECTIONS));
    for contribution in list {
        let source = format!("{}: {}", contribution.name, contribution.source);
        text.push_str(&paragraph("  - ", &source));
    }
    text
}
