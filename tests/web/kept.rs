//! What stays when something goes wrong, and what stays the same when only the units change.

use super::client::{Server, encoded, multipart, request};

/// A request with a file and other fields.
fn sent(server: &Server, fields: &[(&str, &str)], file: &[u8]) -> super::client::Answer {
    let mut body = Vec::new();
    for (name, value) in fields {
        body.extend(
            format!("--xyz\r\nContent-Disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n")
                .into_bytes(),
        );
    }
    body.extend(multipart("stock_file", "mine.csv", file));
    let kind = "multipart/form-data; boundary=xyz";
    server.raw(&request("POST", "/desk", server.port, kind, &body))
}

fn plate(page: &str) -> String {
    let start = page.find("class=\"plate\"").expect("a plate");
    page[start..start + page[start..].find("</a>").unwrap()].to_owned()
}

#[test]
fn error_a_bad_list_leaves_boat_and_list_as_they_were() {
    let server = Server::start(&["--draws", "100"]);
    let list = std::fs::read_to_string("data/stock/planes.csv").unwrap();
    let old = [("boat", "lantern"), ("stock_text", list.as_str()), ("stock_name", "old.csv")];
    // The last is a list of which no line can be used.
    let useless = b"name;span_mm;chord_mm;price\nA;450;;289,00\n";
    for bad in [&b"this is no list\n"[..], b"\xff\x00\xfe broken", b"", useless] {
        let page = sent(&server, &old, bad);
        assert_eq!(page.status, 200, "{}", page.head);
        let text = page.plain();
        assert!(text.contains("The new list was not taken") && text.contains("mine.csv"), "{text}");
        assert!(text.contains("List: old.csv") && text.contains("Lantern Bay"), "{text}");
    }
    let page = sent(&server, &old, list.as_bytes());
    assert!(page.plain().contains("List: mine.csv"), "{}", page.plain());
    assert!(!page.plain().contains("was not taken"));
    // The demonstration list stays as well.
    let demo = [("boat", "lantern"), ("stock", "demo")];
    let page = sent(&server, &demo, b"this is no list\n").plain();
    assert!(page.contains("The new list was not taken") && page.contains("List: planes.csv"));
}

/// `25 9/16`.
fn fraction(text: &str) -> f64 {
    let part = |part: &str| match part.split_once('/') {
        Some((over, under)) => over.parse::<f64>().unwrap() / under.parse::<f64>().unwrap(),
        None => part.parse().unwrap(),
    };
    text.split(' ').map(part).sum()
}

#[test]
fn regression_units_convert_what_stands_there_and_change_no_size() {
    let server = Server::start(&["--draws", "100"]);
    let state = "/desk?boat=lantern&steps=marine&planes=675+mm+x+300+mm&speed=20&deflection=4";
    let metric = server.get(&format!("{state}&units=marine&in=marine"));
    let feet = server.get(&format!("{state}&units=imperial&in=marine"));
    for key in ["trim_deg", "resistance_n"] {
        assert_eq!(metric.numbers(key), feet.numbers(key), "{key}");
    }
    assert!(feet.plain().contains("At 23 mph"), "{}", feet.plain());
    // The pair on the plate is the same, shown in inches.
    let mm = plate(&metric.text());
    let inches = plate(&feet.text());
    let pair = mm.split("class=\"size\">").nth(1).unwrap().split('<').next().unwrap();
    let numbers: Vec<f64> =
        pair.trim_end_matches(" mm").split(" x ").map(|number| number.parse().unwrap()).collect();
    let shown = inches.split("class=\"size\">").nth(1).unwrap().split('<').next().unwrap();
    let shown: Vec<f64> = shown.trim_end_matches(" in").split(" x ").map(fraction).collect();
    for (mm, inches) in numbers.iter().zip(&shown) {
        assert!((mm / 25.4 - inches).abs() < 0.05, "{pair}: {shown:?}");
    }
}

#[test]
fn error_a_refusal_has_what_the_script_shows_above_what_stays() {
    let server = Server::start(&["--draws", "100"]);
    let bad = format!("text={}", encoded("name = \"No hull\"\n"));
    let kind = "application/x-www-form-urlencoded";
    for (method, address, body) in [
        ("POST", "/desk", bad.as_str()),
        ("POST", "/desk/run", bad.as_str()),
        ("POST", "/papers/owner.html", bad.as_str()),
        ("GET", "/nowhere", ""),
        ("GET", "/desk?form=1&chine_beam=2", ""),
    ] {
        let answer = server.raw(&request(method, address, server.port, kind, body.as_bytes()));
        assert!(answer.status >= 400, "{address}");
        assert_eq!(answer.text().matches("id=\"refusal\"").count(), 1, "{method} {address}");
    }
}

#[test]
fn regression_two_more_aboard_change_the_run_and_no_size() {
    let server = Server::start(&["--draws", "100"]);
    for boat in ["lantern", "holm"] {
        let state = format!("boat={boat}&planes=fitted&speed=20&deflection=4");
        let [alone, more] =
            ["", "&aboard=2"].map(|more| server.get(&format!("/desk?{state}{more}")));
        assert_eq!(plate(&alone.text()), plate(&more.text()), "{boat}");
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_planewright"))
            .args(["run", &format!("data/boats/{boat}.toml"), "--aboard", "2", "--json"])
            .args(["--speed", "20 kn", "--deflection", "4 deg"])
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .output()
            .unwrap();
        let told: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
        let trim = told["points"][0]["trim_deg"].as_f64().unwrap();
        let page = *more.numbers("trim_deg").last().unwrap();
        assert!((page - trim).abs() < 1e-9, "{boat}: {page} {trim}");
        assert!((page - alone.numbers("trim_deg").last().unwrap()).abs() > 0.01, "{boat}");
    }
}

#[test]
fn regression_complaints_of_the_form_are_wishes_of_the_boat_file() {
    let server = Server::start(&["--draws", "100"]);
    let form = "form=1&name=Tern&overall_length=7.4+m&chine_beam=2.25+m&deadrise=18+deg&mass=2800+kg&power=180+kW";
    let file = server.get(&format!("/boat-file?{form}&for=bow-high&for=leans")).text();
    assert!(file.starts_with("for = [\"bow-high\", \"leans\"]\nname = \"Tern\""), "{file}");
    let desk = server.get(&format!("/desk?{form}&for=leans")).text();
    // They stay in the state and in the way back to the form.
    assert!(desk.contains("name=\"for\" value=\"leans\"") && desk.contains("for=leans"));
    let back = server.get(&format!("/form?{form}&for=leans")).text();
    assert!(
        back.contains("value=\"leans\" aria-describedby=\"complaints_hint\" checked"),
        "{back}"
    );
    let wrong = server.get(&format!("/desk?{form}&for=sinks"));
    assert_eq!(wrong.status, 422);
    assert!(wrong.plain().contains("sinks"), "{}", wrong.plain());
}

#[test]
fn regression_the_marking_sheet_is_that_of_the_command_line() {
    let server = Server::start(&["--draws", "100"]);
    for (units, field) in [(None, ""), (Some("--both-units"), "&both_units=on")] {
        let folder = tempfile::tempdir().unwrap();
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_planewright"))
            .args(["mark", "data/boats/lantern.toml", "--papers", folder.path().to_str().unwrap()])
            .args(units)
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .output()
            .unwrap();
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        let state = format!("boat=lantern&planes=fitted&speed=20&deflection=4{field}");
        for (paper, file) in [
            ("marking.html", "marking-out.html"),
            ("transom-a4.pdf", "transom.pdf"),
            ("template-port-a4.pdf", "template-port.pdf"),
            ("template-starboard-a4.pdf", "template-starboard.pdf"),
        ] {
            let page = server.get(&format!("/papers/{paper}?{state}"));
            assert_eq!(page.status, 200, "{paper}: {}", page.plain());
            let mut written = std::fs::read(folder.path().join(file)).unwrap();
            if file.ends_with(".html") {
                // The command names the sheet that its PDFs are for; the page prints on either.
                let text = String::from_utf8(written).unwrap();
                written = text.replacen("@page { size: A4; }", "", 1).into_bytes();
            }
            assert!(page.body == written, "{paper}: the page and the command differ");
        }
        // Its blocks stand on the desk, with the choice of units as it was made.
        let desk = server.get(&format!("/desk?{state}"));
        let said = String::from_utf8_lossy(&output.stdout);
        assert!(desk.plain().contains("Where on the transom") && said.contains("hinge"));
        let ticked = "name=\"both_units\" value=\"on\" checked";
        assert_eq!(desk.text().contains(ticked), units.is_some());
        assert_eq!(desk.plain().contains("millimetres (inches)"), units.is_some());
    }
}

#[test]
fn regression_dangers_are_apart_from_what_was_not_tested() {
    let server = Server::start(&["--draws", "100"]);
    let said = |deflection: u32| {
        let address =
            format!("/desk/run?boat=lantern&planes=fitted&speed=33&deflection={deflection}");
        server.get(&address).text()
    };
    let deep = said(15);
    let danger = deep.find("<p class=\"danger\"><strong>Danger. </strong>Too far down").unwrap();
    let sentence = deep.find("with planes 15° down").map(|_| danger).unwrap();
    assert!(sentence <= deep.find("At 33 kn").unwrap_or(usize::MAX), "the danger stands first");
    assert!(deep.contains("class=\"beyond\"") && deep.contains("never beyond"));
    let safe = said(0);
    assert!(!safe.contains("Too far down") && safe.contains("never beyond"));
    // A sentence on what was not tested is never one on danger.
    for text in [&deep, &safe] {
        for block in text.split("<p class=\"danger\">").skip(1) {
            let block = block.split("</p>").next().unwrap();
            assert!(!block.contains("tested"), "{block}");
        }
    }
}
