//! `on-plane` and `fuel`: text, JSON, charts, exit codes and errors.

use serde_json::Value;

use super::{BOATS, ROUNDED, demo, planewright, printed, refusal};

fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&printed(arguments)).expect("one JSON object and nothing else")
}

/// A demo boat with some of its text changed.
fn changed(folder: &std::path::Path, boat: &str, [from, to]: [&str; 2]) -> String {
    let text = std::fs::read_to_string(demo(boat)).expect("the demo boat");
    assert!(text.contains(from), "{from}");
    let file = folder.join("changed.toml");
    std::fs::write(&file, text.replace(from, to)).expect("a writable folder");
    file.to_str().expect("UTF-8").to_owned()
}

#[test]
fn regression_text_of_getting_on_plane() {
    super::texts::kept("on_plane_wren", &printed(&["on-plane", &demo("wren"), "--full"]));
}

#[test]
fn regression_text_of_fuel() {
    super::texts::kept("fuel_wren", &printed(&["fuel", &demo("wren"), "--full"]));
}

#[test]
fn regression_both_keep_within_100_columns() {
    for command in ["on-plane", "fuel"] {
        for boat in BOATS {
            for units in ["marine", "metric", "imperial"] {
                for line in printed(&[command, &demo(boat), "--full", "--units", units]).lines() {
                    assert!(line.chars().count() <= 100, "{command} {boat} {units}: {line}");
                }
            }
        }
    }
}

#[test]
fn regression_every_condition_has_its_own_answer() {
    let answer = json(&["on-plane", &demo("lantern"), "--condition", "all", "--json"]);
    let conditions = answer["conditions"].as_array().unwrap();
    assert!(conditions.len() > 1);
    // To a speed that is the same for all, a heavier boat takes longer.
    let all =
        json(&["on-plane", &demo("lantern"), "--condition", "all", "--to", "20 kn", "--json"]);
    let time = |condition: &Value| condition["runs"][0]["time_s"].as_f64().unwrap();
    let mut timed: Vec<_> = all["conditions"].as_array().unwrap().iter().collect();
    timed.sort_by(|a, b| a["mass_kg"].as_f64().unwrap().total_cmp(&b["mass_kg"].as_f64().unwrap()));
    assert!(time(timed[0]) < time(timed[timed.len() - 1]));
}

#[test]
fn regression_json_agrees_with_itself() {
    let answer = json(&["on-plane", &demo("lantern"), "--json"]);
    assert_eq!(answer["planes"]["source"], "fitted");
    assert!(answer["caution"].as_str().unwrap().starts_with("An estimate"));
    let condition = &answer["conditions"][0];
    for run in condition["runs"].as_array().unwrap() {
        let rows = run["rows"].as_array().unwrap();
        let target = condition["target_speed_m_s"].as_f64().unwrap();
        let at = rows.iter().find(|row| row["speed_m_s"].as_f64().unwrap() >= target).unwrap();
        assert_eq!(at["time_s"], run["time_s"]);
        let hump = &run["tightest"];
        let used = hump["resistance_n"].as_f64().unwrap() / hump["thrust_n"].as_f64().unwrap();
        assert!((1.0 - used - hump["thrust_left"].as_f64().unwrap()).abs() < 3.0 * ROUNDED);
    }
    let fuel = json(&["fuel", &demo("lantern"), "--json"]);
    for row in fuel["conditions"][0]["rows"].as_array().unwrap() {
        let up = &row["planes_up"];
        let per_second = up["fuel_m3_per_s"].as_f64().unwrap();
        let per_metre = up["fuel_m3_per_m"].as_f64().unwrap();
        let speed = row["speed_m_s"].as_f64().unwrap();
        assert!((per_metre * speed / per_second - 1.0).abs() < 3.0 * ROUNDED);
    }
}

#[test]
fn regression_charts_are_written_and_named() {
    let folder = tempfile::tempdir().unwrap();
    let charts = folder.path().join("charts");
    let to = charts.to_str().unwrap();
    printed(&["on-plane", &demo("wren"), "--charts", to]);
    printed(&["fuel", &demo("wren"), "--charts", to]);
    for name in ["thrust", "speed-by-time", "fuel"] {
        for ending in ["svg", "png"] {
            assert!(charts.join(format!("{name}.{ending}")).is_file(), "{name}.{ending}");
        }
    }
}

#[test]
fn regression_a_boat_that_does_not_get_there_ends_with_1() {
    let folder = tempfile::tempdir().unwrap();
    let weak = changed(folder.path(), "holm", ["power = \"800 kW\"", "power = \"200 kW\""]);
    let output = planewright(&["on-plane", &weak]);
    assert_eq!(output.status.code(), Some(1));
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.contains("SHE DOES NOT REACH"), "{text}");
}

#[test]
fn error_no_power() {
    let folder = tempfile::tempdir().unwrap();
    let file = changed(folder.path(), "holm", ["power = \"800 kW\"\n", ""]);
    let text = refusal(&["on-plane", &file]);
    for part in [
        "x drive.power: is not given, and the thrust comes from it\n",
        "changed.toml:58:2]\n",
        "help: give the rated shaft power of all engines together, for example power\n        = \"220 kW\"",
    ] {
        assert!(text.contains(part), "{text}");
    }
}

#[test]
fn error_a_cruise_below_planing() {
    let text = refusal(&["fuel", &demo("wren"), "--cruise", "5 kn"]);
    let expected = "
  x --cruise: 2.572 m/s is below the planing range, which starts at 4.317 m/s
  help: ask for a cruising speed at which she planes
";
    assert_eq!(text.trim(), expected.trim());
}
