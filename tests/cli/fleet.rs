//! Tables of boats: the same bytes on any number of threads, and however often the program is killed.

use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use super::{demo, planewright, printed, refusal};

/// So many boats by a rule that gives usual proportions, one in fifty with a fault.
fn boats(folder: &Path, count: usize) -> String {
    let mut text = "hull_no,hull.bottom_length [m],hull.chine_beam [m],hull.deadrise [deg],\
        weight.mass [kg],weight.lcg [m],planes.span [mm],planes.chord [mm]\n"
        .to_owned();
    for place in 0..count {
        let length = 5.0 + (place * 7 % 60) as f64 / 10.0;
        let beam = if place % 50 == 49 { 99.0 } else { length * 0.33 };
        let (deadrise, mass) = (8 + place % 15, 1000.0 * length * length * length * 0.008);
        let lcg = 0.38 * length;
        text.push_str(&format!(
            "H{place},{length},{beam:.3},{deadrise},{mass:.0},{lcg:.3},{},250\n",
            400 + place % 300
        ));
    }
    put(folder, "boats.csv", &text)
}

fn put(folder: &Path, name: &str, text: &str) -> String {
    let path = folder.join(name);
    std::fs::write(&path, text).unwrap();
    path.to_str().unwrap().to_owned()
}

/// Records of a table by their heading.
fn records(text: &str) -> Vec<std::collections::BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let head = reader.headers().unwrap().clone();
    let named = |record: csv::StringRecord| {
        head.iter().map(str::to_owned).zip(record.iter().map(str::to_owned)).collect()
    };
    reader.records().map(|record| named(record.unwrap())).collect()
}

fn one_line(text: &str) -> String {
    text.split_whitespace().filter(|&word| word != "|" && word != "x").collect::<Vec<_>>().join(" ")
}

#[test]
fn regression_a_table_on_the_screen_and_in_a_file_on_any_threads_is_the_same() {
    let folder = tempfile::tempdir().unwrap();
    let table = boats(folder.path(), 300);
    let asked = ["fleet", &table, "--keep", "hull_no", "--speed", "18 kn", "--speed", "24 kn"];
    let output = planewright(&asked);
    assert_eq!(output.status.code(), Some(0));
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(said, "warning: 6 rows have a fault: see the columns fault and cure\n");
    let shown = String::from_utf8(output.stdout).unwrap();
    for threads in ["1", "3"] {
        let out = folder.path().join(format!("{threads}.csv"));
        let out = out.to_str().unwrap();
        let more = ["--threads", threads, "--out", out];
        let told = printed(&[&asked[..], &more].concat());
        assert!(one_line(&told).contains("run of 300 boats. 6 rows have a fault"), "{told}");
        assert_eq!(std::fs::read_to_string(out).unwrap(), shown);
    }
    let rows = records(&shown);
    assert_eq!(rows.len(), 300 * 2 - 6);
    // Every row in its order, each speed once; a faulty one has one row.
    let mut expected = Vec::new();
    for place in 0..300 {
        expected.extend(vec![format!("H{place}"); if place % 50 == 49 { 1 } else { 2 }]);
    }
    assert_eq!(rows.iter().map(|row| row["hull_no"].clone()).collect::<Vec<_>>(), expected);
    assert!(rows.iter().all(|row| row["fault"].is_empty() != row["outcome"].is_empty()));
}

#[test]
fn regression_a_killed_run_goes_on_and_no_row_is_lost_doubled_or_half() {
    let folder = tempfile::tempdir().unwrap();
    let table = boats(folder.path(), 60_000);
    let asked = [
        "fleet",
        &table,
        "--keep",
        "hull_no",
        "--speed",
        "18 kn",
        "--fields",
        "trim,resistance",
        "--out",
    ];
    let whole = folder.path().join("whole.csv");
    let began = std::time::Instant::now();
    printed(&[&asked[..], &[whole.to_str().unwrap()]].concat());
    let lasted = began.elapsed();
    let cut = folder.path().join("cut.csv");
    let resumed = [&asked[..], &[cut.to_str().unwrap(), "--resume"]].concat();
    let mut killed = 0;
    for threads in ["1", "2", "4", "1", "2"] {
        let mut child = Command::new(env!("CARGO_BIN_EXE_planewright"))
            .args([&resumed[..], &["--threads", threads]].concat())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        // Not before something was noted as whole: the journal begins with a line of its own.
        let journal = folder.path().join("cut.csv.unfinished-journal");
        let noted = || std::fs::read_to_string(&journal).map_or(0, |said| said.lines().count());
        let (begun, before) = (std::time::Instant::now(), noted());
        while noted() <= before.max(1) && begun.elapsed() < 2 * lasted {
            std::thread::sleep(Duration::from_millis(5));
        }
        killed += usize::from(child.try_wait().unwrap().is_none());
        child.kill().unwrap();
        child.wait().unwrap();
        if cut.exists() {
            break;
        }
    }
    assert!(killed >= 2, "it was killed {killed} times");
    if !cut.exists() {
        let told = one_line(&printed(&resumed));
        assert!(told.contains("of them before"), "{told}");
    }
    assert!(std::fs::read(&cut).unwrap() == std::fs::read(&whole).unwrap());
    let names: Vec<_> = folder.path().read_dir().unwrap().map(|e| e.unwrap().file_name()).collect();
    assert_eq!(names.len(), 3, "{names:?}");
}

#[test]
fn error_an_unfinished_file_is_neither_overwritten_nor_mixed() {
    let folder = tempfile::tempdir().unwrap();
    let table = boats(folder.path(), 20);
    let out = folder.path().join("out.csv");
    let out = out.to_str().unwrap();
    // As a killed process leaves them.
    put(folder.path(), "out.csv.unfinished", "row\n");
    put(folder.path(), "out.csv.unfinished-journal", "another question\n4 00000000 0 0 0 0\n");
    let asked = ["fleet", &table, "--keep", "hull_no", "--speed", "18 kn", "--out", out];
    let said = one_line(&refusal(&asked));
    assert!(said.contains("was begun, and not finished"), "{said}");
    assert!(said.contains("--resume") && said.contains("--force"), "{said}");
    let said = one_line(&refusal(&[&asked[..], &["--resume"]].concat()));
    assert!(said.contains("was begun with another question"), "{said}");
    printed(&[&asked[..], &["--force"]].concat());
    let said = one_line(&refusal(&[&asked[..], &["--resume"]].concat()));
    assert!(said.contains("the file exists already"), "{said}");
    let said = one_line(&refusal(&[
        "fleet", &table, "--keep", "hull_no", "--speed", "18 kn", "--out", &table, "--force",
    ]));
    assert!(said.contains("is never written over"), "{said}");
}

#[test]
fn error_what_a_fleet_cannot_be_asked() {
    let folder = tempfile::tempdir().unwrap();
    let table = boats(folder.path(), 2);
    for (more, said) in [
        (&["--speed", "18 kn"][..], "`hull_no` is no key of a boat file"),
        (&["--keep", "hull_no"], "nothing says at which speeds the boats run"),
        (&["--keep", "hullno", "--speed", "18 kn"], "did you mean `hull_no`?"),
        (
            &["--keep", "hull_no", "--speed", "18 kn", "--fields", "trimm"],
            "the likeliest first: trim,",
        ),
        (&["--keep", "hull_no", "--of", "size", "--speed", "18 kn"], "a duty of the boat says"),
        (&["--keep", "hull_no", "--of", "size", "--method", "full"], "best estimate alone"),
        (&["--keep", "hull_no", "--speed", "18 kn", "--resume"], "--out <FILE>"),
    ] {
        let text = one_line(&refusal(&[&["fleet", &table][..], more].concat()));
        assert!(text.contains(said), "{more:?}: {text}");
    }
    if cfg!(not(feature = "parquet")) {
        let out = ["--keep", "hull_no", "--speed", "18 kn", "--out", "answers.parquet"];
        let text = one_line(&refusal(&[&["fleet", &table][..], &out].concat()));
        assert!(text.contains("--features parquet"), "{text}");
    }
}

#[test]
fn regression_json_says_what_was_done() {
    let folder = tempfile::tempdir().unwrap();
    let table = boats(folder.path(), 50);
    let out = folder.path().join("out.csv");
    let out = out.to_str().unwrap();
    let asked = ["--keep", "hull_no", "--speed", "18 kn", "--out", out, "--json"];
    let text = printed(&[&["fleet", &table][..], &asked].concat());
    let answer: serde_json::Value = serde_json::from_str(&text).unwrap();
    assert_eq!(answer["program"], "planewright");
    assert_eq!((&answer["rows"], &answer["rows_with_fault"]), (&50.into(), &1.into()));
    assert!(answer["input"].is_null());
    // CRC-32 of the table, by another crate than the one that reads it here would be the same sum.
    let crc32 = format!("{:08x}", crc32(&std::fs::read(&table).unwrap()));
    assert_eq!(answer["table"]["crc32"], crc32);
    assert_eq!(answer["files"][0], out);
    let head = std::fs::read_to_string(out).unwrap();
    let head: Vec<&str> = head.lines().next().unwrap().split(',').collect();
    assert_eq!(answer["columns"], serde_json::json!(head));
    assert!(answer["caution"].as_str().unwrap().len() > 20);
    let lantern = demo("lantern");
    let swept = ["--speed", "18 kn", "--out", out, "--force", "--json"];
    let text = printed(&[&["sweep", &lantern][..], &VARY, &swept].concat());
    let answer: serde_json::Value = serde_json::from_str(&text).unwrap();
    assert_eq!((&answer["rows"], &answer["rows_with_fault"]), (&8.into(), &0.into()));
    assert!(answer["table"].is_null() && answer["input"]["file"] == lantern);
}

/// CRC-32 bit by bit. Source: ISO/IEC 3309, as in RFC 1952, section 8.
fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(!0_u32, |crc, &byte| {
        (0..8).fold(crc ^ u32::from(byte), |crc, _| {
            (crc >> 1) ^ if crc & 1 == 1 { 0xedb8_8320 } else { 0 }
        })
    })
}

const VARY: [&str; 4] =
    ["--vary", "weight.vcg = 0.6 m to 0.9 m, 4 values", "--vary", "planes.span = 400, 600 mm"];

#[test]
fn regression_a_sweep_answers_what_each_boat_by_herself_does() {
    let lantern = demo("lantern");
    let spans =
        ["--vary", "planes.span = 400, 600 mm", "--vary", "run.speed = 16 kn to 24 kn, 3 values"];
    let asked = [&["sweep", &lantern][..], &spans, &["--deflection", "6 deg"]].concat();
    let rows = records(&printed(&asked));
    assert_eq!(rows.len(), 6);
    let folder = tempfile::tempdir().unwrap();
    for row in &rows {
        let text =
            std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(&lantern)).unwrap();
        let planes = text.find("[planes]").unwrap();
        let from = planes + text[planes..].find("span").unwrap();
        let to = from + text[from..].find('\n').unwrap();
        let span = format!("span = \"{} mm\"", row["planes.span [mm]"]);
        let own = put(folder.path(), "own.toml", &[&text[..from], &span, &text[to..]].concat());
        let speed = format!("{} kn", row["run.speed [kn]"]);
        let alone =
            records(&printed(&["run", &own, "--speed", &speed, "--deflection", "6 deg", "--csv"]));
        for column in ["outcome", "trim_deg", "resistance_n", "plane_lift_n", "flags"] {
            assert_eq!(row[column], alone[0][column], "{column} of {row:?}");
        }
    }
}

#[test]
fn regression_charts_of_a_sweep_have_a_line_for_each_value_of_the_other_key() {
    let folder = tempfile::tempdir().unwrap();
    let charts = folder.path().join("charts");
    let lantern = demo("lantern");
    let spans = [
        "--vary",
        "run.speed = 12 kn to 28 kn, 17 values",
        "--vary",
        "planes.span = 400, 500, 600 mm",
    ];
    let asked = [
        &["sweep", &lantern][..],
        &spans,
        &["--deflection", "6 deg", "--charts", charts.to_str().unwrap()],
    ];
    printed(&asked.concat());
    let drawn = |name: &str| std::fs::read_to_string(charts.join(name)).unwrap();
    let resistance = drawn("resistance-against-run-speed.svg");
    for word in [
        "400 mm",
        "500 mm",
        "600 mm",
        "(kn)",
        "(N)",
        "Lantern Bay",
        "run.speed and planes.span varied",
        "confirm by a sea trial",
    ] {
        assert!(resistance.contains(word), "{word}");
    }
    assert!(drawn("trim-against-run-speed.svg").contains("least safe trim, 2°"));
    let said = one_line(&refusal(
        &[
            &["sweep", &lantern][..],
            &VARY,
            &["--vary", "run.speed = 12 kn to 28 kn, 17 values", "--charts", "none"],
        ]
        .concat(),
    ));
    assert!(said.contains("the charts would have 34 lines"), "{said}");
}

#[test]
fn physics_the_weight_of_boats_with_listed_loads_is_varied_and_sized() {
    for boat in super::BOATS {
        let file = demo(boat);
        let vary = ["--vary", "weight.vcg = 0.6 m to 0.9 m, 2 values"];
        let asked = [&["sweep", &file][..], &vary, &["--of", "size", "--draws", "64"]].concat();
        let rows = records(&printed(&asked));
        assert_eq!(rows.len(), 2, "{boat}");
        assert!(
            rows.iter().all(|row| row["fault"].is_empty() && row["answer"] == "pair"),
            "{rows:?}"
        );
    }
}

#[test]
fn error_loads_and_totals_in_one_row() {
    let holm = demo("holm");
    let both = ["--vary", "weight.vcg = 0.6 m, 0.9 m", "--vary", "load[1].mass = 900 kg, 950 kg"];
    let output = planewright(&[&["sweep", &holm][..], &both, &["--speed", "20 kn"]].concat());
    assert_eq!(output.status.code(), Some(0));
    let rows = records(std::str::from_utf8(&output.stdout).unwrap());
    assert_eq!(rows.len(), 4);
    let said = "[weight] and the items in [[load]] are both given";
    assert!(rows.iter().all(|row| row["fault"].contains(said)), "{rows:?}");
}

#[cfg(feature = "parquet")]
mod parquet;
