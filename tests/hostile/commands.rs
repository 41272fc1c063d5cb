//! Random boats through every command of the program itself: it answers, says that the boat cannot do it, or
//! refuses with a message; it never panics, and prints no number that is none.
//!
//! A few boats here. The long run, and one boat of it again:
//!
//! ```text
//! PLANEWRIGHT_BOATS=100000 cargo test --release --test hostile every_command -- --nocapture
//! PLANEWRIGHT_BOATS=1 PLANEWRIGHT_FIRST=4711 cargo test --release --test hostile every_command -- --nocapture
//! ```

use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

use super::check_seen;
use super::drawn::Drawn;
use super::running::{count, try_boats};
use super::writer::Random;

/// Longest time that a command may take with few draws: nobody waits longer for an answer.
const PATIENCE: Duration = Duration::from_secs(120);
/// What takes longer is named in the long run.
const SLOW: Duration = Duration::from_secs(15);
/// Boats drawn for chances: the least that each command takes.
const FEW: &str = "50";
/// The same for `report`.
const FEW_OF_REPORT: &str = "100";
/// The same for `doubt`.
const FEW_OF_DOUBT: &str = "100";

/// Parts of several kinds and sizes, so that some have room on small boats and some on large ones.
const PARTS: &str = "name,span,chord,thickness,material,support,bracket_width,actuators,actuator,\
retracted_length,stroke,rated_force,actuator_speed,current,voltage,holding_force,upper_pin_height,\
upper_pin_stand_off,lower_pin_aft,lower_pin_above,screw_count,screw_edge,screw_spacing,price,currency,on_hand\n\
bare small,120 mm,80 mm,,,,,,,,,,,,,,,,,,,,,50,EUR,2\n\
bare large,900 mm,300 mm,,,,,,,,,,,,,,,,,,,,,400,EUR,1\n\
electric,300 mm,150 mm,4 mm,stainless-316,bracket,80 mm,1,electric,129 mm,28 mm,1.2 kN,0.012 m/s,5 A,12 V,3 kN,\
125 mm,20 mm,95 mm,15 mm,6,25 mm,even,245,EUR,4\n\
electric wide,600 mm,230 mm,4 mm,stainless-316,bracket,80 mm,1,electric,204 mm,39 mm,1.8 kN,0.010 m/s,6 A,12 V,\
4.5 kN,190 mm,25 mm,145 mm,20 mm,8,25 mm,even,330,EUR,4\n";

#[test]
fn error_random_boats_through_every_command_are_answered_or_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    let shelf = folder.path().join("shelf.csv");
    std::fs::write(&shelf, PARTS).expect("the folder can be written to");
    try_boats(2, |boat, counted| {
        let own = folder.path().join(boat.seed.to_string());
        std::fs::create_dir(&own).expect("a folder");
        let file = own.join("boat.toml");
        std::fs::write(&file, &boat.text).expect("the folder can be written to");
        for mut arguments in commands(boat, &shelf) {
            arguments.insert(1, file.to_string_lossy().into_owned());
            let name = arguments[0].clone();
            let (code, took) = try_command(&arguments, &own);
            count(counted, &format!("{name} {code}"), 1);
            count(counted, &format!("{name} ms"), took.as_millis() as u64);
            count(counted, "commands", 1);
            if took > SLOW {
                println!("the boat of seed {}: {took:.0?} for {arguments:?}", boat.seed);
            }
        }
        let refused = planewright::parse_boat("boat.toml", &boat.text).is_err();
        count(counted, "refused", refused.into());
        std::fs::remove_dir_all(&own).expect("its own folder");
    });
}

/// Every command that asks about a boat, with some of its options.
fn commands(boat: &Drawn, shelf: &Path) -> Vec<Vec<String>> {
    let mut random = Random::new(boat.seed ^ 0x5eed);
    let shelf = shelf.to_string_lossy();
    let speed = format!("{:.3} m/s", boat.speed_m_s);
    let form = |random: &mut Random, texts: &[&'static str]| random.one_of(texts);
    let shown = ["--json", "--json", "--csv", "--full", ""];
    let mut all: Vec<Vec<&str>> = vec![
        vec!["run", form(&mut random, &["--json", "--csv", "--full", "--budget", ""])],
        vec!["run", "--models", "all", "--json"],
        vec!["size", "--draws", FEW, form(&mut random, &shown)],
        vec!["size", "--draws", FEW, "--stock", &shelf, form(&mut random, &shown)],
        vec!["compare", "--draws", FEW, "--pair", "300x150mm", "--pair", "600x250mm", "--json"],
        vec!["loads", "--speed", &speed, form(&mut random, &shown)],
        vec!["loads", "--stock", &shelf, "--part", "electric", form(&mut random, &shown)],
        vec!["mark", form(&mut random, &["--json", "--both-units", ""])],
        vec!["level", form(&mut random, &shown)],
        vec!["level", "--off-centre", "80 kg at 0.3 m", "--stuck", "port up"],
        vec!["on-plane", form(&mut random, &shown)],
        vec!["fuel", form(&mut random, &shown)],
        vec!["seaway", "--waves", "0.4 m", "--limit", "1 g", form(&mut random, &shown)],
        vec!["seaway", "--waves", "1 m", "--speed", &speed, "--json"],
        vec!["doubt", "--draws", FEW_OF_DOUBT, form(&mut random, &shown)],
        vec!["report", "--for", "owner", "--draws", FEW_OF_REPORT, "--out", "owner.html"],
        vec![
            "report",
            "--for",
            "dealer",
            "--draws",
            FEW,
            "--stock",
            &shelf,
            "--out",
            "dealer.html",
        ],
        vec!["report", "--for", "architect", "--draws", FEW_OF_REPORT, "--out", "architect.html"],
    ];
    if let [name, ..] = boat.conditions[..] {
        let asked = if random.chance(0.5) { "all" } else { name };
        for command in &mut all {
            if random.chance(0.5) {
                command.extend(["--condition", asked]);
            }
        }
    }
    for command in &mut all {
        if random.chance(0.3) {
            command.extend(["--units", random.one_of(&["imperial", "metric", "marine"])]);
        }
        if command[0] != "report" && random.chance(0.1) {
            command.extend(["--aboard", "3"]);
        }
    }
    let owned = |command: Vec<&str>| {
        command.into_iter().filter(|word| !word.is_empty()).map(str::to_owned).collect()
    };
    all.into_iter().map(owned).collect()
}

/// Runs the program; how it ended, and how long it took.
fn try_command(arguments: &[String], folder: &Path) -> (i32, Duration) {
    let began = Instant::now();
    let output = Command::new(env!("CARGO_BIN_EXE_planewright"))
        .args(arguments)
        .current_dir(folder)
        .output()
        .expect("the program starts");
    let took = began.elapsed();
    let [printed, said] = [output.stdout, output.stderr]
        .map(|bytes| String::from_utf8(bytes).unwrap_or_else(|_| panic!("{arguments:?}: no text")));
    let told = format!("{arguments:?}\n{said}");
    assert!(took < PATIENCE, "{took:?}: {told}");
    let Some(code @ 0..=2) = output.status.code() else { panic!("{:?}: {told}", output.status) };
    assert!(!said.contains("panicked"), "{told}");
    check_seen(&said);
    check_seen(&printed);
    if code == 2 {
        // It says what to do, not only what is wrong: on the error stream, or as JSON where that answers instead.
        if printed.is_empty() {
            assert!(said.contains("help: ") || said.contains("'--help'"), "{told}");
        } else {
            let answer: serde_json::Value = serde_json::from_str(&printed).expect("JSON");
            assert!(answer["problem"].is_string() && answer["remedy"].is_string(), "{told}");
        }
    } else {
        assert!(!printed.is_empty() || said.contains("warning: "), "{told}");
        check_numbers_of(arguments, &printed);
    }
    if code != 2 && arguments.contains(&"--json".to_owned()) {
        let parsed: Result<serde_json::Value, _> = serde_json::from_str(&printed);
        assert!(parsed.is_ok_and(|answer| answer.is_object()), "{arguments:?}:\n{printed}");
    }
    if let Some(place) = arguments.iter().position(|word| word == "--out") {
        let paper = std::fs::read_to_string(folder.join(&arguments[place + 1]));
        assert_eq!(paper.is_ok(), code != 2, "{told}");
        check_numbers_of(arguments, &without_lettering(&paper.unwrap_or_default()));
    }
    (code, took)
}

/// A page without what stands in it as bytes.
fn without_lettering(page: &str) -> String {
    let is_byte = |c: char| c.is_ascii_alphanumeric() || "+/=".contains(c);
    page.split("base64,").map(|part| part.trim_start_matches(is_byte)).collect()
}

/// No text has a number that is none, whether in a sentence, a table, or a drawing.
fn check_numbers_of(arguments: &[String], text: &str) {
    for none in ["NaN", "inf", "-inf"] {
        let is_letter = |c: char| c.is_alphanumeric() || c == '-' || c == '_';
        let found = text.match_indices(none).find(|(at, _)| {
            !text[..*at].ends_with(is_letter) && !text[at + none.len()..].starts_with(is_letter)
        });
        if let Some((at, _)) = found {
            let around: String = text[..at].chars().rev().take(200).collect();
            let around: String = around.chars().rev().collect();
            panic!("{arguments:?}: {none} after\n{around}");
        }
    }
}
