//! The water at a pair of planes, and the load that it puts on one of them.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Force, Length, MassDensity, Pressure, Velocity};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::velocity::meter_per_second;

use crate::balance::{Balance, Running, Settings as BalanceSettings};
use crate::boat::{Boat, Fault, PlanePair};
use crate::hydro::speed_coefficient;
use crate::plane::effect::lift_per_degree;
use crate::plane::hinge::{
    HingeError, HingeLoad, PlateFlow, PlateLoad, TrimLoad, design_load, expected_load,
};
use crate::plane::require::BadInput;

/// Deflections tried until the boat runs, degrees: the planes are the cure where a boat finds no
/// balance without them.
const TRIED_DEG: [f64; 4] = [0.0, 5.0, 10.0, 15.0];

/// A boat with a pair of planes, ready to be asked for the water at them.
pub(super) struct Flows<'a> {
    boat: &'a Boat,
    balance: Balance,
    pair: PlanePair,
    load_factor: f64,
    trim_load: TrimLoad,
}

/// The water at one plane at one speed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Flow {
    pub(super) speed: Velocity,
    plate: PlateFlow,
    pair: PlanePair,
    /// Lift of one plane normal to its panel for each degree.
    lift_per_degree: Force,
    load_factor: f64,
    trim_load: TrimLoad,
}

impl<'a> Flows<'a> {
    pub(super) fn new(
        boat: &'a Boat,
        pair: PlanePair,
        load_factor: f64,
        trim_load: TrimLoad,
    ) -> Self {
        let balance = Balance::of(boat, &BalanceSettings::default()).with_planes(Some(pair));
        Self { boat, balance, pair, load_factor, trim_load }
    }

    /// The water at the planes at a speed; `None` when the boat does not run there.
    pub(super) fn at(&self, speed: Velocity) -> Result<Option<Flow>, Fault> {
        for deflection_deg in TRIED_DEG {
            let point = self.balance.point(speed, Angle::new::<degree>(deflection_deg))?;
            if let Some(running) = point.running {
                return Ok(Some(self.flow(speed, &running)));
            }
        }
        Ok(None)
    }

    /// The water at the planes at a speed whether she runs there or not, by the proportions of the
    /// boat at rest: good for what depends on the speed alone.
    pub(super) fn anyway(&self, speed: Velocity) -> Flow {
        self.flow_of(speed, Angle::default(), self.boat.hull().bottom_length)
    }

    /// Planes that a trial found to lift more than published also carry more; weaker ones are not trusted to.
    fn strength_factor(&self) -> f64 {
        self.boat.plane_effectiveness().max(1.0)
    }

    fn flow(&self, speed: Velocity, running: &Running) -> Flow {
        let wetted = self.boat.hull().chine_beam * running.wetted_length_ratio;
        self.flow_of(speed, running.trim, wetted)
    }

    fn flow_of(&self, speed: Velocity, trim: Angle, wetted_length: Length) -> Flow {
        let density = self.boat.water().density;
        let panel_slope = self.boat.transom().deadrise;
        Flow {
            speed,
            plate: PlateFlow {
                dynamic_pressure: pressure(density, speed),
                chord: self.pair.chord,
                span: self.pair.span,
                wetted_length,
                chine_beam: self.boat.hull().chine_beam,
                deflection: Angle::default(),
                trim,
                speed_coefficient: speed_coefficient(speed, self.boat.hull().chine_beam),
            },
            pair: self.pair,
            lift_per_degree: self.strength_factor()
                * lift_per_degree(self.pair, self.boat.hull(), density, speed)
                / panel_slope.cos(),
            load_factor: self.load_factor,
            trim_load: self.trim_load,
        }
    }
}

/// Dynamic pressure ½ ρ V².
fn pressure(density: MassDensity, speed: Velocity) -> Pressure {
    let speed_m_s = speed.get::<meter_per_second>();
    Pressure::new::<pascal>(0.5 * density.get::<kilogram_per_cubic_meter>() * speed_m_s.powi(2))
}

impl Flow {
    /// Trim of the boat that the load is taken at.
    pub(super) fn trim(&self) -> Angle {
        self.plate.trim
    }

    /// Load expected on one plane at a deflection.
    pub(super) fn expected(&self, deflection: Angle) -> Result<HingeLoad, HingeError> {
        let lift = self.lift_per_degree * deflection.get::<degree>();
        expected_load(&PlateFlow { deflection, ..self.plate }, lift, self.trim_load)
    }

    /// Load that the strength of one plane is judged by at a deflection; none when it is up.
    pub(super) fn design(&self, deflection: Angle) -> Result<PlateLoad, BadInput> {
        let lift = self.lift_per_degree * deflection.get::<degree>().max(0.0);
        design_load(lift, self.pair.chord, self.load_factor)
    }
}
