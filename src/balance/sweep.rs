//! Many speeds at one deflection.

use uom::si::f64::{Angle, Velocity};
use uom::si::velocity::meter_per_second;

use super::{Balance, PLANING_SPEED_COEFFICIENT, Point};
use crate::boat::{Boat, Fault};
use crate::hydro;

/// Speeds from the start of the planing range to the boat's top speed: whole steps, and both ends.
///
/// One speed only, the start, when the top speed lies below it.
#[must_use]
pub fn speeds(boat: &Boat, step: Velocity) -> Vec<Velocity> {
    let start = planing_start(boat);
    let top = boat.drive().top_speed;
    let mut speeds = vec![start];
    let step_m_s = step.get::<meter_per_second>();
    let first = (start.get::<meter_per_second>() / step_m_s).floor() + 1.0;
    let mut count = first;
    while count * step_m_s < top.get::<meter_per_second>() * (1.0 - 1e-9) {
        speeds.push(Velocity::new::<meter_per_second>(count * step_m_s));
        count += 1.0;
    }
    if top > start {
        speeds.push(top);
    }
    speeds
}

/// Speed at which the boat counts as planing, Cv = 1.
#[must_use]
pub fn planing_start(boat: &Boat) -> Velocity {
    // A hair above, so that Cv is not under 1 by rounding.
    hydro::speed_at(PLANING_SPEED_COEFFICIENT, boat.hull().chine_beam) * (1.0 + 1e-12)
}

/// The boat at each speed, each balance begun from the last one's trim.
///
/// # Errors
/// As [`Balance::point`].
pub fn sweep(
    balance: &Balance,
    speeds: &[Velocity],
    deflection: Angle,
) -> Result<Vec<Point>, Fault> {
    let mut start = None;
    speeds
        .iter()
        .map(|&speed| {
            let point = balance.point_from(speed, deflection, start)?;
            start = point.running.map(|running| running.trim).or(start);
            Ok(point)
        })
        .collect()
}

/// Speeds from the start of the planing range to the boat's top speed: whole steps of a unit, 1, 2, 4 or more, so that there are no more than `most` of them, two at least.
#[must_use]
pub fn few_speeds(boat: &Boat, unit: crate::units::SpeedUnit, most: usize) -> Vec<Velocity> {
    let one =
        Velocity::new::<meter_per_second>(1.0 / unit.value(Velocity::new::<meter_per_second>(1.0)));
    let mut step = one;
    loop {
        let all = speeds(boat, step);
        if all.len() <= most.max(2) {
            return all;
        }
        step *= 2.0;
    }
}
