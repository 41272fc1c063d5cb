//! Getting on plane: does she get over the hump, and how long does it take?
//!
//! Full power from rest: (m + added mass) dV/dt = T(V) − R(V), quasi-steady:
//! at each speed she is taken to have the trim at which she would run steadily.
//! The time is told as a range ([`LikelyReach`]).

mod likely;
mod run;
mod tightest;

use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};
use uom::si::f64::{Angle, Force, Length, Power, Ratio, Time, Velocity};
use uom::si::{
    force::newton, mass::kilogram, power::watt, ratio::percent, velocity::meter_per_second,
};

use super::from_rest::{FromRest, Way};
use super::thrust::Thrust;
use crate::balance::saving::Saving;
use crate::balance::{Hump, Outcome, Settings};
use crate::boat::{Boat, Estimate, Fault, Measure, PlanePair};
use crate::field::{InSi, by_word, si, written};
use crate::flag::Flags;
pub use likely::{ENGINE_RUN_UP_S, LikelyReach, RESISTANCE_DOUBT, Reach, in_unit};
pub use tightest::{Tightest, TightestKind};

use super::from_rest::Basis;

/// Added mass in surge as a share of the mass: 5 to 10 % is usual of planing boats. Common practice, no source.
pub const ADDED_MASS_SHARE: f64 = 0.075;
/// Speeds looked at, from rest to the highest.
pub(super) const STEPS: u32 = 160;
/// The highest speed looked at, in top speeds of the boat file.
const HIGHEST_SPEED: f64 = 1.6;
/// The highest speed of the bounds table, m/s.
const LIMIT_M_S: f64 = 60.0;

/// What is asked about getting on plane.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OnPlaneRequest {
    /// Speed to reach; past the hump and at the mark of planing when absent.
    pub to: Option<Velocity>,
    /// Deflection at which the planes are held; half of what they can be put to when absent.
    pub held: Option<Angle>,
}

/// Why a run ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// Resistance has grown to the thrust.
    ThrustSpent,
    /// The boat finds no balance from there.
    NoBalance(Outcome),
    /// Neither up to the highest speed looked at.
    NotFound,
}

impl Ending {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::ThrustSpent => "thrust-spent",
            Self::NoBalance(outcome) => outcome.word(),
            Self::NotFound => "not-found",
        }
    }
}

by_word!(Ending);

/// One speed on the way.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RunPoint {
    /// The speed.
    #[serde(rename = "speed_m_s", serialize_with = "si")]
    pub speed: Velocity,
    /// Thrust at full power.
    #[serde(rename = "thrust_n", serialize_with = "si")]
    pub thrust: Force,
    /// Resistance; none where she finds no balance.
    #[serde(rename = "resistance_n", serialize_with = "si")]
    pub resistance: Option<Force>,
    /// Friction that wet vertical sides would have, where the planing balance tells it: an ESTIMATE, not in the resistance.
    #[serde(skip)]
    pub side_friction: Option<Force>,
    /// Where the resistance comes from.
    pub basis: Basis,
    /// Mean deflection; none where it is not told.
    #[serde(rename = "deflection_deg", serialize_with = "si")]
    pub deflection: Option<Angle>,
    /// Running trim, where the planing balance tells it.
    #[serde(rename = "trim_deg", serialize_with = "si")]
    pub trim: Option<Angle>,
    /// Time from rest; none beyond the speed at which she stops gaining.
    #[serde(rename = "time_s", serialize_with = "si")]
    pub time: Option<Time>,
    /// Distance from rest.
    #[serde(rename = "distance_m", serialize_with = "si")]
    pub distance: Option<Length>,
    /// What to know before trusting it.
    #[serde(flatten)]
    pub flags: Flags,
}

/// Full power from rest, with the planes used in one way.
#[derive(Clone, Debug, PartialEq)]
pub struct FullPowerRun {
    /// How the planes are used.
    pub way: Way,
    /// Speeds from rest upward.
    pub rows: Vec<RunPoint>,
    /// Speed from which the resistance is that of the planing balance; none when she never finds one.
    pub joint: Option<Velocity>,
    /// Whether she reaches the target.
    pub reaches: bool,
    /// Time to the target with full thrust at once and everything as estimated: the middle of a wide range.
    pub time: Option<Time>,
    /// Distance to the target, the same.
    pub distance: Option<Length>,
    /// The likely range of both; none when she does not get there even at the best.
    pub likely: Option<LikelyReach>,
    /// Where the thrust is tightest on the way to planing.
    pub tightest: Option<Tightest>,
    /// The slowest speed that counts as planing, at which she runs steadily with the power she has.
    pub least_planing_speed: Option<Velocity>,
    /// Speed at which she stops gaining from rest.
    pub stops_at: Option<Velocity>,
    /// Why she stops gaining there.
    pub ending: Ending,
    /// The fastest speed that the thrust can hold, when that lies beyond a stretch it cannot pass.
    pub could_hold: Option<Velocity>,
}

impl FullPowerRun {
    /// A value at a speed between two rows, along a straight line; none where one of the two has none.
    #[must_use]
    pub fn at(&self, speed: Velocity, value: impl Fn(&RunPoint) -> Option<f64>) -> Option<f64> {
        let after = self.rows.partition_point(|row| row.speed < speed);
        let above = self.rows.get(after)?;
        let below = &self.rows[after.saturating_sub(1)];
        let [low, high] = [value(below)?, value(above)?];
        let width = above.speed - below.speed;
        let is_same = width.get::<meter_per_second>() <= 0.0;
        let share = if is_same { 1.0 } else { ((speed - below.speed) / width).value };
        Some(low + share * (high - low))
    }

    /// Where the resistance at a speed comes from.
    #[must_use]
    pub fn basis_at(&self, speed: Velocity) -> Option<Basis> {
        let after = self.rows.partition_point(|row| row.speed <= speed);
        self.rows.get(after.checked_sub(1)?).map(|row| row.basis)
    }

    /// The fastest speed that the thrust can hold in balance.
    #[must_use]
    pub fn top_speed(&self) -> Option<Velocity> {
        self.could_hold.or(self.stops_at)
    }

    /// Both ends of the likely range of something reached with the target.
    fn likely_ends<T>(&self, of: impl Fn(&Reach) -> T) -> Option<[Option<T>; 2]> {
        self.likely.map(|likely| [Some(likely.least), likely.most].map(|end| end.as_ref().map(&of)))
    }
}

written! {
    FullPowerRun as run {
        "way": run.way,
        "held_deflection_deg": run.way.held().in_si(),
        "reaches_target": run.reaches,
        "time_s": run.time.in_si(),
        "distance_m": run.distance.in_si(),
        "likely_time_s": run.likely_ends(|reach| reach.time).in_si(),
        "likely_distance_m": run.likely_ends(|reach| reach.distance).in_si(),
        "tightest": run.tightest,
        "least_planing_speed_m_s": run.least_planing_speed.in_si(),
        "stops_at_m_s": run.stops_at.in_si(),
        "ending": run.ending,
        "top_speed_m_s": run.top_speed().in_si(),
        "planing_balance_from_m_s": run.joint.in_si(),
        "rows": run.rows,
    }
}

/// What an estimate does to the answer, planes up.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Effect {
    /// The estimate.
    #[serde(flatten)]
    pub estimate: Estimate,
    /// With the low and the high end of its likely range.
    #[serde(flatten, serialize_with = "with_ends")]
    pub ends: [Option<Brief>; 2],
}

/// Writes what the ends of an estimate do; for `serialize_with`.
fn with_ends<S: Serializer>(ends: &[Option<Brief>; 2], serializer: S) -> Result<S::Ok, S::Error> {
    let mut map = serializer.serialize_map(Some(2))?;
    map.serialize_entry("with_low", &ends[0])?;
    map.serialize_entry("with_high", &ends[1])?;
    map.end()
}

/// The answer in short.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Brief {
    /// Time to the target; none when it is not reached.
    #[serde(rename = "time_s", serialize_with = "si")]
    pub time: Option<Time>,
    /// Share of the thrust that is left where it is tightest.
    #[serde(rename = "thrust_left", serialize_with = "si")]
    pub margin: Option<Ratio>,
    /// Fastest speed that the thrust can hold.
    #[serde(rename = "top_speed_m_s", serialize_with = "si")]
    pub top_speed: Option<Velocity>,
}

/// The whole answer.
#[derive(Clone, Debug, PartialEq)]
pub struct OnPlane {
    /// The pair used, if any.
    pub pair: Option<PlanePair>,
    /// Speed to reach.
    pub target: Velocity,
    /// Whether the target was asked for, rather than found as the beginning of planing.
    pub target_is_asked: bool,
    /// Rated power.
    pub power: Power,
    /// The thrust used.
    pub thrust: Thrust,
    /// Efficiency at which the thrust would meet the resistance, planes up, just at the top speed of the boat file.
    pub fitting_efficiency: Option<Ratio>,
    /// Planes up; then, with a pair, held and used best.
    pub runs: Vec<FullPowerRun>,
    /// What the estimates do to the first run.
    pub effects: Vec<Effect>,
}

impl OnPlane {
    /// Whether planes used in the way of a run take resistance off at its hump; none where that is not known.
    #[must_use]
    pub fn saving_at_hump(&self, run: &FullPowerRun) -> Option<Saving> {
        let hump = run.tightest.as_ref()?;
        let at = |run: &FullPowerRun, value: fn(&RunPoint) -> Option<Force>| {
            run.at(hump.speed, |row| Some(value(row)?.get::<newton>())).map(Force::new::<newton>)
        };
        let up = at(self.runs.first()?, |row| row.resistance)?;
        Some(Saving::of(up, hump.resistance, at(run, |row| row.side_friction)?))
    }
}

/// Full power from rest, with the planes up, held at one deflection, and used as well as they can be.
///
/// # Errors
/// A [`Fault`] when the boat file gives no power.
pub fn on_plane(
    boat: &Boat,
    settings: &Settings,
    pair: Option<PlanePair>,
    asked: &OnPlaneRequest,
) -> Result<OnPlane, Fault> {
    let thrust = Thrust::of(boat, settings)?;
    let highest = highest_speed(boat);
    let prepared = |pair, way| (way, FromRest::of(boat, settings, pair, way, highest));
    let mut ways: Vec<Prepared> = vec![prepared(None, Way::Up)];
    if pair.is_some() {
        let held = asked.held.unwrap_or(boat.sizing().largest_deflection / 2.0);
        ways.extend([Way::Held(held), Way::Best].map(|way| prepared(pair, way)));
    }
    let hump = Hump::of(boat, settings);
    let begins = || planing_begins(&ways, hump.as_ref(), highest);
    let target = asked.to.or_else(begins).unwrap_or(boat.drive().top_speed);
    let course = run::Course { boat, thrust: &thrust, resistance: 1.0, target, highest, hump };
    let ends: [fn(&Estimate) -> Measure; 2] = [|estimate| estimate.low, |estimate| estimate.high];
    let [weak, strong] = ends.map(|end| likely::thrust_at(boat, settings, &thrust, end));
    let run = |(way, from_rest): &Prepared| {
        let from_rest = from_rest.as_ref();
        let likely = from_rest.ok().and_then(|f| likely::likely(&course, [&weak, &strong], f));
        FullPowerRun { likely, ..course.run(*way, from_rest) }
    };
    let runs = ways.iter().map(run).collect();
    let up = ways[0].1.as_ref().ok();
    let fitting_efficiency = up.and_then(|up| fitting_efficiency(boat, up, &thrust));
    Ok(OnPlane {
        pair,
        target,
        target_is_asked: asked.to.is_some(),
        power: Power::new::<watt>(thrust.power_w()),
        fitting_efficiency,
        runs,
        effects: effects(boat, settings, &thrust, target),
        thrust,
    })
}

/// A way of using the planes, and the boat ready for it; what she does instead where she never runs.
type Prepared = (Way, Result<FromRest, Outcome>);

/// Mass and added mass, kg.
pub(super) fn moving_mass_kg(boat: &Boat) -> f64 {
    (1.0 + ADDED_MASS_SHARE) * boat.weight().mass.get::<kilogram>()
}

fn highest_speed(boat: &Boat) -> Velocity {
    let least = crate::balance::sweep::planing_start(boat) * 3.0;
    let limit = Velocity::new::<meter_per_second>(LIMIT_M_S);
    (boat.drive().top_speed * HIGHEST_SPEED).max(least).min(limit)
}

/// Past the hump and at the mark of planing, planes up; else with the planes used in the first way that planes at all.
fn planing_begins(ways: &[Prepared], hump: Option<&Hump>, highest: Velocity) -> Option<Velocity> {
    let mark = ways
        .iter()
        .filter_map(|(_, from_rest)| from_rest.as_ref().ok())
        .find_map(|from_rest| run::planing_begins(from_rest, highest))?;
    Some(hump.map_or(mark, |hump| mark.max(hump.speed)))
}

/// η_D = R V/P at the top speed of the boat file, planes up.
fn fitting_efficiency(boat: &Boat, up: &FromRest, thrust: &Thrust) -> Option<Ratio> {
    let speed_m_s = boat.drive().top_speed.get::<meter_per_second>();
    let share = up.resistance_n(speed_m_s)? * speed_m_s / thrust.power_w();
    Some(Ratio::new::<percent>(100.0 * share))
}

/// Planes up with each estimate at both ends of its likely range.
fn effects(boat: &Boat, settings: &Settings, thrust: &Thrust, target: Velocity) -> Vec<Effect> {
    let brief = |estimate: &Estimate, value| {
        let moved = boat.with_estimate(estimate.key, value).ok()?;
        let thrust = Thrust::of(&moved, settings).ok()?;
        let highest = highest_speed(&moved);
        let up = FromRest::of(&moved, settings, None, Way::Up, highest);
        let hump = Hump::of(&moved, settings);
        let course =
            run::Course { boat: &moved, thrust: &thrust, resistance: 1.0, target, highest, hump };
        let run = course.run(Way::Up, up.as_ref());
        Some(Brief {
            time: run.time,
            margin: run.tightest.as_ref().map(Tightest::margin),
            top_speed: run.top_speed(),
        })
    };
    // The top speed of the file is not used here.
    let estimates = thrust.estimates().chain(boat.estimates());
    let estimates = estimates.filter(|estimate| estimate.key != "drive.top_speed");
    estimates
        .map(|estimate| Effect {
            ends: [brief(estimate, estimate.low), brief(estimate, estimate.high)],
            estimate: estimate.clone(),
        })
        .collect()
}

#[cfg(test)]
mod tests;
