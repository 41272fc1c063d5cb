//! Resistance and effective power against speed.

use uom::si::f64::Force;

use super::{Lines, from_nought};
use crate::balance::ResistanceParts;
use crate::chart::{Axis, LineChart, Series};

/// Takes one part of the resistance.
type Part = fn(&ResistanceParts) -> Force;

/// Resistance for each deflection.
pub(super) fn totals(lines: &Lines<'_>) -> LineChart {
    let unit = lines.units.force;
    let series = lines.each_deflection(&|running| Some(unit.value(running.resistance)));
    let axis = from_nought(Axis::new("Resistance", unit.symbol()), &series);
    let mut chart = lines.chart("Resistance against speed", axis);
    chart.series = series;
    chart.untested = lines.untested();
    chart
}

/// Resistance and its parts at the first deflection; parts that are nought throughout are left out.
pub(super) fn parts(lines: &Lines<'_>) -> LineChart {
    let unit = lines.units.force;
    let axis = Axis::new("Resistance", unit.symbol());
    let mut chart = lines.chart("Resistance and its parts against speed", axis);
    chart.untested = lines.untested_hull();
    let Some((deflection, points)) = lines.sets.first() else { return chart };
    if lines.sets.len() > 1 {
        chart.subtitle = Some(lines.subject.subtitle(&[&lines.name(*deflection)]));
    }
    let named: [(&str, Part); 7] = [
        ("pressure on the bottom", |parts| parts.pressure),
        ("friction on the bottom", |parts| parts.friction),
        ("hump correction", |parts| parts.hump),
        ("planes", |parts| parts.planes),
        ("air", |parts| parts.air),
        ("appendages", |parts| parts.appendages),
        ("whisker spray", |parts| parts.spray),
    ];
    let total = lines.line(points, &|running| Some(unit.value(running.resistance)));
    chart.series.push(Series::new("all together", total));
    for (name, part) in named {
        let line = lines.line(points, &|running| Some(unit.value(part(&running.parts))));
        if line.iter().any(|point| point.1.is_finite() && point.1 != 0.0) {
            chart.series.push(Series::new(name, line));
        }
    }
    chart.y = from_nought(chart.y, &chart.series);
    chart
}

/// Effective power for each deflection.
pub(super) fn power(lines: &Lines<'_>) -> LineChart {
    let unit = lines.units.power;
    let series = lines.each_deflection(&|running| Some(unit.value(running.effective_power)));
    let axis = from_nought(Axis::new("Effective power", unit.symbol()), &series);
    let mut chart = lines.chart("Effective power against speed", axis);
    chart.series = series;
    chart.untested = lines.untested();
    chart
}
