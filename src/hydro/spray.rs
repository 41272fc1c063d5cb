//! Whisker spray: the thin sheet thrown out ahead of the stagnation line wets the bottom and drags.
//!
//! Source: Savitsky, D., DeLorme, M. F. & Datla, R. (2007), Inclusion of whisker
//! spray drag in performance prediction method for high-speed planing hulls,
//! Marine Technology 44(1). From memory. An option: the 1964 paper neglects it
//! below 4° of trim.

use std::f64::consts::PI;

/// Whisker spray of a bottom.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spray {
    /// Increase Δλ of the mean wetted length ratio that the drag counts, never negative.
    pub length_ratio: f64,
    /// Whether the direction of the spray left the range of the formula (θ ≥ 90°), or the bottom was too short for it.
    pub limited: bool,
}

/// Spray drag is q b² Δλ Cf; Δλ = cos θ/(4 sin 2α cos β) with tan α = (π/2) tan τ/tan β and θ = 2α/cos β.
///
/// Zero for θ ≥ 90°, where the spray goes forward no longer, and without
/// deadrise. The spray cannot wet more than there is: Δλ is bound by
/// `bottom_ahead_over_beam`, the bottom ahead of the mean wetted length over
/// the beam.
#[must_use]
pub fn whisker_spray(deadrise_deg: f64, trim_deg: f64, bottom_ahead_over_beam: f64) -> Spray {
    let deadrise = deadrise_deg.to_radians();
    if deadrise <= 0.0 {
        return Spray { length_ratio: 0.0, limited: false };
    }
    let alpha = (0.5 * PI * trim_deg.to_radians().tan() / deadrise.tan()).atan();
    let theta = 2.0 * alpha / deadrise.cos();
    if theta >= 0.5 * PI {
        return Spray { length_ratio: 0.0, limited: true };
    }
    let unbound = theta.cos() / (4.0 * (2.0 * alpha).sin() * deadrise.cos());
    let bound = bottom_ahead_over_beam.max(0.0);
    Spray { length_ratio: unbound.min(bound), limited: unbound > bound }
}

#[cfg(test)]
mod tests {
    use super::whisker_spray;

    #[test]
    fn physics_spray_is_bound_and_vanishes_where_it_must() {
        assert_eq!(whisker_spray(0.0, 4.0, 3.0).length_ratio, 0.0);
        let steep = whisker_spray(5.0, 10.0, 3.0);
        assert!(steep.limited && steep.length_ratio == 0.0);
        let thin = whisker_spray(25.0, 0.3, 0.2);
        assert!(thin.limited && (thin.length_ratio - 0.2).abs() < 1e-12);
        let usual = whisker_spray(20.0, 4.0, 3.0);
        assert!(!usual.limited && (0.1..1.0).contains(&usual.length_ratio), "{usual:?}");
    }
}
