//! Papers for three readers.

use super::{demo, planewright, printed, refusal};

fn made(folder: &std::path::Path, reader: &str, more: &[&str]) -> String {
    let out = folder.join(format!("{reader}.html"));
    let (boat, out) = (demo("lantern"), out.display().to_string());
    let mut arguments = vec!["report", &boat, "--for", reader, "--draws", "100", "--out", &out];
    arguments.extend(more);
    printed(&arguments);
    std::fs::read_to_string(out).unwrap()
}

#[test]
fn regression_the_data_beside_a_record_is_what_the_commands_print() {
    let folder = tempfile::tempdir().unwrap();
    made(folder.path(), "architect", &["--stock", "data/stock/planes.csv"]);
    let read = |name: &str| std::fs::read_to_string(folder.path().join(name)).unwrap();
    let boat = demo("lantern");
    let size = printed(&["size", &boat, "--stock", "data/stock/planes.csv", "--json"]);
    assert_eq!(read("architect-size.json"), size);
    assert_eq!(
        read("architect-run.json"),
        printed(&["run", &boat, "--condition", "all", "--json"])
    );
    assert_eq!(read("architect-run.csv"), printed(&["run", &boat, "--condition", "all", "--csv"]));
}

#[test]
fn regression_papers_and_json_give_the_same_numbers() {
    let folder = tempfile::tempdir().unwrap();
    let page = made(folder.path(), "architect", &[]);
    let boat = demo("lantern");
    let size: serde_json::Value =
        serde_json::from_str(&printed(&["size", &boat, "--json"])).unwrap();
    let millimetres = |key: &str| (1000.0 * size[key].as_f64().unwrap()).round();
    let pair = format!("{} x {} mm", millimetres("span_m"), millimetres("chord_m"));
    for reader in ["dealer", "owner"] {
        assert!(made(folder.path(), reader, &[]).contains(&pair), "{reader}");
    }
    assert!(page.contains(&pair));
    assert!(page.contains(size["input_crc32"].as_str().unwrap()));
    for row in size["schedule"].as_array().unwrap() {
        let trim = format!("{:.1}", row["trim_planes_up_deg"].as_f64().unwrap());
        assert!(page.contains(&format!("<td>{trim}</td>")), "{trim}");
    }
}

#[test]
fn regression_the_same_input_gives_the_same_bytes() {
    let folder = tempfile::tempdir().unwrap();
    let first = made(folder.path(), "dealer", &[]);
    assert_eq!(first, made(folder.path(), "dealer", &["--force"]));
}

#[test]
fn error_a_file_is_never_replaced_unasked() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("owner.html");
    std::fs::write(&out, "mine").unwrap();
    let shown = out.display().to_string();
    let text = refusal(&["report", &demo("wren"), "--for", "owner", "--out", &shown]);
    assert!(text.contains("already"), "{text}");
    assert_eq!(std::fs::read_to_string(&out).unwrap(), "mine");
    // Nor is anything written when only the data of a record is in the way.
    std::fs::write(folder.path().join("record-run.csv"), "mine").unwrap();
    let record = folder.path().join("record.html").display().to_string();
    refusal(&["report", &demo("wren"), "--for", "architect", "--out", &record]);
    assert!(!folder.path().join("record.html").exists());
}

#[cfg(not(feature = "pdf"))]
#[test]
fn error_the_plain_build_says_how_to_get_pdf() {
    let text = refusal(&["report", &demo("wren"), "--for", "owner", "--format", "pdf"]);
    let words: Vec<&str> = text.split_whitespace().collect();
    let text = words.join(" ");
    assert!(text.contains("--format: this build cannot typeset PDF"), "{text}");
    assert!(text.contains("cargo build --release --features pdf"), "{text}");
}

#[test]
fn error_a_reader_must_be_named() {
    let text = refusal(&["report", &demo("wren")]);
    assert!(text.contains("--for <READER>"), "{text}");
    let text = refusal(&["report", &demo("wren"), "--for", "broker"]);
    assert!(text.contains("[possible values: architect, dealer, owner]"), "{text}");
}

#[test]
fn error_exit_code_1_where_no_planes_do_every_duty() {
    let folder = tempfile::tempdir().unwrap();
    let boat = folder.path().join("hard.toml");
    let text = std::fs::read_to_string("data/boats/wren.toml").unwrap();
    std::fs::write(&boat, text.replace("at_most = \"6 deg\"", "at_most = \"2.5 deg\"")).unwrap();
    let out = folder.path().join("hard.html").display().to_string();
    let boat = boat.display().to_string();
    let output =
        planewright(&["report", &boat, "--for", "dealer", "--draws", "100", "--out", &out]);
    assert_eq!(output.status.code(), Some(1));
    assert!(std::fs::read_to_string(out).unwrap().contains("No pair does everything"));
}

#[cfg(feature = "pdf")]
#[test]
fn regression_the_dealer_has_one_page_on_either_paper() {
    let folder = tempfile::tempdir().unwrap();
    for boat in super::BOATS {
        for paper in ["a4", "letter"] {
            let out = folder.path().join(format!("{boat}-{paper}.pdf"));
            let shown = out.display().to_string();
            printed(&[
                "report",
                &demo(boat),
                "--for",
                "dealer",
                "--stock",
                "data/stock/planes.csv",
                "--draws",
                "100",
                "--format",
                "pdf",
                "--paper",
                paper,
                "--out",
                &shown,
            ]);
            let pages = lopdf::Document::load(&out).unwrap().get_pages().len();
            assert_eq!(pages, 1, "{boat} on {paper}");
        }
    }
}
