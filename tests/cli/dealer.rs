//! A dealer with a list of his own: from the list to a printed offer, and pairs side by side.

use super::{demo, planewright, printed, refusal};
use serde_json::Value;

const STOCK: &str = "data/stock/planes.csv";

fn json(arguments: &[&str]) -> Value {
    let output = planewright(arguments);
    serde_json::from_slice(&output.stdout).unwrap_or_else(|error| panic!("{arguments:?}: {error}"))
}

/// Twelve invented parts as a spreadsheet of another country saves them: four columns, semicolons, decimal commas,
/// one byte a letter, CRLF.
fn own_list() -> Vec<u8> {
    let sizes = [
        (300, 150),
        (300, 230),
        (375, 230),
        (450, 230),
        (450, 300),
        (525, 230),
        (600, 230),
        (600, 300),
        (750, 230),
        (750, 300),
        (900, 300),
        (1050, 300),
    ];
    let rows: Vec<String> = sizes
        .iter()
        .map(|(span, chord)| {
            format!("Fläche {span} x {chord};{span},0;{chord},0;{},50\r\n", span / 2 + chord)
        })
        .collect();
    let text = format!("Description;Span [mm];Chord [mm];Price EUR\r\n{}", rows.concat());
    text.chars()
        .map(|letter| u8::try_from(u32::from(letter)).expect("a letter of one byte"))
        .collect()
}

#[test]
fn practice_from_a_list_of_four_columns_to_an_offer() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).display().to_string();
    let (list, dealer, page) = (path("list.csv"), path("dealer.toml"), path("offer.html"));
    std::fs::write(&list, own_list()).unwrap();
    assert!(printed(&["new", "--dealer", &dealer]).contains("Put your own in their"));
    let output = planewright(&[
        "report",
        &demo("lantern"),
        "--for",
        "dealer",
        "--stock",
        &list,
        "--dealer",
        &dealer,
        "--out",
        &page,
    ]);
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
    assert!(output.stderr.is_empty(), "{}", String::from_utf8_lossy(&output.stderr));
    let page = std::fs::read_to_string(page).unwrap();
    for said in [
        "Fairlead Marine",
        "Offer 2026-041",
        "31 December 2026",
        "VAT 20 %",
        "Fläche ",
        "Their strength is not known",
    ] {
        assert!(page.contains(said), "{said}");
    }
    // Nothing about the bearing of a part that the list does not describe.
    let size = json(&["size", &demo("lantern"), "--stock", &list, "--json"]);
    let parts = size["stock"].as_array().unwrap();
    assert_eq!(parts.len(), 12);
    assert!(parts.iter().all(|part| part["strength"].is_null() && part["strength_known"] == false));
    let name = parts[0]["part"].as_str().unwrap();
    let loads = printed(&["loads", &demo("lantern"), "--stock", &list, "--part", name]);
    let loads = loads.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(loads.contains("NOT KNOWN whether its plate"), "{loads}");
    assert!(!loads.contains("At every deflection that is allowed it bears"));
    let refused = refusal(&["report", &demo("lantern"), "--for", "owner", "--dealer", &dealer]);
    assert!(refused.contains("only the dealer's page is an offer"), "{refused}");
}

#[test]
fn regression_a_starter_list_is_ranked_as_it_is() {
    let folder = tempfile::tempdir().unwrap();
    let list = folder.path().join("list.csv").display().to_string();
    assert!(printed(&["new", "--stock", &list]).contains("--stock"));
    assert!(refusal(&["new", "--stock", &list]).contains("the file exists already"));
    let output = planewright(&["size", &demo("wren"), "--stock", &list]);
    assert!(output.stderr.is_empty(), "{}", String::from_utf8_lossy(&output.stderr));
    assert!(String::from_utf8(output.stdout).unwrap().contains("Its strength is not known"));
}

/// At most 25 lines, and the numbers of the other answers.
#[test]
fn practice_pairs_side_by_side_say_what_the_other_answers_say() {
    let names = ["750 x 230 stainless hydraulic", "600 x 300 stainless hydraulic"];
    let parts = ["--stock", STOCK, "--part", names[0], "--part", names[1]];
    for boat in ["wren", "lantern", "holm"] {
        let boat = demo(boat);
        let asked = [&["compare", boat.as_str(), "--pair", "600x300mm"][..], &parts].concat();
        let output = planewright(&asked);
        let text = String::from_utf8(output.stdout).unwrap();
        assert!(text.lines().count() <= 25, "{}\n{text}", text.lines().count());
        assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
        let found = json(&[&asked[..], &["--json"]].concat());
        let pairs = found["pairs"].as_array().unwrap();
        assert_eq!(pairs.len(), 3);
        let shelf = json(&["size", &boat, "--stock", STOCK, "--json"]);
        for (pair, name) in pairs[1..].iter().zip(names) {
            let ranked = shelf["stock"].as_array().unwrap();
            let ranked = ranked.iter().find(|part| part["part"] == *name).unwrap();
            assert_eq!(pair["pair_price"], ranked["pair_price"]);
            assert_eq!(pair["strength"], ranked["strength"]["verdict"]);
            assert_eq!(pair["fits_transom"], ranked["fits_transom"]);
            if !ranked["chance"].is_null() {
                assert_eq!(pair["chance"]["share"], ranked["chance"], "{name}");
            }
        }
    }
}

/// The pair that `size` suggests has the chance that `size` tells.
#[test]
fn regression_the_pair_suggested_is_compared_with_its_own_numbers() {
    let size = json(&["size", &demo("wren"), "--json"]);
    let number = |key: &str| size[key].as_f64().unwrap();
    let word = format!("{} m x {} m", number("span_m"), number("chord_m"));
    let found = json(&["compare", &demo("wren"), "--pair", &word, "--pair", "300x200mm", "--json"]);
    assert_eq!(found["pairs"][0]["chance"]["share"], size["chance"]);
    assert_ne!(found["pairs"][0]["chance"], found["pairs"][1]["chance"]);
}

#[test]
fn error_what_cannot_be_compared() {
    assert!(refusal(&["compare", &demo("wren")]).contains("no pair is given"));
    let one = refusal(&["compare", &demo("wren"), "--pair", "600x300mm"]);
    assert!(one.contains("one pair is given, and nothing beside it"), "{one}");
    let bare = refusal(&["compare", &demo("wren"), "--pair", "600x300", "--pair", "600x230mm"]);
    assert!(bare.contains("has no unit") && bare.contains("600x300mm"), "{bare}");
    assert!(refusal(&["compare", &demo("wren"), "--part", "x"]).contains("--stock"));
    // Nothing that has room: done as far as can be, and the exit code says so.
    let wide = ["compare", &demo("wren"), "--pair", "900x300mm", "--pair", "950x300mm"];
    let output = planewright(&wide);
    assert_eq!(output.status.code(), Some(1));
    assert!(String::from_utf8(output.stdout).unwrap().contains("NO: "));
}
