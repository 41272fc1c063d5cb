//! Resistance that irregular head seas add to that of calm water.
//!
//! Source: Savitsky & Brown (1976), equations 22 to 24, see [`super`]: one
//! equation for each of three speeds, and a straight line between them, as in
//! the paper's worked example. The mean over the run, at constant speed.

use super::Groups;

/// V_k/√L of the three equations.
pub(super) const SPEED_LENGTH_RATIOS: [f64; 3] = [2.0, 4.0, 6.0];

/// Factor of the waves at V_k/√L = 2.
const SLOW_FACTOR: f64 = 66e-6;
/// Wave height over beam that is added to the waves' own at V_k/√L = 2.
const SLOW_ADDED_WAVE_HEIGHT: f64 = 0.5;
/// Change with trim at V_k/√L = 2, per degree.
const SLOW_TRIM_FACTOR: f64 = 0.0043;
/// Trim at which that change is none, degrees.
const SLOW_TRIM_DEG: f64 = 4.0;

/// Factor of the waves at V_k/√L = 4.
const MIDDLE_FACTOR: f64 = 0.3;
/// How higher waves add less than in proportion at V_k/√L = 4.
const MIDDLE_EASING: f64 = 2.0;
/// Constant of the form factor at V_k/√L = 4.
const MIDDLE_FORM: f64 = 1.76;
/// Divisor of the trim in it, degrees.
const MIDDLE_TRIM_DIVISOR_DEG: f64 = 6.0;
/// Factor of tan³β in it.
const MIDDLE_DEADRISE_FACTOR: f64 = 2.0;

/// Factor of the waves at V_k/√L = 6.
const FAST_FACTOR: f64 = 0.158;
/// Factor of the deadrise in degrees in the easing at V_k/√L = 6.
const FAST_DEADRISE_FACTOR: f64 = 0.12;
/// Factor of C_Δ (5.6 − L/b) in it.
const FAST_LOAD_FACTOR: f64 = 21.0;
/// Length over beam at which the load does not count in it.
const FAST_LOAD_LENGTH_BEAM_RATIO: f64 = 5.6;
/// Factor of 6 − L/b in it.
const FAST_LENGTH_FACTOR: f64 = 7.5;
/// Length over beam at which the length does not count in it.
const FAST_LENGTH_BEAM_RATIO: f64 = 6.0;

/// Added resistance over weight at any tested speed: a straight line in V_k/√L between the three equations.
///
/// None where no equation stands: V_k/√L outside 2 to 6, where one of the
/// equations used has left what it can describe (`fast_over_cube`), and
/// where they end at or below nothing (little trim, low waves, low speed).
/// The other ranges are those of [`Groups`]. How far runs lie from it:
/// [`super::range::added_resistance`].
#[must_use]
pub fn added_resistance_over_weight(groups: &Groups) -> Option<f64> {
    let [slow, middle, fast] = SPEED_LENGTH_RATIOS;
    let ratio = groups.speed_length_ratio;
    let slack = 1e-9 * fast;
    if !(slow - slack..=fast + slack).contains(&ratio) {
        return None;
    }
    let over_weight = |over_cube: f64| over_cube / groups.load_coefficient;
    let at_middle = middle_over_weight(groups);
    let share = if ratio <= middle {
        let at_slow = over_weight(slow_over_cube(groups));
        at_slow + (at_middle - at_slow) * (ratio - slow) / (middle - slow)
    } else {
        let at_fast = over_weight(fast_over_cube(groups)?);
        at_middle + (at_fast - at_middle) * (ratio - middle) / (fast - middle)
    };
    (share > 0.0).then_some(share)
}

/// V_k/√L = 2: R_AW/(w b³) = 66·10⁻⁶ (H⅓/b + 0.5) (L/b)³/C_Δ + 0.0043 (τ − 4). Equation 22.
fn slow_over_cube(groups: &Groups) -> f64 {
    SLOW_FACTOR
        * (groups.wave_height_beam_ratio + SLOW_ADDED_WAVE_HEIGHT)
        * groups.length_beam_ratio.powi(3)
        / groups.load_coefficient
        + SLOW_TRIM_FACTOR * (groups.trim_deg - SLOW_TRIM_DEG)
}

/// V_k/√L = 4: R_AW/Δ = 0.3 (H⅓/b)/(1 + 2 H⅓/b) (1.76 − τ/6 − 2 tan³β). Equation 23.
fn middle_over_weight(groups: &Groups) -> f64 {
    let waves = groups.wave_height_beam_ratio;
    let form = MIDDLE_FORM
        - groups.trim_deg / MIDDLE_TRIM_DIVISOR_DEG
        - MIDDLE_DEADRISE_FACTOR * groups.deadrise_deg.to_radians().tan().powi(3);
    MIDDLE_FACTOR * waves / (1.0 + MIDDLE_EASING * waves) * form
}

/// V_k/√L = 6: R_AW/(w b³) = 0.158 (H⅓/b)/(1 + (H⅓/b) [0.12 β − 21 C_Δ (5.6 − L/b) + 7.5 (6 − L/b)]). Equation 24.
///
/// The bracket says how higher waves add less than in proportion. It was above
/// zero in every run at this speed; wide, heavy boats bring it below, where the
/// equation first rises without bound and then turns round. None there.
fn fast_over_cube(groups: &Groups) -> Option<f64> {
    let (waves, slenderness) = (groups.wave_height_beam_ratio, groups.length_beam_ratio);
    let easing = FAST_DEADRISE_FACTOR * groups.deadrise_deg
        - FAST_LOAD_FACTOR * groups.load_coefficient * (FAST_LOAD_LENGTH_BEAM_RATIO - slenderness)
        + FAST_LENGTH_FACTOR * (FAST_LENGTH_BEAM_RATIO - slenderness);
    (easing >= 0.0).then(|| FAST_FACTOR * waves / (1.0 + waves * easing))
}
