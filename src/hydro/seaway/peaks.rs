//! Mean peaks of the acceleration at the centre of gravity and at the bow.
//!
//! Source: Savitsky & Brown (1976), see [`super`]. The number is the mean of
//! all positive peaks, normal to the keel, in g, counted from smooth running;
//! the bow is at a tenth of the length aft of the stem.

use super::Groups;

/// Factor of the acceleration at the centre of gravity.
const CENTRE_FACTOR: f64 = 0.0104;
/// Wave height over beam that is added to the waves' own.
const ADDED_WAVE_HEIGHT: f64 = 0.084;
/// Trim at which the trim's factor is 1, degrees.
const TRIM_OF_TESTS_DEG: f64 = 4.0;
/// Deadrise is taken from this many thirtieths of a degree: 5/3.
const DEADRISE_CONSTANT: f64 = 5.0 / 3.0;
/// Divisor of the deadrise, degrees.
const DEADRISE_DIVISOR_DEG: f64 = 30.0;
/// Factor of what the bow has more than the centre of gravity.
const BOW_FACTOR: f64 = 3.8;
/// Length over beam at which the bow has no more than the centre of gravity.
const BOW_LENGTH_BEAM_RATIO: f64 = 2.25;

/// Mean peak of the vertical acceleration at the centre of gravity, g:
/// n_cg = 0.0104 (H⅓/b + 0.084) (τ/4) (5/3 − β/30) (V_k/√L)² (L/b)/C_Δ.
///
/// Ranges: see [`Groups`]. The length cancels: (V_k/√L)² L/b holds V²/b alone.
/// Waves of no height leave 0.084 of the beam: the fit is not for calm water.
#[must_use]
pub fn centre_acceleration_g(groups: &Groups) -> f64 {
    CENTRE_FACTOR
        * (groups.wave_height_beam_ratio + ADDED_WAVE_HEIGHT)
        * (groups.trim_deg / TRIM_OF_TESTS_DEG)
        * (DEADRISE_CONSTANT - groups.deadrise_deg / DEADRISE_DIVISOR_DEG)
        * groups.speed_length_ratio.powi(2)
        * groups.length_beam_ratio
        / groups.load_coefficient
}

/// Mean peak at the bow over that at the centre of gravity: 1 + 3.8 (L/b − 2.25)/(V_k/√L).
#[must_use]
pub fn bow_over_centre(groups: &Groups) -> f64 {
    1.0 + BOW_FACTOR * (groups.length_beam_ratio - BOW_LENGTH_BEAM_RATIO)
        / groups.speed_length_ratio
}

/// Mean of the highest one in `n` peaks over the mean of all: 1 + ln n.
///
/// Fridsma (1971) found the peaks distributed exponentially: the share of
/// peaks above x is exp(−x/m) with m the mean of all. One in n lies above
/// x = m ln n; and since what lies above any level is distributed above it as
/// all are above zero, their mean is m ln n + m. For n = 3, 2.10; for 10, 3.30.
#[must_use]
pub fn highest_over_mean(n: f64) -> f64 {
    1.0 + n.ln()
}
