//! An own judging of what a pair does: nothing of the search, only [`Balance::point`] and scans.
//!
//! At every speed at which a duty holds, one mean deflection (with the
//! difference that levels the moments) must do all duties that hold there, with
//! a safe run. The deflections are scanned from end to end.

use std::cell::Cell;

use uom::si::{
    angle::degree, force::newton, length::meter, mass_density::kilogram_per_cubic_meter,
    ratio::ratio, velocity::meter_per_second,
};

use super::fleet::{degrees, metres};
use crate::balance::{Balance, Hump, Settings};
use crate::boat::{Boat, Duty, ListCause, PlanePair};
use crate::size::{Reached, Suggestion};

/// Deflections looked at in one scan.
const SCAN: u32 = 24;
/// Speeds looked at in the range of a duty.
pub const SPEEDS: u32 = 41;

/// A boat running with a pair down.
#[derive(Clone, Copy, Debug)]
pub struct Seen {
    pub trim_deg: f64,
    pub resistance_n: f64,
    /// Trim with planes up; 15° where she does not run so.
    pub bare_deg: f64,
    pub porpoising_is_tested: bool,
    /// Lower porpoising limit, degrees.
    pub limit_deg: f64,
}

#[derive(Clone, Copy, Debug)]
enum Wanted {
    Relief(f64),
    Trim(f64),
    Resistance(f64),
    Margin(f64),
    Moment(f64),
}

struct Station {
    speed_m_s: f64,
    wanted: Vec<Wanted>,
}

pub struct Judge<'a> {
    boat: &'a Boat,
    settings: Settings,
    stations: Vec<Station>,
    refused: Cell<usize>,
}

fn evenly(from: f64, to: f64, count: u32) -> Vec<f64> {
    (0..count).map(|step| from + (to - from) * f64::from(step) / f64::from(count - 1)).collect()
}

/// Start of the planing range, Cv = 1.
pub fn start_m_s(boat: &Boat) -> f64 {
    (9.806_65 * boat.hull().chine_beam.get::<meter>()).sqrt() * (1.0 + 1e-9)
}

/// The speeds over which a duty holds.
fn range_m_s(boat: &Boat, duty: &Duty) -> [f64; 2] {
    match *duty {
        Duty::Relief { over: Some(range), .. } => range.map(|v| v.get::<meter_per_second>()),
        Duty::Relief { over: None, .. } => {
            let hump = Hump::of(boat, &Settings::default()).expect("she runs");
            [hump.speed.get::<meter_per_second>(); 2]
        }
        Duty::HumpTrim { from, to, .. } => [from, to].map(|v| v.get::<meter_per_second>()),
        Duty::PorpoisingMargin { up_to, .. } => [start_m_s(boat), up_to.get::<meter_per_second>()],
        Duty::LeastResistance { speed, .. } | Duty::List { speed, .. } => {
            [speed.get::<meter_per_second>(); 2]
        }
    }
}

impl<'a> Judge<'a> {
    /// A judge of some duties at a number of speeds in each range; `least_n` is the least reachable resistance at a speed.
    pub fn of(boat: &'a Boat, duties: &[Duty], count: u32, least_n: impl Fn(f64) -> f64) -> Self {
        let mut all: Vec<f64> = Vec::new();
        for duty in duties {
            let [from, to] = range_m_s(boat, duty);
            if to > from { all.extend(evenly(from, to, count)) } else { all.push(from) }
        }
        let stations = all
            .into_iter()
            .map(|speed_m_s| Station {
                speed_m_s,
                wanted: duties
                    .iter()
                    .filter(|duty| {
                        let [from, to] = range_m_s(boat, duty);
                        speed_m_s >= from - 1e-7 && speed_m_s <= to + 1e-7
                    })
                    .map(|duty| wanted(duty, || least_n(speed_m_s)))
                    .collect(),
            })
            .collect();
        let mut judge =
            Self { boat, settings: Settings::default(), stations, refused: Cell::new(0) };
        let idle: Vec<bool> = judge.stations.iter().map(|station| judge.is_idle(station)).collect();
        let mut idle = idle.into_iter();
        judge.stations.retain(|_| !idle.next().unwrap_or(false));
        judge
    }

    /// Whether nothing here asks for planes.
    fn is_idle(&self, station: &Station) -> bool {
        let bare = Balance::of(self.boat, &self.settings).with_planes(None);
        let moments: f64 = station.wanted.iter().map(moment_n_m).sum();
        let Some(seen) = see(&bare, station.speed_m_s, 0.0) else { return false };
        moments == 0.0 && station.wanted.iter().all(|wanted| missed(*wanted, &seen) <= 0.0)
    }

    /// Whether the bare boat does all.
    pub fn bare_does_all(&self) -> bool {
        self.stations.is_empty()
    }

    /// Whether a pair does all duties, to within a slack in degrees, per cent or tenths of a beam.
    pub fn does(&self, pair: PlanePair, slack: f64) -> bool {
        let place = |i: usize| self.missing_at(&self.stations[i], pair) <= slack;
        let first = self.refused.get();
        if first < self.stations.len() && !place(first) {
            return false;
        }
        match (0..self.stations.len()).find(|&i| i != first && !place(i)) {
            Some(i) => {
                self.refused.set(i);
                false
            }
            None => true,
        }
    }

    /// The speed at which a pair misses most, and by how much.
    pub fn worst(&self, pair: PlanePair) -> (f64, f64) {
        self.stations
            .iter()
            .map(|station| (station.speed_m_s, self.missing_at(station, pair)))
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .unwrap_or((0.0, 0.0))
    }

    /// How much a pair misses at a station with the best deflection; not above zero when it does all.
    fn missing_at(&self, station: &Station, pair: PlanePair) -> f64 {
        let sizing = self.boat.sizing();
        let allowed_deg = sizing.largest_deflection.get::<degree>() * sizing.share.get::<ratio>();
        let moment_n_m: f64 = station.wanted.iter().map(moment_n_m).sum();
        let half_deg = 0.5 * (moment_n_m / self.roll_n_m(pair, station.speed_m_s)).abs();
        // The higher plane stands where its trailing edge just reaches the bottom line.
        let hinge_m = self.boat.transom().hinge_height.get::<meter>();
        let band_deg = (hinge_m / pair.chord.get::<meter>()).atan().to_degrees();
        let least_deg = if half_deg > 0.0 { half_deg + band_deg } else { 0.0 };
        let (low, high) = (least_deg, allowed_deg - half_deg);
        if low > high {
            return low - high;
        }
        let balance = Balance::of(self.boat, &self.settings).with_planes(Some(pair));
        let used = |deflection_deg: f64| deflection_deg + half_deg > 0.0;
        let missing = |deflection_deg: f64| {
            let Some(seen) = see(&balance, station.speed_m_s, deflection_deg) else {
                return f64::INFINITY;
            };
            let run = if used(deflection_deg) { 2.0 - seen.trim_deg } else { f64::NEG_INFINITY };
            station.wanted.iter().map(|wanted| missed(*wanted, &seen)).fold(run, f64::max)
        };
        first_on(low, high, missing)[1]
    }

    /// Roll moment of one plane for each degree: (0.046 s cos β c q/cos β)(y/cos β), reacted at the keel.
    pub fn roll_n_m(&self, pair: PlanePair, speed_m_s: f64) -> f64 {
        let transom = self.boat.transom();
        let density = self.boat.water().density.get::<kilogram_per_cubic_meter>();
        let pressure_pa = 0.5 * density * speed_m_s * speed_m_s;
        let (span_m, chord_m) = (pair.span.get::<meter>(), pair.chord.get::<meter>());
        let lift_n = self.settings.effectiveness * 0.046 * span_m * chord_m * pressure_pa;
        let along_edge_m = 0.5 * transom.beam.get::<meter>()
            / transom.face_deadrise().cos().get::<ratio>()
            - transom.outer_clearance.get::<meter>()
            - 0.5 * span_m;
        let off_centre_m = along_edge_m * transom.face_deadrise().cos().get::<ratio>();
        // The beam that the span is a share of is level.
        let level = self.boat.hull().deadrise.cos().get::<ratio>();
        lift_n * level * off_centre_m / transom.deadrise.cos().get::<ratio>().powi(2)
    }
}

/// The boat as she runs; none when she does not, or not stably.
pub fn see(balance: &Balance, speed_m_s: f64, deflection_deg: f64) -> Option<Seen> {
    let speed = uom::si::f64::Velocity::new::<meter_per_second>(speed_m_s);
    let point = balance.point(speed, degrees(deflection_deg)).expect("within bounds");
    if point.flags.contains(crate::flag::Flag::PitchUnstable) {
        return None;
    }
    let running = point.running?;
    let bare = balance.point(speed, degrees(0.0)).expect("within bounds").running;
    Some(Seen {
        trim_deg: running.trim.get::<degree>(),
        resistance_n: running.resistance.get::<newton>(),
        bare_deg: bare.map_or(15.0, |bare| bare.trim.get::<degree>()),
        porpoising_is_tested: !running.porpoising.clamped
            && (2.0..=7.0).contains(&point.speed_coefficient),
        limit_deg: running.porpoising.lower_deg(),
    })
}

/// Place and value of the least between two places: a scan, and a golden section around its best.
pub fn least_on(low: f64, high: f64, value: impl Fn(f64) -> f64) -> [f64; 2] {
    let at = |step: u32| low + (high - low) * f64::from(step) / f64::from(SCAN);
    let (mut best, mut least) = (0, [low, f64::INFINITY]);
    for step in 0..=SCAN {
        let here = [at(step), value(at(step))];
        if here[1] < least[1] {
            (best, least) = (step, here);
        }
    }
    let (mut a, mut b) = (at(best.saturating_sub(1)), at((best + 1).min(SCAN)));
    for _ in 0..14 {
        let width = 0.618_034 * (b - a);
        let [left, right] = [b - width, a + width].map(|place| [place, value(place)]);
        for here in [left, right] {
            if here[1] < least[1] {
                least = here;
            }
        }
        if left[1] < right[1] { b = a + width } else { a = b - width }
    }
    least
}

/// The first place at which a value is not above zero, with the value; else the place of the least.
fn first_on(low: f64, high: f64, value: impl Fn(f64) -> f64) -> [f64; 2] {
    let at = |step: u32| low + (high - low) * f64::from(step) / f64::from(SCAN);
    let found = (0..=SCAN).find(|&step| value(at(step)) <= 0.0);
    let (mut outside, mut inside) = match found {
        Some(0) => return [low, value(low)],
        Some(step) => (at(step - 1), at(step)),
        None => {
            let least = least_on(low, high, &value);
            if least[1] > 0.0 {
                return least;
            }
            ((least[0] - (high - low) / f64::from(SCAN)).max(low), least[0])
        }
    };
    for _ in 0..24 {
        let middle = 0.5 * (outside + inside);
        if value(middle) <= 0.0 { inside = middle } else { outside = middle }
    }
    [inside, value(inside)]
}

fn wanted(duty: &Duty, least_n: impl Fn() -> f64) -> Wanted {
    match *duty {
        Duty::Relief { at_least, .. } => Wanted::Relief(at_least.get::<degree>()),
        Duty::HumpTrim { at_most, .. } => Wanted::Trim(at_most.get::<degree>()),
        Duty::LeastResistance { within, .. } => {
            Wanted::Resistance((1.0 + within.get::<ratio>()) * least_n())
        }
        Duty::PorpoisingMargin { margin, .. } => Wanted::Margin(margin.get::<degree>()),
        Duty::List { cause, .. } => Wanted::Moment(match cause {
            ListCause::Moment(moment) => moment.value,
            ListCause::OffCentre { mass, distance } => mass.value * 9.806_65 * distance.value,
        }),
    }
}

fn moment_n_m(wanted: &Wanted) -> f64 {
    if let Wanted::Moment(moment) = wanted { *moment } else { 0.0 }
}

/// By how much a duty is missed: degrees, or per cent.
fn missed(wanted: Wanted, seen: &Seen) -> f64 {
    match wanted {
        Wanted::Relief(at_least_deg) => at_least_deg - (seen.bare_deg - seen.trim_deg),
        Wanted::Trim(at_most_deg) => seen.trim_deg - at_most_deg,
        Wanted::Resistance(at_most_n) => 100.0 * (seen.resistance_n / at_most_n - 1.0),
        // Where curve or planes are untested nothing is asked.
        Wanted::Margin(_) if !seen.porpoising_is_tested => f64::NEG_INFINITY,
        Wanted::Margin(margin_deg) => seen.trim_deg + margin_deg - seen.limit_deg,
        Wanted::Moment(_) => f64::NEG_INFINITY,
    }
}

/// A judge with the least resistance that the suggestion states; that one is proven by itself.
pub fn judge<'a>(boat: &'a Boat, duties: &[Duty], count: u32, told: &Suggestion) -> Judge<'a> {
    let least_n = told.duties.iter().find_map(|duty| match duty.reached {
        Reached::Resistance { least, .. } => Some(least.value),
        _ => None,
    });
    Judge::of(boat, duties, count, |_| least_n.expect("a least resistance is stated"))
}

/// A pair in metres.
pub fn pair(span_m: f64, chord_m: f64) -> PlanePair {
    PlanePair { span: metres(span_m), chord: metres(chord_m) }
}
