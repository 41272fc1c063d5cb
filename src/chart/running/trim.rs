//! Trim against speed, with what it should stay between.

use super::Lines;
use crate::balance::{Outcome, Point, TRIM_FLOOR_DEG};
use crate::boat::degrees;
use crate::chart::{Axis, Band, LineChart, Rule};
use crate::hydro::porpoising::PorpoisingLimit;

/// Room above the highest line, degrees.
const ROOM_DEG: f64 = 2.0;

/// Trim for each deflection, the porpoising limits for the least of them, the trim floor, and what is untested.
pub(super) fn chart(lines: &Lines<'_>) -> LineChart {
    let series = lines.each_deflection(&|running| Some(degrees(running.trim)));
    let trims = series.iter().flat_map(|line| &line.points).map(|point| point.1);
    let highest = trims.filter(|trim| trim.is_finite()).fold(TRIM_FLOOR_DEG, f64::max);
    let axis = Axis::new("Running trim", "°").over(0.0, (highest + ROOM_DEG).ceil());
    let mut chart = lines.chart("Running trim against speed", axis);
    chart.series = series;
    if let Some((_, points)) = lines.least_deflected() {
        let points = on_the_curves(points);
        let edge = |limit: fn(&PorpoisingLimit) -> f64| {
            lines.line(points, &|running| Some(limit(&running.porpoising)))
        };
        let [lower, upper] = [edge(PorpoisingLimit::lower_deg), edge(PorpoisingLimit::upper_deg)];
        chart.bands.push(Band::new("porpoising begins (Day & Haag, Celano)", lower, upper));
    }
    chart.floors.push(Rule::new("least safe trim, 2°", TRIM_FLOOR_DEG));
    chart.untested = lines.untested();
    let outcomes = lines.sets.iter().flat_map(|(_, points)| points).map(|point| point.outcome);
    if let Some(ended) = outcomes.into_iter().find(|&outcome| outcome != Outcome::Running) {
        let caution = chart.footnote.take().unwrap_or_default();
        chart.footnote =
            Some(format!("A line ends where there is no balance ({ended}). {caution}"));
    }
    chart
}

/// The points without the slow ones for which the end value of a porpoising curve stands in; all of them when it does so throughout.
fn on_the_curves(points: &[Point]) -> &[Point] {
    let is_on = |point: &Point| point.running.is_some_and(|running| !running.porpoising.clamped);
    let first = points.iter().position(is_on).unwrap_or(0);
    &points[first..]
}
