//! Work is bounded: too many of anything is refused, with the line and what to do instead. The boats in `tests/abuse` are invented.

use std::time::{Duration, Instant};

use super::{demo, planewright, refusal};

/// A demo boat with something added so many times, in a folder of its own.
fn with_many(entry: impl Fn(usize) -> String, count: usize) -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("many.toml");
    let mut text = std::fs::read_to_string(demo("wren")).unwrap();
    (0..count).for_each(|index| text.push_str(&entry(index)));
    std::fs::write(&path, text).unwrap();
    let name = path.to_str().unwrap().to_owned();
    (folder, name)
}

fn duty(index: usize) -> String {
    let (margin, up_to) = (0.5 + 0.001 * index as f64, 14 + index % 20);
    format!(
        "[[duty]]\nkind = \"porpoising-margin\"\nmargin = \"{margin:.3} deg\"\nup_to = \"{up_to} kn\"\n"
    )
}

#[test]
fn error_too_many_of_a_list_names_the_line_and_the_limit() {
    for (entry, count, list, most) in [
        (duty as fn(usize) -> String, 500, "duty", 50),
        (|index| format!("[[condition]]\nname = \"c{index}\"\n"), 11_000, "condition", 50),
        (
            |index| format!("[[seen]]\nspeed = \"{index} kn\"\ntrim = \"5 deg\"\nby = \"1 deg\"\n"),
            200,
            "seen",
            100,
        ),
    ] {
        let (_folder, file) = with_many(entry, count);
        let began = Instant::now();
        let text = refusal(&["size", &file]);
        assert!(began.elapsed() < Duration::from_secs(5), "{list}");
        let plain = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(plain.contains(&format!("[[{list}]], and at most {most} are taken")), "{text}");
        assert!(text.contains("many.toml:"), "{text}");
        assert!(text.contains("help: "), "{text}");
    }
}

#[test]
fn error_too_many_speeds_are_refused_before_anything_is_read() {
    let mut arguments = vec!["run", "no-such.toml"];
    arguments.extend(["--speed", "20 kn"].repeat(201));
    let text = refusal(&arguments);
    assert!(text.contains("--speed: 201 times speed, and at most 200 are taken"), "{text}");
    assert!(text.contains("help: ask in several runs"), "{text}");
}

#[test]
fn error_too_long_a_stock_list_names_the_line() {
    let folder = tempfile::tempdir().unwrap();
    let list = folder.path().join("long.csv");
    let lines: String = (0..3573).map(|index| format!("p{index},600 mm,230 mm,410\n")).collect();
    std::fs::write(&list, format!("name,span,chord,price\n{lines}")).unwrap();
    let text = refusal(&["size", &demo("wren"), "--stock", list.to_str().unwrap()]);
    let plain = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(plain.contains("line 2002: 3573 times part, and at most 2000 are"), "{text}");
}

/// As many duties as are taken, of one kind: only the hardest at each speed costs work.
#[test]
fn regression_the_most_duties_are_sized_in_time() {
    let (_folder, file) = with_many(duty, 48);
    let began = Instant::now();
    let output = planewright(&["size", &file, "--json"]);
    assert!(matches!(output.status.code(), Some(0 | 1)));
    assert!(began.elapsed() < Duration::from_secs(60), "{:?}", began.elapsed());
}
