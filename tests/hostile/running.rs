//! Random boats through everything that `run` computes: every speed and deflection, in every loading, by every
//! lift model; what is written is a number wherever there is one, and within its bounds.
//!
//! A few hundred boats here. The long run, and one boat of it again:
//!
//! ```text
//! PLANEWRIGHT_BOATS=1000000 cargo test --release --test hostile boats_run -- --nocapture
//! PLANEWRIGHT_BOATS=1 PLANEWRIGHT_FIRST=4711 cargo test --release --test hostile boats_run -- --nocapture
//! ```

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Mutex;

use planewright::balance::opinions::{Beside, Opinion};
use planewright::balance::sensitivity::sensitivities;
use planewright::balance::series::SecondOpinion;
use planewright::balance::sweep::{Set, few_speeds, speeds, usual_step, within_reach};
use planewright::balance::{BeforePlaning, LiftModel, Method, Settings};
use planewright::hydro::friction::FrictionLine;
use planewright::units::SpeedUnit;
use planewright::{Angle, Boat, parse_boat};
use rayon::prelude::*;
use serde_json::Value;

use super::drawn::{Drawn, drawn};
use super::writer::Random;
use super::{NAME, check_refusal, check_seen};

/// Deflections of the tables of `run`, degrees.
const DEFLECTIONS_DEG: [f64; 3] = [0.0, 5.0, 10.0];
/// Numbers of a point that are there whatever the outcome.
const ALWAYS: [&str; 3] = ["speed_m_s", "deflection_deg", "speed_coefficient"];
/// Numbers that a boat may run without: planes she has not, and what a lift model does not go by.
const MAY_BE_NONE: [&str; 3] =
    ["one_plane_lift_per_degree_n", "trim_change_per_degree", "flat_lift_coefficient"];
/// Numbers of a point that are never negative.
const NEVER_NEGATIVE: [&str; 11] = [
    "wetted_keel_m",
    "effective_power_w",
    "friction_drag_n",
    "spray_drag_n",
    "air_drag_n",
    "appendage_drag_n",
    "plane_drag_n",
    "plane_lift_n",
    "side_wetted_length_m",
    "lift_coefficient",
    "mean_bottom_speed_m_s",
];

/// How many boats are asked for, and the seed of the first.
pub fn seeds(usual: u64) -> std::ops::Range<u64> {
    let given = |name: &str| std::env::var(name).ok().map(|text| text.parse().expect("a number"));
    let first = given("PLANEWRIGHT_FIRST").unwrap_or(0);
    first..first + given("PLANEWRIGHT_BOATS").unwrap_or(usual)
}

/// Tries each boat, several side by side; a failure names the seed and shows the file.
pub fn try_boats(usual: u64, each: impl Fn(&Drawn, &Mutex<BTreeMap<String, u64>>) + Sync) {
    let seeds = seeds(usual);
    let counted = Mutex::new(BTreeMap::new());
    seeds.clone().into_par_iter().for_each(|seed| {
        let boat = drawn(seed);
        let tried = catch_unwind(AssertUnwindSafe(|| each(&boat, &counted)));
        if tried.is_err() {
            panic!("the boat of seed {seed} failed:\n{}", boat.text);
        }
    });
    let counted = counted.into_inner().expect("nothing failed");
    println!("boats {} to {}: {counted:?}", seeds.start, seeds.end - 1);
    let of = |what: &str| counted.get(what).copied().unwrap_or(0);
    // The drawing is of use only where most of what it draws is a boat.
    assert!(seeds.end - seeds.start < 20 || of("refused") * 4 < seeds.end - seeds.start);
}

pub fn count(counted: &Mutex<BTreeMap<String, u64>>, what: &str, more: u64) {
    *counted.lock().expect("a count").entry(what.to_owned()).or_insert(0) += more;
}

#[test]
fn error_random_boats_run_or_say_why_not() {
    try_boats(300, |boat, counted| match parse_boat(NAME, &boat.text) {
        Err(faults) => {
            check_refusal(&faults.plain_text());
            count(counted, "refused", 1);
        }
        Ok(file) => {
            file.warnings.iter().for_each(|warning| check_seen(&warning.to_string()));
            let settings = settings(boat.seed);
            let all = file.boat.in_all_conditions().expect("conditions that were checked");
            // In one loading for most, so that more boats are tried.
            let loadings = if boat.seed.is_multiple_of(4) { all.len() } else { 1 };
            for loaded in &all[..loadings] {
                run(loaded, &settings, boat.seed, counted);
            }
        }
    });
}

/// The usual settings for most, any for some.
fn settings(seed: u64) -> Settings {
    let mut random = Random::new(!seed);
    if random.chance(0.6) {
        return Settings::default();
    }
    let model = random.one_of(&LiftModel::ALL);
    let methods = [Method::BestEstimate, Method::Full, Method::General1964];
    let method = match model {
        LiftModel::Savitsky1964 => random.one_of(&methods),
        LiftModel::Shuford1958 => random.one_of(&methods[..2]),
    };
    Settings {
        method,
        model,
        friction_line: random.one_of(&[FrictionLine::Ittc1957, FrictionLine::Schoenherr]),
        hump_factor: random.chance(0.5),
        whisker_spray: random.chance(0.5),
        ..Settings::default()
    }
}

fn run(boat: &Boat, settings: &Settings, seed: u64, counted: &Mutex<BTreeMap<String, u64>>) {
    let unit = [SpeedUnit::Knot, SpeedUnit::KilometrePerHour][usize::from(seed.is_multiple_of(5))];
    // Every step of the tables for some, the whole range in fewer steps for the others.
    let speeds = match seed % 8 {
        0 => speeds(boat, usual_step(unit)),
        _ => few_speeds(boat, unit, 8),
    };
    let deflections = match settings.method.is_full_balance() {
        true => within_reach(boat, &DEFLECTIONS_DEG),
        false => vec![Angle::default()],
    };
    let sets = match Set::all(boat, settings, &speeds, &deflections) {
        Ok(sets) => sets,
        Err(fault) => {
            assert!(!fault.problem.is_empty() && !fault.remedy.is_empty(), "{fault}");
            check_seen(&fault.to_string());
            return count(counted, "no balance possible", 1);
        }
    };
    for set in &sets {
        set.points.iter().for_each(|point| check_point(&written(point), boat, settings));
        check_known(&written(&set.landmarks), &["hump_"]);
    }
    count(counted, "points", sets.iter().map(|set| set.points.len() as u64).sum());
    let running = sets.iter().flat_map(|set| &set.points).filter(|p| p.running.is_some()).count();
    count(counted, "running", running as u64);
    if seed % 8 < 2 {
        for moved in sensitivities(boat, settings, Angle::default()) {
            let moved = written(&moved);
            for end in ["with_low", "with_high"].iter().filter(|end| !moved[*end].is_null()) {
                check_known(&moved[end], &["hump_"]);
            }
        }
    }
    for row in &SecondOpinion::of(boat, settings, &[]).expect("as the sweep").rows {
        let row = written(row);
        let said = row["outside"].as_array().is_some_and(Vec::is_empty);
        for key in ["trim_deg", "resistance_n", "wetted_length_m"] {
            assert_eq!(row[key].is_number(), said, "{key} of {row}");
        }
        assert!(!said || positive(&row["resistance_n"]), "{row}");
        assert_eq!(row["computed_resistance_n"].is_number(), row["computed_outcome"] == "running");
    }
    if seed % 8 < 3 && settings.method.is_full_balance() {
        by_every_model(boat, settings, &sets);
    }
}

/// What every other model says, and the regression before planing.
fn by_every_model(boat: &Boat, settings: &Settings, sets: &[Set]) {
    let opinions = Opinion::others(boat, settings, sets).expect("as the sweep");
    for opinion in &opinions {
        let own = Settings { model: opinion.model, ..*settings };
        opinion.sets.iter().flatten().for_each(|point| check_point(&written(point), boat, &own));
    }
    for place in 0..sets.len() {
        let spreads = Beside::of(settings.model, sets, &opinions, place).spreads();
        for spread in spreads.into_iter().flatten() {
            assert!(spread.trim_deg.is_finite() && spread.resistance_share.is_finite());
        }
    }
    let before = BeforePlaning::of(boat, settings, &LiftModel::ALL).expect("as the sweep");
    for row in &before.rows {
        let row = written(row);
        assert!(row["resistance_n"].is_null() || positive(&row["resistance_n"]), "{row}");
        assert!(row["volume_froude_number"].is_number(), "{row}");
    }
}

fn written(of: &impl serde::Serialize) -> Value {
    serde_json::to_value(of).expect("it can be written")
}

fn positive(value: &Value) -> bool {
    value.as_f64().is_some_and(|number| number > 0.0)
}

/// JSON has null for a number that is none: so each that is there must be where it is expected.
fn check_point(point: &Value, boat: &Boat, settings: &Settings) {
    let running = point["outcome"] == "running";
    for (key, value) in point.as_object().expect("an object") {
        let key = key.as_str();
        if key == "outcome" || value.is_array() || MAY_BE_NONE.contains(&key) {
            continue;
        }
        assert_eq!(value.is_number(), running || ALWAYS.contains(&key), "{key} of {point}");
    }
    if !running {
        return;
    }
    let number = |key: &str| point[key].as_f64().unwrap_or_else(|| panic!("{key} of {point}"));
    for key in NEVER_NEGATIVE {
        assert!(number(key) >= 0.0, "{key} of {point}");
    }
    assert!(number("resistance_n") > 0.0 && number("wetted_length_ratio") > 0.0, "{point}");
    let flagged = |word: &str| {
        let flags = point["flags"].as_array().expect("flags");
        flags.iter().any(|flag| flag == word)
    };
    // The bounds of the balance, 1° to 15°; the 1964 cases are balanced within the same.
    let trim_deg = number("trim_deg");
    assert!((1.0 - 1e-9..=15.0 + 1e-9).contains(&trim_deg), "{point}");
    assert_eq!(trim_deg < 2.0, flagged("trim-under-two"), "{point}");
    let (keel_m, chine_m) = (number("wetted_keel_m"), number("wetted_chine_m"));
    assert!(keel_m >= chine_m, "{point}");
    assert_eq!(chine_m < 0.0, flagged("chine-dry"), "{point}");
    let length_m = boat.hull().bottom_length.value;
    assert_eq!(keel_m > length_m, flagged("keel-beyond-bottom"), "{length_m}: {point}");
    let least_m = 0.02 * boat.hull().chine_beam.value;
    let is_wet = number("wetted_length_ratio") >= 0.02 && keel_m >= least_m;
    assert!(!flagged("planes-carry-half") || is_wet, "{least_m}: {point}");
    let has_planes = boat.planes().is_some() && settings.method.is_full_balance();
    let lift = &point["one_plane_lift_per_degree_n"];
    assert_eq!(lift.is_number(), has_planes, "{point}");
    let flat = &point["flat_lift_coefficient"];
    assert_eq!(flat.is_number(), settings.model == LiftModel::Savitsky1964, "{point}");
}

/// All is known but what begins so: a boat need not have a hump.
fn check_known(at: &Value, may_be_none: &[&str]) {
    let runs = at["top_speed_outcome"] == "running";
    for (key, value) in at.as_object().expect("an object") {
        let needs = match key.as_str() {
            "top_speed_trim_deg" | "top_speed_resistance_n" => runs,
            "top_speed_outcome" => continue,
            key if may_be_none.iter().any(|start| key.starts_with(start)) => continue,
            _ => true,
        };
        assert_eq!(value.is_number(), needs, "{key} of {at}");
    }
    assert!(!runs || positive(&at["top_speed_resistance_n"]), "{at}");
}
