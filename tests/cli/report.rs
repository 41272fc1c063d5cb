//! Papers for three readers.

use super::{demo, planewright, printed, refusal};

fn made(folder: &std::path::Path, reader: &str, more: &[&str]) -> String {
    let out = folder.join(format!("{reader}.html"));
    let (boat, out) = (demo("lantern"), out.display().to_string());
    let mut arguments = vec!["report", &boat, "--for", reader, "--out", &out];
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
    let run = printed(&["run", &boat, "--condition", "all", "--csv"]);
    let (advised, fitted) = (read("architect-run.csv"), run);
    assert_eq!(advised.lines().next(), fitted.lines().next());
    assert_eq!(advised.lines().count(), fitted.lines().count());
    for (advised, fitted) in advised.lines().zip(fitted.lines()).skip(1) {
        assert!(advised.contains(",listed,0.75,0.3,"), "{advised}");
        assert!(fitted.contains(",fitted,0.6096,0.2286,"), "{fitted}");
        // With planes up it is the same boat whatever the planes.
        let trim = |row: &str| row.split(',').take(4).collect::<Vec<_>>().join(",");
        let is_up = fitted.split(',').nth(1) == Some("0");
        assert_eq!(trim(advised) == trim(fitted), is_up, "{advised}\n{fitted}");
    }
    let json: serde_json::Value = serde_json::from_str(&read("architect-run.json")).unwrap();
    assert_eq!(json["planes"]["source"], "listed");
    assert_eq!(json["points"].as_array().unwrap().len(), advised.lines().count() - 1);
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
    assert!(page.contains(size["input"]["crc32"].as_str().unwrap()));
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
    assert!(text.contains("[possible values: architect, dealer, owner, buyer]"), "{text}");
}

#[test]
fn error_exit_code_1_where_no_planes_do_every_duty() {
    let folder = tempfile::tempdir().unwrap();
    let boat = folder.path().join("hard.toml");
    let text = std::fs::read_to_string("data/boats/wren.toml").unwrap();
    std::fs::write(&boat, text.replace("at_least = \"2 deg\"", "at_least = \"8 deg\"")).unwrap();
    let out = folder.path().join("hard.html").display().to_string();
    let boat = boat.display().to_string();
    let output = planewright(&["report", &boat, "--for", "dealer", "--out", &out]);
    assert_eq!(output.status.code(), Some(1));
    assert!(std::fs::read_to_string(out).unwrap().contains("No pair does everything"));
}

#[test]
fn regression_json_says_what_was_written_and_what_the_paper_says() {
    let folder = tempfile::tempdir().unwrap();
    let more = ["--stock", "data/stock/planes.csv"];
    let page = made(folder.path(), "dealer", &more);
    let out = folder.path().join("dealer.html").display().to_string();
    let boat = demo("lantern");
    let mut arguments =
        vec!["report", &boat, "--for", "dealer", "--out", &out, "--force", "--json"];
    arguments.extend(more);
    let json: serde_json::Value = serde_json::from_str(&printed(&arguments)).unwrap();
    assert_eq!(json["report_for"], "dealer");
    assert_eq!(json["files"][0], out.as_str());
    assert!(json["caution"].as_str().unwrap().contains("sea trial"));
    assert!(page.contains(json["input"]["crc32"].as_str().unwrap()));
    assert!(page.contains(json["part"]["name"].as_str().unwrap()));
    assert!(page.contains(&format!("EUR {}", json["part"]["pair_price"].as_f64().unwrap())));
    let degrees = |key: &str| format!("{:.1}", json["relief_deg"][key].as_f64().unwrap());
    let told = ["told_trim_planes_up_deg", "told_trim_planes_down_deg"];
    let [up, down] = told.map(|told| json["hump"][told].as_f64().unwrap());
    assert!(up > down && page.contains("as advised they stand "), "{up} {down}");
    assert!(page.contains(&format!(">{}°<", degrees("median"))));
    assert!(page.contains(&format!("likely {} to {}°", degrees("low"), degrees("high"))));
    let share = (100.0 * json["chance"]["share"].as_f64().unwrap()).round();
    assert!(page.contains(&format!("{share} in 100")));
    assert_eq!(json["duties"].as_array().unwrap().len(), 2);
}

#[test]
fn regression_letters_of_other_languages_and_very_long_names_are_kept() {
    let folder = tempfile::tempdir().unwrap();
    let boat = folder.path().join("names.toml");
    let name = format!("Ærø Łódź Νηρηίς Чайка 海鸥 🚤 {}", "Long".repeat(40));
    let text = std::fs::read_to_string("data/boats/wren.toml").unwrap();
    std::fs::write(&boat, text.replace("Skerry Wren", &name)).unwrap();
    let (boat, out) =
        (boat.display().to_string(), folder.path().join("p.html").display().to_string());
    for reader in ["dealer", "owner", "architect"] {
        printed(&["report", &boat, "--for", reader, "--force", "--out", &out]);
        assert!(std::fs::read_to_string(&out).unwrap().contains(&name), "{reader}");
    }
    #[cfg(feature = "pdf")]
    for reader in ["dealer", "owner", "architect"] {
        let out = folder.path().join("p.pdf").display().to_string();
        printed(&["report", &boat, "--for", reader, "--force", "--format", "pdf", "--out", &out]);
    }
}

#[cfg(feature = "pdf")]
fn typeset(out: &std::path::Path, boat: &str, reader: &str, more: &[&str]) -> usize {
    let (boat, shown) = (demo(boat), out.display().to_string());
    let mut arguments =
        vec!["report", &boat, "--for", reader, "--format", "pdf", "--force", "--out", &shown];
    arguments.extend(more);
    printed(&arguments);
    lopdf::Document::load(out).unwrap().get_pages().len()
}

#[cfg(feature = "pdf")]
#[test]
fn regression_the_dealer_has_one_page_on_either_paper() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("dealer.pdf");
    for boat in super::BOATS {
        for paper in ["a4", "letter"] {
            for units in ["marine", "imperial", "metric"] {
                let more = ["--paper", paper, "--units", units];
                let stock = [&more[..], &["--stock", "data/stock/planes.csv"]].concat();
                assert_eq!(typeset(&out, boat, "dealer", &more), 1, "{boat} {more:?}");
                assert_eq!(typeset(&out, boat, "dealer", &stock), 1, "{boat} {stock:?}");
            }
        }
    }
}

#[cfg(feature = "pdf")]
#[test]
fn regression_the_same_input_gives_the_same_pdf() {
    let folder = tempfile::tempdir().unwrap();
    for reader in ["architect", "dealer", "owner"] {
        let [one, other] = ["one.pdf", "other.pdf"].map(|name| folder.path().join(name));
        typeset(&one, "wren", reader, &[]);
        typeset(&other, "wren", reader, &[]);
        assert_eq!(std::fs::read(one).unwrap(), std::fs::read(other).unwrap(), "{reader}");
    }
}
