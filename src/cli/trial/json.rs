//! What a trial tells as one JSON object: SI units, angles in degrees, null for what does not exist.

use serde::Serialize;
use uom::si::{power::watt, ratio::ratio, velocity::meter_per_second};

use super::{Outcome, Trial};
use crate::boat::{Measure, degrees};
use crate::trial::{Averaged, Compared, FittedValue, Interval};

/// The whole answer.
#[derive(Serialize)]
pub(super) struct Record {
    log_warnings: Vec<String>,
    log: LogRecord,
    refusal: Option<RefusalRecord>,
    fitted: Vec<FittedRecord>,
    left: Vec<LeftRecord>,
    measurements: Vec<MeasurementRecord>,
    unused: Vec<UnusedRecord>,
    trim_rms_before_deg: Option<f64>,
    trim_rms_after_deg: Option<f64>,
    trim_scatter_deg: Option<f64>,
    condition_number: Option<f64>,
    propulsive_efficiency: Option<f64>,
    propulsive_efficiency_is_given: Option<bool>,
    boat_file: Option<BoatFileRecord>,
}

#[derive(Serialize)]
struct LogRecord {
    file: String,
    crc32: String,
    runs: usize,
    measurements: usize,
}

#[derive(Serialize)]
struct RefusalRecord {
    reason: &'static str,
    sentence: String,
    remedy: &'static str,
}

#[derive(Serialize)]
struct FittedRecord {
    name: &'static str,
    unit: &'static str,
    before: f64,
    value: f64,
    interval_90: [f64; 2],
    interval_90_with_model_form: [f64; 2],
    share_of_doubt_left: f64,
}

#[derive(Serialize)]
struct LeftRecord {
    name: &'static str,
    unit: &'static str,
    value: f64,
    reason: String,
}

#[derive(Serialize)]
struct MeasurementRecord {
    lines: Vec<u64>,
    both_ways: bool,
    speed_m_s: f64,
    deflection_deg: f64,
    trim_read_deg: f64,
    trim_measured_deg: f64,
    trim_before_deg: f64,
    trim_after_deg: f64,
    trim_residual: f64,
    trim_outlier: bool,
    power_measured_w: Option<f64>,
    power_before_w: Option<f64>,
    power_after_w: Option<f64>,
    power_residual: Option<f64>,
    power_outlier: bool,
    notes: Vec<String>,
}

#[derive(Serialize)]
struct UnusedRecord {
    lines: String,
    reason: String,
}

#[derive(Serialize)]
struct BoatFileRecord {
    written_to: Option<String>,
    changes: Vec<ChangeRecord>,
    text: String,
}

#[derive(Serialize)]
struct ChangeRecord {
    key: String,
    value: String,
}

/// The whole answer, to be serialised.
pub(super) fn record(trial: &Trial) -> Record {
    let told = trial.outcome.as_ref().ok();
    let learned = told.map(|outcome| &outcome.learned);
    let warnings = trial.log.warnings.iter().chain(&trial.pairing.warnings).cloned();
    Record {
        log: LogRecord {
            file: trial.log.name.clone(),
            crc32: trial.log.checksum.clone(),
            runs: trial.log.rows.len(),
            measurements: trial.pairing.measurements.len(),
        },
        refusal: trial.outcome.as_ref().err().map(|refusal| RefusalRecord {
            reason: refusal.word(),
            sentence: refusal.to_string(),
            remedy: refusal.remedy(),
        }),
        fitted: learned.map_or_else(Vec::new, |l| l.fitted.iter().map(fitted).collect()),
        left: learned.map_or_else(Vec::new, |l| l.left.iter().map(left).collect()),
        measurements: learned
            .map_or_else(Vec::new, |l| l.compared.iter().map(measurement).collect()),
        unused: learned.map_or_else(Vec::new, |l| l.unused.iter().map(unused).collect()),
        trim_rms_before_deg: learned.map(|l| degrees(l.rms_before)),
        trim_rms_after_deg: learned.map(|l| degrees(l.rms_after)),
        trim_scatter_deg: learned.map(|l| degrees(l.trim_scatter)),
        condition_number: learned.map(|l| l.condition_number),
        propulsive_efficiency: learned.map(|l| l.efficiency.get::<ratio>()),
        propulsive_efficiency_is_given: learned.map(|l| l.efficiency_is_given),
        boat_file: told.map(boat_file),
        log_warnings: warnings.collect(),
    }
}

fn fitted(fitted: &FittedValue) -> FittedRecord {
    let ends = |interval: &Interval| [interval.low.value(), interval.high.value()];
    FittedRecord {
        name: fitted.unknown.word(),
        unit: fitted.value.unit(),
        before: fitted.before.value(),
        value: fitted.value.value(),
        interval_90: ends(&fitted.interval),
        interval_90_with_model_form: ends(&fitted.with_form),
        share_of_doubt_left: fitted.share_of_doubt,
    }
}

fn left(left: &crate::trial::LeftValue) -> LeftRecord {
    let value: Measure = left.value;
    LeftRecord {
        name: left.unknown.word(),
        unit: value.unit(),
        value: value.value(),
        reason: left.reason.clone(),
    }
}

fn measurement(compared: &Compared) -> MeasurementRecord {
    let watts = |power: Option<uom::si::f64::Power>| power.map(|power| power.get::<watt>());
    let measurement = &compared.measurement;
    MeasurementRecord {
        lines: measurement.lines.clone(),
        both_ways: measurement.averaged == Averaged::BothWays,
        speed_m_s: measurement.speed.get::<meter_per_second>(),
        deflection_deg: degrees(measurement.deflection),
        trim_read_deg: degrees(measurement.trim),
        trim_measured_deg: degrees(compared.trim_measured),
        trim_before_deg: degrees(compared.trim_before),
        trim_after_deg: degrees(compared.trim_after),
        trim_residual: compared.trim_residual,
        trim_outlier: compared.trim_is_outlier(),
        power_measured_w: watts(compared.power_measured),
        power_before_w: watts(compared.power_before),
        power_after_w: watts(compared.power_after),
        power_residual: compared.power_residual,
        power_outlier: compared.power_is_outlier(),
        notes: measurement.notes.clone(),
    }
}

fn unused(unused: &crate::trial::Unused) -> UnusedRecord {
    UnusedRecord { lines: unused.lines.clone(), reason: unused.reason.clone() }
}

fn boat_file(outcome: &Outcome) -> BoatFileRecord {
    let change =
        |(key, value): &(String, String)| ChangeRecord { key: key.clone(), value: value.clone() };
    BoatFileRecord {
        written_to: outcome.written.as_ref().map(|path| path.display().to_string()),
        changes: outcome.calibrated.changes.iter().map(change).collect(),
        text: outcome.calibrated.file.text.clone(),
    }
}
