//! One run at full power from rest.

use uom::si::f64::{Force, Length, Time, Velocity};
use uom::si::{
    angle::degree, force::newton, length::meter, time::second, velocity::meter_per_second,
    volume::cubic_meter,
};

use super::tightest::{self, FASTEST_VOLUME_FROUDE_NUMBER, Tightest};
use super::{Ending, FullPowerRun, RunPoint, STEPS, moving_mass_kg};
use crate::balance::{Hump, Outcome};
use crate::behaviour::from_rest::{FromRest, Way};
use crate::behaviour::surge::{Surge, SurgeError, between};
use crate::behaviour::thrust::Thrust;
use crate::boat::Boat;
use crate::hydro::hump::volume_froude_number;
use crate::hydro::inception;
use crate::numeric::root_between;

/// What a run needs beside the boat's resistance.
#[derive(Clone, Copy)]
pub(super) struct Course<'a> {
    pub boat: &'a Boat,
    pub thrust: &'a Thrust,
    /// Factor on the resistance.
    pub resistance: f64,
    pub target: Velocity,
    pub highest: Velocity,
    /// The hump with planes up.
    pub hump: Option<Hump>,
}

impl Course<'_> {
    /// The run of a boat made ready, or of one that never finds a balance; `likely` is left open.
    pub fn run(&self, way: Way, from_rest: Result<&FromRest, &Outcome>) -> FullPowerRun {
        match from_rest {
            Ok(from_rest) => self.run_of(from_rest),
            Err(&outcome) => FullPowerRun {
                way,
                rows: Vec::new(),
                joint: None,
                reaches: false,
                time: None,
                distance: None,
                likely: None,
                tightest: None,
                least_planing_speed: None,
                stops_at: None,
                ending: Ending::NoBalance(outcome),
                could_hold: None,
            },
        }
    }

    fn run_of(&self, from_rest: &FromRest) -> FullPowerRun {
        let mut speeds_m_s = self.speeds_m_s(from_rest);
        let tightest = self.tightest(from_rest);
        if let Some(tightest) = &tightest {
            insert(&mut speeds_m_s, tightest.speed.get::<meter_per_second>());
        }
        let net_n = |speed_m_s: f64| self.net_n(from_rest, speed_m_s);
        let (mut stop_m_s, mut ending) = self.stop(from_rest, &speeds_m_s);
        let (surges, no_push) = self.surges(&speeds_m_s, stop_m_s, net_n);
        if let Some(speed_m_s) = no_push {
            (stop_m_s, ending) = (Some(speed_m_s), Ending::ThrustSpent);
        }
        let target_m_s = self.target.get::<meter_per_second>();
        let at_target = speeds_m_s.iter().position(|&v| v >= target_m_s);
        let surge = at_target.and_then(|at| surges[at]);
        let begins = planing_begins(from_rest, self.highest);
        FullPowerRun {
            way: from_rest.way(),
            rows: speeds_m_s
                .iter()
                .zip(&surges)
                .map(|(&v, s)| self.row(from_rest, v, *s))
                .collect(),
            joint: Some(from_rest.joint()),
            reaches: surge.is_some(),
            time: surge.map(|surge| Time::new::<second>(surge.time_s)),
            distance: surge.map(|surge| Length::new::<meter>(surge.distance_m)),
            likely: None,
            tightest,
            least_planing_speed: begins
                .and_then(|from| {
                    let from_m_s = from.get::<meter_per_second>();
                    let later = speeds_m_s.iter().copied().filter(|&v| v > from_m_s);
                    std::iter::once(from_m_s).chain(later).find(|&v| net_n(v) >= 0.0)
                })
                .map(Velocity::new::<meter_per_second>),
            stops_at: stop_m_s.map(Velocity::new::<meter_per_second>),
            ending,
            could_hold: self.could_hold(from_rest, &speeds_m_s, stop_m_s),
        }
    }

    /// Thrust less resistance; not a number where there is no balance.
    fn net_n(&self, from_rest: &FromRest, speed_m_s: f64) -> f64 {
        let resistance_n = from_rest.resistance_n(speed_m_s).unwrap_or(f64::NAN);
        self.thrust.at_m_s(speed_m_s) - self.resistance * resistance_n
    }

    /// Time and distance to the target alone; none when it is not reached.
    pub fn reach(&self, from_rest: &FromRest) -> Option<Surge> {
        let target_m_s = self.target.get::<meter_per_second>();
        let mut speeds_m_s = self.speeds_m_s(from_rest);
        speeds_m_s.retain(|&speed_m_s| speed_m_s <= target_m_s);
        let (stop_m_s, _) = self.stop(from_rest, &speeds_m_s);
        let (surges, _) = self.surges(&speeds_m_s, stop_m_s, |v| self.net_n(from_rest, v));
        surges.last().copied().flatten()
    }

    /// Where the thrust is tightest on the way to planing.
    pub fn tightest(&self, from_rest: &FromRest) -> Option<Tightest> {
        let mut speeds_m_s = self.speeds_m_s(from_rest);
        speeds_m_s.retain(|&speed_m_s| self.may_be_tightest(speed_m_s));
        tightest::find(from_rest, self.thrust, &speeds_m_s, self.hump.as_ref())
    }

    fn may_be_tightest(&self, speed_m_s: f64) -> bool {
        let volume_m3 = self.boat.displaced_volume().get::<cubic_meter>();
        speed_m_s > 0.0
            && volume_froude_number(speed_m_s, volume_m3) <= FASTEST_VOLUME_FROUDE_NUMBER
    }

    /// Even steps from rest, and the speeds that matter between them.
    fn speeds_m_s(&self, from_rest: &FromRest) -> Vec<f64> {
        let highest_m_s = self.highest.get::<meter_per_second>();
        let even = |step| highest_m_s * f64::from(step) / f64::from(STEPS);
        let mut speeds_m_s: Vec<f64> = (0..=STEPS).map(even).collect();
        let matter = [Some(from_rest.joint()), from_rest.regression_start(), Some(self.target)];
        for speed in matter.into_iter().flatten() {
            insert(&mut speeds_m_s, speed.get::<meter_per_second>());
        }
        speeds_m_s
    }

    /// Where she stops gaining, and why.
    fn stop(&self, from_rest: &FromRest, speeds_m_s: &[f64]) -> (Option<f64>, Ending) {
        let net_n = |v: f64| self.net_n(from_rest, v);
        let pushes = |v: f64| net_n(v) > 0.0;
        let Some(at) = speeds_m_s.iter().position(|&v| !pushes(v)) else {
            return (None, Ending::NotFound);
        };
        let Some(before) = at.checked_sub(1) else { return (Some(0.0), Ending::ThrustSpent) };
        let [low, high] = [speeds_m_s[before], speeds_m_s[at]];
        if net_n(high).is_nan() {
            let side = |v: f64| if pushes(v) { 1.0 } else { -1.0 };
            // At the latest where she was last seen to be pushed on.
            let edge_m_s = root_between([low, 1.0], [high, -1.0], 0.0, side).unwrap_or(low);
            return (Some(edge_m_s), Ending::NoBalance(from_rest.outcome(high)));
        }
        let root_m_s = root_between([low, net_n(low)], [high, net_n(high)], 1e-6, net_n);
        (Some(root_m_s.unwrap_or(low)), Ending::ThrustSpent)
    }

    /// Time and distance at each speed, and a speed at which she turned out not to be pushed on.
    fn surges(
        &self,
        speeds_m_s: &[f64],
        stop_m_s: Option<f64>,
        net_n: impl Fn(f64) -> f64,
    ) -> (Vec<Option<Surge>>, Option<f64>) {
        let mass_kg = moving_mass_kg(self.boat);
        let mut sum = Some(Surge::default());
        let mut surges = vec![sum];
        let mut no_push = None;
        for cell in speeds_m_s.windows(2) {
            let is_past = stop_m_s.is_some_and(|stop| cell[1] >= stop);
            sum = sum.filter(|_| !is_past).and_then(|sum| {
                match between(mass_kg, [cell[0], cell[1]], &net_n) {
                    Ok(part) => Some(sum + part),
                    Err(SurgeError::NoPush { speed_m_s }) => {
                        no_push = Some(speed_m_s);
                        None
                    }
                    Err(SurgeError::NotConverged { .. }) => None,
                }
            });
            surges.push(sum);
        }
        (surges, no_push)
    }

    /// The fastest speed that the thrust holds beyond a stretch that it cannot pass.
    fn could_hold(
        &self,
        from_rest: &FromRest,
        speeds_m_s: &[f64],
        stop_m_s: Option<f64>,
    ) -> Option<Velocity> {
        let net_n = |v: f64| self.net_n(from_rest, v);
        let stop_m_s = stop_m_s?;
        let last = speeds_m_s.iter().rposition(|&v| v > stop_m_s && net_n(v) > 0.0)?;
        let held_m_s = speeds_m_s[last];
        let after_m_s = speeds_m_s.get(last + 1).copied().unwrap_or(held_m_s);
        let side = |v: f64| if net_n(v) > 0.0 { 1.0 } else { -1.0 };
        let edge_m_s = if after_m_s > held_m_s {
            root_between([held_m_s, 1.0], [after_m_s, -1.0], 0.0, side).unwrap_or(held_m_s)
        } else {
            held_m_s
        };
        Some(Velocity::new::<meter_per_second>(edge_m_s))
    }

    fn row(&self, from_rest: &FromRest, speed_m_s: f64, surge: Option<Surge>) -> RunPoint {
        let speed = Velocity::new::<meter_per_second>(speed_m_s);
        let drag = from_rest.at(speed);
        let running = from_rest.planing_point(speed).and_then(|point| point.running);
        RunPoint {
            speed,
            thrust: Force::new::<newton>(self.thrust.at_m_s(speed_m_s)),
            resistance: drag.resistance,
            side_friction: running.map(|running| running.side_friction),
            basis: drag.basis,
            deflection: drag.deflection,
            trim: running.map(|running| running.trim).filter(|_| drag.resistance.is_some()),
            time: surge.map(|surge| Time::new::<second>(surge.time_s)),
            distance: surge.map(|surge| Length::new::<meter>(surge.distance_m)),
            flags: drag.flags,
        }
    }
}

/// Puts a speed into its place among rising ones, once.
fn insert(speeds_m_s: &mut Vec<f64>, speed_m_s: f64) {
    let index = speeds_m_s.partition_point(|&v| v < speed_m_s);
    let near =
        |other: Option<&f64>| other.is_some_and(|v| (v - speed_m_s).abs() <= 1e-12 * v.abs());
    if !near(speeds_m_s.get(index)) && !near(index.checked_sub(1).map(|p| &speeds_m_s[p])) {
        speeds_m_s.insert(index, speed_m_s);
    }
}

/// The slowest speed at which she counts as planing; see [`inception`].
pub(super) fn planing_begins(from_rest: &FromRest, highest: Velocity) -> Option<Velocity> {
    let joint_m_s = from_rest.joint().get::<meter_per_second>();
    let highest_m_s = highest.get::<meter_per_second>();
    let excess = |speed_m_s: f64| {
        let point = from_rest.planing_point(Velocity::new::<meter_per_second>(speed_m_s));
        let Some((cv, running)) = point.and_then(|p| Some((p.speed_coefficient, p.running?)))
        else {
            return f64::NAN;
        };
        let reached = cv / running.wetted_length_ratio.sqrt();
        reached - inception::planing_number(running.trim.get::<degree>())
    };
    let step_m_s = (highest_m_s - joint_m_s) / f64::from(STEPS);
    let mut last: Option<[f64; 2]> = None;
    for step in 0..=STEPS {
        let here = joint_m_s + step_m_s * f64::from(step);
        let value = excess(here);
        if value >= 0.0 {
            let root = |below| root_between(below, [here, value], 1e-12, excess);
            let begins_m_s = last.map_or(Some(here), root)?;
            return Some(Velocity::new::<meter_per_second>(begins_m_s));
        }
        last = value.is_finite().then_some([here, value]);
    }
    None
}
