use super::*;
use crate::input::parse_boat;
use approx::assert_relative_eq;

const HULL: &str =
    "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\ndeadrise = \"18 deg\"\n";

fn inputs(more: &str) -> Inputs {
    Inputs::of(&parse_boat("b.toml", &format!("{HULL}{more}")).unwrap().boat)
}

fn one(inputs: &Inputs, value: Toleranced) -> &Input {
    inputs.list.iter().find(|input| input.what == What::Value(value)).expect("it is spread")
}

#[test]
fn regression_places_are_all_different() {
    let equations = [What::Lift, What::CentreOfPressure, What::Resistance, What::HullForm];
    let all = Toleranced::ALL.map(What::Value).into_iter().chain(equations);
    let mut indices: Vec<usize> = all.map(What::index).collect();
    indices.sort_unstable();
    assert!(indices.iter().copied().eq(0..What::COUNT));
}

#[test]
fn practice_what_the_file_does_not_state_is_taken_as_from_a_brochure_or_by_its_estimate() {
    let inputs = inputs("[weight]\nmass = \"2800 kg\"\n");
    let mass = one(&inputs, Toleranced::Mass);
    assert_eq!((mass.basis.clone(), mass.spread), (Basis::TakenAsBrochure, Spread::factor_of(0.1)));
    // LCG is estimated at 0.37 of the bottom length, likely 0.32 to 0.42.
    let lcg = one(&inputs, Toleranced::Lcg);
    assert_eq!(lcg.basis, Basis::Estimate);
    assert_relative_eq!(lcg.spread.quantile(0.95), 0.05 * 6.5, max_relative = 1e-9);
    assert!(inputs.list.iter().all(|input| input.what != What::Value(Toleranced::AirArea)));
}

#[test]
fn regression_what_the_file_states_comes_first() {
    let inputs = inputs(
        "[weight]\nmass = \"2800 kg\"\n\
         [[tolerance]]\nof = \"weight.lcg\"\nby = \"0.08 m\"\n\
         [[tolerance]]\nof = \"weight.mass\"\nsource = \"weighed\"\n\
         [[tolerance]]\nof = \"hull.chine_beam\"\nby = \"45 mm\"\n\
         [[tolerance]]\nof = \"hull.deadrise\"\nby = \"0 deg\"\n",
    );
    let lcg = one(&inputs, Toleranced::Lcg);
    assert_eq!((lcg.basis.clone(), lcg.spread), (Basis::Stated, Spread::step_of(0.08)));
    let mass = one(&inputs, Toleranced::Mass);
    assert_eq!(mass.basis, Basis::Source(Source::Weighed));
    assert_eq!(mass.spread, Spread::factor_of(0.01));
    let beam = one(&inputs, Toleranced::ChineBeam);
    assert_relative_eq!(beam.spread.quantile(0.95), 1.02, max_relative = 1e-9);
    let is_deadrise = |input: &Input| input.what == What::Value(Toleranced::Deadrise);
    assert!(!inputs.list.iter().any(is_deadrise), "what is known exactly is not spread");
}

#[test]
fn regression_every_input_has_words() {
    for value in Toleranced::ALL {
        assert!(!What::Value(value).remedy().is_empty() && !What::Value(value).name().is_empty());
        assert!(value.key() == What::Value(value).word());
    }
}

#[test]
fn regression_what_a_trial_told_takes_the_place_of_what_tank_runs_told() {
    let weight = "[weight]\nmass = \"2800 kg\"\n";
    let effectiveness = What::Value(Toleranced::PlaneEffectiveness);
    let of = |inputs: &Inputs, what| {
        inputs.list.iter().find(|i| i.what == what).map(|i| (i.spread, i.basis.clone()))
    };
    let before = inputs(weight);
    let deviation = crate::plane::effect::EFFECTIVENESS_LOG_SPREAD;
    let scattered = (Spread::Factor { deviation }, Basis::TankRuns);
    assert_eq!(of(&before, effectiveness), Some(scattered));
    assert_eq!(of(&before, What::Value(Toleranced::Roughness)), None);
    let after = inputs(&format!(
        "{weight}[[tolerance]]\nof = \"planes.effectiveness\"\nby = \"12 %\"\n\
         [[tolerance]]\nof = \"hull.roughness\"\nby = \"0.0002\"\n"
    ));
    let (spread, basis) = of(&after, effectiveness).unwrap();
    assert_eq!(basis, Basis::Stated);
    assert_relative_eq!(spread.quantile(0.95), 1.12, max_relative = 1e-9);
    let rough = of(&after, What::Value(Toleranced::Roughness)).unwrap();
    assert_eq!(rough, (Spread::step_of(0.0002), Basis::Stated));
}
