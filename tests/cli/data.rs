//! Answers as data: tables as comma-separated values, and how many digits numbers have.

use std::collections::BTreeSet;

use serde_json::Value;

use super::{demo, planewright, printed, refusal};

const STOCK: &str = "data/stock/planes.csv";
const TRIAL: &str = "data/trials/lantern.csv";

/// Every command that prints tables, with its main one.
const COMMANDS: [(&[&str], &str); 11] = [
    (&["size"], "conditions.schedule"),
    (&["size", "--stock", STOCK], "conditions.schedule"),
    (&["level"], "conditions.points"),
    (&["fuel"], "conditions.rows"),
    (&["on-plane"], "conditions.runs.rows"),
    (&["seaway", "--waves", "0.5 m"], "conditions.waves.rides"),
    (&["loads"], "conditions.loads"),
    (&["doubt", "--draws", "100"], "conditions.speeds"),
    (&["compare", "--pair", "600x300mm", "--pair", "675x300mm"], "pairs"),
    (&["trial", TRIAL, "--report-only"], "measurements"),
    (&["check"], "comparisons"),
];

/// A command about the demo boat Lantern Bay; `check` knows no boat.
fn asked<'a>(command: &[&'a str], boat: &'a str, more: &[&'a str]) -> Vec<&'a str> {
    let boat = if command[0] == "check" { &[][..] } else { std::slice::from_ref(&boat) };
    [&command[..1], boat, &command[1..], more].concat()
}

/// Names of the columns, and the rows.
fn table(text: &str) -> (Vec<String>, Vec<csv::StringRecord>) {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let names = reader.headers().unwrap().iter().map(str::to_owned).collect();
    (names, reader.records().collect::<Result<_, _>>().unwrap())
}

/// The objects of the lists that keys lead to.
fn rows_of<'a>(answer: &'a Value, path: &str) -> Vec<&'a Value> {
    path.split('.').fold(vec![answer], |found, key| {
        let below = found.into_iter().map(|value| &value[key]);
        below
            .flat_map(|value| value.as_array().map_or(vec![value], |all| all.iter().collect()))
            .collect()
    })
}

#[test]
fn regression_the_main_table_of_every_command_holds_the_numbers_of_its_json() {
    let boat = demo("lantern");
    for (command, main) in COMMANDS {
        let answer: Value =
            serde_json::from_str(&printed(&asked(command, &boat, &["--json"]))).unwrap();
        let (names, rows) = table(&printed(&asked(command, &boat, &["--csv"])));
        let objects = rows_of(&answer, main);
        assert_eq!(rows.len(), objects.len(), "{command:?}");
        assert!(rows.len() > 1, "{command:?}");
        let mut compared = 0;
        for (row, object) in rows.iter().zip(objects) {
            for (name, cell) in names.iter().zip(row) {
                match object.get(name) {
                    Some(Value::Number(number)) if number.is_f64() => {
                        assert_eq!(
                            cell.parse::<f64>().unwrap(),
                            number.as_f64().unwrap(),
                            "{name}"
                        );
                        compared += 1;
                    }
                    Some(Value::Null) => assert_eq!(cell, "", "{command:?}: {name}"),
                    _ => {}
                }
            }
        }
        assert!(compared > rows.len() || command[0] == "fuel", "{command:?}: {compared}");
        let distinct: BTreeSet<&String> = names.iter().collect();
        assert_eq!(distinct.len(), names.len(), "{command:?}: {names:?}");
        if command[0] != "check" {
            assert!(names.iter().any(|name| name.ends_with("flags")), "{command:?}: {names:?}");
            assert!(names.iter().any(|name| name == "planes_span_m"), "{command:?}: {names:?}");
        }
    }
}

#[test]
fn regression_every_table_that_is_named_can_be_had_and_none_is_nameless() {
    let boat = demo("wren");
    let names = printed(&["size", &boat, "--stock", STOCK, "--csv", "--table", "list"]);
    assert!(names.starts_with("answer\n"), "{names}");
    for wanted in ["conditions.schedule", "duties", "variants", "trade_off", "stock"] {
        assert!(names.lines().any(|name| name == wanted), "{wanted}: {names}");
    }
    let planes = printed(&["size", &boat, "--stock", STOCK, "--csv", "--table", "stock"]);
    let (columns, rows) = table(&planes);
    assert_eq!(columns[..4], ["place", "part", "span_m", "chord_m"]);
    assert!(rows.len() > 5);
    let landmarks =
        printed(&["run", &boat, "--csv", "--table", "landmarks", "--units", "imperial"]);
    assert!(landmarks.contains("hump_speed_mph,"), "{landmarks}");
    let (_, answer) = table(&printed(&["fuel", &boat, "--csv", "--table", "answer"]));
    assert_eq!(answer.len(), 1);
}

#[test]
fn regression_rows_of_several_loadings_say_which() {
    let (names, rows) = table(&printed(&["fuel", &demo("lantern"), "--condition", "all", "--csv"]));
    let place = names.iter().position(|name| name == "condition").unwrap();
    let found: BTreeSet<&str> = rows.iter().map(|row| &row[place]).collect();
    assert!(found.len() > 2, "{found:?}");
    for way in ["planes_up", "held", "best"] {
        for key in ["trim_deg", "fuel_m3_per_m", "flags"] {
            let name = format!("{way}_{key}");
            assert!(names.contains(&name), "{name}: {names:?}");
        }
    }
}

#[test]
fn error_an_unknown_table_is_refused_with_the_names_there_are() {
    let text = refusal(&["fuel", &demo("wren"), "--csv", "--table", "condition.row"]);
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains("--table: this answer has no table `condition.row`"), "{text}");
    assert!(flat.contains("the likeliest first: conditions.rows,"), "{text}");
    let alone = refusal(&["fuel", &demo("wren"), "--table", "answer"]);
    assert!(alone.contains("--csv"), "{alone}");
}

/// Digits of a number as it is written, without the noughts that only say how large it is.
fn digits(text: &str) -> usize {
    let mantissa = text.split(['e', 'E']).next().unwrap();
    let all: String = mantissa.chars().filter(char::is_ascii_digit).collect();
    all.trim_start_matches('0').trim_end_matches('0').len()
}

#[test]
fn regression_numbers_of_data_have_nine_digits_at_most() {
    let boat = demo("lantern");
    let mut counted = 0;
    for (command, _) in COMMANDS.into_iter().chain([(&["run"][..], "points")]) {
        let text = printed(&asked(command, &boat, &["--json"]));
        for line in text.lines() {
            let value = line.rsplit(": ").next().unwrap().trim().trim_end_matches(',');
            if value.contains('.') && value.parse::<f64>().is_ok() {
                assert!(digits(value) <= 9, "{command:?}: {line}");
                counted += 1;
            }
        }
        for row in table(&printed(&asked(command, &boat, &["--csv"]))).1 {
            for cell in row.iter().filter(|cell| cell.contains('.') && cell.parse::<f64>().is_ok())
            {
                assert!(digits(cell) <= 9, "{command:?}: {cell}");
            }
        }
    }
    assert!(counted > 5000, "{counted}");
}

/// The lengths and angles of the demo boat are typed in metres and degrees.
#[test]
fn regression_what_was_typed_comes_back_as_it_was() {
    let text = printed(&["run", &demo("wren"), "--json"]);
    let file = std::fs::read_to_string(demo("wren")).unwrap();
    for (key, typed, written) in [
        ("bottom_length", "5.2 m", "\"bottom_length_m\": 5.2,"),
        ("chine_beam", "1.9 m", "\"chine_beam_m\": 1.9,"),
        ("deadrise", "20 deg", "\"deadrise_deg\": 20.0,"),
    ] {
        let is_typed = |line: &str| line.starts_with(key) && line.contains(&format!("\"{typed}\""));
        assert!(file.lines().any(is_typed), "{key}");
        assert!(text.contains(written), "{written}");
    }
}

/// What is documented of the points is what is printed, in its order.
#[test]
fn regression_the_columns_of_the_points_are_documented() {
    let document = std::fs::read_to_string("data/COLUMNS.md").unwrap();
    let documented: Vec<&str> = document
        .lines()
        .skip_while(|line| !line.starts_with("| Column"))
        .skip(2)
        .map_while(|line| line.strip_prefix("| `")?.split('`').next())
        .collect();
    let (names, _) = table(&printed(&["run", &demo("wren"), "--csv"]));
    assert_eq!(documented, names);
    for (command, main) in COMMANDS {
        let row = format!("| `{}` | `{main}` |", command[0]);
        assert!(document.contains(&row), "{row}");
    }
}

#[test]
fn regression_warnings_of_a_table_go_to_the_other_stream() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("steep.toml");
    let text = std::fs::read_to_string(demo("wren")).unwrap();
    std::fs::write(&file, text.replace("deadrise = \"20 deg\"", "deadrise = \"29 deg\"")).unwrap();
    let output = planewright(&["fuel", file.to_str().unwrap(), "--csv"]);
    assert_eq!(output.status.code(), Some(0));
    assert!(String::from_utf8(output.stderr).unwrap().contains("deadrise"));
    assert!(String::from_utf8(output.stdout).unwrap().starts_with("speed_m_s,"));
}
