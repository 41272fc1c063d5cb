//! Duties: where each one bites, how it reads, and those generated for a boat that gives none.

use uom::si::f64::{Angle, Length, Mass, Ratio, Velocity};
use uom::si::{
    angle::degree, length::meter, mass::kilogram, ratio::ratio, torque::newton_meter,
    velocity::meter_per_second,
};

use super::search::Bench;
use super::site::{Demand, DemandKind, Site};
use crate::balance::forces::{PlaneSize, Prism};
use crate::balance::sweep::planing_start;
use crate::boat::{Boat, Duty, ListCause};
use crate::numeric::least_between;
use crate::units::factor::M_S_PER_KNOT;
use crate::units::{
    UnitChoice, format_angle, format_length, format_mass, format_moment, format_share, format_speed,
};

/// Speeds at which a duty that holds over a range is looked at to find where it bites.
const RANGE_STEPS: u8 = 40;
/// Share of the top speed that counts as cruise. Common practice, no source.
const CRUISE_SHARE: f64 = 0.75;

/// A tenth to spare on the safe run of a usual size, since sizes differ in where their lift acts.
const SPARE: f64 = 1.1;

/// Duties generated from a boat that gives none. Common practice, no source.
///
/// - hump-trim: 1.5° less than the largest bare trim of the planing range, to
///   half a degree and not under 4°, from the slowest speed at which planes can
///   hold it with the keel within the bottom, to cruise; none where she never
///   trims above 4.5°.
/// - least-resistance: within 5 % at cruise, three quarters of top speed.
/// - porpoising-margin: 0.5° up to top speed, or as far as planes of a usual
///   size can keep it with a safe run; none where they never can.
/// - list: a person of 85 kg seated 0.3 of the chine beam to starboard at cruise.
#[must_use]
pub(crate) fn generated(boat: &Boat, prism: &Prism) -> Vec<Duty> {
    let start_m_s = planing_start(boat).get::<meter_per_second>();
    let top_m_s = boat.drive().top_speed.get::<meter_per_second>();
    let start = half_knots(start_m_s, f64::ceil);
    let top = half_knots(top_m_s, f64::floor);
    if top <= start {
        return Vec::new();
    }
    let mut cruise = half_knots(CRUISE_SHARE * top_m_s, f64::round);
    if cruise < start {
        cruise = start;
    }
    let mut largest_trim_deg = 0.0_f64;
    for speed_m_s in range(start_m_s, top_m_s) {
        let condition = prism.at(speed_m_s);
        if let Some(forces) = super::site::settle(&condition) {
            largest_trim_deg = largest_trim_deg.max(forces.trim_deg);
        }
    }
    let mut duties = Vec::new();
    if largest_trim_deg > 4.5 {
        let half_degrees = (2.0 * (largest_trim_deg - 1.5)).floor().max(8.0);
        let at_most = Angle::new::<degree>(0.5 * half_degrees);
        if let Some(from) = slowest_with_trim(prism, at_most, [start, cruise]) {
            duties.push(Duty::HumpTrim { at_most, from, to: cruise });
        }
    }
    duties.push(Duty::LeastResistance { within: Ratio::new::<ratio>(0.05), speed: cruise });
    if let Some(up_to) = fastest_with_margin(prism, 0.5, [start_m_s, top_m_s]) {
        duties.push(Duty::PorpoisingMargin { margin: Angle::new::<degree>(0.5), up_to });
    }
    let seat_m = (6.0 * boat.hull().chine_beam.get::<meter>()).round() / 20.0;
    duties.push(Duty::List {
        cause: ListCause::OffCentre {
            mass: Mass::new::<kilogram>(85.0),
            distance: Length::new::<meter>(seat_m),
        },
        speed: cruise,
    });
    duties
}

/// A pair of usual size for a beam.
fn usual_size(prism: &Prism) -> PlaneSize {
    PlaneSize { span_m: 0.25 * prism.beam_m, chord_m: 0.1 * prism.beam_m }
}

/// Slowest speed, in whole half knots, from which planes can hold a trim with a safe run.
fn slowest_with_trim(prism: &Prism, at_most: Angle, [from, to]: [Velocity; 2]) -> Option<Velocity> {
    let half_knot = Velocity::new::<meter_per_second>(0.5 * M_S_PER_KNOT);
    let mut speed = from;
    while speed <= to {
        let site = Site::new(prism, speed.get::<meter_per_second>());
        let size = usual_size(prism);
        let needed_deg = site.deflection_for_trim(size, at_most.get::<degree>());
        if SPARE * needed_deg <= site.safe_deg(size) {
            return Some(speed);
        }
        speed += half_knot;
    }
    None
}

/// Fastest speed, in whole half knots, up to which planes of a usual size can keep a margin under the porpoising limit.
fn fastest_with_margin(prism: &Prism, margin_deg: f64, [from, to]: [f64; 2]) -> Option<Velocity> {
    let size = usual_size(prism);
    let last = range(from, to)
        .take_while(|&speed_m_s| {
            let site = Site::new(prism, speed_m_s);
            let (needed_deg, possible) = site.deflection_for_margin(size, margin_deg);
            possible && SPARE * needed_deg <= site.safe_deg(size)
        })
        .last()?;
    let fastest = half_knots(last, f64::floor);
    (fastest.get::<meter_per_second>() > from).then_some(fastest)
}

/// A speed in whole half knots, as a person would write it.
fn half_knots(speed_m_s: f64, round: fn(f64) -> f64) -> Velocity {
    let half_knot_m_s = 0.5 * M_S_PER_KNOT;
    Velocity::new::<meter_per_second>(round(speed_m_s / half_knot_m_s) * half_knot_m_s)
}

/// The heeling moment of a list duty, positive when starboard goes down.
#[must_use]
pub fn list_moment_n_m(cause: ListCause) -> f64 {
    match cause {
        ListCause::Moment(moment) => moment.get::<newton_meter>(),
        ListCause::OffCentre { mass, distance } => {
            mass.get::<kilogram>()
                * crate::physical::STANDARD_GRAVITY_M_S2
                * distance.get::<meter>()
        }
    }
}

/// The condition of a duty as a sentence.
#[must_use]
pub fn sentence(duty: &Duty, units: UnitChoice) -> String {
    let speed = |speed: Velocity| format_speed(speed, units.speed);
    match *duty {
        Duty::HumpTrim { at_most, from, to } => {
            format!("trim at most {} from {} to {}", format_angle(at_most), speed(from), speed(to))
        }
        Duty::LeastResistance { within, speed: at } => format!(
            "resistance within {} of the least that any pair reaches at {}",
            format_share(within),
            speed(at)
        ),
        Duty::PorpoisingMargin { margin, up_to } => format!(
            "trim at least {} under the porpoising limit up to {}",
            format_angle(margin),
            speed(up_to)
        ),
        Duty::List { cause: ListCause::Moment(moment), speed: at } => format!(
            "a heeling moment of {} levelled at {}",
            format_moment(moment, units.moment),
            speed(at)
        ),
        Duty::List { cause: ListCause::OffCentre { mass, distance }, speed: at } => format!(
            "{} at {} {} levelled at {}",
            format_mass(mass, units.mass),
            format_length(distance.abs(), units.length),
            if distance.get::<meter>() < 0.0 { "to port" } else { "to starboard" },
            speed(at)
        ),
    }
}

/// Speeds evenly over a range, both ends included.
pub(crate) fn range(from: f64, to: f64) -> impl Iterator<Item = f64> {
    (0..=RANGE_STEPS).map(move |step| from + (to - from) * f64::from(step) / f64::from(RANGE_STEPS))
}

/// The range of speeds a duty holds over, m/s; one value twice where it is a single speed.
pub(crate) fn speeds_m_s(duty: &Duty, planing_start_m_s: f64) -> [f64; 2] {
    let metres_per_second = |speed: Velocity| speed.get::<meter_per_second>();
    match *duty {
        Duty::HumpTrim { from, to, .. } => [from, to].map(metres_per_second),
        Duty::PorpoisingMargin { up_to, .. } => [planing_start_m_s, metres_per_second(up_to)],
        Duty::LeastResistance { speed, .. } | Duty::List { speed, .. } => {
            [metres_per_second(speed); 2]
        }
    }
}

/// What a duty demands at each speed; resistance limits are filled in later.
pub(crate) fn demand(duty: &Duty, place: usize) -> Demand {
    let kind = match *duty {
        Duty::HumpTrim { at_most, .. } => DemandKind::Trim { at_most_deg: at_most.get::<degree>() },
        Duty::PorpoisingMargin { margin, .. } => {
            DemandKind::Margin { margin_deg: margin.get::<degree>() }
        }
        Duty::LeastResistance { within, .. } => {
            DemandKind::Resistance { at_most_n: 1.0 + within.get::<ratio>() }
        }
        Duty::List { cause, .. } => DemandKind::List { moment_n_m: list_moment_n_m(cause) },
    };
    Demand { duty: place, kind }
}

/// Adds a demand at a speed, to the site already there if there is one.
pub(crate) fn add_demand<'a>(
    sites: &mut Vec<Site<'a>>,
    prism: &'a Prism,
    speed_m_s: f64,
    demand: Demand,
) {
    let same = |site: &&mut Site<'a>| (site.bare.speed_m_s - speed_m_s).abs() < 1e-9;
    if let Some(site) = sites.iter_mut().find(same) {
        if !site.demands.contains(&demand) {
            site.demands.push(demand);
        }
        return;
    }
    let mut site = Site::new(prism, speed_m_s);
    site.demands.push(demand);
    sites.push(site);
}

/// Speeds at which a demand over a range bites: both ends, and where a size needs most deflection.
pub(crate) fn biting_speeds_m_s(
    bench: &Bench<'_>,
    prism: &Prism,
    size: PlaneSize,
    demand: Demand,
    [from, to]: [f64; 2],
) -> Vec<f64> {
    if to <= from {
        return vec![from];
    }
    let need = |speed_m_s: f64| {
        let mut site = Site::new(prism, speed_m_s);
        site.demands.push(demand);
        site.need(size, &bench.rules).strain
    };
    let grid: Vec<[f64; 2]> = range(from, to).map(|speed| [speed, need(speed)]).collect();
    let most = (0..grid.len()).max_by(|&i, &j| grid[i][1].total_cmp(&grid[j][1])).unwrap_or(0);
    let (below, above) = (most.saturating_sub(1), (most + 1).min(grid.len() - 1));
    let peak = least_between(grid[below][0], grid[above][0], 1e-6, |speed| -need(speed))
        .filter(|peak| -peak[1] >= grid[most][1])
        .map_or(grid[most][0], |peak| peak[0]);
    vec![from, peak, to]
}
