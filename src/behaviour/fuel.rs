//! Power and fuel at each speed, with the planes up, held, and used as well as they can be.
//!
//! Shaft power is effective power over the propulsive efficiency; fuel is shaft
//! power times specific consumption. Both hold for steady running in calm water.
//! One specific consumption stands for every load, although engines burn more
//! for each unit of work when they are lightly loaded.

use uom::si::f64::{Angle, Force, Length, MassDensity, Power, Ratio, Velocity, Volume, VolumeRate};
use uom::si::{
    length::meter, mass_density::kilogram_per_cubic_meter, power::watt, ratio::ratio,
    velocity::meter_per_second, volume_rate::cubic_meter_per_second,
};

use super::from_rest::{FromRest, Way};
use super::thrust::Efficiency;
use crate::balance::saving::Saving;
use crate::balance::sweep::{planing_start, speeds};
use crate::balance::{Running, Settings};
use crate::boat::propulsion::usual_consumption;
use crate::boat::{Boat, Estimate, Fault, FuelKind, Measure, PlanePair};
use crate::field::{InSi, written};
use crate::flag::Flags;
use crate::units::SpecificConsumption;

/// What is asked about fuel.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FuelRequest {
    /// Cruising speed; [`Drive::cruise`](crate::boat::Drive::cruise) when absent.
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
    /// Friction that wet vertical sides would have: an ESTIMATE, not in the resistance.
    pub side_friction: Force,
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

    /// Whether it saves beside planes up at the same speed; fuel goes with the resistance there.
    #[must_use]
    pub fn saving(&self, up: &Self) -> Saving {
        Saving::of(up.resistance, self.resistance, self.side_friction)
    }
}

/// One speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FuelPoint {
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

impl FuelPoint {
    fn change(&self, burn: Option<Burn>) -> Option<f64> {
        Some(burn?.more_than(&self.up?).in_si())
    }

    fn saving(&self, burn: Option<Burn>) -> Option<Saving> {
        Some(burn?.saving(&self.up?))
    }
}

written! {
    Burn as burn {
        "deflection_deg": burn.deflection.in_si(),
        "trim_deg": burn.trim.in_si(),
        "resistance_n": burn.resistance.in_si(),
        "side_friction_estimate_n": burn.side_friction.in_si(),
        "effective_power_w": burn.effective_power.in_si(),
        "shaft_power_w": burn.shaft_power.in_si(),
        "fuel_m3_per_s": burn.flow.in_si(),
        "fuel_m3_per_m": burn.over(Length::new::<meter>(1.0)).in_si(),
        .. flags: burn.flags
    }
    FuelPoint as row {
        "speed_m_s": row.speed.in_si(),
        "propulsive_efficiency": row.efficiency.in_si(),
        "planes_up": row.up,
        "held": row.held,
        "best": row.best,
        "held_change": row.change(row.held),
        "best_change": row.change(row.best),
        "held_saving": row.saving(row.held),
        "best_saving": row.saving(row.best),
    }
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
    pub at_cruise: FuelPoint,
    /// From the start of planing to top speed.
    pub rows: Vec<FuelPoint>,
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
    asked: &FuelRequest,
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
            efficiency: Efficiency::of(boat, settings),
            fuel: given.fuel.unwrap_or_else(|| FuelKind::usual(boat.drive().kind)),
            consumption,
            consumption_estimate: estimate,
        }
    }

    fn row(&self, speed: Velocity) -> FuelPoint {
        let [up, held, best] = self.ways.each_ref().map(|way| self.burn(way.as_ref()?, speed));
        FuelPoint { speed, efficiency: self.efficiency.at(speed), up, held, best }
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
            side_friction: running.side_friction,
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
    boat.drive().cruise().max(planing_start(boat))
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::balance::Balance;
    use crate::balance::saving::NOTICEABLE;
    use crate::input::parse_boat;
    use approx::assert_relative_eq;
    use uom::si::{angle::degree, volume::cubic_meter};

    const BOAT: &str = "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\n\
        deadrise = \"18 deg\"\n[weight]\nmass = \"2800 kg\"\nlcg = \"2.45 m\"\nvcg = \"0.75 m\"\n\
        [planes]\nspan = \"610 mm\"\nchord = \"254 mm\"\n\
        [drive]\nthrust_angle = \"4 deg\"\nthrust_offset = \"0.35 m\"\ntop_speed = \"30 kn\"\n\
        power = \"180 kW\"\n";

    fn answer(more: &str) -> (Boat, Fuel) {
        let boat = parse_boat("b.toml", &format!("{BOAT}{more}")).unwrap().boat;
        let step = Velocity::new::<meter_per_second>(1.0);
        let fuel = fuel(&boat, &Settings::default(), boat.planes(), step, &FuelRequest::default())
            .unwrap();
        (boat, fuel)
    }

    #[test]
    fn physics_energy_is_accounted_for_from_the_tank_to_the_water() {
        let (boat, fuel) = answer(
            "propulsive_efficiency = \"50 %\"\nfuel = \"diesel\"\n\
             specific_consumption = \"250 g/kWh\"\n",
        );
        assert!(fuel.estimates.is_empty());
        let up = fuel.at_cruise.up.unwrap();
        let bare = Balance::of(&boat, &Settings::default()).with_planes(None);
        let running = bare.point(fuel.cruise, Angle::default()).unwrap().running.unwrap();
        let effective_kw = running.effective_power.get::<watt>() / 1000.0;
        // 250 g for each kWh at the shaft, twice the effective power; 835 g to the litre.
        let litres_per_hour = 2.0 * effective_kw * 250.0 / 835.0;
        let found = up.flow.get::<cubic_meter_per_second>() * 3.6e6;
        assert_relative_eq!(found, litres_per_hour, max_relative = 1e-9);
        let knots = fuel.cruise.get::<meter_per_second>() * 3600.0 / 1852.0;
        let litres = up.over(Length::new::<meter>(1852.0)).get::<cubic_meter>() * 1000.0;
        assert_relative_eq!(litres, litres_per_hour / knots, max_relative = 1e-9);
    }

    #[test]
    fn physics_best_never_burns_more_than_up_and_the_share_depends_on_no_estimate() {
        let (_, fuel) = answer("");
        let (_, other) = answer("propulsive_efficiency = \"60 %\"\nfuel = \"diesel\"\n");
        assert_eq!(fuel.estimates.len(), 2);
        for (row, same) in fuel.rows.iter().zip(&other.rows) {
            let (up, best) = (row.up.unwrap(), row.best.unwrap());
            assert!(best.more_than(&up).value < NOTICEABLE);
            let share = same.best.unwrap().more_than(&same.up.unwrap()).value;
            assert!((best.more_than(&up).value - share).abs() < 1e-9);
        }
    }

    #[test]
    fn physics_planes_left_down_at_speed_cost_fuel() {
        let (boat, fuel) = answer("");
        let costs = |row: &FuelPoint| Some(row.held?.more_than(&row.up?).value > NOTICEABLE);
        let fast: Vec<_> = fuel.rows.iter().filter_map(costs).collect();
        assert_eq!(fast.last(), Some(&true));
        assert_relative_eq!(fuel.held.get::<degree>(), 7.5, max_relative = 1e-12);
        assert!(fuel.cruise < boat.drive().top_speed);
        assert_relative_eq!((fuel.cruise / boat.drive().top_speed).value, 0.75);
    }

    #[test]
    fn error_a_cruise_below_planing() {
        let boat = parse_boat("b.toml", BOAT).unwrap().boat;
        let asked =
            FuelRequest { cruise: Some(Velocity::new::<meter_per_second>(4.0)), held: None };
        let step = Velocity::new::<meter_per_second>(1.0);
        let fault = fuel(&boat, &Settings::default(), None, step, &asked).unwrap_err();
        assert_eq!(
            fault.to_string(),
            "run.cruise: 4 m/s is below the planing range, which starts at 4.697 m/s"
        );
    }
}
