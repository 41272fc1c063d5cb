//! Frictional resistance: friction lines, mean bottom speed, friction drag.

use std::f64::consts::LN_10;

/// Correlation allowance ΔCf for a full-scale hull (ATTC standard roughness, as used by Savitsky 1964).
pub const FULL_SCALE_ALLOWANCE: f64 = 0.0004;

/// A line of flat-plate friction against Reynolds number.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FrictionLine {
    /// ITTC 1957 model–ship correlation line.
    #[default]
    Ittc1957,
    /// Schoenherr's line (ATTC 1947), which Savitsky (1964) uses.
    Schoenherr,
}

impl FrictionLine {
    /// The stable word in outputs and on the command line.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Ittc1957 => "ittc-1957",
            Self::Schoenherr => "schoenherr",
        }
    }

    /// Friction coefficient Cf at a Reynolds number; turbulent flow, 10⁵ and above. None where the search for it has not come to rest.
    #[must_use]
    pub fn coefficient(self, reynolds_number: f64) -> Option<f64> {
        match self {
            Self::Ittc1957 => Some(ittc_1957(reynolds_number)),
            Self::Schoenherr => schoenherr(reynolds_number),
        }
    }
}

/// Lowest Reynolds number the friction lines are evaluated at; below it the flow is not turbulent.
pub const LOWEST_REYNOLDS_NUMBER: f64 = 1.0e5;

/// Cf = 0.075/(log₁₀ Re − 2)². Source: International Towing Tank Conference 1957, recommended procedure 7.5-02-02-01.
#[must_use]
pub fn ittc_1957(reynolds_number: f64) -> f64 {
    let exponent = reynolds_number.max(LOWEST_REYNOLDS_NUMBER).log10() - 2.0;
    0.075 / (exponent * exponent)
}

/// 0.242/√Cf = log₁₀(Re Cf). Source: Schoenherr (1932), Trans. SNAME 40; ATTC 1947, as in Savitsky (1964).
///
/// With x = 1/√Cf it reads 0.242 ln 10 · x + 2 ln x = ln Re: concave and rising,
/// solved by Halley's method. None when it has not come to rest.
#[must_use]
pub fn schoenherr(reynolds_number: f64) -> Option<f64> {
    /// A step this small, as a share, leaves an error of a thousandth of its cube: the line is nearly straight.
    const LAST_STEP: f64 = 1e-4;
    const COEFFICIENT: f64 = 0.242 * LN_10;
    let wanted = reynolds_number.max(LOWEST_REYNOLDS_NUMBER).ln();
    let mut inverse_root = start_of_schoenherr(wanted);
    for _ in 0..20 {
        let excess = COEFFICIENT * inverse_root + 2.0 * inverse_root.ln() - wanted;
        let slope = COEFFICIENT + 2.0 / inverse_root;
        let newton = excess / slope;
        let step = newton / (1.0 + newton / (slope * inverse_root * inverse_root));
        inverse_root -= step;
        if step.abs() <= LAST_STEP * inverse_root {
            return Some(1.0 / (inverse_root * inverse_root));
        }
    }
    None
}

/// 1/√Cf to 6 in 100 000 for Re from 10⁵ to 10¹¹: a quartic in ln Re, fitted to the solved line. Only a start.
fn start_of_schoenherr(logarithm: f64) -> f64 {
    /// From the constant up, about ln Re = 18.
    const COEFFICIENTS: [f64; 5] = [21.321_11, 1.536_294, 7.950_8e-3, -3.258_7e-4, 1.283e-5];
    let from_middle = logarithm - 18.0;
    COEFFICIENTS.iter().rev().fold(0.0, |sum, coefficient| sum * from_middle + coefficient)
}

/// Square of the mean bottom speed over the boat's speed, (V_m/V)² = 1 − C_Ld,β/(λ cos τ).
///
/// Source: Savitsky (1964), equations 21 to 24. `dynamic_lift` is the dynamic
/// part of the lift coefficient with deadrise. At large trim and very small λ
/// the bracket goes negative, which means nothing; zero is returned there.
#[must_use]
pub fn mean_bottom_speed_ratio_squared(
    dynamic_lift: f64,
    wetted_length_ratio: f64,
    cosine_of_trim: f64,
) -> f64 {
    (1.0 - dynamic_lift / (wetted_length_ratio * cosine_of_trim)).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// ITTC 1957 line as tabulated in ITTC procedure 7.5-02-02-01: Cf·10³ at Re.
    #[test]
    fn published_ittc_line() {
        // Hand: log10(1e7) - 2 = 5; 0.075/25 = 3.000e-3. log10(1e9) - 2 = 7; 0.075/49 = 1.5306e-3.
        assert_relative_eq!(ittc_1957(1.0e7), 3.000e-3, max_relative = 1e-12);
        assert_relative_eq!(ittc_1957(1.0e9), 1.5306e-3, max_relative = 1e-4);
    }

    /// Schoenherr mean line as tabulated by ATTC (1947): 2.934e-3 at 1e7, 2.072e-3 at 1e8, 1.531e-3 at 1e9. From memory.
    #[test]
    fn published_schoenherr_line() {
        assert_relative_eq!(schoenherr(1.0e7).unwrap(), 2.934e-3, max_relative = 2e-3);
        assert_relative_eq!(schoenherr(1.0e8).unwrap(), 2.072e-3, max_relative = 2e-3);
        assert_relative_eq!(schoenherr(1.0e9).unwrap(), 1.531e-3, max_relative = 2e-3);
    }

    #[test]
    fn physics_schoenherr_satisfies_its_own_equation() {
        for reynolds_number in [1.0e5, 3.0e6, 2.4e8, 1.0e10, 1.0e13] {
            let cf = schoenherr(reynolds_number).unwrap();
            assert_relative_eq!(
                0.242 / cf.sqrt(),
                (reynolds_number * cf).log10(),
                max_relative = 1e-12
            );
        }
    }
}
