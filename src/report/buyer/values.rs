//! What the sliders of the page to send show, computed beforehand.

use serde::Serialize;
use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, length::meter, velocity::meter_per_second};

use crate::balance::sweep::planing_start;
use crate::balance::{Balance, Outcome, Point};
use crate::boat::{Boat, Fault, PlanePair, degrees};
use crate::document::spoken;
use crate::flag::{Flag, Standing};
use crate::picture::outline;
use crate::report::ReportError;
use crate::report::gather::Gathered;
use crate::report::gather::whole_deg;
use crate::report::helm::setting_deg;
use crate::size::{ScheduleRow, safe_deflections};
use crate::tell::meaning;
use crate::units::{ForceUnit, UnitChoice, number_with_decimals};

/// Most speeds of a loading; on faster boats every second, third … is shown.
const MOST_SPEEDS: usize = 70;
/// Millimetres in a metre: lengths of the drawing are whole ones.
const MM: f64 = 1e3;

/// Everything, as the script reads it.
#[derive(Serialize)]
pub(super) struct Values {
    speed_unit: &'static str,
    force_unit: &'static str,
    force_decimals: usize,
    length_unit: &'static str,
    /// Profile and bottom in millimetres.
    profile: Vec<[i64; 2]>,
    bottom: Vec<[i64; 2]>,
    /// Chord of a plane and height of its hinge in millimetres; none without planes.
    plane: Option<[i64; 2]>,
    /// What is said of a number: whether it is dangerous, and the sentence.
    said: Vec<(bool, String)>,
    /// What is said where she does not run: whether it is dangerous, and the sentence.
    halts: Vec<(bool, String)>,
    loadings: Vec<Loading>,
    /// Loading and speed to begin with, by their number.
    first: [usize; 2],
}

/// A loading condition.
#[derive(Serialize)]
struct Loading {
    name: String,
    /// Speeds in the unit shown.
    speeds: Vec<u32>,
    /// Setting advised at each speed, whole degrees; 0 where they stay up.
    advised: Vec<u32>,
    /// Deflection never to go beyond, whole degrees.
    safe: Vec<u32>,
    /// Every speed at every deflection: trim in tenths, resistance in its last digit, draft in hundredths of its unit, draft
    /// in millimetres, and what is said of it by number; where she does not run, only the number of why.
    points: Vec<Vec<Vec<i64>>>,
}

/// What is said, each sentence once.
#[derive(Default)]
struct Said {
    flags: Vec<Flag>,
    outcomes: Vec<Outcome>,
}

fn number_of<T: Copy + PartialEq>(all: &mut Vec<T>, one: T) -> i64 {
    let place = all.iter().position(|&other| other == one).unwrap_or_else(|| {
        all.push(one);
        all.len() - 1
    });
    place as i64
}

/// The digits of a number as it is shown, without its point.
fn digits(value: f64, decimals: usize) -> i64 {
    number_with_decimals(value, decimals).replace(['.', ' '], "").parse().unwrap_or(0)
}

fn in_mm(points: &[[f64; 2]]) -> Vec<[i64; 2]> {
    points.iter().map(|point| point.map(|m| (m * MM).round() as i64)).collect()
}

const fn force_decimals(unit: ForceUnit) -> usize {
    if matches!(unit, ForceUnit::Kilonewton) { 2 } else { 0 }
}

impl Values {
    /// Everything about the pair that is advised; with planes up alone where there is none, or no settings.
    pub fn of(gathered: &Gathered) -> Result<Self, ReportError> {
        let units = gathered.size.units;
        let set = gathered.as_set();
        let pair = set.advised.pair();
        let mut said = Said::default();
        let boats = &gathered.size.boats;
        let loadings = (0..boats.len())
            .map(|place| Loading::of(&set, place, pair, &mut said))
            .collect::<Result<Vec<_>, _>>()?;
        let place = gathered.main_loading();
        let hump = gathered.hump.as_ref().map(|hump| units.speed.value(hump.speed));
        let near = |speed: f64| {
            let apart = |other: &u32| (f64::from(*other) - speed).abs();
            let speeds = loadings[place].speeds.iter().enumerate();
            speeds.min_by(|a, b| apart(a.1).total_cmp(&apart(b.1))).map_or(0, |(place, _)| place)
        };
        let first = [place, hump.map_or(0, near)];
        let shape = outline(&set.fitted(place)?);
        let sentence = |outcome: &Outcome| {
            let is_danger = matches!(outcome, Outcome::BowUnder | Outcome::NoBalanceBowUp);
            (is_danger, outcome.meaning().to_owned())
        };
        Ok(Self {
            speed_unit: units.speed.symbol(),
            force_unit: units.force.symbol(),
            force_decimals: force_decimals(units.force),
            length_unit: units.length.symbol(),
            profile: in_mm(&shape.profile_m),
            bottom: in_mm(&shape.bottom_m),
            plane: pair.zip(shape.hinge_m).map(|(pair, hinge_m)| {
                [pair.chord.get::<meter>(), hinge_m].map(|m| (m * MM) as i64)
            }),
            said: said.flags.iter().map(|&flag| told(flag)).collect(),
            halts: said.outcomes.iter().map(sentence).collect(),
            loadings,
            first,
        })
    }

    /// As JSON that can stand in a page.
    pub fn json(&self) -> String {
        let text = serde_json::to_string(self).expect("numbers and text");
        text.replace('<', "\\u003c").replace('\u{2028}', "\\u2028").replace('\u{2029}', "\\u2029")
    }

    pub const fn loadings(&self) -> usize {
        self.loadings.len()
    }

    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.loadings.iter().map(|loading| loading.name.as_str())
    }

    pub const fn has_planes(&self) -> bool {
        self.plane.is_some()
    }

    /// Where the sliders of speed and planes stand at first.
    pub fn first(&self) -> [u32; 2] {
        let loading = &self.loadings[self.first[0]];
        let advised = loading.advised.get(self.first[1]).copied().unwrap_or(0);
        [self.first[1] as u32, advised]
    }
}

/// What is said of a number: a danger in a whole sentence, else what was not tested, or what is rough.
fn told(flag: Flag) -> (bool, String) {
    let is_danger = flag.standing() == Standing::Danger;
    let text = match flag.untested() {
        Some(untested) if !is_danger => format!("{}.", crate::report::say::capital(untested)),
        _ => meaning(flag).on_page(),
    };
    (is_danger, spoken(&text))
}

impl Loading {
    fn of(
        gathered: &Gathered,
        place: usize,
        pair: Option<PlanePair>,
        said: &mut Said,
    ) -> Result<Self, ReportError> {
        let units = gathered.size.units;
        let (boat, settings) = (gathered.fitted(place)?, &gathered.size.settings);
        let shown = speeds(&boat, units);
        let one = units.speed.value(Velocity::new::<meter_per_second>(1.0));
        let at = |speed: &u32| Velocity::new::<meter_per_second>(f64::from(*speed) / one);
        let all: Vec<Velocity> = shown.iter().map(at).collect();
        let largest = boat.sizing().largest_deflection;
        let most = if pair.is_some() { whole_deg(degrees(largest)) as u32 } else { 0 };
        let safe: Vec<u32> = match pair {
            None => vec![0; all.len()],
            Some(pair) => safe_deflections(&boat, settings, pair, &all)
                .into_iter()
                .map(|safe| whole_deg(degrees(safe.min(largest))) as u32)
                .collect(),
        };
        let rows = &gathered.schedules[place];
        let advised = |(speed, safe): (&Velocity, &u32)| {
            let row = ScheduleRow::nearest(rows, *speed);
            let setting = row.and_then(|row| setting_deg(gathered, row)).unwrap_or(0.0);
            (setting as u32).min(*safe)
        };
        let advised = match pair {
            None => vec![0; all.len()],
            Some(_) => all.iter().zip(&safe).map(advised).collect(),
        };
        let balance = Balance::of(&boat, settings);
        let point = |speed: Velocity, deg: u32| {
            let point = balance.point(speed, Angle::new::<degree>(f64::from(deg)))?;
            Ok::<_, Fault>(written(&point, units, said))
        };
        let mut point = point;
        let points = all
            .iter()
            .map(|&speed| (0..=most).map(|deg| point(speed, deg)).collect::<Result<_, _>>())
            .collect::<Result<_, _>>()?;
        let name = boat.condition().name.clone();
        Ok(Self { name, speeds: shown, advised, safe, points })
    }
}

/// Whole speeds from the start of planing to the top speed.
fn speeds(boat: &Boat, units: UnitChoice) -> Vec<u32> {
    let from = units.speed.value(planing_start(boat)).ceil().max(1.0) as u32;
    let to = (units.speed.value(boat.drive().top_speed).floor() as u32).max(from);
    let step = ((to - from) as usize / MOST_SPEEDS + 1).max(1);
    (from..=to).step_by(step).collect()
}

/// A point as the script reads it.
fn written(point: &Point, units: UnitChoice, said: &mut Said) -> Vec<i64> {
    let Some(running) = &point.running else {
        return vec![number_of(&mut said.outcomes, point.outcome)];
    };
    let decimals = force_decimals(units.force);
    let mut numbers = vec![
        digits(degrees(running.trim), 1),
        digits(units.force.value(running.resistance), decimals),
        digits(units.length.value(running.draft), 2),
        (running.draft.get::<meter>() * MM).round() as i64,
    ];
    numbers.extend(point.flags.iter().map(|flag| number_of(&mut said.flags, flag)));
    numbers
}
