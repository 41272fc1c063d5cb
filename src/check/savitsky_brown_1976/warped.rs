//! Table 2: dynamic drag of a warped bottom, as far as the program can.

use serde::Deserialize;
use uom::si::angle::degree;
use uom::si::f64::Length;
use uom::si::length::meter;

use super::dynamic_lift::{CHINE_TO_KEEL_DEG, DEADRISE_DEG, by_shuford};
use super::{Case, CheckError, Comparison, DataFile, SOURCE, Tolerance};
use crate::boat::{Faults, Station, Stations};
use crate::hydro::warp;

const TABLE_2: DataFile = DataFile {
    name: "SavitskyBrown1976WarpedDrag.csv",
    text: include_str!("../../../data/published/SavitskyBrown1976WarpedDrag.csv"),
};

/// Half of the last digit printed.
const EFFECTIVE_TRIM: Tolerance = Tolerance::Absolute(0.005);
/// Half of the last digit of the smallest value printed, 0.0069.
const DRAG: Tolerance = Tolerance::Relative(0.007);
/// Half of the step in which it is printed, degrees.
const EFFECTIVE_DEADRISE: Tolerance = Tolerance::Absolute(0.25);
/// Trim of the rows whose drag contradicts table 1, degrees.
const CONTRADICTED_FROM_DEG: f64 = 5.0;

const TRIM: &str = "Trim + 0.5 of the angle between chine and keel, which is taken from stations as those of a boat file are.";
const DEADRISE_NOTE: &str = "Deadrise of the section half way along the wetted length, by the stations. The paper's is 10 deg and 3 deg a beam, the section of a straight chine a little more. For information.";
const DRAG_NOTE: &str = "Lift of the second model at the printed effective trim and deadrise x tan of that trim. The paper's own theory lies -6 to \
    +9 % from it, more with wetted length; by which lift it was computed is not in the extract at hand. For information.";
const CONTRADICTED: &str = "The printed rows at 6 deg cannot belong to 6 deg: pressure on a bottom that slopes 6 deg or more, with the lift of table \
    1, drags at least 0.0127, 0.0153 and 0.0179. They would fit 5 deg. A misprint or a misreading; not judged.";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    trim_deg: f64,
    wetted_length_ratio: f64,
    effective_trim_deg: f64,
    effective_deadrise_deg: f64,
    experiment: f64,
    theory: f64,
}

pub(super) fn comparisons() -> Result<Vec<Comparison>, CheckError> {
    let bottom = bottom()?;
    Ok(TABLE_2.rows::<Row>()?.iter().flat_map(|row| of_row(row, &bottom)).collect())
}

/// The warped bottom, one beam wide and four long, by its stations.
fn bottom() -> Result<Stations, CheckError> {
    let (aft, rise) = (0.5 * DEADRISE_DEG.to_radians().tan(), CHINE_TO_KEEL_DEG.to_radians().tan());
    let station = |beams: f64| {
        let [forward, keel_height, chine_height, chine_half_beam] =
            [beams, 0.0, aft + rise * beams, 0.5].map(Length::new::<meter>);
        Station { forward, keel_height, chine_height, chine_half_beam }
    };
    let rows = [0.0, 1.0, 2.0, 3.0, 4.0].map(station).to_vec();
    Stations::new("warped bottom", "", rows).map_err(|faults| {
        let faults = Faults(faults.into_iter().map(Into::into).collect());
        CheckError::Boat { case: SOURCE, faults }
    })
}

fn of_row(row: &Row, bottom: &Stations) -> [Comparison; 4] {
    let name = format!("Table 2, {} deg, wetted {} beams", row.trim_deg, row.wetted_length_ratio);
    let case = Case::new(SOURCE, name);
    let trim_deg = warp::trim_for_drag_deg(row.trim_deg, bottom.chine_to_keel().get::<degree>());
    let half_way = Length::new::<meter>(0.5 * row.wetted_length_ratio);
    let deadrise_deg = bottom.deadrise_at(half_way).get::<degree>();
    let deadrises = [row.effective_deadrise_deg, deadrise_deg];
    let lift =
        by_shuford(row.effective_trim_deg, row.wetted_length_ratio, row.effective_deadrise_deg);
    let drag = lift * row.effective_trim_deg.to_radians().tan();
    let is_contradicted = row.trim_deg > CONTRADICTED_FROM_DEG;
    let note = if is_contradicted { CONTRADICTED } else { DRAG_NOTE };
    let trims = [row.effective_trim_deg, trim_deg];
    let shown = |each: Comparison| each.with_note(note).for_information();
    [
        case.compare("effective trim for drag", "deg", trims, EFFECTIVE_TRIM).with_note(TRIM),
        case.compare("effective deadrise", "deg", deadrises, EFFECTIVE_DEADRISE)
            .with_note(DEADRISE_NOTE)
            .for_information(),
        shown(case.compare("dynamic drag: theory", "", [row.theory, drag], DRAG)),
        shown(case.compare("dynamic drag: tank", "", [row.experiment, drag], DRAG)),
    ]
}
