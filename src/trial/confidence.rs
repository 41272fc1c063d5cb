//! How surely a fit tells what it tells.

use nalgebra::DVector;
use statrs::distribution::{ContinuousCDF, Normal, StudentsT};

use super::fit::{ENOUGH_FOR_A_SCALE, Fit, Settled};
use super::information::{Covariance, Jacobian};
use super::learned::OUTLIER;
use super::reading::Kind;
use super::robust::Loss;
use super::unknown::{COLUMNS, Unknown};

/// Share of the intervals.
const CONFIDENCE: f64 = 0.9;

/// Half widths of the intervals of the fitted unknowns, in their spreads.
pub(super) struct Intervals {
    pub fitted: Vec<Unknown>,
    pub half: Vec<f64>,
    pub half_with_form: Vec<f64>,
    /// Standard errors.
    pub errors: Vec<f64>,
}

impl Intervals {
    /// From the linearised covariance of the estimate, over the readings that are no outliers.
    ///
    /// What was left open and the error of the equations are independent of the
    /// scatter and add as squares; the scatter has Student's t for the degrees
    /// of freedom that it was found with. None when the readings do not
    /// determine the unknowns.
    pub fn of(fit: &Fit<'_>, settled: &Settled) -> Option<Self> {
        let every: Vec<usize> = (0..COLUMNS).collect();
        let mut jacobian = fit.jacobian(&settled.place, &every);
        for (row, scale) in jacobian.iter_mut().zip(&settled.scales) {
            row.iter_mut().for_each(|slope| *slope /= scale);
        }
        let weights: Vec<f64> =
            settled.residuals.iter().map(|r| f64::from(u8::from(is_kept(*r)))).collect();
        let covariance = Covariance::of(&jacobian, &weights, fit.fitted)?;
        let scatter = Scatter::of(fit, settled, &jacobian, &covariance)?;
        let two_sided = 0.5 * (1.0 + CONFIDENCE);
        let normal = Normal::standard().inverse_cdf(two_sided);
        let squared = |index: usize, other: f64| {
            let student = StudentsT::new(0.0, 1.0, scatter.freedom[index]).ok()?;
            let student = student.inverse_cdf(two_sided);
            let variance = scatter.variance[index];
            Some((student * student * variance + normal * normal * other).sqrt())
        };
        let Covariance { left, form, .. } = &covariance;
        let indices = || 0..fit.fitted.len();
        Some(Self {
            fitted: fit.fitted.to_vec(),
            half: indices().map(|at| squared(at, left[at])).collect::<Option<_>>()?,
            half_with_form: indices()
                .map(|at| squared(at, left[at] + form[at]))
                .collect::<Option<_>>()?,
            errors: indices().map(|at| (scatter.variance[at] + left[at]).sqrt()).collect(),
        })
    }

    /// The unknown that came out worst, if it is known no better than before.
    pub fn worse_than_before(&self) -> Option<Unknown> {
        let named = self.fitted.iter().zip(&self.errors);
        let worst = named.max_by(|a, b| a.1.total_cmp(b.1))?;
        (*worst.1 > 1.0).then_some(*worst.0)
    }
}

fn is_kept(residual: f64) -> bool {
    residual.abs() <= OUTLIER
}

/// What the scatter of the readings is worth in each fitted unknown.
struct Scatter {
    variance: Vec<f64>,
    /// Degrees of freedom of that variance.
    freedom: Vec<f64>,
}

impl Scatter {
    /// Trim and power scatter each by themselves: A⁻¹ (Σ f_k J_kᵀJ_k) A⁻¹ with A = JᵀJ.
    ///
    /// Each kind of reading has a scatter factor f of its own, found with its
    /// readings less the unknowns that they carry (their share of the trace of
    /// the hat matrix). The degrees of freedom of the sum are those of Welch
    /// (1947), Biometrika 34, and Satterthwaite (1946), Biometrics Bulletin 2,
    /// from memory.
    fn of(
        fit: &Fit<'_>,
        settled: &Settled,
        jacobian: &Jacobian,
        covariance: &Covariance,
    ) -> Option<Self> {
        let fitted = fit.fitted.len();
        let inverse = &covariance.scatter;
        let row = |at: usize| {
            DVector::from_fn(fitted, |index, _| jacobian[at][fit.fitted[index].index()])
        };
        let (mut sums, mut squares) = (vec![0.0; fitted], vec![0.0; fitted]);
        for group in groups(fit, settled) {
            let rows: Vec<DVector<f64>> = group.iter().map(|&at| row(at)).collect();
            let carried: f64 = rows.iter().map(|row| row.dot(&(inverse * row))).sum();
            let residuals: Vec<f64> = group.iter().map(|&at| settled.residuals[at]).collect();
            let freedom = residuals.len() as f64 - carried;
            if freedom < 1.0 {
                return None;
            }
            let factor = scatter_factor(&residuals, carried);
            for (index, (sum, square)) in sums.iter_mut().zip(&mut squares).enumerate() {
                let own: f64 = rows.iter().map(|row| (inverse * row)[index].powi(2)).sum();
                *sum += factor * own;
                *square += (factor * own).powi(2) / freedom;
            }
        }
        let freedom = sums.iter().zip(&squares).map(|(sum, square)| sum * sum / square).collect();
        Some(Self { variance: sums, freedom })
    }
}

/// Indices of the readings that are no outliers, by kind; together where one kind is too few for a scatter of its own.
fn groups(fit: &Fit<'_>, settled: &Settled) -> Vec<Vec<usize>> {
    let kept = |wanted: Option<Kind>| {
        let is_wanted = |at: &usize| {
            is_kept(settled.residuals[*at])
                && wanted.is_none_or(|kind| fit.readings[*at].kind == kind)
        };
        (0..fit.readings.len()).filter(is_wanted).collect::<Vec<_>>()
    };
    let each = [Kind::Trim, Kind::Power].map(|kind| kept(Some(kind)));
    if each.iter().all(|group| group.len() >= ENOUGH_FOR_A_SCALE) {
        each.into()
    } else {
        vec![kept(None)]
    }
}

/// Variance of an M-estimate over (JᵀJ)⁻¹: κ² Σψ²/(n − p)/(mean ψ')², κ = 1 + p/n var ψ'/(mean ψ')².
///
/// Source: Huber 1981, Robust Statistics, section 7.6, from memory.
fn scatter_factor(residuals: &[f64], fitted: f64) -> f64 {
    let count = residuals.len() as f64;
    let loss = Loss::Biweight;
    let mean =
        |value: &dyn Fn(f64) -> f64| residuals.iter().map(|r| value(*r)).sum::<f64>() / count;
    let slope = mean(&|r| loss.slope(r));
    let spread = mean(&|r| (loss.slope(r) - slope).powi(2));
    let kappa = 1.0 + fitted / count * spread / (slope * slope);
    let pull = mean(&|r| loss.pull(r).powi(2)) * count / (count - fitted);
    kappa * kappa * pull / (slope * slope)
}
