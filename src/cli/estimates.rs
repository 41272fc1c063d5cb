//! Estimated values, as several outputs show them.

use serde::Serialize;

use crate::boat::{Estimate, Measure};
use crate::units::UnitChoice;

/// A value that can be estimated, in the unit asked for.
pub(super) fn in_units(measure: Measure, units: UnitChoice) -> (f64, &'static str) {
    match measure {
        Measure::Length(length) => (units.length.value(length), units.length.symbol()),
        Measure::Speed(speed) => (units.speed.value(speed), units.speed.symbol()),
        Measure::Force(force) => (units.force.value(force), units.force.symbol()),
        other => (other.value(), other.unit()),
    }
}

/// An estimate in JSON; its numbers are in the unit that it names.
#[derive(Serialize)]
pub(super) struct EstimateRecord {
    key: &'static str,
    unit: &'static str,
    value: f64,
    low: f64,
    high: f64,
    rule: String,
}

impl From<&Estimate> for EstimateRecord {
    fn from(estimate: &Estimate) -> Self {
        Self {
            key: estimate.key,
            unit: estimate.value.unit(),
            value: estimate.value.value(),
            low: estimate.low.value(),
            high: estimate.high.value(),
            rule: estimate.rule.clone(),
        }
    }
}
