use super::*;
use crate::boat::Boat;
use crate::doubt::interval::likely;
use crate::doubt::test_boat::bare as boat;
use approx::assert_relative_eq;
use statrs::distribution::{LogNormal, Normal};
use statrs::statistics::Distribution;

fn mean_and_deviation(values: &[f64]) -> [f64; 2] {
    let count = values.len() as f64;
    let mean = values.iter().sum::<f64>() / count;
    let square = values.iter().map(|value| (value - mean).powi(2)).sum::<f64>() / count;
    [mean, square.sqrt()]
}

/// Moments of what is drawn against those of the distributions by statrs.
#[test]
fn physics_moments_of_drawn_values_are_those_of_their_distributions() {
    let boat = boat(
        "[[tolerance]]\nof = \"weight.lcg\"\nby = \"0.1 m\"\n\
                     [[tolerance]]\nof = \"weight.mass\"\nby = \"12 %\"\n",
    );
    let inputs = Inputs::of(&boat);
    let draws = Draws::new(&inputs, 1);
    let drawn: Vec<Particulars> =
        (0..20_000).map(|i| draws.draw(i).particulars(&boat.particulars())).collect();
    let lcgs: Vec<f64> = drawn.iter().map(|boat| boat.weight.lcg.get::<meter>()).collect();
    let normal = Normal::new(2.45, 0.1 / 1.644_853_627).unwrap();
    let [mean, deviation] = mean_and_deviation(&lcgs);
    assert_relative_eq!(mean, normal.mean().unwrap(), epsilon = 0.002);
    assert_relative_eq!(deviation, normal.std_dev().unwrap(), max_relative = 0.02);
    let masses: Vec<f64> = drawn.iter().map(|b| b.weight.mass.get::<kilogram>()).collect();
    let log_normal = LogNormal::new(2800_f64.ln(), 1.12_f64.ln() / 1.644_853_627).unwrap();
    let [mean, deviation] = mean_and_deviation(&masses);
    assert_relative_eq!(mean, log_normal.mean().unwrap(), max_relative = 0.003);
    assert_relative_eq!(deviation, log_normal.std_dev().unwrap(), max_relative = 0.03);
    let range = likely(masses).unwrap();
    assert_relative_eq!(range.high, 2800.0 * 1.12, max_relative = 0.005);
    assert_relative_eq!(range.low, 2800.0 / 1.12, max_relative = 0.005);
}

#[test]
fn physics_a_draw_depends_on_seed_and_number_alone() {
    let all = Inputs::of(&boat(""));
    let draws = Draws::new(&all, 7);
    assert_eq!(draws.draw(3), draws.draw(3));
    assert_ne!(draws.draw(3).shares, draws.draw(4).shares);
    assert_ne!(draws.draw(3).shares, Draws::new(&all, 8).draw(3).shares);
    let mass = What::Value(Toleranced::Mass).index();
    let fewer = Inputs::of(&boat("")).without(|what| what == What::Lift);
    assert_eq!(draws.draw(3).shares[mass], Draws::new(&fewer, 7).draw(3).shares[mass]);
}

#[test]
fn physics_inputs_are_drawn_one_apart_from_the_other() {
    let inputs = Inputs::of(&boat(""));
    let draws = Draws::new(&inputs, 5);
    let drawn: Vec<Draw> = (0..4000).map(|number| draws.draw(number)).collect();
    for (index, input) in inputs.list.iter().enumerate() {
        for other in &inputs.list[..index] {
            let pairs = drawn
                .iter()
                .map(|draw| [draw.shares[input.what.index()], draw.shares[other.what.index()]]);
            let together = crate::doubt::rank::rank_correlation(pairs);
            // Four standard errors of 4000 pairs.
            assert!(together.abs() < 4.0 / 4000_f64.sqrt(), "{input:?} {other:?} {together}");
        }
    }
}

/// The boat in the middle of all spreads is the one described, and the lever of the thrust follows the weight.
#[test]
fn physics_the_middle_draw_is_the_boat_described_and_the_thrust_follows_the_weight() {
    let boat = boat("");
    let inputs = Inputs::of(&boat);
    let settings = Settings::default();
    let middle = Draw::at(&inputs, &[0.5; What::COUNT]).prism(&boat.particulars(), &settings);
    let described = Prism::new(&boat, &settings);
    for (drawn, own) in [
        (middle.weight_n, described.weight_n),
        (middle.lcg_m, described.lcg_m),
        (middle.thrust_offset_m, described.thrust_offset_m),
        (middle.displaced_volume_m3, described.displaced_volume_m3),
        (middle.viscosity_m2_s, described.viscosity_m2_s),
        (middle.settings.form.lift, 1.0),
        (middle.settings.effectiveness, 1.0),
    ] {
        assert_relative_eq!(drawn, own, max_relative = 1e-9);
    }
    let mut shares = [0.5; What::COUNT];
    shares[What::Value(Toleranced::Vcg).index()] = 0.95;
    let higher = Draw::at(&inputs, &shares).prism(&boat.particulars(), &settings);
    let rise_m = higher.vcg_m - described.vcg_m;
    // f = (VCG - h - LCG tan e) cos e with e = 2 deg.
    let lever_m = rise_m * 2_f64.to_radians().cos();
    assert_relative_eq!(
        higher.thrust_offset_m - described.thrust_offset_m,
        lever_m,
        epsilon = 1e-9
    );
    assert_relative_eq!(rise_m, 0.05 * 2.25, max_relative = 1e-9);
}

/// What is drawn is what a boat built with the drawn values would be.
#[test]
fn physics_a_drawn_boat_is_the_one_that_would_be_built_from_the_drawn_values() {
    let boat = boat("");
    let inputs = Inputs::of(&boat);
    let settings = Settings::default();
    for number in 0..20 {
        let draw = Draws::new(&inputs, 3).draw(number);
        let drawn = draw.particulars(&boat.particulars());
        let mut input = boat.input().clone();
        input.hull.chine_beam = Some(drawn.hull.chine_beam);
        input.hull.bottom_length = Some(drawn.hull.bottom_length);
        input.hull.deadrise = Some(drawn.hull.deadrise);
        input.weight = crate::boat::WeightInput::Totals {
            mass: drawn.weight.mass,
            lcg: Some(drawn.weight.lcg),
            vcg: Some(drawn.weight.vcg),
            tcg: None,
        };
        input.drive.thrust_angle = Some(drawn.thrust_angle);
        input.drive.thrust_line = Some(drawn.thrust_line);
        input.water = Some(crate::boat::WaterInput::Explicit {
            density: drawn.water.density,
            kinematic_viscosity: drawn.water.kinematic_viscosity,
        });
        let built = Prism::new(&Boat::build(input).unwrap(), &draw.settings(&settings));
        let own = draw.prism(&boat.particulars(), &settings);
        assert_eq!(format!("{built:?}"), format!("{own:?}"));
    }
}
