//! Lift and drag that a pair of planes adds, and where they act.
//!
//! Source: Brown, P. W. (1971), An Experimental and Theoretical Study of Planing
//! Surfaces with Trim Flaps, Davidson Laboratory report 1463; Savitsky, D. &
//! Brown, P. W. (1976), Procedures for Hydrodynamic Evaluation of Planing Hulls
//! in Smooth and Rough Water, Marine Technology 13(4). From memory. Tested for
//! 0 ≤ δ ≤ 15°, 0 ≤ τ ≤ 10°, 2 ≤ Cv ≤ 7, c_p/(λ b) ≤ 0.10.

use statrs::distribution::{ContinuousCDF, LogNormal, Normal};
use uom::si::f64::{Angle, Force, Length, MassDensity, Velocity};
use uom::si::{
    angle::degree, force::newton, length::meter, mass_density::kilogram_per_cubic_meter,
    ratio::ratio, velocity::meter_per_second,
};

use crate::boat::{Boat, Hull, LiftReference, Measure, PlanePair, Toleranced, Width};

/// Largest deflection tested, degrees.
pub const LARGEST_TESTED_DEFLECTION_DEG: f64 = 15.0;
/// Largest trim tested with planes down, degrees.
pub const LARGEST_TESTED_TRIM_DEG: f64 = 10.0;
/// Speed coefficients tested.
pub const TESTED_SPEED_COEFFICIENT: std::ops::RangeInclusive<f64> = 2.0..=7.0;
/// Largest chord over mean wetted length tested.
pub const LARGEST_TESTED_CHORD_SHARE: f64 = 0.10;

/// Lift coefficient for each degree, on q and the area of the planes.
const LIFT_PER_DEGREE: f64 = 0.046;
/// Drag for each newton of lift and each degree of (τ + δ).
const DRAG_PER_LIFT_DEGREE: f64 = 0.0052;
/// Where the lift acts ahead of the transom, in chine beams, for planes of no chord.
const CENTRE_OF_LIFT_BEAMS: f64 = 0.6;
/// Spread of the model where no trial narrowed it: the standard deviation of the logarithm of its effectiveness.
///
/// Judged from a vortex-lattice look at the same planes (theory promises more
/// lift than the tank measured); a sea trial is what fixes it. Derived here.
pub const EFFECTIVENESS_LOG_SPREAD: f64 = 0.25;

/// Lift of one newton per pascal and degree of a pair: 0.046 × 2 s c_p.
///
/// ΔL = 0.046 c_p σ δ b q with σ b = 2 s. `area_m2` is that of both planes for
/// the pair, of one for one.
#[must_use]
pub fn lift_per_degree_n(area_m2: f64, dynamic_pressure_pa: f64) -> f64 {
    LIFT_PER_DEGREE * area_m2 * dynamic_pressure_pa
}

/// Distance of the added lift ahead of the transom: 0.6 b + c_p (1 − σ), σ = 2 s/b.
///
/// Most of the lift is pressure raised on the bottom ahead of the planes. With
/// [`LiftReference::TrailingEdge`] the same distance is taken ahead of the
/// planes' trailing edge, one chord further aft.
#[must_use]
pub fn centre_of_lift_m(
    span_m: f64,
    chord_m: f64,
    chine_beam_m: f64,
    reference: LiftReference,
) -> f64 {
    let ahead = CENTRE_OF_LIFT_BEAMS * chine_beam_m + chord_m * (1.0 - 2.0 * span_m / chine_beam_m);
    match reference {
        LiftReference::Transom => ahead,
        LiftReference::TrailingEdge => ahead - chord_m,
    }
}

/// Drag of the pair: ΔL tan τ + 0.0052 ΔL (τ + δ).
///
/// The hull carries Δ − ΔL only, so the pressure drag of the lift that the
/// planes carry, ΔL tan τ, is added to the published flap drag, 0.0052 ΔL (τ + δ).
#[must_use]
pub fn drag_n(lift_n: f64, trim_deg: f64, tangent_of_trim: f64, deflection_deg: f64) -> f64 {
    lift_n * (tangent_of_trim + DRAG_PER_LIFT_DEGREE * (trim_deg + deflection_deg))
}

/// Standard deviation of the logarithm of the effectiveness of planes on a boat: as her file has it from a sea trial, else [`EFFECTIVENESS_LOG_SPREAD`].
#[must_use]
pub fn effectiveness_log_spread(boat: &Boat) -> f64 {
    let share = match boat.tolerance_of(Toleranced::PlaneEffectiveness) {
        Some(Width::By(Measure::Share(share))) => share.get::<ratio>(),
        Some(Width::By(Measure::Number(by))) => by / boat.plane_effectiveness(),
        _ => return EFFECTIVENESS_LOG_SPREAD,
    };
    share.ln_1p() / Normal::standard().inverse_cdf(0.95)
}

/// Quantile of plane effectiveness: the factor on that of the boat which a share of boats like her stays under.
///
/// Log-normal with median 1; with [`EFFECTIVENESS_LOG_SPREAD`], about ±25 %, the
/// largest single uncertainty of the model.
///
/// # Panics
/// When `share` is not within 0 to 1.
#[must_use]
pub fn effectiveness_quantile(share: f64, log_spread: f64) -> f64 {
    log_normal(log_spread).map_or(1.0, |spread| spread.inverse_cdf(share))
}

/// Share of boats whose planes are less effective than a factor on that of the boat: inverse of [`effectiveness_quantile`].
#[must_use]
pub fn effectiveness_share_below(factor: f64, log_spread: f64) -> f64 {
    let known_exactly = if factor > 1.0 { 1.0 } else { 0.0 };
    log_normal(log_spread).map_or(known_exactly, |spread| spread.cdf(factor))
}

/// The distribution about 1; none when the effectiveness is known exactly.
fn log_normal(log_spread: f64) -> Option<LogNormal> {
    (log_spread > 0.0).then(|| LogNormal::new(0.0, log_spread).ok())?
}

/// Lift that one plane of a pair adds for each degree of its own deflection, at a speed.
#[must_use]
pub fn lift_per_degree(pair: PlanePair, density: MassDensity, speed: Velocity) -> Force {
    let pressure_pa = dynamic_pressure_pa(density, speed);
    let area_m2 = 0.5 * pair.area().get::<uom::si::area::square_meter>();
    Force::new::<newton>(lift_per_degree_n(area_m2, pressure_pa))
}

/// Distance of the pair's lift ahead of the transom.
#[must_use]
pub fn centre_of_lift(pair: PlanePair, hull: &Hull, reference: LiftReference) -> Length {
    Length::new::<meter>(centre_of_lift_m(
        pair.span.get::<meter>(),
        pair.chord.get::<meter>(),
        hull.chine_beam.get::<meter>(),
        reference,
    ))
}

/// Deflection at which the trailing edge only just reaches the extended bottom line.
///
/// δ = 0 is the plate parallel to the bottom. With the hinge a little above the
/// bottom edge the plate does nothing until its trailing edge comes down to the
/// bottom line: sin δ = hinge height/chord. Derived here.
#[must_use]
pub fn dead_band(hinge_height: Length, chord: Length) -> Angle {
    let sine = (hinge_height.get::<meter>() / chord.get::<meter>()).min(1.0);
    Angle::new::<degree>(sine.asin().to_degrees())
}

/// Dynamic pressure q = ½ ρ V², Pa.
pub(crate) fn dynamic_pressure_pa(density: MassDensity, speed: Velocity) -> f64 {
    let speed_m_s = speed.get::<meter_per_second>();
    0.5 * density.get::<kilogram_per_cubic_meter>() * speed_m_s * speed_m_s
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use uom::si::length::inch;

    /// Hinge 1/4 in up: about 1.6° for a 9 in chord and 1.2° for a 12 in chord. Common practice, no source; the angles by hand.
    #[test]
    fn practice_dead_band_of_a_raised_hinge() {
        let band = |chord: f64| {
            dead_band(Length::new::<inch>(0.25), Length::new::<inch>(chord)).get::<degree>()
        };
        assert_relative_eq!(band(9.0), 1.592, max_relative = 1e-3);
        assert_relative_eq!(band(12.0), 1.194, max_relative = 1e-3);
    }

    #[test]
    fn physics_full_span_planes_lift_at_the_same_place_whatever_their_chord() {
        let narrow = centre_of_lift_m(1.0, 0.2, 2.0, LiftReference::Transom);
        let deep = centre_of_lift_m(1.0, 0.3, 2.0, LiftReference::Transom);
        assert_relative_eq!(narrow, deep);
        let aft = centre_of_lift_m(1.0, 0.3, 2.0, LiftReference::TrailingEdge);
        assert_relative_eq!(deep - aft, 0.3, max_relative = 1e-12);
    }

    #[test]
    fn physics_effectiveness_has_median_one_and_is_skewed_to_the_strong_side() {
        let quantile = |share| effectiveness_quantile(share, EFFECTIVENESS_LOG_SPREAD);
        assert_relative_eq!(quantile(0.5), 1.0, max_relative = 1e-9);
        let (weak, strong) = (quantile(0.05), quantile(0.95));
        assert_relative_eq!(weak * strong, 1.0, max_relative = 1e-9);
        assert!(strong - 1.0 > 1.0 - weak);
    }

    /// A half-width of 20 % holds nine boats in ten between 1/1.2 and 1.2, by whatever way it is written.
    #[test]
    fn physics_a_boat_has_the_spread_that_her_file_states() {
        let boat = |by: &str| {
            let tolerance = match by {
                "" => String::new(),
                by => format!("[[tolerance]]\nof = \"planes.effectiveness\"\nby = \"{by}\"\n"),
            };
            let text = format!(
                "hull = {{ bottom_length = \"6.5 m\", chine_beam = \"2.25 m\", deadrise = \"18 deg\" }}\n\
                 weight = {{ mass = \"2800 kg\" }}\n\
                 planes = {{ span = \"0.6 m\", chord = \"0.25 m\", effectiveness = 0.8 }}\n{tolerance}"
            );
            crate::input::parse_boat("b.toml", &text).unwrap().boat
        };
        for by in ["20 %", "0.16"] {
            let spread = effectiveness_log_spread(&boat(by));
            assert_relative_eq!(effectiveness_quantile(0.95, spread), 1.2, max_relative = 1e-9);
            assert_relative_eq!(effectiveness_share_below(1.2, spread), 0.95, max_relative = 1e-9);
        }
        assert_relative_eq!(effectiveness_log_spread(&boat("")), EFFECTIVENESS_LOG_SPREAD);
        let exact = effectiveness_log_spread(&boat("0 %"));
        assert_relative_eq!(effectiveness_quantile(0.05, exact), 1.0);
        assert_eq!([0.99, 1.01].map(|f| effectiveness_share_below(f, exact)), [0.0, 1.0]);
    }
}
