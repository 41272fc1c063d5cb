//! What a log told, as it is handed out.

use serde::Serialize;
use uom::si::f64::{Angle, Power, Ratio};

use super::pair::{Averaged, Measurement};
use super::unknown::Unknown;
use crate::boat::Measure;
use crate::field::{InSi, written};

/// Residual from which a reading is called an outlier, in standard deviations of the scatter.
pub(super) const OUTLIER: f64 = 3.0;

/// A range that holds the true value in nine of ten trials.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// Lower end.
    pub low: Measure,
    /// Upper end.
    pub high: Measure,
}

impl Interval {
    /// Both ends in the unit of the value.
    fn ends(&self) -> [f64; 2] {
        [self.low.value(), self.high.value()]
    }
}

written! {
    FittedValue as fitted {
        "name": fitted.unknown,
        "unit": fitted.value.unit(),
        "before": fitted.before.value(),
        "value": fitted.value.value(),
        "interval_90": fitted.interval.ends(),
        "interval_90_with_model_form": fitted.with_form.ends(),
        "share_of_doubt_left": fitted.share_of_doubt,
    }
    LeftValue as left {
        "name": left.unknown,
        "unit": left.value.unit(),
        "value": left.value.value(),
        "reason": left.reason,
    }
    Compared as compared {
        "lines": compared.measurement.lines,
        "both_ways": compared.measurement.averaged == Averaged::BothWays,
        "speed_m_s": compared.measurement.speed.in_si(),
        "deflection_deg": compared.measurement.deflection.in_si(),
        "trim_read_deg": compared.measurement.trim.in_si(),
        "trim_measured_deg": compared.trim_measured.in_si(),
        "trim_before_deg": compared.trim_before.in_si(),
        "trim_after_deg": compared.trim_after.in_si(),
        "trim_residual": compared.trim_residual,
        "trim_outlier": compared.trim_is_outlier(),
        "power_measured_w": compared.power_measured.in_si(),
        "power_before_w": compared.power_before.in_si(),
        "power_after_w": compared.power_after.in_si(),
        "power_residual": compared.power_residual,
        "power_outlier": compared.power_is_outlier(),
        "notes": compared.measurement.notes,
    }
}

/// A value that the log told.
#[derive(Clone, Debug, PartialEq)]
pub struct FittedValue {
    /// What it is.
    pub unknown: Unknown,
    /// What the boat file says.
    pub before: Measure,
    /// What the log says.
    pub value: Measure,
    /// From the scatter of the log and what was left open: these equations on this boat.
    pub interval: Interval,
    /// With the error of the equations as well: the boat as she is.
    pub with_form: Interval,
    /// Standard error over what was known before.
    pub share_of_doubt: f64,
}

/// A value that stays as it was.
#[derive(Clone, Debug, PartialEq)]
pub struct LeftValue {
    /// What it is.
    pub unknown: Unknown,
    /// What it stays.
    pub value: Measure,
    /// Why, as a sentence.
    pub reason: String,
}

/// A measurement beside what the equations say for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Compared {
    /// The measurement.
    pub measurement: Measurement,
    /// Trim by the boat file as it was.
    pub trim_before: Angle,
    /// Trim with what was learned.
    pub trim_after: Angle,
    /// Measured trim, less the zero of the inclinometer where that was fitted.
    pub trim_measured: Angle,
    /// Residual of trim over the scatter.
    pub trim_residual: f64,
    /// Shaft power measured or from fuel.
    pub power_measured: Option<Power>,
    /// Shaft power by the boat file as it was.
    pub power_before: Option<Power>,
    /// Shaft power with what was learned.
    pub power_after: Option<Power>,
    /// Residual of power over the scatter.
    pub power_residual: Option<f64>,
}

impl Compared {
    /// Whether the trim was hardly counted.
    #[must_use]
    pub fn trim_is_outlier(&self) -> bool {
        self.trim_residual.abs() > OUTLIER
    }
    /// Whether the power was hardly counted.
    #[must_use]
    pub fn power_is_outlier(&self) -> bool {
        self.power_residual.is_some_and(|residual| residual.abs() > OUTLIER)
    }
}

/// A measurement that is of no use.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Unused {
    /// Its lines.
    pub lines: String,
    /// Why, as a sentence.
    pub reason: String,
}

/// Everything that a log told.
#[derive(Clone, Debug, PartialEq)]
pub struct Learned {
    /// What it told, in the order of [`Unknown::ALL`].
    pub fitted: Vec<FittedValue>,
    /// What stays as it was.
    pub left: Vec<LeftValue>,
    /// Every measurement used.
    pub compared: Vec<Compared>,
    /// Every measurement not used.
    pub unused: Vec<Unused>,
    /// Scatter of the trims, one standard deviation of a measurement of usual error.
    pub trim_scatter: Angle,
    /// Scatter of the trims about the boat file as it was: root of the mean square.
    pub rms_before: Angle,
    /// The same after, outliers left out of neither.
    pub rms_after: Angle,
    /// Largest over least eigenvalue of the information, each unknown in units of what was known.
    pub condition_number: f64,
    /// Propulsive efficiency that power was compared with.
    pub efficiency: Ratio,
    /// Whether that was given.
    pub efficiency_is_given: bool,
}

impl Learned {
    /// The fitted value of an unknown.
    #[must_use]
    pub fn value_of(&self, unknown: Unknown) -> Option<&FittedValue> {
        self.fitted.iter().find(|fitted| fitted.unknown == unknown)
    }
}
