//! A chart in words, for screen readers and for text searches.

use super::contents::{Axis, LineChart, Series};
use super::scale::{Scale, drawable};

/// One paragraph saying what the chart shows, with the ends and the peak of each line.
pub(super) fn describe(chart: &LineChart, x: &Scale, y: &Scale) -> String {
    let mut text = format!("{} against {}.", with_unit(&chart.y), with_unit(&chart.x));
    if let Some(subtitle) = &chart.subtitle {
        text += &format!(" {subtitle}.");
    }
    for series in &chart.series {
        text += &format!(" {}", describe_series(series, chart, x, y));
    }
    for band in &chart.bands {
        text += &format!(" Shaded band: {}.", band.label);
    }
    for floor in &chart.floors {
        let height = quantity(floor.y, y, &chart.y);
        text += &format!(" Horizontal line at {height}: {}.", floor.label);
    }
    for region in &chart.untested {
        text += &format!(" Untested region: {}.", region.label);
    }
    for marker in &chart.markers {
        text += &format!(
            " Point: {}, {} at {}.",
            marker.label,
            quantity(marker.y, y, &chart.y),
            quantity(marker.x, x, &chart.x)
        );
    }
    if let Some(footnote) = &chart.footnote {
        text += &format!(" {footnote}");
    }
    text
}

fn describe_series(series: &Series, chart: &LineChart, x: &Scale, y: &Scale) -> String {
    let drawn = || {
        series
            .points
            .iter()
            .filter(|(px, py)| drawable(*px) && drawable(*py))
    };
    let (Some(first), Some(last)) = (drawn().next(), drawn().next_back()) else {
        return format!("Line {}: no values.", series.label);
    };
    let at = |point: &(f64, f64)| {
        format!(
            "{} at {}",
            quantity(point.1, y, &chart.y),
            quantity(point.0, x, &chart.x)
        )
    };
    if drawn().count() == 1 {
        return format!("Single point {}: {}.", series.label, at(first));
    }
    let peak = drawn().fold(first, |best, p| if p.1 > best.1 { p } else { best });
    format!(
        "Line {}: from {} to {}, highest {}.",
        series.label,
        at(first),
        at(last),
        at(peak)
    )
}

fn with_unit(axis: &Axis) -> String {
    if axis.unit.is_empty() {
        axis.label.clone()
    } else {
        format!("{} in {}", axis.label, axis.unit)
    }
}

fn quantity(value: f64, scale: &Scale, axis: &Axis) -> String {
    let number = scale.value_in_words(value);
    match axis.unit.as_str() {
        "" => number,
        "°" => format!("{number}°"),
        unit => format!("{number} {unit}"),
    }
}
