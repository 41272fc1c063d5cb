//! Checks of the propulsion.

use super::desk::Desk;
use crate::boat::{Measure, PropulsionInput};

/// Checks the propulsion; what it does not give is estimated only where it counts.
pub(super) fn check(desk: &mut Desk, given: &PropulsionInput) {
    desk.check_if("drive.propulsive_efficiency", given.efficiency.map(Measure::Share));
    desk.check_if("drive.bollard_pull", given.bollard_pull.map(Measure::Force));
    desk.check_if(
        "drive.specific_consumption",
        given.specific_consumption.map(Measure::Consumption),
    );
    for (index, at) in given.efficiency_curve.iter().enumerate() {
        let key = |plain: &str| format!("drive.efficiency[{index}].{plain}");
        desk.check(&key("speed"), Measure::Speed(at.speed));
        desk.check(&key("propulsive_efficiency"), Measure::Share(at.efficiency));
        let before = index.checked_sub(1).map(|before| given.efficiency_curve[before].speed);
        if let Some(before) = before.filter(|&before| before >= at.speed) {
            desk.fault(
                &key("speed"),
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
