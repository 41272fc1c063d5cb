//! Many speeds at one deflection.

use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, velocity::meter_per_second};

use super::hump::Hump;
use super::sensitivity::Landmarks;
use super::{Balance, PLANING_SPEED_COEFFICIENT, Point, Settings};
use crate::boat::{Boat, Fault};
use crate::hydro;
use crate::units::SpeedUnit;

/// The points at one deflection.
#[derive(Clone, Debug, PartialEq)]
pub struct Set {
    /// Mean deflection of the planes.
    pub deflection: Angle,
    /// The points by speed.
    pub points: Vec<Point>,
    /// The hump and top speed.
    pub landmarks: Landmarks,
}

impl Set {
    /// The boat at some speeds, once for each deflection.
    ///
    /// # Errors
    /// As [`Balance::point`].
    pub fn all(
        boat: &Boat,
        settings: &Settings,
        speeds: &[Velocity],
        deflections: &[Angle],
    ) -> Result<Vec<Self>, Fault> {
        let balance = Balance::of(boat, settings);
        let hump = Hump::of(boat, settings);
        let set = |&deflection: &Angle| {
            Ok(Self {
                deflection,
                points: sweep(&balance, speeds, deflection)?,
                landmarks: Landmarks::at(&balance, boat, hump.as_ref(), deflection)?,
            })
        };
        deflections.iter().map(set).collect()
    }
}

/// Step of [`speeds`] when none are asked for: 1 kn, 1 mph, 2 km/h or 1 m/s.
#[must_use]
pub fn usual_step(unit: SpeedUnit) -> Velocity {
    let steps = match unit {
        SpeedUnit::KilometrePerHour => 2.0,
        SpeedUnit::Knot | SpeedUnit::MilePerHour | SpeedUnit::MetrePerSecond => 1.0,
    };
    let metre_per_second = unit.value(Velocity::new::<meter_per_second>(1.0));
    Velocity::new::<meter_per_second>(steps / metre_per_second)
}

/// Some deflections, degrees, as far as the boat's planes reach; none but zero without planes.
#[must_use]
pub fn within_reach(boat: &Boat, deflections_deg: &[f64]) -> Vec<Angle> {
    let largest = match boat.planes() {
        Some(_) => boat.sizing().largest_deflection,
        None => Angle::default(),
    };
    let all = deflections_deg.iter().map(|&deflection| Angle::new::<degree>(deflection));
    all.filter(|&deflection| deflection <= largest).collect()
}

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
