//! Charts of a boat in head seas: acceleration against wave height and against speed.

use uom::si::f64::{Acceleration, Length, Velocity};
use uom::si::length::meter;

use super::running::{NamedChart, from_nought};
use super::{Axis, Band, LineChart, Region, Series, Subject};
use crate::balance::Point;
use crate::balance::sweep::planing_start;
use crate::behaviour::seaway::{Ranged, Ride, Seaway, Stance, in_g};
use crate::boat::Fault;
use crate::hydro::seaway::{Quantity, speed_length_ratio};
use crate::size::PairUsed;
use crate::units::{UnitChoice, number_with_decimals};

/// Steps of each line.
const STEPS: u32 = 60;
/// What both charts close with.
const FOOTNOTE: &str = "Mean of all peaks in irregular head seas after Savitsky & Brown 1976, at the trim of calm water; the highest tenth average 3.3 times as much. The bands hold nine in ten of the tank runs behind the equations; with planes down the range is the same share of the line. Trim outside 3° to 7° is extrapolated too. Confirm at sea; raise planes before a following sea.";
/// What the vertical axes show.
const AXIS: &str = "Mean peak acceleration";

/// What one chart draws as four lines and two bands.
type Of = fn(&Ride) -> Ranged<Acceleration>;

/// The run that a line is for.
type Run = fn(&Stance) -> Option<&Point>;

/// Planes up and down.
const RUNS: [(&str, Run); 2] =
    [("planes up", |s| Some(&s.up)), ("planes down", |s| s.down.as_ref())];
/// Where each line is felt.
const PLACES: [(&str, Of); 2] =
    [("centre of gravity", |ride| ride.centre), ("bow", |ride| ride.bow)];

/// `acceleration-waves` at a speed, and `acceleration-speed` in waves of one height.
///
/// # Errors
/// As [`crate::balance::Balance::point`].
pub fn seaway_charts(
    sea: &Seaway<'_>,
    speed: Velocity,
    wave_height: Length,
    planes: PairUsed,
    units: UnitChoice,
) -> Result<Vec<NamedChart>, Fault> {
    let subject = Subject { boat: sea.boat(), planes, units };
    Ok(vec![
        NamedChart { stem: "acceleration-waves", chart: against_waves(sea, speed, subject)? },
        NamedChart { stem: "acceleration-speed", chart: against_speed(sea, wave_height, subject)? },
    ])
}

/// Places on the horizontal axis, each with its stance and wave height.
type Places = [(f64, Stance, Length)];

/// A part of what is felt somewhere with the planes set one way, in g, over the places.
fn line(
    sea: &Seaway<'_>,
    places: &Places,
    pick: Run,
    part: impl Fn(&Ride) -> Acceleration,
) -> Vec<(f64, f64)> {
    let g = |stance: &Stance, height: Length| {
        let ride = pick(stance).and_then(|point| sea.ride(point, height));
        ride.map_or(f64::NAN, |ride| in_g(part(&ride)))
    };
    places.iter().map(|(x, stance, height)| (*x, g(stance, *height))).collect()
}

/// The two or four lines.
fn lines(sea: &Seaway<'_>, places: &Places) -> Vec<Series> {
    let mut lines = Vec::new();
    let has_planes = sea.boat().planes().is_some();
    for (where_felt, value) in PLACES {
        for (set, pick) in &RUNS[..if has_planes { 2 } else { 1 }] {
            let name = if has_planes { format!("{where_felt}, {set}") } else { where_felt.into() };
            lines.push(Series::new(name, line(sea, places, *pick, |ride| value(ride).value)));
        }
    }
    lines
}

/// The ranges with planes up, where she runs.
fn bands(sea: &Seaway<'_>, places: &Places) -> Vec<Band> {
    let [(set, up), _] = RUNS;
    let edge = |value: Of, end: fn(Ranged<Acceleration>) -> Acceleration| {
        let mut edge = line(sea, places, up, |ride| end(value(ride)));
        edge.retain(|(_, g)| g.is_finite());
        edge
    };
    let band = |(where_felt, value): (&str, Of)| {
        let [low, high] = [edge(value, |peak| peak.low), edge(value, |peak| peak.high)];
        Band::new(format!("{where_felt}, {set}: nine in ten tank runs"), low, high)
    };
    PLACES.into_iter().map(band).collect()
}

fn chart(sea: &Seaway<'_>, title: &str, x: Axis, places: &Places, subtitle: String) -> LineChart {
    let (series, bands) = (lines(sea, places), bands(sea, places));
    let edges: Vec<_> =
        bands.iter().map(|band| Series::new(band.label.clone(), band.upper.clone())).collect();
    let y = from_nought(Axis::new(AXIS, "g"), &[series.clone(), edges].concat());
    let mut chart = LineChart::new(title, x, y);
    chart.series = series;
    chart.bands = bands;
    chart.subtitle = Some(subtitle);
    chart.footnote = Some(FOOTNOTE.to_owned());
    chart
}

/// Boat and planes, what the chart is for, and whether such a boat was tested in waves.
fn subtitle(sea: &Seaway<'_>, subject: Subject<'_>, at: &str) -> String {
    let is_tested = sea.departures().is_empty();
    let tested = if is_tested { "" } else { "extrapolated: such a boat was not tested" };
    subject.subtitle(&[at, tested])
}

fn against_waves(
    sea: &Seaway<'_>,
    speed: Velocity,
    subject: Subject<'_>,
) -> Result<LineChart, Fault> {
    let units = subject.units;
    let stance = sea.stance(speed)?;
    let beam = sea.boat().hull().chine_beam;
    // Only what was tested: the fit ends in a number without meaning where the waves end.
    let [low, high] = Quantity::WaveHeightOverBeam.tested();
    let place = |step: u32| {
        let height = beam * (low + (high - low) * f64::from(step) / f64::from(STEPS));
        (units.length.value(height), stance.clone(), height)
    };
    let places: Vec<_> = (0..=STEPS).map(place).collect();
    let x = Axis::new("Significant wave height, as far as tested", units.length.symbol());
    let at = number_with_decimals(units.speed.value(speed), 1);
    let at = subtitle(sea, subject, &format!("{at} {}", units.speed.symbol()));
    Ok(chart(sea, "Acceleration against wave height", x, &places, at))
}

fn against_speed(
    sea: &Seaway<'_>,
    wave_height: Length,
    subject: Subject<'_>,
) -> Result<LineChart, Fault> {
    let units = subject.units;
    let start = planing_start(sea.boat());
    let top = sea.boat().drive().top_speed.max(start * 1.05);
    let mut places = Vec::new();
    for step in 0..=STEPS {
        let speed = start + (top - start) * (f64::from(step) / f64::from(STEPS));
        places.push((units.speed.value(speed), sea.stance(speed)?, wave_height));
    }
    let x = Axis::new("Speed", units.speed.symbol());
    let [least, most] = Quantity::WaveHeightOverBeam.tested();
    let share = wave_height.get::<meter>() / sea.boat().hull().chine_beam.get::<meter>();
    let is_tested = (least - 1e-9..=most + 1e-9).contains(&share);
    let tested = if is_tested { "" } else { " (not tested for this beam)" };
    let height = number_with_decimals(units.length.value(wave_height), 2);
    let at = format!("waves {height} {}{tested}", units.length.symbol());
    let at = subtitle(sea, subject, &at);
    let mut chart = chart(sea, "Acceleration against speed", x, &places, at);
    let length = sea.boat().hull().bottom_length;
    let of_ratio = |ratio: f64| start * (ratio / speed_length_ratio(start, length));
    let [low, high] = Quantity::SpeedOverRootLength.tested().map(of_ratio);
    if low > start {
        let to = units.speed.value(low);
        chart.untested.push(Region::new("slower than tested", f64::NEG_INFINITY, to));
    }
    if high < top {
        let from = units.speed.value(high);
        chart.untested.push(Region::new("faster than tested", from, f64::INFINITY));
    }
    Ok(chart)
}
