//! What one plane lifts.

use super::Lines;
use crate::chart::{Axis, Band, LineChart, Region, Series};
use crate::hydro;
use crate::plane::effect::{self, TESTED_SPEED_COEFFICIENT};

/// What the band rests on.
const FOOTNOTE: &str = "After Brown 1971 and Savitsky & Brown 1976. The spread from boat to boat is judged, not measured; a sea trial fixes it.";

/// Lift of one plane for each degree of its deflection, against speed.
pub(super) fn lift_per_degree(lines: &Lines<'_>) -> LineChart {
    let unit = lines.units.force;
    let axis = Axis::new("Lift of one plane", format!("{} per degree", unit.symbol()));
    let mut chart = lines.chart("Lift of one plane for each degree of deflection", axis);
    let (Some(pair), Some((_, points))) = (lines.boat.planes(), lines.sets.first()) else {
        return chart;
    };
    let density = lines.boat.water().density;
    let factor = lines.boat.plane_effectiveness();
    let lift = |speed| {
        factor * unit.value(effect::lift_per_degree(pair, lines.boat.hull(), density, speed))
    };
    let line = points.iter().map(|point| (lines.speed(point.speed), lift(point.speed))).collect();
    let name = match lines.boat.input().plane_effectiveness {
        Some(_) => "as the boat file has it",
        None => "as published",
    };
    chart.series.push(Series::new(name, line));
    let slowest = *TESTED_SPEED_COEFFICIENT.start();
    let tested = hydro::speed_at(slowest, lines.boat.hull().chine_beam);
    let label = format!("untested (Cv below {slowest})");
    chart.footnote = Some(FOOTNOTE.to_owned());
    chart.untested.push(Region::new(label, f64::NEG_INFINITY, lines.speed(tested)));
    let log_spread = effect::effectiveness_log_spread(lines.boat);
    let [weak, strong] =
        [0.05, 0.95].map(|share| effect::effectiveness_quantile(share, log_spread));
    let edge = |factor: f64| {
        points.iter().map(|p| (lines.speed(p.speed), factor * lift(p.speed))).collect::<Vec<_>>()
    };
    chart.bands.push(Band::new("where nine boats in ten are expected", edge(weak), edge(strong)));
    chart
}
