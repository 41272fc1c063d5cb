//! The boat of the worked example, from the values the paper gives.

use serde::Deserialize;
use uom::si::f64::{Angle, KinematicViscosity, Length, Mass, MassDensity, Velocity};
use uom::si::{
    angle::degree, kinematic_viscosity::square_meter_per_second, length::meter, mass::kilogram,
    mass_density::kilogram_per_cubic_meter, velocity::meter_per_second,
};

use super::{CheckError, DataFile};
use crate::balance::{Method, Settings};
use crate::boat::{
    Boat, BoatInput, DriveInput, Faults, HullInput, ThrustLine, WaterInput, WeightInput,
};
use crate::hydro::friction::FrictionLine;
use crate::units::factor::{
    KG_M3_PER_SLUG_PER_CUBIC_FOOT, KG_PER_POUND, M_PER_FOOT, M2_S_PER_SQUARE_FOOT_PER_SECOND,
};

/// The worked example's name in errors.
pub(super) const CASE: &str = "Savitsky (1964)";

const DATA: DataFile = DataFile {
    name: "Savitsky1964Given.csv",
    text: include_str!("../../../data/published/Savitsky1964Given.csv"),
};

/// Assumed, in beams: the paper gives no bottom length, and its equations use none.
const BOTTOM_LENGTH_IN_BEAMS: f64 = 5.0;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Given {
    pub displacement_lbf: f64,
    pub beam_ft: f64,
    pub deadrise_deg: f64,
    pub lcg_ft: f64,
    vcg_ft: f64,
    thrust_angle_deg: f64,
    thrust_offset_ft: f64,
    speed_ft_s: f64,
    density_slug_ft3: f64,
    friction_density_slug_ft3: f64,
    kinematic_viscosity_ft2_s: f64,
    correlation_allowance: f64,
}

/// The boat and what the paper gives for it.
pub(super) struct Example {
    pub given: Given,
    pub boat: Boat,
}

impl Example {
    pub fn published() -> Result<Self, CheckError> {
        let given: Given = DATA.row("the boat", |_| true)?;
        let boat = given.boat().map_err(|faults| CheckError::Boat { case: CASE, faults })?;
        Ok(Self { given, boat })
    }

    pub fn speed(&self) -> Velocity {
        Velocity::new::<meter_per_second>(self.given.speed_ft_s * M_PER_FOOT)
    }

    /// Schoenherr's line and the paper's allowance; neither hump factor nor whisker spray; the density that the printed friction has.
    pub fn settings(&self, method: Method) -> Settings {
        Settings {
            method,
            friction_line: FrictionLine::Schoenherr,
            correlation_allowance: Some(self.given.correlation_allowance),
            hump_factor: false,
            whisker_spray: false,
            friction_density: Some(density(self.given.friction_density_slug_ft3)),
            ..Settings::default()
        }
    }
}

impl Given {
    fn boat(&self) -> Result<Boat, Faults> {
        let feet = |feet: f64| Length::new::<meter>(feet * M_PER_FOOT);
        let hull = HullInput {
            bottom_length: Some(feet(BOTTOM_LENGTH_IN_BEAMS * self.beam_ft)),
            chine_beam: Some(feet(self.beam_ft)),
            deadrise: Some(Angle::new::<degree>(self.deadrise_deg)),
            ..HullInput::default()
        };
        let weight = WeightInput::Totals {
            mass: Mass::new::<kilogram>(self.displacement_lbf * KG_PER_POUND),
            lcg: Some(feet(self.lcg_ft)),
            vcg: Some(feet(self.vcg_ft)),
            tcg: None,
        };
        let drive = DriveInput {
            top_speed: Some(Velocity::new::<meter_per_second>(self.speed_ft_s * M_PER_FOOT)),
            thrust_angle: Some(Angle::new::<degree>(self.thrust_angle_deg)),
            thrust_line: Some(ThrustLine::BelowCentreOfGravity(feet(self.thrust_offset_ft))),
            ..DriveInput::default()
        };
        let water = WaterInput::Explicit {
            density: density(self.density_slug_ft3),
            kinematic_viscosity: KinematicViscosity::new::<square_meter_per_second>(
                self.kinematic_viscosity_ft2_s * M2_S_PER_SQUARE_FOOT_PER_SECOND,
            ),
        };
        let input = BoatInput::new("worked example", hull, weight);
        Boat::build(BoatInput { drive, water: Some(water), ..input })
    }
}

fn density(slug_ft3: f64) -> MassDensity {
    MassDensity::new::<kilogram_per_cubic_meter>(slug_ft3 * KG_M3_PER_SLUG_PER_CUBIC_FOOT)
}
