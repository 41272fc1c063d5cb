//! How far tank runs lie from what the equations give.
//!
//! Each function gives two factors on a computed value; nine in ten runs lie
//! between them. They hold what models of plain form did in a tank. What a
//! boat unlike them, a sea unlike the tank's and an estimated trim add is not
//! in them.
//!
//! Outside V_k/√L 2 to 6 the factors of the nearer end stand in.

use super::added_resistance::SPEED_LENGTH_RATIOS;
use crate::numeric::LIKELY_DEVIATIONS;

/// Equation over measurement at the centre of gravity at each V_k/√L, mean of all 65 runs of Fridsma (1971).
///
/// Worked out from his tables I, IV and V. The 18 runs in
/// `data/published/Fridsma1971Runs.csv` give 0.71, 1.18 and 1.12.
const CENTRE_OVER_MEASURED: [f64; 3] = [0.78, 1.12, 1.17];
/// The same at the bow; the 18 runs give 0.89, 1.12 and 0.98.
const BOW_OVER_MEASURED: [f64; 3] = [0.98, 1.10, 0.99];
/// Scatter of the runs about these means: one standard deviation, as a factor.
const PEAKS_SCATTER: f64 = 1.22;

/// Scatter of the added resistance about the equations at each V_k/√L: one standard deviation, as a share.
///
/// Savitsky & Brown (1976) give equations 22 to 24 as accurate to 20, 20 and
/// 10 %. The five runs at hand at V_k/√L = 6 scatter by 16 %, which is used
/// there. So 12 of the 18 runs lie within one deviation, and 17 within the
/// range for nine in ten.
const ADDED_RESISTANCE_SCATTER: [f64; 3] = [0.20, 0.20, 0.16];

/// Factors on the mean peak at the centre of gravity between which nine in ten runs lie.
#[must_use]
pub fn centre(speed_length_ratio: f64) -> [f64; 2] {
    about(1.0 / at(&CENTRE_OVER_MEASURED, speed_length_ratio), PEAKS_SCATTER)
}

/// Factors on the mean peak at the bow between which nine in ten runs lie.
#[must_use]
pub fn bow(speed_length_ratio: f64) -> [f64; 2] {
    about(1.0 / at(&BOW_OVER_MEASURED, speed_length_ratio), PEAKS_SCATTER)
}

/// Factors on the added resistance between which nine in ten runs lie.
#[must_use]
pub fn added_resistance(speed_length_ratio: f64) -> [f64; 2] {
    about(1.0, 1.0 + at(&ADDED_RESISTANCE_SCATTER, speed_length_ratio))
}

/// The factors about a middle one, from one standard deviation as a factor.
fn about(middle: f64, deviation: f64) -> [f64; 2] {
    let half = deviation.powf(LIKELY_DEVIATIONS);
    [middle / half, middle * half]
}

/// A value given at the three speeds: a straight line between them, the end value outside.
fn at(values: &[f64; 3], speed_length_ratio: f64) -> f64 {
    let [slow, middle, fast] = SPEED_LENGTH_RATIOS;
    let ratio = speed_length_ratio.clamp(slow, fast);
    if ratio <= middle {
        values[0] + (values[1] - values[0]) * (ratio - slow) / (middle - slow)
    } else {
        values[1] + (values[2] - values[1]) * (ratio - middle) / (fast - middle)
    }
}
