//! Physical constants that more than one file needs.

/// Standard acceleration of free fall, m/s². Source: SI Brochure, 3rd CGPM (1901), exact by convention.
pub const STANDARD_GRAVITY_M_S2: f64 = 9.806_65;

/// Density of dry air at 15 °C and 101 325 Pa, kg/m³. Source: ISO 2533 standard atmosphere, sea level.
pub const AIR_DENSITY_KG_M3: f64 = 1.225;
