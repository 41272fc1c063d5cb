//! The short answers: how long they may be, what may not be missing, and that `--full` tells all.

use std::process::Command;

use super::{BOATS, demo, printed, refusal, sparse_boat};

/// Every command that answers in short, with what keeps it quick.
const COMMANDS: [&[&str]; 8] = [
    &["run"],
    &["size"],
    &["level"],
    &["fuel"],
    &["on-plane"],
    &["seaway"],
    &["doubt", "--draws", "100"],
    &["loads"],
];
/// Widths of a terminal, each with the most lines of a short answer.
const MOST_LINES: [(usize, usize); 2] = [(100, 25), (60, 32)];
const STOCK: [&str; 2] = ["--stock", "data/stock/planes.csv"];

/// What is printed with so many columns, whatever the exit code.
fn printed_in(columns: usize, arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_planewright"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("COLUMNS", columns.to_string())
        .output()
        .expect("the program starts");
    assert!(output.status.code() != Some(2), "{arguments:?}: {output:?}");
    String::from_utf8(output.stdout).expect("UTF-8")
}

/// That the answers keep within the lines, `more` of them, and within the columns.
fn is_short(arguments: &[&str], more: usize) {
    for (columns, most) in MOST_LINES {
        let text = printed_in(columns, arguments);
        let lines = text.lines().count();
        assert!(lines <= most + more, "{arguments:?}, {columns} columns: {lines} lines\n{text}");
        for line in text.lines() {
            assert!(line.chars().count() <= columns, "{arguments:?}, {columns}: {line}");
        }
        assert!(text.ends_with("  --full gives all tables and the reasons.\n"), "{text}");
        assert!(text.contains("An estimate: try it gently"), "{text}");
    }
}

#[test]
fn regression_every_answer_is_short_for_every_demo_boat() {
    for boat in BOATS {
        let file = demo(boat);
        for command in COMMANDS {
            is_short(&[&command[..1], &[file.as_str()], &command[1..]].concat(), 0);
        }
        is_short(&[&["size", &file], &STOCK[..]].concat(), 0);
        let part = ["--part", "600 x 300 stainless hydraulic"];
        is_short(&[&["loads", &file], &STOCK[..], &part[..]].concat(), 0);
    }
}

#[test]
fn regression_several_loadings_add_a_line_each() {
    for command in COMMANDS.iter().filter(|command| command[0] != "size") {
        let file = demo("lantern");
        let asked = [&command[..1], &[&file, "--condition", "all"], &command[1..]].concat();
        let text = printed_in(100, &asked);
        let others = text.lines().skip_while(|line| !line.contains("In the other loadings:"));
        assert!(others.count() > 3, "{command:?}: {text}");
        let lines = text.lines().count();
        assert!(lines <= 25 + 1 + 3 * 3, "{command:?}: {lines} lines\n{text}");
    }
}

#[test]
fn regression_the_caution_of_danger_and_what_is_estimated_stay_in_short() {
    let folder = tempfile::tempdir().unwrap();
    let file = sparse_boat(folder.path());
    let file = file.to_str().unwrap();
    for command in COMMANDS {
        let text = printed_in(100, &[&command[..1], &[file], &command[1..]].concat());
        assert!(text.contains("ESTIMATED"), "{command:?}: {text}");
        assert!(text.contains("planes up in a following sea"), "{command:?}: {text}");
    }
    assert!(printed(&["size", &demo("lantern")]).contains("UNTESTED where the size is set"));
    assert!(printed(&["seaway", &demo("lantern")]).contains("make the boat broach"));
}

#[test]
fn regression_words_are_explained_where_they_are_used() {
    let run = printed(&["run", &demo("lantern")]);
    assert!(run.contains("hump: the speed at which the bow stands highest"), "{run}");
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("new.toml");
    let file = file.to_str().unwrap();
    let said = printed(&["new", file]);
    assert!(said.contains("--for bow-high"), "{said}");
    let text = std::fs::read_to_string(file).unwrap();
    for word in ["trim: how far", "hump: the", "chine: the", "deadrise: the"] {
        let flat = text.replace("\n# ", " ");
        assert_eq!(flat.matches(word).count(), 1, "{word}");
    }
    assert!(printed(&["--help"]).contains("which most people call trim tabs"));
}

#[test]
fn regression_what_bothers_is_written_into_the_starter_file() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("new.toml");
    let file = file.to_str().unwrap();
    printed(&["new", file, "--for", "bow-high", "--for", "leans"]);
    let text = std::fs::read_to_string(file).unwrap();
    assert!(text.contains("\nfor = [\"bow-high\", \"leans\"]\n"), "{text}");
    let size: serde_json::Value =
        serde_json::from_str(&printed(&["size", file, "--json"])).unwrap();
    let names: Vec<_> = size["duties"].as_array().unwrap().iter().map(|d| &d["name"]).collect();
    assert_eq!(names, ["relief", "list"]);
    assert!(refusal(&["new", file]).contains("--force"));
}

#[test]
fn physics_two_more_aboard_are_a_loading_of_their_own() {
    let run = |more: &[&str]| -> serde_json::Value {
        let file = demo("wren");
        let asked = [&["run", file.as_str(), "--speed", "12 kn", "--json"], more].concat();
        serde_json::from_str(&printed(&asked)).unwrap()
    };
    let [plain, more] = [run(&[]), run(&["--aboard", "2"])];
    assert_eq!(more["condition"], "2 more aboard");
    let mass = |of: &serde_json::Value| of["boat"]["mass_kg"].as_f64().unwrap();
    assert!((mass(&more) - mass(&plain) - 170.0).abs() < 1e-6);
    let size = printed(&["size", &demo("wren"), "--aboard", "2"]);
    assert!(size.starts_with("Skerry Wren, in all 5 loadings\n"), "{size}");
}

#[test]
fn error_usual_slips_are_told_what_to_write() {
    let wren = demo("wren");
    let flat = |text: String| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let told = [
        (vec!["run", &wren, "--speed", "10..30 kn"], "one value is wanted, not a range"),
        (vec!["run", &wren, "-o", "x"], "`> FILE` keeps them"),
        (vec!["mark", &wren, "--csv"], "this command prints no table"),
        (vec!["run", &wren, "other.toml"], "one boat at a time"),
        (vec!["run", STOCK[1]], "this is a list with columns, not a boat file"),
        (vec!["size", &wren, "--stock", &wren], "this is no stock list; it looks like a boat file"),
    ];
    for (asked, said) in told {
        let text = flat(refusal(&asked));
        assert!(text.contains(said), "{asked:?}: {text}");
    }
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("boat.toml");
    let boat = std::fs::read_to_string(&wren).unwrap();
    let changed = |from: &str, to: &str| {
        assert!(boat.contains(from));
        std::fs::write(&file, boat.replace(from, to)).unwrap();
        refusal(&["run", file.to_str().unwrap()])
    };
    let slanted = changed("\"Skerry Wren\"", "\u{201c}Skerry Wren\u{201d}");
    assert!(slanted.contains("write \"Skerry Wren\", with the straight mark"), "{slanted}");
}

#[test]
fn regression_charts_of_loads_are_written() {
    let folder = tempfile::tempdir().unwrap();
    let to = folder.path().to_str().unwrap();
    let part = ["--part", "600 x 300 stainless hydraulic"];
    let file = demo("lantern");
    printed_in(100, &[&["loads", &file, "--charts", to], &STOCK[..], &part[..]].concat());
    for name in ["plane-load", "hinge-moment", "hinge-moment-deflection", "actuator-push"] {
        for ending in ["svg", "png"] {
            assert!(folder.path().join(format!("{name}.{ending}")).is_file(), "{name}.{ending}");
        }
    }
}
