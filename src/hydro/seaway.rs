//! A planing boat in irregular head seas: accelerations, added resistance, and how far tank runs lie from both.
//!
//! Source: Savitsky, D. & Brown, P. W. (1976), Procedures for Hydrodynamic
//! Evaluation of Planing Hulls in Smooth and Rough Water, Marine Technology
//! 13(4), fitted to the tank tests of Fridsma, G. (1971), Davidson Laboratory
//! report 1495: prismatic models at constant speed. `planewright check` sets
//! both beside the paper's worked example and beside Fridsma's runs.
//!
//! The trim in all of them is the one the boat runs at in calm water. Every
//! number comes with the range in which nine in ten runs lie: [`mod@range`].

mod added_resistance;
mod peaks;
pub mod range;

pub use added_resistance::added_resistance_over_weight;
pub use peaks::{bow_over_centre, centre_acceleration_g, highest_over_mean};

use serde::Serialize;
use uom::si::f64::{Length, Mass, Velocity};
use uom::si::{length::meter, mass::kilogram, velocity::meter_per_second};

use crate::field::by_word;
use crate::units::factor::{KG_PER_LONG_TON, M_PER_FOOT, M_S_PER_KNOT};

/// What accelerations and added resistance depend on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Groups {
    /// Δ in long tons over (L/100)³ with L in feet, the displacement-length ratio; tested 100 to 250.
    pub displacement_length_ratio: f64,
    /// C_Δ = Δ/(ρ g b³). It has no range of its own: it follows from the displacement-length ratio and L/b.
    pub load_coefficient: f64,
    /// L/b; tested 3 to 5.
    pub length_beam_ratio: f64,
    /// β, degrees; tested 10 to 30.
    pub deadrise_deg: f64,
    /// Running trim in calm water τ, degrees; tested 3 to 7.
    pub trim_deg: f64,
    /// Significant wave height over beam H⅓/b; tested 0.2 to 0.7.
    pub wave_height_beam_ratio: f64,
    /// V_k/√L, knots over the root of feet; tested 2 to 6.
    pub speed_length_ratio: f64,
}

/// One of the quantities of [`Groups`] that the source gives a range for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// Δ/(L/100)³, long tons and feet.
    DisplacementOverLength,
    /// L/b.
    LengthOverBeam,
    /// β.
    Deadrise,
    /// τ.
    Trim,
    /// H⅓/b.
    WaveHeightOverBeam,
    /// V_k/√L.
    SpeedOverRootLength,
}

/// A quantity outside the range of the tests.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Departure {
    /// Which.
    pub quantity: Quantity,
    /// Its value.
    pub value: f64,
    /// The tested range.
    pub tested: [f64; 2],
}

impl Quantity {
    /// All, in the order of the source.
    pub const ALL: [Self; 6] = [
        Self::DisplacementOverLength,
        Self::LengthOverBeam,
        Self::Deadrise,
        Self::Trim,
        Self::WaveHeightOverBeam,
        Self::SpeedOverRootLength,
    ];

    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::DisplacementOverLength => "displacement-over-length",
            Self::LengthOverBeam => "length-over-beam",
            Self::Deadrise => "deadrise",
            Self::Trim => "trim",
            Self::WaveHeightOverBeam => "wave-height-over-beam",
            Self::SpeedOverRootLength => "speed-over-root-length",
        }
    }

    /// Whether it belongs to the boat at rest and holds at all speeds and in all waves.
    #[must_use]
    pub const fn is_of_the_boat(self) -> bool {
        matches!(self, Self::DisplacementOverLength | Self::LengthOverBeam | Self::Deadrise)
    }

    /// Least and largest value of the primary range that Savitsky & Brown (1976) give.
    #[must_use]
    pub const fn tested(self) -> [f64; 2] {
        match self {
            Self::DisplacementOverLength => [100.0, 250.0],
            Self::LengthOverBeam => [3.0, 5.0],
            Self::Deadrise => [10.0, 30.0],
            Self::Trim => [3.0, 7.0],
            Self::WaveHeightOverBeam => [0.2, 0.7],
            Self::SpeedOverRootLength => [2.0, 6.0],
        }
    }
}

by_word!(Quantity);

impl Groups {
    /// Value of a quantity.
    #[must_use]
    pub const fn value(&self, quantity: Quantity) -> f64 {
        match quantity {
            Quantity::DisplacementOverLength => self.displacement_length_ratio,
            Quantity::LengthOverBeam => self.length_beam_ratio,
            Quantity::Deadrise => self.deadrise_deg,
            Quantity::Trim => self.trim_deg,
            Quantity::WaveHeightOverBeam => self.wave_height_beam_ratio,
            Quantity::SpeedOverRootLength => self.speed_length_ratio,
        }
    }

    /// Every quantity outside the range of the tests; a billionth beyond an end is rounding.
    #[must_use]
    pub fn departures(&self) -> Vec<Departure> {
        let beyond = |quantity: Quantity| {
            let (value, tested) = (self.value(quantity), quantity.tested());
            let slack = 1e-9 * tested[1];
            let is_within = value >= tested[0] - slack && value <= tested[1] + slack;
            (!is_within).then_some(Departure { quantity, value, tested })
        };
        Quantity::ALL.into_iter().filter_map(beyond).collect()
    }
}

/// V_k/√L: speed in knots over the root of the length in feet.
#[must_use]
pub fn speed_length_ratio(speed: Velocity, length: Length) -> f64 {
    let knots = speed.get::<meter_per_second>() / M_S_PER_KNOT;
    knots / (length.get::<meter>() / M_PER_FOOT).sqrt()
}

/// Δ/(L/100)³: displacement in long tons of 2240 lb over the cube of a hundredth of the length in feet.
#[must_use]
pub fn displacement_length_ratio(displacement: Mass, length: Length) -> f64 {
    let long_tons = displacement.get::<kilogram>() / KG_PER_LONG_TON;
    long_tons / (0.01 * length.get::<meter>() / M_PER_FOOT).powi(3)
}

#[cfg(test)]
mod tests;
