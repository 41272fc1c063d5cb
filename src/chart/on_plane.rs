//! Charts of getting on plane: resistance against thrust, and speed against time.

use uom::si::f64::{Time, Velocity};
use uom::si::{ratio::percent, time::second};

use super::running::{NamedChart, from_nought};
use super::{Axis, LineChart, Marker, Region, Series, Subject};
use crate::behaviour::from_rest::{Basis, Way};
use crate::behaviour::on_plane::{FullPowerRun, OnPlane, RunPoint, Tightest, in_unit};
use crate::boat::degrees;
use crate::boat::measure::plain_number;
use crate::units::{UnitChoice, number_with_decimals};

const CAUTION: &str = "Full power in calm water; thrust and what lies below planing are rough. Confirm by a sea trial.";
/// Thrust is cut off at so many times the highest resistance, so that the resistance can be read.
const MOST_THRUST: f64 = 1.6;

/// `thrust` and `speed-by-time`.
#[must_use]
pub fn on_plane_charts(subject: Subject<'_>, answer: &OnPlane) -> Vec<NamedChart> {
    let subject = FromRest { subject, answer, units: subject.units };
    vec![
        NamedChart { stem: "thrust", chart: subject.thrust() },
        NamedChart { stem: "speed-by-time", chart: subject.speed_by_time() },
    ]
}

struct FromRest<'a> {
    subject: Subject<'a>,
    answer: &'a OnPlane,
    units: UnitChoice,
}

impl FromRest<'_> {
    fn chart(&self, title: &str, x: Axis, y: Axis) -> LineChart {
        let mut chart = LineChart::new(title, x, y);
        let estimated = if self.answer.effects.is_empty() { "" } else { "thrust estimated" };
        chart.subtitle = Some(self.subject.subtitle(&[estimated]));
        chart.footnote = Some(CAUTION.to_owned());
        chart
    }

    fn speed(&self, speed: Velocity) -> f64 {
        self.units.speed.value(speed)
    }

    fn name(&self, way: Way) -> String {
        match way {
            Way::Up if self.answer.pair.is_none() => "without planes".to_owned(),
            Way::Up => "planes up".to_owned(),
            Way::Held(deflection) => format!("held at {}°", plain_number(degrees(deflection))),
            Way::Best => "planes used best".to_owned(),
        }
    }

    /// The highest speed worth showing: a little beyond the fastest top speed.
    fn last_speed(&self) -> f64 {
        let tops = self.answer.runs.iter().filter_map(FullPowerRun::top_speed);
        let highest = tops.map(|v| self.speed(v)).fold(self.speed(self.answer.target), f64::max);
        (1.05 * highest).ceil()
    }

    fn line(&self, rows: &[RunPoint], value: impl Fn(&RunPoint) -> Option<f64>) -> Vec<(f64, f64)> {
        let last = self.last_speed();
        let rows = rows.iter().filter(|row| self.speed(row.speed) <= last);
        rows.map(|row| (self.speed(row.speed), value(row).unwrap_or(f64::NAN))).collect()
    }

    fn thrust(&self) -> LineChart {
        let force = self.units.force;
        let mut series: Vec<Series> = self
            .answer
            .runs
            .iter()
            .map(|run| {
                let drag = |row: &RunPoint| row.resistance.map(|n| force.value(n));
                Series::new(self.name(run.way), self.line(&run.rows, drag))
            })
            .collect();
        let drags = series.iter().flat_map(|line| &line.points).map(|point| point.1);
        let most = MOST_THRUST * drags.filter(|y| y.is_finite()).fold(0.0, f64::max);
        if let Some(run) = self.answer.runs.first() {
            let thrust = |row: &RunPoint| Some(force.value(row.thrust)).filter(|&n| n <= most);
            series.push(Series::new("thrust at full power", self.line(&run.rows, thrust)));
        }
        let x = Axis::new("Speed", self.units.speed.symbol()).over(0.0, self.last_speed());
        let y = from_nought(Axis::new("Force", force.symbol()), &series);
        let mut chart = self.chart("Resistance against available thrust", x, y);
        chart.series = series;
        for run in self.answer.runs.iter().filter(|run| matches!(run.way, Way::Up | Way::Best)) {
            chart.markers.extend(run.tightest.as_ref().map(|place| self.marker(run, place)));
        }
        if let Some(joint) = self.answer.runs.iter().find_map(|run| run.joint) {
            let mut rows = self.answer.runs.iter().flat_map(|run| &run.rows);
            let label = if rows.any(|row| row.basis == Basis::Regression) {
                "below planing: regression, interpolated to rest"
            } else {
                "below planing: interpolated"
            };
            let below = Region::new(label, f64::NEG_INFINITY, self.speed(joint));
            chart.untested.push(below);
        }
        chart
    }

    fn marker(&self, run: &FullPowerRun, place: &Tightest) -> Marker {
        let left = number_with_decimals(place.margin().get::<percent>(), 0);
        let label = format!("{left} % of the thrust left, {}", self.name(run.way));
        Marker::new(label, self.speed(place.speed), self.units.force.value(place.resistance))
    }

    fn speed_by_time(&self) -> LineChart {
        let last = self.last_time();
        let line = |run: &FullPowerRun| {
            let timed = run.rows.iter().filter_map(|row| Some((row.time?, row.speed)));
            let points = timed.map(|(time, speed)| (time.get::<second>(), self.speed(speed)));
            Series::new(self.name(run.way), points.filter(|point| point.0 <= last).collect())
        };
        let series: Vec<Series> = self.answer.runs.iter().map(line).collect();
        let y = from_nought(Axis::new("Speed", self.units.speed.symbol()), &series);
        let x = Axis::new("Time from rest", "s").over(0.0, last);
        let mut chart = self.chart("Speed against time, full thrust at once from rest", x, y);
        chart.series = series;
        let begins = self.speed(self.answer.target);
        for run in &self.answer.runs {
            if let Some(time) = run.time {
                let seconds = number_with_decimals(time.get::<second>(), 1);
                let likely = run.likely.as_ref().map_or(seconds, |likely| likely.seconds());
                let label = format!("likely {}, {}", in_unit(&likely, "s"), self.name(run.way));
                chart.markers.push(Marker::new(label, time.get::<second>(), begins));
            }
        }
        chart
    }

    /// Time shown: three times that to the target, or to nine tenths of where she stops.
    fn last_time(&self) -> f64 {
        let slowest = self.answer.runs.iter().filter_map(|run| run.time).map(|t| t.get::<second>());
        let to_target = slowest.fold(0.0, f64::max);
        let most = self.answer.runs.iter().filter_map(|run| {
            let stop = run.stops_at? * 0.9;
            let timed = run.rows.iter().filter(|row| row.speed <= stop);
            timed.filter_map(|row| row.time).next_back().map(|t: Time| t.get::<second>())
        });
        let whole = most.fold(to_target, f64::max);
        let wanted = if to_target > 0.0 { whole.min(3.0 * to_target) } else { whole };
        wanted.max(1.0).ceil()
    }
}
