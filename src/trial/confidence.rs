//! How surely a fit tells what it tells.

use statrs::distribution::{ContinuousCDF, Normal, StudentsT};

use super::fit::{Fit, Settled};
use super::information::Covariance;
use super::learned::OUTLIER;
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
    /// scatter and add as squares; the scatter has Student's t for n − p degrees
    /// of freedom. None when the readings do not determine the unknowns.
    pub fn of(fit: &Fit<'_>, settled: &Settled) -> Option<Self> {
        let every: Vec<usize> = (0..COLUMNS).collect();
        let mut jacobian = fit.jacobian(&settled.place, &every);
        for (row, scale) in jacobian.iter_mut().zip(&settled.scales) {
            row.iter_mut().for_each(|slope| *slope /= scale);
        }
        let is_kept = |residual: &f64| residual.abs() <= OUTLIER;
        let weights: Vec<f64> =
            settled.residuals.iter().map(|r| f64::from(u8::from(is_kept(r)))).collect();
        let covariance = Covariance::of(&jacobian, &weights, fit.fitted)?;
        let kept: Vec<f64> = settled.residuals.iter().copied().filter(is_kept).collect();
        let freedom = kept.len() as f64 - fit.fitted.len() as f64;
        if freedom < 1.0 {
            return None;
        }
        let factor = scatter_factor(&kept, fit.fitted.len() as f64);
        let two_sided = 0.5 * (1.0 + CONFIDENCE);
        let student = StudentsT::new(0.0, 1.0, freedom).ok()?.inverse_cdf(two_sided);
        let normal = Normal::standard().inverse_cdf(two_sided);
        let squared = |scatter: f64, other: f64| {
            (student * student * scatter + normal * normal * other).sqrt()
        };
        let each = |value: &dyn Fn(f64, f64, f64) -> f64| {
            let part = |index: usize| {
                let scatter = factor * covariance.scatter[(index, index)];
                value(scatter, covariance.left[index], covariance.form[index])
            };
            (0..fit.fitted.len()).map(part).collect()
        };
        Some(Self {
            fitted: fit.fitted.to_vec(),
            half: each(&|scatter, left, _| squared(scatter, left)),
            half_with_form: each(&|scatter, left, form| squared(scatter, left + form)),
            errors: each(&|scatter, left, _| (scatter + left).sqrt()),
        })
    }

    /// The unknown that came out worst, if it is known no better than before.
    pub fn worse_than_before(&self) -> Option<Unknown> {
        let named = self.fitted.iter().zip(&self.errors);
        let worst = named.max_by(|a, b| a.1.total_cmp(b.1))?;
        (*worst.1 > 1.0).then_some(*worst.0)
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
