//! Accelerations of a planing boat in irregular head seas.
//!
//! Source: Savitsky, D. & Brown, P. W. (1976), Procedures for Hydrodynamic
//! Evaluation of Planing Hulls in Smooth and Rough Water, Marine Technology
//! 13(4), a fit to the tank tests of Fridsma, G. (1971), Davidson Laboratory
//! report 1495. From memory; `planewright check` sets it beside values that
//! Fridsma printed.
//!
//! The number is the mean of all positive peaks, in g, counted from smooth
//! running. Its trim is the one the boat runs at in calm water.

use uom::si::f64::{Length, Velocity};
use uom::si::{length::meter, velocity::meter_per_second};

use crate::units::factor::{M_PER_FOOT, M_S_PER_KNOT};

/// Factor of the acceleration at the centre of gravity.
const CENTRE_FACTOR: f64 = 0.0104;
/// Wave height over beam that is added to the waves' own.
const ADDED_WAVE_HEIGHT: f64 = 0.084;
/// Trim at which the trim's factor is 1, degrees.
const TRIM_OF_TESTS_DEG: f64 = 4.0;
/// Deadrise is taken from this many thirtieths of a degree: 5/3.
const DEADRISE_CONSTANT: f64 = 5.0 / 3.0;
/// Divisor of the deadrise, degrees.
const DEADRISE_DIVISOR_DEG: f64 = 30.0;
/// Factor of what the bow has more than the centre of gravity.
const BOW_FACTOR: f64 = 3.8;
/// Length over beam at which the bow has no more than the centre of gravity.
const BOW_LENGTH_BEAM_RATIO: f64 = 2.25;

/// What the accelerations depend on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Groups {
    /// C_Δ = Δ/(ρ g b³); tested 0.3 to 0.9.
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

/// One of the quantities of [`Groups`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// C_Δ.
    LoadCoefficient,
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
#[derive(Clone, Copy, Debug, PartialEq)]
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
        Self::LoadCoefficient,
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
            Self::LoadCoefficient => "load-coefficient",
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
        matches!(self, Self::LoadCoefficient | Self::LengthOverBeam | Self::Deadrise)
    }

    /// Least and largest value tested (Fridsma 1971, as given by Savitsky & Brown 1976; from memory).
    #[must_use]
    pub const fn tested(self) -> [f64; 2] {
        match self {
            Self::LoadCoefficient => [0.3, 0.9],
            Self::LengthOverBeam => [3.0, 5.0],
            Self::Deadrise => [10.0, 30.0],
            Self::Trim => [3.0, 7.0],
            Self::WaveHeightOverBeam => [0.2, 0.7],
            Self::SpeedOverRootLength => [2.0, 6.0],
        }
    }
}

impl Groups {
    /// Value of a quantity.
    #[must_use]
    pub const fn value(&self, quantity: Quantity) -> f64 {
        match quantity {
            Quantity::LoadCoefficient => self.load_coefficient,
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

/// Mean peak of the vertical acceleration at the centre of gravity, g:
/// n_cg = 0.0104 (H⅓/b + 0.084) (τ/4) (5/3 − β/30) (V_k/√L)² (L/b)/C_Δ.
///
/// Ranges: see [`Groups`]. The length cancels: (V_k/√L)² L/b holds V²/b alone.
/// Waves of no height leave 0.084 of the beam: the fit is not for calm water.
#[must_use]
pub fn centre_acceleration_g(groups: &Groups) -> f64 {
    CENTRE_FACTOR
        * (groups.wave_height_beam_ratio + ADDED_WAVE_HEIGHT)
        * (groups.trim_deg / TRIM_OF_TESTS_DEG)
        * (DEADRISE_CONSTANT - groups.deadrise_deg / DEADRISE_DIVISOR_DEG)
        * groups.speed_length_ratio.powi(2)
        * groups.length_beam_ratio
        / groups.load_coefficient
}

/// Mean peak at the bow over that at the centre of gravity: 1 + 3.8 (L/b − 2.25)/(V_k/√L).
#[must_use]
pub fn bow_over_centre(groups: &Groups) -> f64 {
    1.0 + BOW_FACTOR * (groups.length_beam_ratio - BOW_LENGTH_BEAM_RATIO)
        / groups.speed_length_ratio
}

/// V_k/√L: speed in knots over the root of the length in feet.
#[must_use]
pub fn speed_length_ratio(speed: Velocity, length: Length) -> f64 {
    let knots = speed.get::<meter_per_second>() / M_S_PER_KNOT;
    knots / (length.get::<meter>() / M_PER_FOOT).sqrt()
}

/// Mean of the highest one in `n` peaks over the mean of all: 1 + ln n.
///
/// Fridsma found the peaks distributed exponentially: the share of peaks above
/// x is exp(−x/m) with m the mean of all. One in n lies above x = m ln n; and
/// since what lies above any level is distributed above it as all are above
/// zero, their mean is m ln n + m. For n = 3, 2.10; for 10, 3.30. Given in the
/// same form by Savitsky & Brown 1976 (from memory).
#[must_use]
pub fn highest_over_mean(n: f64) -> f64 {
    1.0 + n.ln()
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// The middle of the tests.
    const MIDDLE: Groups = Groups {
        load_coefficient: 0.6,
        length_beam_ratio: 4.0,
        deadrise_deg: 20.0,
        trim_deg: 4.0,
        wave_height_beam_ratio: 0.4,
        speed_length_ratio: 4.0,
    };

    #[test]
    fn physics_no_peaks_without_trim_or_speed() {
        assert_eq!(centre_acceleration_g(&Groups { trim_deg: 0.0, ..MIDDLE }), 0.0);
        assert_eq!(centre_acceleration_g(&Groups { speed_length_ratio: 0.0, ..MIDDLE }), 0.0);
        let steep = centre_acceleration_g(&Groups { deadrise_deg: 50.0, ..MIDDLE });
        assert!(steep.abs() < 1e-12 && centre_acceleration_g(&MIDDLE) > 0.3);
        let even = Groups { length_beam_ratio: 2.25, ..MIDDLE };
        assert_eq!(bow_over_centre(&even), 1.0);
    }

    #[test]
    fn physics_each_quantity_moves_the_peaks_the_way_it_should() {
        for quantity in Quantity::ALL {
            let [low, high] = quantity.tested();
            let mut last: Option<(f64, f64)> = None;
            for step in 0..=20 {
                let value = low + (high - low) * f64::from(step) / 20.0;
                let mut groups = MIDDLE;
                match quantity {
                    Quantity::LoadCoefficient => groups.load_coefficient = value,
                    Quantity::LengthOverBeam => groups.length_beam_ratio = value,
                    Quantity::Deadrise => groups.deadrise_deg = value,
                    Quantity::Trim => groups.trim_deg = value,
                    Quantity::WaveHeightOverBeam => groups.wave_height_beam_ratio = value,
                    Quantity::SpeedOverRootLength => groups.speed_length_ratio = value,
                }
                assert!(groups.departures().is_empty());
                let centre = centre_acceleration_g(&groups);
                let bow = centre * bow_over_centre(&groups);
                assert!(bow > centre);
                if let Some(last) = last {
                    // Heavier and deeper boats ride softer; all else is harder.
                    let falls = matches!(quantity, Quantity::LoadCoefficient | Quantity::Deadrise);
                    assert_eq!(centre < last.0, falls, "{quantity:?} {value}");
                    assert_eq!(bow < last.1, falls, "{quantity:?} {value}");
                }
                last = Some((centre, bow));
            }
        }
    }

    #[test]
    fn physics_the_length_of_the_boat_does_not_move_her_centre_of_gravity() {
        let at = |length_m: f64| {
            let length = Length::new::<meter>(length_m);
            let speed = Velocity::new::<meter_per_second>(11.0);
            centre_acceleration_g(&Groups {
                length_beam_ratio: length_m / 2.25,
                speed_length_ratio: speed_length_ratio(speed, length),
                ..MIDDLE
            })
        };
        assert_relative_eq!(at(6.0), at(9.0), max_relative = 1e-12);
    }

    #[test]
    fn physics_knots_and_feet() {
        let speed = Velocity::new::<uom::si::velocity::knot>(20.0);
        let length = Length::new::<uom::si::length::foot>(25.0);
        assert_relative_eq!(speed_length_ratio(speed, length), 4.0, max_relative = 1e-6);
    }

    /// A million peaks at even quantiles of the exponential distribution, averaged.
    #[test]
    fn physics_the_highest_third_and_tenth_of_exponential_peaks() {
        let count = 1_000_000;
        let peak = |place: i32| -(1.0 - (f64::from(place) + 0.5) / f64::from(count)).ln();
        for n in [1, 3, 10] {
            let from = count - count / n;
            let mean = (from..count).map(peak).sum::<f64>() / f64::from(count - from);
            assert_relative_eq!(mean, highest_over_mean(f64::from(n)), max_relative = 1e-4);
        }
    }

    #[test]
    fn regression_a_quantity_outside_the_tests_is_named_with_its_range() {
        let groups = Groups { trim_deg: 2.5, wave_height_beam_ratio: 0.9, ..MIDDLE };
        assert_eq!(
            groups.departures(),
            [
                Departure { quantity: Quantity::Trim, value: 2.5, tested: [3.0, 7.0] },
                Departure {
                    quantity: Quantity::WaveHeightOverBeam,
                    value: 0.9,
                    tested: [0.2, 0.7]
                },
            ]
        );
        let broken = Groups { trim_deg: f64::NAN, ..MIDDLE };
        assert_eq!(broken.departures().len(), 1, "no number is no tested number");
    }
}
