//! Plates under uniform load (Roark): bending of a plane's plate along its chord.

use serde::Deserialize;
use uom::si::f64::{Length, Pressure};
use uom::si::{length::meter, pressure::pascal};

use super::data::DataFile;
use super::{Case, CheckError, Comparison, Tolerance};
use crate::plane::strength::{PlateMaterial, PlateStrip, StrengthError, StripLoad, Support};

const SOURCE: &str = "Roark, Formulas for Stress and Strain: plate on four simple supports";

const DATA: DataFile = DataFile {
    name: "RoarkPlates.csv",
    text: include_str!("../../data/published/RoarkPlates.csv"),
};

/// Half of the last digit of 0.75.
const STRESS: Tolerance = Tolerance::Absolute(0.005);

/// Chord, thickness and load of the plate that is computed; the coefficient does not depend on them.
const CHORD_M: f64 = 0.25;
const THICKNESS_M: f64 = 0.005;
const PRESSURE_PA: f64 = 20_000.0;
/// Span that stands for one without end, in chords.
const LONG_SPAN: f64 = 100.0;

const STRIP: &str =
    "A plate as long as can be between hinge and an actuator's pin line at its trailing edge.";
const FOUR_SIDES: &str = "A plane is held along hinge and pin only, and the program credits its ends with nothing: the closer the plate is to \
    square, the more it reads high of one that is held there too. For information.";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    sides_ratio: f64,
    stress_coefficient: f64,
}

pub(super) fn comparisons() -> Result<Vec<Comparison>, CheckError> {
    DATA.rows::<Row>()?.iter().map(of_row).collect()
}

fn of_row(row: &Row) -> Result<Comparison, CheckError> {
    let computed = stress_coefficient(row.sides_ratio.min(LONG_SPAN))
        .map_err(|cause| CheckError::Strength { case: SOURCE, cause })?;
    let is_strip = row.sides_ratio.is_infinite();
    let name = match is_strip {
        true => "long side without end".to_owned(),
        false => format!("long side {} x the short one", row.sides_ratio),
    };
    let values = [row.stress_coefficient, computed];
    let comparison = Case::new(SOURCE, name).compare("stress x t^2/(q b^2)", "", values, STRESS);
    Ok(match is_strip {
        true => comparison.with_note(STRIP),
        false => comparison.with_note(FOUR_SIDES).for_information(),
    })
}

/// Largest stress along the chord × t²/(q b²), b the chord, for a span in chords.
fn stress_coefficient(span_in_chords: f64) -> Result<f64, StrengthError> {
    let metre = Length::new::<meter>;
    let plate = PlateStrip {
        chord: metre(CHORD_M),
        span: metre(span_in_chords * CHORD_M),
        pin_distance: metre(CHORD_M),
        thickness: metre(THICKNESS_M),
    };
    let load = StripLoad::new(&plate, Pressure::new::<pascal>(PRESSURE_PA))?;
    let material = PlateMaterial::stainless_316();
    let check = load.check(&material, Support::WholeSpan, material.default_factor())?;
    let stress_pa = check.chordwise_stress.get::<pascal>();
    Ok(stress_pa * THICKNESS_M.powi(2) / (PRESSURE_PA * CHORD_M.powi(2)))
}
