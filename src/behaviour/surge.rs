//! Time and distance from a net force: m dV/dt = F(V).
//!
//! The force depends on the speed alone, so the equation needs no solver in time:
//! with the speed as the independent variable the time is the integral of
//! m dV/F and the distance that of m V dV/F. Both are found by Gauss–Legendre
//! quadrature (nodes and weights from the `gauss-quad` library), on panels that
//! are halved until a panel and its halves agree. A general solver of ordinary
//! differential equations would step through time, take more evaluations of the
//! balance, and come to rest unseen where the force vanishes; here that speed
//! is an end of the integral, found as a root.

use std::num::NonZeroUsize;

use gauss_quad::GaussLegendre;
use thiserror::Error;

/// Nodes on a panel.
const NODES: NonZeroUsize = NonZeroUsize::new(6).expect("six");
/// How closely a panel and its halves must agree.
const AGREEMENT: f64 = 1e-7;
/// Halvings at most.
const HALVINGS: u32 = 24;

/// Time and distance of a change of speed.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Surge {
    /// Time, seconds.
    pub time_s: f64,
    /// Distance, metres.
    pub distance_m: f64,
}

impl std::ops::Add for Surge {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self { time_s: self.time_s + other.time_s, distance_m: self.distance_m + other.distance_m }
    }
}

/// Why there is no time between two speeds.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
pub enum SurgeError {
    /// The force does not push the boat on at a speed.
    #[error("the boat is not pushed on at {speed_m_s:.3} m/s")]
    NoPush {
        /// The speed.
        speed_m_s: f64,
    },
    /// A panel and its halves did not come to agree.
    #[error(
        "time and distance near {speed_m_s:.3} m/s did not converge in {halvings} halvings: {change:.1e} of them was left"
    )]
    NotConverged {
        /// Where.
        speed_m_s: f64,
        /// Halvings done.
        halvings: u32,
        /// What halving still changed, as a share.
        change: f64,
    },
}

/// Time and distance from one speed to a higher one, for a mass and a net force in newtons at a speed in m/s.
///
/// # Errors
/// [`SurgeError::NoPush`] where the force is not positive at a speed looked at,
/// [`SurgeError::NotConverged`] when halving a panel goes on changing it.
pub fn between(
    mass_kg: f64,
    [from_m_s, to_m_s]: [f64; 2],
    mut net_force_n: impl FnMut(f64) -> f64,
) -> Result<Surge, SurgeError> {
    let rule = GaussLegendre::new(NODES);
    let mut panel = |[from, to]: [f64; 2]| {
        let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
        let mut sum = Surge::default();
        for &(node, weight) in rule.as_node_weight_pairs() {
            let speed_m_s = middle + half * node;
            let force_n = net_force_n(speed_m_s);
            // Not a number is no push either.
            if force_n.partial_cmp(&0.0) != Some(std::cmp::Ordering::Greater) {
                return Err(SurgeError::NoPush { speed_m_s });
            }
            let time_s = weight * half * mass_kg / force_n;
            sum = sum + Surge { time_s, distance_m: time_s * speed_m_s };
        }
        Ok(sum)
    };
    if to_m_s <= from_m_s {
        return Ok(Surge::default());
    }
    let whole = panel([from_m_s, to_m_s])?;
    halved([from_m_s, to_m_s], whole, HALVINGS, &mut panel)
}

/// A panel by its halves, and theirs, until they agree.
fn halved(
    [from, to]: [f64; 2],
    whole: Surge,
    left: u32,
    panel: &mut impl FnMut([f64; 2]) -> Result<Surge, SurgeError>,
) -> Result<Surge, SurgeError> {
    let middle = 0.5 * (from + to);
    let [low, high] = [panel([from, middle])?, panel([middle, to])?];
    let both = low + high;
    let change = (both.time_s - whole.time_s).abs() / both.time_s;
    if change <= AGREEMENT {
        return Ok(both);
    }
    if left == 0 {
        return Err(SurgeError::NotConverged { speed_m_s: middle, halvings: HALVINGS, change });
    }
    let below = halved([from, middle], low, left - 1, panel)?;
    Ok(below + halved([middle, to], high, left - 1, panel)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    const MASS_KG: f64 = 3000.0;

    #[test]
    fn physics_constant_force() {
        // v = F t/m, x = v²m/(2F).
        let surge = between(MASS_KG, [0.0, 12.0], |_| 6000.0).unwrap();
        assert_relative_eq!(surge.time_s, 12.0 * MASS_KG / 6000.0, max_relative = 1e-12);
        assert_relative_eq!(surge.distance_m, 144.0 * MASS_KG / 12_000.0, max_relative = 1e-12);
    }

    #[test]
    fn physics_constant_power() {
        // ½ m v² = P t, x = m v³/(3P).
        let surge = between(MASS_KG, [0.0, 15.0], |v| 90_000.0 / v).unwrap();
        assert_relative_eq!(surge.time_s, 0.5 * MASS_KG * 225.0 / 90_000.0, max_relative = 1e-10);
        let metres = MASS_KG * 3375.0 / 270_000.0;
        assert_relative_eq!(surge.distance_m, metres, max_relative = 1e-10);
    }

    #[test]
    fn physics_constant_thrust_against_drag_by_the_square_of_speed() {
        // T − k V²: v = v∞ tanh(T t/(m v∞)), x = (m/k) ln cosh(…), v∞ = √(T/k).
        let (thrust_n, k) = (8000.0_f64, 20.0_f64);
        let terminal: f64 = (thrust_n / k).sqrt();
        for share in [0.3, 0.9, 0.999] {
            let speed = share * terminal;
            let surge = between(MASS_KG, [0.0, speed], |v| thrust_n - k * v * v).unwrap();
            let time = MASS_KG * terminal / thrust_n * share.atanh();
            assert_relative_eq!(surge.time_s, time, max_relative = 1e-7);
            let metres = MASS_KG / k * (thrust_n * time / (MASS_KG * terminal)).cosh().ln();
            assert_relative_eq!(surge.distance_m, metres, max_relative = 1e-7);
        }
    }

    #[test]
    fn physics_parts_sum_to_the_whole_however_they_are_cut() {
        // A force with a kink and a hump, as a boat's.
        let force =
            |v: f64| (7000.0_f64).min(60_000.0 / v) - 900.0 * v.min(5.0) + 30.0 * (v - 5.0).abs();
        let whole = between(MASS_KG, [0.0, 10.0], force).unwrap();
        for parts in [2, 7, 40] {
            let step = 10.0 / f64::from(parts);
            let cut = (0..parts).map(|part| {
                let from = step * f64::from(part);
                between(MASS_KG, [from, from + step], force).unwrap()
            });
            let sum = cut.fold(Surge::default(), |sum, part| sum + part);
            assert_relative_eq!(sum.time_s, whole.time_s, max_relative = 1e-6);
            assert_relative_eq!(sum.distance_m, whole.distance_m, max_relative = 1e-6);
        }
    }

    #[test]
    fn error_no_push() {
        let error = between(MASS_KG, [0.0, 10.0], |v| 100.0 * (5.0 - v)).unwrap_err();
        let SurgeError::NoPush { speed_m_s } = error else { panic!("{error}") };
        assert!(speed_m_s >= 5.0);
        let error = SurgeError::NoPush { speed_m_s: 5.5 };
        assert_eq!(error.to_string(), "the boat is not pushed on at 5.500 m/s");
    }

    #[test]
    fn error_force_that_vanishes_within_is_no_answer() {
        // 1/|v − π|: the time is infinite, and no panel converges.
        let error = between(1.0, [3.0, 4.0], |v| (v - std::f64::consts::PI).abs()).unwrap_err();
        assert!(matches!(error, SurgeError::NotConverged { halvings: HALVINGS, .. }), "{error}");
    }
}
