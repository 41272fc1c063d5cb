//! Where the pressure on the bottom acts.

/// Where the dynamic part acts, as a share of the mean wetted length; equation 20.
const DYNAMIC: f64 = 0.75;
/// Constant of the denominator of equation 20: without speed the share is 0.75 − 1/2.39.
const STATIC: f64 = 2.39;

/// Centre of pressure forward of the transom as a share of the mean wetted length, C_p = 0.75 − 1/(5.21 Cv²/λ² + 2.39).
///
/// Source: Savitsky (1964), equation 20. The dynamic part acts at ¾, the
/// buoyant part at ⅓ of the mean wetted length.
#[must_use]
pub fn share_of_wetted_length(wetted_length_ratio: f64, speed_coefficient: f64) -> f64 {
    let ratio = speed_coefficient / wetted_length_ratio;
    DYNAMIC - 1.0 / (5.21 * ratio * ratio + STATIC)
}

/// Slope of the distance C_p λ of the centre of pressure by λ, from the share C_p at hand.
///
/// With w = 0.75 − C_p equation 20 gives d(C_p λ)/dλ = C_p − 2 w (1 − 2.39 w).
#[must_use]
pub fn distance_slope(share: f64) -> f64 {
    let less = DYNAMIC - share;
    share - 2.0 * less * (1.0 - STATIC * less)
}

#[cfg(test)]
mod tests {
    use super::{distance_slope, share_of_wetted_length};
    use approx::assert_relative_eq;

    #[test]
    fn physics_the_slope_is_that_of_the_distance() {
        for (lambda, cv) in [(0.3, 4.0), (1.5, 1.1), (3.8, 2.0)] {
            let distance = |lambda: f64| lambda * share_of_wetted_length(lambda, cv);
            let slope = (distance(lambda + 1e-6) - distance(lambda - 1e-6)) / 2e-6;
            let share = share_of_wetted_length(lambda, cv);
            assert_relative_eq!(distance_slope(share), slope, max_relative = 1e-8);
        }
    }

    #[test]
    fn physics_centre_lies_between_the_buoyant_third_and_the_dynamic_three_quarters() {
        assert_relative_eq!(share_of_wetted_length(1e-6, 3.0), 0.75, max_relative = 1e-9);
        let slow = share_of_wetted_length(1e3, 1.0);
        assert!((0.32..0.34).contains(&slow), "{slow}");
    }
}
