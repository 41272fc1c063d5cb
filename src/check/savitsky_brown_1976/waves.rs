//! The worked example in head seas: accelerations and added resistance.

use serde::Deserialize;

use super::boat::{Example, Given, Printed};
use super::{Case, CheckError, Comparison, DataFile, HALF_TENTH_DEG, SOURCE, Tolerance};
use crate::hydro::seaway::{added_resistance_over_weight, bow_over_centre, centre_acceleration_g};

const ADDED: DataFile = DataFile {
    name: "SavitskyBrown1976AddedResistance.csv",
    text: include_str!("../../../data/published/SavitskyBrown1976AddedResistance.csv"),
};

/// Half of the last digit printed.
const HALF_HUNDREDTH: f64 = 0.005;
/// Half of the last digit of a resistance printed to 100 lbf.
const HALF_DIGIT_LBF: f64 = 50.0;
/// Half of the last digit of V/√L where none of the three equations stands for itself.
const HALF_DIGIT_OF_RATIO: f64 = 0.05;

const PRINTED_TRIM: &str = "At the printed trim. Tolerance: half of the last digit, and what half of the last digit of the trim makes.";
const EQUATIONS: &str = "At the printed trim of 3.6 deg; the paper's list says 3.9, from which its results do not follow. Tolerance: half of the \
    last digit, what half of the last digit of the trim makes, and of V/sqrt L where the paper interpolates.";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Added {
    speed_length_ratio: f64,
    trim_deg: f64,
    added_resistance_lbf: f64,
}

pub(super) fn comparisons(example: &Example) -> Result<Vec<Comparison>, CheckError> {
    let given = &example.given;
    let mut all = vec![load(given)];
    all.extend(example.printed.iter().flat_map(|row| accelerations(given, row)));
    let rows: Vec<Added> = ADDED.rows()?;
    all.extend(rows.iter().map(|row| added_resistance(given, row)));
    Ok(all)
}

fn load(given: &Given) -> Comparison {
    let computed = given.groups(1.0, 1.0).load_coefficient;
    let values = [given.load_coefficient, computed];
    Case::new(SOURCE, "in waves").compare(
        "load coefficient",
        "",
        values,
        Tolerance::Absolute(HALF_HUNDREDTH),
    )
}

fn accelerations(given: &Given, row: &Printed) -> [Comparison; 2] {
    let groups = given.groups(row.trim_deg, given.speed_length_ratio(row.speed()));
    let centre_g = centre_acceleration_g(&groups);
    let bow_g = centre_g * bow_over_centre(&groups);
    let name = match row.flap_deg {
        0.0 => format!("{} kn, bare, in waves", row.speed_kn),
        flap_deg => format!("{} kn, flap {flap_deg} deg, in waves", row.speed_kn),
    };
    let case = Case::new(SOURCE, name);
    // Acceleration goes as trim.
    let tolerance = |printed_g: f64| {
        Tolerance::Absolute(HALF_HUNDREDTH + printed_g * HALF_TENTH_DEG / row.trim_deg)
    };
    let [centre, bow] = [row.centre_acceleration_g, row.bow_acceleration_g];
    [
        case.compare("mean peak, centre", "g", [centre, centre_g], tolerance(centre)),
        case.compare("mean peak, bow", "g", [bow, bow_g], tolerance(bow)),
    ]
    .map(|each| each.with_note(PRINTED_TRIM))
}

fn added_resistance(given: &Given, row: &Added) -> Comparison {
    let at = |trim_deg: f64, ratio: f64| {
        let share = added_resistance_over_weight(&given.groups(trim_deg, ratio));
        share.map_or(f64::NAN, |share| share * given.displacement_lbf)
    };
    let (trim_deg, ratio) = (row.trim_deg, row.speed_length_ratio);
    let by_trim =
        0.5 * (at(trim_deg + HALF_TENTH_DEG, ratio) - at(trim_deg - HALF_TENTH_DEG, ratio));
    let stands_for_itself = ratio % 2.0 == 0.0;
    let by_ratio = if stands_for_itself {
        0.0
    } else {
        0.5 * (at(trim_deg, ratio + HALF_DIGIT_OF_RATIO)
            - at(trim_deg, ratio - HALF_DIGIT_OF_RATIO))
    };
    let tolerance = Tolerance::Absolute(HALF_DIGIT_LBF + by_trim.abs() + by_ratio.abs());
    let values = [row.added_resistance_lbf, at(trim_deg, ratio)];
    Case::new(SOURCE, format!("V/sqrt L {ratio}, in waves"))
        .compare("added resistance", "lbf", values, tolerance)
        .with_note(EQUATIONS)
}
