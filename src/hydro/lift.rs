//! Lift of a prismatic planing surface, and its inverse.
//!
//! Source: Savitsky, D. (1964), Hydrodynamic Design of Planing Hulls, Marine
//! Technology 1(1), equations 15 and 16. Tested for 0.60 ≤ Cv ≤ 13,
//! 2° ≤ τ ≤ 15°, λ ≤ 4, β ≤ 30°.

/// Coefficient of the dynamic term of equation 15.
const DYNAMIC: f64 = 0.0120;
/// Coefficient of the buoyant term of equation 15.
const BUOYANT: f64 = 0.0055;
/// Exponent of the trim angle in equation 15.
const TRIM_EXPONENT: f64 = 1.1;
/// Coefficient of the deadrise correction, equation 16.
const DEADRISE: f64 = 0.0065;

/// τ^1.1, the trim factor of equation 15; τ in degrees.
#[must_use]
pub fn trim_factor(trim_deg: f64) -> f64 {
    trim_deg.powf(TRIM_EXPONENT)
}

/// Lift coefficient of a flat plate on q b², C_L0 = τ^1.1 (0.0120 λ^½ + 0.0055 λ^{5/2}/Cv²). Equation 15.
#[must_use]
pub fn flat_plate(trim_deg: f64, wetted_length_ratio: f64, speed_coefficient: f64) -> f64 {
    flat_plate_and_slope(wetted_length_ratio.sqrt(), trim_factor(trim_deg), speed_coefficient)[0]
}

/// The dynamic part alone, C_Ld0 = 0.0120 λ^½ τ^1.1; it sets the mean bottom speed (text above equation 21).
#[must_use]
pub fn flat_plate_dynamic(trim_factor: f64, wetted_length_ratio: f64) -> f64 {
    DYNAMIC * wetted_length_ratio.sqrt() * trim_factor
}

/// Lift coefficient with deadrise, C_Lβ = C_L0 − 0.0065 β C_L0^0.60. Equation 16; β in degrees.
///
/// Negative below C_L0 = (0.0065 β)^2.5, where the correlation has no meaning; zero is returned there.
#[must_use]
pub fn with_deadrise(flat_plate: f64, deadrise_deg: f64) -> f64 {
    with_deadrise_and_slope(flat_plate, deadrise_deg)[0]
}

/// [`with_deadrise`] and its derivative by the flat-plate coefficient.
pub(crate) fn with_deadrise_and_slope(flat_plate: f64, deadrise_deg: f64) -> [f64; 2] {
    let root = flat_plate.powf(0.2);
    let square = root * root;
    let correction = DEADRISE * deadrise_deg;
    if square > correction {
        [square * root * (square - correction), 1.0 - 0.6 * correction / square]
    } else {
        [0.0, 0.0]
    }
}

/// [`flat_plate`] from λ^½ and the trim factor, and its derivative by λ^½.
pub(crate) fn flat_plate_and_slope(
    root_of_length_ratio: f64,
    trim_factor: f64,
    speed_coefficient: f64,
) -> [f64; 2] {
    let buoyant = BUOYANT / (speed_coefficient * speed_coefficient);
    let fourth = buoyant * root_of_length_ratio.powi(4);
    [
        trim_factor * root_of_length_ratio * (DYNAMIC + fourth),
        trim_factor * (DYNAMIC + 5.0 * fourth),
    ]
}

/// The flat-plate coefficient C_L0 that carries C_Lβ at a deadrise: inverse of equation 16 on its rising branch.
///
/// With y = C_L0^⅕ equation 16 is y⁵ − 0.0065 β y³ = C_Lβ, convex for y above
/// its zero √(0.0065 β): Newton's method from above falls on the root. None when
/// it has not come to rest.
#[must_use]
pub fn without_deadrise(lift_coefficient: f64, deadrise_deg: f64) -> Option<f64> {
    let correction = DEADRISE * deadrise_deg;
    // (zero + x)⁵ − … ≥ x⁵, so that x⁵ = C_Lβ starts on or above the root.
    let start = correction.sqrt() + lift_coefficient.max(0.0).powf(0.2);
    let root = newton(start, |root| {
        let square = root * root;
        let excess = square * root * (square - correction) - lift_coefficient;
        excess / (square * (5.0 * square - 3.0 * correction))
    })?;
    Some(root.powi(5))
}

/// The mean wetted length ratio λ at which equation 15 gives a flat-plate coefficient; unique, since it rises with λ.
///
/// With u = λ^½ equation 15 is 0.0120 u + 0.0055 u⁵/Cv² = C_L0/τ^1.1, convex
/// and rising: Newton's method from above falls on the root. None when it has not
/// come to rest.
#[must_use]
pub fn wetted_length_ratio(
    flat_plate: f64,
    trim_factor: f64,
    speed_coefficient: f64,
) -> Option<f64> {
    let wanted = flat_plate / trim_factor;
    let buoyant = BUOYANT / (speed_coefficient * speed_coefficient);
    let start = (wanted / DYNAMIC).min((wanted / buoyant).powf(0.2));
    let root = newton(start, |root| {
        let fourth = (root * root) * (root * root);
        let excess = root * (DYNAMIC + buoyant * fourth) - wanted;
        excess / (DYNAMIC + 5.0 * buoyant * fourth)
    })?;
    Some(root * root)
}

/// Newton's method on a convex rising function, to rounding: `step` is excess over slope. None when it has not come to rest.
pub(super) fn newton(start: f64, step: impl Fn(f64) -> f64) -> Option<f64> {
    /// A step this small leaves an error of its square.
    const LAST_STEP: f64 = 1e-8;
    let mut root = start;
    for _ in 0..80 {
        let down = step(root);
        root -= down;
        if down.abs() <= LAST_STEP * root.abs() {
            return Some(root);
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn physics_the_inverses_undo_the_equations() {
        for deadrise_deg in [0.0, 5.0, 18.0, 30.0, 40.0] {
            for flat in [0.004, 0.02, 0.085, 0.4, 2.0] {
                let lift = with_deadrise(flat, deadrise_deg);
                if lift > 0.0 {
                    assert_relative_eq!(
                        without_deadrise(lift, deadrise_deg).unwrap(),
                        flat,
                        max_relative = 1e-12
                    );
                }
            }
        }
        for (trim_deg, lambda, cv) in [(1.0, 12.0, 1.0), (4.0, 1.5, 3.0), (15.0, 0.01, 13.0)] {
            let flat = flat_plate(trim_deg, lambda, cv);
            let back = wetted_length_ratio(flat, trim_factor(trim_deg), cv).unwrap();
            assert_relative_eq!(back, lambda, max_relative = 1e-12);
        }
    }

    #[test]
    fn error_a_search_that_does_not_come_to_rest_has_no_answer() {
        // Steps that stay half of what is left never get small beside it.
        assert_eq!(newton(1.0, |root| 0.5 * root), None);
        assert_eq!(newton(1.0, |_| f64::NAN), None);
        assert_eq!(without_deadrise(f64::NAN, 10.0), None);
        assert_eq!(wetted_length_ratio(0.1, f64::NAN, 2.0), None);
    }

    #[test]
    fn physics_deadrise_takes_lift_away_and_none_is_the_flat_plate() {
        assert_relative_eq!(with_deadrise(0.085, 0.0), 0.085, max_relative = 1e-14);
        assert!(with_deadrise(0.085, 20.0) < with_deadrise(0.085, 10.0));
        assert_relative_eq!(with_deadrise(1e-4, 30.0), 0.0);
    }
}
