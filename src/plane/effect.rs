//! Lift and drag that a pair of planes adds, and where they act.
//!
//! Source: Savitsky, D. & Brown, P. W. (1976), Procedures for Hydrodynamic
//! Evaluation of Planing Hulls in Smooth and Rough Water, Marine Technology
//! 13(4), equations 5 to 8, after Brown, P. W. (1971), An Experimental and
//! Theoretical Study of Planing Surfaces with Trim Flaps, Davidson Laboratory
//! report 1463. Tested for 0 ≤ δ ≤ 15°, 0 ≤ τ ≤ 10°, 2 ≤ Cv ≤ 7,
//! c_p/(λ b) ≤ 0.10; Gaylo & Roske (2019) tested a pair down to Cv 1.06.
//!
//! The paper measures the centre of gravity, the wetted lengths, the centre of
//! pressure and the planes' lift from the planes' trailing edge: the plates
//! count as bottom. For planes of part span the same is taken from the *mean*
//! trailing edge, which lies σ c aft of the transom. That form is a deduction; it
//! is the paper's at σ = 1 and the bare hull at σ = 0.

use statrs::distribution::{ContinuousCDF, LogNormal, Normal};
use uom::si::f64::{Angle, Force, Length, MassDensity, Velocity};
use uom::si::{
    angle::degree, force::newton, length::meter, mass_density::kilogram_per_cubic_meter,
    ratio::ratio, velocity::meter_per_second,
};

use crate::boat::{Boat, Hull, Measure, PlanePair, Toleranced, Width, degrees};

/// Largest deflection tested, degrees.
pub const LARGEST_TESTED_DEFLECTION_DEG: f64 = 15.0;
/// Largest trim tested with planes down, degrees.
pub const LARGEST_TESTED_TRIM_DEG: f64 = 10.0;
/// Speed coefficients tested.
pub const TESTED_SPEED_COEFFICIENT: std::ops::RangeInclusive<f64> = 2.0..=7.0;
/// Largest chord over mean wetted length tested.
pub const LARGEST_TESTED_CHORD_SHARE: f64 = 0.10;

/// Lift coefficient for each degree, on q and the area of the planes; equation 5.
const LIFT_PER_DEGREE: f64 = 0.046;
/// Drag for each newton of lift and each degree of (τ + δ); equation 6.
const DRAG_PER_LIFT_DEGREE: f64 = 0.0052;
/// Where the lift acts ahead of the mean trailing edge, in chine beams; equation 7.
const CENTRE_OF_LIFT_BEAMS: f64 = 0.6;
/// Deflection over which the plates come to count as bottom, degrees.
///
/// Raised planes are no bottom. Fitted to the runs of Gaylo & Roske (2019) at
/// 1, 3 and 5°; the only constant of the planes that is fitted.
const FADE_IN_DEG: f64 = 1.0;
/// Spread of the model where no trial narrowed it: the standard deviation of the logarithm of its effectiveness.
///
/// From the scatter of measured over computed changes of trim in the runs of
/// Gaylo & Roske (2019), less their reading error.
pub const EFFECTIVENESS_LOG_SPREAD: f64 = 0.17;

/// Span ratio of one plane, s cos β/b: half of σ for a pair alike.
///
/// `span_m` is measured along the bottom edge, the beam level, so that a pair
/// over the whole bottom is σ = 1.
#[must_use]
pub fn span_ratio_of_one(span_m: f64, chine_beam_m: f64, cos_deadrise: f64) -> f64 {
    span_m * cos_deadrise / chine_beam_m
}

/// Chord of a plate that is wet: c − h/tan δ, none below the dead band.
///
/// The sheet of water leaves the hull's edge along the bottom line, so that a
/// plate hinged a height h above the edge is wet only aft of h/tan δ. Derived here.
#[must_use]
pub fn wet_chord_m(chord_m: f64, hinge_height_m: f64, deflection_deg: f64) -> f64 {
    if deflection_deg <= 0.0 {
        return 0.0;
    }
    if hinge_height_m <= 0.0 {
        return chord_m;
    }
    (chord_m - hinge_height_m / deflection_deg.to_radians().tan()).max(0.0)
}

/// Share of the wet chord that counts as bottom: 1 − exp(−δ/1°).
#[must_use]
pub fn fade_in(deflection_deg: f64) -> f64 {
    -(-deflection_deg / FADE_IN_DEG).exp_m1()
}

/// Lift that a plane adds: ΔL = 0.046 c σ δ b q, equation 5, with the chord that is wet.
///
/// `wet_area_m2` is span cos β × wet chord of the one plane or of both.
#[must_use]
pub fn lift_n(wet_area_m2: f64, deflection_deg: f64, dynamic_pressure_pa: f64) -> f64 {
    LIFT_PER_DEGREE * wet_area_m2 * deflection_deg * dynamic_pressure_pa
}

/// Lift for each degree past the dead band: 0.046 × area × q, with the area of one plane or of both as seen from above.
#[must_use]
pub fn lift_per_degree_n(area_m2: f64, dynamic_pressure_pa: f64) -> f64 {
    lift_n(area_m2, 1.0, dynamic_pressure_pa)
}

/// Distance of the planes' lift ahead of the transom: 0.6 b less the mean trailing edge's distance aft of it.
///
/// Equation 7, ΔL [0.6 b + c (1 − σ)] about the trailing edge, is 0.6 b ahead
/// of the mean trailing edge at any σ: most of the lift is pressure raised on
/// the bottom.
#[must_use]
pub fn centre_of_lift_m(chine_beam_m: f64, mean_edge_m: f64) -> f64 {
    CENTRE_OF_LIFT_BEAMS * chine_beam_m - mean_edge_m
}

/// The parts of the planes' drag: pressure ΔL tan τ, and 0.0052 ΔL (τ + δ).
///
/// Equation 6 gives the second; the paper takes the pressure drag Δ tan τ on
/// the whole weight, plane lift included. The pressure part acts where the lift
/// does, the other at the transom's edge.
#[must_use]
pub fn drag_parts_n(
    lift_n: f64,
    trim_deg: f64,
    tangent_of_trim: f64,
    deflection_deg: f64,
) -> [f64; 2] {
    [lift_n * tangent_of_trim, lift_n * DRAG_PER_LIFT_DEGREE * (trim_deg + deflection_deg)]
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
/// Log-normal with median 1 and, where nothing narrows it, [`EFFECTIVENESS_LOG_SPREAD`].
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

/// Lift that one plane of a pair adds for each degree of its own deflection past the dead band, at a speed.
#[must_use]
pub fn lift_per_degree(
    pair: PlanePair,
    hull: &Hull,
    density: MassDensity,
    speed: Velocity,
) -> Force {
    let pressure_pa = dynamic_pressure_pa(density, speed);
    let area_m2 = 0.5 * pair.area().get::<uom::si::area::square_meter>();
    let level_m2 = area_m2 * hull.deadrise.cos().get::<ratio>();
    Force::new::<newton>(lift_per_degree_n(level_m2, pressure_pa))
}

/// Distance of the pair's lift ahead of the transom at a mean deflection.
#[must_use]
pub fn centre_of_lift(
    pair: PlanePair,
    hull: &Hull,
    hinge_height: Length,
    deflection: Angle,
) -> Length {
    let beam_m = hull.chine_beam.get::<meter>();
    let deflection_deg = degrees(deflection);
    let chord_m =
        wet_chord_m(pair.chord.get::<meter>(), hinge_height.get::<meter>(), deflection_deg);
    let cosine = hull.deadrise.cos().get::<ratio>();
    let span_ratio = 2.0 * span_ratio_of_one(pair.span.get::<meter>(), beam_m, cosine);
    let mean_edge_m = span_ratio * chord_m * fade_in(deflection_deg);
    Length::new::<meter>(centre_of_lift_m(beam_m, mean_edge_m))
}

/// Deflection at which the trailing edge only just reaches the extended bottom line.
///
/// δ = 0 is the plate parallel to the bottom. With the hinge a little above the
/// bottom edge the plate is dry until its trailing edge comes down to the
/// bottom line: tan δ = hinge height/chord, where [`wet_chord_m`] begins. Derived here.
#[must_use]
pub fn dead_band(hinge_height: Length, chord: Length) -> Angle {
    Angle::new::<degree>(dead_band_deg(hinge_height.get::<meter>(), chord.get::<meter>()))
}

/// [`dead_band`] in degrees, of lengths in m.
pub(crate) fn dead_band_deg(hinge_height_m: f64, chord_m: f64) -> f64 {
    hinge_height_m.atan2(chord_m).to_degrees()
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
        assert_relative_eq!(band(9.0), 1.591, max_relative = 1e-3);
        assert_relative_eq!(band(12.0), 1.193, max_relative = 1e-3);
    }

    /// Equation 7 for a full-span plane: 0.6 b about its trailing edge, which lies a chord aft of the transom.
    #[test]
    fn physics_a_full_span_plane_lifts_six_tenths_of_the_beam_ahead_of_its_trailing_edge() {
        let span_ratio = 2.0 * span_ratio_of_one(1.0 / 0.9, 2.0, 0.9);
        assert_relative_eq!(span_ratio, 1.0, max_relative = 1e-12);
        assert_relative_eq!(centre_of_lift_m(2.0, 0.3 * span_ratio), 0.9, max_relative = 1e-12);
    }

    /// Nothing below the dead band, and no jump where it ends; flush, the whole chord from the first.
    #[test]
    fn physics_the_wet_chord_begins_where_the_dead_band_ends() {
        let band_deg = dead_band_deg(0.006, 0.229);
        assert_relative_eq!(wet_chord_m(0.229, 0.006, 0.999 * band_deg), 0.0);
        let wet_m = wet_chord_m(0.229, 0.006, 1.001 * band_deg);
        assert!(wet_m > 0.0 && wet_m < 0.001, "{wet_m}");
        assert_relative_eq!(wet_chord_m(0.229, 0.0, 0.5), 0.229);
        assert_relative_eq!(wet_chord_m(0.229, 0.0, 0.0), 0.0);
        assert_relative_eq!(fade_in(0.0), 0.0);
        assert!(fade_in(5.0) > 0.99);
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
