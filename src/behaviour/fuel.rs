//! Power and fuel at each speed, with the planes up, held, and used as well as they can be.
//!
//! Shaft power is effective power over the propulsive efficiency; fuel is shaft
//! power times specific consumption. Both hold for steady running in calm water.
//! One specific consumption stands for every load, although engines burn more
//! for each unit of work when they are lightly loaded.

use uom::si::f64::{Angle, Force, Length, MassDensity, Power, Ratio, Velocity, Volume, VolumeRate};
use uom::si::{
    mass_density::kilogram_per_cubic_meter, power::watt, ratio::ratio, velocity::meter_per_second,
    volume_rate::cubic_meter_per_second,
};

use super::from_rest::{FromRest, Way};
use super::thrust::Efficiency;
use crate::balance::sweep::{planing_start, speeds};
use crate::balance::{Running, Settings};
use crate::boat::propulsion::usual_consumption;
use crate::boat::{Boat, Estimate, Fault, FuelKind, Measure, PlanePair};
use crate::flag::Flags;
use crate::units::SpecificConsumption;

/// Cruising speed as a share of the top speed, when none is asked for. Common practice, no source.
pub const CRUISE_SHARE: f64 = 0.75;
/// A change of fuel under this share is none that anybody could measure.
pub const NOTICEABLE: f64 = 0.005;

/// What is asked.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Asked {
    /// Cruising speed; [`CRUISE_SHARE`] of the top speed when absent.
    pub cruise: Option<Velocity>,
    /// Deflection at which the planes are held; half of what they can be put to when absent.
    pub held: Option<Angle>,
}

/// Running steadily at one speed with the planes used in one way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Burn {
    /// Mean deflection.
    pub deflection: Angle,
    /// Running trim.
    pub trim: Angle,
    /// Resistance.
    pub resistance: Force,
    /// Resistance × speed.
    pub effective_power: Power,
    /// Power of all engines together at the shaft.
    pub shaft_power: Power,
    /// Fuel for each unit of time.
    pub flow: VolumeRate,
    /// What to know before trusting it.
    pub flags: Flags,
    speed: Velocity,
}

impl Burn {
    /// Fuel used over a distance.
    #[must_use]
    pub fn over(&self, distance: Length) -> Volume {
        self.flow * (distance / self.speed)
    }

    /// How much more it burns than another at the same speed; negative when it saves.
    #[must_use]
    pub fn more_than(&self, other: &Self) -> Ratio {
        self.flow / other.flow - Ratio::new::<ratio>(1.0)
    }
}

/// One speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// The speed.
    pub speed: Velocity,
    /// Propulsive efficiency there.
    pub efficiency: Ratio,
    /// Planes up; none where she does not run.
    pub up: Option<Burn>,
    /// Planes held.
    pub held: Option<Burn>,
    /// Planes where the resistance is least.
    pub best: Option<Burn>,
}

/// The whole answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Fuel {
    /// The pair used, if any.
    pub pair: Option<PlanePair>,
    /// Deflection at which it is held.
    pub held: Angle,
    /// Cruising speed.
    pub cruise: Velocity,
    /// Whether it was asked for.
    pub cruise_is_asked: bool,
    /// At cruising speed.
    pub at_cruise: Row,
    /// From the start of planing to top speed.
    pub rows: Vec<Row>,
    /// What the engines burn.
    pub fuel: FuelKind,
    /// Its density.
    pub density: MassDensity,
    /// Specific consumption used.
    pub consumption: SpecificConsumption,
    /// Rated power, when known.
    pub rated_power: Option<Power>,
    /// The efficiency used.
    pub efficiency: Efficiency,
    /// What was estimated for it.
    pub estimates: Vec<Estimate>,
}

/// Power and fuel from the start of planing to top speed in steps, and at cruising speed.
///
/// # Errors
/// A [`Fault`] when the cruising speed lies below the planing range.
pub fn fuel(
    boat: &Boat,
    settings: &Settings,
    pair: Option<PlanePair>,
    step: Velocity,
    asked: &Asked,
) -> Result<Fuel, Fault> {
    let cruise = asked.cruise.unwrap_or_else(|| default_cruise(boat));
    if cruise < planing_start(boat) * (1.0 - 1e-9) {
        return Err(below_planing(boat, cruise));
    }
    let held = asked.held.unwrap_or(boat.sizing().largest_deflection / 2.0);
    let burner = Burner::of(boat, settings, pair, held, cruise);
    let mut estimates: Vec<Estimate> = burner.efficiency.estimate().cloned().into_iter().collect();
    estimates.extend(burner.consumption_estimate.clone());
    Ok(Fuel {
        pair,
        held,
        cruise,
        cruise_is_asked: asked.cruise.is_some(),
        at_cruise: burner.row(cruise),
        rows: speeds(boat, step).into_iter().map(|speed| burner.row(speed)).collect(),
        fuel: burner.fuel,
        density: burner.fuel.density(),
        consumption: burner.consumption,
        rated_power: boat.drive().power,
        efficiency: burner.efficiency,
        estimates,
    })
}

/// The boat with everything that turns resistance into fuel.
struct Burner {
    ways: [Option<FromRest>; 3],
    efficiency: Efficiency,
    fuel: FuelKind,
    consumption: SpecificConsumption,
    consumption_estimate: Option<Estimate>,
}

impl Burner {
    fn of(
        boat: &Boat,
        settings: &Settings,
        pair: Option<PlanePair>,
        held: Angle,
        cruise: Velocity,
    ) -> Self {
        let given = boat.propulsion();
        let estimate = given
            .specific_consumption
            .is_none()
            .then(|| usual_consumption(given.fuel, boat.drive().kind));
        let consumption = match (&estimate, given.specific_consumption) {
            (Some(Estimate { value: Measure::Consumption(usual), .. }), _) => *usual,
            (_, given) => given.unwrap_or(SpecificConsumption::from_kg_per_joule(0.0)),
        };
        let highest = boat.drive().top_speed.max(cruise).max(planing_start(boat));
        let ready = |pair, way| FromRest::of(boat, settings, pair, way, highest).ok();
        let with = |way| pair.and_then(|pair| ready(Some(pair), way));
        Self {
            ways: [ready(None, Way::Up), with(Way::Held(held)), with(Way::Best)],
            efficiency: Efficiency::of(boat),
            fuel: given.fuel.unwrap_or_else(|| FuelKind::usual(boat.drive().kind)),
            consumption,
            consumption_estimate: estimate,
        }
    }

    fn row(&self, speed: Velocity) -> Row {
        let [up, held, best] = self.ways.each_ref().map(|way| self.burn(way.as_ref()?, speed));
        Row { speed, efficiency: self.efficiency.at(speed), up, held, best }
    }

    fn burn(&self, way: &FromRest, speed: Velocity) -> Option<Burn> {
        let drag = way.at(speed);
        let resistance = drag.resistance?;
        let running: Running = way.planing_point(speed)?.running?;
        let effective_power: Power = resistance * speed;
        let shaft_power = effective_power / self.efficiency.at(speed);
        let kg_per_second = shaft_power.get::<watt>() * self.consumption.kg_per_joule();
        let density = self.fuel.density().get::<kilogram_per_cubic_meter>();
        Some(Burn {
            deflection: drag.deflection.unwrap_or_default(),
            trim: running.trim,
            resistance,
            effective_power,
            shaft_power,
            flow: VolumeRate::new::<cubic_meter_per_second>(kg_per_second / density),
            flags: drag.flags,
            speed,
        })
    }
}

/// Three quarters of the top speed, but never below the start of planing.
fn default_cruise(boat: &Boat) -> Velocity {
    (boat.drive().top_speed * CRUISE_SHARE).max(planing_start(boat))
}

fn below_planing(boat: &Boat, cruise: Velocity) -> Fault {
    let start = Velocity::new::<meter_per_second>(planing_start(boat).get::<meter_per_second>());
    Fault {
        key: "run.cruise".to_owned(),
        problem: format!(
            "{} is below the planing range, which starts at {}",
            Measure::Speed(cruise),
            Measure::Speed(start)
        ),
        remedy: "ask for a cruising speed at which she planes".to_owned(),
    }
}
