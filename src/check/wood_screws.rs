//! Wood screws against withdrawal: worked examples of the US National Design Specification for wood.

use serde::Deserialize;
use uom::si::f64::Length;
use uom::si::{force::pound_force, length::inch};

use super::data::DataFile;
use super::{Case, CheckError, Comparison, Tolerance};
use crate::plane::strength::fastening::{
    DEFAULT_WITHDRAWAL_FACTOR, Screw, ScrewHolding, TransomMaterial, screw_holding,
};

const SOURCE: &str = "US National Design Specification for wood: screws, withdrawal";

const DATA: DataFile = DataFile {
    name: "NdsWoodScrews.csv",
    text: include_str!("../../data/published/NdsWoodScrews.csv"),
};

/// What 15 700 over 5.5 lies above 2850, as a share.
const ROUNDED_FACTOR: f64 = 0.0016;

const LAW: &str = "Dry and per inch of thread: 15 700 G^2 D ultimate over the usual factor of 5.5, where the specification allows 2850 G^2 D. \
    Tolerance: one unit of the last digit, since 109.65 is printed as 109, and what the two laws differ by. For wood that is wet in service 0.7 of it is used.";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    specific_gravity: f64,
    diameter_in: f64,
    withdrawal_lbf_per_in: f64,
}

pub(super) fn comparisons() -> Result<Vec<Comparison>, CheckError> {
    DATA.rows::<Row>()?.iter().map(of_row).collect()
}

fn of_row(row: &Row) -> Result<Comparison, CheckError> {
    let inches = Length::new::<inch>;
    let screw = Screw { diameter: inches(row.diameter_in), thread_in_wood: inches(1.0) };
    let wood = TransomMaterial::WoodOrPlywood { specific_gravity: row.specific_gravity };
    let holding = screw_holding(&screw, wood, DEFAULT_WITHDRAWAL_FACTOR, 1.0)
        .map_err(|cause| CheckError::Strength { case: SOURCE, cause })?;
    let computed_lbf = match holding {
        ScrewHolding::Covered { safe, .. } => safe.get::<pound_force>(),
        ScrewHolding::NotCovered { .. } => f64::NAN,
    };
    let printed_lbf = row.withdrawal_lbf_per_in;
    let last_digit = if printed_lbf.fract() == 0.0 { 1.0 } else { 0.1 };
    let tolerance = Tolerance::Absolute(last_digit + ROUNDED_FACTOR * printed_lbf);
    let name = format!("G {}, D {} in", row.specific_gravity, row.diameter_in);
    let values = [printed_lbf, computed_lbf];
    Ok(Case::new(SOURCE, name)
        .compare("allowable withdrawal", "lbf/in", values, tolerance)
        .with_note(LAW))
}
