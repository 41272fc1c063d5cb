//! The boat at her trim, to scale, and the charts.

use super::gather::{Advised, Gathered};
use super::{ReportError, say};
use crate::balance::Point;
use crate::balance::sweep::planing_start;
use crate::boat::{Aim, Boat, degrees};
use crate::chart::running::NamedChart;
use crate::chart::{Axis, Band, Height, LineChart, Rule, Series};
use crate::document::Picture;
use crate::picture::{Frame, Scene, side_view, view_from_below};
use crate::size::{PairSource, ScheduleRow};
use crate::units::UnitChoice;

/// What a picture of a boat cannot know.
const SKETCH: &str =
    "Trim, draft, wetted bottom and planes are as computed; bow, sides and wake are a sketch.";
/// Room above the highest line, degrees.
const ROOM_DEG: f64 = 1.0;

/// What the picture of a boat shows.
#[derive(Clone, Copy, Debug)]
pub(super) struct Shown<'a> {
    pub boat: &'a Boat,
    pub point: &'a Point,
    pub units: UnitChoice,
    /// Narrow where two stand side by side, so that their letters stay large enough to be read.
    pub frame: Frame,
}

impl Shown<'_> {
    const fn scene(&self) -> Scene<'_> {
        let Self { boat, point, units, frame } = *self;
        Scene { boat, point, budget: None, units, frame }
    }

    /// The boat from the side.
    pub fn side(&self, caption: String) -> Picture {
        picture(side_view(&self.scene()), caption)
    }

    /// The boat from below.
    pub fn below(&self, caption: String) -> Picture {
        picture(view_from_below(&self.scene()), caption)
    }
}

fn picture(svg: String, caption: String) -> Picture {
    let description = format!("{caption} To scale. {SKETCH}");
    Picture { svg, caption, description }
}

/// A chart as a picture, low enough for three on a page of its full width: side by side their
/// letters could not be read.
pub(super) fn of_chart(named: &NamedChart) -> Result<Picture, ReportError> {
    let mut low = named.chart.clone();
    low.height = Height::Low;
    chart(&low)
}

/// A chart as a picture; its own title and footnote say what it is.
pub(super) fn chart(chart: &LineChart) -> Result<Picture, ReportError> {
    let description = format!("{} against {}: {}", chart.y.label, chart.x.label, chart.title);
    Ok(Picture { svg: chart.svg()?, caption: String::new(), description })
}

/// Bow angle against speed: planes up with its likely range, planes as advised, and what is asked; none where she runs nowhere.
pub(super) fn bow_chart(gathered: &Gathered) -> Option<LineChart> {
    let units = gathered.size.units;
    let at = |row: &ScheduleRow, trim: Option<uom::si::f64::Angle>| {
        (units.speed.value(row.speed), trim.map_or(f64::NAN, degrees))
    };
    let rows = gathered.main_schedule();
    if rows.iter().all(|row| row.trim_bare.is_none() && row.trim.is_none()) {
        return None;
    }
    let mut chart = LineChart::new(
        "How high she carries her bow",
        Axis::new("Speed", units.speed.symbol()),
        Axis::new("Bow up", "°"),
    );
    let several = gathered.size.boats.len() > 1;
    let boat = &gathered.size.boats[gathered.main_loading()];
    let planes =
        gathered.advised.pair().filter(|_| gathered.has_settings()).map_or(String::new(), |pair| {
            let is_fitted = gathered.used().source == PairSource::Fitted;
            let source = if is_fitted { "fitted" } else { "advised" };
            format!(" · planes {source}, {} each", pair.text(units))
        });
    chart.subtitle = Some(format!(
        "{}{}{planes} · calm water, straight ahead",
        boat.name(),
        say::loaded(boat, several)
    ));
    chart.height = Height::Strip;
    if let Some(hump) = &gathered.hump {
        let edge = |part: fn(&crate::doubt::Likely<uom::si::f64::Angle>) -> uom::si::f64::Angle| {
            let rows = hump.up.speeds.iter().filter(|row| row.running_share > 0.5);
            rows.filter_map(|row| {
                Some((units.speed.value(row.speed), degrees(part(row.trim.as_ref()?))))
            })
            .collect::<Vec<_>>()
        };
        let band = Band::new("planes up, nine boats in ten", edge(|t| t.low), edge(|t| t.high));
        chart.bands.push(band);
    }
    chart.series.push(Series::new("planes up", rows.iter().map(|r| at(r, r.trim_bare)).collect()));
    if gathered.advised.pair().is_some() && gathered.has_settings() {
        let advised = rows.iter().map(|r| at(r, r.trim)).collect();
        let name = match gathered.advised {
            Advised::Short(_) => "with the nearest pair",
            _ => "planes as advised",
        };
        chart.series.push(Series::new(name, advised));
    }
    chart.series.extend(asked(gathered, &boat.condition().name));
    let highest = chart.series.iter().flat_map(|s| &s.points).map(|p| p.1);
    let highest = highest.chain(chart.bands.iter().flat_map(|b| &b.upper).map(|p| p.1));
    let highest = highest.filter(|y| y.is_finite()).fold(2.0, f64::max);
    chart.y = chart.y.over(0.0, (highest + ROOM_DEG).ceil());
    chart.floors.push(Rule::new("never less than 2°", 2.0));
    Some(chart)
}

/// The highest bow that a duty allows, over the speeds where it holds.
fn asked(gathered: &Gathered, condition: &str) -> Option<Series> {
    let suggestion = &gathered.size.suggestion;
    let own = suggestion.conditions.iter().find(|own| own.condition == condition)?;
    let is_held =
        |held_in: &[String]| held_in.is_empty() || held_in.iter().any(|name| name == condition);
    suggestion.duties.iter().filter(|result| is_held(&result.held_in)).find_map(|result| {
        let Aim::Trim(at_most) = result.duty.aim() else { return None };
        let ends = result.duty.speeds().ends(planing_start(gathered.boat()), || own.hump_speed);
        let at = |speed| (gathered.size.units.speed.value(speed), degrees(at_most));
        Some(Series::new("asked for", ends.map(at).into()))
    })
}
