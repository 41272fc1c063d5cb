//! The page in a real browser: what a dealer and a buyer do with it, at a desk and on a telephone.
//!
//! Pictures of every state of the page are left under `target/screens`, to be looked at.

mod print;
mod send;
mod session;

use serde_json::{Value, json};
use session::{DRAWS, Session, program, root};
use thirtyfour::prelude::*;

/// The resistance that the page shows, as the program has it.
const RESISTANCE: &str = "return document.querySelector('[data-number=resistance_n] td.number:nth-last-of-type(2)').dataset.si";

/// The pair that the command line suggests, as the page writes it.
fn pair_of(boat: &str) -> String {
    let output = std::process::Command::new(program())
        .args(["size", boat, "--draws", DRAWS, "--json"])
        .current_dir(root())
        .output()
        .expect("the program starts");
    let told: Value = serde_json::from_slice(&output.stdout).expect("one JSON object");
    let [span, chord] = ["span_m", "chord_m"].map(|key| 1e3 * told[key].as_f64().expect("a pair"));
    format!("{span:.0} x {chord:.0} mm")
}

#[tokio::test]
async fn practice_load_and_choose_a_boat() {
    let session = Session::start().await;
    session.open("/").await;
    assert!(session.text("h1").await.contains("Which trim planes"));
    session.assert_no_complaint().await;
    session.shot("1-start-desktop").await;
    session.find("a.card[href*=lantern]").await.click().await.unwrap();
    session.heading("Lantern Bay").await;
    assert!(session.text(".plate").await.contains(&pair_of("data/boats/lantern.toml")));
    // Lettering of its own was loaded.
    session.wait("the lettering", "return document.fonts.check('16px Title')").await;
    session.sure().await;
    session.assert_no_complaint().await;
    let fold = session.run("return ['.plate', '#said', '#speed', '#deflection', '#views svg'].every(s => { const box = document.querySelector(s).getBoundingClientRect(); return box.top < innerHeight && box.width > 0 && (s === '#views svg' || box.bottom <= innerHeight) })").await;
    assert_eq!(fold, json!(true), "the answer stands on the first screen");
    // On a small screen the shelf and the papers are there after one page down.
    session.small_desktop().await;
    let seen = session.run("return ['#shelf table', '#take'].every(s => { const box = document.querySelector(s).getBoundingClientRect(); return box.bottom + scrollY <= 2 * innerHeight && box.width > 0 })").await;
    assert_eq!(seen, json!(true), "shelf and papers stand within two screens");
    let letters = session.run("const all = document.querySelectorAll('details'); all.forEach(d => d.open = true); return Math.min(...[...document.querySelectorAll('.chart svg text')].filter(t => t.getBoundingClientRect().width > 0).map(t => parseFloat(getComputedStyle(t).fontSize) * Math.hypot(t.getScreenCTM().a, t.getScreenCTM().b)))").await;
    assert!(letters.as_f64().unwrap() >= 11.9, "letters of a chart: {letters} px");
    session.shot("2-desk-all-open-desktop").await;
    session.open("/desk?boat=lantern&stock=demo").await;
    session.sure().await;
    session.shot("2-desk-small-desktop").await;
    session.desktop().await;
    session.shot("2-desk-desktop").await;
    session.grey("2-desk-desktop").await;
    session.print("2-desk-printed").await;
    session.end().await;
}

#[tokio::test]
async fn practice_drag_the_sliders() {
    let session = Session::start().await;
    session
        .open("/desk?boat=lantern&speed=14&deflection=0&planes=fitted&units=marine&in=marine")
        .await;
    let before = session.run(RESISTANCE).await;
    let picture = session.run("return document.querySelector('#views svg').outerHTML").await;
    session.drag("deflection", 10.0).await;
    session
        .wait(
            "the new deflection",
            "return document.getElementById('deflection_now').textContent.trim() === '10°'",
        )
        .await;
    let after = session.run(RESISTANCE).await;
    let number = |value: &Value| value.as_str().unwrap().parse::<f64>().unwrap();
    assert!(number(&after) < number(&before), "planes save resistance at the hump");
    let moved = session.run("return document.querySelector('#views svg').outerHTML").await;
    assert_ne!(picture, moved);
    assert!(session.text("#said").await.contains("with planes 10° down"));
    session.drag("speed", 30.0).await;
    session
        .wait(
            "the new speed",
            "return document.getElementById('speed_now').textContent.trim() === '30 kn'",
        )
        .await;
    session.wait("the curves", "return document.querySelectorAll('#curves svg').length === 2 && document.getElementById('curves').textContent.includes('30.0 kn')").await;
    // The address follows, so that it can be kept or sent.
    session.wait("the address", "return location.search.includes('speed=30') && location.search.includes('deflection=10')").await;
    session.shot("3-planes-too-deep-desktop").await;
    session.find("#forces").await.click().await.unwrap();
    session.drag("speed", 16.0).await;
    session.wait("the forces", "return document.querySelectorAll('.picture-forces').length === 2 && document.querySelectorAll('#numbers table').length === 2").await;
    session.shot("4-forces-desktop").await;
    session.end().await;
}

#[tokio::test]
async fn practice_a_boat_that_is_not_planing_yet() {
    let session = Session::start().await;
    session.open("/desk?boat=holm&speed=8&planes=fitted&deflection=5").await;
    assert!(session.text("#said").await.contains("Below the planing range"));
    session.shot("5-not-planing-desktop").await;
    session.end().await;
}

#[tokio::test]
async fn practice_fill_the_form_wrong_and_right() {
    let session = Session::start().await;
    session.open("/form").await;
    session.shot("6-form-desktop").await;
    for (field, value) in [
        ("name", "Buyer's boat"),
        ("overall_length", "24 ft 3 in"),
        ("chine_beam", "2.25"),
        ("deadrise", "180 deg"),
        ("mass", "6200 lb"),
        ("power", "250 hp"),
    ] {
        session.find(&format!("#{field}")).await.send_keys(value).await.unwrap();
    }
    session.find(".description button").await.click().await.unwrap();
    assert!(session.text("#chine_beam_fault").await.starts_with("`2.25` has no unit"));
    assert!(session.text("#deadrise_fault").await.contains("180 deg is outside 0 to 40 deg"));
    assert_eq!(session.find("#mass").await.prop("value").await.unwrap().unwrap(), "6200 lb");
    session.shot("7-form-with-faults-desktop").await;
    for (field, value) in [("chine_beam", "2.25 m"), ("deadrise", "18 deg")] {
        let field = session.find(&format!("#{field}")).await;
        field.clear().await.unwrap();
        field.send_keys(value).await.unwrap();
    }
    session.find(".description button").await.click().await.unwrap();
    session.heading("Buyer's boat").await;
    assert!(session.text("#estimated").await.contains("Estimated"));
    session.shot("8-estimated-boat-desktop").await;
    session.end().await;
}

#[tokio::test]
async fn practice_upload_and_download_boat_files() {
    let session = Session::start().await;
    let good = session.folder.path().join("wren-of-mine.toml");
    let text = std::fs::read_to_string(root().join("data/boats/wren.toml")).unwrap();
    let text = text.replace("Skerry Wren", "My own Wren");
    std::fs::write(&good, &text).unwrap();
    session.open("/").await;
    session.find("#boat_file").await.send_keys(good.to_str().unwrap()).await.unwrap();
    session.find("section[aria-labelledby=bring] button").await.click().await.unwrap();
    session.heading("My own Wren").await;
    // The boat stands in the page, and follows the sliders all the same.
    let before = session.run(RESISTANCE).await;
    session.drag("speed", 28.0).await;
    session
        .wait(
            "the new speed",
            "return document.getElementById('speed_now').textContent.trim() === '28 kn'",
        )
        .await;
    assert_ne!(session.run(RESISTANCE).await, before);
    session.shot("9-own-boat-desktop").await;
    let downloads = session.folder.path().join("downloads");
    std::fs::create_dir(&downloads).unwrap();
    let place = json!({"behavior": "allow", "downloadPath": downloads.to_str().unwrap()});
    session.send("Browser.setDownloadBehavior", place).await;
    session.find("button[formaction='/boat-file']").await.click().await.unwrap();
    assert_eq!(session.file(&downloads.join("wren-of-mine.toml")).await, text);
    // A stock list for the same boat.
    let stock = root().join("data/stock/planes.csv");
    session.find("#stock_file").await.send_keys(stock.to_str().unwrap()).await.unwrap();
    session.find("#shelf .bring button").await.click().await.unwrap();
    session
        .wait(
            "the list",
            "return document.getElementById('shelf')?.textContent.includes('List: planes.csv')",
        )
        .await;
    // Papers of a boat that stands in the page, in a tab of their own.
    session.follow("button[formaction='/papers/owner.html'][formtarget=_blank]").await;
    session
        .wait(
            "the letter",
            "return document.querySelector('h1')?.textContent === 'Trim planes on My own Wren'",
        )
        .await;
    session.back().await;
    session
        .find("button[formaction='/papers/dealer.html'][name=keep]")
        .await
        .click()
        .await
        .unwrap();
    let paper = session.file(&downloads.join("wren-of-mine-dealer.html")).await;
    assert!(paper.contains("Trim planes for My own Wren") && paper.ends_with("</html>"));
    let bad = session.folder.path().join("bad.toml");
    std::fs::write(
        &bad,
        text.replace("deadrise = \"20 deg\"", "deadrise = \"20\"\nbeem = \"1 m\""),
    )
    .unwrap();
    session.open("/").await;
    session.find("#boat_file").await.send_keys(bad.to_str().unwrap()).await.unwrap();
    session.find("section[aria-labelledby=bring] button").await.click().await.unwrap();
    session.heading("bad.toml has 2 faults").await;
    assert!(session.text("#faults").await.contains("hull.deadrise: `20` has no unit"));
    session.shot("10-bad-boat-file-desktop").await;
    // It can be mended on the spot.
    let field = session.find("#text").await;
    field.clear().await.unwrap();
    session
        .run(&format!("document.getElementById('text').value = {}; return true", json!(text)))
        .await;
    session.find(".mend button").await.click().await.unwrap();
    session.heading("My own Wren").await;
    session.end().await;
}

#[tokio::test]
async fn practice_papers_open_in_a_tab_of_their_own() {
    let session = Session::start().await;
    session.open("/desk?boat=lantern&stock=demo&planes=fitted&speed=20&deflection=4").await;
    for (reader, width) in [("dealer", "832px"), ("owner", "736px"), ("architect", "992px")] {
        session
            .follow(&format!("button[formaction='/papers/{reader}.html'][formtarget=_blank]"))
            .await;
        session
            .wait("the paper", "return document.readyState === 'complete' && document.querySelector('h1')?.textContent.includes('Lantern Bay')")
            .await;
        // Its own look and pictures are let through, and nothing of it is blocked.
        let wide = session.run("return getComputedStyle(document.body).maxWidth").await;
        assert_eq!(wide, json!(width), "{reader}");
        session
            .wait("the pictures", "return [...document.images].length > 0 && [...document.images].every(i => i.complete && i.naturalWidth > 0)")
            .await;
        session.shot(&format!("16-paper-{reader}-desktop")).await;
        session.print(&format!("16-paper-{reader}-printed")).await;
        session.back().await;
        // The desk stands as it was.
        assert!(session.text("#said").await.starts_with("At 20 kn with planes 4° down"));
    }
    session.end().await;
}

#[tokio::test]
async fn practice_everything_by_keyboard() {
    let session = Session::start().await;
    session.open("/").await;
    let press = async |key: &str| {
        let active = session.driver.active_element().await.unwrap();
        active.send_keys(key).await.unwrap();
    };
    let tab = Key::Tab.value().to_string();
    let here = "return document.activeElement.id || document.activeElement.getAttribute('href') || document.activeElement.className";
    session.run("document.body.focus(); return true").await;
    press(&tab).await;
    assert_eq!(session.run(here).await, json!("#main"), "the first stop skips to the content");
    let mut stops = Vec::new();
    for _ in 0..12 {
        press(&tab).await;
        let stop = session.run(here).await.as_str().unwrap_or_default().to_owned();
        stops.push(stop.clone());
        if stop.contains("boat=lantern") {
            break;
        }
    }
    assert!(stops.last().unwrap().contains("boat=lantern"), "{stops:?}");
    assert_eq!(
        session.run("return document.activeElement.matches(':focus-visible')").await,
        json!(true)
    );
    press(&Key::Enter.value().to_string()).await;
    session
        .wait("the boat", "return document.querySelector('h1').textContent === 'Lantern Bay'")
        .await;
    session.run("document.getElementById('main').focus(); return true").await;
    let mut order = Vec::new();
    for _ in 0..12 {
        press(&tab).await;
        order.push(session.run(here).await.as_str().unwrap_or_default().to_owned());
    }
    let at = |name: &str| {
        order.iter().position(|stop| stop == name).unwrap_or_else(|| panic!("{name}: {order:?}"))
    };
    assert!(at("speed") < at("deflection") && at("deflection") < at("planes"), "{order:?}");
    session.run("document.getElementById('speed').focus(); return true").await;
    let before = session.text("#speed_now").await;
    press(&Key::Right.value().to_string()).await;
    press(&Key::Right.value().to_string()).await;
    let moved =
        format!("return document.getElementById('speed_now').textContent.trim() !== '{before}'");
    session.wait("the slider", &moved).await;
    assert_eq!(session.run(here).await, json!("speed"), "the focus stays where it was");
    session.shot("11-keyboard-desktop").await;
    session.end().await;
}

#[tokio::test]
async fn practice_on_a_telephone() {
    let session = Session::start().await;
    session.phone().await;
    for (address, name) in [
        ("/", "12-start-phone"),
        ("/form", "13-form-phone"),
        ("/desk?boat=lantern&stock=demo", "14-desk-phone"),
        ("/desk?form=1&chine_beam=2", "15-form-with-faults-phone"),
    ] {
        session.open(address).await;
        session.assert_no_complaint().await;
        if address.contains("boat=") {
            let seen = session.run("const box = [...document.querySelectorAll('[aria-labelledby=use] th')].find(th => th.textContent === 'Never beyond').getBoundingClientRect(); return box.left >= 0 && box.right <= innerWidth").await;
            assert_eq!(seen, json!(true), "never beyond is seen without moving the table");
            session.sure().await;
            let first = session.run("const box = document.querySelector('.plate').getBoundingClientRect(); return box.top >= 0 && box.bottom <= innerHeight").await;
            assert_eq!(first, json!(true), "the size stands on the first screen");
        }
        session.shot(name).await;
    }
    session.open("/desk?boat=lantern&speed=14&deflection=0&planes=fitted").await;
    let shown = session.run("return getComputedStyle(document.querySelector('.narrow-only')).display + getComputedStyle(document.querySelector('.wide-only')).display").await;
    assert_eq!(shown, json!("blocknone"));
    session.drag("deflection", 8.0).await;
    session
        .wait(
            "the new deflection",
            "return document.getElementById('deflection_now').textContent.trim() === '8°'",
        )
        .await;
    let smallest = session.run("return Math.min(...[...document.querySelectorAll('button, select, input:not([type=hidden]):not([type=checkbox])')].filter(e => e.offsetParent).map(e => e.getBoundingClientRect().height))").await;
    assert!(smallest.as_f64().unwrap() >= 24.0, "too small for a finger: {smallest}");
    session.end().await;
}

#[tokio::test]
async fn practice_without_the_script() {
    let session = Session::start().await;
    session.send("Emulation.setScriptExecutionDisabled", json!({"value": true})).await;
    session.open("/desk?boat=wren").await;
    let slider = session.find("#speed").await;
    slider.send_keys(Key::Right.value().to_string()).await.unwrap();
    session.find("#controls button:not(.quiet)").await.click().await.unwrap();
    let mut address = session.driver.current_url().await.unwrap();
    for _ in 0..200 {
        if address.query().unwrap_or_default().contains("speed=") {
            break;
        }
        tokio::time::sleep(std::time::Duration::from_millis(50)).await;
        address = session.driver.current_url().await.unwrap();
    }
    assert!(address.query().unwrap_or_default().contains("speed="), "{address}");
    assert!(session.text("#said").await.starts_with("At "));
    session.shot("17-without-script-desktop").await;
    session.find("#sure button").await.click().await.unwrap();
    session.find(".key-numbers").await;
    assert_eq!(session.text("h1").await, "How sure: Skerry Wren");
    session.shot("18-how-sure-without-script-desktop").await;
    session.end().await;
}
