use uom::si::length::millimeter;

use super::*;
use crate::plane::linkage::{Linkage, LinkageDimensions};
use uom::si::angle::degree;
use uom::si::f64::Angle;

fn plate(chord_mm: f64, pin_mm: f64) -> PlateStrip {
    PlateStrip {
        chord: Length::new::<millimeter>(chord_mm),
        span: Length::new::<millimeter>(600.0),
        pin_distance: Length::new::<millimeter>(pin_mm),
        thickness: Length::new::<millimeter>(5.0),
    }
}

fn load(chord_mm: f64, pin_mm: f64) -> StripLoad {
    StripLoad::new(&plate(chord_mm, pin_mm), Pressure::new::<pascal>(20_000.0)).unwrap()
}

/// Independent solution by marching: shear, moment, slope and deflection of a uniformly loaded
/// strip from the load alone; the unknown slope at the hinge from zero deflection at the pin.
/// Returns the largest |moment| before the pin, |moment| at the pin, and the end deflection.
fn marched(strip: &StripLoad, stiffness: f64) -> [f64; 3] {
    let steps = 200_000;
    let dx = strip.chord_m / f64::from(steps);
    let w = strip.pressure_pa * strip.span_m;
    // Equilibrium of the whole: moments about the hinge.
    let pin_n = w * strip.chord_m * 0.5 * strip.chord_m / strip.pin_m;
    let hinge_n = w * strip.chord_m - pin_n;
    let (mut slope, mut rise) = (0.0, 0.0);
    let (mut largest, mut rise_at_pin) = (0.0_f64, 0.0);
    let at_pin = 0.5 * w * strip.pin_m * strip.pin_m - hinge_n * strip.pin_m;
    for i in 0..steps {
        let x = (f64::from(i) + 0.5) * dx;
        // Upward water load, supports hold down.
        let moment = 0.5 * w * x * x - hinge_n * x - pin_n * (x - strip.pin_m).max(0.0);
        if x < strip.pin_m {
            largest = largest.max(-moment);
        }
        let kink = moment / stiffness * dx;
        rise += (slope + 0.5 * kink) * dx;
        slope += kink;
        if x < strip.pin_m {
            rise_at_pin = rise;
        }
    }
    // Turn the whole strip about the hinge until the pin stays put.
    let end = rise - rise_at_pin * strip.chord_m / strip.pin_m;
    [largest, at_pin.abs(), end]
}

#[test]
fn physics_overhang_beam_against_double_integration() {
    // Euler–Bernoulli (Roark, Formulas for Stress and Strain, beam chapter): E I y'' = M, solved
    // by marching.
    let modulus = PlateMaterial::stainless_316().modulus;
    for (chord_mm, pin_mm) in [(250.0, 150.0), (250.0, 180.0), (300.0, 280.0), (300.0, 190.0)] {
        let strip = load(chord_mm, pin_mm);
        let stiffness = 193e9 * 0.6 * 0.005f64.powi(3) / 12.0;
        let [between, at_pin, end] = marched(&strip, stiffness);
        let own = strip.moment_between().get::<newton_meter>();
        approx::assert_relative_eq!(own, between, max_relative = 1e-4);
        let own = strip.moment_at_pin().get::<newton_meter>();
        approx::assert_relative_eq!(own, at_pin, max_relative = 1e-9);
        let own = strip.trailing_edge_deflection(modulus).unwrap();
        approx::assert_relative_eq!(own.get::<meter>(), end, max_relative = 1e-3);
    }
}

#[test]
fn published_limits_of_the_overhang_beam() {
    // Pin at the trailing edge: simply supported, w L²/8, ends w L/2 (any beam table).
    let strip = load(250.0, 250.0);
    let total_n = 20_000.0 * 0.6 * 0.25;
    let moment = strip.moment_between().get::<newton_meter>();
    approx::assert_relative_eq!(moment, total_n * 0.25 / 8.0, max_relative = 1e-12);
    approx::assert_relative_eq!(strip.hinge_reaction().get::<newton>(), 0.5 * total_n);
    assert_eq!(strip.moment_at_pin().get::<newton_meter>(), 0.0);
    // Best pin for a uniform load: at 1/√2 of the chord both moments are 0.0429 w c² (beam
    // tables, from memory).
    let best = load(250.0, 250.0 / 2f64.sqrt());
    let unit = 20_000.0 * 0.6 * 0.0625;
    let at_pin = best.moment_at_pin().get::<newton_meter>();
    let between = best.moment_between().get::<newton_meter>();
    approx::assert_relative_eq!(at_pin / unit, 0.0429, max_relative = 2e-3);
    approx::assert_relative_eq!(at_pin, between, max_relative = 1e-12);
}

#[test]
fn physics_reactions_balance_and_tip_over_ahead_of_mid_chord() {
    for pin_mm in [100.0, 125.0, 180.0] {
        let strip = load(250.0, pin_mm);
        let sum = strip.hinge_reaction() + strip.pin_reaction();
        approx::assert_relative_eq!(sum.get::<newton>(), 3000.0, max_relative = 1e-12);
    }
    assert!(load(250.0, 100.0).hinge_reaction().get::<newton>() < 0.0);
    assert_eq!(load(250.0, 100.0).moment_between().get::<newton_meter>(), 0.0);
}

#[test]
fn physics_hinge_reaction_agrees_with_the_linkage() {
    // Lower pin on the plate's own line: the part of the linkage's hinge force normal to the
    // plate is then the beam's end reaction, whatever the slope of the actuator.
    let metre = Length::new::<meter>;
    let linkage = Linkage::new(&LinkageDimensions {
        hinge_height: metre(0.0),
        upper_pin_up_transom: metre(0.26),
        upper_pin_stand_off: metre(0.03),
        lower_pin_aft: metre(0.18),
        lower_pin_above_plate: metre(0.0),
        transom_rake: Angle::new::<degree>(12.0),
    })
    .unwrap();
    let beam = load(250.0, 180.0);
    for deflection_deg in [-8.0, 0.0, 12.0] {
        let reaction = linkage
            .hinge_reaction(
                Force::new::<newton>(3000.0),
                metre(0.125),
                Angle::new::<degree>(deflection_deg),
            )
            .unwrap();
        let (sin, cos) = f64::to_radians(deflection_deg).sin_cos();
        let normal = reaction.aft.get::<newton>() * sin + reaction.up.get::<newton>() * cos;
        let own = beam.hinge_reaction().get::<newton>();
        approx::assert_relative_eq!(normal, own, max_relative = 1e-12);
    }
}

#[test]
fn physics_one_bracket_is_worse_and_the_needed_thickness_just_passes() {
    let material = PlateMaterial::aluminium_5083_h116();
    let bracket = Support::MiddleBracket { width: Length::new::<millimeter>(80.0) };
    let strip = load(250.0, 180.0);
    let whole = strip.check(&material, Support::WholeSpan, 2.0).unwrap();
    let one = strip.check(&material, bracket, 2.0).unwrap();
    assert_eq!(whole.spanwise_stress.get::<pascal>(), 0.0);
    assert!(one.safety_factor < whole.safety_factor);
    // By hand: reach 0.26 m, 20 kPa·0.26²/2 = 676 N·m/m; over t²/6 = 4.1667e-6 m²: 162.2 MPa;
    // end 20 kPa·0.26⁴/(8·71 GPa·1.0417e-8 m³) = 15.4 mm.
    approx::assert_relative_eq!(
        one.spanwise_stress.get::<megapascal>(),
        162.24,
        max_relative = 1e-4
    );
    approx::assert_relative_eq!(
        one.side_deflection.get::<millimeter>(),
        15.45,
        max_relative = 1e-3
    );
    assert!(!one.strong_enough);
    let mut thicker = plate(250.0, 180.0);
    thicker.thickness = one.needed_thickness;
    let just = StripLoad::new(&thicker, Pressure::new::<pascal>(20_000.0)).unwrap();
    let just = just.check(&material, bracket, 2.0).unwrap();
    approx::assert_relative_eq!(just.safety_factor, 2.0, max_relative = 1e-9);
}

#[test]
fn practice_default_factors_follow_the_kind_of_limit() {
    assert_eq!(PlateMaterial::stainless_316().default_factor(), 2.0);
    assert_eq!(PlateMaterial::aluminium_5083_h116().default_factor(), 2.0);
    assert_eq!(PlateMaterial::glass_polyester_laminate().default_factor(), 4.0);
}

#[test]
fn error_plate_and_bracket_that_do_not_fit() {
    let pressure = Pressure::new::<pascal>(20_000.0);
    let text = StripLoad::new(&plate(250.0, 260.0), pressure).unwrap_err().to_string();
    assert_eq!(
        text,
        "the pin line is 260 mm aft of the hinge and the chord only 250 mm; move the pin forward \
         or make the chord longer"
    );
    let wide = Support::MiddleBracket { width: Length::new::<millimeter>(700.0) };
    let strip = load(250.0, 180.0);
    let text = strip.check(&PlateMaterial::stainless_316(), wide, 2.0).unwrap_err().to_string();
    assert_eq!(
        text,
        "the bracket is 700 mm wide and the span only 600 mm; give the bracket's width across \
         the span"
    );
    assert!(StripLoad::new(&plate(250.0, 180.0), -pressure).is_err());
}
