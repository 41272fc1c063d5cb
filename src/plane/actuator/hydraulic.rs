//! Oil cylinder, pump and tube.
//!
//! Oil under pressure can pierce skin, and a loaded plane may drop when a line is opened: let the
//! pressure off and support the plane before any fitting is touched. Hose, tube and fittings must
//! be rated for the pump's relief pressure and for the pressure the locked cylinder may see
//! ([`Hydraulic::trapped_pressure`]).

use std::f64::consts::PI;

use uom::si::area::square_meter;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{
    Area, DynamicViscosity, Force, Length, MassDensity, Pressure, Time, Volume, VolumeRate,
};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::{bar, pascal};
use uom::si::time::second;
use uom::si::volume::cubic_meter;
use uom::si::volume_rate::cubic_meter_per_second;

use super::ActuatorError;
use crate::plane::require::{BadInput, at_least, between, positive};

/// Reynolds number up to which pipe flow is safely laminar (O. Reynolds 1883; about 2300 in
/// every fluid-mechanics text).
pub const LAMINAR_LIMIT: f64 = 2300.0;

/// Measurements and ratings of one cylinder with its pump and tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HydraulicSpec {
    /// Bore of the cylinder.
    pub bore: Length,
    /// Rod diameter of a double-acting cylinder, which the pump also drives back; `None` for a
    /// single-acting one, returned by a spring or the water.
    pub rod: Option<Length>,
    /// Pressure at which the pump's relief valve opens.
    pub pump_pressure: Pressure,
    /// Share of pressure × area that reaches the pin, up to 1: seal friction takes some of the force.
    pub efficiency: f64,
    /// Flow to this cylinder; half the pump's when two cylinders move at once.
    pub pump_flow: VolumeRate,
    /// Inner diameter of the tube.
    pub tube_bore: Length,
    /// Length of tube from pump to cylinder.
    pub tube_length: Length,
    /// Viscosity of the oil at its working temperature; cold oil may be ten times as thick.
    pub oil_viscosity: DynamicViscosity,
    /// Density of the oil.
    pub oil_density: MassDensity,
    /// Length from retracted to extended.
    pub stroke: Length,
    /// Lowest rated pressure among lock valve, hose and cylinder; `None` when not known.
    pub lock_pressure: Option<Pressure>,
}

/// Pressure lost in the tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubeLoss {
    /// By Hagen–Poiseuille.
    pub pressure: Pressure,
    /// Reynolds number on the tube's bore.
    pub reynolds: f64,
    /// Whether the law holds. When false the flow may be turbulent and the loss is larger.
    pub laminar: bool,
}

/// A checked hydraulic actuator.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hydraulic(HydraulicSpec);

/// Area of a circle of this diameter.
fn circle(diameter: Length) -> Area {
    Area::new::<square_meter>(0.25 * PI * diameter.get::<meter>().powi(2))
}

/// Pressure drop of laminar flow in a round tube, Hagen–Poiseuille: `128 μ L Q/(π d⁴)`, pascal
/// (any fluid-mechanics text, for example White, *Fluid Mechanics*, laminar pipe flow).
pub fn hagen_poiseuille_pa(viscosity_pa_s: f64, length_m: f64, flow_m3_s: f64, bore_m: f64) -> f64 {
    128.0 * viscosity_pa_s * length_m * flow_m3_s / (PI * bore_m.powi(4))
}

/// Reynolds number of flow in a round tube: `4 ρ Q/(π d μ)`.
pub fn tube_reynolds(density_kg_m3: f64, flow_m3_s: f64, bore_m: f64, viscosity_pa_s: f64) -> f64 {
    4.0 * density_kg_m3 * flow_m3_s / (PI * bore_m * viscosity_pa_s)
}

impl Hydraulic {
    /// Checks the measurements.
    ///
    /// # Errors
    /// [`BadInput`] for a quantity not above zero, a rod as thick as the bore, an efficiency
    /// above 1, or a lock pressure below the pump's.
    pub fn new(spec: HydraulicSpec) -> Result<Self, BadInput> {
        let length = |name, value: Length| positive(name, value.get::<meter>(), "m");
        let bore_m = length("the cylinder bore", spec.bore)?;
        if let Some(rod) = spec.rod {
            let share = length("the rod diameter", rod)? / bore_m;
            between("rod diameter over bore", share, "", 0.0, 0.99)?;
        }
        let pump_bar = spec.pump_pressure.get::<bar>();
        positive("the pump pressure", pump_bar, "bar")?;
        positive("the cylinder efficiency", spec.efficiency, "")?;
        between("the cylinder efficiency", spec.efficiency, "", 0.0, 1.0)?;
        let flow = spec.pump_flow.get::<cubic_meter_per_second>();
        positive("the pump flow", flow, "m^3/s")?;
        length("the tube bore", spec.tube_bore)?;
        length("the tube length", spec.tube_length)?;
        let viscosity = spec.oil_viscosity.get::<pascal_second>();
        positive("the oil viscosity", viscosity, "Pa s")?;
        let density = spec.oil_density.get::<kilogram_per_cubic_meter>();
        positive("the oil density", density, "kg/m^3")?;
        length("the stroke", spec.stroke)?;
        if let Some(lock) = spec.lock_pressure {
            let lock_bar = lock.get::<bar>();
            at_least("the lock pressure", lock_bar, "bar", pump_bar)?;
        }
        Ok(Self(spec))
    }

    /// What it was made from.
    pub fn spec(&self) -> &HydraulicSpec {
        &self.0
    }

    fn force(&self, pressure: Pressure, area: Area) -> Force {
        Force::new::<newton>(
            pressure.get::<pascal>() * area.get::<square_meter>() * self.0.efficiency,
        )
    }

    /// Push at full pump pressure and no flow: pressure × bore area × efficiency.
    pub fn push(&self) -> Force {
        self.force(self.0.pump_pressure, circle(self.0.bore))
    }

    /// Push while moving at full flow, after the loss in the tube.
    ///
    /// # Errors
    /// [`ActuatorError::TubeTooNarrow`] when the loss is all of the pump pressure.
    pub fn push_while_moving(&self) -> Result<Force, ActuatorError> {
        let loss = self.tube_loss().pressure;
        if loss >= self.0.pump_pressure {
            return Err(ActuatorError::TubeTooNarrow {
                loss_bar: loss.get::<bar>(),
                pump_bar: self.0.pump_pressure.get::<bar>(),
            });
        }
        Ok(self.force(self.0.pump_pressure - loss, circle(self.0.bore)))
    }

    /// Pull at full pump pressure on the ring around the rod; `None` when single-acting.
    pub fn pull(&self) -> Option<Force> {
        let ring = circle(self.0.bore) - circle(self.0.rod?);
        Some(self.force(self.0.pump_pressure, ring))
    }

    /// Load borne by trapped oil: lock pressure × bore area, with no help from seal friction;
    /// the push when no lock pressure was given.
    pub fn hold(&self) -> Force {
        match self.0.lock_pressure {
            None => self.push(),
            Some(lock) => Force::new::<newton>(
                lock.get::<pascal>() * circle(self.0.bore).get::<square_meter>(),
            ),
        }
    }

    /// Pressure that a load on the pin raises in the locked cylinder: load / bore area.
    pub fn trapped_pressure(&self, load: Force) -> Pressure {
        load / circle(self.0.bore)
    }

    /// Oil taken in over the full stroke out.
    pub fn oil_to_extend(&self) -> Volume {
        circle(self.0.bore) * self.0.stroke
    }

    /// Oil taken in over the full stroke back; `None` when single-acting.
    pub fn oil_to_retract(&self) -> Option<Volume> {
        Some((circle(self.0.bore) - circle(self.0.rod?)) * self.0.stroke)
    }

    /// Time for the full stroke out at the pump's flow.
    pub fn time_to_extend(&self) -> Time {
        self.time_for(self.oil_to_extend())
    }

    /// Time for the full stroke back at the pump's flow; `None` when single-acting.
    pub fn time_to_retract(&self) -> Option<Time> {
        Some(self.time_for(self.oil_to_retract()?))
    }

    fn time_for(&self, oil: Volume) -> Time {
        let flow = self.0.pump_flow.get::<cubic_meter_per_second>();
        Time::new::<second>(oil.get::<cubic_meter>() / flow)
    }

    /// Pressure lost in the tube at the pump's flow, on the way out.
    pub fn tube_loss(&self) -> TubeLoss {
        let viscosity = self.0.oil_viscosity.get::<pascal_second>();
        let flow = self.0.pump_flow.get::<cubic_meter_per_second>();
        let bore_m = self.0.tube_bore.get::<meter>();
        let length_m = self.0.tube_length.get::<meter>();
        let density = self.0.oil_density.get::<kilogram_per_cubic_meter>();
        let reynolds = tube_reynolds(density, flow, bore_m, viscosity);
        TubeLoss {
            pressure: Pressure::new::<pascal>(hagen_poiseuille_pa(
                viscosity, length_m, flow, bore_m,
            )),
            reynolds,
            laminar: reynolds <= LAMINAR_LIMIT,
        }
    }
}
