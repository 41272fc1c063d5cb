//! Charts of a trial: measured trim over the curves before and after, and what is left of the differences.

use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, velocity::meter_per_second};

use super::learned::{Compared, Learned};
use crate::balance::sweep::{planing_start, sweep};
use crate::balance::{Balance, Settings};
use crate::boat::measure::plain_number;
use crate::boat::{Boat, Fault};
use crate::chart::running::NamedChart;
use crate::chart::{Axis, Band, LineChart, LineStyle, Marker, Series, Subject, Symbol};
use crate::numeric::LIKELY_DEVIATIONS;
use crate::units::UnitChoice;

/// What every chart closes with.
const CAUTION: &str = "Equations after Savitsky 1964, planes after Savitsky & Brown 1976. What was fitted makes them agree with this log; it takes up whatever else is not as described.";
/// Deflections that have curves of their own; beyond them the chart could not be read.
const MOST_CURVES: usize = 3;
/// Deflections that differ by less share a curve, degrees.
const SAME_DEFLECTION_DEG: f64 = 1.0;
/// Speeds of a curve.
const SPEEDS: u32 = 80;

/// `trial-trim`, `trial-residuals`, and `trial-power` where power was compared.
///
/// # Errors
/// As [`Balance::point`].
pub fn trial_charts(
    before: &Boat,
    after: &Boat,
    settings: &Settings,
    learned: &Learned,
    units: UnitChoice,
) -> Result<Vec<NamedChart>, Fault> {
    let mut charts = vec![
        NamedChart { stem: "trial-trim", chart: trim(before, after, settings, learned, units)? },
        NamedChart { stem: "trial-residuals", chart: residuals(before, learned, units) },
    ];
    if let Some(chart) = power(before, learned, units) {
        charts.push(NamedChart { stem: "trial-power", chart });
    }
    Ok(charts)
}

fn empty(boat: &Boat, title: &str, learned: &Learned, units: UnitChoice, y: Axis) -> LineChart {
    let speeds = || learned.compared.iter().map(|c| units.speed.value(c.measurement.speed));
    let least = speeds().fold(f64::INFINITY, f64::min);
    let largest = speeds().fold(0.0, f64::max);
    let room = 0.06 * (largest - least).max(1.0);
    let x = Axis::new("Speed", units.speed.symbol())
        .over((least - room).floor(), (largest + room).ceil());
    let mut chart = LineChart::new(title, x, y);
    let measured = format!("{} measurements", learned.compared.len());
    chart.subtitle = Some(Subject::fitted(boat, units).subtitle(&[&measured]));
    chart.footnote = Some(CAUTION.to_owned());
    chart
}

/// Lone points, one for each measurement that has a value.
fn points(
    label: &str,
    style: LineStyle,
    learned: &Learned,
    units: UnitChoice,
    value: &dyn Fn(&Compared) -> Option<f64>,
) -> Series {
    let mut points = Vec::new();
    for compared in &learned.compared {
        if let Some(y) = value(compared) {
            let x = units.speed.value(compared.measurement.speed);
            // A missing value keeps each point by itself.
            points.extend([(x, y), (x, f64::NAN)]);
        }
    }
    Series::new(label, points).styled(style)
}

fn symbol(index: usize, symbol: Symbol) -> LineStyle {
    LineStyle { symbol: Some(symbol), ..LineStyle::nth(index) }
}

/// Mean deflections of the log, those with most measurements first, at most [`MOST_CURVES`].
fn deflections_deg(learned: &Learned) -> Vec<f64> {
    let mut groups: Vec<(f64, usize)> = Vec::new();
    for compared in &learned.compared {
        let deg = compared.measurement.deflection.get::<degree>();
        match groups.iter_mut().find(|(other, _)| (other - deg).abs() <= SAME_DEFLECTION_DEG) {
            Some((_, count)) => *count += 1,
            None => groups.push((deg, 1)),
        }
    }
    groups.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.total_cmp(&b.0)));
    groups.truncate(MOST_CURVES);
    groups.sort_by(|a, b| a.0.total_cmp(&b.0));
    groups.into_iter().map(|(deg, _)| deg).collect()
}

fn trim(
    before: &Boat,
    after: &Boat,
    settings: &Settings,
    learned: &Learned,
    units: UnitChoice,
) -> Result<LineChart, Fault> {
    let axis = Axis::new("Running trim", "°");
    let mut chart =
        empty(before, "Trim measured and computed, before and after", learned, units, axis);
    let (from, to) = chart.x.range.unwrap_or((0.0, 1.0));
    let one = 1.0 / units.speed.value(Velocity::new::<meter_per_second>(1.0));
    let start = planing_start(before).get::<meter_per_second>().max(from * one);
    let step = (to * one - start) / f64::from(SPEEDS);
    let speeds: Vec<Velocity> = (0..=SPEEDS)
        .map(|at| Velocity::new::<meter_per_second>(start + f64::from(at) * step))
        .collect();
    let groups = deflections_deg(learned);
    for (index, &deg) in groups.iter().enumerate() {
        let name = match (before.planes(), deg) {
            (None, _) => String::new(),
            (Some(_), 0.0) => ", planes up".to_owned(),
            (Some(_), deg) => format!(", {}° down", plain_number(deg)),
        };
        let bare = LineStyle { symbol: None, ..LineStyle::nth(index) };
        for (word, boat, style) in [
            ("before", before, LineStyle { dash: vec![5.0, 4.0], width_px: 1.1, ..bare.clone() }),
            ("after", after, LineStyle { dash: Vec::new(), width_px: 2.2, ..bare }),
        ] {
            let balance = Balance::of(boat, settings);
            let swept = sweep(&balance, &speeds, Angle::new::<degree>(deg))?;
            let line = swept.iter().map(|point| {
                let trim = point.running.map_or(f64::NAN, |running| running.trim.get::<degree>());
                (units.speed.value(point.speed), trim)
            });
            chart.series.push(Series::new(format!("{word}{name}"), line.collect()).styled(style));
        }
        let in_group = |compared: &Compared| {
            let own = compared.measurement.deflection.get::<degree>();
            let same = (own - deg).abs() <= SAME_DEFLECTION_DEG;
            same.then(|| compared.trim_measured.get::<degree>())
        };
        const SYMBOLS: [Symbol; MOST_CURVES] = [Symbol::Disc, Symbol::OpenSquare, Symbol::Triangle];
        let style = symbol(index, SYMBOLS[index]);
        chart.series.push(points(&format!("measured{name}"), style, learned, units, &in_group));
    }
    name_outliers(&mut chart, learned, units, &|compared| {
        compared.trim_is_outlier().then(|| compared.trim_measured.get::<degree>())
    });
    Ok(chart)
}

/// Marks readings that hardly counted with their lines.
fn name_outliers(
    chart: &mut LineChart,
    learned: &Learned,
    units: UnitChoice,
    height: &dyn Fn(&Compared) -> Option<f64>,
) {
    for compared in &learned.compared {
        if let Some(y) = height(compared) {
            let x = units.speed.value(compared.measurement.speed);
            let label = format!("{}: outlier", compared.measurement.lines_text());
            chart.markers.push(Marker::new(label, x, y));
        }
    }
}

/// A line at nought.
fn as_computed((from, to): (f64, f64)) -> Series {
    let style = LineStyle { symbol: None, dash: Vec::new(), width_px: 1.0, ..LineStyle::nth(2) };
    Series::new("as computed", vec![(from, 0.0), (to, 0.0)]).styled(style)
}

fn residuals(boat: &Boat, learned: &Learned, units: UnitChoice) -> LineChart {
    let axis = Axis::new("Measured less computed trim", "°");
    let mut chart = empty(boat, "What is left of the differences in trim", learned, units, axis);
    let deg = |angle: Angle| angle.get::<degree>();
    let before = |c: &Compared| Some(deg(c.measurement.trim) - deg(c.trim_before));
    let after = |c: &Compared| Some(deg(c.trim_measured) - deg(c.trim_after));
    chart.series.push(points("before", symbol(1, Symbol::OpenSquare), learned, units, &before));
    chart.series.push(points("after", symbol(0, Symbol::Disc), learned, units, &after));
    let (from, to) = chart.x.range.unwrap_or((0.0, 1.0));
    let half = LIKELY_DEVIATIONS * deg(learned.trim_scatter);
    let edge = |y: f64| vec![(from, y), (to, y)];
    chart.bands.push(Band::new("where nine in ten are expected after", edge(-half), edge(half)));
    chart.series.push(as_computed((from, to)));
    name_outliers(&mut chart, learned, units, &|compared| {
        compared.trim_is_outlier().then(|| after(compared)).flatten()
    });
    chart
}

fn power(boat: &Boat, learned: &Learned, units: UnitChoice) -> Option<LineChart> {
    learned.compared.iter().find(|compared| compared.power_measured.is_some())?;
    let axis = Axis::new("Measured over computed power", "%");
    let mut chart = empty(boat, "What is left of the differences in power", learned, units, axis);
    let share = |c: &Compared, computed: Option<uom::si::f64::Power>| {
        Some(100.0 * ((c.power_measured? / computed?).value - 1.0))
    };
    let before = |c: &Compared| share(c, c.power_before);
    let after = |c: &Compared| share(c, c.power_after);
    chart.series.push(points("before", symbol(1, Symbol::OpenSquare), learned, units, &before));
    chart.series.push(points("after", symbol(0, Symbol::Disc), learned, units, &after));
    chart.series.push(as_computed(chart.x.range.unwrap_or((0.0, 1.0))));
    name_outliers(&mut chart, learned, units, &|compared| {
        compared.power_is_outlier().then(|| after(compared)).flatten()
    });
    Some(chart)
}
