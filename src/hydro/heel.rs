//! Roll of a heeled planing bottom: a rough estimate.
//!
//! Each half of the bottom is put at its own effective deadrise, β − φ on the
//! side that goes down and β + φ on the other, at the same wetted keel and the
//! same trim, and carries half of what a whole bottom of that deadrise would.
//! After the approach of Lewandowski, E. M. (1996), Prediction of the Dynamic
//! Roll Stability of Hard-Chine Planing Craft, Journal of Ship Research 40(2);
//! from memory, and not checked against its numbers. Rolled bottoms were
//! measured by Savitsky, D., Prowse, R. E. & Lueders, D. H. (1958), NACA TN
//! 4187; no printed value of it was at hand.

use std::f64::consts::PI;

use super::{lift, wetted};

/// Where the load of half a bottom acts off the centreline, in beams: 2/(3π).
///
/// The middle of half an ellipse. A chine-dry section of a wedge carries
/// p ∝ 1/√(1 − y²) over a half-breadth that grows from the keel to the chine,
/// a slender wetted surface an elliptic spanwise load (Jones 1946, NACA TR
/// 835): both act there. Derived here.
pub const HALF_LOAD_BEAMS: f64 = 2.0 / (3.0 * PI);

/// A running bottom at the trim and keel wetting at which she is heeled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeeledBottom {
    /// Trim, degrees.
    pub trim_deg: f64,
    /// Speed coefficient Cv.
    pub speed_coefficient: f64,
    /// Deadrise upright, degrees.
    pub deadrise_deg: f64,
    /// Wetted keel over the beam.
    pub wetted_keel_beams: f64,
}

impl HeeledBottom {
    /// Lift coefficient of half the bottom at an effective deadrise, on q b²: half that of a whole bottom with the same wetted keel.
    ///
    /// None where the deadrise leaves 0 to 40°, or nothing of the bottom is wetted.
    #[must_use]
    pub fn half_lift(&self, effective_deadrise_deg: f64) -> Option<f64> {
        if !(0.0..=40.0).contains(&effective_deadrise_deg) {
            return None;
        }
        let shorter = 0.5 * wetted::keel_minus_chine(effective_deadrise_deg, self.trim_deg);
        let length_ratio = self.wetted_keel_beams - shorter;
        if length_ratio <= 0.0 {
            return None;
        }
        let flat = lift::flat_plate(self.trim_deg, length_ratio, self.speed_coefficient);
        Some(0.5 * lift::with_deadrise(flat, effective_deadrise_deg))
    }

    /// Righting moment of the water at a heel, over q b³, about the keel line; positive lifts the side that went down.
    ///
    /// The load of each half stands normal to its panel at [`HALF_LOAD_BEAMS`]
    /// off the centreline, C_i/(cos β_i cos β) × 2/(3π). The sideways forces of
    /// the two halves no longer cancel; what is left over is reacted at a
    /// height above the keel (in beams), so that ΣF_y = 0. `heel_deg` is
    /// positive; none where a half has no lift to give.
    #[must_use]
    pub fn righting(&self, heel_deg: f64, reaction_height_beams: f64) -> Option<f64> {
        let [low_deg, high_deg] = [self.deadrise_deg - heel_deg, self.deadrise_deg + heel_deg];
        let [low, high] = [self.half_lift(low_deg)?, self.half_lift(high_deg)?];
        let arm = HALF_LOAD_BEAMS / self.deadrise_deg.to_radians().cos();
        let normal = |lift: f64, deadrise_deg: f64| lift / deadrise_deg.to_radians().cos();
        let sideways = high * high_deg.to_radians().tan() - low * low_deg.to_radians().tan();
        let height = reaction_height_beams * heel_deg.to_radians().cos();
        Some(arm * (normal(low, low_deg) - normal(high, high_deg)) + height * sideways)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    const BOTTOM: HeeledBottom = HeeledBottom {
        trim_deg: 4.0,
        speed_coefficient: 3.0,
        deadrise_deg: 18.0,
        wetted_keel_beams: 2.3,
    };

    #[test]
    fn physics_upright_halves_carry_what_the_whole_bottom_carries_and_do_not_roll() {
        let length_ratio = 2.3 - 0.5 * wetted::keel_minus_chine(18.0, 4.0);
        let whole = lift::with_deadrise(lift::flat_plate(4.0, length_ratio, 3.0), 18.0);
        assert_relative_eq!(2.0 * BOTTOM.half_lift(18.0).unwrap(), whole, max_relative = 1e-14);
        assert_relative_eq!(BOTTOM.righting(0.0, 0.3).unwrap(), 0.0);
    }

    /// The forces of both panels and the reaction in earth axes, moments about the keel and about another point.
    #[test]
    fn physics_the_righting_moment_is_that_of_the_panel_forces_about_any_point() {
        let (heel_deg, height) = (6.0_f64, 0.35_f64);
        let heel = heel_deg.to_radians();
        // Across (towards the low side) and up; the keel is the origin.
        let panel = |side: f64, deadrise_deg: f64| {
            let slope = deadrise_deg.to_radians();
            let lift = BOTTOM.half_lift(deadrise_deg).unwrap();
            let along = HALF_LOAD_BEAMS / BOTTOM.deadrise_deg.to_radians().cos();
            let at = [side * along * slope.cos(), along * slope.sin()];
            (at, [-side * lift * slope.tan(), lift])
        };
        let mut loads = vec![panel(1.0, 18.0 - heel_deg), panel(-1.0, 18.0 + heel_deg)];
        let sideways: f64 = loads.iter().map(|(_, force)| force[0]).sum();
        let lifted: f64 = loads.iter().map(|(_, force)| force[1]).sum();
        loads.push(([height * heel.sin(), height * heel.cos()], [-sideways, 0.0]));
        // The weight, through the keel, so that all forces sum to zero.
        loads.push(([0.0, 0.0], [0.0, -lifted]));
        for about in [[0.0, 0.0], [0.7, -1.3]] {
            let moment: f64 = loads
                .iter()
                .map(|(at, force)| (at[0] - about[0]) * force[1] - (at[1] - about[1]) * force[0])
                .sum();
            let ours = BOTTOM.righting(heel_deg, height).unwrap();
            assert_relative_eq!(ours, moment, max_relative = 1e-12);
        }
    }

    #[test]
    fn physics_the_low_side_carries_more_and_a_flat_bottom_gives_no_answer() {
        assert!(BOTTOM.half_lift(12.0) > BOTTOM.half_lift(18.0));
        assert!(BOTTOM.righting(5.0, 0.0).unwrap() > 0.0);
        let flat = HeeledBottom { deadrise_deg: 0.0, ..BOTTOM };
        assert_eq!(flat.righting(1.0, 0.0), None);
        assert_eq!(BOTTOM.righting(19.0, 0.0), None);
    }

    /// By hand: ∫ y √(1 − y²) dy / ∫ √(1 − y²) dy = (1/3)/(π/4) over half a span, of half a beam.
    #[test]
    fn physics_the_middle_of_half_an_ellipse() {
        let steps = 200_000;
        let (mut moment, mut load) = (0.0, 0.0);
        for step in 0..steps {
            let y = (f64::from(step) + 0.5) / f64::from(steps);
            let here = (1.0 - y * y).sqrt();
            moment += y * here;
            load += here;
        }
        assert_relative_eq!(0.5 * moment / load, HALF_LOAD_BEAMS, max_relative = 1e-6);
    }
}
