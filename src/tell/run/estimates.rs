//! What was estimated, and how far the answer moves for it.

use super::RunText;
use crate::balance::Point;
use crate::balance::sensitivity::{Landmarks, Sensitivity};
use crate::boat::degrees;
use crate::boat::measure::plain_number;
use crate::document::{Block, Column, Table};
use crate::units::{UnitChoice, number_with_decimals};

/// The estimates with their effect, and the rules behind them; nothing when all is known.
#[must_use]
pub fn estimates(run: &RunText<'_>) -> Vec<Block> {
    if run.sensitivities.is_empty() {
        return Vec::new();
    }
    let rule = |sensitivity: &Sensitivity| {
        let estimate = &sensitivity.estimate;
        format!("{}: {}.", estimate.key, estimate.rule)
    };
    vec![
        Block::Alert("ESTIMATED: the file does not give these".to_owned()),
        Block::Paragraph(EXPLANATION.to_owned()),
        Block::Table(Table { columns: columns(run), ..Table::default() }),
        Block::Points(run.sensitivities.iter().map(rule).collect()),
    ]
}

fn columns(run: &RunText<'_>) -> Vec<Column> {
    let units = run.units;
    let of = |value: &dyn Fn(&Sensitivity) -> String| run.sensitivities.iter().map(value).collect();
    let effect = |value: &dyn Fn(&Landmarks) -> Option<f64>, decimals: usize| {
        let cell = |end: &Option<Landmarks>| {
            let value = end.as_ref().and_then(value);
            value.map_or("none".to_owned(), |value| number_with_decimals(value, decimals))
        };
        of(&|s| format!("{} .. {}", cell(&s.low), cell(&s.high)))
    };
    let resistance = |landmarks: &Landmarks| {
        landmarks.top.running.map(|running| units.force.value(running.resistance))
    };
    let largest = run.sensitivities.iter().filter_map(|s| resistance(s.high.as_ref()?));
    let decimals = decimals_for(largest.fold(0.0_f64, f64::max));
    vec![
        Column::words("value", of(&|s| s.estimate.key.to_owned())),
        Column::words("used", of(&|s| used(s, units))),
        Column::words("likely range", of(&|s| likely_range(s, units))),
        Column::numbers("trim at", "hump, deg", effect(&|l| trim_deg(l.hump.as_ref()?), 1)),
        Column::numbers("trim at top", "speed, deg", effect(&|l| trim_deg(&l.top), 1)),
        Column::numbers(
            "resistance at",
            &format!("top speed, {}", units.force.symbol()),
            effect(&resistance, decimals),
        ),
    ]
}

const EXPLANATION: &str = "With planes up, the answers move as shown when one value alone goes from the low to the high end \
of its likely range. Give the values that move them most.";

fn used(sensitivity: &Sensitivity, units: UnitChoice) -> String {
    let (value, unit) = sensitivity.estimate.value.in_units(units);
    format!("{} {unit}", plain_number(value))
}

/// Without the unit, which stands beside the value used.
fn likely_range(sensitivity: &Sensitivity, units: UnitChoice) -> String {
    let [low, high] = [sensitivity.estimate.low, sensitivity.estimate.high]
        .map(|end| plain_number(end.in_units(units).0));
    format!("{low} .. {high}")
}

fn trim_deg(point: &Point) -> Option<f64> {
    point.running.map(|running| degrees(running.trim))
}

/// Decimals that show three digits.
fn decimals_for(largest: f64) -> usize {
    match largest {
        x if x >= 100.0 => 0,
        x if x >= 10.0 => 1,
        _ => 2,
    }
}
