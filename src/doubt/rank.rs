//! Which input an answer follows: rank correlation.

/// Ranks of some values from 0 on; equal values share the mean of their ranks.
fn ranks(values: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(|&a, &b| values[a].total_cmp(&values[b]));
    let mut ranks = vec![0.0; values.len()];
    let mut first = 0;
    while first < order.len() {
        let same = order[first..].iter().take_while(|&&at| values[at] == values[order[first]]);
        let last = first + same.count().max(1) - 1;
        #[allow(clippy::cast_precision_loss)]
        let mean = 0.5 * (first + last) as f64;
        order[first..=last].iter().for_each(|&at| ranks[at] = mean);
        first = last + 1;
    }
    ranks
}

/// Spearman's rank correlation: 1 when one rises wherever the other does, −1 when it falls, 0 when they have nothing to do with each other.
///
/// The correlation of the ranks, with equal values sharing theirs. Pairs with a value that is
/// no number do not count; zero when one of the two never changes.
///
/// Source: Spearman, C. (1904), The proof and measurement of association between two things,
/// American Journal of Psychology 15(1).
pub(super) fn rank_correlation(pairs: impl Iterator<Item = [f64; 2]>) -> f64 {
    let pairs: Vec<[f64; 2]> =
        pairs.filter(|pair| pair.iter().all(|value| !value.is_nan())).collect();
    let [a, b] = [0, 1].map(|side| {
        let values: Vec<f64> = pairs.iter().map(|pair| pair[side]).collect();
        ranks(&values)
    });
    #[allow(clippy::cast_precision_loss)]
    let mean = 0.5 * (pairs.len().max(1) - 1) as f64;
    let sum = |x: &[f64], y: &[f64]| -> f64 {
        x.iter().zip(y).map(|(x, y)| (x - mean) * (y - mean)).sum()
    };
    let spread = (sum(&a, &a) * sum(&b, &b)).sqrt();
    if spread > 0.0 { sum(&a, &b) / spread } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn correlation(a: &[f64], b: &[f64]) -> f64 {
        rank_correlation(a.iter().zip(b).map(|(&a, &b)| [a, b]))
    }

    /// Without equal values it is 1 − 6 Σd²/(n (n² − 1)). By hand: ranks 1 2 3 4 5 against
    /// 2 1 4 3 5 differ by 1 1 1 1 0, so that 1 − 6 × 4/(5 × 24) = 0.8.
    #[test]
    fn published_formula_without_equal_values() {
        let a = [10.0, 20.0, 30.0, 40.0, 50.0];
        assert_relative_eq!(correlation(&a, &[2.0, 1.0, 40.0, 3.0, 500.0]), 0.8);
        assert_relative_eq!(correlation(&a, &[1.0, 8.0, 27.0, 64.0, 125.0]), 1.0);
        assert_relative_eq!(correlation(&a, &[5.0, 4.0, 3.0, 2.0, 1.0]), -1.0);
    }

    /// By hand: ranks 0, 1.5, 1.5, 3 against 0, 1, 2, 3: covariance 4.5, squares 4.5 and 5,
    /// 4.5/√22.5 = 0.948683.
    #[test]
    fn physics_equal_values_share_their_rank() {
        assert_eq!(ranks(&[3.0, 7.0, 7.0, 9.0]), [0.0, 1.5, 1.5, 3.0]);
        let r = correlation(&[3.0, 7.0, 7.0, 9.0], &[1.0, 2.0, 3.0, 4.0]);
        assert_relative_eq!(r, 0.948_683, max_relative = 1e-6);
    }

    #[test]
    fn physics_values_without_a_number_do_not_count() {
        let r = correlation(&[1.0, f64::NAN, 2.0, 3.0], &[1.0, 9.0, 2.0, f64::NAN]);
        assert_relative_eq!(r, 1.0);
        assert_relative_eq!(correlation(&[1.0, 1.0, 1.0], &[1.0, 2.0, 3.0]), 0.0);
    }
}
