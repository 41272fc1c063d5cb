//! Every error text of a boat file, word for word.

use super::tests::{changed, fault_text};

#[test]
fn error_wrong_unit() {
    let text = fault_text(&changed("\"2.25 m\"", "\"2.25 kg\""));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x hull.chine_beam: `kg` is a unit of mass, and a length is wanted here
   ,-[boat.toml:4:20]
 3 | bottom_length = "6.5 m"
 4 | chine_beam = "2.25 kg"
   :                    ^^
 5 | deadrise = "18 deg"
   `----
  help: write for example `2.25 m`; a length is a number with m, cm, mm, ft or
        in
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_missing_unit() {
    let text = fault_text(&changed("\"2.25 m\"", "\"2.25\""));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x hull.chine_beam: `2.25` has no unit
   ,-[boat.toml:4:15]
 3 | bottom_length = "6.5 m"
 4 | chine_beam = "2.25"
   :               ^^^^
 5 | deadrise = "18 deg"
   `----
  help: write for example `2.25 m`; a length is a number with m, cm, mm, ft or
        in
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_decimal_comma() {
    let text = fault_text(&changed("\"2.25 m\"", "\"2,25 m\""));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x hull.chine_beam: `2,25` has a decimal comma
   ,-[boat.toml:4:15]
 3 | bottom_length = "6.5 m"
 4 | chine_beam = "2,25 m"
   :               ^^^^
 5 | deadrise = "18 deg"
   `----
  help: write `2.25 m`; a length is a number with m, cm, mm, ft or in
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_number_without_quotation_marks() {
    let text = fault_text(&changed("\"2.25 m\"", "2.25"));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x hull.chine_beam: 2.25 has no unit
   ,-[boat.toml:4:14]
 3 | bottom_length = "6.5 m"
 4 | chine_beam = 2.25
   :              ^^^^
 5 | deadrise = "18 deg"
   `----
  help: write for example "2.25 m", in quotation marks; a length is a number
        with m, cm, mm, ft or in
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_quantity_without_quotation_marks() {
    let text = fault_text(&changed("\"2.25 m\"", "2.25 m"));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x `2.25 m` stands without quotation marks
   ,-[boat.toml:4:14]
 3 | bottom_length = "6.5 m"
 4 | chine_beam = 2.25 m
   :              ^^^^^^
 5 | deadrise = "18 deg"
   `----
  help: write "2.25 m"
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_missing_key() {
    let text = fault_text(&changed("chine_beam = \"2.25 m\"\n", ""));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x hull.chine_beam: neither chine_beam nor overall_beam is given
   ,-[boat.toml:2:2]
 1 | name = "Test boat"
 2 | [hull]
   :  ^^^^
 3 | bottom_length = "6.5 m"
   `----
  help: give the beam between the chines, for example chine_beam = "2.25 m";
        or overall_beam = "2.55 m", from which it is estimated
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_misspelt_key() {
    let text = fault_text(&changed("chine_beam", "chine_bem"));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x [hull] has no key `chine_bem`
   ,-[boat.toml:4:1]
 3 | bottom_length = "6.5 m"
 4 | chine_bem = "2.25 m"
   : ^^^^^^^^^
 5 | deadrise = "18 deg"
   `----
  help: did you mean `chine_beam`? [hull] takes overall_length, bottom_length,
        overall_beam, chine_beam, deadrise, stations, features, roughness,
        entrance_half_angle, transom_area_ratio and waterline_length
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_key_of_another_table() {
    let text = fault_text(&changed("vcg", "power"));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x [weight] has no key `power`
   ,-[boat.toml:9:1]
 8 | lcg = "2.45 m"
 9 | power = "0.75 m"
   : ^^^^^
   `----
  help: `power` belongs in [drive]; [weight] takes mass, lcg, vcg and tcg
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_misspelt_table() {
    let text = fault_text(&changed("[hull]", "[hul]"));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x a boat file has no `hul` at the top
   ,-[boat.toml:2:2]
 1 | name = "Test boat"
 2 | [hul]
   :  ^^^
 3 | bottom_length = "6.5 m"
   `----
  help: did you mean `[hull]`?
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_missing_table() {
    let text = fault_text(&changed(
        "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\ndeadrise = \"18 deg\"\n",
        "",
    ));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x the table [hull] is missing
  help: write for example
        [hull]
        bottom_length = "6.5 m"
        chine_beam = "2.25 m"
        deadrise = "18 deg"
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_negative_beam() {
    let text = fault_text(&changed("\"2.25 m\"", "\"-2.25 m\""));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x hull.chine_beam: -2.25 m is outside 0.1 to 12 m
   ,-[boat.toml:4:14]
 3 | bottom_length = "6.5 m"
 4 | chine_beam = "-2.25 m"
   :              ^^^^^^^^^
 5 | deadrise = "18 deg"
   `----
  help: largest chine beam, spray rails not counted; for example "2.25 m"
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_deadrise_of_90_degrees() {
    let text = fault_text(&changed("18 deg", "90 deg"));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x hull.deadrise: 90 deg is outside 0 to 40 deg
   ,-[boat.toml:5:12]
 4 | chine_beam = "2.25 m"
 5 | deadrise = "90 deg"
   :            ^^^^^^^^
 6 | [weight]
   `----
  help: deadrise at half the length of the chine; the lift equation was tested
        to 30 deg; for example "18 deg"
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_lcg_outside_the_hull() {
    let text = fault_text(&changed("2.45 m", "7 m"));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x weight.lcg: the centre of gravity is 7 m forward of the transom, outside
  | the bottom, which is 6.5 m long
   ,-[boat.toml:8:7]
 7 | mass = "2800 kg"
 8 | lcg = "7 m"
   :       ^^^^^
 9 | vcg = "0.75 m"
   `----
  help: measure it from the transom forward along the keel; planing boats have
        0.30 to 0.45 of the bottom length
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_totals_and_loads_both_given() {
    let text = fault_text(&changed(
        "[weight]",
        "[[load]]\nitem = \"hull\"\nmass = \"2 t\"\nforward = \"2 m\"\nup = \"0.5 m\"\n[weight]",
    ));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x the totals in [weight] and the items in [[load]] are both given
    ,-[boat.toml:11:2]
 10 | up = "0.5 m"
 11 | [weight]
    :  ^^^^^^
 12 | mass = "2800 kg"
    `----
  help: delete one of the two: [weight], or every [[load]]
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_duplicate_key() {
    let text = fault_text(&changed("deadrise", "chine_beam"));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x `chine_beam` is given twice
   ,-[boat.toml:5:1]
 4 | chine_beam = "2.25 m"
 5 | chine_beam = "18 deg"
   : ^^^^^^^^^^
 6 | [weight]
   `----
  help: delete one of the two, or change its name
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_text_not_closed() {
    let text = fault_text(&changed("\"18 deg\"", "\"18 deg"));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x this text is not closed by a quotation mark, or a \ stands in it
   ,-[boat.toml:5:18]
 4 | chine_beam = "2.25 m"
 5 | deadrise = "18 deg
   :                  ^
 6 | [weight]
   `----
  help: put " at the beginning and the end of the value, on one line
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_value_missing() {
    let text = fault_text(&changed(" \"18 deg\"", ""));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x the value is missing
   ,-[boat.toml:5:10]
 4 | chine_beam = "2.25 m"
 5 | deadrise =
   :          ^
 6 | [weight]
   `----
  help: write it after the equals sign in quotation marks, or delete the line
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_list_instead_of_table() {
    let text = fault_text(&changed("[weight]", "[[weight]]"));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x weight is a table with the header [weight], given once
   ,-[boat.toml:6:3]
 5 | deadrise = "18 deg"
 6 | [[weight]]
   :   ^^^^^^
 7 | mass = "2800 kg"
   `----
  help: write [weight] on a line of its own, and below it mass = "2800 kg"
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_knots_written_kts() {
    let text = fault_text(&changed("[weight]", "[drive]\ntop_speed = \"32 kts\"\n[weight]"));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x drive.top_speed: `kts` is not a unit of speed
   ,-[boat.toml:7:17]
 6 | [drive]
 7 | top_speed = "32 kts"
   :                 ^^^
 8 | [weight]
   `----
  help: write `kn` for knots; a speed is a number with kn, km/h, mph, m/s or
        ft/s
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_unknown_word() {
    let text = fault_text(&changed("[weight]", "[water]\nkind = \"salt\"\n[weight]"));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x water.kind: `salt` is not one of its words
   ,-[boat.toml:7:8]
 6 | [water]
 7 | kind = "salt"
   :        ^^^^^^
 8 | [weight]
   `----
  help: write "sea" or "fresh"
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_several_faults_together() {
    let text = fault_text(&changed(
        "\"2.25 m\"\ndeadrise = \"18 deg\"\n",
        "\"2.25 ft 3\"\ndeadrise = \"95 deg\"\nkeel = 1\n",
    ));
    let expected = r#"
  x boat.toml has 3 faults

Error:
  x hull.chine_beam: `3` has no unit
   ,-[boat.toml:4:23]
 3 | bottom_length = "6.5 m"
 4 | chine_beam = "2.25 ft 3"
   :                       ^
 5 | deadrise = "95 deg"
   `----
  help: write `2.25 ft 3 in`; a length is a number with m, cm, mm, ft or in

Error:
  x hull.deadrise: 95 deg is outside 0 to 40 deg
   ,-[boat.toml:5:12]
 4 | chine_beam = "2.25 ft 3"
 5 | deadrise = "95 deg"
   :            ^^^^^^^^
 6 | keel = 1
   `----
  help: deadrise at half the length of the chine; the lift equation was tested
        to 30 deg; for example "18 deg"

Error:
  x [hull] has no key `keel`
   ,-[boat.toml:6:1]
 5 | deadrise = "95 deg"
 6 | keel = 1
   : ^^^^
 7 | [weight]
   `----
  help: did you mean `features`? [hull] takes overall_length, bottom_length,
        overall_beam, chine_beam, deadrise, stations, features, roughness,
        entrance_half_angle, transom_area_ratio and waterline_length
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_entrance_without_transom() {
    let text = fault_text(&changed("[weight]", "entrance_half_angle = \"22 deg\"\n[weight]"));
    let expected = r#"
  x boat.toml has 1 fault

Error:
  x hull.entrance_half_angle is given without hull.transom_area_ratio
   ,-[boat.toml:6:23]
 5 | deadrise = "18 deg"
 6 | entrance_half_angle = "22 deg"
   :                       ^^^^^^^^
 7 | [weight]
   `----
  help: give both, which the resistance before planing needs, or neither
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn regression_what_is_not_seen_is_refused_and_never_shown_raw() {
    for (written, found) in [("\\u0007", "U+0007"), ("\\u202e", "U+202E"), ("\\n[hull]", "U+000A")]
    {
        let text = fault_text(&format!("base_condition = \"a{written}b\"\n{}", changed("", "")));
        assert!(
            text.contains(&format!("base_condition: holds {found}, a character that is not seen")),
            "{text}"
        );
    }
    let raw = "# \u{1b}[31mred\u{202e}\n";
    let text = fault_text(&format!("{raw}{}", changed("\"2.25 m\"", "\"2.25 kg\"")));
    assert!(!text.contains(['\u{1b}', '\u{202e}']), "{text}");
}
