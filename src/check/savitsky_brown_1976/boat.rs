//! The boat of the worked example, from the values the paper gives, and what it prints for her.

use serde::Deserialize;
use uom::si::f64::{Angle, KinematicViscosity, Length, Mass, MassDensity, Velocity};
use uom::si::{
    angle::degree, kinematic_viscosity::square_meter_per_second, length::meter, mass::kilogram,
    mass_density::kilogram_per_cubic_meter, velocity::meter_per_second,
};

use super::{CheckError, DataFile};
use crate::boat::{
    Boat, BoatInput, DriveInput, Faults, HullInput, ThrustLine, WaterInput, WeightInput,
};
use crate::hydro::seaway::{Groups, displacement_length_ratio, speed_length_ratio};
use crate::physical::STANDARD_GRAVITY_M_S2;
use crate::units::factor::{
    KG_M3_PER_SLUG_PER_CUBIC_FOOT, KG_PER_POUND, M_PER_FOOT, M_S_PER_KNOT,
    M2_S_PER_SQUARE_FOOT_PER_SECOND,
};

/// The worked example's name in errors.
pub(super) const CASE: &str = "Savitsky & Brown (1976)";

const GIVEN: DataFile = DataFile {
    name: "SavitskyBrown1976Given.csv",
    text: include_str!("../../../data/published/SavitskyBrown1976Given.csv"),
};
const RESULTS: DataFile = DataFile {
    name: "SavitskyBrown1976Results.csv",
    text: include_str!("../../../data/published/SavitskyBrown1976Results.csv"),
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Given {
    pub displacement_lbf: f64,
    waterline_length_ft: f64,
    pub beam_ft: f64,
    pub deadrise_deg: f64,
    lcg_ft: f64,
    density_slug_ft3: f64,
    pub kinematic_viscosity_ft2_s: f64,
    wave_height_ft: f64,
    pub load_coefficient: f64,
}

/// One row of the results.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Printed {
    pub speed_kn: f64,
    pub flap_deg: f64,
    pub speed_coefficient: f64,
    pub lift_coefficient: f64,
    pub flat_plate_lift_coefficient: f64,
    pub trim_deg: f64,
    pub wetted_length_ratio: f64,
    pub resistance_lbf: f64,
    pub centre_acceleration_g: f64,
    pub bow_acceleration_g: f64,
}

/// The boat, what the paper gives for her and what it finds.
pub(super) struct Example {
    pub given: Given,
    pub boat: Boat,
    pub printed: Vec<Printed>,
}

impl Example {
    pub fn published() -> Result<Self, CheckError> {
        let given: Given = GIVEN.row("the boat", |_| true)?;
        let boat = given.boat().map_err(|faults| CheckError::Boat { case: CASE, faults })?;
        Ok(Self { given, boat, printed: RESULTS.rows()? })
    }
}

impl Printed {
    pub fn speed(&self) -> Velocity {
        Velocity::new::<meter_per_second>(self.speed_kn * M_S_PER_KNOT)
    }
}

impl Given {
    fn density(&self) -> MassDensity {
        let density_kg_m3 = self.density_slug_ft3 * KG_M3_PER_SLUG_PER_CUBIC_FOOT;
        MassDensity::new::<kilogram_per_cubic_meter>(density_kg_m3)
    }

    fn length(&self) -> Length {
        Length::new::<meter>(self.waterline_length_ft * M_PER_FOOT)
    }

    fn mass(&self) -> Mass {
        Mass::new::<kilogram>(self.displacement_lbf * KG_PER_POUND)
    }

    /// ½ ρ V² b², lbf, at a speed in knots.
    pub fn area_pressure_lbf(&self, speed_kn: f64) -> f64 {
        let speed_ft_s = speed_kn * M_S_PER_KNOT / M_PER_FOOT;
        0.5 * self.density_slug_ft3 * speed_ft_s * speed_ft_s * self.beam_ft * self.beam_ft
    }

    /// In the waves of the example, with a trim and V/√L as printed.
    pub fn groups(&self, trim_deg: f64, speed_length_ratio: f64) -> Groups {
        let gravity_ft_s2 = STANDARD_GRAVITY_M_S2 / M_PER_FOOT;
        let cube_lbf = self.density_slug_ft3 * gravity_ft_s2 * self.beam_ft.powi(3);
        Groups {
            displacement_length_ratio: displacement_length_ratio(self.mass(), self.length()),
            load_coefficient: self.displacement_lbf / cube_lbf,
            length_beam_ratio: self.waterline_length_ft / self.beam_ft,
            deadrise_deg: self.deadrise_deg,
            trim_deg,
            wave_height_beam_ratio: self.wave_height_ft / self.beam_ft,
            speed_length_ratio,
        }
    }

    pub fn speed_length_ratio(&self, speed: Velocity) -> f64 {
        speed_length_ratio(speed, self.length())
    }

    fn boat(&self) -> Result<Boat, Faults> {
        let feet = |feet: f64| Length::new::<meter>(feet * M_PER_FOOT);
        let hull = HullInput {
            bottom_length: Some(self.length()),
            chine_beam: Some(feet(self.beam_ft)),
            deadrise: Some(Angle::new::<degree>(self.deadrise_deg)),
            ..HullInput::default()
        };
        // The concurrent case does not ask how high the centre of gravity lies.
        let weight = WeightInput::Totals {
            mass: self.mass(),
            lcg: Some(feet(self.lcg_ft)),
            vcg: None,
            tcg: None,
        };
        let drive = DriveInput {
            thrust_angle: Some(Angle::new::<degree>(0.0)),
            thrust_line: Some(ThrustLine::BelowCentreOfGravity(feet(0.0))),
            top_speed: Some(Velocity::new::<meter_per_second>(52.0 * M_S_PER_KNOT)),
            ..DriveInput::default()
        };
        let water = WaterInput::Explicit {
            density: self.density(),
            kinematic_viscosity: KinematicViscosity::new::<square_meter_per_second>(
                self.kinematic_viscosity_ft2_s * M2_S_PER_SQUARE_FOOT_PER_SECOND,
            ),
        };
        let input = BoatInput::new("worked example", hull, weight);
        Boat::build(BoatInput { drive, water: Some(water), ..input })
    }
}
