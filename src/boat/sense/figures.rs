//! The numbers of a boat by which her size is judged, as they would be without a slip that was found.

use uom::si::{length::meter, mass::kilogram};

use super::within;
use crate::boat::Boat;

/// Usual bottom length over chine beam.
pub(super) const SLENDERNESS: [f64; 2] = [2.0, 6.5];
/// Usual mass over bottom length and the square of the chine beam, kg/m³.
///
/// Open boats of 4 m lie near 55, cruisers of 8 m near 95, heavy motor yachts
/// and slender offshore boats near 110.
pub(super) const MASS_KG_M3: [f64; 2] = [45.0, 140.0];
/// Usual centre of gravity forward of the transom, over the bottom length.
pub(super) const LCG_SHARE: [f64; 2] = [0.28, 0.46];

/// The numbers of a boat by which her size is judged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Figures {
    pub length_m: f64,
    pub beam_m: f64,
    pub overall_m: Option<f64>,
    pub mass_kg: f64,
    /// Centre of gravity forward of the transom; none where it is estimated from the length.
    pub lcg_m: Option<f64>,
}

impl Figures {
    pub fn of(boat: &Boat) -> Self {
        let (hull, weight) = (boat.hull(), boat.weight());
        let is_estimated = boat.is_estimated("weight.lcg");
        Self {
            length_m: hull.bottom_length.get::<meter>(),
            beam_m: hull.chine_beam.get::<meter>(),
            overall_m: hull.overall_length.map(|overall| overall.get::<meter>()),
            mass_kg: weight.mass.get::<kilogram>(),
            lcg_m: (!is_estimated).then(|| weight.lcg.get::<meter>()),
        }
    }

    pub fn slenderness(&self) -> f64 {
        self.length_m / self.beam_m
    }

    /// Mass over bottom length and the square of the chine beam, kg/m³.
    pub fn mass_kg_m3(&self) -> f64 {
        self.mass_kg / (self.length_m * self.beam_m * self.beam_m)
    }

    pub fn is_slender_as_usual(&self) -> bool {
        within(self.slenderness(), SLENDERNESS)
    }

    pub fn is_heavy_as_usual(&self) -> bool {
        within(self.mass_kg_m3(), MASS_KG_M3)
    }

    pub fn is_balanced_as_usual(&self) -> bool {
        self.lcg_m.is_none_or(|lcg_m| within(lcg_m / self.length_m, LCG_SHARE))
    }

    /// Whether all of them belong to one boat.
    pub fn agree(&self) -> bool {
        let fits_overall = self.overall_m.is_none_or(|overall_m| self.length_m <= overall_m);
        self.is_slender_as_usual()
            && self.is_heavy_as_usual()
            && self.is_balanced_as_usual()
            && fits_overall
    }
}
