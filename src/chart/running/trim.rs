//! Trim against speed, with what it should stay between.

use super::{Lines, say_where_lines_end};
use crate::balance::series::TankSeries;
use crate::balance::sweep::planing_start;
use crate::balance::{Point, TRIM_FLOOR_DEG};
use crate::boat::degrees;
use crate::chart::{Axis, Band, LineChart, LineStyle, Rule, Series, Symbol};
use crate::hydro::porpoising::PorpoisingLimit;

/// Room above the highest line, degrees.
const ROOM_DEG: f64 = 2.0;

/// Name of the points of the tank series.
const TANK_SERIES: &str = "tank series of real hulls, planes up";

/// Trim for each deflection, the points of a tank series, the porpoising limits for the least of them, the trim floor, and what is untested.
pub(super) fn chart(lines: &Lines<'_>, tank: &TankSeries) -> LineChart {
    let mut series = lines.each_deflection(&|running| Some(degrees(running.trim)));
    series.extend(tank_series(lines, tank, series.len()));
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
    say_where_lines_end(&mut chart, lines.sets.iter().flat_map(|(_, points)| points));
    chart
}

/// The trims of a tank series at the speeds of its models from the start of planing to top speed, as lone points; none outside its models.
fn tank_series(lines: &Lines<'_>, tank: &TankSeries, place: usize) -> Option<Series> {
    let (start, top) = (planing_start(lines.boat), lines.boat.drive().top_speed);
    let speeds = tank.speeds().into_iter().filter(|&speed| speed >= start && speed <= top);
    let said = speeds.filter_map(|speed| Some((lines.speed(speed), tank.at(speed).ok()?)));
    // A missing value keeps each point by itself.
    let points: Vec<(f64, f64)> =
        said.flat_map(|(x, says)| [(x, degrees(says.trim)), (x, f64::NAN)]).collect();
    let style = LineStyle { symbol: Some(Symbol::Cross), ..LineStyle::nth(place) };
    (!points.is_empty()).then(|| Series::new(TANK_SERIES, points).styled(style))
}

/// The points without the slow ones for which the end value of a porpoising curve stands in; all of them when it does so throughout.
fn on_the_curves(points: &[Point]) -> &[Point] {
    let is_on = |point: &Point| point.running.is_some_and(|running| !running.porpoising.clamped);
    let first = points.iter().position(is_on).unwrap_or(0);
    &points[first..]
}
