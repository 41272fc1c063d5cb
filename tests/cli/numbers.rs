//! JSON and CSV.

use serde_json::Value;

use super::{BOATS, demo, planewright, printed, sparse_boat};

/// The keys of a point that other programs rely on.
const CONTRACT: [&str; 13] = [
    "speed_m_s",
    "deflection_deg",
    "outcome",
    "trim_deg",
    "wetted_length_ratio",
    "wetted_keel_m",
    "wetted_chine_m",
    "resistance_n",
    "thrust_n",
    "plane_lift_n",
    "plane_drag_n",
    "porpoising_limit_deg",
    "flags",
];

/// The JSON reader of these tests may miss the last bit of a number.
const LAST_BIT: f64 = f64::EPSILON;

fn points(arguments: &[&str]) -> Vec<Value> {
    let answer: Value = serde_json::from_str(&printed(arguments)).expect("one JSON object");
    answer["points"].as_array().expect("a list of points").clone()
}

fn number(point: &Value, key: &str) -> f64 {
    point[key].as_f64().unwrap_or_else(|| panic!("{key} in {point}"))
}

#[test]
fn regression_json_has_the_keys_that_others_rely_on() {
    for boat in BOATS {
        for point in points(&["run", &demo(boat), "--json"]) {
            for key in CONTRACT {
                assert!(point.get(key).is_some(), "{boat}: {key}");
            }
            assert!(point["flags"].is_array());
            assert_eq!(point["outcome"], "running", "{boat}");
        }
    }
}

#[test]
fn regression_numbers_that_do_not_exist_are_null() {
    let folder = tempfile::tempdir().unwrap();
    let file = sparse_boat(folder.path());
    let file = file.to_str().unwrap();
    let asked =
        ["run", file, "--json", "--speed", "4 kn", "--speed", "26 kn", "--deflection", "15 deg"];
    let text = printed(&asked);
    assert!(!text.contains("NaN") && !text.contains("inf"));
    let points = points(&asked);
    let outcomes: Vec<_> = points.iter().map(|point| point["outcome"].as_str().unwrap()).collect();
    assert_eq!(outcomes, ["below-planing-range", "bow-under"]);
    for point in &points {
        for key in CONTRACT.iter().filter(|key| !["speed_m_s", "deflection_deg"].contains(key)) {
            assert!(
                point[key].is_null() || point[key].is_string() || point[key].is_array(),
                "{key}"
            );
        }
    }
}

#[test]
fn regression_json_explains_every_flag_and_estimate_it_uses() {
    let folder = tempfile::tempdir().unwrap();
    let file = sparse_boat(folder.path());
    let text = printed(&["run", file.to_str().unwrap(), "--json", "--budget"]);
    let answer: Value = serde_json::from_str(&text).unwrap();
    for point in answer["points"].as_array().unwrap() {
        for flag in point["flags"].as_array().unwrap() {
            assert!(answer["flag_meanings"][flag.as_str().unwrap()].is_string(), "{flag}");
        }
        let outcome = point["outcome"].as_str().unwrap();
        assert_eq!(point["budget"].is_array(), outcome == "running");
        assert!(outcome == "running" || answer["outcome_meanings"][outcome].is_string());
    }
    let keys: Vec<_> = answer["estimates"]
        .as_array()
        .unwrap()
        .iter()
        .map(|e| e["key"].as_str().unwrap())
        .collect();
    for key in ["hull.bottom_length", "weight.lcg", "weight.vcg", "drive.top_speed"] {
        assert!(keys.contains(&key), "{key}");
    }
    assert_eq!(answer["version"], env!("CARGO_PKG_VERSION"));
    assert_eq!(answer["input"]["crc32"].as_str().unwrap().len(), 8);
}

#[test]
fn physics_budget_in_json_sums_to_nothing() {
    let weight_n = 14_940.0 * 9.806_65;
    for point in points(&["run", &demo("holm"), "--json", "--budget", "--speed", "18 kn"]) {
        for key in ["forward_n", "up_n", "moment_bow_down_n_m"] {
            let forces = point["budget"].as_array().unwrap();
            let sum: f64 = forces.iter().map(|force| number(force, key)).sum();
            assert!((sum / weight_n).abs() < 1e-8, "{key}: {sum}");
        }
    }
}

#[test]
fn regression_csv_holds_the_numbers_of_json() {
    for boat in BOATS {
        let answer: Value =
            serde_json::from_str(&printed(&["run", &demo(boat), "--json"])).unwrap();
        let points = answer["points"].as_array().unwrap();
        let text = printed(&["run", &demo(boat), "--csv"]);
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let names = reader.headers().unwrap().clone();
        for key in CONTRACT {
            assert!(names.iter().any(|name| name == key), "{key}");
        }
        let rows: Vec<_> = reader.records().collect::<Result<_, _>>().unwrap();
        assert_eq!(rows.len(), points.len());
        for (row, point) in rows.iter().zip(points) {
            for (name, field) in names.iter().zip(row) {
                let of_planes = name.strip_prefix("planes_").map(|key| &answer["planes"][key]);
                match of_planes.unwrap_or(&point[name]) {
                    Value::Null => assert_eq!(field, "", "{name}"),
                    Value::String(word) => assert_eq!(field, word),
                    Value::Array(flags) => {
                        let flags: Vec<_> = flags.iter().map(|f| f.as_str().unwrap()).collect();
                        assert_eq!(field, flags.join(" "));
                    }
                    value => {
                        let (csv, json): (f64, f64) =
                            (field.parse().unwrap(), value.as_f64().unwrap());
                        assert!(
                            (csv - json).abs() <= LAST_BIT * json.abs(),
                            "{name}: {csv} {json}"
                        );
                    }
                }
            }
        }
    }
}

#[test]
fn regression_csv_in_units_asked_for_says_so_in_its_names() {
    let asked = ["run", &demo("wren"), "--csv", "--units", "imperial", "--speed", "20 mph"];
    let text = printed(&asked);
    let (names, row) = text.split_once('\n').unwrap();
    assert!(names.starts_with("speed_mph,deflection_deg,outcome,trim_deg,"), "{names}");
    let speed: f64 = row.split(',').next().unwrap().parse().unwrap();
    assert!((speed - 20.0).abs() < 1e-12, "{speed}");
}

/// The demo boats are what the documentation says: a hump at Cv 1.1 to 1.8, trim falling after it,
/// and planes that lower trim, and at the hump resistance.
#[test]
fn physics_demo_boats_run_as_planing_boats_do() {
    for boat in BOATS {
        let bare = points(&["run", &demo(boat), "--json", "--deflection", "0 deg"]);
        let trims: Vec<f64> = bare.iter().map(|point| number(point, "trim_deg")).collect();
        let hump = (0..trims.len()).max_by(|&a, &b| trims[a].total_cmp(&trims[b])).unwrap();
        let cv = number(&bare[hump], "speed_coefficient");
        assert!((1.1..=1.8).contains(&cv), "{boat}: hump at Cv {cv}");
        assert!((5.5..=9.0).contains(&trims[hump]), "{boat}: {} deg", trims[hump]);
        assert!(trims[hump..].windows(2).all(|pair| pair[1] < pair[0]), "{boat}");
    }
    for boat in ["lantern", "holm"] {
        let all = points(&["run", &demo(boat), "--json"]);
        let (up, down): (Vec<_>, Vec<_>) =
            all.into_iter().partition(|point| number(point, "deflection_deg") == 0.0);
        for (index, point) in up.iter().enumerate() {
            let lower = &down[index];
            assert!(number(lower, "trim_deg") < number(point, "trim_deg"), "{boat}");
            if (1.1..1.8).contains(&number(point, "speed_coefficient")) {
                assert!(number(lower, "resistance_n") < number(point, "resistance_n"), "{boat}");
            }
        }
    }
}

#[test]
fn regression_warnings_reach_json_and_csv() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("steep.toml");
    let text = std::fs::read_to_string(demo("wren")).unwrap();
    std::fs::write(&file, text.replace("deadrise = \"20 deg\"", "deadrise = \"29 deg\"")).unwrap();
    let file = file.to_str().unwrap();
    let answer: Value = serde_json::from_str(&printed(&["run", file, "--json"])).unwrap();
    assert!(answer["warnings"][0].as_str().unwrap().contains("deadrise"));
    let output = planewright(&["run", file, "--csv"]);
    assert_eq!(output.status.code(), Some(0));
    assert!(String::from_utf8(output.stderr).unwrap().contains("deadrise"));
}

/// What each question answers for the demo boats, in a few numbers: a text may change where they stay.
#[test]
fn regression_numbers_of_the_demo_boats() {
    const ASKED: [(&str, &[&str]); 7] = [
        (
            "run",
            &[
                "/landmarks/0/hump_speed_m_s",
                "/landmarks/0/hump_trim_deg",
                "/landmarks/0/hump_resistance_n",
            ],
        ),
        ("size", &["/span_m", "/chord_m", "/chance", "/relief_deg/median", "/exact/area_m2"]),
        (
            "fuel",
            &[
                "/conditions/0/at_cruise/planes_up/shaft_power_w",
                "/conditions/0/at_cruise/best/deflection_deg",
                "/conditions/0/at_cruise/best_change",
            ],
        ),
        ("on-plane", &["/conditions/0/runs/0/time_s", "/conditions/0/runs/0/tightest/thrust_left"]),
        (
            "seaway",
            &[
                "/conditions/0/waves/0/rides/0/planes_up/centre_g",
                "/conditions/0/waves/0/rides/0/planes_down/bow_g",
            ],
        ),
        (
            "level",
            &[
                "/conditions/0/reference/moment_bottom_n_m",
                "/conditions/0/reference/least/difference_deg",
            ],
        ),
        ("loads", &["/conditions/0/loads/0/speed_m_s", "/conditions/0/loads/0/design_load_n"]),
    ];
    let mut text = String::new();
    for (command, numbers) in ASKED {
        for pointer in numbers {
            let of_boat = |boat: &str| {
                let answer: Value =
                    serde_json::from_str(&printed(&[command, &demo(boat), "--json"])).unwrap();
                match answer.pointer(pointer).unwrap_or(&Value::Null) {
                    Value::Number(number) => format!("{:.5e}", number.as_f64().unwrap()),
                    other => other.to_string(),
                }
            };
            let of_boats: Vec<String> = BOATS.iter().map(|boat| of_boat(boat)).collect();
            text.push_str(&format!("{command} {pointer}: {}\n", of_boats.join(", ")));
        }
    }
    super::texts::kept("numbers", &text);
}
