//! The correction of [`crate::hydro::tank_fit`]: what it was fitted to, and what it leaves.
//!
//! At the trim that a tank measured, the pitch moment of a model is zero with one
//! factor on the distance of the centre of pressure and no other. That factor is
//! wanted of the correction; what it misses counts as trim, by the model's own
//! stiffness. Each source counts by itself, whatever the number of its runs;
//! Series 62, whose hulls are narrower aft and have bows in the water, counts
//! three tenths of a prism, and from F∇ 2 on.

use nalgebra::{DMatrix, DVector};
use serde::Deserialize;
use uom::si::f64::{Angle, KinematicViscosity, Length, Mass, MassDensity};
use uom::si::{
    angle::degree, kinematic_viscosity::square_meter_per_second, length::meter, mass::kilogram,
    mass_density::kilogram_per_cubic_meter,
};

use super::printed::rows;
use crate::balance::forces::{FINEST_TOLERANCE, Forces, Prism};
use crate::balance::root::{Root, Search};
use crate::balance::{Method, ModelForm, Settings};
use crate::boat::{Hull, Particulars, ThrustLine, Weight};
use crate::hydro::series_62::{Form, LARGEST_OVER_MEAN_BEAM, Quantity, at};
use crate::hydro::{hump, tank_fit};
use crate::physical::STANDARD_GRAVITY_M_S2;
use crate::units::factor::{
    KG_M3_PER_SLUG_PER_CUBIC_FOOT, KG_PER_POUND, M_PER_FOOT, M_PER_INCH, M_S_PER_KNOT,
};
use crate::water::Water;

const SMOOTH_1969: &str = include_str!("../../../data/published/Fridsma1969Smooth.csv");
const SMOOTH_1971: &str = include_str!("../../../data/published/Fridsma1971Smooth.csv");

/// Beam of the prisms, inches.
const BEAM_IN: f64 = 9.0;
/// Height of the centre of gravity above the keel, beams.
const VCG_BEAMS: f64 = 0.294;
/// Density of the tank's water, slug/ft³, as printed.
const TANK_DENSITY_SLUG_FT3: f64 = 1.94;
/// Kinematic viscosity of fresh water at about 18 °C, m²/s; the reports print no temperature. Assumed.
const TANK_VISCOSITY_M2_S: f64 = 1.05e-6;
/// Sea water of the regression, kg/m³ and m²/s.
const SERIES_WATER: [f64; 2] = [1025.9, 1.19e-6];
/// Displacement of the regression, lb.
const SERIES_LB: f64 = 100_000.0;
/// Loading, LCG in %, length over mean beam and deadrise of the hulls that the regression is asked about.
const SERIES_FORMS: [[f64; 3]; 4] =
    [[5.5, 7.0, 8.5], [34.0, 38.0, 42.0], [3.0, 4.0, 5.5], [14.0, 20.0, 26.0]];
/// F∇ at which it is.
const SERIES_SPEEDS: [f64; 3] = [2.0, 2.5, 3.5];
/// Weight of the series against that of a tank of prisms.
const SERIES_WEIGHT: f64 = 0.3;
/// Least trim of the series that is used, degrees: below the equations end.
const LEAST_TRIM_DEG: f64 = 1.5;
/// Factors on the centre of pressure that are believed.
const BELIEVED: std::ops::RangeInclusive<f64> = 0.7..=1.4;
/// Step of the trim in the stiffness, degrees.
const STEP_DEG: f64 = 0.01;

/// A tank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tank {
    /// Fridsma (1969), report 1275.
    Fridsma1969,
    /// Fridsma (1971), report 1495.
    Fridsma1971,
    /// Series 62, by the regression of Radojčić (1991).
    Series62,
}

impl Tank {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Fridsma1969, Self::Fridsma1971, Self::Series62];

    /// Author, year and what it is.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Fridsma1969 => "Fridsma 1969, prisms in smooth water",
            Self::Fridsma1971 => "Fridsma 1971, prisms in smooth water",
            Self::Series62 => "Series 62 by Radojčić 1991, hulls with bows",
        }
    }

    const fn weight(self) -> f64 {
        match self {
            Self::Fridsma1969 | Self::Fridsma1971 => 1.0,
            Self::Series62 => SERIES_WEIGHT,
        }
    }
}

/// One model at one speed.
#[derive(Clone, Debug)]
pub struct TankRun {
    /// Where.
    pub tank: Tank,
    /// V/√L in kn/ft^½ for the prisms, F∇ for the series.
    pub speed: f64,
    /// Deadrise, degrees.
    pub deadrise_deg: f64,
    /// Cv.
    pub speed_coefficient: f64,
    /// Trim measured, degrees.
    pub trim_deg: f64,
    /// Resistance over weight measured.
    pub resistance_ratio: f64,
    /// Factor on the centre of pressure with which the printed equations give that trim.
    pub wanted: f64,
    /// Degrees of trim for a unit of that factor.
    pub trim_by_factor: f64,
    boat: Particulars,
    speed_m_s: f64,
}

/// What a best estimate leaves of a number of runs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Left {
    /// Runs.
    pub runs: usize,
    /// Root mean square.
    pub rms: f64,
    /// Mean of computed less measured.
    pub bias: f64,
}

impl Left {
    fn of(errors: &[f64]) -> Self {
        #[allow(clippy::cast_precision_loss)]
        let count = errors.len().max(1) as f64;
        Self {
            runs: errors.len(),
            rms: (errors.iter().map(|error| error * error).sum::<f64>() / count).sqrt(),
            bias: errors.iter().sum::<f64>() / count,
        }
    }
}

#[derive(Deserialize)]
struct SmoothRow {
    length_over_beam: f64,
    deadrise_deg: f64,
    c_delta: f64,
    lcg_percent: f64,
    trim_deg: f64,
    speed_length: f64,
    r_over_delta: f64,
}

/// Every run that the correction is held against.
#[must_use]
pub fn tank_runs() -> Vec<TankRun> {
    let prisms = |tank, text| {
        let all: Vec<SmoothRow> = rows(text);
        all.into_iter().filter_map(move |row| prism_run(tank, &row))
    };
    let mut all: Vec<TankRun> = prisms(Tank::Fridsma1969, SMOOTH_1969).collect();
    all.extend(prisms(Tank::Fridsma1971, SMOOTH_1971));
    let [loadings, centres, lengths, deadrises] = SERIES_FORMS;
    for area_over_volume in loadings {
        for lcg_percent in centres {
            for length_over_beam in lengths {
                for deadrise_deg in deadrises {
                    let form =
                        Form { area_over_volume, lcg_percent, length_over_beam, deadrise_deg };
                    all.extend(
                        SERIES_SPEEDS.iter().filter_map(|&froude| series_run(&form, froude)),
                    );
                }
            }
        }
    }
    all
}

/// A prism towed level through its centre of gravity.
fn prism_run(tank: Tank, row: &SmoothRow) -> Option<TankRun> {
    let beam_m = BEAM_IN * M_PER_INCH;
    let length_m = row.length_over_beam * beam_m;
    let density_kg_m3 = TANK_DENSITY_SLUG_FT3 * KG_M3_PER_SLUG_PER_CUBIC_FOOT;
    let boat = model(&Shape {
        beam_m,
        length_m,
        deadrise_deg: row.deadrise_deg,
        mass_kg: row.c_delta * density_kg_m3 * beam_m.powi(3),
        lcg_m: (1.0 - row.lcg_percent / 100.0) * length_m,
        water: [density_kg_m3, TANK_VISCOSITY_M2_S],
    });
    let speed_m_s = row.speed_length * (length_m / M_PER_FOOT).sqrt() * M_S_PER_KNOT;
    run_of(tank, row.speed_length, boat, speed_m_s, [row.trim_deg, row.r_over_delta])
}

/// A hull of the series, its largest chine beam for the beam.
fn series_run(form: &Form, froude: f64) -> Option<TankRun> {
    let [density_kg_m3, _] = SERIES_WATER;
    let volume_m3 = SERIES_LB * KG_PER_POUND / density_kg_m3;
    let area_m2 = form.area_over_volume * volume_m3.powf(2.0 / 3.0);
    let length_m = (area_m2 * form.length_over_beam).sqrt();
    let boat = model(&Shape {
        beam_m: LARGEST_OVER_MEAN_BEAM * area_m2 / length_m,
        length_m,
        deadrise_deg: form.deadrise_deg,
        mass_kg: volume_m3 * density_kg_m3,
        lcg_m: form.lcg_percent / 100.0 * length_m,
        water: SERIES_WATER,
    });
    let speed_m_s = froude * (STANDARD_GRAVITY_M_S2 * volume_m3.cbrt()).sqrt();
    let trim_deg = at(Quantity::TrimDeg, form, froude)?;
    let resistance = at(Quantity::ResistanceOverWeight, form, froude)?;
    if trim_deg < LEAST_TRIM_DEG {
        return None;
    }
    run_of(Tank::Series62, froude, boat, speed_m_s, [trim_deg, resistance])
}

struct Shape {
    beam_m: f64,
    length_m: f64,
    deadrise_deg: f64,
    mass_kg: f64,
    lcg_m: f64,
    water: [f64; 2],
}

fn model(shape: &Shape) -> Particulars {
    let metres = Length::new::<meter>;
    let [density_kg_m3, viscosity_m2_s] = shape.water;
    Particulars {
        hull: Hull {
            overall_length: None,
            bottom_length: metres(shape.length_m),
            chine_beam: metres(shape.beam_m),
            deadrise: Angle::new::<degree>(shape.deadrise_deg),
            chine_to_keel: Angle::default(),
        },
        weight: Weight {
            mass: Mass::new::<kilogram>(shape.mass_kg),
            lcg: metres(shape.lcg_m),
            vcg: metres(VCG_BEAMS * shape.beam_m),
            tcg: metres(0.0),
        },
        thrust_angle: Angle::default(),
        thrust_line: ThrustLine::BelowCentreOfGravity(metres(0.0)),
        water: Water {
            density: MassDensity::new::<kilogram_per_cubic_meter>(density_kg_m3),
            kinematic_viscosity: KinematicViscosity::new::<square_meter_per_second>(viscosity_m2_s),
        },
        air: None,
        appendages: None,
        hinge_height: Length::default(),
        roughness: None,
        plane_effectiveness: 1.0,
    }
}

/// As a model is balanced: no allowance for roughness, and the default line.
fn settings(method: Method) -> Settings {
    Settings { method, correlation_allowance: Some(0.0), ..Settings::default() }
}

/// A model ready to be balanced, with the tow line level at a trim.
fn level(boat: &Particulars, settings: &Settings, trim_deg: f64) -> Prism {
    let towed = Particulars { thrust_angle: Angle::new::<degree>(-trim_deg), ..*boat };
    Prism::of(&towed, settings)
}

fn run_of(
    tank: Tank,
    speed: f64,
    boat: Particulars,
    speed_m_s: f64,
    [trim_deg, resistance_ratio]: [f64; 2],
) -> Option<TankRun> {
    let forces = |trim_deg: f64, factor: f64| -> Forces {
        let form = ModelForm { centre_of_pressure: factor, ..ModelForm::PUBLISHED };
        let prism = level(&boat, &Settings { form, ..settings(Method::Full) }, trim_deg);
        prism.at(speed_m_s).forces(trim_deg, None, FINEST_TOLERANCE)
    };
    let published = forces(trim_deg, 1.0);
    let wanted = 1.0 + published.moment_n_m / (published.normal_n * published.centre_of_pressure_m);
    let [below, above] = [-STEP_DEG, STEP_DEG].map(|step| forces(trim_deg + step, wanted));
    let stiffness = (above.moment_n_m - below.moment_n_m) / (2.0 * STEP_DEG);
    let prism = Prism::of(&boat, &settings(Method::Full));
    let speed_coefficient = prism.speed_coefficient(speed_m_s);
    (BELIEVED.contains(&wanted) && speed_coefficient >= 1.0).then(|| TankRun {
        tank,
        speed,
        deadrise_deg: prism.deadrise_deg,
        speed_coefficient,
        trim_deg,
        resistance_ratio,
        wanted,
        trim_by_factor: published.normal_n * published.centre_of_pressure_m / stiffness,
        boat,
        speed_m_s,
    })
}

impl TankRun {
    /// Trim that the correction with some coefficients misses by, computed less measured, degrees.
    #[must_use]
    pub fn trim_error_deg(&self, coefficients: &[f64; 4]) -> f64 {
        let terms = tank_fit::terms(self.deadrise_deg, self.speed_coefficient);
        let factor: f64 = terms.iter().zip(coefficients).map(|(term, own)| term * own).sum();
        (1.0 + factor - self.wanted) * self.trim_by_factor
    }

    /// Computed over measured resistance less one, and computed less measured trim in degrees, as the program answers by default; none where the model has no balance.
    #[must_use]
    pub fn by_default(&self) -> Option<[f64; 2]> {
        let settings = settings(Method::BestEstimate);
        let mut trim_deg = self.trim_deg;
        let mut resistance_n = f64::NAN;
        // Each round leaves about a hundredth of the error of the tow line's angle.
        for _ in 0..8 {
            let prism = level(&self.boat, &settings, trim_deg);
            let condition = prism.at(self.speed_m_s);
            let Root::Found { forces, .. } = Search::new(&condition).root(Some(trim_deg)) else {
                return None;
            };
            trim_deg = forces.trim_deg;
            resistance_n = condition.resistance_parts_n(&forces).iter().sum();
        }
        let weight_n = self.boat.weight.force().value;
        let resistance = resistance_n / weight_n / self.resistance_ratio - 1.0;
        Some([resistance, trim_deg - self.trim_deg])
    }

    /// F∇.
    #[must_use]
    pub fn volume_froude_number(&self) -> f64 {
        let volume = self.boat.displaced_volume().get::<uom::si::volume::cubic_meter>();
        hump::volume_froude_number(self.speed_m_s, volume)
    }

    /// Whether it stands below planing proper: V/√L 2 for a prism.
    #[must_use]
    pub fn is_slow(&self) -> bool {
        self.tank != Tank::Series62 && self.speed < 3.0
    }
}

/// The coefficients by least squares of the trim, all tanks but one where one is left out; none when the runs do not settle them.
#[must_use]
pub fn fitted(runs: &[TankRun], left_out: Option<Tank>) -> Option<[f64; 4]> {
    let used: Vec<&TankRun> = runs.iter().filter(|run| Some(run.tank) != left_out).collect();
    #[allow(clippy::cast_precision_loss)]
    let weight = |run: &TankRun| {
        let count = used.iter().filter(|other| other.tank == run.tank).count();
        run.trim_by_factor.abs() * (run.tank.weight() / count as f64).sqrt()
    };
    let terms: Vec<[f64; 4]> = used
        .iter()
        .map(|run| {
            let own = weight(run);
            tank_fit::terms(run.deadrise_deg, run.speed_coefficient).map(|term| own * term)
        })
        .collect();
    let matrix = DMatrix::from_fn(used.len(), 4, |row, column| terms[row][column]);
    let wanted =
        DVector::from_iterator(used.len(), used.iter().map(|run| weight(run) * (run.wanted - 1.0)));
    let solution = matrix.svd(true, true).solve(&wanted, 1e-12).ok()?;
    Some([0, 1, 2, 3].map(|index| solution[index]))
}

/// What each tank's runs are missed by when it is left out of the fit, and when nothing is: slow and fast prisms, and the series.
#[must_use]
pub fn left_by(runs: &[TankRun], left_out: Option<Tank>, which: impl Fn(&TankRun) -> bool) -> Left {
    let Some(coefficients) = fitted(runs, left_out) else { return Left::of(&[]) };
    let errors: Vec<f64> =
        runs.iter().filter(|run| which(run)).map(|run| run.trim_error_deg(&coefficients)).collect();
    Left::of(&errors)
}

/// Trim in degrees and resistance as a share, of runs as the program answers by default.
#[must_use]
pub fn left_by_default(runs: &[TankRun], which: impl Fn(&TankRun) -> bool) -> [Left; 2] {
    let errors: Vec<[f64; 2]> =
        runs.iter().filter(|run| which(run)).filter_map(TankRun::by_default).collect();
    [1, 0].map(|index| Left::of(&errors.iter().map(|error| error[index]).collect::<Vec<_>>()))
}

#[cfg(test)]
#[path = "tanks_tests.rs"]
mod tests;
