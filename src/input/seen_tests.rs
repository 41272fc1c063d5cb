//! What a trim seen on the water may say, and what it may not, word for word.

use uom::si::angle::degree;

use crate::input::parse_boat;

const BOAT: &str = "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\n\
                    deadrise = \"18 deg\"\n[weight]\nmass = \"2800 kg\"\n\
                    [drive]\ntop_speed = \"30 kn\"\n";
const PLANES: &str = "[planes]\nspan = \"0.6 m\"\nchord = \"0.25 m\"\n";

/// Problem and help of the only fault.
fn fault(seen: &str) -> [String; 2] {
    let faults = parse_boat("b.toml", &format!("{BOAT}[[seen]]\n{seen}")).unwrap_err();
    let [fault] = faults.faults() else { panic!("{faults:?}") };
    assert!(fault.place.is_some(), "{fault:?}");
    [fault.problem.clone(), fault.help.clone()]
}

#[test]
fn practice_two_keys_are_enough_and_a_telephone_is_good_to_a_degree() {
    let text = format!("{BOAT}[[seen]]\nspeed = \"14 kn\"\ntrim = \"6.5 deg\"\n");
    let boat = parse_boat("b.toml", &text).unwrap().boat;
    let [seen] = boat.seen() else { panic!("one reading") };
    assert!(!seen.is_with_planes() && seen.by.is_none() && seen.condition.is_none());
    assert!((seen.half_width().get::<degree>() - 1.0).abs() < 1e-12);
}

/// A reading with planes down is one of the pair that was down, whatever is tried afterwards.
#[test]
fn regression_a_boat_with_other_planes_was_seen_with_those_she_had() {
    let text = format!(
        "{BOAT}{PLANES}[[seen]]\nspeed = \"14 kn\"\ndeflection = \"5 deg\"\ntrim = \"5 deg\"\n"
    );
    let boat = parse_boat("b.toml", &text).unwrap().boat;
    let bare = boat.with_planes(None).unwrap();
    assert_eq!(bare.seen()[0].planes, boat.planes());
    let other = crate::boat::PlanePair {
        chord: 0.5 * boat.planes().unwrap().chord,
        ..boat.planes().unwrap()
    };
    let refitted = bare.with_planes(Some(other)).unwrap();
    assert_eq!(refitted.seen()[0].planes, boat.planes());
}

#[test]
fn error_a_reading_needs_speed_and_trim() {
    assert_eq!(
        fault("trim = \"6 deg\"\n"),
        [
            "seen.speed (entry 1) is missing",
            "write below [[seen]] for example\nspeed = \"14 kn\"\n(speed held steady through the water while the trim was read; where the bow is highest it tells most)"
        ]
    );
    assert_eq!(fault("speed = \"14 kn\"\n")[0], "seen.trim (entry 1) is missing");
    assert_eq!(
        fault("speed = \"14 kn\"\ntrim = \"25 deg\"\n")[0],
        "seen.trim (entry 1): 25 deg is outside 0 to 20 deg"
    );
    assert_eq!(
        fault("speed = \"14 kn\"\ntrim = \"5 deg\"\nby = \"0 deg\"\n")[0],
        "seen.by (entry 1): 0 deg is outside 0.1 to 5 deg"
    );
}

#[test]
fn error_nothing_is_seen_of_planes_that_are_not_there() {
    assert_eq!(
        fault("speed = \"14 kn\"\ntrim = \"5 deg\"\ndeflection = \"5 deg\"\n"),
        [
            "seen.deflection (entry 1): the boat has no planes that could have been down",
            "describe the pair that was fitted in [planes], or delete the deflection"
        ]
    );
}

/// By hand: √(9.80665 × 2.25) = 4.697 m/s, 9.131 kn.
#[test]
fn error_a_boat_that_does_not_plane_yet_tells_nothing() {
    let [problem, help] = fault("speed = \"9 kn\"\ntrim = \"5 deg\"\n");
    assert!(problem.starts_with("seen.speed (entry 1): at 4.63 m/s"), "{problem}");
    assert!(problem.contains("she does not plane yet: the equations begin at 4.697"), "{problem}");
    assert!(help.starts_with("give a trim read at a higher speed"), "{help}");
    let text = format!("{BOAT}[[seen]]\nspeed = \"9.14 kn\"\ntrim = \"5 deg\"\n");
    assert!(parse_boat("b.toml", &text).is_ok());
}

#[test]
fn error_a_reading_is_taken_in_a_condition_that_there_is() {
    let [problem, help] = fault("speed = \"14 kn\"\ntrim = \"5 deg\"\ncondition = \"listed\"\n");
    assert_eq!(problem, "seen.condition (entry 1): the boat has no loading condition `listed`");
    assert_eq!(help, "did you mean `as listed`? Her conditions are `as listed`");
}
