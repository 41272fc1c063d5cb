//! `level`: its text, its JSON, its charts, its exit codes.

use serde_json::Value;

use super::{BOATS, demo, planewright, printed, refusal};

fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&printed(arguments)).expect("one JSON object and nothing else")
}

fn number(value: &Value, key: &str) -> f64 {
    value[key].as_f64().unwrap_or_else(|| panic!("{key} in {value}"))
}

#[test]
fn regression_text_of_the_list_of_the_demo_boats() {
    super::texts::kept("level_wren", &printed(&["level", &demo("wren"), "--full"]));
}

#[test]
fn regression_text_of_a_setting_and_a_stuck_plane() {
    let asked = [
        "level",
        &demo("lantern"),
        "--speed",
        "16 kn",
        "--speed",
        "24 kn",
        "--moment",
        "-600 N m",
        "--mean",
        "4 deg",
        "--port",
        "8 deg",
        "--starboard",
        "2 deg",
        "--stuck",
        "port up",
        "--condition",
        "one side",
        "--full",
    ];
    super::texts::kept("level_setting_lantern", &printed(&asked));
}

#[test]
fn regression_text_keeps_within_100_columns() {
    for boat in BOATS {
        for units in ["marine", "metric", "imperial"] {
            let asked =
                ["level", &demo(boat), "--full", "--units", units, "--planes", "600 mm x 250 mm"];
            let with_setting = [&asked[..], &["--port", "9 deg", "--starboard", "1 deg"]].concat();
            for line in printed(&with_setting).lines() {
                assert!(line.chars().count() <= 100, "{boat} {units}: {line}");
            }
        }
    }
}

/// The grandfather of Lantern Bay and her water tank, against the difference that `size` reports for the pair it suggests.
#[test]
fn physics_level_and_size_agree_on_the_grandfather() {
    let sized = json(&["size", &demo("lantern"), "--condition", "normal", "--json"]);
    let duty = sized["duties"].as_array().unwrap().iter().find(|duty| duty["name"] == "list");
    let range = &duty.expect("her list duty")["least_or_range"];
    let metres = |key: &str| format!("{} m", number(&sized, key));
    let pair = format!("{} x {}", metres("span_m"), metres("chord_m"));
    let asked = ["level", &demo("lantern"), "--planes", &pair, "--off-centre", "220 lb at 3 ft"];
    let with_tank = json(&[&asked[..], &["--speed", "22 kn", "--json"]].concat());
    let point = &with_tank["conditions"][0]["points"][0];
    assert!(number(&point["causes"][0], "moment_bottom_n_m") > 400.0, "her water tank counts too");
    for (end, place) in [("least", 0), ("largest", 1)] {
        let ours = number(&point[end], "difference_deg");
        let theirs = range[place].as_f64().unwrap();
        assert!((ours / theirs - 1.0).abs() < 1e-9, "{end}: {ours} and {theirs}");
    }
}

#[test]
fn regression_json_keeps_its_names_and_mirrors_with_the_moment() {
    let file = demo("holm");
    let asked = |moment| {
        let answer = json(&["level", &file, "--moment", moment, "--speed", "20 kn", "--json"]);
        answer["conditions"][0].clone()
    };
    let loads = json(&["level", &file, "--without-duties", "--speed", "20 kn", "--json"]);
    assert_eq!(loads["conditions"][0]["from_duty"], false);
    assert!(loads["caution"].as_str().unwrap().contains("sea trial"));
    assert_eq!(loads["cautions"].as_array().unwrap().len(), 3);
    // What her file holds is taken away twice over, so that the sum is mirrored.
    let own = &loads["conditions"][0]["points"][0];
    let [bottom, centre] =
        ["moment_bottom_n_m", "moment_centre_of_gravity_n_m"].map(|key| number(own, key));
    assert!(bottom > centre && centre > 0.0, "the wind heels her less about a higher point");
    let mirrored = asked(&format!("{} N m", -2.0 * bottom));
    let [here, there] = [own, &mirrored["points"][0]];
    let [a, b] = [here, there].map(|point| number(&point["least"], "difference_deg"));
    assert!(a > 0.0 && b < 0.0, "{a} and {b}");
    assert_eq!(
        (&here["verdict"], &here["outcome"]),
        (&Value::from("levels"), &Value::from("running"))
    );
    assert_eq!(there["heel_planes_up"]["rough"], true);
    for key in ["port_deg", "starboard_deg", "trim_deg", "mean_from_deg", "moment_left_n_m"] {
        assert!(there["least"][key].is_number(), "{key}");
    }
    assert_eq!(mirrored["stuck"]["side"], "starboard");
}

#[test]
fn regression_every_loading_condition_is_answered() {
    let answer = json(&["level", &demo("lantern"), "--condition", "all", "--json"]);
    let conditions = answer["conditions"].as_array().unwrap();
    let names: Vec<&str> = conditions.iter().map(|c| c["name"].as_str().unwrap()).collect();
    assert!(names.contains(&"one side") && names.len() > 2, "{names:?}");
    let of = |name: &str| {
        let place = names.iter().position(|other| *other == name).unwrap();
        number(&conditions[place]["reference"], "moment_bottom_n_m")
    };
    assert!(of("one side") < of("normal"), "two of the family sit to port");
}

#[test]
fn regression_planes_too_small_for_the_list_end_with_1() {
    let small = ["level", &demo("lantern"), "--planes", "60 mm x 60 mm"];
    let output = planewright(&small);
    assert_eq!(output.status.code(), Some(1));
    let text = String::from_utf8(output.stdout).unwrap();
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("cannot level her") && text.contains("at no speed"), "{text}");
}

#[test]
fn regression_level_charts_are_written_and_carry_their_words() {
    let folder = tempfile::tempdir().unwrap();
    let charts = folder.path().join("charts");
    printed(&["level", &demo("lantern"), "--charts", charts.to_str().unwrap()]);
    let read = |name: &str| std::fs::read_to_string(charts.join(name)).unwrap();
    let difference = read("level-difference.svg");
    assert!(difference.contains("Lantern Bay") && difference.contains("needed to level her"));
    assert!(read("level-heel.svg").contains("ROUGH ESTIMATE"));
    for name in ["level-difference.png", "level-heel.png"] {
        assert!(charts.join(name).metadata().unwrap().len() > 1000, "{name}");
    }
}

#[test]
fn error_what_is_asked_is_refused_with_what_to_write() {
    let text = refusal(&["level", &demo("lantern"), "--off-centre", "heavy"]);
    assert!(text.contains("write for example \"90 kg at 0.8 m\""), "{text}");
    let text = refusal(&["level", &demo("wren"), "--stuck", "port up"]);
    assert!(text.contains("--stuck: the boat has no planes"), "{text}");
    let text = refusal(&["level", &demo("wren"), "--off-centre", "90 kg at 5 m"]);
    assert!(text.contains("5 m off the centreline is outside the boat"), "{text}");
    let text = refusal(&["level", &demo("lantern"), "--port", "8 deg"]);
    assert!(text.contains("--starboard"), "{text}");
}
