//! Faults that show only as the boat is asked about stand at their line, as those of reading do; every refusal says what to do.

use super::{planewright, refusal};

fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn error_a_late_fault_names_file_line_and_key() {
    let text = refusal(&["size", "tests/abuse/duty_below_planing.toml"]);
    assert!(text.contains("tests/abuse/duty_below_planing.toml:80:"), "{text}");
    assert!(
        plain(&text).contains("duty.speed (entry 1): 3.786 m/s is below the planing range"),
        "{text}"
    );
    assert!(text.contains("help: give at least 3.855 m/s"), "{text}");
}

#[test]
fn error_what_is_nested_too_deep_has_its_line() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("deep.toml");
    std::fs::write(&path, format!("name = \"x\"\nx = {}{}\n", "[".repeat(300), "]".repeat(300)))
        .unwrap();
    let text = refusal(&["run", path.to_str().unwrap()]);
    assert!(text.contains("deep.toml:2:"), "{text}");
    assert!(text.contains("brackets or braces stand within each other too deep"), "{text}");
    let table = format!("[{}]\nx = 1\n", ["a"; 300].join("."));
    std::fs::write(&path, table).unwrap();
    assert!(refusal(&["run", path.to_str().unwrap()]).contains("deep.toml:1:"));
}

#[test]
fn error_planes_too_small_to_mark_out_have_a_remedy() {
    for more in [&[][..], &["--json"]] {
        let text =
            refusal(&[&["mark", "tests/abuse/planes_too_small_to_mark.toml"], more].concat());
        assert!(text.contains("help: these planes are too small"), "{text}");
    }
}

#[test]
fn regression_no_room_is_answered_in_json() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("wide.toml");
    let boat = std::fs::read_to_string("data/boats/lantern.toml").unwrap();
    let room = "inner_clearance = \"20 in\"";
    assert!(boat.contains(room));
    std::fs::write(&path, boat.replace(room, "inner_clearance = \"30 in\"")).unwrap();
    let output = planewright(&["mark", path.to_str().unwrap(), "--json"]);
    assert_eq!(output.status.code(), Some(1), "{}", String::from_utf8_lossy(&output.stderr));
    let answer: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(answer["answer"], "no-room");
    assert_eq!(answer["program"], "planewright");
    assert!(answer["problem"].as_str().unwrap().contains("missing"));
    assert!(!answer["remedy"].as_str().unwrap().is_empty());
}

/// The same answer has the same word, whichever command gives it.
#[test]
fn regression_no_planes_needed_is_the_same_word_for_all() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("easy.toml");
    let boat = std::fs::read_to_string("data/boats/wren.toml").unwrap();
    let (head, rest) = boat.split_once("# See over the bow").unwrap();
    let (_, conditions) = rest.split_once("# One angler").unwrap();
    for (at_most, word) in [("14 deg", "no-planes-needed"), ("2.1 deg", "no-pair-does-all")] {
        let duty = format!(
            "[[duty]]\nkind = \"hump-trim\"\nat_most = \"{at_most}\"\nfrom = \"14 kn\"\nto = \"16 kn\"\n"
        );
        std::fs::write(&path, format!("{head}{duty}# One angler{conditions}")).unwrap();
        let file = path.to_str().unwrap();
        let paper = folder.path().join("paper.html");
        let report = [
            "report",
            file,
            "--for",
            "dealer",
            "--force",
            "--json",
            "--out",
            paper.to_str().unwrap(),
        ];
        for (key, arguments) in [
            ("answer", &["size", file, "--json"][..]),
            ("answer", &["mark", file, "--json"]),
            ("advised", &report),
        ] {
            let output = planewright(arguments);
            let answer: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
            assert_eq!(answer[key], word, "{arguments:?}");
        }
    }
}
