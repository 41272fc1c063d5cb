//! Charts of a running boat: trim, resistance, power and what a plane lifts, against speed.
//!
//! Unlike the rest of this module these know a boat; they fill [`LineChart`]s
//! and leave the drawing to it.

mod models;
pub mod own;
mod plane;
mod resistance;
mod trim;

use uom::si::f64::{Angle, Velocity};
use uom::si::velocity::meter_per_second;

use super::{Axis, LineChart, LineStyle, Region, Series, Subject};
use crate::balance::series::TankSeries;
use crate::balance::sweep::{planing_start, speeds, sweep};
use crate::balance::{Balance, LiftModel, Outcome, Point, Running, Settings};
use crate::boat::measure::plain_number;
use crate::boat::{Boat, Fault, degrees};
use crate::flag::Flag;
use crate::hydro;
use crate::plane::effect::TESTED_SPEED_COEFFICIENT;
use crate::size::ScheduleRow;
use crate::units::{SpeedUnit, UnitChoice};

/// Steps of a line between whole units of speed.
const STEPS_IN_A_UNIT: f64 = 4.0;
/// Speeds of a line at least, whatever the unit.
const FEWEST_SPEEDS: f64 = 60.0;
/// Steps of an axis that begins at nought, at most.
const MOST_STEPS: f64 = 8.0;

/// Name of the line with the planes set as advised, and how wide it is.
const AS_SET: &str = "set as advised";
const AS_SET_PX: f64 = 3.0;

/// What every chart closes with.
pub(super) fn caution(after: &str, planes: bool) -> String {
    let planes = if planes { ", planes after Savitsky & Brown 1976" } else { "" };
    format!(
        "Estimate for calm water and straight running after {after}{planes}; confirm by a sea trial."
    )
}

/// A chart with the name of its files.
#[derive(Clone, Debug, PartialEq)]
pub struct NamedChart {
    /// File name without its ending.
    pub stem: &'static str,
    /// The chart.
    pub chart: LineChart,
}

/// All charts of a boat from the start of planing to top speed, with her planes at each deflection.
///
/// `trim`, `resistance` and `power`; with several deflections also
/// `resistance-parts`, at the first of them; with planes also `plane-lift`. With a schedule of the
/// planes advised their line stands beside those of the deflections.
///
/// # Errors
/// As [`Balance::point`].
pub fn running_charts(
    subject: Subject<'_>,
    settings: &Settings,
    deflections: &[Angle],
    schedule: &[ScheduleRow],
) -> Result<Vec<NamedChart>, Fault> {
    let boat = subject.boat;
    let mut lines = Lines::of(subject, settings, deflections)?;
    let balance = Balance::of(boat, settings);
    let as_set = schedule.iter().map(|row| balance.point(row.speed, row.deflection));
    lines.as_set = as_set.collect::<Result<_, Fault>>()?;
    let mut charts = vec![("trim", trim::chart(&lines, &TankSeries::of(boat, settings)))];
    if lines.sets.len() > 1 {
        charts.push(("resistance", resistance::totals(&lines)));
        charts.push(("resistance-parts", resistance::parts(&lines)));
    } else {
        charts.push(("resistance", resistance::parts(&lines)));
    }
    charts.push(("power", resistance::power(&lines)));
    if boat.planes().is_some() {
        charts.push(("plane-lift", plane::lift_per_degree(&lines)));
    }
    Ok(charts.into_iter().map(|(stem, chart)| NamedChart { stem, chart }).collect())
}

/// `trim-by-model` and `resistance-by-model`: the boat at one deflection by every lift model, the one of the settings first.
///
/// # Errors
/// As [`Balance::point`]; the 1964 cases know only their own lift.
pub fn model_charts(
    subject: Subject<'_>,
    settings: &Settings,
    deflection: Angle,
) -> Result<Vec<NamedChart>, Fault> {
    let boat = subject.boat;
    let lines = Lines::of(subject, settings, &[deflection])?;
    let speeds = speeds(boat, step(boat, subject.units.speed));
    let others = LiftModel::ALL.into_iter().filter(|&model| model != settings.model);
    let points = std::iter::once(settings.model).chain(others).map(|model| {
        let balance = Balance::of(boat, &Settings { model, ..*settings });
        Ok((model, sweep(&balance, &speeds, deflection)?))
    });
    let by_model = models::ByModel { points: points.collect::<Result<_, Fault>>()?, lines };
    Ok(vec![
        NamedChart { stem: "trim-by-model", chart: by_model.trim() },
        NamedChart { stem: "resistance-by-model", chart: by_model.resistance() },
    ])
}

/// The boat at closely spaced speeds, once for all charts.
struct Lines<'a> {
    subject: Subject<'a>,
    boat: &'a Boat,
    units: UnitChoice,
    model: LiftModel,
    sets: Vec<(Angle, Vec<Point>)>,
    /// With the planes set as advised, at the speeds of their schedule.
    as_set: Vec<Point>,
}

impl<'a> Lines<'a> {
    fn of(subject: Subject<'a>, settings: &Settings, deflections: &[Angle]) -> Result<Self, Fault> {
        let Subject { boat, units, .. } = subject;
        let balance = Balance::of(boat, settings);
        let speeds = speeds(boat, step(boat, units.speed));
        let set = |&deflection: &Angle| Ok((deflection, sweep(&balance, &speeds, deflection)?));
        let sets = deflections.iter().map(set).collect::<Result<_, Fault>>()?;
        Ok(Self { subject, boat, units, model: settings.model, sets, as_set: Vec::new() })
    }

    /// An empty chart over speed, with everything that all of them say.
    fn chart(&self, title: &str, y: Axis) -> LineChart {
        let planing = self.speed(planing_start(self.boat));
        let to = self.speed(self.boat.drive().top_speed).max(planing + 1.0);
        // Room for the name of the stretch below planing.
        let from = (planing - ((to - planing) / 20.0).max(1.0)).floor();
        let x = Axis::new("Speed", self.units.speed.symbol()).over(from.max(0.0), to);
        let mut chart = LineChart::new(title, x, y);
        chart.subtitle = Some(self.subject.subtitle(&[]));
        chart.footnote = Some(caution(self.model.name(), self.has_planes_down()));
        chart
    }

    /// A speed in the unit of the axis.
    fn speed(&self, speed: Velocity) -> f64 {
        self.units.speed.value(speed)
    }

    /// The points (speed, value) of a set, broken where the boat does not run.
    fn line(&self, points: &[Point], value: &dyn Fn(&Running) -> Option<f64>) -> Vec<(f64, f64)> {
        let y = |point: &Point| point.running.as_ref().and_then(value).unwrap_or(f64::NAN);
        points.iter().map(|point| (self.speed(point.speed), y(point))).collect()
    }

    /// One line for each deflection.
    fn each_deflection(&self, value: &dyn Fn(&Running) -> Option<f64>) -> Vec<Series> {
        let sets = self.sets.iter();
        let mut all: Vec<Series> = sets
            .map(|(angle, points)| Series::new(self.name(*angle), self.line(points, value)))
            .collect();
        if !self.as_set.is_empty() {
            let style = LineStyle { width_px: AS_SET_PX, ..LineStyle::nth(all.len()) };
            all.push(Series::new(AS_SET, self.line(&self.as_set, value)).styled(style));
        }
        all
    }

    /// The set with the planes furthest up: her load on the bottom is nearest the bare hull's.
    fn least_deflected(&self) -> Option<&(Angle, Vec<Point>)> {
        self.sets.iter().min_by(|a, b| degrees(a.0).total_cmp(&degrees(b.0)))
    }

    fn name(&self, deflection: Angle) -> String {
        match (self.boat.planes(), degrees(deflection)) {
            (None, _) => "without planes".to_owned(),
            (Some(_), 0.0) => "planes up (0°)".to_owned(),
            (Some(_), deg) => format!("{}° down", plain_number(deg)),
        }
    }

    fn has_planes_down(&self) -> bool {
        self.sets.iter().any(|(deflection, _)| degrees(*deflection) > 0.0)
    }

    /// Speeds at which the boat does not plane, or runs with a wetted length beyond her bottom or 4 beams.
    fn untested_hull(&self) -> Vec<Region> {
        let planing = self.speed(planing_start(self.boat));
        let below = Region::new("not planing yet (Cv below 1)", f64::NEG_INFINITY, planing);
        let long = self.slowest_tested_length();
        let long = long.map(|to| Region::new("wetted length beyond tests", planing, to));
        std::iter::once(below).chain(long).collect()
    }

    /// Speeds at which the boat does not plane, or her planes were not tested; of the bare hull when they stay up.
    fn untested(&self) -> Vec<Region> {
        let mut regions = self.untested_hull();
        if self.has_planes_down() {
            regions.truncate(1);
            let slowest = *TESTED_SPEED_COEFFICIENT.start();
            let tested = hydro::speed_at(slowest, self.boat.hull().chine_beam);
            let label = format!("planes untested (Cv below {slowest})");
            let planing = self.speed(planing_start(self.boat));
            regions.push(Region::new(label, planing, self.speed(tested)));
        }
        regions
    }

    /// Speed from which the first set runs with a wetted length that the equations cover, when it does not from the start.
    fn slowest_tested_length(&self) -> Option<f64> {
        let (_, points) = self.sets.first()?;
        let is_long = |point: &&Point| {
            point.flags.contains(Flag::KeelBeyondBottom)
                || point.flags.contains(Flag::WettedLengthBeyondTested)
        };
        points.iter().take_while(is_long).last().map(|point| self.speed(point.speed))
    }
}

/// Says below a chart why a line ends, where one does before the range of the axis.
fn say_where_lines_end<'p>(chart: &mut LineChart, points: impl IntoIterator<Item = &'p Point>) {
    let outcomes = points.into_iter().map(|point| point.outcome);
    if let Some(ended) = outcomes.into_iter().find(|&outcome| outcome != Outcome::Running) {
        let caution = chart.footnote.take().unwrap_or_default();
        chart.footnote =
            Some(format!("A line ends where there is no balance ({ended}). {caution}"));
    }
}

/// The axis from nought to a round number above all lines.
pub(super) fn from_nought(axis: Axis, series: &[Series]) -> Axis {
    let values = series.iter().flat_map(|line| &line.points).map(|point| point.1);
    let highest = values.filter(|y| y.is_finite()).fold(0.0, f64::max);
    if highest <= 0.0 {
        return axis;
    }
    let decade = 10.0_f64.powf((highest / MOST_STEPS).log10().floor());
    let steps = [1.0, 2.0, 5.0, 10.0].map(|step| step * decade);
    let step = steps.into_iter().find(|step| highest / step <= MOST_STEPS).unwrap_or(highest);
    axis.over(0.0, (highest / step).ceil() * step)
}

/// A quarter of a unit, less where that gives too few speeds.
fn step(boat: &Boat, unit: SpeedUnit) -> Velocity {
    let one = 1.0 / unit.value(Velocity::new::<meter_per_second>(1.0));
    let quarter = Velocity::new::<meter_per_second>(one / STEPS_IN_A_UNIT);
    let range = boat.drive().top_speed - planing_start(boat);
    let fine = range / FEWEST_SPEEDS;
    if fine.get::<meter_per_second>() > 0.0 { quarter.min(fine) } else { quarter }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::parse_boat;

    #[test]
    fn regression_axes_from_nought_end_on_a_round_number() {
        let top = |highest: f64| {
            let series = [Series::new("line", vec![(0.0, highest), (1.0, f64::NAN)])];
            from_nought(Axis::new("Resistance", "N"), &series).range.map(|range| range.1)
        };
        assert_eq!(top(11_300.0), Some(12_000.0));
        assert_eq!(top(2922.0), Some(3000.0));
        assert_eq!(top(8000.0), Some(8000.0));
        assert_eq!(top(0.0), None);
    }

    #[test]
    fn physics_a_long_wetted_length_is_marked_only_where_it_is_seen() {
        let text = "[hull]\nbottom_length = \"3.6 m\"\nchine_beam = \"2.25 m\"\ndeadrise = \"18 deg\"\n\
            [weight]\nmass = \"2800 kg\"\nlcg = \"2.1 m\"\nvcg = \"0.7 m\"\n";
        let boat = parse_boat("short", text).unwrap().boat;
        let up = [Angle::new::<uom::si::angle::degree>(0.0)];
        let subject = Subject::fitted(&boat, UnitChoice::default());
        let lines = Lines::of(subject, &Settings::default(), &up).unwrap();
        let to = lines.slowest_tested_length().expect("she is short for her weight");
        let (_, points) = &lines.sets[0];
        for point in points {
            let is_long = point.flags.contains(Flag::KeelBeyondBottom);
            assert!(lines.speed(point.speed) > to || is_long);
        }
        assert_eq!(lines.untested().len(), 2);
    }
}
