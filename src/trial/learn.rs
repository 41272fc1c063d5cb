//! From the measurements of a log to what they tell.

use uom::si::f64::{Ratio, Velocity};
use uom::si::mass_density::kilogram_per_cubic_meter;

use super::evidence::Evidence;
use super::learned::{Learned, Unused};
use super::model::Model;
use super::pair::Measurement;
use super::refusal::Refusal;
use crate::balance::Settings;
use crate::boat::propulsion::usual_efficiency;
use crate::boat::{Boat, FuelKind, Measure};
use crate::units::{UnitChoice, number_with_decimals};

/// Fewest measurements that can be judged.
const FEWEST: usize = 5;
/// Least ratio of the fastest to the slowest speed.
const LEAST_SPEED_RATIO: f64 = 1.2;
/// Spread of the usual propulsive efficiency of a planing boat, when none is given. Common practice, no source.
const USUAL_EFFICIENCY_SPREAD: f64 = 0.10;
/// Spread of one that is given. Common practice, no source.
const GIVEN_EFFICIENCY_SPREAD: f64 = 0.03;

/// What turns power and fuel into resistance.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Options {
    /// Propulsive efficiency: resistance × speed over shaft power; that of the boat when absent, or else 0.52, held very doubtful.
    pub efficiency: Option<Ratio>,
}

/// Shaft work from a cubic metre of fuel, J, when the boat file gives the specific consumption.
fn work_from_fuel_j_m3(boat: &Boat) -> Option<f64> {
    let propulsion = &boat.input().propulsion;
    let consumption = propulsion.specific_consumption?.kg_per_joule();
    let fuel = propulsion.fuel.unwrap_or_else(|| FuelKind::usual(boat.drive().kind));
    Some(fuel.density().get::<kilogram_per_cubic_meter>() / consumption)
}

/// Learns from the measurements of a log.
///
/// # Errors
/// A [`Refusal`] when they cannot tell anything.
pub fn learn(
    boat: &Boat,
    settings: &Settings,
    measured: &[Measurement],
    options: &Options,
) -> Result<Learned, Refusal> {
    let efficiency = options.efficiency.or(boat.input().propulsion.efficiency);
    let given = efficiency.map(|given| (given, GIVEN_EFFICIENCY_SPREAD));
    let Measure::Share(usual) = usual_efficiency().value else { unreachable!("a share") };
    let usual = (usual, USUAL_EFFICIENCY_SPREAD);
    let model = Model::new(boat, settings, given.unwrap_or(usual));
    let (measurements, unused) = usable(boat, &model, measured)?;
    let model = model.over(&measurements);
    let evidence = Evidence::new(&model, measurements, work_from_fuel_j_m3(boat));
    let allowed = evidence.allowed();
    let mut learned = evidence.learned(allowed)?;
    learned.unused = unused;
    learned.efficiency = given.unwrap_or(usual).0;
    learned.efficiency_is_given = given.is_some();
    Ok(learned)
}

/// The measurements that the equations cover, and those that are of no use.
fn usable(
    boat: &Boat,
    model: &Model,
    measured: &[Measurement],
) -> Result<(Vec<Measurement>, Vec<Unused>), Refusal> {
    let down = measured.iter().find(|m| m.deflection.value > 0.0);
    if let Some(down) = down.filter(|_| boat.planes().is_none()) {
        return Err(Refusal::NoPlanes { lines: down.lines_text() });
    }
    let (used, rest): (Vec<_>, Vec<_>) =
        measured.iter().cloned().partition(|measurement| model.planes_at(measurement));
    let unused = rest.iter().map(|measurement| Unused {
        lines: measurement.lines_text(),
        reason: "too slow: the equations begin at a speed coefficient of 1".to_owned(),
    });
    if used.len() < FEWEST {
        return Err(Refusal::TooFew { count: used.len(), least: FEWEST });
    }
    let speeds = || used.iter().map(|measurement| measurement.speed);
    let slowest = speeds().fold(used[0].speed, Velocity::min);
    let fastest = speeds().fold(used[0].speed, Velocity::max);
    if fastest.value < LEAST_SPEED_RATIO * slowest.value {
        let unit = UnitChoice::default().speed;
        let text =
            |speed| format!("{} {}", number_with_decimals(unit.value(speed), 1), unit.symbol());
        return Err(Refusal::OneSpeed { from: text(slowest), to: text(fastest) });
    }
    Ok((used, unused.collect()))
}
