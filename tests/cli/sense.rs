//! What must be settled first: above every text, in every JSON, in all papers, in the same words.

use std::path::Path;

use serde_json::Value;

use super::{BOATS, demo, planewright, printed};

/// A boat of the first page of the documentation, with lines put below [weight] and in place of her top speed.
fn boat(folder: &Path, weight: &str, top_speed: &str, more: &str) -> String {
    let text = format!(
        "name = \"Our boat\"\n[hull]\noverall_length = \"6.8 m\"\nchine_beam = \"2.3 m\"\n\
         deadrise = \"19 deg\"\n[weight]\nmass = \"2300 kg\"\n{weight}\n[drive]\n\
         kind = \"outboard\"\npower = \"150 kW\"\ntop_speed = \"{top_speed}\"\n{more}"
    );
    let file = folder.join("boat.toml");
    std::fs::write(&file, text).expect("a writable folder");
    file.to_str().expect("UTF-8").to_owned()
}

const PLANES: &str = "[planes]\nspan = \"600 mm\"\nchord = \"225 mm\"\n";

/// Every command that answers about a boat, with what it needs.
const COMMANDS: [&[&str]; 8] = [
    &["run"],
    &["size"],
    &["level"],
    &["on-plane"],
    &["fuel"],
    &["seaway"],
    &["doubt", "--draws", "100"],
    &["loads"],
];

fn output(command: &[&str], file: &str, more: &[&str]) -> String {
    let arguments = [&command[..1], &[file], &command[1..], more].concat();
    let output = planewright(&arguments);
    assert!(output.status.code() != Some(2), "{arguments:?}: {output:?}");
    String::from_utf8(output.stdout).expect("UTF-8")
}

/// Words without their breaks into lines.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

const FROM_THE_BOW: &str = "\
To settle first
  The answer depends on her centre of gravity, 4.4 m: it is not usual for a boat like her.
  weight.lcg  4.4 m where 1.62 to 2.66 m is usual (0.28 to 0.46 of the bottom length, forward of the
              transom). Likely cause: measured from the bow, not from the transom. Instead: write
              lcg = \"2.4 m\" below [weight].
  What is usual is common practice, no source; the answer below is for the boat as described.

";

const FROM_THE_BOW_IN_SHORT: &str = "\
To settle first
  The answer depends on her centre of gravity, 4.4 m: it is not usual for a boat like her.
  weight.lcg  1.62 to 2.66 m is usual. Instead: write lcg = \"2.4 m\" below [weight].
Our boat";

#[test]
fn error_every_command_asks_first_and_answers_all_the_same() {
    let folder = tempfile::tempdir().unwrap();
    let file = boat(folder.path(), "lcg = \"4.4 m\"", "30 kn", PLANES);
    for command in COMMANDS {
        let text = output(command, &file, &["--full"]);
        assert!(text.starts_with(FROM_THE_BOW), "{command:?}:\n{text}");
        assert_eq!(text.matches("The answer depends on").count(), 1, "{command:?}");
        assert!(text.contains("Our boat"), "{command:?}");
        let short = output(command, &file, &[]);
        assert!(short.starts_with(FROM_THE_BOW_IN_SHORT), "{command:?}:\n{short}");
    }
    let text = output(&["mark"], &file, &[]);
    assert!(text.starts_with(FROM_THE_BOW), "{text}");
}

#[test]
fn regression_every_json_holds_the_questions() {
    let folder = tempfile::tempdir().unwrap();
    let file = boat(folder.path(), "lcg = \"4.4 m\"", "30 kn", PLANES);
    let mark: &[&str] = &["mark"];
    for command in COMMANDS.iter().chain([&mark]) {
        let answer: Value = serde_json::from_str(&output(command, &file, &["--json"])).unwrap();
        let questions = answer["questions"].as_array().unwrap();
        assert_eq!(questions.len(), 1, "{command:?}");
        let question = &questions[0];
        assert_eq!(question["word"], "centre-of-gravity-along");
        assert_eq!(question["key"], "weight.lcg");
        assert_eq!(question["unit"], "m");
        assert_eq!(question["value"], 4.4);
        let usual = [0, 1].map(|end| question["usual"][end].as_f64().unwrap());
        assert!((usual[0] - 0.28 * 5.78).abs() < 1e-9 && (usual[1] - 0.46 * 5.78).abs() < 1e-9);
        assert_eq!(question["cause"], "measured from the bow, not from the transom");
        assert_eq!(question["cure"], "write lcg = \"2.4 m\" below [weight]");
        assert_eq!(answer["silences"], Value::Array(Vec::new()), "{command:?}");
    }
    for boat in BOATS {
        let answer: Value =
            serde_json::from_str(&printed(&["run", &demo(boat), "--json"])).unwrap();
        assert_eq!(answer["questions"], Value::Array(Vec::new()), "{boat}");
        assert!(!printed(&["run", &demo(boat)]).contains("To settle first"), "{boat}");
    }
}

#[test]
fn error_a_table_for_other_programs_leaves_the_questions_to_the_other_stream() {
    let folder = tempfile::tempdir().unwrap();
    let file = boat(folder.path(), "lcg = \"4.4 m\"", "30 kn", "");
    let output = planewright(&["run", &file, "--csv"]);
    assert!(String::from_utf8_lossy(&output.stdout).starts_with("speed_m_s"));
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(said.contains("warning: The answer depends on her centre of gravity, 4.4 m"), "{said}");
}

#[test]
fn error_several_questions_are_named_in_one_line_and_asked_in_the_order_of_the_file() {
    let folder = tempfile::tempdir().unwrap();
    let file = boat(folder.path(), "vcg = \"2.5 m\"", "50 kn", "");
    let text = output(&["size"], &file, &["--full"]);
    let first = flat(text.split("Our boat").next().unwrap());
    assert!(
        first.contains(
            "The answer depends on the height of her centre of gravity, 2.5 m, and on her top speed, 50 kn: they are not usual for a boat like her."
        ),
        "{first}"
    );
    let [height, speed] = ["weight.vcg 2.5 m where", "drive.top_speed 50 kn where"]
        .map(|text| first.find(text).unwrap_or_else(|| panic!("{text}: {first}")));
    assert!(height < speed);
}

#[test]
fn error_the_papers_begin_with_the_question() {
    let folder = tempfile::tempdir().unwrap();
    let file = boat(folder.path(), "lcg = \"4.4 m\"", "30 kn", "");
    for reader in ["dealer", "owner", "architect"] {
        let out = folder.path().join(format!("{reader}.html"));
        let out = out.to_str().unwrap();
        planewright(&["report", &file, "--for", reader, "--draws", "100", "--out", out]);
        let page = std::fs::read_to_string(out).unwrap();
        let [title, question, caution] = [
            "To settle first",
            "The answer depends on her centre of gravity, 4.4 m: it is not usual for a boat like her.",
            "common practice, no source; the answer below",
        ]
        .map(|text| page.find(text).unwrap_or_else(|| panic!("{reader}: {text}")));
        assert!(title < question && question < caution);
        let first = page.find("<main").unwrap_or_default();
        let heads = page[first..title].matches("<h2").count();
        assert!(heads <= 1, "{reader}: something comes before the question");
    }
}

const SLOW: &str = "Nothing can be said about planes for her: her top speed, 8.0 kn, lies below the planing range, which begins at 9.2 kn for her beam.";
const SLOW_CURE: &str = "Check drive.top_speed with its unit, and hull.chine_beam; for a boat that is not made to plane no equation here holds.";
const NEVER: &str = "Nothing can be said about planes for her: from the start of planing, 9.2 kn, to her top speed, 30.0 kn, she is in balance at no speed, since her stern is too heavy.";

#[test]
fn error_nothing_can_be_said_in_the_same_words_by_every_command_and_paper() {
    let folder = tempfile::tempdir().unwrap();
    for (weight, top, said) in [("", "8 kn", SLOW), ("lcg = \"0.1 m\"", "30 kn", NEVER)] {
        let file = boat(folder.path(), weight, top, "");
        for command in &COMMANDS[..7] {
            let text = flat(&output(command, &file, &[]));
            assert!(text.starts_with(&format!("To settle first {said}")), "{command:?}: {text}");
        }
        // Without planes there is nothing to load and nothing to mark out.
        for command in ["loads", "mark"] {
            let refused = planewright(&[command, &file]);
            assert_eq!(refused.status.code(), Some(2), "{command}");
            let text = String::from_utf8_lossy(&refused.stderr).replace('|', " ");
            assert!(flat(&text).contains(said), "{command}: {text}");
        }
        for reader in ["dealer", "owner", "architect"] {
            let out = folder.path().join(format!("{reader}-{}.html", said.len()));
            let out = out.to_str().unwrap();
            let report = ["report", &file, "--for", reader, "--draws", "100", "--out", out];
            assert_eq!(planewright(&report).status.code(), Some(1));
            let page = std::fs::read_to_string(out).unwrap();
            assert!(page.contains(said), "{reader}");
            assert!(!page.contains("No planes needed"), "{reader}");
        }
    }
}

#[test]
fn error_the_size_of_a_boat_that_does_not_plane_word_for_word() {
    let folder = tempfile::tempdir().unwrap();
    let file = boat(folder.path(), "", "8 kn", "");
    let asked = ["size", &file, "--stock", "data/stock/planes.csv", "--full"];
    let size = planewright(&asked);
    assert_eq!(size.status.code(), Some(1));
    let text = flat(&String::from_utf8_lossy(&size.stdout));
    assert!(text.contains(&format!("Suggestion {SLOW} {SLOW_CURE}")), "{text}");
    assert!(text.contains("Nothing from the shelf was ranked"));
    for wrong in ["none needed", "No planes needed", "No pair that may be suggested"] {
        assert!(!text.contains(wrong), "{wrong}: {text}");
    }
    let json = planewright(&["size", &file, "--json"]);
    let answer: Value = serde_json::from_slice(&json.stdout).unwrap();
    assert_eq!(answer["silences"][0]["word"], "top-speed-below-planing");
    assert_eq!(answer["silences"][0]["sentence"], SLOW);
    assert_eq!(answer["silences"][0]["cure"], SLOW_CURE);
}
