//! What was read on a trial, beside what the equations say for it.

use uom::si::{angle::degree, velocity::meter_per_second};

use super::model::{Model, Placed, Prediction};
use super::noise::{self, Slopes};
use super::pair::Measurement;
use super::unknown::COLUMNS;

/// Residual, in usual errors, where the boat finds no balance and has no power.
const NO_BALANCE: f64 = 20.0;

/// What a reading reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// Trim, degrees.
    Trim,
    /// Logarithm of the shaft power, W.
    Power,
}

/// One reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Reading {
    /// Index of its measurement.
    pub measurement: usize,
    pub kind: Kind,
    pub measured: f64,
    /// One standard deviation as usual on a trial.
    pub error: f64,
}

impl Reading {
    /// What the equations say for it; none where the boat finds no balance.
    fn predicted(&self, prediction: &Prediction) -> Option<f64> {
        match self.kind {
            Kind::Trim => Some(prediction.trim_deg),
            Kind::Power => prediction.power_w.map(f64::ln),
        }
    }

    /// A slope of the computed values as one of this reading, in usual errors.
    pub fn slope(&self, [trim_deg, power_log]: [f64; 2]) -> f64 {
        match self.kind {
            Kind::Trim => trim_deg / self.error,
            Kind::Power => power_log / self.error,
        }
    }

    /// Measured less computed, in usual errors.
    pub fn residual(&self, prediction: &Prediction) -> f64 {
        let away = |computed| (self.measured - computed) / self.error;
        self.predicted(prediction).map_or(NO_BALANCE, away)
    }
}

/// The readings of a log, with the errors that are usual where the boat file puts them.
pub(super) fn readings(
    model: &Model,
    measurements: &[Measurement],
    work_from_fuel_j_m3: Option<f64>,
) -> Vec<Reading> {
    let base = model.at(&[0.0; COLUMNS]);
    let mut readings = Vec::new();
    for (index, measurement) in measurements.iter().enumerate() {
        let slopes = slopes(&base, measurement);
        readings.push(Reading {
            measurement: index,
            kind: Kind::Trim,
            measured: measurement.trim.get::<degree>(),
            error: noise::trim_deg(measurement, &slopes),
        });
        readings.extend(power_w(measurement, work_from_fuel_j_m3).map(|power_w| Reading {
            measurement: index,
            kind: Kind::Power,
            measured: power_w.ln(),
            error: noise::power_log(measurement, &slopes),
        }));
    }
    readings
}

/// Shaft power of a measurement, measured or from its fuel.
fn power_w(measurement: &Measurement, work_from_fuel_j_m3: Option<f64>) -> Option<f64> {
    let from_fuel = || Some(measurement.fuel?.value * work_from_fuel_j_m3?);
    measurement.power.map(|power| power.value).or_else(from_fuel)
}

/// How trim and power go with speed and deflection, by differences.
fn slopes(base: &Placed<'_>, measurement: &Measurement) -> Slopes {
    let speed_m_s = measurement.speed.get::<meter_per_second>();
    let deflection_deg = measurement.deflection.get::<degree>();
    let near = Some(measurement.trim.get::<degree>());
    let at = |speed_m_s, deflection_deg| base.predict_at(speed_m_s, deflection_deg, near);
    let (step_m_s, step_deg) = (0.01 * speed_m_s, 0.5);
    let (faster, slower) =
        (at(speed_m_s + step_m_s, deflection_deg), at(speed_m_s - step_m_s, deflection_deg));
    let trim_by_deflection = if deflection_deg > step_deg {
        let (deep, shallow) =
            (at(speed_m_s, deflection_deg + step_deg), at(speed_m_s, deflection_deg - step_deg));
        (deep.trim_deg - shallow.trim_deg) / (2.0 * step_deg)
    } else {
        0.0
    };
    let power = match (faster.power_w, slower.power_w) {
        (Some(faster), Some(slower)) => (faster / slower).ln() / (2.0 * step_m_s),
        _ => 2.0 / speed_m_s,
    };
    Slopes {
        trim_by_speed: (faster.trim_deg - slower.trim_deg) / (2.0 * step_m_s),
        trim_by_deflection,
        power_by_speed: power,
    }
}
