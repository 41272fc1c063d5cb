//! A flat plate in a towing tank (NACA TN 2981): the lift equation without deadrise.

use serde::Deserialize;

use super::data::DataFile;
use super::{Case, CheckError, Comparison, Tolerance};
use crate::hydro::lift;

const SOURCE: &str = "Weinstein & Kapryan (1953), NACA TN 2981, Table I: flat plate";

const DATA: DataFile = DataFile {
    name: "WeinsteinKapryan1953FlatPlate.csv",
    text: include_str!("../../data/published/WeinsteinKapryan1953FlatPlate.csv"),
};

/// Allowance for a single run against an equation fitted through several tanks; common practice, no source.
///
/// Three rows need nearly all of it, by one common factor; the table of sources says more.
const SINGLE_POINT: Tolerance = Tolerance::Relative(0.13);
/// Wetted length, in beams, at which three runs agree with each other to 2.5 %.
const REPEATED_LENGTH_RATIO: f64 = 3.0;
/// Those three runs.
const REPEATED: Tolerance = Tolerance::Relative(0.03);
/// Wetted lengths, in beams, between which the report is accurate and the equation tested.
const TESTED_LENGTH_RATIO: (f64, f64) = (0.5, 4.0);
/// Speed coefficient to which the lift equation was tested.
const LARGEST_TESTED_SPEED_COEFFICIENT: f64 = 13.0;

const BEYOND_SPEED: &str =
    "Beyond Cv 13, to which the lift equation was tested: it extrapolates here.";
const BEYOND_LENGTH: &str =
    "Outside a wetted length of 0.5 to 4 beams, to which the lift equation was tested: not judged.";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    trim_deg: f64,
    speed_coefficient: f64,
    wetted_length_ratio: f64,
    lift_coefficient: f64,
}

pub(super) fn comparisons() -> Result<Vec<Comparison>, CheckError> {
    Ok(DATA.rows()?.iter().map(comparison).collect())
}

fn comparison(row: &Row) -> Comparison {
    let computed = lift::flat_plate(row.trim_deg, row.wetted_length_ratio, row.speed_coefficient);
    let name = format!(
        "{} deg, Cv {:.2}, wetted {:.2} beams",
        row.trim_deg, row.speed_coefficient, row.wetted_length_ratio
    );
    let repeated = (row.wetted_length_ratio - REPEATED_LENGTH_RATIO).abs() < 1e-9;
    let comparison = Case::new(SOURCE, name).compare(
        "lift coefficient",
        "",
        [row.lift_coefficient, computed],
        if repeated { REPEATED } else { SINGLE_POINT },
    );
    let (least, most) = TESTED_LENGTH_RATIO;
    if row.wetted_length_ratio <= least || row.wetted_length_ratio > most {
        comparison.with_note(BEYOND_LENGTH).for_information()
    } else if row.speed_coefficient > LARGEST_TESTED_SPEED_COEFFICIENT {
        comparison.with_note(BEYOND_SPEED)
    } else {
        comparison
    }
}

#[cfg(test)]
mod tests {
    use super::{BEYOND_LENGTH, BEYOND_SPEED, Row, comparison};

    #[test]
    fn regression_rows_outside_the_tested_range_say_so() {
        let row = |speed_coefficient, wetted_length_ratio| Row {
            trim_deg: 2.0,
            speed_coefficient,
            wetted_length_ratio,
            lift_coefficient: 0.05,
        };
        for (speed, length, judged, note) in [
            (13.0, 2.0, true, None),
            (13.1, 2.0, true, Some(BEYOND_SPEED)),
            (5.0, 4.0, true, None),
            (5.0, 4.1, false, Some(BEYOND_LENGTH)),
            (5.0, 0.5, false, Some(BEYOND_LENGTH)),
            (5.0, 0.51, true, None),
        ] {
            let comparison = comparison(&row(speed, length));
            assert_eq!((comparison.judged, comparison.note), (judged, note), "{speed} {length}");
        }
    }
}
