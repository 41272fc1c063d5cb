//! The program as its users meet it: arguments, output, exit codes.

mod behaviour;
mod bounded;
mod carried;
mod charts;
mod conditions;
mod data;
mod dealer;
mod doubt;
mod envelope;
mod errors;
mod fleet;
mod late;
mod level;
mod manual;
mod mark;
mod models;
mod numbers;
mod report;
mod saving;
mod seaway;
mod sense;
mod shelf;
mod short;
mod size;
mod stations;
mod texts;
mod trial;

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// The demo boats.
const BOATS: [&str; 3] = ["wren", "lantern", "holm"];

/// Half a unit of the ninth digit as a share of a number at most: how far data may lie from what was computed.
const ROUNDED: f64 = 5e-9;

/// Runs the program in the root of the project, so that paths in outputs are the same everywhere.
fn planewright(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_planewright"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env_remove("NO_COLOR")
        .output()
        .expect("the program starts")
}

/// Its standard output, when it ended with 0 and had nothing to say on the other stream.
fn printed(arguments: &[&str]) -> String {
    let output = planewright(arguments);
    let complaint = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {complaint}");
    assert_eq!(complaint, "", "{arguments:?}");
    String::from_utf8(output.stdout).expect("UTF-8")
}

/// Its error text, when it ended with 2 and printed nothing else.
fn refusal(arguments: &[&str]) -> String {
    let output = planewright(arguments);
    assert_eq!(output.status.code(), Some(2), "{arguments:?}");
    assert!(output.stdout.is_empty(), "{arguments:?}");
    String::from_utf8(output.stderr).expect("UTF-8")
}

fn demo(name: &str) -> String {
    format!("data/boats/{name}.toml")
}

/// A file with a boat that leaves much to be estimated.
fn sparse_boat(folder: &Path) -> PathBuf {
    let file = folder.join("sparse.toml");
    let text = "name = \"Sparse\"\n[hull]\noverall_length = \"7.4 m\"\nchine_beam = \"2.25 m\"\n\
        deadrise = \"18 deg\"\n[weight]\nmass = \"2800 kg\"\n[drive]\npower = \"180 kW\"\n\
        [planes]\nspan = \"1100 mm\"\nchord = \"300 mm\"\n";
    std::fs::write(&file, text).expect("the folder can be written to");
    file
}
