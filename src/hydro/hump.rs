//! Correction of the resistance near the hump.
//!
//! Source: Blount, D. L. & Fox, D. L. (1976), Small-Craft Power Prediction,
//! Marine Technology 13(1). From memory. The 1964 equations read low for
//! F∇ of about 1 to 2.5.

/// Half-width of the rounding that joins the factor to its value at F∇ = 1.
const ROUNDING: f64 = 0.1;

/// M = 0.98 + 2 (LCG/b)^1.45 e^{−2(F∇ − 0.85)} − 3 (LCG/b) e^{−3(F∇ − 0.85)}, never below 1; multiplies the bare-hull resistance.
///
/// Given for F∇ ≥ 1. Below, the speed is rounded off to 0.95 without a jump in
/// value or slope, and the point is flagged.
#[must_use]
pub fn resistance_factor(lcg_over_beam: f64, volume_froude_number: f64) -> f64 {
    let excess = rounded(volume_froude_number) - 0.85;
    let factor = 0.98 + 2.0 * lcg_over_beam.powf(1.45) * (-2.0 * excess).exp()
        - 3.0 * lcg_over_beam * (-3.0 * excess).exp();
    factor.max(1.0)
}

/// F∇ itself from 1 upward; constant below 0.9; a parabola that meets both in value and slope between.
fn rounded(volume_froude_number: f64) -> f64 {
    let start = 1.0 - ROUNDING;
    if volume_froude_number >= 1.0 {
        volume_froude_number
    } else {
        let above = (volume_froude_number - start).max(0.0);
        1.0 - 0.5 * ROUNDING + above * above / (2.0 * ROUNDING)
    }
}

/// Volume Froude number F∇ = V/√(g ∇^⅓).
#[must_use]
pub fn volume_froude_number(speed_m_s: f64, displaced_volume_m3: f64) -> f64 {
    speed_m_s / speed_of_one_m_s(displaced_volume_m3)
}

/// Speed at which F∇ is 1, √(g ∇^⅓).
#[must_use]
pub fn speed_of_one_m_s(displaced_volume_m3: f64) -> f64 {
    (crate::physical::STANDARD_GRAVITY_M_S2 * displaced_volume_m3.cbrt()).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn physics_joint_at_one_is_smooth() {
        let step = 1e-5;
        let at = |f| resistance_factor(1.2, f);
        assert_relative_eq!(at(1.0 - 1e-9), at(1.0 + 1e-9), max_relative = 1e-8);
        let below = (at(1.0) - at(1.0 - step)) / step;
        let above = (at(1.0 + step) - at(1.0)) / step;
        assert_relative_eq!(below, above, max_relative = 1e-3);
    }

    #[test]
    fn physics_factor_fades_at_speed_and_is_never_below_one() {
        assert_relative_eq!(resistance_factor(1.2, 6.0), 1.0);
        assert!(resistance_factor(1.2, 1.5) > 1.05);
        for froude in [0.5, 0.95, 1.0, 1.3, 2.0, 3.0] {
            assert!(resistance_factor(0.3, froude) >= 1.0);
        }
    }
}
