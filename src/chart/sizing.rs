//! Charts of a sizing: area against hump resistance, and the deflection to use at each speed.

use super::running::{NamedChart, caution, from_nought};
use super::{Axis, LineChart, Marker, Rule, Series, Subject};
use crate::boat::{Boat, degrees};
use crate::size::{Answer, PairUsed, ScheduleRow, Suggestion};
use crate::units::UnitChoice;

/// `area-resistance` and `schedule`; none where there is nothing to draw.
#[must_use]
pub fn sizing_charts(boat: &Boat, suggestion: &Suggestion, units: UnitChoice) -> Vec<NamedChart> {
    let mut charts = Vec::new();
    if !suggestion.trade_off.is_empty() {
        let chart = trade_off(boat, suggestion, units);
        charts.push(NamedChart { stem: "area-resistance", chart });
    }
    if suggestion.pair().is_some() && !suggestion.schedule.is_empty() {
        charts.push(NamedChart { stem: "schedule", chart: schedule(boat, suggestion, units) });
    }
    charts
}

fn trade_off(boat: &Boat, suggestion: &Suggestion, units: UnitChoice) -> LineChart {
    let point = |p: &crate::size::TradePoint| {
        (units.area.value(p.area), units.force.value(p.hump_resistance))
    };
    let mut line: Vec<(f64, f64)> = suggestion.trade_off.iter().map(point).collect();
    let bare = suggestion.bare_hump_resistance.map(|r| units.force.value(r));
    if let Some(bare) = bare {
        line.insert(0, (0.0, bare));
    }
    let largest = line.last().map_or(1.0, |last| last.0);
    let x =
        Axis::new("Area of both planes", units.area.symbol().replace("^2", "²")).over(0.0, largest);
    let series = [Series::new("best deflection that duties may use", line)];
    let y = from_nought(Axis::new("Resistance at the hump", units.force.symbol()), &series);
    let mut chart = LineChart::new("Area of the planes against resistance at the hump", x, y);
    chart.series.extend(series);
    if let Some(bare) = bare {
        chart.floors.push(Rule::new("planes up", bare));
    }
    if let Answer::Pair(pair) = suggestion.answer {
        let chosen = suggestion
            .trade_off
            .iter()
            .find(|p| (p.area.value / pair.area().value - 1.0).abs() < 1e-6);
        if let Some((x, y)) = chosen.map(point) {
            chart.markers.push(Marker::new("pair suggested", x, y));
        }
    }
    let more = ["same span/chord, deeper where the transom takes no more span"];
    chart.subtitle =
        Some(subtitle(boat, suggestion, &suggestion.trade_off_condition, units, &more));
    chart.footnote = Some(caution(suggestion.model.name(), true));
    chart
}

/// The boat in the loading condition that a chart shows, with the pair that it is about.
fn subtitle(
    boat: &Boat,
    suggestion: &Suggestion,
    condition: &str,
    units: UnitChoice,
    more: &[&str],
) -> String {
    let loaded = boat.in_condition(condition);
    let boat = loaded.as_ref().unwrap_or(boat);
    let planes = match suggestion.used() {
        PairUsed { pair: None, .. } => PairUsed::fitted(boat),
        suggested => suggested,
    };
    Subject { boat, planes, units }.subtitle(more)
}

fn schedule(boat: &Boat, suggestion: &Suggestion, units: UnitChoice) -> LineChart {
    let unit = units.speed;
    let line = |value: fn(&ScheduleRow) -> f64| {
        let point = |row: &ScheduleRow| (unit.value(row.speed), value(row));
        suggestion.schedule.iter().map(point).collect::<Vec<_>>()
    };
    let x = Axis::new("Speed", unit.symbol());
    let usable_deg = degrees(suggestion.usable_deflection);
    let y = Axis::new("Mean deflection", "deg").over(0.0, usable_deg + 1.0);
    let mut chart = LineChart::new("Deflection to use at each speed", x, y);
    chart.series.push(Series::new("use", line(|row| degrees(row.deflection))));
    chart.series.push(Series::new("never beyond", line(|row| degrees(row.largest_safe))));
    if let Some(band) = suggestion.dead_band {
        chart.floors.push(Rule::new("plate reaches the bottom line", degrees(band)));
    }
    let condition = suggestion.conditions.first().map_or("", |first| &first.condition);
    chart.subtitle = Some(subtitle(boat, suggestion, condition, units, &[]));
    chart.footnote = Some(caution(suggestion.model.name(), true));
    chart
}
