use super::*;
use crate::error::{Appearance, error_text};

/// A boat file without faults; each test changes one thing in it.
const BOAT: &str = r#"name = "Test boat"
[hull]
bottom_length = "6.5 m"
chine_beam = "2.25 m"
deadrise = "18 deg"
[weight]
mass = "2800 kg"
lcg = "2.45 m"
vcg = "0.75 m"
"#;

fn changed(from: &str, to: &str) -> String {
    assert!(BOAT.contains(from), "{from}");
    BOAT.replacen(from, to, 1)
}

fn fault_text(text: &str) -> String {
    match parse_boat("boat.toml", text) {
        Ok(_) => panic!("no fault found in\n{text}"),
        Err(faults) => error_text(&faults, Appearance::Ascii),
    }
}

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
  x hull.chine_beam is missing
   ,-[boat.toml:2:2]
 1 | name = "Test boat"
 2 | [hull]
   :  ^^^^
 3 | bottom_length = "6.5 m"
   `----
  help: write below [hull] for example
        chine_beam = "2.25 m"
        (chine beam, mean over the running wetted bottom)
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
        chine_beam and deadrise
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
  help: chine beam, mean over the running wetted bottom; for example "2.25 m"
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
  help: deadrise, mean over the running wetted bottom; the lift equation was
        tested to 30 deg; for example "18 deg"
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
  help: deadrise, mean over the running wetted bottom; the lift equation was
        tested to 30 deg; for example "18 deg"

Error:
  x [hull] has no key `keel`
   ,-[boat.toml:6:1]
 5 | deadrise = "95 deg"
 6 | keel = 1
   : ^^^^
 7 | [weight]
   `----
  help: did you mean `chine_beam`? [hull] takes overall_length, bottom_length,
        chine_beam and deadrise
"#;
    assert_eq!(text.trim_end(), expected.trim_matches('\n'));
}

#[test]
fn error_several_long_lines_are_named_not_shown() {
    let long = "x".repeat(2000);
    let text = format!("{BOAT}# {long}\nkeel = 1\n");
    let shown = fault_text(&text);
    assert!(shown.contains("x line 11: [weight] has no key `keel`"), "{shown}");
    assert!(!shown.contains(&long));
}

#[test]
fn error_place_of_a_fault_in_the_loads() {
    let loads = "[[load]]\nitem = \"hull\"\nmass = \"2 t\"\nforward = \"9 m\"\nup = \"0.5 m\"\n\
                 [[load]]\nitem = \"crew\"\nmass = \"70 lbf\"\nforward = \"9 m\"\nup = \"0.5 m\"\n";
    let hull = BOAT.split("[weight]").next().unwrap_or_default();
    let wrong = fault_text(&format!("{hull}{loads}"));
    assert!(wrong.contains("load.mass (entry 2): `lbf` is a unit of force"), "{wrong}");
    assert!(wrong.contains("[boat.toml:13:12]"), "{wrong}");
    let forward = fault_text(&format!("{hull}{}", loads.replace("lbf", "kg")));
    assert!(forward.contains("load: the centre of gravity (summed from the loads) is 9 m"));
    assert!(forward.contains("[boat.toml:6:1]"), "{forward}");
}

#[test]
fn error_duties_take_the_keys_of_their_kind() {
    let duty = |body: &str| fault_text(&format!("{BOAT}[[duty]]\n{body}"));
    assert!(duty("kind = \"list\"\nspeed = \"20 kn\"\n").contains("does not say what heels"));
    let both = duty("kind = \"list\"\nspeed = \"20 kn\"\nmoment = \"9 N m\"\nmass = \"9 kg\"\n");
    assert!(both.contains("both a moment and a mass"), "{both}");
    let other =
        duty("kind = \"least-resistance\"\nwithin = \"3 %\"\nspeed = \"20 kn\"\nto = \"9 kn\"\n");
    assert!(other.contains("a duty of the kind least-resistance has no to"), "{other}");
    assert!(other.contains("help: it takes within and speed"), "{other}");
    let missing = duty("kind = \"hump-trim\"\nat_most = \"5 deg\"\nto = \"9 kn\"\n");
    assert!(missing.contains("duty.from (entry 1) is missing"), "{missing}");
}

#[test]
fn error_water_given_in_two_ways_or_by_half() {
    let water = |body: &str| fault_text(&format!("{BOAT}[water]\n{body}"));
    let both = water(
        "kind = \"sea\"\ndensity = \"1026 kg/m^3\"\nkinematic_viscosity = \"1.19e-6 m^2/s\"\n",
    );
    assert!(both.contains("water.kind and the properties of the water are both given"), "{both}");
    assert!(water("density = \"1026 kg/m^3\"\n").contains("water.kinematic_viscosity is missing"));
    assert!(water("temperature = \"9 degC\"\n").contains("water.kind is missing"));
    assert!(
        water("kind = \"sea\"\nsalinity = \"20 g\"\n").contains("`20 g` is not a plain number")
    );
}

#[test]
fn error_thrust_line_given_in_two_ways() {
    let text =
        fault_text(&format!("{BOAT}[drive]\nthrust_offset = \"0.3 m\"\nthrust_height = \"0 m\"\n"));
    assert!(text.contains("thrust_offset and thrust_height are both given"), "{text}");
}

#[test]
fn regression_every_way_of_writing_a_boat_is_read() {
    let boat = parse_boat("boat.toml", BOAT).map(|file| file.boat).unwrap();
    let inline = "name='Test boat'\nhull = { bottom_length = '650 cm', chine_beam = '2250 mm', deadrise = '18\u{b0}' }\n\
                  weight.mass = '2.8 t'\nweight.lcg = '2.45 m'\nweight.vcg = '75 cm'\n";
    let other = parse_boat("boat.toml", inline).map(|file| file.boat).unwrap();
    assert_eq!(boat.name(), other.name());
    assert_eq!(boat.hull().chine_beam, other.hull().chine_beam);
    assert_eq!(boat.hull().deadrise, other.hull().deadrise);
    let with_returns = format!("\u{feff}{}", BOAT.replace('\n', "\r\n"));
    assert_eq!(parse_boat("boat.toml", &with_returns).unwrap().boat, boat);
}

#[test]
fn regression_plain_numbers_and_shares() {
    let text = format!(
        "{BOAT}[sizing]\nshare = 0.7\nsmallest_aspect = 2\nlargest_aspect = \"3.5\"\nlift_reference = \"trailing-edge\"\n"
    );
    let boat = parse_boat("boat.toml", &text).unwrap().boat;
    assert!((boat.sizing().share.value - 0.7).abs() < 1.0e-15);
    assert_eq!(boat.sizing().smallest_aspect, 2.0);
    assert_eq!(boat.sizing().largest_aspect, 3.5);
    assert_eq!(boat.sizing().lift_reference, crate::boat::LiftReference::TrailingEdge);
}

#[test]
fn regression_unusual_values_are_warnings_with_their_line() {
    let file = parse_boat("boat.toml", &changed("18 deg", "29 deg")).unwrap();
    let warnings: Vec<String> = file.warnings.iter().map(ToString::to_string).collect();
    assert_eq!(
        warnings,
        [
            "boat.toml, line 5: hull.deadrise = 29 deg is unusual (usually 8 to 26 deg): deadrise, mean over the running wetted bottom; the lift equation was tested to 30 deg"
        ]
    );
    assert!(parse_boat("boat.toml", BOAT).unwrap().warnings.is_empty());
}

fn refusal(name: &str, content: &[u8]) -> String {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join(name);
    std::fs::write(&path, content).unwrap();
    let error = read_boat(&path).unwrap_err();
    error_text(&error, Appearance::Ascii).replace(&shown_name(directory.path()), "DIR")
}

/// The file name may be broken over lines, since it is as long as the directory's.
fn joined(text: &str) -> String {
    text.split_whitespace().filter(|word| *word != "|").collect::<Vec<_>>().join(" ")
}

#[test]
fn error_files_that_are_not_boat_files() {
    assert_eq!(
        joined(&refusal("b.toml", b"")),
        "x DIR/b.toml: the file is empty help: `planewright new FILE` writes a starter file with every key explained"
    );
    assert_eq!(joined(&refusal("b.toml", b" \r\n\t\n")), joined(&refusal("b.toml", b"")));
    let binary = "x DIR/b.toml: this is not text in UTF-8: line 2 holds something else help: save it as plain text with the encoding UTF-8";
    assert_eq!(joined(&refusal("b.toml", b"name\n\x00\x01\xff")), binary);
    assert_eq!(joined(&refusal("b.toml", b"name\n\xe9t\xe9")), binary);
    assert_eq!(
        joined(&refusal("b.toml", &vec![b'#'; 2 << 20])),
        "x DIR/b.toml: larger than 1 MiB, so it is not a boat file help: a boat file is a few hundred lines of text at most"
    );
}

#[test]
fn regression_a_file_of_exactly_one_mebibyte_is_read() {
    let directory = tempfile::tempdir().unwrap();
    let path = directory.path().join("b.toml");
    let filler = "#".repeat((1 << 20) - BOAT.len());
    std::fs::write(&path, format!("{BOAT}{filler}")).unwrap();
    assert!(read_boat(&path).is_ok());
    std::fs::write(&path, format!("{BOAT}{filler}#")).unwrap();
    assert!(matches!(read_boat(&path), Err(FileError::TooLarge { .. })));
}

#[test]
fn error_missing_file_directory_and_a_path_through_a_file() {
    let directory = tempfile::tempdir().unwrap();
    let missing = directory.path().join("none.toml");
    assert!(matches!(read_boat(&missing), Err(FileError::NotFound { .. })));
    assert!(matches!(read_boat(directory.path()), Err(FileError::Directory { .. })));
    let file = directory.path().join("file");
    std::fs::write(&file, "x").unwrap();
    let error = read_boat(&file.join("b.toml")).unwrap_err();
    assert!(error.to_string().ends_with("cannot be read: not a directory"), "{error}");
}

fn check_no_panic(text: &str) {
    if let Err(faults) = parse_boat("b.toml", text) {
        assert!(!faults.faults().is_empty());
        assert!(!error_text(&faults, Appearance::Ascii).is_empty());
    }
}

proptest::proptest! {
    #[test]
    fn regression_any_text_is_read_or_refused(text in proptest::prelude::any::<String>()) {
        check_no_panic(&text);
    }

    /// A good file with one piece taken out and another put in its place.
    #[test]
    fn regression_damaged_files_are_read_or_refused(
        from in 0..BOAT.len(),
        length in 0..30_usize,
        put in "[-\\[\\]{}=\"'#.,0-9a-z\u{e9}\u{4e2d}\n \\\\]{0,8}",
    ) {
        let end = (from + length).min(BOAT.len());
        check_no_panic(&format!("{}{put}{}", &BOAT[..from], &BOAT[end..]));
    }
}
