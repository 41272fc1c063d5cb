//! Boats as people describe them: ordinary ones raise no question, slips raise theirs.

use super::{Question, questions};
use crate::boat::Boat;
use crate::input::parse_boat;

fn boat(text: &str) -> Boat {
    parse_boat("boat.toml", text).unwrap_or_else(|faults| panic!("{faults:?}\n{text}")).boat
}

/// Length over all, chine beam, deadrise, mass; more lines of [weight] and of the tables after it.
fn described(size: [&str; 4], weight: &str, rest: &str) -> Boat {
    let [overall, beam, deadrise, mass] = size;
    boat(&format!(
        "[hull]\noverall_length = \"{overall}\"\nchine_beam = \"{beam}\"\ndeadrise = \"{deadrise}\"\n\
         [weight]\nmass = \"{mass}\"\n{weight}\n{rest}"
    ))
}

const USUAL: [&str; 4] = ["6.8 m", "2.3 m", "19 deg", "2300 kg"];
const DRIVE: &str = "[drive]\npower = \"150 kW\"\ntop_speed = \"30 kn\"\n";

fn words(boat: &Boat) -> Vec<&'static str> {
    questions(boat).iter().map(|question| question.word).collect()
}

/// The one question that a boat raises.
fn only(boat: &Boat) -> Question {
    let mut all = questions(boat);
    assert_eq!(all.len(), 1, "{all:#?}");
    all.remove(0)
}

/// Value, usual range, cause and cure as they are told.
fn told(question: &Question) -> [String; 4] {
    let (cause, cure) = (question.cause.clone(), question.cure.clone());
    [question.value_text(), question.usual_text(), cause, cure]
}

/// Invented boats of usual proportions, from open boats of 4 m to motor yachts of 15 m.
///
/// Length over all, chine beam, mass. Common practice, no source.
const ORDINARY: [(&str, [f64; 3]); 16] = [
    ("tender", [4.2, 1.5, 480.0]),
    ("inflatable with a hard bottom", [5.0, 1.55, 720.0]),
    ("inland fishing boat", [5.3, 1.8, 800.0]),
    ("bow rider", [5.5, 1.9, 1250.0]),
    ("fast inflatable", [5.5, 1.6, 900.0]),
    ("wooden launch", [6.5, 1.9, 1700.0]),
    ("open fishing boat", [6.8, 2.1, 1900.0]),
    ("day boat with a cuddy", [7.0, 2.2, 2500.0]),
    ("work boat", [7.5, 2.4, 3800.0]),
    ("patrol inflatable", [8.0, 2.1, 2600.0]),
    ("family cruiser", [8.5, 2.5, 4300.0]),
    ("diesel cruiser", [10.0, 2.9, 7500.0]),
    ("pilot boat", [11.0, 3.1, 10_500.0]),
    ("offshore racer", [12.0, 2.3, 5800.0]),
    ("sport fishing boat", [12.0, 3.5, 14_000.0]),
    ("motor yacht", [15.0, 4.0, 22_000.0]),
];

#[test]
fn practice_ordinary_boats_raise_no_question_with_all_else_estimated() {
    for (name, [overall_m, beam_m, mass_kg]) in ORDINARY {
        let size = [
            format!("{overall_m} m"),
            format!("{beam_m} m"),
            "18 deg".to_owned(),
            format!("{mass_kg} kg"),
        ];
        let size = size.each_ref().map(String::as_str);
        for drive in ["", "[drive]\nkind = \"outboard\"\n"] {
            let boat = described(size, "", drive);
            assert_eq!(words(&boat), Vec::<&str>::new(), "{name}");
        }
        // In the other system of units she is the same boat.
        let size = [
            format!("{:.2} ft", overall_m / 0.3048),
            format!("{:.2} ft", beam_m / 0.3048),
            "18 deg".to_owned(),
            format!("{:.0} lb", mass_kg / 0.453_592_37),
        ];
        let boat = described(size.each_ref().map(String::as_str), "", "");
        assert_eq!(words(&boat), Vec::<&str>::new(), "{name}");
    }
}

#[test]
fn practice_the_demonstration_boats_raise_no_question_in_any_loading() {
    for name in ["wren", "lantern", "holm"] {
        let path = format!("{}/data/boats/{name}.toml", env!("CARGO_MANIFEST_DIR"));
        let boat = boat(&std::fs::read_to_string(path).unwrap());
        for boat in boat.in_all_conditions().unwrap() {
            assert_eq!(words(&boat), Vec::<&str>::new(), "{name}, {}", boat.condition().name);
        }
    }
}

#[test]
fn practice_a_centre_of_gravity_measured_from_the_bow() {
    let question = only(&described(USUAL, "lcg = \"4.4 m\"", DRIVE));
    assert_eq!((question.word, question.key.as_str()), ("centre-of-gravity-along", "weight.lcg"));
    assert_eq!(
        told(&question),
        [
            "4.4 m",
            "1.62 to 2.66 m",
            "measured from the bow, not from the transom",
            "write lcg = \"2.4 m\" below [weight]",
        ]
    );
    assert_eq!(question.rule, "0.28 to 0.46 of the bottom length, forward of the transom");
}

#[test]
fn practice_a_centre_of_gravity_measured_from_the_forefoot() {
    let text = "[hull]\nbottom_length = \"5.8 m\"\nchine_beam = \"2.3 m\"\ndeadrise = \"19 deg\"\n\
                [weight]\nmass = \"2300 kg\"\nlcg = \"3.6 m\"\n";
    let question = only(&boat(text));
    assert_eq!(question.cause, "measured from the forefoot, not from the transom");
    assert_eq!(question.cure, "write lcg = \"2.2 m\" below [weight]");
}

#[test]
fn practice_a_centre_of_gravity_in_feet_typed_as_metres_and_one_with_its_point_displaced() {
    let text = "[hull]\nbottom_length = \"12 m\"\nchine_beam = \"3.5 m\"\ndeadrise = \"15 deg\"\n\
                [weight]\nmass = \"14000 kg\"\nlcg = \"0.44 m\"\n";
    let question = only(&boat(text));
    assert_eq!(question.cause, "a decimal point in the wrong place");
    assert_eq!(question.cure, "write lcg = \"4.4 m\" below [weight]");
    let size = ["22 ft 4 in", "7 ft 6 in", "19 deg", "5000 lb"];
    let question = only(&described(size, "lcg = \"2.2 ft\"", DRIVE));
    assert_eq!(
        told(&question),
        [
            "2.2 ft",
            "5.32 to 8.73 ft",
            "m typed as ft (2.2 m is 7.218 ft)",
            "write lcg = \"2.2 m\" below [weight]",
        ]
    );
}

#[test]
fn practice_a_centre_of_gravity_that_nothing_explains_is_asked_for_anew() {
    let question = only(&described(USUAL, "lcg = \"1.2 m\"", DRIVE));
    assert_eq!(
        question.cause,
        "measured from another point than the transom, or the bottom is not so long"
    );
    assert_eq!(
        question.cure,
        "measure it from the transom forward along the keel; left out, it is estimated as 2.139 m"
    );
}

/// A boat of loads: each with its mass, its forward and its up.
fn loaded(loads: &[(&str, &str, &str, &str)]) -> Boat {
    let mut text =
        "[hull]\noverall_length = \"6.8 m\"\nchine_beam = \"2.3 m\"\ndeadrise = \"19 deg\"\n\
                    [drive]\ntop_speed = \"30 kn\"\n"
            .to_owned();
    for (item, mass, forward, up) in loads {
        text.push_str(&format!(
            "[[load]]\nitem = \"{item}\"\nmass = \"{mass}\"\nforward = \"{forward}\"\nup = \"{up}\"\n"
        ));
    }
    boat(&text)
}

#[test]
fn practice_a_load_measured_from_the_bow_is_named() {
    let boat = loaded(&[
        ("hull", "1500 kg", "4.2 m", "0.8 m"),
        ("engine", "250 kg", "-0.2 m", "0.9 m"),
        ("crew", "400 kg", "2.5 m", "1.1 m"),
    ]);
    let question = only(&boat);
    assert_eq!(question.key, "load");
    assert_eq!(question.value_text(), "3.372 m");
    assert_eq!(question.cause, "`hull` measured from the bow, not from the transom");
    assert_eq!(question.cure, "write forward = \"2.6 m\" for `hull` below [[load]]");
}

#[test]
fn practice_loads_all_measured_from_the_bow() {
    let boat = loaded(&[
        ("hull", "1500 kg", "4.2 m", "0.8 m"),
        ("engine", "250 kg", "6.4 m", "0.9 m"),
        ("crew", "400 kg", "4.1 m", "1.1 m"),
    ]);
    let question = only(&boat);
    assert!(
        question.cause.starts_with("every load measured from the bow, not from the transom"),
        "{}",
        question.cause
    );
    assert!(question.cure.starts_with("write each forward as 6.8 m less what stands there"));
}

#[test]
fn practice_a_mass_in_pounds_typed_as_kilograms_and_the_other_way() {
    let question = only(&described(["6.8 m", "2.3 m", "19 deg", "5070 kg"], "", DRIVE));
    assert_eq!((question.word, question.key.as_str()), ("mass-against-size", "weight.mass"));
    assert_eq!(
        told(&question),
        [
            "5070 kg",
            "1380 to 4280 kg",
            "lb typed as kg (5070 lb is 2300 kg)",
            "write mass = \"5070 lb\" below [weight]",
        ]
    );
    assert_eq!(question.rule, "45 to 140 kg/m^3 of bottom length x chine beam x chine beam");
    let question = only(&described(["6.8 m", "2.3 m", "19 deg", "2300 lb"], "", DRIVE));
    assert_eq!(question.cause, "kg typed as lb (2300 kg is 5071 lb)");
    assert_eq!(question.cure, "write mass = \"2300 kg\" below [weight]");
}

#[test]
fn practice_a_mass_with_its_point_displaced() {
    for (mass, right) in [("230 kg", "2300 kg"), ("23000 kg", "2300 kg"), ("0.23 t", "2.3 t")] {
        let question = only(&described(["6.8 m", "2.3 m", "19 deg", mass], "", DRIVE));
        assert_eq!(question.cause, "a decimal point in the wrong place", "{mass}");
        assert_eq!(question.cure, format!("write mass = \"{right}\" below [weight]"));
    }
}

#[test]
fn practice_a_mass_without_engine_and_people() {
    let question = only(&described(["6.8 m", "2.3 m", "19 deg", "900 kg"], "", DRIVE));
    assert!(question.cause.contains("kg typed as lb") || question.cause.contains("the boat alone"));
}

#[test]
fn practice_the_load_with_the_wrong_mass_is_named() {
    let boat = loaded(&[
        ("hull", "6000 kg", "2.4 m", "0.8 m"),
        ("engine", "250 kg", "-0.2 m", "0.9 m"),
        ("crew", "400 kg", "2.5 m", "1.1 m"),
    ]);
    let question = only(&boat);
    assert_eq!(question.word, "mass-against-size");
    assert!(
        question.cause.contains("`hull`: lb typed as kg (6000 lb is 2722 kg)"),
        "{}",
        question.cause
    );
    assert!(question.cure.contains("write mass = \"6000 lb\" for `hull` below [[load]]"));
}

#[test]
fn practice_half_the_beam_and_a_length_in_feet() {
    let question = only(&described(["8.5 m", "1.06 m", "19 deg", "2600 kg"], "", DRIVE));
    assert_eq!((question.word, question.key.as_str()), ("beam-against-length", "hull.chine_beam"));
    assert_eq!(
        told(&question),
        [
            "1.06 m",
            "1.11 to 3.61 m",
            "half of it, from the centreline to the chine",
            "write chine_beam = \"2.12 m\" below [hull]",
        ]
    );
    // A bottom of 22 m on that beam and mass: 22 ft.
    let text = "[hull]\nbottom_length = \"22 m\"\nchine_beam = \"2.3 m\"\ndeadrise = \"19 deg\"\n\
                [weight]\nmass = \"2600 kg\"\nlcg = \"2.5 m\"\n";
    let question = only(&boat(text));
    assert_eq!(question.cause, "bottom_length: ft typed as m (22 ft is 6.706 m)");
    assert_eq!(question.cure, "write bottom_length = \"22 ft\" below [hull]");
}

#[test]
fn practice_every_length_in_feet_typed_as_metres() {
    let question = only(&described(["22.3 m", "7.5 m", "19 deg", "2300 kg"], "", DRIVE));
    assert_eq!(question.word, "mass-against-size");
    assert!(question.cause.contains("ft typed as m in the lengths of the hull"), "{question:?}");
    assert!(question.cure.contains("write them in ft below [hull]"));
}

#[test]
fn practice_the_length_over_all_given_for_the_bottom() {
    let text = "[hull]\noverall_length = \"6.8 m\"\nbottom_length = \"6.8 m\"\nchine_beam = \"2.3 m\"\n\
                deadrise = \"19 deg\"\n[weight]\nmass = \"2300 kg\"\n";
    let question = only(&boat(text));
    assert_eq!(
        (question.word, question.key.as_str()),
        ("bottom-against-overall", "hull.bottom_length")
    );
    assert_eq!(
        told(&question),
        [
            "6.8 m",
            "4.42 to 6.66 m",
            "the length over all, given for the bottom",
            "measure it along the keel from the transom to the forefoot; left out, it is estimated as 5.78 m",
        ]
    );
}

#[test]
fn practice_a_deadrise_exchanged_with_the_transoms_and_one_taken_too_far_forward() {
    let question = only(&described(USUAL, "", "[transom]\ndeadrise = \"23 deg\"\n"));
    assert_eq!(question.word, "deadrise-against-transom");
    assert_eq!(
        told(&question),
        [
            "19 deg",
            "23 to 28 deg",
            "exchanged with that at the transom, 23 deg: a bottom grows flatter toward the transom",
            "write deadrise = \"23 deg\" below [hull] and write deadrise = \"19 deg\" below [transom]",
        ]
    );
    let question = only(&described(["6.8 m", "2.3 m", "34 deg", "2300 kg"], "", DRIVE));
    assert_eq!(question.word, "deadrise-steep");
    assert_eq!(question.cause, "taken too far forward, where every bottom is steeper");
}

#[test]
fn practice_a_height_of_the_centre_of_gravity_in_feet_or_from_the_waterline() {
    let question = only(&described(USUAL, "vcg = \"2.5 m\"", DRIVE));
    assert_eq!((question.word, question.key.as_str()), ("centre-of-gravity-up", "weight.vcg"));
    assert_eq!(
        question.cause,
        "ft typed as m (2.5 ft is 0.762 m); or a decimal point in the wrong place"
    );
    assert_eq!(
        question.cure,
        "write vcg = \"2.5 ft\" below [weight]; or write vcg = \"0.25 m\" below [weight]"
    );
    let question = only(&described(USUAL, "vcg = \"-0.1 m\"", DRIVE));
    assert_eq!(question.cause, "measured from the waterline, not from the keel line");
}

#[test]
fn practice_planes_in_the_wrong_unit_and_span_exchanged_with_chord() {
    let planes = |span: &str, chord: &str| {
        let planes = format!("[planes]\nspan = \"{span}\"\nchord = \"{chord}\"\n");
        only(&described(USUAL, "", &planes))
    };
    let question = planes("61 mm", "230 mm");
    assert_eq!((question.word, question.key.as_str()), ("planes-against-beam", "planes.span"));
    assert_eq!(
        told(&question),
        [
            "61 mm",
            "184 to 1150 mm",
            "span: cm typed as mm (61 cm is 610 mm)",
            "write span = \"61 cm\" below [planes]",
        ]
    );
    let question = planes("24 mm", "9 mm");
    assert!(question.cause.contains("span and chord: in typed as mm"), "{}", question.cause);
    assert!(question.cure.contains("write span = \"24 in\" and chord = \"9 in\" below [planes]"));
    let question = planes("230 mm", "610 mm");
    assert_eq!(question.cause, "span and chord exchanged");
    assert_eq!(question.cure, "write span = \"610 mm\" and chord = \"230 mm\" below [planes]");
}

#[test]
fn practice_power_alone_and_top_speed_alone_are_held_against_the_mass() {
    let with = |drive: &str| described(USUAL, "", &format!("[drive]\n{drive}\n"));
    let question = only(&with("power = \"1500 kW\""));
    assert_eq!((question.word, question.key.as_str()), ("power-against-mass", "drive.power"));
    assert_eq!(
        told(&question),
        [
            "1500 kW",
            "23 to 506 kW",
            "a decimal point in the wrong place",
            "write power = \"150 kW\" below [drive]",
        ]
    );
    let question = only(&with("top_speed = \"55 kn\""));
    assert_eq!((question.word, question.key.as_str()), ("speed-against-size", "drive.top_speed"));
    assert_eq!(question.value_text(), "55 kn");
    assert_eq!(
        question.cause,
        "mph typed as kn (55 mph is 47.79 kn); or km/h typed as kn (55 km/h is 29.7 kn)"
    );
}

#[test]
fn practice_a_question_of_one_slip_is_asked_once() {
    // The bottom in feet: its proportions, its mass and its balance would all be unusual.
    let text = "[hull]\nbottom_length = \"19 m\"\nchine_beam = \"2.3 m\"\ndeadrise = \"19 deg\"\n\
                [weight]\nmass = \"2300 kg\"\nlcg = \"2.2 m\"\n";
    let question = only(&boat(text));
    assert_eq!(question.word, "beam-against-length");
    assert!(question.cause.starts_with("bottom_length: ft typed as m"), "{}", question.cause);
}
