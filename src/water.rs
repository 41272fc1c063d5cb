//! Density and viscosity of fresh, brackish and sea water.

use uom::si::f64::{KinematicViscosity, MassDensity, ThermodynamicTemperature};
use uom::si::{
    kinematic_viscosity::square_meter_per_second, mass_density::kilogram_per_cubic_meter,
    thermodynamic_temperature::degree_celsius,
};

/// Practical salinity of standard sea water.
pub const SEA_SALINITY: f64 = 35.0;

/// The water a boat runs in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Water {
    /// Density ρ.
    pub density: MassDensity,
    /// Kinematic viscosity ν.
    pub kinematic_viscosity: KinematicViscosity,
}

impl Water {
    /// Water of a temperature (0 to 40 °C) and practical salinity (0 to 42) at atmospheric pressure.
    #[must_use]
    pub fn at(temperature: ThermodynamicTemperature, salinity: f64) -> Self {
        let temperature_c = temperature.get::<degree_celsius>();
        let density_kg_m3 = density_kg_m3(temperature_c, salinity);
        let viscosity_pa_s = dynamic_viscosity_pa_s(temperature_c, salinity);
        Self {
            density: MassDensity::new::<kilogram_per_cubic_meter>(density_kg_m3),
            kinematic_viscosity: KinematicViscosity::new::<square_meter_per_second>(
                viscosity_pa_s / density_kg_m3,
            ),
        }
    }
}

/// Density at one atmosphere, kg/m³, of water at `temperature_c` (0 to 40 °C) and practical salinity 0 to 42.
///
/// Source: Millero, F. J. & Poisson, A. (1981), International one-atmosphere
/// equation of state of seawater, Deep-Sea Research 28A; UNESCO technical paper
/// 36, equations 13 and 14 (EOS-80). Coefficients from memory; the pure-water
/// part and the printed check values are tested.
fn density_kg_m3(temperature_c: f64, salinity: f64) -> f64 {
    const PURE: [f64; 6] =
        [999.842_594, 6.793_952e-2, -9.095_290e-3, 1.001_685e-4, -1.120_083e-6, 6.536_332e-9];
    const LINEAR: [f64; 5] = [8.244_93e-1, -4.0899e-3, 7.6438e-5, -8.2467e-7, 5.3875e-9];
    const ROOT: [f64; 3] = [-5.724_66e-3, 1.0227e-4, -1.6546e-6];
    const SQUARE: f64 = 4.8314e-4;
    polynomial(&PURE, temperature_c)
        + polynomial(&LINEAR, temperature_c) * salinity
        + polynomial(&ROOT, temperature_c) * salinity.powf(1.5)
        + SQUARE * salinity * salinity
}

/// Dynamic viscosity, Pa s, at `temperature_c` (0 to 40 °C) and salinity in g/kg.
///
/// Source: Sharqawy, M. H., Lienhard, J. H. & Zubair, S. M. (2010),
/// Thermophysical properties of seawater, Desalination and Water Treatment 16,
/// equations 22 and 23. Coefficients from memory. Practical salinity is taken
/// as reference salinity, 35.165 04/35 of it in g/kg.
fn dynamic_viscosity_pa_s(temperature_c: f64, salinity: f64) -> f64 {
    const LINEAR: [f64; 3] = [1.541, 1.998e-2, -9.52e-5];
    const SQUARE: [f64; 3] = [7.974, -7.561e-2, 4.724e-4];
    let pure = 4.2844e-5 + 1.0 / (0.157 * (temperature_c + 64.993).powi(2) - 91.296);
    let salt_kg_kg = salinity * 35.165_04 / 35.0 / 1000.0;
    pure * (1.0
        + polynomial(&LINEAR, temperature_c) * salt_kg_kg
        + polynomial(&SQUARE, temperature_c) * salt_kg_kg * salt_kg_kg)
}

fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, coefficient| sum * x + coefficient)
}

#[cfg(test)]
mod tests {
    use super::density_kg_m3;
    use approx::assert_relative_eq;

    /// UNESCO technical papers in marine science 36 (1981), check values at one atmosphere.
    #[test]
    fn published_eos80_check_values() {
        assert_relative_eq!(density_kg_m3(5.0, 0.0), 999.966_75, max_relative = 1e-8);
        assert_relative_eq!(density_kg_m3(5.0, 35.0), 1_027.675_47, max_relative = 1e-8);
        assert_relative_eq!(density_kg_m3(25.0, 35.0), 1_023.343_06, max_relative = 1e-8);
    }
}
