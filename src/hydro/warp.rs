//! A warped bottom, whose chine is not parallel to its keel, as a prism with more trim.
//!
//! Source: Savitsky, D. & Brown, P. W. (1976), Procedures for Hydrodynamic
//! Evaluation of Planing Hulls in Smooth and Rough Water, Marine Technology
//! 13(4), equations 9 and 10, from tests of Brown (1971) on one bottom: 10° of
//! deadrise at the transom, 1.66° between chine and keel.
//!
//! The lift of a warped bottom is that of a prism at the effective trim of the
//! lift; its pressure drag is that lift × tan of the effective trim of the drag,
//! so that the pressure acts as on a plane of that slope.

/// Share of the angle between chine and keel that counts as trim for the lift.
const LIFT_SHARE: f64 = 0.12;
/// Share of it that counts as trim for the drag.
const DRAG_SHARE: f64 = 0.5;

/// Angle between chine and keel of the one warped bottom that was tested, degrees.
pub const LARGEST_TESTED_DEG: f64 = 1.66;

/// Trim to put into the lift of a prism, degrees: τ + 0.12 θ with θ the angle between chine and keel.
#[must_use]
pub fn trim_for_lift_deg(trim_deg: f64, chine_to_keel_deg: f64) -> f64 {
    trim_deg + LIFT_SHARE * chine_to_keel_deg
}

/// Trim to put into the drag of a prism, degrees: τ + 0.5 θ with θ the angle between chine and keel.
#[must_use]
pub fn trim_for_drag_deg(trim_deg: f64, chine_to_keel_deg: f64) -> f64 {
    trim_deg + DRAG_SHARE * chine_to_keel_deg
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Savitsky & Brown (1976), table 2: effective trims 4.83° and 6.83°, printed to a hundredth.
    #[test]
    fn published_effective_trims() {
        approx::assert_abs_diff_eq!(trim_for_drag_deg(4.0, 1.66), 4.83, epsilon = 0.005);
        approx::assert_abs_diff_eq!(trim_for_drag_deg(6.0, 1.66), 6.83, epsilon = 0.005);
    }

    #[test]
    fn physics_a_prism_keeps_its_trim() {
        assert_eq!([trim_for_lift_deg(4.0, 0.0), trim_for_drag_deg(4.0, 0.0)], [4.0, 4.0]);
    }
}
