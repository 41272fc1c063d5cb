//! How a value spreads about the one that is used: distributions by their quantiles.

use statrs::distribution::{ContinuousCDF, Normal};

/// Shares of boats at the two ends of a likely range: nine boats in ten lie between.
pub const LIKELY_SHARES: [f64; 2] = [0.05, 0.95];

pub(super) use crate::numeric::LIKELY_DEVIATIONS;

/// A distribution about the value used, which is its median.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spread {
    /// Added to the value: normal, with a standard deviation of its own to each side.
    Step {
        /// Standard deviation below.
        below: f64,
        /// Standard deviation above.
        above: f64,
    },
    /// Multiplies the value: log-normal.
    Factor {
        /// Standard deviation of the logarithm.
        deviation: f64,
    },
}

impl Spread {
    /// The stable word in JSON.
    pub(super) const fn word(self) -> &'static str {
        match self {
            Self::Step { .. } => "step",
            Self::Factor { .. } => "factor",
        }
    }

    /// A step with the likely range from `low` to `high` about a value.
    pub(super) fn step([low, value, high]: [f64; 3]) -> Self {
        Self::Step {
            below: (value - low) / LIKELY_DEVIATIONS,
            above: (high - value) / LIKELY_DEVIATIONS,
        }
    }

    /// A step with the same likely half-width to both sides.
    pub(super) fn step_of(half_width: f64) -> Self {
        Self::step([-half_width, 0.0, half_width])
    }

    /// A factor that likely lies under 1 + `share`, and over its inverse.
    pub(super) fn factor_of(share: f64) -> Self {
        Self::Factor { deviation: share.ln_1p() / LIKELY_DEVIATIONS }
    }

    /// Whether it says anything at all.
    #[must_use]
    pub fn is_none(&self) -> bool {
        match *self {
            Self::Step { below, above } => below == 0.0 && above == 0.0,
            Self::Factor { deviation } => deviation == 0.0,
        }
    }

    /// What is added to the value, or multiplies it, that a share of boats stays under.
    #[must_use]
    pub fn quantile(&self, share: f64) -> f64 {
        match *self {
            Self::Step { below, above } => {
                let deviations = normal_quantile(share);
                deviations * if deviations < 0.0 { below } else { above }
            }
            Self::Factor { deviation } => (deviation * normal_quantile(share)).exp(),
        }
    }
}

/// Quantile of the standard normal distribution.
pub(super) fn normal_quantile(share: f64) -> f64 {
    Normal::standard().inverse_cdf(share)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plane::effect;
    use approx::assert_relative_eq;

    #[test]
    fn physics_the_likely_deviations_are_those_of_the_normal_distribution() {
        assert_relative_eq!(normal_quantile(0.95), LIKELY_DEVIATIONS, max_relative = 1e-9);
        assert_relative_eq!(normal_quantile(0.05), -LIKELY_DEVIATIONS, max_relative = 1e-9);
    }

    #[test]
    fn physics_a_spread_meets_its_median_and_its_likely_range() {
        let step = Spread::step([2.0, 2.5, 2.6]);
        for (share, wanted) in [(0.05, -0.5), (0.5, 0.0), (0.95, 0.1)] {
            assert!((step.quantile(share) - wanted).abs() < 1e-9, "{share}");
        }
        let factor = Spread::factor_of(0.25);
        for (share, wanted) in [(0.05, 0.8), (0.5, 1.0), (0.95, 1.25)] {
            assert_relative_eq!(factor.quantile(share), wanted, max_relative = 1e-9);
        }
        assert!(Spread::factor_of(0.0).is_none() && Spread::step_of(0.0).is_none());
    }

    #[test]
    fn physics_the_spread_of_planes_is_the_one_that_sizing_shows() {
        let spread = Spread::Factor { deviation: effect::EFFECTIVENESS_LOG_SPREAD };
        for share in [0.01, 0.05, 0.3, 0.5, 0.95] {
            let sized_with =
                effect::effectiveness_quantile(share, effect::EFFECTIVENESS_LOG_SPREAD);
            assert_relative_eq!(spread.quantile(share), sized_with, max_relative = 1e-9);
        }
    }
}
