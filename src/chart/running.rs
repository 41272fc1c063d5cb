//! Charts of a running boat: trim, resistance, power and what a plane lifts, against speed.
//!
//! Unlike the rest of this module these know a boat; they fill [`LineChart`]s
//! and leave the drawing to it.

mod plane;
mod resistance;
mod trim;

use uom::si::f64::{Angle, Velocity};
use uom::si::velocity::meter_per_second;

use super::{Axis, LineChart, Region, Series};
use crate::balance::sweep::{planing_start, speeds, sweep};
use crate::balance::{Balance, Point, Running, Settings};
use crate::boat::{Boat, Fault, degrees};
use crate::flag::Flag;
use crate::hydro;
use crate::plane::effect::TESTED_SPEED_COEFFICIENT;
use crate::units::{SpeedUnit, UnitChoice, format_mass};

/// Steps of a line between whole units of speed.
const STEPS_IN_A_UNIT: f64 = 4.0;
/// Speeds of a line at least, whatever the unit.
const FEWEST_SPEEDS: f64 = 60.0;
/// What every chart closes with.
const CAUTION: &str = "Estimate for calm water and straight running; confirm by a sea trial.";

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
/// `resistance-parts`, at the first of them; with planes also `plane-lift`.
///
/// # Errors
/// As [`Balance::point`].
pub fn running_charts(
    boat: &Boat,
    settings: &Settings,
    deflections: &[Angle],
    units: UnitChoice,
) -> Result<Vec<NamedChart>, Fault> {
    let lines = Lines::of(boat, settings, deflections, units)?;
    let mut charts = vec![("trim", trim::chart(&lines))];
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

/// The boat at closely spaced speeds, once for all charts.
struct Lines<'a> {
    boat: &'a Boat,
    units: UnitChoice,
    sets: Vec<(Angle, Vec<Point>)>,
}

impl<'a> Lines<'a> {
    fn of(
        boat: &'a Boat,
        settings: &Settings,
        deflections: &[Angle],
        units: UnitChoice,
    ) -> Result<Self, Fault> {
        let balance = Balance::of(boat, settings);
        let speeds = speeds(boat, step(boat, units.speed));
        let set = |&deflection: &Angle| Ok((deflection, sweep(&balance, &speeds, deflection)?));
        let sets = deflections.iter().map(set).collect::<Result<_, Fault>>()?;
        Ok(Self { boat, units, sets })
    }

    /// An empty chart over speed, with everything that all of them say.
    fn chart(&self, title: &str, y: Axis) -> LineChart {
        let from = (self.speed(planing_start(self.boat)) - 0.5).floor();
        let to = self.speed(self.boat.drive().top_speed).max(from + 1.0);
        let x = Axis::new("Speed", self.units.speed.symbol()).over(from.max(0.0), to);
        let mut chart = LineChart::new(title, x, y);
        chart.subtitle = Some(self.subtitle());
        chart.footnote = Some(CAUTION.to_owned());
        chart
    }

    fn subtitle(&self) -> String {
        let mass = format_mass(self.boat.weight().mass, self.units.mass);
        let estimated = match self.boat.estimates().len() {
            0 => "",
            1 => " · one input estimated",
            _ => " · inputs partly estimated",
        };
        format!("{}, {mass}{estimated}", self.boat.name())
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
        sets.map(|(angle, points)| Series::new(self.name(*angle), self.line(points, value)))
            .collect()
    }

    fn name(&self, deflection: Angle) -> String {
        match (self.boat.planes(), degrees(deflection)) {
            (None, _) => "without planes".to_owned(),
            (Some(_), 0.0) => "planes up (0°)".to_owned(),
            (Some(_), deg) => format!("{}° down", crate::boat::measure::plain_number(deg)),
        }
    }

    /// Speeds at which something is not covered by tests: planing itself, planes, and a wetted length beyond the bottom or 4 beams.
    fn untested(&self) -> Vec<Region> {
        let mut regions = Vec::new();
        let planing = self.speed(planing_start(self.boat));
        regions.push(Region::new("not planing yet (Cv below 1)", f64::NEG_INFINITY, planing));
        if self.sets.iter().any(|(deflection, _)| degrees(*deflection) > 0.0) {
            let slowest = *TESTED_SPEED_COEFFICIENT.start();
            let tested = hydro::speed_at(slowest, self.boat.hull().chine_beam);
            let label = format!("planes untested (Cv below {slowest})");
            regions.push(Region::new(label, planing, self.speed(tested)));
        } else if let Some(longest) = self.slowest_tested_length() {
            regions.push(Region::new("wetted length beyond tests", planing, longest));
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

/// A quarter of a unit, less where that gives too few speeds.
fn step(boat: &Boat, unit: SpeedUnit) -> Velocity {
    let one = 1.0 / unit.value(Velocity::new::<meter_per_second>(1.0));
    let quarter = Velocity::new::<meter_per_second>(one / STEPS_IN_A_UNIT);
    let range = boat.drive().top_speed - planing_start(boat);
    let fine = range / FEWEST_SPEEDS;
    if fine.get::<meter_per_second>() > 0.0 { quarter.min(fine) } else { quarter }
}
