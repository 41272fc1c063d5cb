//! `size`: its text, its JSON, its exit codes.

use serde_json::Value;

use super::{BOATS, demo, planewright, printed};

fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&printed(arguments)).expect("one JSON object and nothing else")
}

/// A demo boat with one duty in place of its own.
fn with_duty(folder: &std::path::Path, duty: &str) -> String {
    let text = std::fs::read_to_string(demo("wren")).expect("the demo boat");
    let boat = text.split("[[duty]]").next().expect("the part above the duties");
    let file = folder.join("asked.toml");
    std::fs::write(&file, format!("{boat}\n[[duty]]\n{duty}\n")).expect("a writable folder");
    file.to_str().expect("UTF-8").to_owned()
}

#[test]
fn regression_text_of_the_sizing_of_the_demo_boats() {
    super::texts::kept("size_wren", &printed(&["size", &demo("wren"), "--full"]));
}

#[test]
fn regression_text_keeps_within_100_columns() {
    for boat in BOATS {
        for units in ["marine", "metric", "imperial"] {
            for line in printed(&["size", &demo(boat), "--full", "--units", units]).lines() {
                assert!(line.chars().count() <= 100, "{boat} {units}: {line}");
            }
        }
    }
}

#[test]
fn regression_json_keeps_its_names_and_agrees_with_the_text() {
    for boat in BOATS {
        let answer = json(&["size", &demo(boat), "--json"]);
        let (span, chord) =
            (answer["span_m"].as_f64().unwrap(), answer["chord_m"].as_f64().unwrap());
        let area = answer["area_m2"].as_f64().unwrap();
        assert!((area - 2.0 * span * chord).abs() < 1e-12);
        assert_eq!(answer["fits_transom"], true);
        assert!(answer["set_by"].is_string() && answer["flags"].is_array());
        for duty in answer["duties"].as_array().unwrap() {
            for key in ["name", "condition", "needed_deflection_deg", "share_used", "met"] {
                assert!(!duty[key].is_null(), "{boat}: {key}");
            }
            assert_eq!(duty["met"], true);
        }
        for row in answer["schedule"].as_array().unwrap() {
            let [used, safe] =
                ["deflection_deg", "largest_safe_deg"].map(|k| row[k].as_f64().unwrap());
            assert!(row["speed_m_s"].as_f64().unwrap() > 0.0 && used <= safe + 1e-9);
        }
        let text = printed(&["size", &demo(boat)]);
        let pair = format!("{:.0} x {:.0} mm", 1000.0 * span, 1000.0 * chord);
        assert!(text.contains(&pair), "{boat}: {pair}");
    }
}

#[test]
fn regression_no_planes_needed_is_an_answer() {
    let folder = tempfile::tempdir().unwrap();
    let duty = "kind = \"hump-trim\"\nat_most = \"12 deg\"\nfrom = \"10 kn\"\nto = \"16 kn\"";
    let file = with_duty(folder.path(), duty);
    let answer = json(&["size", &file, "--json"]);
    assert_eq!(answer["answer"], "no-planes-needed");
    assert!(answer["span_m"].is_null() && answer["fits_transom"].is_null());
    assert!(printed(&["size", &file]).contains("No planes needed"));
}

#[test]
fn error_an_impossible_duty_ends_with_1_and_says_what_is_missed() {
    let folder = tempfile::tempdir().unwrap();
    let duty = "kind = \"hump-trim\"\nat_most = \"3 deg\"\nfrom = \"10 kn\"\nto = \"16 kn\"";
    let file = with_duty(folder.path(), duty);
    let output = planewright(&["size", &file, "--json"]);
    assert_eq!(output.status.code(), Some(1));
    let answer: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(answer["answer"], "no-pair-does-all");
    assert!(answer["span_m"].is_null());
    assert_eq!(answer["shortfall"]["duty"], "hump-trim");
    assert!(answer["shortfall"]["missing"].as_str().unwrap().contains("deg"));
    let text = String::from_utf8(planewright(&["size", &file]).stdout).unwrap();
    assert!(text.contains("No pair that may be suggested does every duty"));
}

/// The section of the suggestion, with what is missing and what would help.
fn suggested(file: &str, units: &str) -> String {
    let output = planewright(&["size", file, "--full", "--units", units]);
    assert_eq!(output.status.code(), Some(1));
    let text = String::from_utf8(output.stdout).expect("UTF-8");
    let (before, _) = text.split_once("What the planes must do").expect("the duties");
    let (_, suggestion) = before.split_once("Suggestion").expect("the suggestion");
    suggestion.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn regression_what_is_missing_is_told_in_the_units_asked_for() {
    let folder = tempfile::tempdir().unwrap();
    let duty = "kind = \"hump-trim\"\nat_most = \"3 deg\"\nfrom = \"10 kn\"\nto = \"16 kn\"";
    let file = with_duty(folder.path(), duty);
    let marine = suggested(&file, "marine");
    assert!(marine.contains("): at 1") && marine.contains(" kn it needs "), "{marine}");
    assert!(marine.contains(" mm forward"), "{marine}");
    let imperial = suggested(&file, "imperial");
    assert!(!imperial.contains(" kn") && !imperial.contains(" mm"), "{imperial}");
    assert!(imperial.contains(" mph it needs ") && imperial.contains(" in forward"), "{imperial}");
    // What a program reads stays in the default units; the nearest pair is in steps of those asked for.
    let output = planewright(&["size", &file, "--units", "imperial", "--json"]);
    let answer: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert!(answer["shortfall"]["missing"].as_str().unwrap().contains(" kn it needs "));
    let output = planewright(&["size", &file, "--json"]);
    let answer: Value = serde_json::from_slice(&output.stdout).unwrap();
    let missing = answer["shortfall"]["missing"].as_str().unwrap();
    assert!(marine.contains(&format!("): {missing}.")), "{missing}\n{marine}");
    for remedy in answer["shortfall"]["remedies"].as_array().unwrap() {
        assert!(marine.contains(remedy.as_str().unwrap()), "{remedy}\n{marine}");
    }
}

#[test]
fn regression_room_that_is_missing_is_told_in_the_units_asked_for() {
    let folder = tempfile::tempdir().unwrap();
    let duty = "kind = \"hump-trim\"\nat_most = \"5 deg\"\nfrom = \"10 kn\"\nto = \"16 kn\"";
    let file = with_duty(folder.path(), duty);
    let text = std::fs::read_to_string(&file).unwrap();
    std::fs::write(&file, format!("{text}\n[sizing]\nsmallest_chord = \"900 mm\"\n")).unwrap();
    let marine = suggested(&file, "marine");
    assert!(
        marine.contains("there is room for a span of ") && marine.contains(" mm more."),
        "{marine}"
    );
    let imperial = suggested(&file, "imperial");
    assert!(imperial.contains(" in more.") && !imperial.contains(" mm"), "{imperial}");
}

#[test]
fn error_a_duty_below_the_planing_range_names_the_speed() {
    let folder = tempfile::tempdir().unwrap();
    let duty = "kind = \"hump-trim\"\nat_most = \"5 deg\"\nfrom = \"4 kn\"\nto = \"16 kn\"";
    let text = super::refusal(&["size", &with_duty(folder.path(), duty)]);
    assert!(text.contains("planing range"), "{text}");
}

#[test]
fn regression_duties_are_generated_when_none_are_given_and_can_be_put_into_the_file() {
    let folder = tempfile::tempdir().unwrap();
    let text = std::fs::read_to_string(demo("wren")).unwrap();
    let bare = text.split("[[duty]]").next().unwrap();
    let file = folder.path().join("bare.toml");
    std::fs::write(&file, bare).unwrap();
    let file = file.to_str().unwrap();
    let shown = printed(&["size", file, "--full"]);
    assert!(shown.contains("GENERATED"));
    let duties: String = shown
        .lines()
        .skip_while(|line| !line.contains("[[duty]]"))
        .take_while(|line| line.is_empty() || line.starts_with("    "))
        .map(|line| format!("{}\n", line.trim()))
        .collect();
    let edited = folder.path().join("edited.toml");
    std::fs::write(&edited, format!("{bare}\n{duties}")).unwrap();
    let [before, after] =
        [file, edited.to_str().unwrap()].map(|file| json(&["size", file, "--json"]));
    assert_eq!(before["span_m"], after["span_m"]);
    assert_eq!(before["chord_m"], after["chord_m"]);
    assert_eq!(after["duties_generated"], false);
}

#[test]
fn regression_size_charts_are_written() {
    let folder = tempfile::tempdir().unwrap();
    let charts = folder.path().join("charts");
    printed(&["size", &demo("lantern"), "--charts", charts.to_str().unwrap()]);
    for stem in ["area-resistance", "schedule", "trim", "resistance", "power", "plane-lift"] {
        for ending in ["svg", "png"] {
            let file = charts.join(format!("{stem}.{ending}"));
            assert!(file.metadata().unwrap().len() > 1000, "{}", file.display());
        }
    }
}

#[test]
fn published_check_ends_with_0_and_lists_every_case() {
    let report = json(&["check", "--json"]);
    assert_eq!(report["summary"]["within"], report["summary"]["judged"]);
    assert!(report["summary"]["judged"].as_u64().unwrap() >= 80);
    assert!(printed(&["check"]).contains("within tolerance"));
}

#[test]
fn error_a_boat_that_does_not_plane_is_not_told_that_she_needs_no_planes() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("heavy.toml");
    let text = "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\ndeadrise = \"18 deg\"\n\
        [weight]\nmass = \"20000 kg\"\nlcg = \"2.45 m\"\nvcg = \"0.75 m\"\n\
        [drive]\nkind = \"outboard\"\ntop_speed = \"30 kn\"\n";
    std::fs::write(&file, text).unwrap();
    let output = planewright(&["size", file.to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(1));
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.contains("Nothing can be said about planes"), "{text}");
    assert!(!text.contains("No planes needed"), "{text}");
}
