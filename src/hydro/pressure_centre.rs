//! Where the pressure on the bottom acts.

/// Centre of pressure forward of the transom as a share of the mean wetted length, C_p = 0.75 − 1/(5.21 Cv²/λ² + 2.39).
///
/// Source: Savitsky (1964), equation 20. The dynamic part acts at ¾, the
/// buoyant part at ⅓ of the mean wetted length.
#[must_use]
pub fn share_of_wetted_length(wetted_length_ratio: f64, speed_coefficient: f64) -> f64 {
    let ratio = speed_coefficient / wetted_length_ratio;
    0.75 - 1.0 / (5.21 * ratio * ratio + 2.39)
}

#[cfg(test)]
mod tests {
    use super::share_of_wetted_length;
    use approx::assert_relative_eq;

    #[test]
    fn physics_centre_lies_between_the_buoyant_third_and_the_dynamic_three_quarters() {
        assert_relative_eq!(share_of_wetted_length(1e-6, 3.0), 0.75, max_relative = 1e-9);
        let slow = share_of_wetted_length(1e3, 1.0);
        assert!((0.32..0.34).contains(&slow), "{slow}");
    }
}
