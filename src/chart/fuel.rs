//! The chart of fuel by distance against speed.

use uom::si::f64::{Length, Velocity};
use uom::si::length::meter;

use super::running::{NamedChart, from_nought};
use super::{Axis, LineChart, Marker, Series, Subject};
use crate::behaviour::fuel::{Burn, Fuel, FuelPoint};
use crate::boat::degrees;
use crate::boat::measure::plain_number;
use crate::units::{FuelUnits, number_with_decimals};

const CAUTION: &str = "Steady running in calm water, one specific consumption for every load. Confirm with a flow meter.";

/// `fuel`: fuel for each mile or kilometre, planes up, held and used best.
#[must_use]
pub fn fuel_charts(subject: Subject<'_>, answer: &Fuel) -> Vec<NamedChart> {
    vec![NamedChart { stem: "fuel", chart: by_distance(subject, answer) }]
}

fn by_distance(subject: Subject<'_>, answer: &Fuel) -> LineChart {
    let units = subject.units;
    let fuel = FuelUnits::of(units);
    let one = Length::new::<meter>(1.0);
    let use_of = |burn: &Burn| fuel.by_distance(burn.over(one), one);
    let speed = |speed: Velocity| units.speed.value(speed);
    let line = |name: String, of: fn(&FuelPoint) -> Option<Burn>| {
        let y = |row: &FuelPoint| of(row).as_ref().map_or(f64::NAN, use_of);
        Series::new(name, answer.rows.iter().map(|row| (speed(row.speed), y(row))).collect())
    };
    let up = if answer.pair.is_some() { "planes up" } else { "without planes" };
    let mut series = vec![line(up.to_owned(), |row| row.up)];
    if answer.pair.is_some() {
        let held = format!("held at {}°", plain_number(degrees(answer.held)));
        series.push(line(held, |row| row.held));
        series.push(line("planes used best".to_owned(), |row| row.best));
    }
    let label = format!("Fuel for each {}", fuel.distance_name());
    let unit = fuel.by_distance_symbol().split('/').next().unwrap_or_default();
    let y = from_nought(Axis::new(label.clone(), unit), &series);
    let mut chart = LineChart::new(
        format!("{label} against speed"),
        Axis::new("Speed", units.speed.symbol()),
        y,
    );
    chart.series = series;
    let estimated = if answer.estimates.is_empty() { "" } else { "efficiency estimated" };
    chart.subtitle = Some(subject.subtitle(&[estimated]));
    chart.footnote = Some(CAUTION.to_owned());
    if let Some(burn) = &answer.at_cruise.up {
        let at = number_with_decimals(speed(answer.cruise), 1);
        let label = format!("cruise, {at} {}", units.speed.symbol());
        chart.markers.push(Marker::new(label, speed(answer.cruise), use_of(burn)));
    }
    chart
}
