//! Tables as Parquet: what the text holds, as it was given, however often the program is killed.

use std::fs::File;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::time::Duration;

use arrow_array::cast::AsArray;
use arrow_array::{ArrayRef, Float64Array, RecordBatch, StringArray};
use parquet::arrow::ArrowWriter;
use parquet::arrow::arrow_reader::ParquetRecordBatchReader;

use super::{boats, demo, one_line, planewright, printed};

#[test]
fn regression_parquet_holds_what_the_text_does() {
    let folder = tempfile::tempdir().unwrap();
    let table = boats(folder.path(), 120);
    let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let ask = |table: &str, out: &str| {
        printed(&[
            "fleet",
            table,
            "--keep",
            "hull_no,hull.bottom_length",
            "--speed",
            "18 kn",
            "--out",
            out,
        ]);
    };
    ask(&table, &path("direct.csv"));
    ask(&table, &path("direct.parquet"));
    // The answers keep keys of boats: asked about again, they are a table of boats themselves.
    let again = |from: &str, out: &str| {
        let from = path(from);
        let boat = demo("lantern");
        let output = planewright(&[
            "fleet",
            &from,
            "--boat",
            &boat,
            "--keep",
            KEPT,
            "--speed",
            "18 kn",
            "--out",
            &path(out),
        ]);
        assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
        std::fs::read_to_string(path(out)).unwrap()
    };
    assert_eq!(again("direct.parquet", "b.csv"), again("direct.csv", "a.csv"));
    let names: Vec<_> = folder.path().read_dir().unwrap().map(|e| e.unwrap().path()).collect();
    assert!(names.iter().all(|name| !name.to_string_lossy().contains("unfinished")), "{names:?}");
}

const KEPT: &str = "row,hull_no,speed_m_s,deflection_deg,outcome,trim_deg,wetted_length_ratio,wetted_keel_m,\
    wetted_chine_m,resistance_n,thrust_n,plane_lift_n,plane_drag_n,porpoising_limit_deg,flags,questions,fault,cure";

/// So many boats in a Parquet file, in several groups of rows; the number of each begins like a formula.
fn table(path: &Path, count: usize) {
    let by_place = |value: fn(f64) -> f64| {
        Arc::new(Float64Array::from_iter_values((0..count).map(|place| value(place as f64))))
            as ArrayRef
    };
    let length: fn(f64) -> f64 = |place| 5.0 + (7.0 * place) % 60.0 / 10.0;
    let numbers = (0..count).map(|place| format!("=H{place}"));
    let batch = RecordBatch::try_from_iter([
        ("hull_no", Arc::new(StringArray::from_iter_values(numbers)) as ArrayRef),
        ("hull.bottom_length [m]", by_place(length)),
        ("hull.chine_beam [m]", by_place(|place| 1.65 + (7.0 * place) % 60.0 * 0.033)),
        ("hull.deadrise [deg]", by_place(|place| 8.0 + place % 15.0)),
        ("weight.mass [kg]", by_place(|place| 8.0 * (5.0 + (7.0 * place) % 60.0 / 10.0).powi(3))),
        ("weight.lcg [m]", by_place(|place| 1.9 + (7.0 * place) % 60.0 * 0.038)),
    ]);
    let batch = batch.unwrap();
    let file = File::create(path).unwrap();
    let mut writer = ArrowWriter::try_new(file, batch.schema(), None).unwrap();
    // Pieces that no step of the program is a multiple of.
    for first in (0..count).step_by(7001) {
        writer.write(&batch.slice(first, 7001.min(count - first))).unwrap();
        writer.flush().unwrap();
    }
    writer.close().unwrap();
}

/// The numbers of the boats in a table of answers, row by row.
fn numbers(path: &Path) -> Vec<String> {
    let reader = ParquetRecordBatchReader::try_new(File::open(path).unwrap(), 1024).unwrap();
    let texts = reader.flat_map(|batch| {
        let batch = batch.unwrap();
        let column = batch.column_by_name("hull_no").unwrap().as_string::<i32>();
        column.iter().map(|text| text.unwrap().to_owned()).collect::<Vec<_>>()
    });
    texts.collect()
}

#[test]
fn regression_parquet_killed_at_any_stage_goes_on_to_the_same_bytes() {
    const ROWS: usize = 50_000;
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name);
    table(&path("boats.parquet"), ROWS);
    let asked = |out: &str| {
        let (table, out) = (path("boats.parquet"), path(out));
        let [table, out] = [table, out].map(|path| path.to_str().unwrap().to_owned());
        let said = ["--keep", "hull_no", "--speed", "18 kn", "--fields", "trim,resistance"];
        let all = [&["fleet", &table][..], &said, &["--out", &out]].concat();
        all.into_iter().map(str::to_owned).collect::<Vec<_>>()
    };
    let ask = |out: &str, more: &[&str]| {
        let all = asked(out);
        let all: Vec<&str> = all.iter().map(String::as_str).chain(more.iter().copied()).collect();
        one_line(&printed(&all))
    };
    ask("whole.parquet", &[]);
    // What was kept is what was given: no apostrophe keeps a spreadsheet from taking it for a formula.
    let expected: Vec<String> = (0..ROWS).map(|place| format!("=H{place}")).collect();
    assert!(numbers(&path("whole.parquet")) == expected);

    let resume = |threads: &str| -> Child {
        Command::new(env!("CARGO_BIN_EXE_planewright"))
            .args(asked("cut.parquet"))
            .args(["--resume", "--threads", threads])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap()
    };
    let length = |name: &str| path(name).metadata().map_or(0, |known| known.len());
    // Ends it once that has grown beyond so many bytes; whether it had not finished before.
    let killed_beyond = |threads: &str, name: &str, bytes: u64| {
        let mut child = resume(threads);
        while length(name) <= bytes && child.try_wait().unwrap().is_none() {
            std::thread::sleep(Duration::from_micros(200));
        }
        child.kill().unwrap();
        child.wait().unwrap();
        !path("cut.parquet").exists()
    };
    for threads in ["1", "3"] {
        let journal = "cut.parquet.unfinished-journal";
        // More than the line that it begins with.
        let killed = killed_beyond(threads, journal, length(journal).max(200));
        assert!(killed, "computing on {threads} threads");
    }
    // Now while the text is turned, which is begun anew then. It takes a tenth of a second: on a
    // busy machine it may be over before it is seen, and then all is done once more.
    let turning = || {
        let killed = killed_beyond("2", "cut.parquet.unfinished-turned", 0);
        if !killed {
            std::fs::remove_file(path("cut.parquet")).unwrap();
        }
        killed
    };
    assert!((0..5).any(|_| turning()), "turning");
    let told = ask("cut.parquet", &["--resume"]);
    assert!(
        told.contains(&format!("of {ROWS} boats")) && told.contains("of them before"),
        "{told}"
    );
    assert!(
        std::fs::read(path("cut.parquet")).unwrap()
            == std::fs::read(path("whole.parquet")).unwrap()
    );
    let names: Vec<_> = folder.path().read_dir().unwrap().map(|e| e.unwrap().file_name()).collect();
    assert_eq!(names.len(), 3, "{names:?}");
}
