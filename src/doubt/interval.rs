//! What many draws say: quantiles, and shares with the error that few draws leave in them.

use serde::Serialize;

use super::spread::LIKELY_SHARES;
use crate::field::InSi;

/// The median of many draws and the range that holds nine in ten of them.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Likely<Q> {
    /// One boat in twenty lies below.
    pub low: Q,
    /// Half of all boats lie below.
    pub median: Q,
    /// One boat in twenty lies above.
    pub high: Q,
}

/// The same of plain numbers.
impl<Q: InSi> InSi for Likely<Q> {
    type Plain = Likely<Q::Plain>;
    fn in_si(&self) -> Self::Plain {
        Likely { low: self.low.in_si(), median: self.median.in_si(), high: self.high.in_si() }
    }
}

impl<Q: Copy> Likely<Q> {
    /// The same in another quantity or unit.
    pub fn map<R>(self, convert: impl Fn(Q) -> R) -> Likely<R> {
        Likely { low: convert(self.low), median: convert(self.median), high: convert(self.high) }
    }
}

/// The likely range of the values that are numbers; none when there are none.
///
/// A quantile lies between two of the sorted values, in proportion: with n values, the share p
/// stands at place p (n − 1) counted from 0. Source: Hyndman, R. J. & Fan, Y. (1996), Sample
/// quantiles in statistical packages, The American Statistician 50(4), definition 7.
pub(super) fn likely(mut values: Vec<f64>) -> Option<Likely<f64>> {
    values.retain(|value| !value.is_nan());
    if values.is_empty() {
        return None;
    }
    let [low, high] = LIKELY_SHARES;
    let [low, median, high] = [low, 0.5, high].map(|share| quantile(&mut values, share));
    Some(Likely { low, median, high })
}

/// A quantile of some numbers, which are left in another order.
fn quantile(values: &mut [f64], share: f64) -> f64 {
    #[allow(clippy::cast_precision_loss)]
    let place = share * (values.len() - 1) as f64;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let below = place.floor() as usize;
    let (_, &mut at, above) = values.select_nth_unstable_by(below, f64::total_cmp);
    let next = above.iter().copied().min_by(f64::total_cmp).unwrap_or(at);
    let part = place - place.floor();
    // Two values beyond all, such as a deflection that no plane gives, have no place between.
    if part == 0.0 || at == next { at } else { at + part * (next - at) }
}

/// A share of draws, with its standard error.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Probability {
    /// The share.
    pub share: f64,
    /// Its standard error were the draws of plain chance; they lie more evenly, and it is less.
    #[serde(rename = "standard_error")]
    pub error: f64,
}

impl Probability {
    /// So many of so many draws.
    #[must_use]
    pub fn of(met: u32, draws: u32) -> Self {
        let (met, draws) = (f64::from(met), f64::from(draws.max(1)));
        // One draw for and one against keep the error of 'all' and of 'none' from being zero.
        let smoothed = (met + 1.0) / (draws + 2.0);
        Self { share: met / draws, error: (smoothed * (1.0 - smoothed) / draws).sqrt() }
    }

    /// So many of so many draws, as they were counted.
    pub(super) fn counted(met: usize, draws: u32) -> Self {
        Self::of(u32::try_from(met).unwrap_or(u32::MAX), draws)
    }
}

/// On how many in a hundred boats, in whole: all or none of them only where it is so.
#[must_use]
pub fn in_hundred(share: f64) -> u32 {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let rounded = (100.0 * share).round() as u32;
    match share {
        share if share < 1.0 => rounded.min(99).max(u32::from(share > 0.0)),
        _ => rounded,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn physics_quantiles_are_the_order_statistics() {
        // 0 to 100 in a shuffled order: the share p stands at 100 p.
        let values: Vec<f64> = (0..101).map(|i| f64::from((i * 37) % 101)).collect();
        let likely = likely(values).unwrap();
        assert_eq!((likely.low, likely.median, likely.high), (5.0, 50.0, 95.0));
    }

    /// Hyndman & Fan 1996, definition 7, by hand: of 1, 2, 4, 8 the share 0.05 stands at place
    /// 0.15, 1 + 0.15 = 1.15; the median half way from 2 to 4; 0.95 at 2.85, 4 + 0.85 × 4 = 7.4.
    #[test]
    fn published_quantiles_between_values() {
        let likely = likely(vec![8.0, 1.0, f64::NAN, 4.0, 2.0]).unwrap();
        assert_relative_eq!(likely.low, 1.15, max_relative = 1e-12);
        assert_relative_eq!(likely.median, 3.0, max_relative = 1e-12);
        assert_relative_eq!(likely.high, 7.4, max_relative = 1e-12);
    }

    #[test]
    fn physics_few_or_endless_values_have_quantiles_too() {
        assert_eq!(likely(vec![f64::NAN]), None);
        let one = likely(vec![3.0]).unwrap();
        assert_eq!((one.low, one.high), (3.0, 3.0));
        let endless = likely(vec![1.0, f64::INFINITY, f64::INFINITY]).unwrap();
        assert_eq!((endless.median, endless.high), (f64::INFINITY, f64::INFINITY));
    }

    #[test]
    fn physics_the_error_of_a_share_shrinks_with_the_root_of_the_draws() {
        let [few, many] = [100, 10_000].map(|draws| Probability::of(draws * 9 / 10, draws));
        assert_relative_eq!(few.share, many.share);
        assert_relative_eq!(many.error, 0.003, max_relative = 1e-3);
        assert!((few.error / many.error - 10.0).abs() < 0.4);
        assert!(Probability::of(50, 50).error > 0.0);
    }
}
