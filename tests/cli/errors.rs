//! What is refused, in which words, and the exit codes.

use std::io::Read;
use std::process::{Command, Stdio};

use super::{demo, planewright, printed, refusal};

#[test]
fn error_a_speed_without_unit_says_what_to_write() {
    let text = refusal(&["run", &demo("wren"), "--speed", "20"]);
    assert!(text.contains("`20` has no unit: write for example `20 kn`"), "{text}");
    assert!(text.contains("kn, km/h, mph, m/s"), "{text}");
}

#[test]
fn error_speeds_and_deflections_beyond_all_bounds_are_refused() {
    let text = refusal(&["run", &demo("wren"), "--speed", "400 kn"]);
    assert!(text.contains("205.8 m/s is outside 0.05 to 60 m/s"), "{text}");
    let text = refusal(&["run", &demo("holm"), "--deflection", "45 deg"]);
    assert!(text.contains("45 deg is outside 0 to 30 deg"), "{text}");
    let text = refusal(&["run", &demo("holm"), "--roughness", "rough"]);
    assert!(text.contains("0.0004 for a full-size boat"), "{text}");
}

#[test]
fn error_a_deflection_without_planes_says_what_to_do() {
    let text = refusal(&["run", &demo("wren"), "--deflection", "5 deg"]);
    assert_eq!(
        text,
        "  x --deflection: a deflection is asked for, and the boat has no planes\n  \
         help: add [planes] with span and chord to the boat file, or ask for 0 deg\n"
    );
    let text =
        refusal(&["run", &demo("holm"), "--method", "general-1964", "--deflection", "5 deg"]);
    assert!(text.contains("the 1964 cases know no planes"), "{text}");
}

#[test]
fn error_unknown_arguments_and_commands_end_with_two() {
    let text = refusal(&["run", &demo("wren"), "--sped", "20 kn"]);
    assert!(text.contains("--sped") && text.contains("--speed"), "{text}");
    assert!(refusal(&["rum", "x"]).contains("run"));
    assert!(refusal(&["run"]).contains("<BOAT>"));
    assert!(refusal(&["run", &demo("wren"), "--json", "--csv"]).contains("cannot be used with"));
    assert!(refusal(&["run", &demo("wren"), "--method", "2d"]).contains("concurrent-1964"));
    assert!(refusal(&[]).contains("Usage"));
}

#[test]
fn error_faults_of_a_boat_file_reach_the_error_stream() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("wrong.toml");
    std::fs::write(&file, "[hull]\nbottom_lenght = \"5 m\"\nchine_beam = \"-2 m\"\n").unwrap();
    let text = refusal(&["run", file.to_str().unwrap()]);
    assert!(text.contains("bottom_lenght") && text.contains("bottom_length"), "{text}");
    assert!(text.is_ascii());
    assert!(refusal(&["run", "no-such.toml"]).contains("there is no such file"));
}

#[test]
fn error_charts_need_a_folder() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("file");
    std::fs::write(&file, "x").unwrap();
    let text = refusal(&["run", &demo("wren"), "--charts", file.to_str().unwrap()]);
    assert!(text.contains("the folder cannot be made"), "{text}");
}

#[test]
fn regression_new_writes_a_boat_that_runs_and_overwrites_only_when_told() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("mine.toml");
    let file = file.to_str().unwrap();
    assert!(printed(&["new", file]).contains("planewright size"));
    assert!(printed(&["run", file]).contains("at the hump"));
    std::fs::write(file, "mine").unwrap();
    assert!(refusal(&["new", file]).contains("the file exists already"));
    assert_eq!(std::fs::read_to_string(file).unwrap(), "mine");
    printed(&["new", file, "--force"]);
    assert_ne!(std::fs::read_to_string(file).unwrap(), "mine");
}

#[test]
fn regression_help_is_no_failure_and_gives_examples() {
    for asked in [vec!["--help"], vec!["run", "--help"], vec!["new", "--help"]] {
        let text = printed(&asked);
        assert!(text.contains("Examples:"), "{asked:?}");
    }
    assert_eq!(printed(&["--version"]), format!("planewright {}\n", env!("CARGO_PKG_VERSION")));
}

#[test]
fn regression_a_reader_that_stops_is_no_failure() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_planewright"))
        .args(["run", &demo("lantern"), "--json", "--budget"])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // More is written than a pipe holds, and only one byte is read.
    let mut stdout = child.stdout.take().unwrap();
    stdout.read_exact(&mut [0]).unwrap();
    drop(stdout);
    let output = child.wait_with_output().unwrap();
    assert_eq!(output.status.code(), Some(0));
    assert!(output.stderr.is_empty());
}

#[test]
fn regression_no_colour_where_there_is_no_terminal() {
    let output = planewright(&["run", &demo("lantern")]);
    assert!(output.stdout.is_ascii(), "a pipe gets plain ASCII");
}
