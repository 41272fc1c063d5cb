//! One lift model or another, and all of them side by side.

use serde_json::Value;

use super::texts::kept;
use super::{demo, printed, refusal};

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
    assert!((apart - (trim(&all) - trim(&other)).abs()).abs() < 1e-12);
    assert!(all["flag_meanings"]["static-lift-large"].is_string());
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
    let text = printed(&["size", &demo("holm")]);
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
