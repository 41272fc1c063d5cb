//! Where planing begins.
//!
//! Source: Savitsky, D. (1964), Hydrodynamic Design of Planing Hulls, Marine
//! Technology 1(1): fully developed planing, where the water leaves the chines
//! cleanly, is reached at Cv/√λ of 1 for trims of 4° and more, and of 2 at 2°.
//! A convenient mark on a gradual change, not a cliff.

/// Trim from which the lower number holds, degrees.
const HIGH_TRIM_DEG: f64 = 4.0;
/// Trim of the higher number, degrees.
const LOW_TRIM_DEG: f64 = 2.0;

/// Cv/√λ from which a boat at a trim counts as planing: 1 from 4°, 2 up to 2°, along a straight line between.
#[must_use]
pub fn planing_number(trim_deg: f64) -> f64 {
    let share = (HIGH_TRIM_DEG - trim_deg) / (HIGH_TRIM_DEG - LOW_TRIM_DEG);
    1.0 + share.clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::planing_number;

    /// Savitsky (1964): 1 at 4 deg and above, 2 at 2 deg.
    #[test]
    fn published_marks_and_no_jump_between() {
        assert_eq!([10.0, 4.0, 2.0].map(planing_number), [1.0, 1.0, 2.0]);
        assert!((planing_number(4.0 - 1e-9) - 1.0).abs() < 1e-8);
        assert!((planing_number(2.0 + 1e-9) - 2.0).abs() < 1e-8);
        assert!(planing_number(3.0) > planing_number(3.5));
    }
}
