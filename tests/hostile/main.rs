//! Hostile texts: whatever is given is read or refused, in words that name the file, never with a
//! panic, a number that is none, or a character that a terminal would obey.
//!
//! Each target runs 256 texts here. `PROPTEST_CASES=1000000 cargo test --release --test hostile spoilt`
//! is the long run; a text that fails is kept below `tests/hostile` and tried first from then on.
//! Boats that are drawn at random have long runs of their own, in `running` and `commands`.

mod commands;
mod drawn;
mod mutate;
mod page;
mod running;
mod writer;

use std::sync::LazyLock;

use mutate::{corpus, edits, spoilt};
use planewright::input::starter_file;
use planewright::stock::{parse_stock, starter_stock};
use planewright::trial::parse_log;
use planewright::units::{Dimension, parse_si};
use planewright::{Angle, Balance, BoatFile, Settings, parse_boat};
use proptest::prelude::*;

static BOATS: LazyLock<Vec<String>> = LazyLock::new(|| {
    let mut boats = corpus(&["data/boats", "data/stations", "tests/abuse"], "toml");
    boats.push(starter_file());
    // With every comment that is a line of the file taken for one.
    boats.push(starter_file().replace("\n#", "\n").replace("\n ", "\n# "));
    boats
});

static STOCKS: LazyLock<Vec<String>> = LazyLock::new(|| {
    let mut lists = corpus(&["data/stock"], "csv");
    lists.push(starter_stock());
    lists.push("name;span (mm);chord (mm);price\nplain;600;230;410\n".to_owned());
    lists
});

static LOGS: LazyLock<Vec<String>> = LazyLock::new(|| corpus(&["data/trials"], "csv"));

const NAME: &str = "given.toml";

/// A refusal names the file, has something to say, and holds nothing that is not seen.
fn check_refusal(text: &str) {
    assert!(text.contains(NAME), "{text}");
    check_seen(text);
    assert!(text.len() < 200_000, "{} bytes", text.len());
}

fn check_seen(text: &str) {
    let unseen = |letter: char| letter.is_control() && letter != '\n' && letter != '\t';
    assert!(!text.contains(unseen), "{text:?}");
    let turns = |letter: char| matches!(letter, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}');
    assert!(!text.contains(turns), "{text:?}");
}

/// A boat that was read runs, or says why not, and every number is one.
fn check_boat(file: &BoatFile) {
    for warning in &file.warnings {
        check_seen(&warning.to_string());
    }
    check_seen(file.boat.name());
    let balance = Balance::of(&file.boat, &Settings::default());
    let Ok(point) = balance.point(file.boat.drive().top_speed, Angle::default()) else { return };
    let written = serde_json::to_value(&point).expect("a point can be written");
    check_numbers(&written);
}

/// Null in the place of a number that does not exist; this finds one that was written as null for being none.
fn check_numbers(value: &serde_json::Value) {
    let running = value["outcome"] == "running";
    for key in ["trim_deg", "wetted_length_ratio", "resistance_n", "thrust_n"] {
        assert_eq!(value[key].is_number(), running, "{key} of {value}");
    }
    if running {
        assert!(value["resistance_n"].as_f64().expect("a number") > 0.0, "{value}");
    }
}

/// What fails is kept beside the file of its test.
fn config() -> ProptestConfig {
    let kept = proptest::test_runner::FileFailurePersistence::WithSource("kept");
    ProptestConfig { failure_persistence: Some(Box::new(kept)), ..ProptestConfig::default() }
}

fn try_boat(text: &str) {
    match parse_boat(NAME, text) {
        Ok(file) => check_boat(&file),
        Err(faults) => check_refusal(&faults.plain_text()),
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn error_a_spoilt_boat_file_is_read_or_refused(edits in edits()) {
        try_boat(&String::from_utf8_lossy(&spoilt(&BOATS, &edits)));
    }

    #[test]
    fn error_a_spoilt_stock_list_is_read_or_refused(edits in edits()) {
        match parse_stock(NAME, &String::from_utf8_lossy(&spoilt(&STOCKS, &edits))) {
            Ok(list) => {
                for part in &list.parts {
                    check_seen(&part.name);
                    prop_assert!(part.price.amount.is_finite() && part.price.amount >= 0.0);
                }
            }
            Err(error) => check_refusal(&error.to_string()),
        }
    }

    #[test]
    fn error_a_spoilt_log_is_read_or_refused(edits in edits()) {
        match parse_log(NAME, &String::from_utf8_lossy(&spoilt(&LOGS, &edits))) {
            Ok(log) => prop_assert!(!log.rows.is_empty()),
            Err(error) => check_refusal(&error.to_string()),
        }
    }

    #[test]
    fn error_a_quantity_is_a_number_or_refused(text in quantity(), dimension in dimension()) {
        match parse_si(&text, dimension) {
            Ok(value) => prop_assert!(value.is_finite(), "{value}"),
            Err(error) => check_seen(&error.to_string()),
        }
    }
}

/// Letters as they come, or pieces of quantities in any order.
fn quantity() -> impl Strategy<Value = String> {
    let number = prop_oneof![
        any::<f64>().prop_map(|value| value.to_string()),
        any::<i64>().prop_map(|value| value.to_string()),
        "[-+]?[0-9]{0,3}[.,/ ]?[0-9]{0,3}(e[-+]?[0-9]{1,3})?",
    ];
    let unit = "(m|mm|ft|in|kn|mph|km/h|kg|t|lb|N|kN|kW|hp|deg|rad|degC|m\\^2/s|N m| |'|\"|%)";
    prop_oneof![
        any::<String>(),
        (number, unit).prop_map(|(number, unit)| format!("{number} {unit}")),
        prop::collection::vec(unit, 0..4).prop_map(|parts| parts.concat()),
        "[0-9]{1,2} ft [0-9]{1,2}( [0-9]/[0-9]{1,2})? in",
    ]
}

fn dimension() -> impl Strategy<Value = Dimension> {
    prop::sample::select(vec![
        Dimension::Length,
        Dimension::Speed,
        Dimension::Mass,
        Dimension::Force,
        Dimension::Power,
        Dimension::Angle,
        Dimension::Temperature,
        Dimension::Density,
        Dimension::KinematicViscosity,
        Dimension::Torque,
    ])
}

/// What broke an earlier version, as it stands.
#[test]
fn error_what_broke_it_before_is_read_or_refused() {
    let files = corpus(&["tests/abuse"], "toml");
    assert!(files.len() >= 20, "{}", files.len());
    files.iter().for_each(|text| try_boat(text));
}
