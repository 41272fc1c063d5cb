//! Trim and resistance by each lift model, with the band between them.

use super::{Lines, from_nought};
use crate::balance::{LiftModel, Point, Running, TRIM_FLOOR_DEG};
use crate::boat::degrees;
use crate::chart::{Axis, Band, LineChart, Rule, Series};

/// Room above the highest line, degrees.
const ROOM_DEG: f64 = 2.0;
/// What the band is.
const BAND: &str = "between the lift models";

/// The boat at one deflection by every model.
pub(super) struct ByModel<'a> {
    /// By the model chosen.
    pub lines: Lines<'a>,
    /// By each model at the same speeds, the one chosen first.
    pub points: Vec<(LiftModel, Vec<Point>)>,
}

impl ByModel<'_> {
    /// Trim by each model.
    pub fn trim(&self) -> LineChart {
        let trim = |running: &Running| degrees(running.trim);
        let series = self.series(&trim);
        let values = series.iter().flat_map(|line| &line.points).map(|point| point.1);
        let highest = values.filter(|trim| trim.is_finite()).fold(TRIM_FLOOR_DEG, f64::max);
        let axis = Axis::new("Running trim", "°").over(0.0, (highest + ROOM_DEG).ceil());
        let mut chart = self.chart("Running trim by each lift model", axis, &trim);
        chart.series = series;
        chart.floors.push(Rule::new("least safe trim, 2°", TRIM_FLOOR_DEG));
        chart
    }

    /// Resistance by each model.
    pub fn resistance(&self) -> LineChart {
        let unit = self.lines.units.force;
        let resistance = |running: &Running| unit.value(running.resistance);
        let series = self.series(&resistance);
        let axis = from_nought(Axis::new("Resistance", unit.symbol()), &series);
        let mut chart = self.chart("Resistance by each lift model", axis, &resistance);
        chart.series = series;
        chart
    }

    fn series(&self, value: &dyn Fn(&Running) -> f64) -> Vec<Series> {
        let line = |points: &[Point]| self.lines.line(points, &|running| Some(value(running)));
        self.points.iter().map(|(model, points)| Series::new(model.name(), line(points))).collect()
    }

    fn chart(&self, title: &str, axis: Axis, value: &dyn Fn(&Running) -> f64) -> LineChart {
        let mut chart = self.lines.chart(title, axis);
        if let Some((deflection, _)) = self.lines.sets.first() {
            let subtitle = chart.subtitle.take().unwrap_or_default();
            chart.subtitle = Some(format!("{subtitle} · {}", self.lines.name(*deflection)));
        }
        chart.footnote = Some(super::caution("each model named", self.lines.has_planes_down()));
        chart.bands.push(self.band(value));
        chart.untested = self.lines.untested();
        chart
    }

    /// Least and largest value over the models, where she runs by all of them.
    fn band(&self, value: &dyn Fn(&Running) -> f64) -> Band {
        let speeds = self.points.first().map_or(&[][..], |(_, points)| points);
        let (mut lower, mut upper) = (Vec::new(), Vec::new());
        for (at, point) in speeds.iter().enumerate() {
            let values: Option<Vec<f64>> =
                self.points.iter().map(|(_, by)| by[at].running.as_ref().map(value)).collect();
            let Some(values) = values else { continue };
            let speed = self.lines.speed(point.speed);
            lower.push((speed, values.iter().copied().fold(f64::INFINITY, f64::min)));
            upper.push((speed, values.iter().copied().fold(f64::NEG_INFINITY, f64::max)));
        }
        Band::new(BAND, lower, upper)
    }
}
