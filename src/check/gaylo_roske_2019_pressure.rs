//! Pressures on a plane in a towing tank (Gaylo & Roske 2019): the moment about its hinge.
//!
//! Three taps along one line of the plate give the pressure near the hinge, in the middle and near
//! the trailing edge. Between them it is taken to run straight; ahead of the first it keeps its
//! value, and it falls to nothing at the trailing edge. The moment of each straight piece about the
//! hinge is exact: with the values `a` and `b` at `x` and `x + h`,
//! `∫ p x dx = h [a (3 x + h) + b (3 x + 2 h)]/6`.
//!
//! A parabola through the taps gives 0.75 to 0.99 of this, and a fit with the logarithm of thin-plate
//! theory 0.92 to 1.08: three taps leave so much open, and a single run proves little.

use serde::Deserialize;

use super::data::DataFile;
use super::{Case, CheckError, Comparison, Tolerance};
use crate::plane::effect::lift_per_degree_n;
use crate::plane::hinge::hinge_moment_n_m;

const SOURCE: &str =
    "Gaylo & Roske (2019), BSc thesis, Webb Institute, Appendix F: pressures on a plane";

const DATA: DataFile = DataFile {
    name: "GayloRoske2019Pressure.csv",
    text: include_str!("../../data/published/GayloRoske2019Pressure.csv"),
};

/// Chord of the plane, inches.
const CHORD_IN: f64 = 2.0;
/// Taps aft of the hinge, inches.
const TAPS_IN: [f64; 3] = [0.0938, 0.9688, 1.8438];

/// Standard error of the mean of the eleven runs: their ratios to eq. 8 scatter by 0.51.
const MEAN: Tolerance = Tolerance::Relative(0.16);
/// Of no weight for single runs, which are shown only.
const SINGLE: Tolerance = Tolerance::Relative(0.5);

const RUN: &str = "One run by three taps: not judged. The pressure is the whole one, with what trim and depth add.";
const ALL: &str = "The mean of measured over computed. By deflection it is 1.5 to 2.0 at 1 deg, 0.5 to 1.0 at 3 deg and 0.7 to 0.8 at \
    5 deg: the size is right, the proportion to the deflection is not what these pressures say.";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    deflection_deg: f64,
    speed_ft_s: f64,
    p9: f64,
    p10: f64,
    p11: f64,
}

pub(super) fn comparisons() -> Result<Vec<Comparison>, CheckError> {
    let rows: Vec<Row> = DATA.rows()?;
    let each = rows.iter().map(|row| {
        let name = format!("plane at {} deg, {} ft/s", row.deflection_deg, row.speed_ft_s);
        let moments = [row.measured(), row.computed()];
        let comparison =
            Case::new(SOURCE, name).compare("hinge moment / (q s c^2)", "", moments, SINGLE);
        comparison.with_note(RUN).for_information()
    });
    #[allow(clippy::cast_precision_loss)]
    let mean = rows.iter().map(|row| row.measured() / row.computed()).sum::<f64>()
        / rows.len().max(1) as f64;
    let whole = Case::new(SOURCE, "all runs, 1 to 5 deg");
    let whole = whole.compare("measured / computed", "", [1.0, mean], MEAN).with_note(ALL);
    Ok(each.chain([whole]).collect())
}

impl Row {
    /// Moment of the pressures about the hinge, over q s c².
    fn measured(&self) -> f64 {
        let [first, middle, last] = TAPS_IN.map(|tap_in| tap_in / CHORD_IN);
        let points =
            [(0.0, self.p9), (first, self.p9), (middle, self.p10), (last, self.p11), (1.0, 0.0)];
        points.windows(2).map(|ends| piece(ends[0], ends[1])).sum()
    }

    /// The same by eqs. 5 and 8 of Savitsky & Brown 1976, for one plane.
    fn computed(&self) -> f64 {
        hinge_moment_n_m(self.deflection_deg * lift_per_degree_n(1.0, 1.0), 1.0)
    }
}

/// Moment about zero of a pressure that runs straight from one place to another.
fn piece((from, at_from): (f64, f64), (to, at_to): (f64, f64)) -> f64 {
    let long = to - from;
    long * (at_from * (3.0 * from + long) + at_to * (3.0 * from + 2.0 * long)) / 6.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn physics_a_straight_pressure_is_integrated_exactly() {
        // By hand: 2 - x from 0 to 1 has the moment 1 - 1/3; the same in two pieces.
        approx::assert_relative_eq!(piece((0.0, 2.0), (1.0, 1.0)), 2.0 / 3.0, max_relative = 1e-12);
        let halves = piece((0.0, 2.0), (0.5, 1.5)) + piece((0.5, 1.5), (1.0, 1.0));
        approx::assert_relative_eq!(halves, 2.0 / 3.0, max_relative = 1e-12);
    }
}
