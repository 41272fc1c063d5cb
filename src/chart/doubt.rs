//! Charts of how sure an answer is: trim and resistance with their likely ranges, and what they follow.

use uom::si::f64::Force;

use super::running::{NamedChart, from_nought};
use super::{Axis, Band, BarChart, LineChart, Marker, Rule, Series, Subject};
use crate::balance::TRIM_FLOOR_DEG;
use crate::boat::degrees;
use crate::boat::measure::plain_number;
use crate::doubt::{DutiesDoubt, Influences, Likely, RunningDoubt, SpeedDoubt};
use crate::units::{UnitChoice, number_with_decimals};

/// What the charts close with.
const CAUTION: &str = "Random boats nearly like the one described, in calm water and running straight, after Savitsky 1964; confirm by a sea trial.";
/// Name of the shaded band.
const BAND: &str = "nine boats in ten";
/// Share of boats that must run at a speed for its range to be drawn.
const DRAWN_SHARE: f64 = 0.5;
/// Room above the highest line, degrees.
const ROOM_DEG: f64 = 1.0;
/// Bars drawn, at most.
const MOST_BARS: usize = 12;

/// A bar chart with the name of its files.
#[derive(Clone, Debug, PartialEq)]
pub struct NamedBars {
    /// File name without its ending.
    pub stem: &'static str,
    /// The chart.
    pub chart: BarChart,
}

/// `doubt-trim` and `doubt-resistance`: the likely range of each against speed.
#[must_use]
pub fn likely_charts(subject: Subject<'_>, doubt: &RunningDoubt) -> Vec<NamedChart> {
    vec![
        NamedChart { stem: "doubt-trim", chart: trim(subject, doubt) },
        NamedChart { stem: "doubt-resistance", chart: resistance(subject, doubt) },
    ]
}

fn trim(subject: Subject<'_>, doubt: &RunningDoubt) -> LineChart {
    let units = subject.units;
    let ranges = |row: &SpeedDoubt| row.trim.map(|trim| trim.map(degrees));
    let as_described = |row: &SpeedDoubt| row.nominal_trim.map(degrees);
    let highest = doubt.speeds.iter().filter_map(ranges).map(|trim| trim.high);
    let highest = highest.fold(TRIM_FLOOR_DEG, f64::max);
    let axis = Axis::new("Running trim", "°").over(0.0, (highest + ROOM_DEG).ceil());
    let mut chart = chart("How sure the running trim is", axis, subject, doubt);
    fill(&mut chart, doubt, units, &ranges, &as_described);
    chart.floors.push(Rule::new("least safe trim, 2°", TRIM_FLOOR_DEG));
    chart
}

fn resistance(subject: Subject<'_>, doubt: &RunningDoubt) -> LineChart {
    let units = subject.units;
    let value = |force: Force| units.force.value(force);
    let ranges = |row: &SpeedDoubt| row.resistance.map(|resistance| resistance.map(value));
    let as_described = |row: &SpeedDoubt| row.nominal_resistance.map(value);
    let axis = Axis::new("Resistance", units.force.symbol());
    let mut chart = chart("How sure the resistance is", axis.clone(), subject, doubt);
    fill(&mut chart, doubt, units, &ranges, &as_described);
    let edges: Vec<Series> = chart
        .bands
        .iter()
        .map(|band| Series::new(band.label.clone(), band.upper.clone()))
        .chain(chart.series.clone())
        .collect();
    chart.y = from_nought(axis, &edges);
    chart
}

fn chart(title: &str, y: Axis, subject: Subject<'_>, doubt: &RunningDoubt) -> LineChart {
    let units = subject.units;
    let mut chart = LineChart::new(title, Axis::new("Speed", units.speed.symbol()), y);
    let set = match (subject.planes.pair, degrees(doubt.request.deflection)) {
        (None, _) => String::new(),
        (Some(_), 0.0) => "up (0°)".to_owned(),
        (Some(_), deg) => format!("{}° down", plain_number(deg)),
    };
    let drawn = format!("{} boats drawn", doubt.request.draws);
    chart.subtitle = Some(subject.subtitle(&[&set, &drawn]));
    chart.footnote = Some(CAUTION.to_owned());
    chart
}

/// The band, the median and the boat as described.
fn fill(
    chart: &mut LineChart,
    doubt: &RunningDoubt,
    units: UnitChoice,
    ranges: &dyn Fn(&SpeedDoubt) -> Option<Likely<f64>>,
    as_described: &dyn Fn(&SpeedDoubt) -> Option<f64>,
) {
    let rows = doubt.speeds.iter().filter(|row| row.running_share >= DRAWN_SHARE);
    let points: Vec<(f64, Likely<f64>)> =
        rows.filter_map(|row| Some((units.speed.value(row.speed), ranges(row)?))).collect();
    let line = |part: fn(&Likely<f64>) -> f64| -> Vec<(f64, f64)> {
        points.iter().map(|(speed, range)| (*speed, part(range))).collect()
    };
    chart.bands.push(Band::new(BAND, line(|range| range.low), line(|range| range.high)));
    chart.series.push(Series::new("median", line(|range| range.median)));
    let own = doubt
        .speeds
        .iter()
        .map(|row| (units.speed.value(row.speed), as_described(row).unwrap_or(f64::NAN)));
    chart.series.push(Series::new("as described", own.collect()));
}

/// `doubt-hump-trim` and `doubt-cruise-resistance`: what each follows.
#[must_use]
pub fn influence_charts(subject: Subject<'_>, doubt: &RunningDoubt) -> Vec<NamedBars> {
    let mut charts = Vec::new();
    for (stem, title, influences, sides) in [
        (
            "doubt-hump-trim",
            "What the trim at the hump follows",
            &doubt.hump_trim,
            ["more of it lowers the bow", "more of it lifts the bow"],
        ),
        (
            "doubt-cruise-resistance",
            "What the resistance at cruise follows",
            &doubt.cruise_resistance,
            ["more of it saves power", "more of it costs power"],
        ),
    ] {
        if let Some(influences) = influences {
            charts.push(NamedBars { stem, chart: bars(subject, title, influences, sides) });
        }
    }
    charts
}

fn bars(subject: Subject<'_>, title: &str, influences: &Influences, sides: [&str; 2]) -> BarChart {
    let units = subject.units;
    let speed = number_with_decimals(units.speed.value(influences.speed), 1);
    let bar = |of: &crate::doubt::Influence| (of.what.name().to_owned(), of.rank_correlation);
    BarChart {
        title: title.to_owned(),
        subtitle: Some(subject.subtitle(&[&format!("at {speed} {}", units.speed.symbol())])),
        axis: "Rank correlation with the input (Spearman)".to_owned(),
        sides: sides.map(str::to_owned),
        bars: influences.of.iter().take(MOST_BARS).map(bar).collect(),
        largest: 1.0,
        footnote: Some(CAUTION.to_owned()),
    }
}

/// `doubt-duties`: how likely the duties are done, against the area of the planes; none without duties or pairs.
#[must_use]
pub fn duty_chart(subject: Subject<'_>, doubt: &DutiesDoubt) -> Option<NamedChart> {
    let units = subject.units;
    let fitted = subject.boat.planes();
    let mut rows: Vec<(f64, &crate::doubt::PairDoubt)> = doubt
        .pairs
        .iter()
        .filter(|row| row.pair.is_none() || row.pair != fitted)
        .map(|row| (row.pair.map_or(0.0, |pair| units.area.value(pair.area())), row))
        .collect();
    rows.sort_by(|a, b| a.0.total_cmp(&b.0));
    let largest = rows.last().map(|last| last.0).filter(|&area| area > 0.0)?;
    if doubt.duties.is_empty() {
        return None;
    }
    let x =
        Axis::new("Area of both planes", units.area.symbol().replace("^2", "²")).over(0.0, largest);
    let y = Axis::new("Boats on which it is done", "%").over(0.0, 100.0);
    let mut chart = LineChart::new("How likely the duties are done", x, y);
    let line = |share: &dyn Fn(&crate::doubt::PairDoubt) -> f64| {
        rows.iter().map(|(area, row)| (*area, 100.0 * share(row))).collect::<Vec<_>>()
    };
    let all = if doubt.is_all_judged() { "all duties" } else { "all that can be judged" };
    chart.series.push(Series::new(all, line(&|row| row.all.share)));
    for (index, held) in doubt.duties.iter().enumerate() {
        // Of what cannot be judged there is no line.
        if rows.iter().all(|(_, row)| row.each[index].is_some()) {
            let label = format!("{}. {}", index + 1, held.duty.name());
            let share = |row: &crate::doubt::PairDoubt| row.each[index].map_or(0.0, |p| p.share);
            chart.series.push(Series::new(label, line(&share)));
        }
    }
    if let Some(own) = doubt.pairs.iter().find(|row| row.pair.is_some() && row.pair == fitted) {
        let area = own.pair.map_or(0.0, |pair| units.area.value(pair.area()));
        if area <= largest {
            chart.markers.push(Marker::new("pair fitted, all", area, 100.0 * own.all.share));
        }
    }
    let drawn = format!("{} boats drawn, the same for every pair", doubt.drawn.draws);
    chart.subtitle = Some(subject.subtitle(&[&drawn]));
    chart.footnote = Some(CAUTION.to_owned());
    Some(NamedChart { stem: "doubt-duties", chart })
}
