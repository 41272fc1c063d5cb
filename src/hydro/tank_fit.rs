//! The one correction that brings the printed equations to the tanks: the best estimate.
//!
//! A factor on the distance of the centre of pressure, smooth in deadrise and
//! speed coefficient, and a share of the hump factor. Fitted by least squares of
//! the trim to three sources, each counted by itself: the prismatic models of
//! Fridsma (1969), Davidson Laboratory report R-1275, and Fridsma (1971),
//! R-1495, and, at three tenths of their weight and from F∇ 2 on, the
//! regression of Series 62 (Radojčić 1991). How it was fitted and what it
//! leaves, one source left out in turn, is computed in [`crate::doubt::calibrate`].

/// Deadrise about which the factor is written, degrees.
const MIDDLE_DEADRISE_DEG: f64 = 20.0;
/// Deadrise that counts as one unit, degrees.
const DEADRISE_UNIT_DEG: f64 = 10.0;
/// Deadrises of the models; the factor is level outside them, degrees.
pub const TESTED_DEADRISE_DEG: [f64; 2] = [10.0, 30.0];
/// What 1/Cv² counts for at most. The slowest models ran at 0.71 (Cv 1.19); the factor is all but level at lower speeds.
const MOST_SLOW: f64 = 0.7;
/// Coefficients of 1, [`slowness`], x and x × [`slowness`], x in units of deadrise from its middle.
pub const COEFFICIENTS: [f64; 4] = [-0.049, 0.116, -0.093, 0.104];
/// Share of the published hump factor's excess over 1 that the models need.
pub const HUMP_SHARE: f64 = 0.33;

/// 1/Cv² as it counts, s/(1 + (s/0.7)⁴)^¼ with s = 1/Cv²: s itself at speed, and levelling off below Cv 1.2 without a corner.
#[must_use]
pub fn slowness(speed_coefficient: f64) -> f64 {
    let inverse_square = 1.0 / (speed_coefficient * speed_coefficient);
    inverse_square / (1.0 + (inverse_square / MOST_SLOW).powi(4)).sqrt().sqrt()
}

/// What the coefficients multiply at a deadrise and speed coefficient.
#[must_use]
pub fn terms(deadrise_deg: f64, speed_coefficient: f64) -> [f64; 4] {
    let [least, most] = TESTED_DEADRISE_DEG;
    let from_middle = (deadrise_deg.clamp(least, most) - MIDDLE_DEADRISE_DEG) / DEADRISE_UNIT_DEG;
    let slow = slowness(speed_coefficient);
    [1.0, slow, from_middle, from_middle * slow]
}

/// Factor on the centre of pressure's distance from the mean trailing edge, over Savitsky's (1964).
///
/// From 1.1 at 10° and speed to 0.9 at 30°. Savitsky's equations trim a deep-V
/// bottom too much and a flat one a little too little.
#[must_use]
pub fn centre_of_pressure_factor(deadrise_deg: f64, speed_coefficient: f64) -> f64 {
    let terms = terms(deadrise_deg, speed_coefficient);
    1.0 + terms.iter().zip(COEFFICIENTS).map(|(term, coefficient)| term * coefficient).sum::<f64>()
}

/// How far a difference of hull form between a prism and a real hull with a bow acts: 1 up to F∇ 1.5, half from 2.25 on.
///
/// The distance of Series 62 to the best estimate falls so with speed.
#[must_use]
pub fn hull_form_share(volume_froude_number: f64) -> f64 {
    1.0 - 0.5 * ((volume_froude_number - 1.5) / 0.75).clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn physics_the_factor_is_level_outside_the_tests_and_has_no_corner() {
        for (cv, edge) in [(1.0, 10.0), (2.5, 30.0), (6.0, 10.0)] {
            let out = if edge > 20.0 { edge + 5.0 } else { edge - 5.0 };
            assert_relative_eq!(
                centre_of_pressure_factor(edge, cv),
                centre_of_pressure_factor(out, cv)
            );
        }
        // s itself at speed, no more than it may count for at no speed, and everywhere of one slope from both sides.
        assert_relative_eq!(slowness(3.0), 1.0 / 9.0, max_relative = 2e-4);
        assert_relative_eq!(slowness(1e-3), MOST_SLOW, max_relative = 1e-4);
        for step in 0..200 {
            let cv = 0.9 + 0.01 * f64::from(step);
            let [below, here, above] = [cv - 1e-4, cv, cv + 1e-4].map(slowness);
            assert!(below > here && here > above, "{cv}");
            assert!((above - 2.0 * here + below).abs() < 1e-7, "{cv}");
        }
        for deadrise_deg in [0.0, 10.0, 20.0, 30.0, 40.0] {
            for cv in [1.0, 1.5, 2.5, 4.0, 10.0] {
                let factor = centre_of_pressure_factor(deadrise_deg, cv);
                assert!((0.84..1.1).contains(&factor), "{deadrise_deg} {cv}: {factor}");
            }
        }
        assert_relative_eq!(hull_form_share(1.0), 1.0);
        assert_relative_eq!(hull_form_share(3.0), 0.5);
    }
}
