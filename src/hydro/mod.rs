//! Published equations of a planing bottom: one equation, one function.
//!
//! All functions here are dimensionless or SI, with the unit in the name of
//! every number that has one; angles are in degrees where the empirical
//! equation was published in degrees. They return numbers outside their tested
//! range too: [`crate::flag`] says when, and every output carries the flag.

pub mod friction;
pub mod heel;
pub mod hump;
pub mod inception;
pub mod lift;
pub mod lift_model;
pub mod porpoising;
pub mod pre_planing;
pub mod pressure_centre;
pub mod seaway;
pub mod series_62;
pub mod series_scale;
pub mod shuford;
pub mod side_wetting;
pub mod spray;
pub mod tank_fit;
pub mod warp;
pub mod wetted;

use uom::si::f64::{Length, Velocity};
use uom::si::{length::meter, velocity::meter_per_second};

use crate::physical::STANDARD_GRAVITY_M_S2;

/// Speed coefficient Cv = V/√(g b) (Savitsky 1964, nomenclature).
#[must_use]
pub fn speed_coefficient(speed: Velocity, chine_beam: Length) -> f64 {
    speed.get::<meter_per_second>() / (STANDARD_GRAVITY_M_S2 * chine_beam.get::<meter>()).sqrt()
}

/// The speed at a speed coefficient: V = Cv √(g b).
#[must_use]
pub fn speed_at(speed_coefficient: f64, chine_beam: Length) -> Velocity {
    Velocity::new::<meter_per_second>(
        speed_coefficient * (STANDARD_GRAVITY_M_S2 * chine_beam.get::<meter>()).sqrt(),
    )
}
