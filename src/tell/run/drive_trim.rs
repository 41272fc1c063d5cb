//! What trimming the drive does with planes up: the free alternative.

use super::RunText;
use crate::balance::Point;
use crate::behaviour::drive_trim::DriveTrimmed;
use crate::boat::{Measure, degrees};
use crate::document::{Block, Column, Table, fixed};

const EXPLANATION: &str = "Planes up. Drive trim is the angle of the propeller shaft to the keel, negative when trimmed in; the thrust turns about \
the point where it passes the transom. 'per degree' is running trim for one degree that the drive is trimmed out. Only the turned \
thrust is counted: leg and propeller in a slanting flow lift too, so that a drive does more than this; try it before drilling. Trimmed \
far in at speed it makes the bow steer; never run under 2 deg.";

/// The boat by drive trim, planes up; nothing when none were asked for.
#[must_use]
pub fn drive_trims(run: &RunText<'_>) -> Vec<Block> {
    let Some(trims) = run.drive_trims else { return Vec::new() };
    let unit = run.units.speed;
    let speeds: Vec<_> =
        trims.as_set.points.iter().map(|point| Some(unit.value(point.speed))).collect();
    let name = |trimmed: &DriveTrimmed| Measure::Angle(trimmed.drive_trim).to_string();
    let mut columns = vec![
        Column::numbers("speed", unit.symbol(), fixed(&speeds, 1)),
        Column::numbers(
            &format!("as set, {}", name(&trims.as_set)),
            "trim, deg",
            trim_cells(&trims.as_set.points),
        ),
    ];
    for trimmed in &trims.asked {
        let change = trimmed.points.iter().zip(&trims.as_set.points).map(resistance_change);
        columns.push(Column::numbers(&name(trimmed), "trim, deg", trim_cells(&trimmed.points)));
        let change: Vec<_> = change.map(|share| share.map(|share| 100.0 * share)).collect();
        columns.push(Column::numbers("resistance", "change %", fixed(&change, 1)));
    }
    columns.push(Column::numbers("per degree", "deg", fixed(&trims.per_degree, 2)));
    let notes = vec![EXPLANATION.to_owned()];
    vec![
        Block::Section("Drive trimmed instead of planes".to_owned()),
        Block::Table(Table { columns, notes, ..Table::default() }),
    ]
}

fn trim_cells(points: &[Point]) -> Vec<String> {
    let cell = |point: &Point| match &point.running {
        Some(running) => fixed(&[Some(degrees(running.trim))], 2).concat(),
        None => point.outcome.word().to_owned(),
    };
    points.iter().map(cell).collect()
}

fn resistance_change((trimmed, as_set): (&Point, &Point)) -> Option<f64> {
    Some((trimmed.running?.resistance / as_set.running?.resistance).value - 1.0)
}
