//! Puts what was fitted, what was left and every measurement into [`Learned`].

use uom::si::angle::degree;
use uom::si::f64::{Angle, Power, Ratio};
use uom::si::power::watt;

use super::confidence::Intervals;
use super::evidence::{Dropped, Evidence};
use super::fit::Settled;
use super::information::{Jacobian, LARGEST_SHARE, expected_error};
use super::learned::{Compared, FittedValue, Interval, Learned, LeftValue};
use super::reading::Kind;
use super::unknown::{COLUMNS, Unknown};

impl Evidence<'_> {
    /// What stays as it was, and why.
    pub(super) fn left(
        &self,
        fitted: &[Unknown],
        dropped: &Dropped,
        before: &Jacobian,
    ) -> Vec<LeftValue> {
        let reason = |unknown: Unknown| {
            if let Some(silence) = self.silence(unknown) {
                return silence.to_owned();
            }
            if let Some((_, reason)) = dropped.iter().find(|(other, _)| *other == unknown) {
                return reason.clone();
            }
            match expected_error(before, fitted, unknown) {
                _ if unknown == Unknown::InclinometerZero => {
                    "it cannot be told from the centre of gravity in this log, so that its doubt is counted in the intervals".to_owned()
                }
                Some(error) => format!(
                    "the log would leave {:.0} % of the doubt there was, and {:.0} % is the most that is worth it",
                    100.0 * error,
                    100.0 * LARGEST_SHARE
                ),
                None => "it cannot be told from the others in this log".to_owned(),
            }
        };
        let left = Unknown::ALL.into_iter().filter(|unknown| !fitted.contains(unknown));
        left.map(|unknown| LeftValue {
            unknown,
            value: self.model.prior.measure(unknown, 0.0),
            reason: reason(unknown),
        })
        .collect()
    }

    /// Everything, but for what only the caller knows.
    pub(super) fn told(
        &self,
        intervals: &Intervals,
        settled: &Settled,
        left: Vec<LeftValue>,
        condition_number: f64,
    ) -> Learned {
        let compared = self.compared(settled);
        let deg = |angle: Angle| angle.get::<degree>();
        let rms = |residual_deg: &dyn Fn(&Compared) -> f64| {
            let sum: f64 = compared.iter().map(|c| residual_deg(c).powi(2)).sum();
            Angle::new::<degree>((sum / compared.len() as f64).sqrt())
        };
        let trims = self.readings.iter().zip(&settled.scales).filter(|(r, _)| r.kind == Kind::Trim);
        let errors: Vec<f64> = trims.map(|(reading, scale)| reading.error * scale).collect();
        let mean_deg = errors.iter().sum::<f64>() / errors.len() as f64;
        Learned {
            fitted: self.fitted(intervals, settled),
            left,
            trim_scatter: Angle::new::<degree>(mean_deg),
            rms_before: rms(&|c| deg(c.measurement.trim) - deg(c.trim_before)),
            rms_after: rms(&|c| deg(c.trim_measured) - deg(c.trim_after)),
            compared,
            unused: Vec::new(),
            condition_number,
            efficiency: Ratio::default(),
            efficiency_is_given: false,
        }
    }

    fn fitted(&self, intervals: &Intervals, settled: &Settled) -> Vec<FittedValue> {
        let prior = &self.model.prior;
        let one = |(index, &unknown): (usize, &Unknown)| {
            let at = settled.place[unknown.index()];
            let interval = |half: f64| Interval {
                low: prior.measure(unknown, at - half),
                high: prior.measure(unknown, at + half),
            };
            FittedValue {
                unknown,
                before: prior.measure(unknown, 0.0),
                value: prior.measure(unknown, at),
                interval: interval(intervals.half[index]),
                with_form: interval(intervals.half_with_form[index]),
                share_of_doubt: intervals.errors[index],
            }
        };
        intervals.fitted.iter().enumerate().map(one).collect()
    }

    fn compared(&self, settled: &Settled) -> Vec<Compared> {
        let mut after = settled.place;
        let zero = Unknown::InclinometerZero;
        let zero_deg = self.model.prior.value(zero, after[zero.index()]);
        after[zero.index()] = 0.0;
        let (before, after) = (self.model.at(&[0.0; COLUMNS]), self.model.at(&after));
        let each = self.measurements.iter().enumerate().map(|(index, measurement)| {
            let (before, after) = (before.predict(measurement), after.predict(measurement));
            let of = |kind: Kind| {
                let found = self.readings.iter().zip(&settled.residuals);
                found.clone().find(|(r, _)| r.measurement == index && r.kind == kind)
            };
            let power = of(Kind::Power);
            let watts = |power_w: Option<f64>| power_w.map(Power::new::<watt>);
            Compared {
                trim_before: Angle::new::<degree>(before.trim_deg),
                trim_after: Angle::new::<degree>(after.trim_deg),
                trim_measured: measurement.trim - Angle::new::<degree>(zero_deg),
                trim_residual: of(Kind::Trim).map_or(0.0, |(_, residual)| *residual),
                power_measured: watts(power.map(|(reading, _)| reading.measured.exp())),
                power_before: watts(before.power_w.filter(|_| power.is_some())),
                power_after: watts(after.power_w.filter(|_| power.is_some())),
                power_residual: power.map(|(_, residual)| *residual),
                measurement: measurement.clone(),
            }
        });
        each.collect()
    }
}
