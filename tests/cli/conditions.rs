//! Loading conditions on the command line.

use serde_json::Value;

use super::{demo, planewright, printed, refusal};

fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&printed(arguments)).expect("one JSON object")
}

fn words(value: &Value, key: &str) -> Vec<String> {
    let list = value.as_array().expect("a list").iter();
    list.map(|entry| entry[key].as_str().unwrap_or_default().to_owned()).collect()
}

#[test]
fn error_an_unknown_condition_names_the_nearest_and_all() {
    for command in ["run", "size", "loads", "mark"] {
        let text = refusal(&[command, &demo("wren"), "--condition", "ful"]);
        assert_eq!(
            text,
            "  x --condition: the boat has no loading condition `ful`\n  \
             help: did you mean `full`? Her conditions are `full`, `normal`, `light`,\n        \
             `one side`\n",
            "{command}"
        );
    }
}

/// One block for each condition in the order of the file, however they are asked for, and one caution.
#[test]
fn regression_run_shows_every_condition_asked_for() {
    let boat = demo("wren");
    let some = ["--speed", "22 kn", "--condition", "FULL", "--condition", "light", "--full"];
    let text = printed(&[&["run", boat.as_str()], &some[..]].concat());
    let [light, full] = ["  Loading  light:", "  Loading  full:"].map(|head| text.find(head));
    assert!(light.expect("light") < full.expect("full"));
    assert_eq!(text.matches("Loading  ").count(), 2);
    assert_eq!(text.matches("An estimate for planing hulls").count(), 1);
    let unbroken = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        unbroken.contains("(others, with --condition: `normal`, `light`, `one side`)"),
        "{text}"
    );
    let all = printed(&["run", &boat, "--speed", "22 kn", "--condition", "all", "--full"]);
    assert_eq!(all.matches("Loading  ").count(), 4);
    let base = printed(&["run", &boat, "--speed", "22 kn", "--full"]);
    assert!(base.contains("  Loading  normal (others"), "{base}");
    let named = ["run", &boat, "--speed", "22 kn", "--condition", "normal", "--full"];
    assert_eq!(base, printed(&named));
}

/// The points of a condition are those it has alone, and each says which it is.
#[test]
fn regression_run_in_json_and_csv_names_the_condition_of_each_point() {
    let boat = demo("wren");
    let at = ["run", &boat, "--speed", "12 kn", "--speed", "22 kn"];
    let asked = |conditions: &[&str], form: &str| {
        let mut arguments = at.to_vec();
        for condition in conditions {
            arguments.extend(["--condition", condition]);
        }
        arguments.push(form);
        printed(&arguments)
    };
    let parsed = |text: &str| -> Value { serde_json::from_str(text).expect("one JSON object") };
    let both = parsed(&asked(&["light", "full"], "--json"));
    assert_eq!(words(&both["points"], "condition"), ["light", "light", "full", "full"]);
    assert_eq!(words(&both["conditions"], "name"), ["light", "full"]);
    assert_eq!(
        (&both["condition"], &both["boat"]),
        (&"light".into(), &both["conditions"][0]["boat"])
    );
    let light = parsed(&asked(&["light"], "--json"));
    let full = parsed(&asked(&["full"], "--json"));
    for (place, alone) in
        [&light["points"][0], &light["points"][1], &full["points"][0]].into_iter().enumerate()
    {
        assert_eq!(&both["points"][place], alone);
    }
    assert!(full["boat"]["mass_kg"].as_f64() > light["boat"]["mass_kg"].as_f64());
    let rows = asked(&["one side", "normal"], "--csv");
    let lines: Vec<&str> = rows.lines().collect();
    assert!(lines[0].starts_with("speed_m_s,deflection_deg,outcome,trim_deg,"), "{rows}");
    let named: Vec<&str> = lines.iter().map(|line| line.rsplit(',').nth(1).unwrap()).collect();
    assert_eq!(named, ["condition", "normal", "normal", "one side", "one side"]);
    // A comma in a name stands in quotation marks.
    let comma =
        printed(&["run", &demo("lantern"), "--condition", "full fuel, nine aboard", "--csv"]);
    assert!(
        comma.lines().nth(1).expect("a row").contains(",\"full fuel, nine aboard\","),
        "{comma}"
    );
}

#[test]
fn regression_charts_of_several_conditions_have_names_of_their_own() {
    let folder = tempfile::tempdir().unwrap();
    let charts = folder.path().to_str().unwrap();
    let boat = demo("lantern");
    let full = "full fuel, nine aboard";
    printed(&["run", &boat, "--condition", "light", "--condition", full, "--charts", charts]);
    for name in ["trim-light.svg", "trim-full-fuel-nine-aboard.svg", "power-light.png"] {
        assert!(folder.path().join(name).exists(), "{name}");
    }
    let chart = std::fs::read_to_string(folder.path().join("trim-light.svg")).unwrap();
    assert!(chart.contains("Lantern Bay, light, 4178 kg"), "the condition is not named");
}

/// `size` sizes for all conditions when none is named, says which governs, and what each alone needs.
#[test]
fn regression_size_looks_at_every_condition_and_names_the_one_that_governs() {
    let boat = demo("lantern");
    let all = json(&["size", &boat, "--json"]);
    let names = ["normal", "light", "full fuel, nine aboard", "one side"];
    assert_eq!(words(&all["conditions"], "name"), names);
    assert_eq!(all["schedule"], all["conditions"][0]["schedule"]);
    assert_eq!(all["set_in_condition"], "light");
    assert_eq!(all["set_by"], "relief");
    let governs = json(&["size", &boat, "--json", "--condition", names[1]]);
    for (place, name) in names.into_iter().enumerate() {
        let alone = json(&["size", &boat, "--json", "--condition", name]);
        assert_eq!(all["conditions"][place]["alone_pair"]["area_m2"], alone["area_m2"], "{name}");
        // What governs needs most by itself; all at once, with one chance for all of them, may take more.
        assert!(alone["area_m2"].as_f64() <= governs["area_m2"].as_f64(), "{name}");
        assert!(alone["area_m2"].as_f64() <= all["area_m2"].as_f64(), "{name}");
    }
    let text = printed(&["size", &boat, "--full"]);
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains("it asks most at 13.2 kn in the loading `light`"), "{text}");
    let one = printed(&["size", &boat, "--condition", "normal", "--full"]);
    assert!(
        !one.contains("Loading conditions")
            && !one.contains("in loading")
            && !one.contains("by loading"),
        "{one}"
    );
}

/// A pair from the shelf must do the duties in every condition.
#[test]
fn regression_the_shelf_is_ranked_over_every_condition() {
    let stock = "data/stock/planes.csv";
    let ranked = |conditions: &[&str]| {
        let boat = demo("lantern");
        let mut arguments = vec!["size", boat.as_str(), "--json", "--stock", stock];
        for condition in conditions {
            arguments.extend(["--condition", condition]);
        }
        let answer: Value =
            serde_json::from_slice(&planewright(&arguments).stdout).expect("one JSON object");
        let able = answer["stock"].as_array().expect("parts").iter();
        let able = able.filter(|part| part["does_all"] == true);
        able.map(|part| part["part"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    let all = ranked(&[]);
    let [light, full] = [&["light"][..], &["full fuel, nine aboard"]].map(ranked);
    assert!(!all.is_empty() && all.iter().all(|part| light.contains(part) && full.contains(part)));
    assert!(light.len() >= all.len(), "{light:?} {all:?}");
}

#[test]
fn regression_loads_and_mark_take_conditions() {
    let boat = demo("wren");
    let loads = json(&["loads", &boat, "--json", "--condition", "all", "--speed", "22 kn"]);
    assert_eq!(words(&loads["conditions"], "name"), ["normal", "light", "full", "one side"]);
    let text = printed(&["loads", &boat, "--condition", "light", "--condition", "full", "--full"]);
    assert!(text.starts_with("Skerry Wren, light\n") && text.contains("\nSkerry Wren, full\n"));
    // Without planes in the file the pair is the one suggested for every condition.
    let size = json(&["size", &boat, "--json"]);
    for key in ["span_m", "chord_m"] {
        let [shown, asked] =
            [&loads["planes"], &size].map(|of| of[key].as_f64().expect("a length"));
        assert!((shown - asked).abs() < 1e-9, "{key}: {shown} {asked}");
    }
    let normal = json(&["size", &boat, "--json", "--condition", "normal"]);
    assert_ne!(size["span_m"], normal["span_m"]);
    let marked = printed(&["mark", &boat]);
    assert_ne!(marked, printed(&["mark", &boat, "--condition", "normal"]));
}
