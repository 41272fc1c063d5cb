//! Power and top speed held together by the balance, and boats of which nothing can be said.

use super::*;
use crate::input::parse_boat;

/// The boat of the first page of the documentation, with another mass, power and top speed.
fn described(mass: &str, power: &str, top_speed: &str, more: &str) -> Boat {
    let text = format!(
        "name = \"Our boat\"\n[hull]\noverall_length = \"6.8 m\"\nchine_beam = \"2.3 m\"\n\
         deadrise = \"19 deg\"\n[weight]\nmass = \"{mass}\"\n[drive]\nkind = \"outboard\"\n\
         power = \"{power}\"\ntop_speed = \"{top_speed}\"\n{more}"
    );
    parse_boat("boat.toml", &text).unwrap_or_else(|faults| panic!("{faults:?}")).boat
}

fn sense(boat: &Boat) -> Sense {
    Sense::of(std::slice::from_ref(boat), &Settings::default())
}

/// The one question that a boat raises.
fn only(boat: &Boat) -> Question {
    let mut all = sense(boat).questions;
    assert_eq!(all.len(), 1, "{all:#?}");
    all.remove(0)
}

/// Invented boats with a power and a top speed that go together; all else is estimated.
///
/// Length over all, chine beam, deadrise, mass, power in kW, top speed in kn. Common practice, no source.
const ORDINARY: [(&str, &str, [f64; 6]); 18] = [
    ("tender", "outboard", [4.2, 1.5, 14.0, 480.0, 30.0, 27.0]),
    ("inflatable with a hard bottom", "outboard", [5.0, 1.55, 20.0, 720.0, 52.0, 32.0]),
    ("inland fishing boat", "outboard", [5.3, 1.8, 6.0, 800.0, 44.0, 28.0]),
    ("bow rider", "sterndrive", [5.5, 1.9, 19.0, 1250.0, 100.0, 34.0]),
    ("fast inflatable", "outboard", [5.5, 1.6, 22.0, 900.0, 85.0, 38.0]),
    ("very fast open boat", "outboard", [6.0, 1.85, 14.0, 1150.0, 150.0, 52.0]),
    ("wooden launch", "shaft", [6.5, 1.9, 8.0, 1700.0, 110.0, 28.0]),
    ("open fishing boat", "outboard", [6.8, 2.1, 20.0, 1900.0, 150.0, 38.0]),
    ("our boat", "outboard", [6.8, 2.3, 19.0, 2300.0, 150.0, 30.0]),
    ("day boat with a cuddy", "sterndrive", [7.0, 2.2, 18.0, 2500.0, 190.0, 35.0]),
    ("work boat", "outboard", [7.5, 2.4, 14.0, 3800.0, 220.0, 25.0]),
    ("patrol inflatable", "outboard", [8.0, 2.1, 24.0, 2600.0, 220.0, 40.0]),
    ("family cruiser", "sterndrive", [8.5, 2.5, 17.0, 4300.0, 260.0, 32.0]),
    ("diesel cruiser", "shaft", [10.0, 2.9, 17.0, 7500.0, 440.0, 27.0]),
    ("pilot boat", "shaft", [11.0, 3.1, 19.0, 10_500.0, 480.0, 22.0]),
    ("jet boat", "jet", [10.0, 2.7, 20.0, 7000.0, 500.0, 32.0]),
    ("offshore racer", "outboard", [12.0, 2.3, 24.0, 5800.0, 800.0, 62.0]),
    ("sport fishing boat", "shaft", [12.0, 3.5, 15.0, 14_000.0, 650.0, 26.0]),
];

#[test]
fn practice_ordinary_boats_have_nothing_to_settle() {
    for (name, drive, [overall_m, beam_m, deadrise_deg, mass_kg, power_kw, top_kn]) in ORDINARY {
        let text = format!(
            "[hull]\noverall_length = \"{overall_m} m\"\nchine_beam = \"{beam_m} m\"\n\
             deadrise = \"{deadrise_deg} deg\"\n[weight]\nmass = \"{mass_kg} kg\"\n[drive]\n\
             kind = \"{drive}\"\npower = \"{power_kw} kW\"\ntop_speed = \"{top_kn} kn\"\n"
        );
        let boat = parse_boat("boat.toml", &text).unwrap().boat;
        let sense = sense(&boat);
        assert!(sense.is_clear(), "{name}: {sense:#?}");
    }
}

#[test]
fn practice_the_demonstration_boats_have_nothing_to_settle() {
    for name in ["wren", "lantern", "holm"] {
        let path = format!("{}/data/boats/{name}.toml", env!("CARGO_MANIFEST_DIR"));
        let boat = parse_boat(name, &std::fs::read_to_string(path).unwrap()).unwrap().boat;
        let boats = boat.in_all_conditions().unwrap();
        let sense = Sense::of(&boats, &Settings::default());
        assert!(sense.is_clear(), "{name}: {sense:#?}");
    }
}

#[test]
fn practice_a_speed_in_kilometres_an_hour_typed_as_knots() {
    let question = only(&described("2300 kg", "150 kW", "50 kn", ""));
    assert_eq!((question.word, question.key.as_str()), ("speed-against-power", "drive.top_speed"));
    assert_eq!(question.value_text(), "50 kn");
    assert_eq!(
        question.cause,
        "top_speed: km/h typed as kn (50 km/h is 27 kn); or power: that of one engine of 2"
    );
    assert_eq!(
        question.cure,
        "write top_speed = \"50 km/h\" below [drive]; or write power = \"300 kW\" below [drive]"
    );
    assert_eq!(
        question.rule,
        "with 150 kW and her mass, when 30 to 70 % of the power reaches the water"
    );
    // The share of the power is 0.306 at 26 kn and 0.669 at 40 kn.
    let [low, high] = question.usual.map(|end| end.number_in("kn"));
    assert!((25.0..26.5).contains(&low) && (39.5..41.5).contains(&high), "{low} {high}");
}

#[test]
fn practice_a_power_with_its_point_displaced() {
    let question = only(&described("2300 kg", "15 kW", "30 kn", ""));
    assert_eq!(question.cause, "power: a decimal point in the wrong place");
    assert_eq!(question.cure, "write power = \"150 kW\" below [drive]");
    // So little power does not even bring her to planing, at 9.23 kn.
    assert_eq!(question.usual_text(), "0 to 9.23 kn");
}

#[test]
fn practice_a_mass_in_pounds_that_its_size_allows() {
    let question = only(&described("3200 kg", "75 kW", "26 kn", ""));
    assert!(question.cause.contains("mass: lb typed as kg (3200 lb is 1451 kg)"), "{question:?}");
    assert!(question.cure.contains("write mass = \"3200 lb\" below [weight]"));
    assert!(question.cause.contains("power: that of one engine of 2"));
}

#[test]
fn practice_far_more_power_than_the_speed_takes() {
    let question = only(&described("2300 kg", "150 kW", "16 kn", ""));
    assert_eq!(question.cause, "top_speed: m/s typed as kn (16 m/s is 31.1 kn)");
    assert_eq!(question.cure, "write top_speed = \"16 m/s\" below [drive]");
    let question = only(&described("2300 kg", "700 kW", "30 kn", ""));
    assert_eq!(
        question.cause,
        "a foul bottom, a propeller that does not let the engine reach its speed, or the power of another engine"
    );
}

#[test]
fn practice_a_top_speed_below_planing_with_power_to_plane() {
    let sense = sense(&described("2300 kg", "150 kW", "3 kn", ""));
    assert_eq!(sense.silences.len(), 1);
    assert_eq!(sense.silences[0].silence.word(), "top-speed-below-planing");
    let [question] = sense.questions.as_slice() else { panic!("{sense:?}") };
    assert_eq!(question.cause, "top_speed: a decimal point in the wrong place");
    assert_eq!(question.cure, "write top_speed = \"30 kn\" below [drive]");
}

#[test]
fn practice_a_boat_that_is_not_made_to_plane_is_not_asked_for_her_power() {
    let sense = sense(&described("2300 kg", "15 kW", "7 kn", ""));
    assert_eq!(sense.questions, []);
    assert_eq!(sense.silences[0].silence.word(), "top-speed-below-planing");
}

#[test]
fn practice_steps_explain_a_speed_that_the_equations_do_not() {
    let plain = described("2300 kg", "150 kW", "45 kn", "");
    assert_eq!(only(&plain).word, "speed-against-power");
    let mut input = plain.input().clone();
    input.features = vec![Feature::Steps];
    assert_eq!(sense(&Boat::build(input).unwrap()).questions, []);
}

#[test]
fn practice_a_question_about_mass_or_balance_comes_before_one_about_speed() {
    let text = "[hull]\noverall_length = \"6.8 m\"\nchine_beam = \"2.3 m\"\ndeadrise = \"19 deg\"\n\
                [weight]\nmass = \"230 kg\"\n[drive]\npower = \"150 kW\"\ntop_speed = \"30 kn\"\n";
    let boat = parse_boat("boat.toml", text).unwrap().boat;
    assert_eq!(only(&boat).word, "mass-against-size");
}

const LOADS: &str = "[hull]\noverall_length = \"6.8 m\"\nchine_beam = \"2.3 m\"\ndeadrise = \"19 deg\"\n\
    [[load]]\nitem = \"boat\"\nmass = \"2000 kg\"\nforward = \"2.2 m\"\nup = \"0.8 m\"\n\
    [drive]\ntop_speed = \"30 kn\"\n\
    [[condition]]\nname = \"full\"\n[[condition.load]]\nitem = \"guests\"\nmass = \"640 kg\"\n\
    forward = \"5.2 m\"\nup = \"1.1 m\"\n";

#[test]
fn practice_a_question_names_the_loading_it_is_found_in() {
    let boat = parse_boat("boat.toml", LOADS).unwrap().boat;
    let boats = boat.in_all_conditions().unwrap();
    let all = Sense::of(&boats, &Settings::default());
    let [question] = all.questions.as_slice() else { panic!("{all:#?}") };
    assert_eq!(question.word, "centre-of-gravity-along");
    assert_eq!(question.condition.as_deref(), Some("full"));
    assert!(
        question.cause.contains("`guests` measured from the bow, not from the transom"),
        "{question:?}"
    );
    // Asked about that loading alone there is none other to tell it from.
    let alone = Sense::of(&boats[1..], &Settings::default());
    assert_eq!(alone.questions[0].condition, None);
}

#[test]
fn practice_nothing_can_be_said_of_a_boat_that_is_in_balance_at_no_speed() {
    let boat = described("2300 kg", "150 kW", "30 kn", "");
    let mut input = boat.input().clone();
    if let WeightInput::Totals { lcg, .. } = &mut input.weight {
        *lcg = Some(boat.weight().lcg * 0.05);
    }
    let sense = sense(&Boat::build(input).unwrap());
    assert_eq!(sense.questions[0].word, "centre-of-gravity-along");
    let silence = sense.silences[0].silence;
    assert_eq!(silence.word(), "no-balance-at-any-speed");
    assert_eq!(
        silence.sentence(crate::units::UnitSystem::Marine.into()),
        "Nothing can be said about planes for her: from the start of planing, 9.2 kn, to her top speed, 30.0 kn, she is in balance at no speed, since her stern is too heavy."
    );
}
