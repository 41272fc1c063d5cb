//! `doubt` and `size --chance` as their users meet them.

use super::texts::kept;
use super::{demo, printed, refusal};

const WIDTH: usize = 100;

/// As few draws as are allowed: what is held is the text, not the numbers' precision.
fn doubt(boat: &str, more: &[&str]) -> String {
    let file = demo(boat);
    let mut asked = vec!["doubt", &file, "--draws", "100"];
    asked.extend(more);
    printed(&asked)
}

#[test]
fn regression_text_of_doubt() {
    let text = doubt("wren", &["--full"]);
    assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{text}");
    kept("doubt_wren", &text);
}

#[test]
fn regression_text_of_the_calibration() {
    let text = printed(&["doubt", "--calibration"]);
    assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{text}");
    kept("doubt_calibration", &text);
    let json = printed(&["doubt", "--calibration", "--json"]);
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!(json["values"], 18);
    assert_eq!(json["within_left_out"], 18);
}

#[test]
fn regression_json_of_doubt_repeats_by_seed_and_holds_no_gaps() {
    let first = doubt("lantern", &["--json", "--seed", "4", "--deflection", "5 deg"]);
    assert_eq!(first, doubt("lantern", &["--json", "--seed", "4", "--deflection", "5 deg"]));
    assert_ne!(first, doubt("lantern", &["--json", "--seed", "5", "--deflection", "5 deg"]));
    let json: serde_json::Value = serde_json::from_str(&first).unwrap();
    let condition = &json["conditions"][0];
    assert_eq!(condition["speeds"].as_array().unwrap().len(), 30);
    for row in condition["speeds"].as_array().unwrap() {
        let trim = &row["trim_deg"];
        let part = |name: &str| trim[name].as_f64().unwrap();
        assert!(part("low") < part("median") && part("median") < part("high"), "{row}");
    }
    let duties = &json["duties"];
    let count = duties["duties"].as_array().unwrap().len();
    for pair in duties["pairs"].as_array().unwrap() {
        assert_eq!(pair["each"].as_array().unwrap().len(), count);
        let all = pair["all"]["share"].as_f64().unwrap();
        assert!((0.0..=1.0).contains(&all));
    }
    assert!(json["caution"].as_str().unwrap().contains("sea trial"));
}

#[test]
fn regression_charts_of_doubt() {
    let folder = tempfile::tempdir().unwrap();
    doubt("lantern", &["--charts", folder.path().to_str().unwrap()]);
    for stem in [
        "doubt-trim",
        "doubt-resistance",
        "doubt-hump-trim",
        "doubt-cruise-resistance",
        "doubt-duties",
    ] {
        for ending in ["svg", "png"] {
            let file = folder.path().join(format!("{stem}.{ending}"));
            assert!(std::fs::metadata(&file).unwrap().len() > 1000, "{}", file.display());
        }
    }
}

#[test]
fn error_doubt_wants_a_boat_and_enough_draws() {
    assert!(refusal(&["doubt"]).contains("<BOAT>"));
    let text = refusal(&["doubt", &demo("wren"), "--draws", "5"]);
    assert!(text.contains("5 is not in 100..=100000"), "{text}");
    let text = refusal(&["size", &demo("wren"), "--chance", "100"]);
    assert!(text.contains("a chance from 50 to 99 in a hundred is wanted"), "{text}");
}

#[test]
fn regression_size_for_a_share_of_boats() {
    let area = |chance: &str| {
        let asked = ["size", &demo("wren"), "--chance", chance, "--draws", "50", "--json"];
        let json: serde_json::Value = serde_json::from_str(&printed(&asked)).unwrap();
        let found = &json["chances"];
        assert_eq!(found["draws"], 50);
        let [wanted, reached] = ["wanted", "reached"].map(|key| found[key].as_f64().unwrap());
        assert!((100.0 * wanted - chance.parse::<f64>().unwrap()).abs() < 1e-9);
        assert!(found["is_reached"] == true && reached >= wanted, "{found}");
        json["area_m2"].as_f64().unwrap()
    };
    assert!(area("50") <= area("60") && area("60") < area("85"));
}

/// Planes are fitted and the transom has room for no pair: what is fitted is asked about alone.
#[test]
fn regression_a_boat_with_planes_and_no_room_for_any_is_answered() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("narrow.toml");
    let obstacle = |kind: &str, off_centre: &str| {
        format!(
            "[[transom.obstacle]]\nkind = \"{kind}\"\noff_centre = \"{off_centre}\"\n\
             width = \"150 mm\"\nfrom = \"20 mm\"\nto = \"500 mm\"\n"
        )
    };
    let text = format!(
        "name = \"Narrow\"\n[hull]\nchine_beam = \"1.6162 m\"\ndeadrise = \"23.2385 deg\"\n\
         bottom_length = \"7.038 m\"\n[weight]\nmass = \"713.03 kg\"\nlcg = \"1.9962 m\"\n{}{}\
         [planes]\nspan = \"300 mm\"\nchord = \"127.2 mm\"\n",
        obstacle("transducer", "-587 mm"),
        obstacle("exhaust", "162 mm"),
    );
    std::fs::write(&file, text).unwrap();
    let output = super::planewright(&["doubt", file.to_str().unwrap(), "--draws", "200", "--json"]);
    let complaint = String::from_utf8_lossy(&output.stderr);
    assert!(matches!(output.status.code(), Some(0 | 1)), "{complaint}");
    let answer: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(answer["planes"]["source"], "fitted");
    assert_eq!(answer["duties"]["pairs"].as_array().unwrap().len(), 2, "bare, and as fitted");
}
