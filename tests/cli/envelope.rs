//! The envelope that every JSON answer has, and the same answer from the library.

use serde_json::Value;

use super::{demo, planewright, printed};

/// What every answer says, whatever was asked.
const ENVELOPE: [&str; 15] = [
    "program",
    "version",
    "name",
    "scenario",
    "input",
    "condition",
    "planes",
    "flags",
    "danger",
    "untested",
    "flag_meanings",
    "questions",
    "silences",
    "warnings",
    "files",
];

fn answers(boat: &str) -> Vec<(String, Value)> {
    let paper = tempfile::tempdir().unwrap();
    let out = paper.path().join("owner.html").to_str().unwrap().to_owned();
    let commands: [&[&str]; 11] = [
        &["run"],
        &["size"],
        &["level"],
        &["fuel"],
        &["on-plane"],
        &["seaway"],
        &["doubt", "--draws", "200"],
        &["loads"],
        &["mark"],
        &["trial", "data/trials/lantern.csv", "--report-only"],
        &["report", "--for", "owner", "--out", &out],
    ];
    let answer = |command: &[&str]| {
        let arguments = [&[command[0], boat], &command[1..], &["--json"]].concat();
        let output = planewright(&arguments);
        let text = String::from_utf8(output.stdout).expect("UTF-8");
        let object =
            serde_json::from_str(&text).unwrap_or_else(|why| panic!("{arguments:?}: {why}"));
        (command[0].to_owned(), object)
    };
    commands.into_iter().map(answer).collect()
}

#[test]
fn regression_every_json_answer_has_the_same_envelope() {
    for (command, answer) in answers(&demo("lantern")) {
        for key in ENVELOPE {
            assert!(!answer[key].is_null() || key == "scenario", "{command}: {key}");
        }
        assert!(answer["caution"].as_str().unwrap().contains("sea trial"), "{command}");
        assert_eq!(answer["input"]["file"], "data/boats/lantern.toml", "{command}");
        assert_eq!(answer["input"]["crc32"].as_str().unwrap().len(), 8, "{command}");
        let sources = ["fitted", "suggested", "listed", "advised", "none"];
        let source = answer["planes"]["source"].as_str().unwrap();
        assert!(sources.contains(&source), "{command}: {source}");
        assert_eq!(source == "none", answer["planes"]["span_m"].is_null(), "{command}");
        let words = |key: &str| answer[key].as_array().unwrap().clone();
        let meanings = answer["flag_meanings"].as_object().unwrap();
        assert_eq!(words("flags").len(), meanings.len(), "{command}");
        for word in words("danger").into_iter().chain(words("untested")) {
            assert!(words("flags").contains(&word), "{command}: {word}");
        }
    }
}

/// The library writes what the command prints.
#[test]
fn regression_the_answer_of_the_library_is_that_of_the_command() {
    for boat in super::BOATS {
        let file = planewright::read_boat(demo(boat).as_ref()).unwrap();
        let answer = planewright::SizeAnswer::of(file).unwrap();
        let written = serde_json::to_string_pretty(&answer).unwrap() + "\n";
        assert_eq!(written, printed(&["size", &demo(boat), "--json"]), "{boat}");
        assert!(answer.suggestion.to_string().contains(" mm each, on 8"), "{}", answer.suggestion);
    }
}
