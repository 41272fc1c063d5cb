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
    let printed = session.send("Page.printToPDF", paper).await;
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
