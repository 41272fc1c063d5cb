//! The text of `run`, read line by line before it was kept.

use super::{BOATS, demo, printed, sparse_boat};

/// Widest line of a text, in columns.
pub(super) const WIDTH: usize = 100;

pub(super) fn kept(name: &str, text: &str) {
    let mut settings = insta::Settings::clone_current();
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.add_filter(
        r"CRC-32 [0-9a-f]{8}, by planewright \S+",
        "CRC-32 [crc], by planewright [version]",
    );
    settings.bind(|| insta::assert_snapshot!(name, text));
}

#[test]
fn regression_text_of_the_demo_boats() {
    kept("run_wren", &printed(&["run", &demo("wren"), "--full"]));
}

#[test]
fn regression_text_of_a_budget() {
    let asked = ["run", &demo("holm"), "--speed", "18 kn", "--deflection", "5 deg", "--budget"];
    kept("budget_holm", &printed(&asked));
}

#[test]
fn regression_text_keeps_within_100_columns_and_marks_what_was_estimated() {
    let folder = tempfile::tempdir().unwrap();
    let file = sparse_boat(folder.path());
    let file = file.to_str().unwrap();
    for units in ["marine", "metric", "imperial"] {
        let asked =
            ["run", file, "--units", units, "--budget", "--speed", "22 kn", "--spray", "on"];
        let text = printed(&asked);
        for line in text.lines().filter(|line| !line.trim_start().starts_with("From")) {
            assert!(line.chars().count() <= WIDTH, "{line}");
        }
        assert_eq!(text.matches("ESTIMATED").count(), 8, "{text}");
        assert!(text.contains("weight.lcg: 0.37 of the bottom length"));
    }
    for boat in BOATS {
        let text = printed(&["run", &demo(boat), "--full"]);
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{boat}");
        assert!(!text.contains("ESTIMATED"), "{boat}");
    }
}
