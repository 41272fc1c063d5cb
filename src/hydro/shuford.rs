//! Lift of a planing surface by another theory: half of low-aspect-ratio wing theory, cross flow, and a static term.
//!
//! Source: Shuford, C. L. (1958), A Theoretical and Experimental Study of
//! Planing Surfaces Including Effects of Cross Section and Plan Form, NACA
//! Technical Report 1355; static term after Brown, P. W. (1971), Davidson
//! Laboratory Report 1463. All of it from memory, not read: the terms, their
//! coefficients, and least of all where each part acts. Held against the flat
//! plate of NACA TN 2981 the lift is within 5 % for λ above 1; shorter
//! plates it reads about 10 % high.
//!
//! Range, from memory: pure planing, that is speeds at which gravity does not
//! matter, on sharp-chined plates and prisms of 0°, 20° and 40° of deadrise,
//! at trims well beyond those of boats. The speeds of boats on their hump are
//! the static term's, which is why [`static_share`] is watched. No limit of the
//! wetted length is remembered; the 4 beams of [`super::lift`] are kept.
//!
//! Coefficients are shares of q b², as in [`super::lift`]: what Shuford gives
//! on the wetted area λ b² is multiplied by λ, and his aspect ratio is 1/λ.

use std::f64::consts::PI;

/// Slope of the linear part on b², per radian, as the plate grows long. From memory.
const LINEAR: f64 = 0.5 * PI;
/// Cross-flow drag coefficient C_D,c of a section with sharp chines. From memory.
const CROSS_FLOW_DRAG: f64 = 4.0 / 3.0;
/// Coefficient of Brown's static term; the whole wedge of displaced water would weigh ½. From memory.
const STATIC: f64 = 0.1 * PI;

/// Where each part acts forward of the transom, as a share of the mean wetted length: linear, cross-flow, static.
///
/// From memory, and unsure. The linear ¾ is where thin-wing theory puts the
/// load of a plate, the cross-flow ½ the middle of a load spread evenly, the
/// static ⅓ the centre of a wedge of water.
pub const ACTS_AT: [f64; 3] = [0.75, 0.5, 1.0 / 3.0];

/// Linear part of the lift coefficient, ½ π τ cos²τ (1 − sin β) λ/(1 + λ), τ in radians.
///
/// About half of what a thin wing of aspect ratio 1/λ lifts, since the water wets
/// one side; nearest to it at about a beam of wetted length.
#[must_use]
pub fn linear(trim_deg: f64, wetted_length_ratio: f64, deadrise_deg: f64) -> f64 {
    TrimFactors::new(trim_deg, deadrise_deg).linear * wetted_length_ratio
        / (1.0 + wetted_length_ratio)
}

/// Cross-flow part of the lift coefficient, C_D,c λ sin²τ cos³τ cos β with C_D,c = 4/3.
#[must_use]
pub fn cross_flow(trim_deg: f64, wetted_length_ratio: f64, deadrise_deg: f64) -> f64 {
    TrimFactors::new(trim_deg, deadrise_deg).cross_flow * wetted_length_ratio
}

/// Static part of the lift coefficient, 0.1 π sin 2τ (λ/Cv)².
///
/// Brown's addition for speeds at which the weight of the water counts. It
/// knows no deadrise.
#[must_use]
pub fn static_part(trim_deg: f64, wetted_length_ratio: f64, speed_coefficient: f64) -> f64 {
    let ratio = wetted_length_ratio / speed_coefficient;
    TrimFactors::new(trim_deg, 0.0).static_part * ratio * ratio
}

/// Lift coefficient on q b²: vertical load of linear, cross-flow and static part.
#[must_use]
pub fn lift_coefficient(
    trim_deg: f64,
    wetted_length_ratio: f64,
    speed_coefficient: f64,
    deadrise_deg: f64,
) -> f64 {
    TrimFactors::new(trim_deg, deadrise_deg)
        .parts(wetted_length_ratio, speed_coefficient)
        .iter()
        .sum()
}

/// Share of the lift that the static part carries.
#[must_use]
pub fn static_share(
    trim_deg: f64,
    wetted_length_ratio: f64,
    speed_coefficient: f64,
    deadrise_deg: f64,
) -> f64 {
    let parts =
        TrimFactors::new(trim_deg, deadrise_deg).parts(wetted_length_ratio, speed_coefficient);
    parts[2] / parts.iter().sum::<f64>()
}

/// Centre of pressure forward of the transom as a share of the mean wetted length: the mean of [`ACTS_AT`], weighed by the parts of the lift.
#[must_use]
pub fn centre_of_pressure_share(parts: [f64; 3]) -> f64 {
    let moment: f64 = parts.iter().zip(ACTS_AT).map(|(part, at)| part * at).sum();
    moment / parts.iter().sum::<f64>()
}

/// What trim and deadrise alone make of each part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct TrimFactors {
    /// Of λ/(1 + λ).
    linear: f64,
    /// Of λ.
    cross_flow: f64,
    /// Of (λ/Cv)².
    static_part: f64,
}

impl TrimFactors {
    pub fn new(trim_deg: f64, deadrise_deg: f64) -> Self {
        let trim = trim_deg.to_radians();
        let (sin, cos) = trim.sin_cos();
        let (sin_deadrise, cos_deadrise) = deadrise_deg.to_radians().sin_cos();
        Self {
            linear: LINEAR * trim * cos * cos * (1.0 - sin_deadrise),
            cross_flow: CROSS_FLOW_DRAG * sin * sin * cos * cos * cos * cos_deadrise,
            static_part: STATIC * 2.0 * sin * cos,
        }
    }

    /// Linear, cross-flow and static part of the lift coefficient.
    pub fn parts(&self, wetted_length_ratio: f64, speed_coefficient: f64) -> [f64; 3] {
        let ratio = wetted_length_ratio / speed_coefficient;
        [
            self.linear * wetted_length_ratio / (1.0 + wetted_length_ratio),
            self.cross_flow * wetted_length_ratio,
            self.static_part * ratio * ratio,
        ]
    }

    /// Slope of the lift coefficient by λ from its parts; positive, since each part rises with λ.
    pub fn slope([linear, cross_flow, static_part]: [f64; 3], wetted_length_ratio: f64) -> f64 {
        (linear / (1.0 + wetted_length_ratio) + cross_flow + 2.0 * static_part)
            / wetted_length_ratio
    }

    /// Slope of the lift coefficient by ln τ at small trims: linear and static part go with τ, the cross-flow part with τ².
    pub fn by_trim([linear, cross_flow, static_part]: [f64; 3]) -> f64 {
        linear + 2.0 * cross_flow + static_part
    }

    /// The mean wetted length ratio that carries a lift coefficient; unique, since every part rises with it.
    ///
    /// Times 1 + λ the balance is a cubic, s λ³ + (c + s) λ² + (l + c − C) λ − C = 0
    /// with s the static factor over Cv², convex for λ > 0 and negative at 0:
    /// Newton's method from above falls on the one root. Each part alone
    /// bounds it from above. None when it has not come to rest.
    pub fn wetted_length_ratio(
        &self,
        lift_coefficient: f64,
        speed_coefficient: f64,
    ) -> Option<f64> {
        let wanted = lift_coefficient;
        let (linear, cross) = (self.linear, self.cross_flow);
        let weight = self.static_part / (speed_coefficient * speed_coefficient);
        let mut start = (wanted / cross).min((wanted / weight).sqrt());
        if linear > wanted {
            start = start.min(wanted / (linear - wanted));
        }
        super::lift::newton(start, |length| {
            let square = length * (cross + weight);
            let cube = length * length * weight;
            let excess = length * (cube + square + linear + cross - wanted) - wanted;
            excess / (3.0 * cube + 2.0 * square + linear + cross - wanted)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// So fast that the static part vanishes.
    const FAST: f64 = 1e9;

    #[test]
    fn physics_no_trim_no_lift() {
        for deadrise_deg in [0.0, 20.0, 40.0] {
            assert_relative_eq!(lift_coefficient(0.0, 2.0, 1.5, deadrise_deg), 0.0);
        }
    }

    /// Jones, R. T. (1946), NACA Report 835: a slender wing lifts ½ π A α on its area, ½ π α on b². From memory.
    ///
    /// The term reaches the whole of it, where a plate wetted on one side should
    /// reach half: it is a fit to plates of a few beams, not a limit theory.
    #[test]
    fn physics_a_long_plate_lifts_as_a_slender_wing() {
        let trim_deg = 0.01_f64;
        let long = linear(trim_deg, 1e6, 0.0);
        assert_relative_eq!(long, 0.5 * PI * trim_deg.to_radians(), max_relative = 1e-5);
    }

    /// Two-dimensional planing at small trim: π τ on the wetted length, half of the wing's 2 π τ. From memory.
    ///
    /// The term reaches half of that again on a plate that is all beam; it is
    /// what makes it read about right at a beam of length.
    #[test]
    fn physics_a_wide_plate_lifts_half_of_the_two_dimensional_theory() {
        let trim_deg = 0.01_f64;
        let on_wetted_area = linear(trim_deg, 1e-6, 0.0) / 1e-6;
        let theory = PI * trim_deg.to_radians();
        assert_relative_eq!(on_wetted_area, 0.5 * theory, max_relative = 1e-5);
    }

    /// Helmbold, H. B. (1942): a wing of aspect ratio A lifts 2 π A α/(2 + √(4 + A²)) on its area. From memory.
    ///
    /// Half of it is linear planing at high speed. At a beam of wetted length
    /// the two differ by 6 %; from 0.7 to 1.4 beams by less than a fifth.
    #[test]
    fn physics_a_square_plate_lifts_half_of_a_square_wing() {
        let trim_deg = 0.01_f64;
        for (length, allowed) in [(1.0, 0.07), (0.7, 0.2), (1.4, 0.2)] {
            let aspect = 1.0 / length;
            let root = f64::sqrt(4.0 + aspect * aspect);
            let wing = 2.0 * PI * aspect / (2.0 + root) * trim_deg.to_radians();
            let on_wetted_area = linear(trim_deg, length, 0.0) / length;
            assert_relative_eq!(on_wetted_area, 0.5 * wing, max_relative = allowed);
        }
    }

    /// Cross-flow principle: a long flat plate feels ½ρ (V sin τ)² C_D,c on its area, square to it.
    ///
    /// Its vertical part has cos τ, the term cos³τ; 2 % at 8°.
    #[test]
    fn physics_a_very_long_plate_is_held_up_by_cross_flow() {
        let trim_deg = 8.0_f64;
        let (sin, cos) = trim_deg.to_radians().sin_cos();
        let on_wetted_area = lift_coefficient(trim_deg, 1e5, FAST, 0.0) / 1e5;
        let principle = CROSS_FLOW_DRAG * sin * sin * cos;
        assert_relative_eq!(on_wetted_area, principle, max_relative = 0.021);
    }

    /// Archimedes: a flat plate at rest displaces a wedge ½ l² b sin τ cos τ, ½ sin 2τ (λ/Cv)² as a coefficient on q b².
    #[test]
    fn physics_the_static_part_is_less_than_the_whole_wedge() {
        let (trim_deg, lambda, cv) = (5.0_f64, 3.0, 1.2);
        let wedge = 0.5 * (2.0 * trim_deg.to_radians()).sin() * (lambda / cv) * (lambda / cv);
        let share = static_part(trim_deg, lambda, cv) / wedge;
        assert!((0.6..0.7).contains(&share), "{share}");
    }

    #[test]
    fn physics_lift_rises_with_trim_and_length_and_falls_with_speed_and_deadrise() {
        for trim_deg in [1.0, 4.0, 14.0] {
            for lambda in [0.2, 1.0, 3.9] {
                for cv in [1.0, 3.0, 12.0] {
                    for deadrise_deg in [0.0, 18.0, 39.0] {
                        let at = |trim_deg, lambda, cv, deadrise_deg| {
                            lift_coefficient(trim_deg, lambda, cv, deadrise_deg)
                        };
                        let here = at(trim_deg, lambda, cv, deadrise_deg);
                        assert!(at(trim_deg + 1.0, lambda, cv, deadrise_deg) > here);
                        assert!(at(trim_deg, lambda + 0.1, cv, deadrise_deg) > here);
                        assert!(at(trim_deg, lambda, cv + 1.0, deadrise_deg) < here);
                        assert!(at(trim_deg, lambda, cv, deadrise_deg + 1.0) < here);
                    }
                }
            }
        }
    }

    #[test]
    fn physics_the_slope_is_that_of_the_lift() {
        for (trim_deg, lambda, cv, deadrise_deg) in
            [(1.0, 8.0, 1.0, 0.0), (5.0, 1.5, 2.5, 20.0), (15.0, 0.05, 10.0, 40.0)]
        {
            let factors = TrimFactors::new(trim_deg, deadrise_deg);
            let step = 1e-6 * lambda;
            let [below, above] = [lambda - step, lambda + step]
                .map(|length| lift_coefficient(trim_deg, length, cv, deadrise_deg));
            let slope = TrimFactors::slope(factors.parts(lambda, cv), lambda);
            assert_relative_eq!((above - below) / (2.0 * step), slope, max_relative = 1e-8);
        }
    }

    #[test]
    fn physics_the_inverse_undoes_the_lift() {
        for trim_deg in [1.0, 3.0, 15.0] {
            for deadrise_deg in [0.0, 20.0, 40.0] {
                for cv in [1.0, 3.0, 14.0] {
                    for lambda in [1e-9, 0.01, 0.7, 3.0, 40.0] {
                        let lift = lift_coefficient(trim_deg, lambda, cv, deadrise_deg);
                        let back =
                            TrimFactors::new(trim_deg, deadrise_deg).wetted_length_ratio(lift, cv);
                        assert_relative_eq!(back.unwrap(), lambda, max_relative = 1e-11);
                    }
                }
            }
        }
    }

    #[test]
    fn physics_the_centre_moves_aft_as_the_static_part_takes_over() {
        let at = |cv: f64| centre_of_pressure_share(TrimFactors::new(4.0, 0.0).parts(2.0, cv));
        let speeds = [FAST, 6.0, 3.0, 1.5, 1.0, 0.01];
        for pair in speeds.windows(2) {
            assert!(at(pair[0]) > at(pair[1]));
        }
        assert_relative_eq!(at(1e-6), 1.0 / 3.0, max_relative = 1e-6);
        assert!(at(FAST) < 0.75 && at(FAST) > 0.7);
    }
}
