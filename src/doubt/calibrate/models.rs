//! The boats of the published cases, ready to be balanced with any form of the model.

use serde::Deserialize;
use uom::si::f64::{
    Angle, KinematicViscosity, Length, Mass, MassDensity, ThermodynamicTemperature,
};
use uom::si::{
    angle::degree, kinematic_viscosity::square_meter_per_second, length::meter, mass::kilogram,
    mass_density::kilogram_per_cubic_meter, thermodynamic_temperature::degree_celsius,
};

use super::printed::rows;
use crate::balance::forces::Prism;
use crate::balance::root::{Root, Search};
use crate::balance::{Method, ModelForm, Settings};
use crate::boat::{Hull, Particulars, ThrustLine, Weight};
use crate::hydro::friction::FrictionLine;
use crate::hydro::lift;
use crate::units::factor::{
    KG_M3_PER_SLUG_PER_CUBIC_FOOT, KG_PER_POUND, M_PER_FOOT, M_PER_INCH, M_S_PER_KNOT,
    M2_S_PER_SQUARE_FOOT_PER_SECOND,
};
use crate::water::Water;

/// The worked example's table of three trims.
pub(super) const TABLE_1: &str = include_str!("../../../data/published/Savitsky1964Table1.csv");
const GIVEN: &str = include_str!("../../../data/published/Savitsky1964Given.csv");
const MODEL: &str = include_str!("../../../data/published/Fridsma1969Calm.csv");

/// Bottom length in beams where none is given: the equations do not use it.
const BOTTOM_LENGTH_IN_BEAMS: f64 = 5.0;
/// Assumed: the temperature of an indoor tank, °C.
const TANK_TEMPERATURE_C: f64 = 20.0;

/// A published boat at her speed.
pub(super) struct Model {
    boat: Particulars,
    settings: Settings,
    speed_m_s: f64,
    /// What the resistance is given over: the weight for a model, 1 N else.
    over_n: f64,
}

#[derive(Deserialize)]
struct GivenRow {
    displacement_lbf: f64,
    beam_ft: f64,
    deadrise_deg: f64,
    lcg_ft: f64,
    vcg_ft: f64,
    thrust_angle_deg: f64,
    thrust_offset_ft: f64,
    speed_ft_s: f64,
    density_slug_ft3: f64,
    friction_density_slug_ft3: f64,
    kinematic_viscosity_ft2_s: f64,
    correlation_allowance: f64,
}

#[derive(Deserialize)]
struct ModelRow {
    beam_in: f64,
    length_beam_ratio: f64,
    deadrise_deg: f64,
    load_coefficient: f64,
    vcg_beam_ratio: f64,
    lcg_percent_from_stem: f64,
    speed_length_ratio: f64,
    trim_deg: f64,
    resistance_weight_ratio: f64,
}

fn metres(value_m: f64) -> Length {
    Length::new::<meter>(value_m)
}

fn density(slug_ft3: f64) -> MassDensity {
    MassDensity::new::<kilogram_per_cubic_meter>(slug_ft3 * KG_M3_PER_SLUG_PER_CUBIC_FOOT)
}

/// Schoenherr's line, neither hump factor nor whisker spray.
fn settings(method: Method, correlation_allowance: f64) -> Settings {
    Settings {
        method,
        friction_line: FrictionLine::Schoenherr,
        correlation_allowance: Some(correlation_allowance),
        hump_factor: false,
        ..Settings::default()
    }
}

impl Model {
    /// The worked example of Savitsky (1964).
    pub fn savitsky_1964(method: Method) -> Self {
        let row: GivenRow = rows(GIVEN).remove(0);
        let feet = |feet: f64| metres(feet * M_PER_FOOT);
        let boat = Particulars {
            hull: Hull {
                overall_length: None,
                bottom_length: feet(BOTTOM_LENGTH_IN_BEAMS * row.beam_ft),
                chine_beam: feet(row.beam_ft),
                deadrise: Angle::new::<degree>(row.deadrise_deg),
                chine_to_keel: Angle::default(),
            },
            weight: Weight {
                mass: Mass::new::<kilogram>(row.displacement_lbf * KG_PER_POUND),
                lcg: feet(row.lcg_ft),
                vcg: feet(row.vcg_ft),
                tcg: metres(0.0),
            },
            thrust_angle: Angle::new::<degree>(row.thrust_angle_deg),
            thrust_line: ThrustLine::BelowCentreOfGravity(feet(row.thrust_offset_ft)),
            water: Water {
                density: density(row.density_slug_ft3),
                kinematic_viscosity: KinematicViscosity::new::<square_meter_per_second>(
                    row.kinematic_viscosity_ft2_s * M2_S_PER_SQUARE_FOOT_PER_SECOND,
                ),
            },
            air: None,
            appendages: None,
            hinge_height: Length::default(),
            roughness: None,
            plane_effectiveness: 1.0,
        };
        let settings = Settings {
            friction_density: Some(density(row.friction_density_slug_ft3)),
            ..settings(method, row.correlation_allowance)
        };
        Self { boat, settings, speed_m_s: row.speed_ft_s * M_PER_FOOT, over_n: 1.0 }
    }

    /// Configuration A of Fridsma (1969) towed along the keel through the centre of gravity, with its printed trim and resistance/weight.
    pub fn fridsma_1969() -> (Self, [f64; 2]) {
        let row: ModelRow = rows(MODEL).remove(0);
        let beam_m = row.beam_in * M_PER_INCH;
        let length_m = row.length_beam_ratio * beam_m;
        let temperature = ThermodynamicTemperature::new::<degree_celsius>(TANK_TEMPERATURE_C);
        let water = Water::at(temperature, 0.0);
        let density_kg_m3 = water.density.get::<kilogram_per_cubic_meter>();
        let boat = Particulars {
            hull: Hull {
                overall_length: None,
                bottom_length: metres(length_m),
                chine_beam: metres(beam_m),
                deadrise: Angle::new::<degree>(row.deadrise_deg),
                chine_to_keel: Angle::default(),
            },
            weight: Weight {
                mass: Mass::new::<kilogram>(row.load_coefficient * density_kg_m3 * beam_m.powi(3)),
                lcg: metres((1.0 - row.lcg_percent_from_stem / 100.0) * length_m),
                vcg: metres(row.vcg_beam_ratio * beam_m),
                tcg: metres(0.0),
            },
            thrust_angle: Angle::new::<degree>(0.0),
            thrust_line: ThrustLine::BelowCentreOfGravity(metres(0.0)),
            water,
            air: None,
            appendages: None,
            hinge_height: Length::default(),
            roughness: None,
            plane_effectiveness: 1.0,
        };
        let speed_m_s = row.speed_length_ratio * (length_m / M_PER_FOOT).sqrt() * M_S_PER_KNOT;
        let settings = settings(Method::Full, 0.0);
        let over_n = Prism::of(&boat, &settings).weight_n;
        let model = Self { boat, settings, speed_m_s, over_n };
        (model, [row.trim_deg, row.resistance_weight_ratio])
    }

    fn prism(&self, form: ModelForm) -> Prism {
        Prism::of(&self.boat, &Settings { form, ..self.settings })
    }

    /// Speed coefficient.
    pub fn speed_coefficient(&self) -> f64 {
        self.prism(ModelForm::PUBLISHED).speed_coefficient(self.speed_m_s)
    }

    /// C_L0 that carries the weight; no number when the search for it has not come to rest.
    pub fn flat_plate_lift_coefficient(&self) -> f64 {
        let prism = self.prism(ModelForm::PUBLISHED);
        let lift_coefficient = prism.weight_n / prism.at(self.speed_m_s).area_pressure_n();
        lift::without_deadrise(lift_coefficient, prism.deadrise_deg).unwrap_or(f64::NAN)
    }

    /// Running trim in degrees, and resistance in N or over the weight, with a form of the model.
    pub fn run(&self, form: ModelForm) -> [f64; 2] {
        let prism = self.prism(form);
        let condition = prism.at(self.speed_m_s);
        match Search::new(&condition).root(None) {
            Root::Found { forces, .. } => {
                let resistance_n: f64 = condition.resistance_parts_n(&forces).iter().sum();
                [forces.trim_deg, resistance_n / self.over_n]
            }
            Root::BowDown | Root::BowUp => [f64::NAN; 2],
        }
    }
}
