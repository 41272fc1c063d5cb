//! Charts of a list: the difference that levels it, and the heel without planes.

use uom::si::f64::Velocity;

use super::running::NamedChart;
use super::{Axis, Band, LineChart, Region, Series, Subject};
use crate::balance::sweep::planing_start;
use crate::behaviour::list::heel::LARGEST_HEEL_DEG;
use crate::behaviour::list::{HeelAngle, ListPoint, ListStudy};
use crate::boat::{Fault, degrees};
use crate::hydro;
use crate::plane::effect::TESTED_SPEED_COEFFICIENT;
use crate::size::{PairSource, PairUsed};
use crate::units::{UnitChoice, number_with_decimals};

/// Speeds of a line.
const SPEEDS: i32 = 72;
/// How far above the largest deflection the axis reaches, as a factor.
const ROOM: f64 = 1.6;
/// What the chart of the difference closes with.
const DIFFERENCE_CAUTION: &str = "The band is where the sideways force may be taken up and how far the lift spreads (derived); planes after Savitsky & Brown 1976. Planes differ from boat to boat: begin with the least, deepen until she is level.";
/// What the chart of the heel closes with.
const HEEL_CAUTION: &str = "ROUGH ESTIMATE: buoyancy as afloat, and each half of the bottom at its own deadrise (after Lewandowski 1996, from memory); no published example was at hand. It may be half or twice as much. A line ends where the estimate does.";

/// `level-difference` with planes, and `level-heel`; none where nothing heels her.
///
/// # Errors
/// As [`ListStudy::at`].
pub fn level_charts(subject: Subject<'_>, study: &ListStudy<'_>) -> Result<Vec<NamedChart>, Fault> {
    let boat = subject.boat;
    let subject = Subject { planes: asked(subject, study), ..subject };
    let start = planing_start(boat);
    let top = boat.drive().top_speed.max(start * 1.2);
    let points = (0..=SPEEDS)
        .map(|step| study.at(start + (top - start) * (f64::from(step) / f64::from(SPEEDS))))
        .collect::<Result<Vec<_>, Fault>>()?;
    let mut charts = Vec::new();
    if points.iter().all(|point| point.moment.iter().all(|moment| moment.value == 0.0)) {
        return Ok(charts);
    }
    if study.planes().is_some() {
        let chart = difference(subject, study, &points)?;
        charts.push(NamedChart { stem: "level-difference", chart });
    }
    charts.push(NamedChart { stem: "level-heel", chart: heel(subject, &points) });
    Ok(charts)
}

/// The planes that are asked about: those of the boat, or others.
fn asked(subject: Subject<'_>, study: &ListStudy<'_>) -> PairUsed {
    let pair = study.planes().map(|[port, _]| port);
    let own = subject.planes;
    if pair == own.pair { own } else { PairUsed { pair, source: PairSource::Nowhere } }
}

/// The size of the starboard plane where it differs from the other.
fn starboard(study: &ListStudy<'_>, units: UnitChoice) -> String {
    match study.planes() {
        Some([port, starboard]) if port != starboard => {
            format!("starboard {}", starboard.text(units))
        }
        _ => String::new(),
    }
}

fn difference(
    subject: Subject<'_>,
    study: &ListStudy<'_>,
    points: &[ListPoint],
) -> Result<LineChart, Fault> {
    let Subject { boat, units, .. } = subject;
    let largest_deg = degrees(boat.sizing().largest_deflection);
    let y = Axis::new("Difference between the planes", "°").over(0.0, (ROOM * largest_deg).ceil());
    let mut chart = over_speed("Difference that levels her, against speed", y, subject, points);
    chart.subtitle = Some(subtitle(subject, points, &starboard(study, units)));
    let edge = |end: usize| -> Vec<(f64, f64)> {
        let needed = |point: &ListPoint| {
            let end = &point.levelling.as_ref()?.ends[end];
            end.difference.map(|difference| degrees(difference).abs())
        };
        line(points, units, &needed)
    };
    chart.bands.extend(between("needed to level her", &edge(0), &edge(1)));
    chart.series.push(Series::new("needed at least", edge(0)));
    chart.series.push(Series::new("needed at most", edge(1)));
    let limit = points
        .iter()
        .map(|point| {
            let limit = study.largest_difference(point.bare.speed)?;
            Ok((units.speed.value(point.bare.speed), limit.map_or(f64::NAN, degrees)))
        })
        .collect::<Result<_, Fault>>()?;
    chart.series.push(Series::new("one plane as deep as is safe, the other up", limit));
    let tested = hydro::speed_at(*TESTED_SPEED_COEFFICIENT.start(), boat.hull().chine_beam);
    chart.untested.push(Region::new(
        format!("planes untested (Cv below {})", TESTED_SPEED_COEFFICIENT.start()),
        f64::NEG_INFINITY,
        units.speed.value(tested),
    ));
    chart.footnote = Some(DIFFERENCE_CAUTION.to_owned());
    Ok(chart)
}

fn heel(subject: Subject<'_>, points: &[ListPoint]) -> LineChart {
    let units = subject.units;
    let y = Axis::new("Heel, down to the heavy side", "°").over(0.0, LARGEST_HEEL_DEG);
    let mut chart = over_speed("Heel with planes up, a rough estimate", y, subject, points);
    let edge = |larger: bool| -> Vec<(f64, f64)> {
        let heel = |point: &ListPoint| match point.heel.angle {
            HeelAngle::Between(range) => {
                let [a, b] = range.map(|angle| degrees(angle).abs());
                Some(if larger { a.max(b) } else { a.min(b) })
            }
            HeelAngle::AtLeast(least) if !larger => Some(degrees(least).abs()),
            _ => None,
        };
        line(points, units, &heel)
    };
    chart.bands.extend(between("rough estimate", &edge(false), &edge(true)));
    chart.series.push(Series::new("at least", edge(false)));
    chart.series.push(Series::new("at most", edge(true)));
    chart.footnote = Some(HEEL_CAUTION.to_owned());
    chart
}

/// The band between two edges, where there are both.
fn between(label: &str, lower: &[(f64, f64)], upper: &[(f64, f64)]) -> Option<Band> {
    let both =
        || lower.iter().zip(upper).filter(|(low, high)| low.1.is_finite() && high.1.is_finite());
    let lower: Vec<_> = both().map(|(low, _)| *low).collect();
    let upper = both().map(|(_, high)| *high).collect();
    (lower.len() > 1).then(|| Band::new(label, lower, upper))
}

/// Boat and planes, what else is said of these, and the moment that heels her.
fn subtitle(subject: Subject<'_>, points: &[ListPoint], more: &str) -> String {
    let units = subject.units;
    let moments = points.iter().map(|point| units.moment.value(point.moment[0]));
    let [least, largest] = moments
        .fold([f64::INFINITY, f64::NEG_INFINITY], |[least, largest], m| {
            [least.min(m), largest.max(m)]
        });
    let side = if least + largest < 0.0 { "port" } else { "starboard" };
    let [least, largest] = [least.abs().min(largest.abs()), least.abs().max(largest.abs())]
        .map(|moment| number_with_decimals(moment, 0));
    let moment = if least == largest { largest } else { format!("{least} to {largest}") };
    let unit = units.moment.symbol();
    subject.subtitle(&[more, &format!("{moment} {unit}, {side} side down")])
}

fn over_speed(title: &str, y: Axis, subject: Subject<'_>, points: &[ListPoint]) -> LineChart {
    let Subject { boat, units, .. } = subject;
    let value = |speed: Velocity| units.speed.value(speed);
    let start = value(planing_start(boat));
    let top = value(boat.drive().top_speed).max(start + 1.0);
    let x = Axis::new("Speed", units.speed.symbol()).over(start.floor(), top);
    let mut chart = LineChart::new(title, x, y);
    chart.subtitle = Some(subtitle(subject, points, ""));
    chart
}

fn line(
    points: &[ListPoint],
    units: UnitChoice,
    value: &dyn Fn(&ListPoint) -> Option<f64>,
) -> Vec<(f64, f64)> {
    let at =
        |point: &ListPoint| (units.speed.value(point.bare.speed), value(point).unwrap_or(f64::NAN));
    points.iter().map(at).collect()
}
