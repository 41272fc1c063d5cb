//! What a tolerance of a boat file may not say, word for word.

use crate::input::parse_boat;

const BOAT: &str = "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\n\
                    deadrise = \"18 deg\"\n[weight]\nmass = \"2800 kg\"\n\
                    [drive]\nthrust_height = \"-0.2 m\"\n";

/// Problem and help of the only fault.
fn fault(tolerances: &str) -> [String; 2] {
    let faults = parse_boat("b.toml", &format!("{BOAT}{tolerances}")).unwrap_err();
    let [fault] = faults.faults() else { panic!("{faults:?}") };
    assert!(fault.place.is_some(), "{fault:?}");
    [fault.problem.clone(), fault.help.clone()]
}

fn one(of: &str, width: &str) -> [String; 2] {
    fault(&format!("[[tolerance]]\nof = \"{of}\"\n{width}\n"))
}

#[test]
fn error_a_tolerance_says_how_far_off_in_one_way() {
    let help = "give by = \"0.1 m\", or source = \"measured\"";
    let both = one("weight.lcg", "by = \"0.1 m\"\nsource = \"measured\"");
    assert_eq!(both, ["this tolerance gives both by and source", help]);
    let none = one("weight.lcg", "");
    assert_eq!(none, ["this tolerance does not say how far off the value may be", help]);
}

#[test]
fn error_a_value_has_one_tolerance() {
    let text = "[[tolerance]]\nof = \"weight.lcg\"\nby = \"0.1 m\"\n\
                [[tolerance]]\nof = \"weight.lcg\"\nsource = \"weighed\"\n";
    assert_eq!(
        fault(text),
        ["tolerance.of (entry 2): weight.lcg has two tolerances", "delete one of the two"]
    );
}

#[test]
fn error_only_some_values_are_toleranced() {
    let [problem, help] = one("hull.length", "by = \"0.1 m\"");
    assert_eq!(problem, "tolerance.of (entry 1): `hull.length` is not one of its words");
    assert!(help.starts_with("write \"hull.chine_beam\", \"hull.deadrise\", "), "{help}");
}

#[test]
fn error_a_half_width_is_of_the_kind_of_its_value() {
    assert_eq!(
        one("weight.lcg", "by = \"5 kg\"")[0],
        "tolerance.by (entry 1): `kg` is a unit of mass, and a length is wanted here"
    );
    assert_eq!(
        one("hull.deadrise", "by = \"5 %\""),
        [
            "tolerance.by (entry 1): a share of hull.deadrise says nothing",
            "give it as a quantity, for example \"1 deg\""
        ]
    );
}

#[test]
fn error_a_half_width_is_not_negative_and_not_too_wide() {
    let help = "nine such values in ten lie within it of the true one; what is known no better than that is better left out, and is then estimated";
    for (of, by, problem) in [
        ("weight.mass", "60 %", "60 % is outside 0 to 50 %"),
        ("weight.mass", "1500 kg", "1500 kg is outside 0 to 1400 kg"),
        ("hull.deadrise", "10 deg", "10 deg is outside 0 to 9 deg"),
        ("weight.lcg", "-0.1 m", "-0.1 m is outside 0 to 4 m"),
    ] {
        let expected = [format!("tolerance.by (entry 1): {problem}"), help.to_owned()];
        assert_eq!(one(of, &format!("by = \"{by}\"")), expected);
    }
}

#[test]
fn error_not_everything_can_be_weighed() {
    assert_eq!(
        one("hull.chine_beam", "source = \"weighed\""),
        [
            "tolerance.source (entry 1): hull.chine_beam is nothing that a scale finds",
            "write \"measured\", \"brochure\" or \"guessed\""
        ]
    );
}

#[test]
fn error_what_the_boat_does_not_have_is_not_toleranced() {
    assert_eq!(
        one("drive.thrust_offset", "by = \"0.05 m\""),
        [
            "tolerance.of (entry 1): the boat has no drive.thrust_offset: its thrust line is given by thrust_height",
            "write of = \"drive.thrust_height\""
        ]
    );
    assert_eq!(
        one("air.frontal_area", "by = \"10 %\""),
        [
            "tolerance.of (entry 1): the boat has no air.frontal_area: air drag is not counted",
            "add [air], or delete this tolerance"
        ]
    );
}

#[test]
fn error_what_only_a_trial_finds_has_no_usual_width() {
    assert_eq!(
        one("planes.effectiveness", "source = \"measured\""),
        [
            "tolerance.source (entry 1): how planes.effectiveness was come by does not say how far off it is",
            "give by = \"15 %\", as far as the sea trial tells"
        ]
    );
    assert_eq!(
        one("hull.roughness", "by = \"20 %\""),
        [
            "tolerance.by (entry 1): a share of hull.roughness says nothing",
            "give it as a quantity, for example \"0.0002\""
        ]
    );
    assert_eq!(
        one("planes.effectiveness", "by = \"120 %\"")[0],
        "tolerance.by (entry 1): 120 % is outside 0 to 100 %"
    );
    assert_eq!(
        one("hull.roughness", "by = \"0.02\"")[0],
        "tolerance.by (entry 1): 0.02 is outside 0 to 0.005"
    );
}
