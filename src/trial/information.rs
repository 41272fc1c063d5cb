//! What a log can tell at all: which unknowns its data can carry.

use nalgebra::{DMatrix, DVector};

use super::unknown::{COLUMNS, EFFICIENCY, FORM_OPINION, Unknown};

/// Largest expected standard error of a fitted unknown, over what was known before.
///
/// At 1/√2 the log tells twice as much as was known.
pub(super) const LARGEST_SHARE: f64 = std::f64::consts::FRAC_1_SQRT_2;
/// Largest condition number of the information of what is fitted, in spreads.
const LARGEST_CONDITION: f64 = 1.0e4;

/// How readings depend on the unknowns: one row for each, divided by its error, in spreads of each column.
pub(super) type Jacobian = Vec<[f64; COLUMNS]>;

/// A covariance in two parts: from the scatter, and from what was left as it was.
#[derive(Clone, Debug)]
pub(super) struct Covariance {
    /// (JᵀWJ)⁻¹ over the fitted unknowns, for errors of one standard deviation.
    pub scatter: DMatrix<f64>,
    /// Variance of each from the unknowns that were left.
    pub left: DVector<f64>,
    /// Variance of each from the error of the equations.
    pub form: DVector<f64>,
    /// Largest over least eigenvalue of JᵀWJ.
    pub condition: f64,
}

impl Covariance {
    /// Of some fitted unknowns with the readings weighted; none when the readings do not determine them.
    ///
    /// What is left keeps its value and its spread from before, which moves the
    /// fitted values by K = (JᵀWJ)⁻¹ JᵀW J_left of it.
    pub fn of(jacobian: &Jacobian, weights: &[f64], fitted: &[Unknown]) -> Option<Self> {
        let rows = jacobian.len();
        let column = |index: usize| {
            DVector::from_fn(rows, |row, _| jacobian[row][index] * weights[row].sqrt())
        };
        let of = |indices: &[usize]| {
            DMatrix::from_columns(&indices.iter().map(|&index| column(index)).collect::<Vec<_>>())
        };
        let indices: Vec<usize> = fitted.iter().map(|unknown| unknown.index()).collect();
        let matrix = of(&indices);
        let information = matrix.transpose() * &matrix;
        let eigenvalues = information.clone().symmetric_eigenvalues();
        let (least, largest) = (eigenvalues.min(), eigenvalues.max());
        if least.is_nan() || least <= 0.0 || largest / least > 1e12 {
            return None;
        }
        let scatter = information.cholesky()?.inverse();
        let moved_by = |others: &[usize]| {
            if others.is_empty() {
                return DVector::zeros(fitted.len());
            }
            let moved = &scatter * matrix.transpose() * of(others);
            DVector::from_fn(fitted.len(), |row, _| moved.row(row).norm_squared())
        };
        let left: Vec<usize> = (0..=EFFICIENCY).filter(|index| !indices.contains(index)).collect();
        let form: Vec<usize> = (FORM_OPINION..COLUMNS).collect();
        let (left, form) = (moved_by(&left), moved_by(&form));
        Some(Self { left, form, condition: largest / least, scatter })
    }

    /// Standard error of each fitted unknown for readings as fine as usual, in its spread.
    pub fn errors(&self) -> Vec<f64> {
        let variance = |index| self.scatter[(index, index)] + self.left[index];
        (0..self.left.len()).map(|index| f64::sqrt(variance(index))).collect()
    }
}

/// Which unknowns to fit.
#[derive(Clone, Debug)]
pub(super) struct Choice {
    /// In the order of [`Unknown::ALL`]; may be none.
    pub fitted: Vec<Unknown>,
    /// Condition number of their information.
    pub condition: f64,
}

/// The most unknowns about the boat that the readings can carry, of those allowed.
///
/// Every set is tried. One is carried when each of its unknowns is expected to
/// come out with a standard error, what is left open included, of at most
/// [`LARGEST_SHARE`] of what was known before, and the information is not near
/// singular. Of sets with as many unknowns about the boat, the one with the
/// smallest errors of these is taken; that decides whether the zero of the
/// inclinometer is fitted too.
pub(super) fn choose(jacobian: &Jacobian, allowed: &[Unknown]) -> Choice {
    let even = vec![1.0; jacobian.len()];
    let mut best: Option<(usize, f64, Choice)> = None;
    for set in 1_u32..1 << allowed.len() {
        let fitted: Vec<Unknown> = (0..allowed.len())
            .filter(|bit| set & (1 << bit) != 0)
            .map(|bit| allowed[bit])
            .collect();
        let boats = fitted.iter().filter(|unknown| unknown.is_of_the_boat()).count();
        if boats == 0 || fitted.len() >= jacobian.len() {
            continue;
        }
        let Some(covariance) = Covariance::of(jacobian, &even, &fitted) else { continue };
        let errors = covariance.errors();
        let carried = errors.iter().all(|&error| error <= LARGEST_SHARE);
        if !carried || covariance.condition > LARGEST_CONDITION {
            continue;
        }
        let named = fitted.iter().zip(&errors).filter(|(unknown, _)| unknown.is_of_the_boat());
        let doubt: f64 = named.map(|(_, error)| error * error).sum();
        let better = best
            .as_ref()
            .is_none_or(|(most, least, _)| boats > *most || boats == *most && doubt < *least);
        if better {
            best = Some((boats, doubt, Choice { fitted, condition: covariance.condition }));
        }
    }
    best.map_or(Choice { fitted: Vec::new(), condition: f64::INFINITY }, |(_, _, choice)| choice)
}

/// Standard error that one unknown would come out with beside those fitted, in its spread; none when it would not come out at all.
pub(super) fn expected_error(
    jacobian: &Jacobian,
    fitted: &[Unknown],
    unknown: Unknown,
) -> Option<f64> {
    let mut with: Vec<Unknown> = fitted.iter().copied().filter(|&other| other != unknown).collect();
    with.push(unknown);
    with.sort_unstable();
    let index = with.iter().position(|&other| other == unknown)?;
    let covariance = Covariance::of(jacobian, &vec![1.0; jacobian.len()], &with)?;
    covariance.errors().get(index).copied()
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn row(values: [f64; 4]) -> [f64; COLUMNS] {
        let mut row = [0.0; COLUMNS];
        row[..4].copy_from_slice(&values);
        row
    }

    /// Two readings of one unknown with errors 1/2 and 1/3 of a spread: 1/√13 by hand.
    #[test]
    fn physics_errors_of_independent_readings_add_as_inverse_squares() {
        let jacobian = vec![row([2.0, 0.0, 0.0, 0.0]), row([3.0, 0.0, 0.0, 0.0])];
        let fitted = [Unknown::CentreOfGravity];
        let covariance = Covariance::of(&jacobian, &[1.0; 2], &fitted).unwrap();
        assert_relative_eq!(covariance.errors()[0], 1.0 / 13.0_f64.sqrt(), max_relative = 1e-12);
    }

    /// A zero that moves every reading as much as the centre of gravity does: by hand the error is that of the zero, one spread times 2/2.
    #[test]
    fn physics_what_is_left_open_counts() {
        let jacobian = vec![row([2.0, 0.0, 0.0, 2.0]); 400];
        let fitted = [Unknown::CentreOfGravity];
        let covariance = Covariance::of(&jacobian, &vec![1.0; 400], &fitted).unwrap();
        assert_relative_eq!(covariance.left[0], 1.0, max_relative = 1e-9);
        assert!(covariance.errors()[0] > 1.0);
        let both = [Unknown::CentreOfGravity, Unknown::InclinometerZero];
        assert!(Covariance::of(&jacobian, &vec![1.0; 400], &both).is_none());
        assert!(choose(&jacobian, &Unknown::ALL).fitted.is_empty());
    }
}
