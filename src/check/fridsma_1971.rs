//! Models in irregular head seas (Fridsma 1971): the tests that the equations were fitted to.

mod runs;

use serde::Deserialize;
use uom::si::f64::{Length, Mass};
use uom::si::{length::meter, mass::kilogram};

use super::data::DataFile;
use super::{Case, CheckError, Comparison, Tolerance};
use crate::hydro::seaway::{
    Groups, bow_over_centre, centre_acceleration_g, displacement_length_ratio,
};
use crate::units::factor::M_PER_INCH;

const SOURCE: &str = "Fridsma (1971), Davidson Laboratory report 1495, irregular head seas";

const DATA: DataFile = DataFile {
    name: "Fridsma1971Waves.csv",
    text: include_str!("../../data/published/Fridsma1971Waves.csv"),
};

/// Beam of all models, inches, and the density of the tank's fresh water, kg/m³. They only set the
/// displacement-length ratio, which no equation asks for.
const BEAM_IN: f64 = 9.0;
const DENSITY_KG_M3: f64 = 999.0;

/// What the fit reaches at the centre of gravity for this model at this speed; over all runs it reaches less. An allowance without a source.
const CENTRE: Tolerance = Tolerance::Relative(0.10);
/// What the fit reaches at the bow, where it runs high in large waves. An allowance without a source.
const BOW: Tolerance = Tolerance::Relative(0.25);

const BOW_NOTE: &str = "The fit's bow factor does not know the wave height; by these rows it is low in small waves and \
    up to a fifth high in large ones.";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    speed_length_ratio: f64,
    length_beam_ratio: f64,
    deadrise_deg: f64,
    load_coefficient: f64,
    trim_deg: f64,
    wave_height_beam_ratio: f64,
    centre_acceleration_g: f64,
    bow_acceleration_g: f64,
}

pub(super) fn comparisons() -> Result<Vec<Comparison>, CheckError> {
    let mut all: Vec<_> = DATA.rows::<Row>()?.iter().flat_map(beside).collect();
    all.extend(runs::comparisons()?);
    Ok(all)
}

/// Displacement-length ratio of a model.
fn model_displacement_length_ratio(load_coefficient: f64, length_beam_ratio: f64) -> f64 {
    let beam_m = BEAM_IN * M_PER_INCH;
    let mass_kg = load_coefficient * DENSITY_KG_M3 * beam_m.powi(3);
    let length = Length::new::<meter>(length_beam_ratio * beam_m);
    displacement_length_ratio(Mass::new::<kilogram>(mass_kg), length)
}

fn beside(row: &Row) -> [Comparison; 2] {
    let groups = Groups {
        displacement_length_ratio: model_displacement_length_ratio(
            row.load_coefficient,
            row.length_beam_ratio,
        ),
        load_coefficient: row.load_coefficient,
        length_beam_ratio: row.length_beam_ratio,
        deadrise_deg: row.deadrise_deg,
        trim_deg: row.trim_deg,
        wave_height_beam_ratio: row.wave_height_beam_ratio,
        speed_length_ratio: row.speed_length_ratio,
    };
    let case = Case::new(SOURCE, format!("waves {:.3} beams", row.wave_height_beam_ratio));
    let centre_g = centre_acceleration_g(&groups);
    let bow_g = centre_g * bow_over_centre(&groups);
    [
        case.compare("mean peak, centre", "g", [row.centre_acceleration_g, centre_g], CENTRE),
        case.compare("mean peak, bow", "g", [row.bow_acceleration_g, bow_g], BOW)
            .with_note(BOW_NOTE),
    ]
}
