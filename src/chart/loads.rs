//! Charts of what a plane carries: its load, the moment about its hinge and the push on its actuator.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};

use super::running::{NamedChart, from_nought};
use super::{Axis, LineChart, Region, Rule, Series, Subject};
use crate::balance::sweep::planing_start;
use crate::boat::measure::plain_number;
use crate::boat::{Boat, degrees};
use crate::hydro::speed_at;
use crate::plane::effect::TESTED_SPEED_COEFFICIENT;
use crate::size::PairUsed;
use crate::stock::assess::{AssessError, LoadAt, Settings};
use crate::stock::{LoadsAsked, PlaneLoads};
use crate::units::{SpeedUnit, UnitChoice, number_with_decimals};

/// Points of each line.
const STEPS: u32 = 40;
/// Deflections of the lines against speed, degrees.
const DEFLECTIONS_DEG: [f64; 3] = [5.0, 10.0, 15.0];
/// Largest deflection that was tested, degrees.
const LARGEST_DEG: f64 = 15.0;
/// Lines against deflection.
const SPEEDS: u32 = 4;

const FOOTNOTE: &str = "Steady running, one plane, by the tank tests of planes (Savitsky & Brown 1976); slamming asks for several times as much. A line ends where the run is no longer safe.";

/// `plane-load` and `hinge-moment` against speed, `hinge-moment-deflection`, and for a part `actuator-push`.
///
/// # Errors
/// As [`PlaneLoads::of`].
pub fn loads_charts(
    boat: &Boat,
    found: &PlaneLoads,
    units: UnitChoice,
) -> Result<Vec<NamedChart>, AssessError> {
    let top = boat.drive().top_speed;
    let start = planing_start(boat);
    let between =
        |step: u32, steps: u32| start + (top - start) * f64::from(step) / f64::from(steps);
    let many: Vec<Velocity> = (0..=STEPS).map(|step| between(step, STEPS)).collect();
    let few: Vec<Velocity> = (1..=SPEEDS).map(|step| between(step, SPEEDS)).collect();
    let each = |deg: &f64| Angle::new::<degree>(*deg);
    let fine = |step: u32| Angle::new::<degree>(LARGEST_DEG * f64::from(step) / f64::from(STEPS));
    let by_speed = asked(boat, found, many, DEFLECTIONS_DEG.iter().map(each).collect())?;
    let by_deflection = asked(boat, found, few, (1..=STEPS).map(fine).collect())?;
    let planes = PairUsed { pair: Some(found.planes.pair), source: found.planes.source };
    let subject = Loaded(Subject { boat, planes, units });
    let (force, moment) = (units.force, units.moment);
    let moment_of = |row: &LoadAt| moment.value(row.expected.hinge_moment);
    let mut charts = vec![
        NamedChart {
            stem: "plane-load",
            chart: subject.against_speed(
                &by_speed,
                Axis::new("Load on one plane", force.symbol()),
                &|row| Some(force.value(row.expected.force)),
            ),
        },
        NamedChart {
            stem: "hinge-moment",
            chart: subject.against_speed(
                &by_speed,
                Axis::new("Moment about the hinge", moment.symbol()),
                &|row| Some(moment_of(row)),
            ),
        },
        NamedChart {
            stem: "hinge-moment-deflection",
            chart: subject.against_deflection(&by_deflection, &moment_of),
        },
    ];
    if let Some(view) = &by_speed.part {
        let push = |row: &LoadAt| {
            let same = |at: &&crate::stock::assess::PartLoadAt| {
                at.load.speed == row.speed && at.load.deflection == row.deflection
            };
            Some(force.value(view.loads.iter().find(same)?.expected_push))
        };
        let axis = Axis::new("Push on one actuator", force.symbol());
        let mut chart = subject.against_speed(&by_speed, axis, &push);
        let rated = force.value(view.gear.actuator.push());
        let label = format!("it can push {} {}", plain_number(rated.round()), force.symbol());
        if chart.y.range.is_none_or(|(_, highest)| rated <= highest) {
            chart.floors.push(Rule::new(label, rated));
        }
        charts.push(NamedChart { stem: "actuator-push", chart });
    }
    Ok(charts)
}

/// The same planes at other speeds and deflections.
fn asked(
    boat: &Boat,
    found: &PlaneLoads,
    speeds: Vec<Velocity>,
    deflections: Vec<Angle>,
) -> Result<PlaneLoads, AssessError> {
    let settings: Settings = found.settings;
    let asked = LoadsAsked { settings, speeds, deflections, speed_unit: SpeedUnit::MetrePerSecond };
    let part = found.part.as_ref().map(|view| view.part.clone());
    PlaneLoads::of(boat, found.planes, part, &asked)
}

struct Loaded<'a>(Subject<'a>);

impl Loaded<'_> {
    fn chart(&self, title: String, x: Axis, y: Axis, series: Vec<Series>) -> LineChart {
        let mut chart = LineChart::new(title, x, from_nought(y, &series));
        chart.subtitle = Some(self.0.subtitle(&[]));
        chart.series = series;
        chart.footnote = Some(FOOTNOTE.to_owned());
        chart
    }

    fn against_speed(
        &self,
        loads: &PlaneLoads,
        y: Axis,
        value: &dyn Fn(&LoadAt) -> Option<f64>,
    ) -> LineChart {
        let unit = self.0.units.speed;
        let line = |deg: &f64| {
            let own = loads.loads.iter().filter(|row| (degrees(row.deflection) - deg).abs() < 1e-9);
            let point = |row: &LoadAt| {
                let value = value(row).filter(|_| is_safe(loads, row));
                (unit.value(row.speed), value.unwrap_or(f64::NAN))
            };
            Series::new(format!("{}° down", plain_number(*deg)), own.map(point).collect())
        };
        let series = DEFLECTIONS_DEG.iter().map(line).collect();
        let title = format!("{} against speed", y.label);
        let mut chart = self.chart(title, Axis::new("Speed", unit.symbol()), y, series);
        chart.untested = self.untested();
        chart
    }

    /// Speeds at which planes were not tested.
    fn untested(&self) -> Vec<Region> {
        let beam = self.0.boat.hull().chine_beam;
        let [slowest, fastest] = [TESTED_SPEED_COEFFICIENT.start(), TESTED_SPEED_COEFFICIENT.end()]
            .map(|&coefficient| speed_at(coefficient, beam));
        let value = |speed| self.0.units.speed.value(speed);
        let mut regions = Vec::new();
        if slowest > planing_start(self.0.boat) {
            let slow = Region::new("slower than tested", f64::NEG_INFINITY, value(slowest));
            regions.push(slow);
        }
        if fastest < self.0.boat.drive().top_speed {
            regions.push(Region::new("faster than tested", value(fastest), f64::INFINITY));
        }
        regions
    }

    fn against_deflection(&self, loads: &PlaneLoads, value: &dyn Fn(&LoadAt) -> f64) -> LineChart {
        let unit = self.0.units.speed;
        let line = |speed: &Velocity| {
            let own = loads.loads.iter().filter(|row| row.speed == *speed);
            let point = |row: &LoadAt| {
                let value = if is_safe(loads, row) { value(row) } else { f64::NAN };
                (degrees(row.deflection), value)
            };
            let label =
                format!("{} {}", number_with_decimals(unit.value(*speed), 1), unit.symbol());
            Series::new(label, own.map(point).collect())
        };
        let series: Vec<Series> = loads.speeds.iter().map(line).collect();
        let y = Axis::new("Moment about the hinge", self.0.units.moment.symbol());
        let title = "Moment about the hinge against deflection".to_owned();
        self.chart(title, Axis::new("Deflection", "deg").over(0.0, LARGEST_DEG), y, series)
    }
}

/// Whether the run is safe with the planes so far down.
fn is_safe(loads: &PlaneLoads, row: &LoadAt) -> bool {
    loads.safe_at(row.speed).is_none_or(|safe| row.deflection.value <= safe.value * (1.0 + 1e-9))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stock::Planes;

    #[test]
    fn physics_a_deeper_plane_carries_more_and_lines_end_where_the_run_is_not_safe() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/data/boats/lantern.toml");
        let file = crate::input::read_boat(path.as_ref()).unwrap();
        let planes = Planes::of(&file.boat, None, &[]).unwrap();
        let asked = LoadsAsked {
            settings: Settings::default(),
            speeds: Vec::new(),
            deflections: Vec::new(),
            speed_unit: SpeedUnit::Knot,
        };
        let found = PlaneLoads::of(&file.boat, planes, None, &asked).unwrap();
        let charts = loads_charts(&file.boat, &found, UnitChoice::default()).unwrap();
        let stems: Vec<_> = charts.iter().map(|named| named.stem).collect();
        assert_eq!(stems, ["plane-load", "hinge-moment", "hinge-moment-deflection"]);
        let [small, middle, large] = charts[1].chart.series.as_slice() else { panic!() };
        let last = |line: &Series| line.points.iter().rfind(|(_, y)| y.is_finite()).unwrap().0;
        assert!(last(large) < last(middle) && last(middle) <= last(small));
        for (low, high) in small.points.iter().zip(&large.points) {
            assert!(high.1.is_nan() || high.1 > low.1);
        }
    }
}
