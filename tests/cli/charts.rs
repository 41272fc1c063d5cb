//! Charts as files.

use std::collections::BTreeSet;
use std::path::Path;

use super::{demo, printed, refusal};

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

/// Titles and second lines of all charts of a command.
fn words_of(command: &[&str], boat: &str) -> Vec<(String, String)> {
    let folder = tempfile::tempdir().unwrap();
    let file = demo(boat);
    let into = folder.path().to_str().unwrap();
    printed(&[&command[..1], &[file.as_str()], &command[1..], &["--charts", into]].concat());
    let entries = std::fs::read_dir(folder.path()).unwrap().map(|entry| entry.unwrap().path());
    let svg = entries.filter(|path| path.extension().is_some_and(|ending| ending == "svg"));
    let read = |path: std::path::PathBuf| {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        (format!("{command:?} {name}"), std::fs::read_to_string(path).unwrap())
    };
    svg.map(read).collect()
}

#[test]
fn regression_every_chart_names_boat_loading_and_planes() {
    let trial = ["trial", "data/trials/lantern.csv", "--report-only"];
    let commands: [(&[&str], &str); 9] = [
        (&["run", "--models", "all"], "planes fitted, 610 x 229 mm"),
        (&["size"], "planes advised, 675 x 300 mm"),
        (&["level"], "planes fitted, 610 x 229 mm"),
        (&["fuel"], "planes fitted, 610 x 229 mm"),
        (&["on-plane"], "planes fitted, 610 x 229 mm"),
        (&["seaway"], "planes fitted, 610 x 229 mm"),
        (&["loads"], "planes fitted, 610 x 229 mm"),
        (&["doubt", "--draws", "100"], "planes fitted, 610 x 229 mm"),
        (&trial, "planes fitted, 610 x 229 mm"),
    ];
    let mut charts = 0;
    for (command, planes) in commands {
        for (chart, text) in words_of(command, "lantern") {
            let loading = if chart.contains("area-resistance") { "light" } else { "normal" };
            // A long line is broken; its words stand in order.
            let said = text.split('<').filter_map(|piece| piece.split_once('>'));
            let said = said.map(|(_, words)| words.trim()).collect::<Vec<_>>().join(" ");
            let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(said.contains(&format!("Lantern Bay, {loading}, ")), "{chart}: {said}");
            assert!(said.contains(planes), "{chart}: {said}");
            charts += 1;
        }
    }
    assert!(charts >= 30, "{charts}");
    for (chart, text) in words_of(&["run"], "wren") {
        assert!(text.contains("without planes"), "{chart}");
    }
}

#[test]
fn regression_the_pair_advised_stands_in_the_charts_as_it_is_set() {
    for (chart, text) in words_of(&["size"], "lantern") {
        let is_of_speed = ["\"trim", " trim.", " resistance.svg", " power"];
        if is_of_speed.iter().any(|name| chart.contains(name)) {
            assert!(text.contains("set as advised"), "{chart}");
        }
    }
    for (chart, text) in words_of(&["run"], "lantern") {
        assert!(!text.contains("set as advised"), "{chart}");
    }
}

#[test]
fn regression_any_field_is_drawn_against_any_other() {
    let folder = tempfile::tempdir().unwrap();
    let more = ["--x", "speed", "--y", "resistance,plane_drag,trim", "--units", "imperial"];
    let names = drawn("lantern", folder.path(), &more);
    assert_eq!(names, both_of(&["resistance-plane-drag-against-speed", "trim-against-speed"]));
    let read = |name: &str| std::fs::read_to_string(folder.path().join(name)).unwrap();
    let forces = read("resistance-plane-drag-against-speed.svg");
    for words in ["Force (lbf)", "Speed (mph)", "plane drag, 5° down", "planes untested"] {
        assert!(forces.contains(words), "{words}");
    }
    let against = tempfile::tempdir().unwrap();
    let more = ["--x", "deflection", "--y", "trim", "--speed", "20 kn"];
    assert_eq!(drawn("lantern", against.path(), &more), both_of(&["trim-against-deflection"]));
}

#[test]
fn error_a_field_that_is_none_is_refused_with_those_there_are() {
    let asked = ["run", &demo("wren"), "--charts", "target/none", "--y", "resistence"];
    let text = refusal(&asked).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("these have, the likeliest first: resistance, "), "{text}");
    assert!(refusal(&["run", &demo("wren"), "--y", "trim"]).contains("--charts"));
    let folder = tempfile::tempdir().unwrap();
    let into = folder.path().to_str().unwrap();
    let bare = ["run", &demo("wren"), "--charts", into, "--x", "deflection", "--y", "trim"];
    assert!(refusal(&bare).contains("the boat has no planes"));
}
