//! Whether the flow off the chines meets the sides of the hull again.
//!
//! Source: Savitsky & Brown (1976), Procedures for Hydrodynamic Evaluation of
//! Planing Hulls in Smooth and Rough Water, Marine Technology 13(4), equations
//! 1 to 3: the flow that leaves the chine at speed stays clear of a vertical
//! side over a length of 3 Cv² sin τ beams, and wets it from there to the
//! transom. A hull whose chine flats or spray rails turn the water down or
//! outward throws it clear for longer, perhaps all the way.
//!
//! It matters with planes: in the tests of Gaylo & Roske (2019) they raised the
//! resistance of a hull with vertical sides by 2 to 14 % above F∇ 2.7, where a
//! balance without wet sides has them lower it by 2 to 8 %.

use super::wetted;

/// Height of the sides taken to be wet, over the beam. Judged.
///
/// The chine lies 0.05 beams (trim 2°) to 0.3 beams (8°, on the hump) below the
/// level water at the transom. A fifth of the beam lies between; with it no
/// saving stands in the tests of Gaylo & Roske (2019) that was not measured. What
/// those tests cost beyond the balance would need 0.4 to 0.6, part of which is a
/// wet bow.
pub const WETTED_HEIGHT: f64 = 0.2;

/// Length over the beam along which the flow off the chine stays clear of a vertical side, 3 Cv² sin τ. Equation 2.
#[must_use]
pub fn clear_length(speed_coefficient: f64, trim_deg: f64) -> f64 {
    3.0 * speed_coefficient * speed_coefficient * trim_deg.to_radians().sin()
}

/// Length over the beam, along the chine from the transom, over which a vertical side is wet: λ_c1 − 3 Cv² sin τ, never below 0. Equations 1 to 3.
///
/// λ_c1 is the wetted chine, λ − 0.16 tan β/tan τ; its 0.16 is the 1/(2π) of
/// [`wetted::chine`], rounded.
#[must_use]
pub fn side_wetted_length(
    wetted_length_ratio: f64,
    deadrise_deg: f64,
    trim_deg: f64,
    speed_coefficient: f64,
) -> f64 {
    let chine = wetted::chine(wetted_length_ratio, deadrise_deg, trim_deg);
    (chine - clear_length(speed_coefficient, trim_deg)).max(0.0)
}

/// Friction of both sides over q b²: 2 × wet length × [`WETTED_HEIGHT`] × (C_f + ΔC_f). An estimate: the height is judged.
#[must_use]
pub fn friction_coefficient(side_wetted_length: f64, coefficient_with_allowance: f64) -> f64 {
    2.0 * side_wetted_length * WETTED_HEIGHT * coefficient_with_allowance
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    /// Savitsky & Brown (1976), equations 1 to 3, by hand: λ 3, β 20°, τ 2°, Cv 3 has
    /// λ_c1 = 3 − 0.16 × 0.36397/0.034921 = 1.332 and 3 × 9 × 0.034899 = 0.942: 0.390 beams are wet.
    /// The rounding of 1/(2π) to 0.16 is worth 0.009.
    #[test]
    fn published_side_wetted_length_by_hand() {
        assert_abs_diff_eq!(clear_length(3.0, 2.0), 0.942, epsilon = 5e-4);
        assert_abs_diff_eq!(side_wetted_length(3.0, 20.0, 2.0, 3.0), 0.390, epsilon = 0.01);
    }

    #[test]
    fn physics_sides_are_dry_fast_and_bow_up_and_wet_slow_or_bow_down() {
        let wet = |trim_deg, cv| side_wetted_length(2.5, 18.0, trim_deg, cv);
        assert_abs_diff_eq!(wet(5.0, 3.0), 0.0);
        assert!(wet(5.0, 1.2) > 1.0);
        assert!(wet(3.0, 2.0) > wet(3.0, 2.2));
        // A chine that runs dry wets no side.
        assert_abs_diff_eq!(side_wetted_length(0.5, 25.0, 2.0, 0.1), 0.0);
    }

    /// One beam of both sides wet to a fifth of the beam: 0.4 b² at a friction of 0.0025 are 0.001 q b².
    #[test]
    fn physics_friction_is_that_of_two_strips() {
        assert_abs_diff_eq!(friction_coefficient(1.0, 0.0025), 0.001, epsilon = 1e-15);
    }
}
