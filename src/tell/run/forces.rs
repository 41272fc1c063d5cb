//! Every force on the boat at one point, where it acts, and what all of them sum to.

use super::RunText;
use crate::balance::{Contribution, Outcome, Point};
use crate::boat::degrees;
use crate::document::{Block, Column, Table, aligned};
use crate::units::number_with_decimals;

const DIRECTIONS: &str = "Forward along the course and up against gravity are positive. Points of action are measured \
forward of the transom along the keel, and above the keel line. Moments are about the centre of gravity, positive bow \
down. The hump factor is not a force of the balance: it raises the resistance found.";

/// Every force on the boat at one point, or why there are none.
#[must_use]
pub fn forces(run: &RunText<'_>, point: &Point) -> Vec<Block> {
    let speed = run.units.speed;
    let title = Block::Section(format!(
        "Forces and moments at {} {}, planes at {} deg",
        number_with_decimals(speed.value(point.speed), 2),
        speed.symbol(),
        number_with_decimals(degrees(point.deflection), 1)
    ));
    let Some(budget) = run.balance().budget(point) else {
        let why = match point.outcome {
            Outcome::Running => "The 1964 cases are no balance of single forces.",
            _ => point.meaning(),
        };
        return vec![title, Block::Paragraph(why.to_owned())];
    };
    let source = |c: &Contribution| format!("{}: {}", c.name, c.source);
    vec![
        title,
        Block::Table(Table {
            columns: columns(run, &budget.contributions),
            notes: vec![DIRECTIONS.to_owned()],
            ..Table::default()
        }),
        Block::Points(budget.contributions.iter().map(source).collect()),
    ]
}

fn columns(run: &RunText<'_>, list: &[Contribution]) -> Vec<Column> {
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
    vec![
        Column::words("force", names),
        column("forward", force.symbol(), true, &|c| force.value(c.forward)),
        column("up", force.symbol(), true, &|c| force.value(c.up)),
        column("acts forward", length.symbol(), false, &|c| length.value(c.acts_forward)),
        column("acts above keel", length.symbol(), false, &|c| length.value(c.acts_above_keel)),
        column("moment", moment.symbol(), true, &|c| moment.value(c.moment_bow_down)),
    ]
}
