//! Wetted lengths and draft of a prismatic hull, and the marks that go with them.
//!
//! Source: Savitsky (1964), equations 9 to 14. The wetted lengths hold for
//! Cv ≥ 2, and at Cv = 1 for deadrise up to 10°; at Cv = 1 and 20° or 30° they
//! break down when the stagnation angle falls below about 17°.

use std::f64::consts::PI;

/// Difference of wetted keel and wetted chine length over the beam, (L_k − L_c)/b = tan β/(π tan τ). Equation 9.
#[must_use]
pub fn keel_minus_chine(deadrise_deg: f64, trim_deg: f64) -> f64 {
    deadrise_deg.to_radians().tan() / (PI * trim_deg.to_radians().tan())
}

/// Wetted keel length over the beam: λ + half of [`keel_minus_chine`]. Equation 11, λ = (L_k + L_c)/(2 b).
#[must_use]
pub fn keel(wetted_length_ratio: f64, deadrise_deg: f64, trim_deg: f64) -> f64 {
    wetted_length_ratio + 0.5 * keel_minus_chine(deadrise_deg, trim_deg)
}

/// Wetted chine length over the beam: λ − half of [`keel_minus_chine`]. Negative means the chine runs dry ahead of the transom.
#[must_use]
pub fn chine(wetted_length_ratio: f64, deadrise_deg: f64, trim_deg: f64) -> f64 {
    wetted_length_ratio - 0.5 * keel_minus_chine(deadrise_deg, trim_deg)
}

/// Draft of the keel at the transom over the beam, d/b = (L_k/b) sin τ. Equation 10.
#[must_use]
pub fn draft(wetted_keel_over_beam: f64, trim_deg: f64) -> f64 {
    wetted_keel_over_beam * trim_deg.to_radians().sin()
}

/// Angle γ between the stagnation line and the keel, seen from below, degrees: tan γ = (π/2) tan τ/tan β.
///
/// Without deadrise the stagnation line stands square to the keel: 90°.
#[must_use]
pub fn stagnation_angle_deg(deadrise_deg: f64, trim_deg: f64) -> f64 {
    (0.5 * PI * trim_deg.to_radians().tan()).atan2(deadrise_deg.to_radians().tan()).to_degrees()
}

/// Mean wetted length ratio of a flat plate from its undisturbed one, with the wave rise: λ = 1.60 λ₁ − 0.30 λ₁² up to 1, then λ₁ + 0.30 up to 4. Equations 4 and 5.
#[must_use]
pub fn flat_plate_wave_rise(undisturbed_length_ratio: f64) -> f64 {
    if undisturbed_length_ratio <= 1.0 {
        1.60 * undisturbed_length_ratio - 0.30 * undisturbed_length_ratio * undisturbed_length_ratio
    } else {
        undisturbed_length_ratio + 0.30
    }
}

/// Mark of the inception of planing, Cv/√λ: planing fully developed from 1 at τ ≥ 4° and from 2 at τ = 2°. A convenient mark, not a cliff.
#[must_use]
pub fn inception(speed_coefficient: f64, wetted_length_ratio: f64) -> f64 {
    speed_coefficient / wetted_length_ratio.sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Savitsky (1964), text on the range of the wetted-length equation: β = 20°, τ = 4° gives 17°, printed to the degree.
    #[test]
    fn published_stagnation_angle() {
        approx::assert_abs_diff_eq!(stagnation_angle_deg(20.0, 4.0), 17.0, epsilon = 0.5);
    }

    #[test]
    fn physics_wave_rise_has_no_jump_at_its_joint() {
        assert_relative_eq!(flat_plate_wave_rise(1.0), 1.30, max_relative = 1e-12);
        assert_relative_eq!(flat_plate_wave_rise(1.0 + 1e-9), 1.30, max_relative = 1e-8);
    }

    #[test]
    fn physics_a_flat_plate_has_equal_keel_and_chine() {
        assert_relative_eq!(keel(2.0, 0.0, 4.0), chine(2.0, 0.0, 4.0));
        assert_relative_eq!(stagnation_angle_deg(0.0, 4.0), 90.0);
    }
}
