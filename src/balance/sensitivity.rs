//! How far the answer moves when an estimated value is not what the rule says.

use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, velocity::meter_per_second};

use super::sweep::planing_start;
use super::{Balance, Point, Settings};
use crate::boat::{Boat, Estimate, Fault};

/// Speeds of the first look for the hump.
const FIRST_LOOK: u32 = 40;
/// Narrowings of the interval that holds the hump; each leaves 0.618 of it.
const NARROWINGS: u32 = 16;

/// What the boat does at the two speeds that people ask about first.
#[derive(Clone, Debug, PartialEq)]
pub struct Landmarks {
    /// Where the running trim is largest between the start of planing and top speed; none when she runs nowhere there.
    pub hump: Option<Point>,
    /// At top speed.
    pub top: Point,
}

/// The landmarks at both ends of the likely range of one estimate, all else unchanged.
#[derive(Clone, Debug, PartialEq)]
pub struct Sensitivity {
    /// The estimate.
    pub estimate: Estimate,
    /// With its lower end; none when no boat can have it.
    pub low: Option<Landmarks>,
    /// With its upper end; none when no boat can have it.
    pub high: Option<Landmarks>,
}

impl Landmarks {
    /// Looks for the hump between the start of planing and top speed, and balances the boat at top speed.
    ///
    /// # Errors
    /// As [`Balance::point`].
    pub fn of(boat: &Boat, settings: &Settings, deflection: Angle) -> Result<Self, Fault> {
        let balance = Balance::of(boat, settings);
        let top_speed = boat.drive().top_speed;
        let top = balance.point(top_speed, deflection)?;
        Ok(Self { hump: hump(&balance, [planing_start(boat), top_speed], deflection)?, top })
    }
}

/// The landmarks with each estimate of the boat at both ends of its likely range.
#[must_use]
pub fn sensitivities(boat: &Boat, settings: &Settings, deflection: Angle) -> Vec<Sensitivity> {
    let with = |estimate: &Estimate, value| {
        let moved = boat.with_estimate(estimate.key, value).ok()?;
        Landmarks::of(&moved, settings, deflection).ok()
    };
    let each = boat.estimates().iter().map(|estimate| Sensitivity {
        low: with(estimate, estimate.low),
        high: with(estimate, estimate.high),
        estimate: estimate.clone(),
    });
    each.collect()
}

/// The point of largest running trim between two speeds.
///
/// Evenly spaced speeds find the interval, golden sections narrow it.
fn hump(
    balance: &Balance,
    [from, to]: [Velocity; 2],
    deflection: Angle,
) -> Result<Option<Point>, Fault> {
    let mut start = None;
    let mut at = |speed: Velocity| -> Result<Point, Fault> {
        let point = balance.point_from(speed, deflection, start)?;
        start = point.running.map(|running| running.trim).or(start);
        Ok(point)
    };
    let step = (to - from) / f64::from(FIRST_LOOK);
    if step.get::<meter_per_second>() <= 0.0 {
        return Ok(None);
    }
    let mut highest: Option<Point> = None;
    for index in 0..=FIRST_LOOK {
        highest = higher(highest, at(from + step * f64::from(index))?);
    }
    let Some(found) = highest.as_ref() else { return Ok(None) };
    let mut low = (found.speed - step).max(from);
    let mut high = (found.speed + step).min(to);
    for _ in 0..NARROWINGS {
        let inner = (high - low) * 0.381_966_011_250_105;
        let [left, right] = [at(low + inner)?, at(high - inner)?];
        if trim_deg(&left) > trim_deg(&right) {
            high = right.speed;
        } else {
            low = left.speed;
        }
        highest = higher(higher(highest, left), right);
    }
    Ok(highest)
}

/// The point of larger running trim.
fn higher(best: Option<Point>, candidate: Point) -> Option<Point> {
    match best {
        Some(best) if trim_deg(&best) >= trim_deg(&candidate) => Some(best),
        best => candidate.running.is_some().then_some(candidate).or(best),
    }
}

/// Running trim, below every real one when not running.
fn trim_deg(point: &Point) -> f64 {
    point.running.map_or(f64::NEG_INFINITY, |running| running.trim.get::<degree>())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::balance::sweep::sweep;
    use crate::boat::{BoatInput, HullInput, WeightInput};
    use uom::si::f64::{Length, Mass};
    use uom::si::{length::meter, mass::kilogram};

    fn boat(lcg_m: Option<f64>) -> Boat {
        let length = |m| Length::new::<meter>(m);
        let hull = HullInput {
            overall_length: None,
            bottom_length: Some(length(6.5)),
            chine_beam: length(2.25),
            deadrise: Angle::new::<degree>(18.0),
        };
        let weight = WeightInput::Totals {
            mass: Mass::new::<kilogram>(2800.0),
            lcg: lcg_m.map(length),
            vcg: Some(length(0.75)),
            tcg: None,
        };
        Boat::build(BoatInput::new("trial", hull, weight)).unwrap()
    }

    #[test]
    fn physics_hump_is_the_largest_trim_of_a_fine_sweep() {
        let boat = boat(Some(2.45));
        let flat = Angle::new::<degree>(0.0);
        let hump = Landmarks::of(&boat, &Settings::default(), flat).unwrap().hump.unwrap();
        let balance = Balance::of(&boat, &Settings::default());
        let step = (boat.drive().top_speed - planing_start(&boat)) / 2000.0;
        let speeds: Vec<_> =
            (0..=2000).map(|i| planing_start(&boat) + step * f64::from(i)).collect();
        let swept = sweep(&balance, &speeds, flat).unwrap();
        let finest = swept.iter().map(trim_deg).fold(f64::NEG_INFINITY, f64::max);
        assert!((trim_deg(&hump) - finest).abs() < 1e-3, "{} {finest}", trim_deg(&hump));
    }

    #[test]
    fn physics_weight_further_aft_lifts_the_bow_at_the_hump() {
        let boat = boat(None);
        let all = sensitivities(&boat, &Settings::default(), Angle::new::<degree>(0.0));
        assert_eq!(all.len(), boat.estimates().len());
        let lcg = all.iter().find(|one| one.estimate.key == "weight.lcg").unwrap();
        let hump_deg = |end: &Option<Landmarks>| {
            trim_deg(end.as_ref().unwrap().hump.as_ref().expect("she runs"))
        };
        assert!(hump_deg(&lcg.low) > hump_deg(&lcg.high) + 0.5);
    }

    #[test]
    fn physics_no_residual_moment_at_the_running_trim_and_a_righting_one_beside_it() {
        let boat = boat(Some(2.45));
        let balance = Balance::of(&boat, &Settings::default());
        let (speed, flat) = (Velocity::new::<meter_per_second>(11.0), Angle::new::<degree>(0.0));
        let trim = balance.point(speed, flat).unwrap().running.unwrap().trim;
        let share = |trim: Angle| {
            let moment = balance.residual_moment(speed, flat, trim).unwrap();
            moment.get::<uom::si::torque::newton_meter>() / (2800.0 * 9.81 * 2.25)
        };
        assert!(share(trim).abs() < 1e-9);
        assert!(share(trim * 1.05) > 1e-4 && share(trim * 0.95) < -1e-4);
        assert!(balance.residual_moment(speed, flat, trim * 9.0).is_err());
    }
}
