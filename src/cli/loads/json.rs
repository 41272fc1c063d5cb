//! The loads as one JSON object: SI units, angles in degrees, null for what does not exist.

use serde::Serialize;
use uom::si::area::square_millimeter;
use uom::si::electric_current::ampere;
use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::degree_celsius;

use super::Loaded;
use crate::cli::strength::Borne;
use crate::field::{InSi, written};
use crate::plane::actuator::electric::{CABLE_TEMPERATURE_DEGC, CableRun, Electric, TIGHT_DROP};
use crate::plane::actuator::{Actuator, Hydraulic};
use crate::stock::PartLoads;
use crate::stock::assess::PartLoadAt;
use crate::tell::loads::finite;

/// The planes in all loading conditions asked about.
#[derive(Serialize)]
pub(super) struct Written<'a> {
    pub conditions: &'a [Loaded],
}

/// A part on the boat.
struct OnBoat<'a>(&'a Loaded, &'a PartLoads);

/// What a load does to a part.
#[derive(Serialize)]
struct Geared<'a> {
    #[serde(flatten)]
    load: &'a PartLoadAt,
    share_of_push: Option<f64>,
    share_of_hold: Option<f64>,
}

/// What moves it.
struct Moved<'a>(&'a Loaded, &'a PartLoads);

impl OnBoat<'_> {
    fn geared<'a>(&self, loads: impl Iterator<Item = &'a PartLoadAt>) -> Vec<Geared<'a>> {
        let actuator = &self.1.gear.actuator;
        let geared = |load: &'a PartLoadAt| Geared {
            load,
            share_of_push: finite((load.expected_push / actuator.push()).value),
            share_of_hold: finite((load.design_push / actuator.hold()).value),
        };
        loads.map(geared).collect()
    }

    fn plate_factor(&self) -> f64 {
        let asked = self.0.found.settings.plate_factor;
        asked.unwrap_or_else(|| self.1.gear.material.default_factor())
    }
}

impl Moved<'_> {
    fn hydraulic(&self) -> Option<&Hydraulic> {
        match &self.1.gear.actuator {
            Actuator::Hydraulic(cylinder) => Some(cylinder),
            Actuator::Electric(_) => None,
        }
    }

    fn electric(&self) -> Option<&Electric> {
        match &self.1.gear.actuator {
            Actuator::Hydraulic(_) => None,
            Actuator::Electric(motor) => Some(motor),
        }
    }

    /// Cross-section of the cable that the motor takes.
    fn cable_mm2(&self) -> Option<f64> {
        let run = CableRun {
            one_way_length: self.0.cable_length,
            allowed_drop: TIGHT_DROP,
            conductor_temperature: ThermodynamicTemperature::new::<degree_celsius>(
                CABLE_TEMPERATURE_DEGC,
            ),
        };
        Some(self.electric()?.cable(&run).ok()?.nominal.get::<square_millimeter>())
    }
}

written! {
    Loaded as loaded {
        "name": loaded.boat().condition().name,
        "load_factor": loaded.found.settings.load_factor,
        "screw_factor": loaded.found.settings.withdrawal_factor,
        "wet_factor": loaded.found.settings.wet_factor,
        "loads": loaded.found.loads,
        "part": loaded.found.part.as_ref().map(|part| OnBoat(loaded, part)),
        // Name of a part of which the list says nothing but the size: its strength is not known.
        "part_not_described": loaded.found.not_described,
    }
    OnBoat<'_> as on {
        "part": on.1.part.name,
        "fits_transom": on.1.assessment.fit.fits(),
        "missing_span_m": on.1.assessment.fit.missing.in_si(),
        "strength": Borne::of(&on.1.gear, &on.1.strength, on.0.units),
        "plate_factor": on.plate_factor(),
        "push_n": on.1.gear.actuator.push().in_si(),
        "hold_n": on.1.gear.actuator.hold().in_si(),
        "raised_deg": on.1.assessment.raised.in_si(),
        "lowered_deg": on.1.assessment.lowered.in_si(),
        "touching_deg": on.1.assessment.touching.in_si(),
        "full_deflection_deg": on.1.assessment.full_deflection.in_si(),
        "limits": on.1.assessment.limits,
        "by_speed": on.1.assessment.by_speed,
        "loads": on.geared(on.1.loads.iter()),
        "at_allowed": on.geared(on.1.assessment.by_speed.iter().map(|at| &at.load)),
        "stroke": on.1.stroke,
        "actuator": Moved(on.0, on.1),
    }
    Moved<'_> as by {
        "kind": if by.hydraulic().is_some() { "hydraulic" } else { "electric" },
        "for_each_plane": by.1.gear.actuators,
        "time_to_extend_s": by.1.gear.actuator.time_to_extend().in_si(),
        "time_to_retract_s": by.1.gear.actuator.time_to_retract().in_si(),
        "oil_to_extend_m3": by.hydraulic().map(Hydraulic::oil_to_extend).in_si(),
        "oil_to_retract_m3": by.hydraulic().and_then(Hydraulic::oil_to_retract).in_si(),
        "tube_loss_pa": by.hydraulic().map(|cylinder| cylinder.tube_loss().pressure).in_si(),
        "tube_flow_laminar": by.hydraulic().map(|cylinder| cylinder.tube_loss().laminar),
        "current_a": by.electric().map(|motor| motor.spec().rated_current.get::<ampere>()),
        "fuse_a": by.electric().and_then(|motor| motor.fuse().ok()).map(|fuse| fuse.get::<ampere>()),
        "cable_mm2": by.cable_mm2(),
    }
}
