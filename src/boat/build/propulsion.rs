//! Checks of the propulsion.

use super::findings::Findings;
use crate::boat::{Measure, PropulsionInput};

/// Checks the propulsion; what it does not give is estimated only where it counts.
pub(super) fn check(findings: &mut Findings, given: &PropulsionInput) {
    findings.check_all("drive", given.measures());
    for (index, at) in given.efficiency_curve.iter().enumerate() {
        let path = format!("drive.efficiency[{index}]");
        findings.check_all(&path, at.measures());
        let before = index.checked_sub(1).map(|before| given.efficiency_curve[before].speed);
        if let Some(before) = before.filter(|&before| before >= at.speed) {
            findings.fault(
                &format!("{path}.speed"),
                format!(
                    "{} does not lie above the speed before it, {}",
                    Measure::Speed(at.speed),
                    Measure::Speed(before)
                ),
                "list the speeds of the curve from slow to fast, each once".to_owned(),
            );
        }
    }
}
