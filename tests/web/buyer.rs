//! The page to send: its numbers are those of the command line, to the digits shown.

use std::path::Path;
use std::process::Command;

use serde_json::Value;

const KNOT_M_S: f64 = 1852.0 / 3600.0;

fn run(folder: &Path, arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_planewright"))
        .args(arguments)
        .current_dir(folder)
        .output()
        .expect("the program starts");
    assert!(
        output.status.code() != Some(2),
        "{arguments:?}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8(output.stdout).unwrap()
}

/// The page of a demo boat, what stands in it, and the boat file with the pair that it advises.
fn made(folder: &Path, boat: &str, more: &[&str]) -> (String, Value) {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("data/boats/{boat}.toml"));
    let text = std::fs::read_to_string(file).unwrap();
    std::fs::write(folder.join("boat.toml"), &text).unwrap();
    let asked =
        ["report", "boat.toml", "--for", "buyer", "--draws", "100", "--json", "--out", "send.html"];
    let told = run(folder, &[&asked[..], more].concat());
    let told: Value = serde_json::from_str(&told).unwrap();
    assert_eq!(told["report_for"], "buyer");
    let page = std::fs::read_to_string(folder.join("send.html")).unwrap();
    let json = page.split("id=\"values\"").nth(1).unwrap().split("</script>").next().unwrap();
    let json = json.split_once('>').unwrap().1;
    let values: Value = serde_json::from_str(json).unwrap();
    if told["pair"].is_object() {
        let mm = |key: &str| (1e3 * told["pair"][key].as_f64().unwrap()).round();
        let pair =
            format!("[planes]\nspan = \"{} mm\"\nchord = \"{} mm\"\n", mm("span_m"), mm("chord_m"));
        let (before, after) = text.split_once("[planes]\n").unwrap_or((&text, ""));
        let after: Vec<&str> = after
            .lines()
            .filter(|line| !line.starts_with("span") && !line.starts_with("chord"))
            .collect();
        std::fs::write(folder.join("boat.toml"), format!("{before}{pair}{}\n", after.join("\n")))
            .unwrap();
    }
    (page, values)
}

/// Digits of a number as the page shows it.
fn shown(digits: &Value, decimals: i32) -> f64 {
    digits.as_i64().unwrap() as f64 / 10_f64.powi(decimals)
}

#[test]
fn regression_the_page_to_send_has_the_numbers_of_the_command_line() {
    for boat in ["wren", "lantern", "holm"] {
        let folder = tempfile::tempdir().unwrap();
        let (page, values) = made(folder.path(), boat, &[]);
        assert!(page.len() < 1 << 20, "{boat}: {} bytes", page.len());
        let decimals = values["force_decimals"].as_i64().unwrap() as i32;
        let unit = match values["force_unit"].as_str().unwrap() {
            "kN" => 1e3,
            _ => 1.0,
        };
        let mut compared = 0;
        for loading in values["loadings"].as_array().unwrap() {
            let speeds = loading["speeds"].as_array().unwrap();
            for place in [0, speeds.len() / 4, speeds.len() / 2, speeds.len() - 1] {
                let at = &loading["points"][place];
                let most = at.as_array().unwrap().len() - 1;
                for deg in [0, most / 2, most] {
                    let (speed, down) = (format!("{} kn", speeds[place]), format!("{deg} deg"));
                    let condition = loading["name"].as_str().unwrap();
                    let json = run(
                        folder.path(),
                        &[
                            "run",
                            "boat.toml",
                            "--json",
                            "--condition",
                            condition,
                            "--speed",
                            &speed,
                            "--deflection",
                            &down,
                        ],
                    );
                    let json: Value = serde_json::from_str(&json).unwrap();
                    let point = &json["points"][0];
                    let what = format!("{boat}, {condition}, {speed}, {down}");
                    if point["outcome"] != "running" {
                        assert_eq!(at[deg].as_array().unwrap().len(), 1, "{what}");
                        continue;
                    }
                    let near = |page: f64, program: f64, step: f64| {
                        assert!(
                            (page - program).abs() <= 0.5001 * step,
                            "{what}: {page} {program}"
                        );
                    };
                    near(shown(&at[deg][0], 1), point["trim_deg"].as_f64().unwrap(), 0.1);
                    let step = 10_f64.powi(-decimals);
                    let force = point["resistance_n"].as_f64().unwrap() / unit;
                    near(shown(&at[deg][1], decimals), force, step);
                    // What is said of it: as many flags, and danger where there is danger.
                    let flags = point["flags"].as_array().unwrap();
                    assert_eq!(at[deg].as_array().unwrap().len() - 4, flags.len(), "{what}");
                    let dangers = ["trim-under-two", "pitch-unstable", "porpoising-expected"];
                    let is_danger =
                        flags.iter().any(|flag| dangers.contains(&flag.as_str().unwrap()));
                    let said = at[deg].as_array().unwrap()[4..].iter();
                    let warned = said
                        .into_iter()
                        .any(|number| values["said"][number.as_u64().unwrap() as usize][0] == true);
                    assert_eq!(warned, is_danger, "{what}: {flags:?}");
                    compared += 1;
                }
            }
        }
        assert!(compared >= 8, "{boat}: only {compared} points were compared");
    }
}

#[test]
fn regression_never_beyond_on_the_page_to_send_is_that_of_the_sizing() {
    let folder = tempfile::tempdir().unwrap();
    let (_, values) = made(folder.path(), "lantern", &[]);
    let json = run(folder.path(), &["size", "boat.toml", "--draws", "100", "--json"]);
    let size: Value = serde_json::from_str(&json).unwrap();
    let mut compared = 0;
    for (loading, told) in
        values["loadings"].as_array().unwrap().iter().zip(size["conditions"].as_array().unwrap())
    {
        for row in told["schedule"].as_array().unwrap() {
            let knots = row["speed_m_s"].as_f64().unwrap() / KNOT_M_S;
            let speeds = loading["speeds"].as_array().unwrap();
            let found =
                speeds.iter().position(|speed| (speed.as_f64().unwrap() - knots).abs() < 1e-6);
            let Some(place) = found else { continue };
            let safe = row["largest_safe_deg"].as_f64().unwrap();
            assert_eq!(
                loading["safe"][place].as_f64().unwrap(),
                (safe + 1e-6).floor(),
                "{} at {knots} kn",
                loading["name"]
            );
            // What is advised is never beyond it.
            assert!(loading["advised"][place].as_u64() <= loading["safe"][place].as_u64());
            compared += 1;
        }
    }
    assert!(compared > 5, "only {compared} rows");
}

#[test]
fn error_names_of_boats_and_loadings_break_out_of_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/boats/lantern.toml");
    let text = std::fs::read_to_string(file).unwrap();
    let bad = "</script><script>alert(1)</script>";
    let text = text.replace("Lantern Bay", bad).replace("\"light\"", &format!("\"{bad}\""));
    std::fs::write(folder.path().join("boat.toml"), text).unwrap();
    let asked = ["report", "boat.toml", "--for", "buyer", "--draws", "100", "--out", "send.html"];
    run(folder.path(), &asked);
    let page = std::fs::read_to_string(folder.path().join("send.html")).unwrap();
    assert!(!page.contains("<script>alert") && page.matches("<script").count() == 2);
    // It asks nothing of anybody.
    assert!(page.contains("default-src 'none'"));
    let elsewhere = page.matches("http").count()
        - page.matches("www.w3.org/2000/svg").count()
        - page.matches("http-equiv").count();
    assert_eq!(elsewhere, 0);
}

#[test]
fn error_the_page_to_send_is_no_pdf() {
    let folder = tempfile::tempdir().unwrap();
    let boat = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/boats/wren.toml");
    let output = Command::new(env!("CARGO_BIN_EXE_planewright"))
        .args(["report", boat.to_str().unwrap(), "--for", "buyer", "--format", "pdf"])
        .current_dir(folder.path())
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(said.contains("which a PDF cannot"), "{said}");
}
