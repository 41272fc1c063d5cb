//! Electric actuator: force, time, fuse and cable.
//!
//! Fuse and cable sizes here are guidance to plan with. Local codes and the small-craft electrical
//! standard in force where the boat lives (ISO 13297, named from memory, or the national one) decide, and a
//! qualified person should check the installation. Protect the cable close to the battery, use
//! ignition-protected parts in petrol spaces, and disconnect the battery before working.

use uom::si::area::square_millimeter;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::f64::{
    Area, ElectricCurrent, ElectricPotential, Force, Length, ThermodynamicTemperature, Time,
    Velocity,
};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::second;
use uom::si::velocity::meter_per_second;

use super::ActuatorError;
use crate::plane::require::{BadInput, at_least, between, positive};

/// Fuse rating over rated current. Common practice, no source.
pub const FUSE_MARGIN: f64 = 1.25;

/// Usual blade-fuse ratings, ampere (ISO 8820-3 sizes, from memory).
pub const FUSE_SIZES_A: [f64; 11] = [1.0, 2.0, 3.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0];

/// Copper cross-sections, square millimetres (IEC 60228 nominal areas, from memory).
pub const COPPER_SIZES_MM2: [f64; 12] =
    [0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0, 70.0];

/// What single cables of [`COPPER_SIZES_MM2`] with insulation for 60 °C carry outside engine spaces,
/// ampere (ISO 10133, annex A, from memory).
pub const COPPER_CARRIES_A: [f64; 12] =
    [6.0, 8.0, 12.0, 17.0, 22.0, 29.0, 40.0, 54.0, 71.0, 87.0, 105.0, 135.0];

/// Voltage drop allowed where full force must be had, as a share of the supply. Boat electrical
/// practice, from memory.
pub const TIGHT_DROP: f64 = 0.03;
/// Voltage drop allowed for gear that may run slow, as a share of the supply. Boat electrical
/// practice, from memory.
pub const LOOSE_DROP: f64 = 0.10;

/// Temperature of a cable in service, °C: warm engine space. Common practice, no source.
pub const CABLE_TEMPERATURE_DEGC: f64 = 50.0;
/// Resistivity of annealed copper at 20 °C, Ω mm²/m: 1/58 (IEC 60028, from memory).
pub const COPPER_RESISTIVITY_20C: f64 = 1.0 / 58.0;
/// Rise of that resistivity per kelvin, at 20 °C (IEC 60028, from memory).
pub const COPPER_TEMPERATURE_COEFFICIENT: f64 = 0.003_93;

/// Ratings of one electric actuator.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ElectricSpec {
    /// Load it is rated to move.
    pub rated_force: Force,
    /// Speed at that load.
    pub speed: Velocity,
    /// Length from retracted to extended.
    pub stroke: Length,
    /// Current at the rated load.
    pub rated_current: ElectricCurrent,
    /// Nominal supply.
    pub supply_voltage: ElectricPotential,
    /// Load it is rated to bear standing still; `None` when not known.
    pub holding_force: Option<Force>,
}

/// A checked electric actuator.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Electric(ElectricSpec);

/// The cable from battery to actuator.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CableRun {
    /// Battery to actuator, one way.
    pub one_way_length: Length,
    /// Allowed drop, as a share of the supply: [`TIGHT_DROP`] or [`LOOSE_DROP`].
    pub allowed_drop: f64,
    /// Temperature of the copper in service, from −50 °C to 120 °C.
    pub conductor_temperature: ThermodynamicTemperature,
}

/// A cable size for a voltage drop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CableSize {
    /// Copper area at which the drop is just allowed.
    pub needed: Area,
    /// Next nominal size.
    pub nominal: Area,
    /// Drop with the nominal size, out and back.
    pub drop: ElectricPotential,
}

/// Resistivity of annealed copper, Ω mm²/m: `ρ₂₀ [1 + α (t − 20)]` (IEC 60028, from memory).
pub fn copper_resistivity_ohm_mm2_per_m(temperature_degc: f64) -> f64 {
    COPPER_RESISTIVITY_20C * (1.0 + COPPER_TEMPERATURE_COEFFICIENT * (temperature_degc - 20.0))
}

/// Smallest of the sorted `sizes` that is not below `needed`.
fn next_size(
    what: &'static str,
    unit: &'static str,
    needed: f64,
    sizes: &[f64],
) -> Result<f64, ActuatorError> {
    let largest = sizes.iter().copied().fold(0.0, f64::max);
    let found = sizes.iter().copied().find(|&size| size >= needed);
    found.ok_or(ActuatorError::NoStandardSize { what, needed, largest, unit })
}

impl Electric {
    /// Checks the ratings.
    ///
    /// # Errors
    /// [`BadInput`] for a rating not above zero, or a holding force below the rated force.
    pub fn new(spec: ElectricSpec) -> Result<Self, BadInput> {
        let force_n = positive("the rated force", spec.rated_force.get::<newton>(), "N")?;
        let speed_m_s = spec.speed.get::<meter_per_second>();
        positive("the actuator speed", speed_m_s, "m/s")?;
        positive("the stroke", spec.stroke.get::<meter>(), "m")?;
        positive("the rated current", spec.rated_current.get::<ampere>(), "A")?;
        positive("the supply voltage", spec.supply_voltage.get::<volt>(), "V")?;
        if let Some(hold) = spec.holding_force {
            at_least("the holding force", hold.get::<newton>(), "N", force_n)?;
        }
        Ok(Self(spec))
    }

    /// What it was made from.
    pub fn spec(&self) -> &ElectricSpec {
        &self.0
    }

    /// Rated force.
    pub fn push(&self) -> Force {
        self.0.rated_force
    }

    /// Holding force; the rated force when none was given.
    pub fn hold(&self) -> Force {
        self.0.holding_force.unwrap_or(self.0.rated_force)
    }

    /// Time for the full stroke either way at the rated speed; lightly loaded it is less.
    pub fn time_for_stroke(&self) -> Time {
        let speed_m_s = self.0.speed.get::<meter_per_second>();
        Time::new::<second>(self.0.stroke.get::<meter>() / speed_m_s)
    }

    /// Fuse for one actuator: rated current × [`FUSE_MARGIN`], next standard size up. It must
    /// not be above what the cable carries safely; a maker's own rating comes first.
    ///
    /// # Errors
    /// [`ActuatorError::NoStandardSize`] above the largest of [`FUSE_SIZES_A`].
    pub fn fuse(&self) -> Result<ElectricCurrent, ActuatorError> {
        let needed = FUSE_MARGIN * self.0.rated_current.get::<ampere>();
        let size = next_size("a fuse", "A", needed, &FUSE_SIZES_A)?;
        Ok(ElectricCurrent::new::<ampere>(size))
    }

    /// So many of them on one feed, all moving at once, as far as fuse and cable go.
    #[must_use]
    pub fn on_one_feed(&self, count: u32) -> Self {
        let rated_current = self.0.rated_current * f64::from(count.max(1));
        Self(ElectricSpec { rated_current, ..self.0 })
    }

    /// The least copper that carries the current of the fuse: [`COPPER_CARRIES_A`].
    ///
    /// # Errors
    /// [`ActuatorError::NoStandardSize`] as [`Electric::fuse`].
    pub fn copper_for_fuse(&self) -> Result<Area, ActuatorError> {
        let fuse_a = self.fuse()?.get::<ampere>();
        let mut sizes = COPPER_SIZES_MM2.into_iter().zip(COPPER_CARRIES_A);
        let found = sizes.find(|&(_, carries_a)| carries_a >= fuse_a);
        let largest = COPPER_CARRIES_A.into_iter().fold(0.0, f64::max);
        let none =
            ActuatorError::NoStandardSize { what: "a cable", needed: fuse_a, largest, unit: "A" };
        found.map(|(size_mm2, _)| Area::new::<square_millimeter>(size_mm2)).ok_or(none)
    }

    /// Cable whose drop out and back at the rated current is within the allowed share:
    /// `A = 2 L I ρ/ΔV`. Only the voltage drop is looked at: the cable must also carry the
    /// fuse's current without overheating, by the standard's own tables.
    ///
    /// # Errors
    /// [`ActuatorError::Input`] for a run no boat has, [`ActuatorError::NoStandardSize`] above
    /// the largest of [`COPPER_SIZES_MM2`].
    pub fn cable(&self, run: &CableRun) -> Result<CableSize, ActuatorError> {
        let length_m = positive("the cable length", run.one_way_length.get::<meter>(), "m")?;
        let share = between("the allowed drop", run.allowed_drop, "", 0.001, LOOSE_DROP)?;
        let degc = run.conductor_temperature.get::<degree_celsius>();
        between("the conductor temperature", degc, "degC", -50.0, 120.0)?;
        let current_a = self.0.rated_current.get::<ampere>();
        let volt_mm2 = 2.0 * length_m * current_a * copper_resistivity_ohm_mm2_per_m(degc);
        let needed_mm2 = volt_mm2 / (share * self.0.supply_voltage.get::<volt>());
        let nominal_mm2 = next_size("a cable", "mm^2", needed_mm2, &COPPER_SIZES_MM2)?;
        Ok(CableSize {
            needed: Area::new::<square_millimeter>(needed_mm2),
            nominal: Area::new::<square_millimeter>(nominal_mm2),
            drop: ElectricPotential::new::<volt>(volt_mm2 / nominal_mm2),
        })
    }
}
