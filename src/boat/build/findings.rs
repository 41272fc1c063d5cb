//! What is gathered while a boat is built: faults, unusual values and estimates.

use uom::si::f64::{Angle, Length};

use crate::boat::measure::Named;
use crate::boat::{Estimate, Fault, Measure, Unusual, bound_of};

/// Collects faults, unusual values and estimates while a boat is built.
#[derive(Default)]
pub(super) struct Findings {
    pub(super) faults: Vec<Fault>,
    pub(super) unusual: Vec<Unusual>,
    pub(super) estimates: Vec<Estimate>,
}

impl Findings {
    /// Checks one value against the bounds table.
    pub(super) fn check(&mut self, key: &str, measure: Measure) {
        let Some(bound) = bound_of(key) else {
            debug_assert!(false, "no bound for {key}");
            return;
        };
        if let Some([problem, remedy]) = bound.refusal(measure) {
            self.fault(key, problem, remedy);
        } else if !bound.is_usual(measure) {
            self.unusual.push(Unusual {
                key: key.to_owned(),
                message: format!(
                    "{key} = {measure} is unusual (usually {}): {}",
                    bound.usual_text(),
                    bound.why
                ),
            });
        }
    }

    /// Checks the values of a table, or of an entry of a list, that stands at a path.
    pub(super) fn check_all(&mut self, path: &str, values: Named) {
        for (name, measure) in values {
            self.check(&format!("{path}.{name}"), measure);
        }
    }

    pub(super) fn check_if(&mut self, key: &str, measure: Option<Measure>) {
        if let Some(measure) = measure {
            self.check(key, measure);
        }
    }

    pub(super) fn fault(&mut self, key: &str, problem: String, remedy: String) {
        self.faults.push(Fault { key: key.to_owned(), problem, remedy });
    }

    pub(super) fn estimated_length(&mut self, estimate: Estimate) -> Length {
        let value = estimate.value;
        self.estimates.push(estimate);
        let Measure::Length(length) = value else {
            unreachable!("estimates of lengths are lengths")
        };
        length
    }

    pub(super) fn estimated_angle(&mut self, estimate: Estimate) -> Angle {
        let value = estimate.value;
        self.estimates.push(estimate);
        let Measure::Angle(angle) = value else { unreachable!("estimates of angles are angles") };
        angle
    }
}
