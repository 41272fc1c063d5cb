//! Charts as files.

use std::collections::BTreeSet;
use std::path::Path;

use super::{demo, printed};

/// First bytes of every PNG. Source: PNG specification, third edition, section 5.2.
const PNG_SIGNATURE: &[u8] = b"\x89PNG\r\n\x1a\n";

fn drawn(boat: &str, folder: &Path, more: &[&str]) -> BTreeSet<String> {
    let file = demo(boat);
    let mut asked = vec!["run", &file, "--charts", folder.to_str().unwrap()];
    asked.extend(more);
    printed(&asked);
    let entries = std::fs::read_dir(folder).unwrap();
    entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect()
}

fn both_of(stems: &[&str]) -> BTreeSet<String> {
    stems.iter().flat_map(|stem| [format!("{stem}.svg"), format!("{stem}.png")]).collect()
}

#[test]
fn regression_charts_exist_and_carry_their_words() {
    let folder = tempfile::tempdir().unwrap();
    let made = folder.path().join("deep/charts");
    let names = drawn("lantern", &made, &[]);
    let stems = ["trim", "resistance", "resistance-parts", "power", "plane-lift"];
    assert_eq!(names, both_of(&stems));
    for name in &names {
        let bytes = std::fs::read(made.join(name)).unwrap();
        if name.ends_with(".png") {
            assert!(bytes.starts_with(PNG_SIGNATURE), "{name}");
        } else {
            let text = String::from_utf8(bytes).unwrap();
            assert!(text.contains("Lantern Bay") && text.contains("Speed (kn)"), "{name}");
        }
    }
    let trim = std::fs::read_to_string(made.join("trim.svg")).unwrap();
    for word in ["7.5° down", "porpoising begins", "least safe trim, 2°", "planes untested"] {
        assert!(trim.contains(word), "{word}");
    }
}

#[test]
fn regression_a_boat_without_planes_gets_three_charts() {
    let folder = tempfile::tempdir().unwrap();
    let names = drawn("wren", folder.path(), &[]);
    assert_eq!(names, both_of(&["trim", "resistance", "power"]));
    let resistance = std::fs::read_to_string(folder.path().join("resistance.svg")).unwrap();
    assert!(resistance.contains("friction on the bottom"));
    assert!(!resistance.contains("appendages"), "parts of nought are left out");
}

#[test]
fn regression_axes_take_the_units_asked_for() {
    let folder = tempfile::tempdir().unwrap();
    drawn("holm", folder.path(), &["--units", "imperial", "--power-unit", "kW"]);
    let read = |name| std::fs::read_to_string(folder.path().join(name)).unwrap();
    assert!(read("resistance.svg").contains("Resistance (lbf)"));
    assert!(read("trim.svg").contains("Speed (mph)"));
    assert!(read("power.svg").contains("Effective power (kW)"));
}

#[test]
fn regression_charts_are_the_same_every_time() {
    let [first, second] = [(); 2].map(|()| tempfile::tempdir().unwrap());
    let names = drawn("wren", first.path(), &[]);
    drawn("wren", second.path(), &[]);
    for name in names {
        let [a, b] = [&first, &second].map(|f| std::fs::read(f.path().join(&name)).unwrap());
        assert!(a == b, "{name}");
    }
}
