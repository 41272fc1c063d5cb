//! What a part bears, in JSON: SI units, angles in degrees, null for what is not covered.

use serde::Serialize;

use crate::stock::Gear;
use crate::stock::assess::Strength;
use crate::stock::rank::remedy;
use crate::units::UnitChoice;

/// What a part bears at the deflection allowed, at all speeds.
#[derive(Serialize)]
pub(super) struct Borne<'a> {
    #[serde(flatten)]
    strength: &'a Strength,
    /// What to do where there is no allowance for slamming.
    remedy: Option<String>,
}

impl<'a> Borne<'a> {
    /// Of a part.
    pub fn of(gear: &Gear, strength: &'a Strength, units: UnitChoice) -> Self {
        Self { strength, remedy: remedy(gear, strength, units) }
    }
}
