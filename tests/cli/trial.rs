//! `trial`: what a log tells, and the calibrated boat file.

use std::path::Path;
use std::process::Command;

use serde_json::Value;

use super::texts::kept;
use super::{demo, planewright, printed};

const LOG: &str = "data/trials/lantern.csv";
const WIDTH: usize = 100;

fn json(arguments: &[&str]) -> Value {
    let output = planewright(arguments);
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(!text.contains("NaN") && !text.contains("Infinity"));
    serde_json::from_str(&text).unwrap_or_else(|error| panic!("{arguments:?}: {error}"))
}

/// A copy of a demo boat in a folder of its own.
fn copied(folder: &Path, name: &str) -> String {
    let path = folder.join(format!("{name}.toml"));
    std::fs::copy(demo(name), &path).expect("the folder can be written to");
    path.to_str().expect("a plain name").to_owned()
}

#[test]
fn regression_text_of_a_trial() {
    let asked = ["trial", &demo("lantern"), LOG, "--efficiency", "0.55", "--report-only"];
    let text = printed(&asked);
    let start = text.find("What the log tells").expect("it tells something");
    kept("trial_lantern", &text[start..]);
    kept("trial_how", &printed(&["trial", "--how"]));
}

#[test]
fn regression_text_keeps_within_100_columns_in_all_units() {
    for units in ["marine", "metric", "imperial"] {
        let text = printed(&["trial", &demo("lantern"), LOG, "--report-only", "--units", units]);
        for line in text.lines().skip(2) {
            assert!(line.chars().count() <= WIDTH, "{units}: {line}");
        }
    }
    assert!(printed(&["trial", "--how"]).lines().all(|line| line.chars().count() <= WIDTH));
}

#[test]
fn regression_the_calibrated_file_runs_as_the_log_says_and_keeps_what_was_there() {
    let folder = tempfile::tempdir().unwrap();
    let boat = copied(folder.path(), "lantern");
    let to = folder.path().join("lantern-trial.toml");
    let asked = ["trial", &boat, LOG, "--efficiency", "0.55", "--json", "--write"];
    let answer = json(&[&asked[..], &[to.to_str().unwrap()]].concat());
    let written = answer["boat_file"]["written_to"].as_str().unwrap().to_owned();
    assert!(written.ends_with("lantern-trial.toml"));
    let text = std::fs::read_to_string(&written).unwrap();
    assert_eq!(text, answer["boat_file"]["text"].as_str().unwrap());
    for kept in ["# Grandfather at the side of the cockpit.", "forward = \"12 ft 6 in\""] {
        assert!(text.contains(kept), "{kept}");
    }
    // What the trial computed after is what `run` computes with the copy, which is brought to the readings in it by
    // a little more: they are sure to 0.1 deg at the least.
    for measurement in answer["measurements"].as_array().unwrap().iter().take(4) {
        let speed = format!("{} m/s", measurement["speed_m_s"]);
        let deflection = format!("{} deg", measurement["deflection_deg"]);
        let asked = ["run", &written, "--speed", &speed, "--deflection", &deflection, "--json"];
        let trim_deg = json(&asked)["points"][0]["trim_deg"].as_f64().unwrap();
        let after_deg = measurement["trim_after_deg"].as_f64().unwrap();
        assert!((trim_deg - after_deg).abs() < 0.05, "{trim_deg} {after_deg}");
    }
    // A condition keeps the moment of the shift: less at a larger mass.
    let lcg = |file: &str, condition: &str| {
        let asked = ["run", file, "--condition", condition, "--speed", "20 kn", "--json"];
        let boat = &json(&asked)["boat"];
        boat["lcg_m"].as_f64().unwrap() * boat["mass_kg"].as_f64().unwrap()
    };
    let moment = |condition: &str| lcg(&written, condition) - lcg(&boat, condition);
    let (light, full) = (moment("light"), moment("full fuel, nine aboard"));
    assert!((light / full - 1.0).abs() < 1e-6, "{light} {full}");
    assert!(light.abs() > 100.0);
}

#[test]
fn error_never_over_a_file() {
    let folder = tempfile::tempdir().unwrap();
    let boat = copied(folder.path(), "lantern");
    let log = Path::new(env!("CARGO_MANIFEST_DIR")).join(LOG);
    let elsewhere = folder.path().join("here");
    std::fs::create_dir(&elsewhere).unwrap();
    let trial = |more: &[&str]| {
        let output = Command::new(env!("CARGO_BIN_EXE_planewright"))
            .args([&["trial", &boat, log.to_str().unwrap()], more].concat())
            .current_dir(&elsewhere)
            .output()
            .expect("the program starts");
        (output.status.code(), String::from_utf8_lossy(&output.stderr).into_owned())
    };
    assert_eq!(trial(&[]).0, Some(0));
    // It stands in the current folder, not beside the boat file.
    assert!(elsewhere.join("lantern-trial.toml").is_file());
    assert!(!folder.path().join("lantern-trial.toml").exists());
    let before = std::fs::read(&boat).unwrap();
    let (code, again) = trial(&[]);
    assert!(code == Some(2) && again.contains("lantern-trial.toml: the file exists"), "{again}");
    assert!(again.contains("--force"), "{again}");
    assert_eq!(trial(&["--force"]).0, Some(0));
    for more in [&[][..], &["--force"]] {
        let (code, onto_itself) = trial(&[&["--write", &boat], more].concat());
        let words: Vec<&str> = onto_itself.split_whitespace().filter(|&word| word != "|").collect();
        let said = words.join(" ");
        assert!(code == Some(2) && said.contains("read here, and is never written over"), "{said}");
    }
    assert_eq!(std::fs::read(&boat).unwrap(), before);
}

#[test]
fn error_a_log_that_tells_nothing_is_refused_with_the_reason() {
    let folder = tempfile::tempdir().unwrap();
    let log = folder.path().join("log.csv");
    let log = log.to_str().unwrap();
    let head = "speed (kn),trim (deg),deflection (deg)\n";
    let cases = [
        ("20,6.8,0\n25,5.4,0\n", "lantern", "too-few-measurements"),
        (&"20,6.8,0\n".repeat(8), "lantern", "one-speed"),
        ("12,6,0\n15,6,5\n18,6,0\n21,5,0\n24,4,0\n", "wren", "no-planes"),
        ("13,3,0\n16,9,0\n19,2,0\n22,11,0\n25,1,0\n28,9,0\n31,1,0\n", "lantern", "contradictory"),
    ];
    for (runs, boat, reason) in cases {
        std::fs::write(log, format!("{head}{runs}")).unwrap();
        let asked = ["trial", &demo(boat), log];
        let output = planewright(&asked);
        assert_eq!(output.status.code(), Some(1), "{reason}");
        let text = String::from_utf8(output.stdout).unwrap();
        assert!(text.contains("Nothing was learned") && text.contains("What to do:"), "{text}");
        let answer = json(&["trial", &demo(boat), log, "--json"]);
        assert_eq!(answer["refusal"]["reason"], reason, "{answer}");
        assert!(answer["boat_file"].is_null());
    }
    assert!(!Path::new("data/boats/lantern-trial.toml").exists());
}

#[test]
fn regression_a_log_gives_its_charts() {
    let folder = tempfile::tempdir().unwrap();
    let charts = folder.path().to_str().unwrap();
    printed(&["trial", &demo("lantern"), LOG, "--report-only", "--charts", charts]);
    for stem in ["trial-trim", "trial-residuals", "trial-power"] {
        assert!(folder.path().join(format!("{stem}.svg")).exists(), "{stem}");
        assert!(folder.path().join(format!("{stem}.png")).exists(), "{stem}");
    }
}
