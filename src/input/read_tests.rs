use super::*;
use crate::error::{Appearance, error_text};

/// A boat file without faults; each test changes one thing in it.
pub(super) const BOAT: &str = r#"name = "Test boat"
[hull]
bottom_length = "6.5 m"
chine_beam = "2.25 m"
deadrise = "18 deg"
[weight]
mass = "2800 kg"
lcg = "2.45 m"
vcg = "0.75 m"
"#;

pub(super) fn changed(from: &str, to: &str) -> String {
    assert!(BOAT.contains(from), "{from}");
    BOAT.replacen(from, to, 1)
}

pub(super) fn fault_text(text: &str) -> String {
    match parse_boat("boat.toml", text) {
        Ok(_) => panic!("no fault found in\n{text}"),
        Err(faults) => error_text(&faults, Appearance::Ascii),
    }
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
    let text =
        format!("{BOAT}[sizing]\nshare = 0.7\nsmallest_aspect = 2\nlargest_aspect = \"3.5\"\n");
    let boat = parse_boat("boat.toml", &text).unwrap().boat;
    assert!((boat.sizing().share.value - 0.7).abs() < 1.0e-15);
    assert_eq!(boat.sizing().smallest_aspect, 2.0);
    assert_eq!(boat.sizing().largest_aspect, 3.5);
}

#[test]
fn regression_unusual_values_are_warnings_with_their_line() {
    let file = parse_boat("boat.toml", &changed("18 deg", "29 deg")).unwrap();
    let warnings: Vec<String> = file.warnings.iter().map(ToString::to_string).collect();
    assert_eq!(
        warnings,
        [
            "boat.toml, line 5: hull.deadrise = 29 deg is unusual (usually 8 to 26 deg): deadrise at half the length of the chine; the lift equation was tested to 30 deg"
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

const TRANSOM: &str = "[transom]\nrake = \"13 deg\"\n[[transom.obstacle]]\nkind = \"drive-leg\"\n\
    off_centre = \"0 mm\"\nwidth = \"300 mm\"\nfrom = \"-0.5 m\"\nto = \"1 m\"\n\
    [[transom.obstacle]]\nkind = \"transducer\"\nname = \"sounder\"\noff_centre = \"-18 in\"\n\
    width = \"60 mm\"\nfrom = \"-20 mm\"\nto = \"70 mm\"\nclearance = \"80 mm\"\n\
    [[transom.strake]]\noff_centre = \"0.7 m\"\nwidth = \"50 mm\"\ndepth = \"20 mm\"\n";

#[test]
fn regression_the_transom_and_what_stands_on_it_are_read() {
    use crate::boat::ObstacleKind;
    use uom::si::{f64::Length, length::inch, length::millimeter};
    let text = format!("{BOAT}{TRANSOM}");
    let transom = parse_boat("boat.toml", &text).unwrap().boat.transom().clone();
    let [leg, sounder] = transom.obstacles.as_slice() else { panic!("{transom:?}") };
    assert_eq!((leg.kind, leg.name.as_str()), (ObstacleKind::DriveLeg, "drive leg"));
    assert_eq!(leg.clearance, Length::new::<millimeter>(100.0));
    assert_eq!(sounder.name, "sounder");
    assert!((sounder.off_centre - Length::new::<inch>(-18.0)).value.abs() < 1e-12);
    assert_eq!(transom.strakes.len(), 1);
    assert!((transom.rake.get::<uom::si::angle::degree>() - 13.0).abs() < 1e-12);
}

#[test]
fn error_faults_in_what_stands_on_the_transom() {
    let wrong = |from: &str, to: &str| {
        assert!(TRANSOM.contains(from), "{from}");
        fault_text(&format!("{BOAT}{}", TRANSOM.replacen(from, to, 1)))
    };
    let kind = wrong("\"drive-leg\"", "\"engine\"");
    assert!(kind.contains("transom.obstacle.kind (entry 1): `engine` is not one of"), "{kind}");
    let missing = wrong("width = \"60 mm\"\n", "");
    assert!(missing.contains("transom.obstacle.width (entry 2) is missing"), "{missing}");
    assert!(missing.contains("write below [[transom.obstacle]] for example"), "{missing}");
    let turned = wrong("\"70 mm\"", "\"-70 mm\"");
    assert!(turned.contains("transom.obstacle.from (entry 2): -0.02 m is not below to, -0.07 m"));
    let outside = wrong("-18 in", "-5 ft");
    assert!(outside.contains("1.524 m off the centreline is"), "{outside}");
    let list = wrong("[[transom.strake]]", "[[transom.strakes]]");
    assert!(list.contains("[transom] has no `strakes`"), "{list}");
    assert!(list.contains("did you mean `[[transom.strake]]`?"), "{list}");
    let top = wrong("[[transom.strake]]", "[[strake]]");
    assert!(top.contains("a boat file has no `strake` at the top"), "{top}");
    assert!(top.contains("did you mean `[[transom.strake]]`?"), "{top}");
    let table = wrong("[[transom.strake]]", "[transom.strake]");
    assert!(table.contains("each entry has the header [[transom.strake]]"), "{table}");
    let key = wrong("depth = ", "dept = ");
    assert!(key.contains("[[transom.strake]] has no key `dept`"), "{key}");
}

#[test]
fn regression_features_that_no_equation_knows_are_warned_of() {
    let hull = |features: &str| changed("[weight]", &format!("features = {features}\n[weight]"));
    let file = parse_boat("boat.toml", &hull("[\"steps\", \"pad\", \"steps\"]")).unwrap();
    let warnings: Vec<String> = file.warnings.iter().map(ToString::to_string).collect();
    assert_eq!(warnings.len(), 2, "{warnings:?}");
    assert!(warnings[0].starts_with("boat.toml, line 6: hull.features = steps: the equations"));
    assert!(parse_boat("boat.toml", &hull("[]")).unwrap().warnings.is_empty());
    let word = fault_text(&hull("[\"step\"]"));
    assert!(word.contains("hull.features: `step` is not one of its words"), "{word}");
    let number = fault_text(&hull("[3]"));
    assert!(number.contains("hull.features: [3] is not a list of words"), "{number}");
    assert!(number.contains("write [\"steps\"], or more of"), "{number}");
}

#[test]
fn regression_a_pair_that_finds_no_room_is_warned_of() {
    let planes = |span: &str| {
        let text = format!("{BOAT}[planes]\nspan = \"{span}\"\nchord = \"9 in\"\n{TRANSOM}");
        parse_boat("boat.toml", &text).unwrap().warnings
    };
    assert_eq!(planes("450 mm"), []);
    let [warning] = &planes("610 mm")[..] else { panic!("one warning") };
    let text = warning.to_string();
    assert!(text.contains("planes.span = 0.61 m: the pair does not fit the transom."), "{text}");
    assert!(text.contains("The sounder reaches below the bottom edge on the port side"), "{text}");
}

/// Length, beam over all and mass alone: what an owner knows.
const LEAST: &str = "[hull]\noverall_length = \"6 m\"\noverall_beam = \"2.4 m\"\nDEADRISE\
                     [weight]\nmass = \"1500 kg\"\n";

#[test]
fn practice_deadrise_in_words_or_left_out_is_estimated_and_marked() {
    let estimate = |line: &str| {
        let file = parse_boat("b.toml", &LEAST.replace("DEADRISE", line)).unwrap();
        let found = file.boat.estimates().iter().find(|own| own.key == "hull.deadrise").cloned();
        assert!(file.boat.estimates().iter().any(|own| own.key == "hull.chine_beam"));
        found.map(|own| [own.low, own.value, own.high].map(|end| end.value().round()))
    };
    let with = |word: &str| estimate(&format!("deadrise = \"{word}\"\n")).unwrap();
    assert_eq!(with("flat"), [3.0, 8.0, 13.0]);
    assert_eq!(with("moderate"), [12.0, 16.0, 20.0]);
    for spelt in ["deep V", "deep v", "Deep-V"] {
        assert_eq!(with(spelt), [19.0, 22.0, 25.0], "{spelt}");
    }
    assert_eq!(estimate("").unwrap(), [8.0, 17.0, 24.0]);
    assert_eq!(estimate("deadrise = \"18 deg\"\n"), None);
    let aft = LEAST.replace("DEADRISE", "") + "[transom]\ndeadrise = \"15 deg\"\n";
    let boat = parse_boat("b.toml", &aft).unwrap().boat;
    assert!((boat.hull().deadrise.get::<uom::si::angle::degree>() - 17.0).abs() < 1e-9);
    assert!(boat.has_estimated_transom(), "its beam is");
}

#[test]
fn error_a_misspelt_word_for_the_deadrise_offers_the_nearest() {
    let fault = |line: &str| {
        let text = LEAST.replace("DEADRISE", &format!("deadrise = {line}\n"));
        let error = parse_boat("b.toml", &text).unwrap_err();
        let [only] = error.faults() else { panic!("{error}") };
        (only.problem.clone(), only.help.clone())
    };
    let (problem, help) = fault("\"modrate\"");
    assert_eq!(problem, "hull.deadrise: `modrate` is neither a quantity nor one of its words");
    assert!(help.starts_with("did you mean \"moderate\"? write \"flat\""), "{help}");
    assert!(!fault("\"steep\"").1.contains("did you mean"));
    assert!(fault("\"18\"").0.contains("has no unit"));
    assert!(fault("18").0.contains("has no unit"));
}

#[test]
fn error_without_any_beam_both_ways_to_give_it_are_named() {
    let text = LEAST.replace("DEADRISE", "").replace("overall_beam = \"2.4 m\"\n", "");
    let error = parse_boat("b.toml", &text).unwrap_err();
    let [only] = error.faults() else { panic!("{error}") };
    assert!(only.help.contains("chine_beam = ") && only.help.contains("overall_beam = "));
}

#[test]
fn error_eyes_ahead_of_the_bow_are_refused() {
    let text = LEAST.replace("DEADRISE", "") + "[helm]\neye_forward = \"7 m\"\n";
    let error = parse_boat("b.toml", &text).unwrap_err();
    assert!(error.faults()[0].problem.starts_with("helm.eye_forward: "), "{error}");
    let text = LEAST.replace("DEADRISE", "") + "[helm]\nbow_height = \"1.1 m\"\n";
    let helm = *parse_boat("b.toml", &text).unwrap().boat.helm();
    assert!((helm.eye_height.value - (1.1 + 0.09 * 6.0)).abs() < 1e-9 && !helm.is_given);
}
