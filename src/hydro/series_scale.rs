//! From the size a systematic series was printed for, 100 000 lb in sea water, to a hull of any size.

use super::friction;
use crate::physical::STANDARD_GRAVITY_M_S2;

/// Displaced volume of 100 000 lb of the sea water below, m³.
pub(super) const STANDARD_VOLUME_M3: f64 = 45_359.237 / 1025.9;
/// Kinematic viscosity of that water, m²/s (1.2817e-5 ft²/s).
pub(super) const STANDARD_VISCOSITY_M2_S: f64 = 1.2817e-5 * 0.3048 * 0.3048;

/// Ship and water for which R/Δ is wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// Displaced volume ∇, m³.
    pub displaced_volume_m3: f64,
    /// Kinematic viscosity of the water, m²/s.
    pub kinematic_viscosity_m2_s: f64,
    /// Correlation allowance ΔCf; that of the series is 0.
    pub correlation_allowance: f64,
}

/// The hull of a series at one F∇, at the size it was printed for.
pub(super) struct Standard {
    /// R/Δ at 100 000 lb.
    pub resistance_ratio: f64,
    /// S/∇^⅔.
    pub wetted_area: f64,
    /// Length of the friction over ∇^⅓.
    pub length: f64,
    /// F∇.
    pub volume_froude_number: f64,
}

impl Standard {
    /// R/Δ with the friction at 100 000 lb exchanged for that of the hull.
    ///
    /// ΔR/Δ = ½ [(Cf + ΔCf) − Cf at 100 000 lb] (S/∇^⅔) F∇², both Cf by Schoenherr.
    pub fn at(&self, scale: &Scale) -> Option<f64> {
        let froude = self.volume_froude_number;
        let change = self.friction(scale.displaced_volume_m3, scale.kinematic_viscosity_m2_s)?
            + scale.correlation_allowance
            - self.friction(STANDARD_VOLUME_M3, STANDARD_VISCOSITY_M2_S)?;
        Some(self.resistance_ratio + 0.5 * change * self.wetted_area * froude * froude)
    }

    /// R/Δ of the friction alone at 100 000 lb: ½ Cf (S/∇^⅔) F∇².
    pub fn friction_ratio(&self) -> Option<f64> {
        let coefficient = self.friction(STANDARD_VOLUME_M3, STANDARD_VISCOSITY_M2_S)?;
        Some(0.5 * coefficient * self.wetted_area * self.volume_froude_number.powi(2))
    }

    /// Cf at Re = V L/ν with V = F∇ √(g ∇^⅓).
    fn friction(&self, volume_m3: f64, viscosity_m2_s: f64) -> Option<f64> {
        let size_m = volume_m3.cbrt();
        let speed_m_s = self.volume_froude_number * (STANDARD_GRAVITY_M_S2 * size_m).sqrt();
        friction::schoenherr(speed_m_s * self.length * size_m / viscosity_m2_s)
    }
}
