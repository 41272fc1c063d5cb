//! A flat plate in a towing tank (NACA TN 2981): both lift models without deadrise.

use serde::Deserialize;

use super::data::DataFile;
use super::{Case, CheckError, Comparison, Tolerance};
use crate::hydro::lift_model::LiftModel;

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

/// What the equations of Shuford were said to reach on these rows when they were recalled.
const SHUFORD: Tolerance = Tolerance::Relative(0.05);
/// Wetted length, in beams, above which they were said to.
const SHUFORD_LEAST_LENGTH_RATIO: f64 = 1.0;
/// Wetted length, in beams, of the row that contradicts those at 3 beams.
const CONTRADICTED_LENGTH_RATIO: f64 = 2.54;

const FROM_MEMORY: &str =
    "The second lift model, run --model shuford-1958; its equations are from memory.";
const SHORT_PLATE: &str =
    "Shuford's equations, from memory, read high on plates shorter than a beam: not judged.";
const CONTRADICTED: &str = "At the same trim and nearly the same speed this row has more lift from 2.54 beams than three runs have from 3.00, \
    which no lift that rises with the wetted length can give; one of them is misread. Not judged.";
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
    let rows: Vec<Row> = DATA.rows()?;
    Ok(rows.iter().map(by_savitsky).chain(rows.iter().map(by_shuford)).collect())
}

impl Row {
    fn case(&self) -> Case {
        let name = format!(
            "{} deg, Cv {:.2}, wetted {:.2} beams",
            self.trim_deg, self.speed_coefficient, self.wetted_length_ratio
        );
        Case::new(SOURCE, name)
    }

    /// The printed lift coefficient and that of a model.
    fn lift(&self, model: LiftModel) -> [f64; 2] {
        let (length, speed) = (self.wetted_length_ratio, self.speed_coefficient);
        [self.lift_coefficient, model.lift_coefficient(self.trim_deg, length, speed, 0.0)]
    }
}

fn by_savitsky(row: &Row) -> Comparison {
    let repeated = (row.wetted_length_ratio - REPEATED_LENGTH_RATIO).abs() < 1e-9;
    let comparison = row.case().compare(
        "lift coefficient",
        "",
        row.lift(LiftModel::Savitsky1964),
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

/// Judged for plates of more than a beam, where it is said to hold.
fn by_shuford(row: &Row) -> Comparison {
    let lift = row.lift(LiftModel::Shuford1958);
    let comparison = row.case().compare("lift coefficient, Shuford", "", lift, SHUFORD);
    if row.wetted_length_ratio <= SHUFORD_LEAST_LENGTH_RATIO {
        comparison.with_note(SHORT_PLATE).for_information()
    } else if (row.wetted_length_ratio - CONTRADICTED_LENGTH_RATIO).abs() < 1e-9 {
        comparison.with_note(CONTRADICTED).for_information()
    } else {
        comparison.with_note(FROM_MEMORY)
    }
}

#[cfg(test)]
mod tests {
    use super::{
        BEYOND_LENGTH, BEYOND_SPEED, CONTRADICTED, Row, SHORT_PLATE, by_savitsky, by_shuford,
    };

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
            let comparison = by_savitsky(&row(speed, length));
            let said = (comparison.judged, comparison.note.as_deref());
            assert_eq!(said, (judged, note), "{speed} {length}");
        }
        for (length, note) in [(1.0, Some(SHORT_PLATE)), (2.54, Some(CONTRADICTED))] {
            let comparison = by_shuford(&row(13.0, length));
            let said = (comparison.judged, comparison.note.as_deref());
            assert_eq!(said, (false, note), "{length}");
        }
        assert!(by_shuford(&row(13.0, 1.01)).judged);
    }
}
