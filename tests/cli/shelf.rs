//! `size --stock` and `loads`.

use serde_json::Value;

use super::texts::kept;
use super::{BOATS, demo, planewright, printed, refusal};

const STOCK: &str = "data/stock/planes.csv";
const PART: &str = "600 x 230 stainless hydraulic";
const WIDTH: usize = 100;

fn json(arguments: &[&str]) -> Value {
    let output = planewright(arguments);
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(!text.contains("NaN") && !text.contains("inf,") && !text.contains("Infinity"));
    serde_json::from_str(&text).unwrap_or_else(|error| panic!("{arguments:?}: {error}"))
}

/// The part of a text from a heading to the next but one.
fn from_heading<'a>(text: &'a str, heading: &str, next: &str) -> &'a str {
    let start = text.find(heading).expect(heading);
    &text[start..start + text[start..].find(next).expect(next)]
}

#[test]
fn regression_text_of_a_ranking() {
    let output = planewright(&["size", &demo("lantern"), "--stock", STOCK, "--full"]);
    let text = String::from_utf8(output.stdout).unwrap();
    kept("stock_lantern", from_heading(&text, "From the shelf", "\nWhat the planes must do"));
}

#[test]
fn regression_text_of_loads() {
    let asked = ["loads", &demo("lantern"), "--stock", STOCK, "--part", PART, "--full"];
    kept("loads_lantern", &printed(&asked));
}

#[test]
fn regression_text_keeps_within_100_columns_in_all_units() {
    for boat in BOATS {
        for units in ["marine", "metric", "imperial"] {
            let size = ["size", &demo(boat), "--stock", STOCK, "--full", "--units", units];
            let electric = "750 x 300 aluminium electric";
            let loads = [
                "loads",
                &demo(boat),
                "--stock",
                STOCK,
                "--part",
                electric,
                "--full",
                "--units",
                units,
            ];
            for asked in [&size[..], &loads[..]] {
                let text = String::from_utf8(planewright(asked).stdout).unwrap();
                assert!(text.len() > 1000, "{asked:?}");
                for line in text.lines() {
                    assert!(line.chars().count() <= WIDTH, "{asked:?}: {line}");
                }
                assert!(!text.contains("NaN") && !text.contains("inf "), "{asked:?}");
                assert!(!text.contains("16 in in "), "{asked:?}");
            }
        }
    }
}

#[test]
fn regression_json_keeps_its_keys_and_adds_the_shelf() {
    let bare = json(&["size", &demo("lantern"), "--json"]);
    let with = json(&["size", &demo("lantern"), "--stock", STOCK, "--json"]);
    for key in
        ["span_m", "chord_m", "area_m2", "duties", "set_by", "fits_transom", "schedule", "flags"]
    {
        assert_eq!(bare[key], with[key], "{key}");
    }
    assert!(bare["stock"].is_null());
    let parts = with["stock"].as_array().unwrap();
    assert_eq!(parts.len(), 17);
    for (index, part) in parts.iter().enumerate() {
        assert_eq!(part["place"], index + 1);
        for key in ["part", "fits_transom", "does_all", "share_used", "pair_price", "on_hand"] {
            assert!(!part[key].is_null(), "{key} of {part}");
        }
        assert_eq!(
            part["duties"].as_array().unwrap().len(),
            with["duties"].as_array().unwrap().len()
        );
    }
    assert!(with["stock_reasons"][0].as_str().unwrap().contains("750 x 300"));
}

#[test]
fn error_bad_rows_are_reported_together_and_the_rest_is_used() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("shelf.csv");
    let list = std::fs::read_to_string(STOCK).unwrap();
    let list = list
        .replacen("300 x 150 stainless electric,300 mm", "300 x 150 stainless electric,300", 1)
        .replacen("300 x 200 stainless hydraulic,300 mm", "300 x 200 stainless hydraulic,-3 mm", 1)
        .replacen(",285,EUR,2", ",cheap,EUR,2", 1);
    std::fs::write(&file, list).unwrap();
    let output =
        planewright(&["size", &demo("lantern"), "--stock", file.to_str().unwrap(), "--json"]);
    let complaint = String::from_utf8(output.stderr).unwrap();
    for line in ["line 3: span", "line 4: span", "line 5: price"] {
        assert!(complaint.contains(line), "{line} in {complaint}");
    }
    assert_eq!(complaint.lines().count(), 3, "{complaint}");
    let answer: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(answer["stock"].as_array().unwrap().len(), 14);
    assert_eq!(answer["stock_faults"].as_array().unwrap().len(), 3);
    assert_eq!(output.status.code(), Some(0));
}

#[test]
fn error_what_cannot_be_used_is_refused_or_ends_with_one() {
    let text = refusal(&["size", &demo("lantern"), "--stock", "no-such.csv"]);
    assert!(text.contains("no-such.csv: cannot be read"), "{text}");
    let text = refusal(&["loads", &demo("lantern"), "--stock", STOCK, "--part", "none"]);
    assert!(text.contains("has no part 'none'") && text.contains(PART), "{text}");
    assert!(refusal(&["loads", &demo("lantern"), "--stock", STOCK]).contains("--part"));
    let text = refusal(&["loads", &demo("lantern"), "--load-factor", "0.5"]);
    assert!(text.contains("a plain number from 1 to 20 is wanted"), "{text}");
    // No pair of these is on the shelf: done as far as can be, and the exit code says so.
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("small.csv");
    let list = std::fs::read_to_string(STOCK).unwrap();
    let small: Vec<_> = list.lines().take(4).collect();
    std::fs::write(&file, small.join("\n")).unwrap();
    let output = planewright(&["size", &demo("lantern"), "--stock", file.to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(1));
    let text = String::from_utf8(output.stdout).unwrap();
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("No part on the shelf does every duty"), "{text}");
    let wide =
        ["loads", &demo("wren"), "--stock", STOCK, "--part", "900 x 300 stainless hydraulic"];
    let output = planewright(&wide);
    assert_eq!(output.status.code(), Some(1));
    assert!(String::from_utf8(output.stdout).unwrap().contains("THERE IS NO ROOM FOR IT"));
}

/// The factors do what they say: the design load goes with the load factor, and the speeds to
/// which plate and screws last with one over the square root of theirs.
#[test]
fn physics_factors_change_what_they_stand_for() {
    let base = ["loads", &demo("lantern"), "--stock", STOCK, "--part", PART, "--json"];
    let with = |extra: &[&str]| json(&[&base[..], extra].concat());
    let number = |answer: &Value, path: &str| {
        answer.pointer(path).and_then(Value::as_f64).unwrap_or_else(|| panic!("{path}"))
    };
    let (plain, loaded) = (with(&[]), with(&["--load-factor", "3"]));
    let ratio = |a: &Value, b: &Value, path| number(a, path) / number(b, path);
    let close = |value: f64, wanted: f64| assert!((value / wanted - 1.0).abs() < 1e-6, "{value}");
    close(ratio(&loaded, &plain, "/conditions/0/loads/4/design_hinge_moment_n_m"), 1.5);
    close(ratio(&loaded, &plain, "/conditions/0/loads/4/expected_hinge_moment_n_m"), 1.0);
    let plate = with(&["--plate-factor", "4"]);
    close(ratio(&plate, &plain, "/conditions/0/part/limits/plate_to_m_s"), 0.5f64.sqrt());
    let screws = with(&["--screw-factor", "11"]);
    close(ratio(&screws, &plain, "/conditions/0/part/limits/screws_to_m_s"), 0.5f64.sqrt());
    let laminate = with(&["--transom", "laminate"]);
    assert!(laminate["conditions"][0]["part"]["limits"]["screws_to_m_s"].is_null());
    assert_eq!(laminate["conditions"][0]["part"]["limits"]["screws_covered"], false);
}
