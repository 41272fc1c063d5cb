//! The papers as a browser prints them.

use std::path::Path;
use std::process::Command;

use serde_json::json;

use super::session::{DRAWS, Session, decoded, program, root};

/// Paper, with its width and height in inches.
const PAPERS: [(&str, f64, f64); 2] = [("a4", 8.27, 11.69), ("letter", 8.5, 11.0)];
/// The least size of letters on paper, CSS pixels: 6.5 points.
const LEAST_PX: f64 = 6.5 * 96.0 / 72.0;
/// The least size of letters that a printed page shows.
const SMALLEST: &str = "
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    let least = 99;
    while (texts.nextNode()) {
        if (!texts.currentNode.textContent.trim()) continue;
        least = Math.min(least, parseFloat(getComputedStyle(texts.currentNode.parentElement).fontSize));
    }
    return least;";
/// Whether something is wider than the page.
const OVERFULL: &str = "
    const wide = document.documentElement.clientWidth + 1;
    return [...document.querySelectorAll('main *')].filter(e => e.getBoundingClientRect().right > wide).length;";

/// A report of a boat in a folder.
fn report(folder: &Path, boat: &str, more: &[&str]) -> String {
    let out = folder.join("paper.html").display().to_string();
    let status = Command::new(program())
        .args(["report", boat, "--draws", DRAWS, "--force", "--out", &out])
        .args(more)
        .current_dir(root())
        .output()
        .expect("the program starts");
    assert!(status.status.success(), "{}", String::from_utf8_lossy(&status.stderr));
    format!("file://{out}")
}

async fn pages(session: &Session, (_, wide, high): (&str, f64, f64)) -> usize {
    let paper = json!({"paperWidth": wide, "paperHeight": high, "printBackground": true, "preferCSSPageSize": true});
    let printed = session.printed(paper).await;
    let bytes = decoded(printed["data"].as_str().expect("a paper"));
    lopdf::Document::load_mem(&bytes).expect("a PDF").get_pages().len()
}

#[tokio::test]
async fn practice_the_dealer_has_one_page_from_a_browser_on_either_paper() {
    let session = Session::start().await;
    for boat in ["wren", "lantern", "holm"] {
        let file = format!("data/boats/{boat}.toml");
        for units in ["marine", "imperial"] {
            for stock in [&["--stock", "data/stock/planes.csv"][..], &[]] {
                let more = [&["--for", "dealer", "--units", units], stock].concat();
                let address = report(session.folder.path(), &file, &more);
                session.driver.goto(&address).await.expect("the paper opens");
                for paper in PAPERS {
                    let found = pages(&session, paper).await;
                    assert_eq!(found, 1, "{boat} {units} {stock:?} on {}", paper.0);
                }
            }
        }
    }
    session.end().await;
}

/// A dealer's file with the longest texts that it may hold, and as many items.
fn longest_offer(folder: &Path) -> String {
    let words = "Long wording of a careful business with many branches along the whole coast and beyond it, north and south";
    let text = |letters: usize| format!("\"{}\"", words.get(..letters).unwrap_or(words));
    std::fs::write(
        folder.join("logo.svg"),
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\"><rect width=\"9\" height=\"9\"/></svg>",
    )
    .expect("a logo");
    let mut file = format!(
        "[dealer]\nname = {}\naddress = {}\ncontact = {}\ntax_number = {}\nlogo = \"logo.svg\"\n\
         [offer]\nnumber = {}\ndate = \"2026-11-27\"\nvalid_until = \"2026-12-31\"\nbuyer = {}\nbuyer_address = {}\nremark = {}\n\
         [money]\ncurrency = \"EUR\"\ntax = \"20 %\"\ntax_name = {}\n[fitting]\nhours = 126.25\nrate = 1850.75\n",
        text(60),
        text(80),
        text(80),
        text(40),
        text(24),
        text(80),
        text(80),
        text(120),
        text(16)
    );
    for _ in 0..6 {
        file.push_str(&format!(
            "[[item]]\nname = {}\nprice = 123456.78\nquantity = 100\n",
            text(60)
        ));
    }
    std::fs::write(folder.join("dealer.toml"), file).expect("a dealer's file");
    folder.join("dealer.toml").display().to_string()
}

/// The demo list with names as long as a line, and those names alone with size and price.
fn longest_lists(folder: &Path) -> [String; 2] {
    let list =
        std::fs::read_to_string(root().join("data/stock/planes.csv")).expect("the demo list");
    let long = " with every word that somebody could think of when the part was named";
    let mut described = String::new();
    let mut bare = "name,span,chord,price,currency\n".to_owned();
    for line in list.lines().filter(|line| !line.starts_with('#')) {
        let cells: Vec<&str> = line.split(',').collect();
        if cells[0] == "name" {
            described.push_str(&format!("{line}\n"));
            continue;
        }
        described.push_str(&format!("{}{long},{}\n", cells[0], cells[1..].join(",")));
        let price = cells[cells.len() - 3];
        bare.push_str(&format!("{}{long},{},{},{price},EUR\n", cells[0], cells[1], cells[2]));
    }
    [("described.csv", described), ("bare.csv", bare)].map(|(name, text)| {
        std::fs::write(folder.join(name), text).expect("a list");
        folder.join(name).display().to_string()
    })
}

#[tokio::test]
async fn practice_an_offer_with_the_longest_names_is_one_page_on_either_paper() {
    let session = Session::start().await;
    let folder = session.folder.path();
    let dealer = longest_offer(folder);
    for boat in ["wren", "lantern", "holm"] {
        let text = std::fs::read_to_string(root().join(format!("data/boats/{boat}.toml")))
            .expect("a boat");
        let name = "name = \"A boat whose owner gave her a name that fills the whole line of the page, and then some more";
        let text = text.replacen("name = \"", &format!("{name} "), 1);
        let file = folder.join("boat.toml").display().to_string();
        std::fs::write(&file, text).expect("a boat file");
        for list in longest_lists(folder) {
            for units in ["marine", "imperial"] {
                let more =
                    ["--for", "dealer", "--units", units, "--stock", &list, "--dealer", &dealer];
                let address = report(folder, &file, &more);
                session.driver.goto(&address).await.expect("the paper opens");
                for paper in PAPERS {
                    let found = pages(&session, paper).await;
                    assert_eq!(found, 1, "{boat} {units} {list} on {}", paper.0);
                }
            }
        }
    }
    session.end().await;
}

#[tokio::test]
async fn practice_letters_on_paper_are_large_enough_and_nothing_is_wider_than_the_page() {
    let session = Session::start().await;
    for reader in ["architect", "dealer", "owner"] {
        let more = ["--for", reader, "--stock", "data/stock/planes.csv"];
        let address = report(session.folder.path(), "data/boats/lantern.toml", &more);
        session.driver.goto(&address).await.expect("the paper opens");
        let printed = json!({"media": "print"});
        session.send("Emulation.setEmulatedMedia", printed).await;
        // As wide as A4 between its margins.
        let width = json!({"width": 670, "height": 1000, "deviceScaleFactor": 1, "mobile": false});
        session.send("Emulation.setDeviceMetricsOverride", width).await;
        let least = session.run(SMALLEST).await.as_f64().expect("a size");
        assert!(least >= LEAST_PX - 0.05, "{reader}: {least} px");
        assert_eq!(session.run(OVERFULL).await, json!(0), "{reader}");
        session.send("Emulation.setEmulatedMedia", json!({"media": ""})).await;
    }
    session.end().await;
}
