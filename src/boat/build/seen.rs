//! What was seen of the boat: whether she can have been seen so.

use uom::si::acceleration::meter_per_second_squared;
use uom::si::f64::{Acceleration, Velocity};

use super::findings::Findings;
use crate::boat::bounds::PLANING_SPEED_COEFFICIENT;
use crate::boat::condition::{self, LoadingCondition, same_name};
use crate::boat::{BoatInput, Hull, Measure};
use crate::physical::STANDARD_GRAVITY_M_S2;

/// Checks every reading against the bounds table, the hull and the planes.
pub(super) fn check(findings: &mut Findings, input: &BoatInput, hull: &Hull) {
    let slowest = slowest(hull);
    for (index, seen) in input.seen.iter().enumerate() {
        let path = format!("seen[{index}]");
        let key = |plain: &str| format!("{path}.{plain}");
        findings.check_all(&path, seen.measures());
        if seen.speed < slowest {
            findings.fault(
                &key("speed"),
                format!(
                    "at {} she does not plane yet: the equations begin at {}",
                    Measure::Speed(seen.speed),
                    Measure::Speed(slowest)
                ),
                "give a trim read at a higher speed, best where the bow is highest, or delete this reading".to_owned(),
            );
        }
        if seen.is_with_planes() && seen.planes.or(input.planes).is_none() {
            findings.fault(
                &key("deflection"),
                "the boat has no planes that could have been down".to_owned(),
                "describe the pair that was fitted in [planes], or delete the deflection"
                    .to_owned(),
            );
        }
    }
}

/// Whether every reading was taken in a condition that the boat has.
pub(super) fn check_conditions(
    findings: &mut Findings,
    input: &BoatInput,
    conditions: &[LoadingCondition],
) {
    let names = conditions.iter().map(|condition| condition.name.as_str());
    for (index, seen) in input.seen.iter().enumerate() {
        let Some(asked) = &seen.condition else { continue };
        if !names.clone().any(|name| same_name(name, asked)) {
            let key = format!("seen[{index}].condition");
            findings.faults.push(condition::unknown(&key, asked, names.clone()));
        }
    }
}

/// The speed at which planing begins: Cv = V/√(g b) at its least.
fn slowest(hull: &Hull) -> Velocity {
    let gravity = Acceleration::new::<meter_per_second_squared>(STANDARD_GRAVITY_M_S2);
    // As much as a conversion of units may round.
    (gravity * hull.chine_beam).sqrt() * PLANING_SPEED_COEFFICIENT * (1.0 - 1e-9)
}
