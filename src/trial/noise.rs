//! How finely things are read on a trial, one standard deviation each. Common practice, no source.
//!
//! They only weigh the readings against each other and plan the fit; the
//! intervals come from the scatter that the log itself shows.

use super::pair::{Averaged, Measurement};
use crate::units::factor::M_S_PER_KNOT;

/// An inclinometer read over a steady half-minute, degrees.
const READING_DEG: f64 = 0.15;
/// Speed of one run: over the ground, with whatever current there is, kn.
const ONE_RUN_KN: f64 = 0.5;
/// Speed of the mean of both ways, kn.
const BOTH_WAYS_KN: f64 = 0.15;
/// Trim of one run: wind on the bow or the stern, degrees.
const ONE_RUN_WIND_DEG: f64 = 0.15;
/// Deflection of planes that are down, degrees.
const DEFLECTION_DEG: f64 = 0.4;
/// Shaft power by torque meter or by the engine's own reckoning, as a share.
const POWER_SHARE: f64 = 0.03;
/// Fuel flow, as a share.
const FUEL_SHARE: f64 = 0.05;

/// Error of the equations, in differences between the two lift models: how far the other model lies
/// away is taken for one standard deviation, on this boat and at these speeds.
pub(super) const FORM_OPINION_SHARE: f64 = 1.0;
/// Error of the trim equations at either end of the speeds of a log, in opposite directions, degrees.
///
/// The trims of Fridsma's models are met within a few tenths of a degree (`planewright check`); the
/// rest of that which a log of one boat cannot average out.
pub(super) const FORM_SLOPE_DEG: f64 = 0.3;

/// What the error of a reading depends on: how trim and power go with speed and deflection.
#[derive(Clone, Copy, Debug)]
pub(super) struct Slopes {
    /// Degrees of trim for each metre per second.
    pub trim_by_speed: f64,
    /// Degrees of trim for each degree of deflection.
    pub trim_by_deflection: f64,
    /// Logarithm of power for each metre per second.
    pub power_by_speed: f64,
}

fn speed_m_s(measurement: &Measurement) -> f64 {
    M_S_PER_KNOT
        * match measurement.averaged {
            Averaged::OneRun => ONE_RUN_KN,
            Averaged::BothWays => BOTH_WAYS_KN,
        }
}

/// One standard deviation of a measured trim against the model at the measured speed, degrees.
pub(super) fn trim_deg(measurement: &Measurement, slopes: &Slopes) -> f64 {
    let runs = measurement.lines.len() as f64;
    let wind_deg = match measurement.averaged {
        Averaged::OneRun => ONE_RUN_WIND_DEG,
        Averaged::BothWays => 0.0,
    };
    let reading_deg = READING_DEG / runs.sqrt();
    let is_down = measurement.deflection.value > 0.0;
    let deflection_deg = if is_down { slopes.trim_by_deflection * DEFLECTION_DEG } else { 0.0 };
    let speed_deg = slopes.trim_by_speed * speed_m_s(measurement);
    [reading_deg, wind_deg, deflection_deg, speed_deg].iter().map(|x| x * x).sum::<f64>().sqrt()
}

/// One standard deviation of the logarithm of a measured power.
pub(super) fn power_log(measurement: &Measurement, slopes: &Slopes) -> f64 {
    let own = if measurement.power.is_some() { POWER_SHARE } else { FUEL_SHARE };
    own.hypot(slopes.power_by_speed * speed_m_s(measurement))
}

/// How the speed, trim, deflection and power of a run are read in a synthetic log.
#[cfg(test)]
pub(super) fn readings(averaged: Averaged) -> [f64; 4] {
    match averaged {
        Averaged::OneRun => [
            ONE_RUN_KN * M_S_PER_KNOT,
            READING_DEG.hypot(ONE_RUN_WIND_DEG),
            DEFLECTION_DEG,
            POWER_SHARE,
        ],
        Averaged::BothWays => {
            [BOTH_WAYS_KN * M_S_PER_KNOT, READING_DEG / 2.0_f64.sqrt(), DEFLECTION_DEG, POWER_SHARE]
        }
    }
}
