//! Trim against speed, with what it should stay between.

use super::Lines;
use crate::balance::TRIM_FLOOR_DEG;
use crate::boat::degrees;
use crate::chart::{Axis, Band, LineChart, Rule};

/// Room above the highest line, degrees.
const ROOM_DEG: f64 = 2.0;

/// Trim for each deflection, the porpoising limits for the first of them, the trim floor, and what is untested.
pub(super) fn chart(lines: &Lines<'_>) -> LineChart {
    let series = lines.each_deflection(&|running| Some(degrees(running.trim)));
    let trims = series.iter().flat_map(|line| &line.points).map(|point| point.1);
    let highest = trims.filter(|trim| trim.is_finite()).fold(TRIM_FLOOR_DEG, f64::max);
    let axis = Axis::new("Running trim", "°").over(0.0, (highest + ROOM_DEG).ceil());
    let mut chart = lines.chart("Running trim against speed", axis);
    chart.series = series;
    if let Some((_, points)) = lines.sets.first() {
        let edge = |upper: bool| {
            lines.line(points, &|running| {
                let limit = running.porpoising;
                Some(if upper { limit.upper_deg() } else { limit.lower_deg() })
            })
        };
        chart.bands.push(Band::new(
            "porpoising begins (two published limits)",
            edge(false),
            edge(true),
        ));
    }
    chart.floors.push(Rule::new("least safe trim, 2°", TRIM_FLOOR_DEG));
    chart.untested = lines.untested();
    chart
}
