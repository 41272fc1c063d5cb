use super::*;
use crate::error::{Appearance, error_text};
use crate::trial::Direction;
use approx::assert_relative_eq;
use uom::si::angle::degree;

fn refusal(text: &str) -> String {
    error_text(&parse_log("log.csv", text).unwrap_err(), Appearance::Ascii)
}

#[test]
fn regression_units_stand_in_the_heading_or_in_the_cell() {
    let text = "# a comment\nSpeed (kn),trim [deg],deflection,power,pair,direction,note\n\n\
        18.4,4.6,5 deg,190 hp,A,out,\n9.5 m/s,4.4,5 deg,,A,back,wake\n";
    let log = parse_log("log.csv", text).unwrap();
    let [first, second] = &log.rows[..] else { panic!("two runs") };
    assert_eq!([first.line, second.line], [4, 5]);
    assert_relative_eq!(first.speed.value, 18.4 * 1852.0 / 3600.0, max_relative = 1e-12);
    assert_relative_eq!(second.speed.value, 9.5, max_relative = 1e-12);
    assert_relative_eq!(first.deflection.get::<degree>(), 5.0, max_relative = 1e-12);
    assert_eq!(first.pair, Some(("A".to_owned(), Direction::Out)));
    assert_eq!(second.note.as_deref(), Some("wake"));
    assert!(first.power.is_some() && second.power.is_none());
}

#[test]
fn regression_the_mean_of_both_planes_is_taken() {
    let text = "speed (kn),trim (deg),deflection_port (deg),deflection_starboard (deg)\n20,4,3,7\n21,4,,\n";
    let log = parse_log("log.csv", text).unwrap();
    assert_relative_eq!(log.rows[0].deflection.get::<degree>(), 5.0, max_relative = 1e-12);
    assert_relative_eq!(log.rows[1].deflection.get::<degree>(), 0.0);
}

#[test]
fn error_a_wrong_cell_is_named_with_line_column_value_and_what_to_write() {
    let text = refusal("speed,trim\n18.4 kn,4.6 deg\n20.1,4.2 deg\n");
    assert_eq!(
        text,
        "  x log.csv has 1 fault\n\nError:\n  x speed: `20.1` has no unit\n   ,-[log.csv:3:1]\n 2 | 18.4 kn,4.6 deg\n 3 | 20.1,4.2 deg\n   : ^^^^^^^^^^^^\n   `----\n  help: write it with each number, `20.1 kn`, or once in the heading, `speed\n        (kn)`; a speed is a number with kn, km/h, mph, m/s or ft/s\n"
    );
}

#[test]
fn error_every_fault_of_a_log_is_reported_together() {
    let head =
        "speed (kn),trim (deg),deflection_port (deg),deflection_starboard (deg),pair,direction\n";
    for (line, problem) in [
        ("20,50,,,,\n", "trim: `50` is outside -5 deg to 25 deg"),
        ("20,,,,,\n", "trim: nothing is written here"),
        ("20,four,,,,\n", "trim: `four`"),
        (
            "20,4,5,,,\n",
            "deflection_starboard: nothing is written here, and the other side is given",
        ),
        ("20,4,,,A,\n", "direction: nothing is written here, and the run is of pair A"),
        ("20,4,,,A,up\n", "direction: `up` is not one of its words"),
        ("20,4\n", "the line has 2 cells and the heading 6"),
        ("20,\"4,,,,\n21,4,,,,\n", "a quotation mark is not closed"),
    ] {
        let text = refusal(&format!("{head}19,4.1,,,,\n{line}"));
        let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flat.contains("1 fault") && flat.contains(problem), "{problem}: {text}");
        assert!(text.contains("[log.csv:3:1]"), "{text}");
    }
    let two = refusal(&format!("{head}20,50,,,,\n,4,,,,\n"));
    assert!(two.contains("log.csv has 2 faults"), "{two}");
}

#[test]
fn error_a_misspelt_column_is_a_fault_and_a_strange_one_is_not_used() {
    let text = refusal("speed (kn),trm (deg)\n18,4\n");
    assert!(text.contains("there is no column `trm (deg)`"), "{text}");
    assert!(text.contains("did you mean `trim`?"), "{text}");
    let log = parse_log("log.csv", "speed (kn),trim (deg),latitude\n18,4,57\n").unwrap();
    assert_eq!(log.warnings, ["the column `latitude` is not used; the nearest known is `pair`"]);
    let text = refusal("speed (kn),deflection (deg)\n18,4\n");
    assert!(text.contains("the column trim is missing"), "{text}");
    let text = refusal("speed (deg),trim (deg)\n18,4\n");
    assert!(text.contains("speed: `deg` is a unit of angle"), "{text}");
}

#[test]
fn error_a_file_that_is_no_log_is_refused_with_what_one_holds() {
    for (text, problem) in [
        ("", "log.csv: the trial log is empty"),
        ("\n\n", "log.csv: the trial log is empty"),
        ("name,span\na,b\n", "log.csv: `name` is not the heading of a trial log"),
        ("speed (kn),trim (deg)\n", "log.csv: the log holds no runs"),
    ] {
        let error = parse_log("log.csv", text).unwrap_err();
        assert_eq!(error.to_string(), problem);
    }
    let many = format!("speed (kn),trim (deg)\n{}", "18,4\n".repeat(501));
    let error = parse_log("log.csv", &many).unwrap_err().to_string();
    assert_eq!(error, "log.csv: line 502: 501 times run, and at most 500 are taken");
}

#[test]
fn error_files_that_hold_no_text() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("log.csv");
    let refused = |bytes: &[u8]| {
        std::fs::write(&path, bytes).unwrap();
        let text = read_log(&path).unwrap_err().to_string();
        text.replace(&shown_name(&path), "log.csv")
    };
    assert_eq!(refused(b"speed\n\0"), "log.csv: this is not text: line 2 holds something else");
    assert_eq!(
        refused(&vec![b'a'; (1 << 20) + 1]),
        "log.csv: larger than 1 MiB, so it is not a trial log"
    );
    let error = read_log(&folder.path().join("none.csv")).unwrap_err();
    assert!(error.to_string().ends_with("none.csv: cannot be read: there is no such file"));
    let error = read_log(folder.path()).unwrap_err();
    assert!(error.to_string().ends_with("cannot be read: this is a directory"));
}
