//! One lift model or another, and all of them side by side.

use serde_json::Value;

use super::texts::kept;
use super::{ROUNDED, demo, printed, refusal};

/// A boat whose file gives what the pre-planing regression asks.
const BOAT: &str = "[hull]\nbottom_length = \"11.4 m\"\nchine_beam = \"3.6 m\"\n\
    deadrise = \"20 deg\"\nentrance_half_angle = \"24 deg\"\ntransom_area_ratio = 0.85\n\
    [weight]\nmass = \"14900 kg\"\nlcg = \"4.6 m\"\nvcg = \"1.5 m\"\n";

fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&printed(arguments)).expect("one JSON object")
}

#[test]
fn regression_text_of_all_models() {
    let holm = demo("holm");
    let asked = ["run", &holm, "--models", "all", "--deflection", "5 deg", "--speed", "14 kn"];
    let text = printed(&[&asked[..], &["--speed", "20 kn", "--speed", "26 kn"]].concat());
    assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
    kept("models_holm", &text);
}

#[test]
fn regression_the_points_stay_those_of_the_chosen_model() {
    let holm = demo("holm");
    let speeds = ["--speed", "14 kn", "--speed", "24 kn"];
    let asked = |more: &[&str]| json(&[&["run", &holm, "--json"], &speeds[..], more].concat());
    let (plain, all) = (asked(&[]), asked(&["--models", "all"]));
    assert_eq!(plain["points"], all["points"]);
    assert_eq!(plain["settings"]["model"], "savitsky-1964");
    assert_eq!(plain["models"].as_array().unwrap().len(), 0);
    let other = asked(&["--model", "shuford-1958"]);
    assert_eq!(all["models"][0]["model"], "shuford-1958");
    assert_eq!(all["models"][0]["points"], other["points"]);
    assert!(all["models"][0]["source"].as_str().unwrap().contains("from memory"));
    let trim = |answer: &Value| answer["points"][0]["trim_deg"].as_f64().unwrap();
    let apart = all["spread"][0]["trim_deg"].as_f64().unwrap();
    // Three numbers below 10, each rounded by itself.
    assert!((apart - (trim(&all) - trim(&other)).abs()).abs() < 3.0 * ROUNDED);
    assert!(all["flag_meanings"]["static-lift-large"].is_string());
}

#[test]
fn regression_the_tank_series_stands_beside_the_answer() {
    let lantern = demo("lantern");
    let answer = json(&["run", &lantern, "--json", "--speed", "13.8 kn", "--deflection", "5 deg"]);
    let rows = answer["second_opinion"].as_array().unwrap();
    assert_eq!(rows.len(), 1);
    let number = |key: &str| rows[0][key].as_f64().unwrap_or_else(|| panic!("{key}"));
    // With planes up, whatever deflection is asked for.
    let up = json(&["run", &lantern, "--json", "--speed", "13.8 kn", "--deflection", "0 deg"]);
    assert_eq!(rows[0]["computed_trim_deg"], up["points"][0]["trim_deg"]);
    assert_eq!(rows[0]["computed_resistance_n"], up["points"][0]["resistance_n"]);
    let apart = number("computed_trim_deg") - number("trim_deg");
    let told = number("trim_apart_deg");
    assert!((apart - told).abs() < 3.0 * ROUNDED && apart > 0.5, "{apart}");
    assert!(number("volume_froude_number") > 1.7 && number("wetted_length_m") > 4.0);
    assert_eq!(rows[0]["outside"].as_array().unwrap().len(), 0);
    // Without speeds: those of the models, up to her top speed of 33 kn.
    let all = json(&["run", &lantern, "--json"]);
    let froude: Vec<_> = all["second_opinion"].as_array().unwrap().iter().collect();
    assert_eq!(froude.len(), 7);
    assert!(froude[0]["computed_trim_deg"].is_null() && froude[0]["trim_deg"].is_number());
}

#[test]
fn regression_off_the_models_the_tank_series_names_what_lies_outside() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("b.toml");
    std::fs::write(&file, BOAT.replace("20 deg", "11 deg")).unwrap();
    let file = file.to_str().unwrap();
    let text = printed(&["run", file, "--speed", "20 kn", "--full"]);
    let said = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        said.contains(
            "she lies outside its models. Deadrise in deg is 11.00, the models had 13 to 37.4"
        ),
        "{text}"
    );
    let answer = json(&["run", file, "--speed", "20 kn", "--json"]);
    let row = &answer["second_opinion"][0];
    assert!(row["trim_deg"].is_null() && row["computed_trim_deg"].is_number());
    assert_eq!(row["outside"][0]["quantity"], "deadrise in deg");
    assert_eq!(row["outside"][0]["tested_from"], 13.0);
}

#[test]
fn regression_wet_sides_are_flagged_with_their_length_and_kept_out_of_the_resistance() {
    let answer = json(&["run", &demo("lantern"), "--json"]);
    let mut wet = 0;
    for point in answer["points"].as_array().unwrap() {
        let number = |key: &str| point[key].as_f64().unwrap_or_else(|| panic!("{key} in {point}"));
        let flagged = point["flags"].as_array().unwrap().iter().any(|flag| flag == "sides-wet");
        assert_eq!(flagged, number("side_wetted_length_m") > 0.0, "{point}");
        assert_eq!(flagged, number("side_friction_estimate_n") > 0.0, "{point}");
        let parts = ["pressure", "friction", "spray", "plane", "air", "appendage", "hump"];
        let sum: f64 = parts.iter().map(|part| number(&format!("{part}_drag_n"))).sum();
        assert!((sum - number("resistance_n")).abs() < 1e-6 * sum, "{point}");
        wet += u32::from(flagged);
    }
    assert!(wet > 3, "{wet}");
    assert!(answer["flag_meanings"]["sides-wet"].is_string());
}

#[test]
fn regression_csv_names_the_model_of_each_row() {
    let text = printed(&["run", &demo("wren"), "--csv", "--models", "all", "--speed", "20 kn"]);
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    assert_eq!(reader.headers().unwrap().iter().next_back(), Some("model"));
    let rows: Vec<_> = reader.records().collect::<Result<_, _>>().unwrap();
    let models: Vec<_> =
        rows.iter().map(|row| row.iter().next_back().unwrap().to_owned()).collect();
    assert_eq!(models, ["savitsky-1964", "shuford-1958"]);
}

#[test]
fn regression_the_pre_planing_regression_is_shown_where_the_file_feeds_it() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("b.toml");
    std::fs::write(&file, BOAT).unwrap();
    let file = file.to_str().unwrap();
    let text = printed(&["run", file, "--models", "all"]);
    assert!(text.contains("Before planing, planes up"), "{text}");
    assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
    let rows = json(&["run", file, "--models", "all", "--json"])["pre_planing"].clone();
    let rows = rows.as_array().unwrap();
    assert_eq!(rows.len(), 11);
    for row in rows {
        assert_eq!(row["model"], "mercier-savitsky-1973");
        let share = row["resistance_n"].as_f64().unwrap() / (14_900.0 * 9.806_65);
        assert!((0.02..0.2).contains(&share), "{row}");
    }
    let without = printed(&["run", &demo("wren"), "--models", "all"]);
    assert!(without.contains("hull.entrance_half_angle") || without.contains("Before planing"));
}

#[test]
fn regression_charts_of_all_models() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().to_str().unwrap();
    printed(&["run", &demo("holm"), "--models", "all", "--charts", path]);
    for stem in ["trim-by-model", "resistance-by-model"] {
        let text = std::fs::read_to_string(folder.path().join(format!("{stem}.svg"))).unwrap();
        for word in ["Savitsky 1964", "Shuford 1958", "between the lift models"] {
            assert!(text.contains(word), "{stem}: {word}");
        }
    }
}

#[test]
fn regression_size_says_what_the_other_model_would_need() {
    let answer = json(&["size", &demo("holm"), "--json"]);
    assert_eq!(answer["model"], "savitsky-1964");
    let other = &answer["other_lift_model"];
    assert_eq!(other["model"], "shuford-1958");
    assert!(other["answer"].is_string());
    let text = printed(&["size", &demo("holm"), "--full"]);
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        text.contains("By another theory of what the bottom lifts (Shuford 1958, from memory)"),
        "{text}"
    );
}

#[test]
fn error_the_1964_cases_take_no_other_lift() {
    let boat = demo("wren");
    let text = refusal(&["run", &boat, "--method", "general-1964", "--model", "shuford-1958"]);
    assert_eq!(
        text,
        "  x --model: the 1964 cases know only the lift of their own paper\n  \
         help: use the full method with this lift model, or the 1964 case with\n        \
         savitsky-1964\n"
    );
    let text = refusal(&["run", &boat, "--method", "concurrent-1964", "--models", "all"]);
    assert_eq!(
        text,
        "  x --models: the 1964 cases know only the lift of their own paper\n  \
         help: use the full method, or leave out --models\n"
    );
    let text = refusal(&["run", &boat, "--model", "shuford"]);
    assert!(text.contains("shuford-1958"), "{text}");
}
