//! Any field of a point against another, as whoever checks the boat wants them.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};
use uom::si::ratio::ratio;
use uom::si::velocity::meter_per_second;

use super::{Lines, from_nought, say_where_lines_end};
use crate::balance::sweep::planing_start;
use crate::balance::{Balance, Point, Settings, TRIM_FLOOR_DEG, fields};
use crate::boat::{Boat, Fault};
use crate::chart::{Axis, LineChart, LineStyle, Rule, Series, Subject, Symbol};
use crate::field::{Field, Quantity};
use crate::flag::Standing;
use crate::units::{UnitChoice, number_with_decimals};

/// Speeds of the lines against deflection when none are asked for.
const SPEEDS: u32 = 4;
/// Step of a line against deflection, degrees.
const STEP_DEG: f64 = 0.25;
/// Of the points that were not tested one in so many is marked.
const MARKED: usize = 4;
/// Name of these marks.
const UNTESTED: &str = "outside what was tested";

/// A chart with the name of its files.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnChart {
    /// File name without its ending: `resistance-against-speed`.
    pub stem: String,
    /// The chart.
    pub chart: LineChart,
}

/// Fields of a point against another: those of one quantity on one chart, in their order.
///
/// Against deflection there is a line for each of the speeds, or for a few where none are given;
/// against anything else a line for each of the deflections, from the start of planing to top
/// speed. Against speed what is untested is a stretch of the axis as on every other chart; else
/// its points are marked.
///
/// # Errors
/// Against the deflection of planes that she does not have; and as [`Balance::point`].
pub fn own_charts(
    subject: Subject<'_>,
    settings: &Settings,
    deflections: &[Angle],
    speeds: &[Velocity],
    x: Field<Point>,
    y: &[Field<Point>],
) -> Result<Vec<OwnChart>, Fault> {
    if x.key == fields::DEFLECTION.key && subject.boat.planes().is_none() {
        return Err(Fault {
            key: "run.x".to_owned(),
            problem: "the boat has no planes to be deflected".to_owned(),
            remedy:
                "add [planes] with span and chord to the boat file, or draw against another field"
                    .to_owned(),
        });
    }
    let lines = Lines::of(subject, settings, deflections)?;
    let sets = if x.key == fields::DEFLECTION.key {
        by_speed(subject, settings, speeds)?
    } else {
        let named = |(angle, points): &(Angle, Vec<Point>)| (lines.name(*angle), points.clone());
        lines.sets.iter().map(named).collect()
    };
    let mut quantities: Vec<Quantity> = Vec::new();
    for field in y {
        if !quantities.contains(&field.quantity) {
            quantities.push(field.quantity);
        }
    }
    let of = |quantity: &Quantity| {
        let mut own: Vec<Field<Point>> = Vec::new();
        for field in y.iter().filter(|field| field.quantity == *quantity) {
            // One that is asked for twice is drawn once.
            if own.iter().all(|other| other.key != field.key) {
                own.push(*field);
            }
        }
        own
    };
    Ok(quantities.iter().map(|quantity| one(&lines, &sets, x, &of(quantity))).collect())
}

/// Lines with their names.
type Sets = [(String, Vec<Point>)];

/// A line over all deflections for each speed.
fn by_speed(
    subject: Subject<'_>,
    settings: &Settings,
    asked: &[Velocity],
) -> Result<Vec<(String, Vec<Point>)>, Fault> {
    let Subject { boat, units, .. } = subject;
    let balance = Balance::of(boat, settings);
    let few = few_speeds(boat, units);
    let speeds = if asked.is_empty() { few.as_slice() } else { asked };
    let largest = boat.sizing().largest_deflection;
    let step = Angle::new::<degree>(STEP_DEG);
    let deflections: Vec<Angle> = (0_u16..)
        .map(|count| f64::from(count) * step)
        .take_while(|&deflection| deflection < largest - step / 2.0)
        .chain([largest])
        .collect();
    let set = |&speed: &Velocity| {
        let points = deflections.iter().map(|&deflection| balance.point(speed, deflection));
        let at = number_with_decimals(units.speed.value(speed), 1);
        Ok((format!("{at} {}", units.speed.symbol()), points.collect::<Result<_, Fault>>()?))
    };
    speeds.iter().map(set).collect()
}

/// Whole speeds spread over the planing range, to top speed.
fn few_speeds(boat: &Boat, units: UnitChoice) -> Vec<Velocity> {
    let (start, top) = (planing_start(boat), boat.drive().top_speed);
    let one = Velocity::new::<meter_per_second>(1.0);
    let unit = one / units.speed.value(one);
    let between =
        (1..=SPEEDS).map(|step| start + (top - start) * (f64::from(step) / f64::from(SPEEDS)));
    let whole = |speed: Velocity| (speed / unit).get::<ratio>().round() * unit;
    between.map(|speed| whole(speed).max(start).min(top)).collect()
}

/// The chart of fields of one quantity.
fn one(lines: &Lines<'_>, sets: &Sets, x: Field<Point>, y: &[Field<Point>]) -> OwnChart {
    let units = lines.units;
    let names: Vec<String> = y.iter().map(|field| words(field.key)).collect();
    let stem =
        format!("{}-against-{}", names.join("-"), x.key).replace([' ', '_'], "-").to_lowercase();
    let mut series = Vec::new();
    for (field, name) in y.iter().zip(&names) {
        for (set, points) in sets {
            let label = match (y.len(), sets.len()) {
                (1, _) => set.clone(),
                (_, 1) => name.clone(),
                _ => format!("{name}, {set}"),
            };
            series.push(Series::new(label, line(points, x, *field, units, &|_| true)));
        }
    }
    let all = match names.split_last() {
        Some((last, before @ [_, ..])) => format!("{} and {last}", before.join(", ")),
        _ => names.concat(),
    };
    let title = capital(&format!("{all} against {}", words(x.key)));
    let label = match y {
        [_] => capital(&names[0]),
        _ => capital(quantity_name(y[0].quantity)),
    };
    let mut axis = axis(&label, y[0].quantity, units);
    let values = || series.iter().flat_map(|line| &line.points).map(|point| point.1);
    if values().all(|value| value.is_nan() || value >= 0.0) {
        axis = from_nought(axis, &series);
    }
    let mut chart = lines.chart(&title, axis);
    if x.key == fields::SPEED.key {
        chart.untested = lines.untested();
    } else {
        chart.x = self::axis(&capital(&words(x.key)), x.quantity, units);
    }
    if let ([set], [_, _, ..], true) = (sets, y, lines.boat.planes().is_some()) {
        chart.subtitle = Some(lines.subject.subtitle(&[&set.0]));
    }
    if y.iter().any(|field| field.key == fields::TRIM.key) {
        chart.floors.push(Rule::new("least safe trim, 2°", TRIM_FLOOR_DEG));
    }
    if x.key != fields::SPEED.key {
        let style = LineStyle { symbol: Some(Symbol::Cross), ..LineStyle::nth(series.len()) };
        let marks: Vec<(f64, f64)> =
            y.iter().flat_map(|field| untested(sets, x, *field, units)).collect();
        if marks.iter().any(|(_, y)| y.is_finite()) {
            series.push(Series::new(UNTESTED, marks).styled(style));
        }
    }
    chart.series = series;
    say_where_lines_end(&mut chart, sets.iter().flat_map(|(_, points)| points));
    OwnChart { stem, chart }
}

/// The points of a line in the units shown; missing where she does not run or a point is not wanted.
fn line(
    points: &[Point],
    x: Field<Point>,
    y: Field<Point>,
    units: UnitChoice,
    is_wanted: &dyn Fn(&Point) -> bool,
) -> Vec<(f64, f64)> {
    let value = |field: Field<Point>, point: &Point| {
        let shown = field.shown(point, units).filter(|_| point.running.is_some());
        shown.filter(|_| is_wanted(point)).unwrap_or(f64::NAN)
    };
    points.iter().map(|point| (value(x, point), value(y, point))).collect()
}

/// Some of the points that were not tested, each by itself.
fn untested(sets: &Sets, x: Field<Point>, y: Field<Point>, units: UnitChoice) -> Vec<(f64, f64)> {
    let is_untested = |point: &Point| !point.flags.of(Standing::Untested).is_empty();
    let points = sets.iter().flat_map(|(_, points)| points.iter().step_by(MARKED));
    let some: Vec<Point> = points.cloned().collect();
    let marks = line(&some, x, y, units, &is_untested);
    // A missing value keeps each point by itself.
    marks.into_iter().flat_map(|mark| [mark, (f64::NAN, f64::NAN)]).collect()
}

/// A key as words.
pub(in crate::chart) fn words(key: &str) -> String {
    key.replace('_', " ").replace("froude", "Froude").replace("reynolds", "Reynolds")
}

pub(in crate::chart) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().into_iter().flat_map(char::to_uppercase).chain(letters).collect()
}

fn axis(label: &str, quantity: Quantity, units: UnitChoice) -> Axis {
    let unit = match quantity {
        Quantity::Angle => "°".to_owned(),
        other => other.symbol(units).replace("^2", "²"),
    };
    Axis::new(label, unit)
}

/// What several fields of a quantity are called together.
const fn quantity_name(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::Speed => "speed",
        Quantity::Angle => "angle",
        Quantity::Length => "length",
        Quantity::Force => "force",
        Quantity::ForcePerDegree => "force for each degree",
        Quantity::Power => "power",
        Quantity::Pressure => "pressure",
        Quantity::Number | Quantity::Counted(_) => "number",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::parse_boat;

    fn heron() -> Boat {
        let text = "name = \"Heron\"\n[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\n\
            deadrise = \"18 deg\"\n[weight]\nmass = \"2800 kg\"\nlcg = \"2.45 m\"\nvcg = \"0.75 m\"\n\
            [drive]\npower = \"150 kW\"\ntop_speed = \"30 kn\"\n\
            [planes]\nspan = \"600 mm\"\nchord = \"300 mm\"\n";
        parse_boat("heron", text).unwrap().boat
    }

    fn drawn(x: Field<Point>, y: &[Field<Point>]) -> Vec<OwnChart> {
        let (boat, settings) = (heron(), Settings::default());
        let subject = Subject::fitted(&boat, UnitChoice::default());
        let deflections = [0.0, 5.0].map(Angle::new::<degree>);
        own_charts(subject, &settings, &deflections, &[], x, y).unwrap()
    }

    #[test]
    fn physics_the_lines_are_the_points_of_the_balance() {
        let charts = drawn(fields::SPEED, &[fields::TRIM]);
        let [OwnChart { stem, chart }] = charts.as_slice() else { panic!("{}", charts.len()) };
        assert_eq!(stem, "trim-against-speed");
        assert_eq!((chart.x.unit.as_str(), chart.y.unit.as_str()), ("kn", "°"));
        assert_eq!(chart.series.len(), 2);
        let boat = heron();
        let balance = Balance::of(&boat, &Settings::default());
        let (knots, trim_deg) = chart.series[1].points[20];
        let speed = Velocity::new::<uom::si::velocity::knot>(knots);
        let point = balance.point(speed, Angle::new::<degree>(5.0)).unwrap();
        approx::assert_relative_eq!(
            point.trim().unwrap().get::<degree>(),
            trim_deg,
            max_relative = 1e-6
        );
        let labels: Vec<&str> = chart.untested.iter().map(|region| region.label.as_str()).collect();
        assert!(labels.iter().any(|label| label.starts_with("planes untested")), "{labels:?}");
    }

    #[test]
    fn regression_fields_of_one_quantity_share_a_chart() {
        let asked = [fields::TRIM, fields::RESISTANCE, fields::PORPOISING_LIMIT];
        let charts = drawn(fields::VOLUME_FROUDE_NUMBER, &asked);
        let stems: Vec<&str> = charts.iter().map(|own| own.stem.as_str()).collect();
        assert_eq!(
            stems,
            [
                "trim-porpoising-limit-against-volume-froude-number",
                "resistance-against-volume-froude-number"
            ]
        );
        let chart = &charts[0].chart;
        assert_eq!(chart.y.label, "Angle");
        assert!(chart.untested.is_empty());
        assert!(chart.series.iter().any(|line| line.label == UNTESTED));
        assert!(chart.subtitle.as_ref().unwrap().contains("planes fitted, 600 x 300 mm"));
        chart.svg().unwrap();
    }

    #[test]
    fn physics_against_deflection_the_bow_comes_down() {
        let charts = drawn(fields::DEFLECTION, &[fields::TRIM]);
        let lines = charts[0].chart.series.iter().filter(|line| line.label != UNTESTED);
        let mut moved = 0;
        for line in lines {
            // A line ends where she no longer runs.
            let runs: Vec<_> = line.points.iter().filter(|point| point.1.is_finite()).collect();
            assert_eq!(runs[0].0, 0.0, "{}", line.label);
            assert!(runs.windows(2).all(|pair| pair[1].1 <= pair[0].1 + 1e-6), "{}", line.label);
            moved += usize::from(runs[runs.len() - 1].1 < runs[0].1 - 0.5);
        }
        assert!(moved >= 3, "{moved}");
    }
}
