//! Papers and how sure: the same as the command line's, safe to open, and in nobody's way.

use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

use super::client::{Server, as_on_the_page};

/// A tenth of the usual draws: what is compared is made of as many.
const FEW: &[&str] = &["--draws", "100"];
const READERS: [&str; 3] = ["architect", "dealer", "owner"];

/// A copy of a file of this project in a folder.
fn copy(from: &str, folder: &Path) {
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join(from);
    std::fs::copy(&from, folder.join(from.file_name().unwrap())).unwrap();
}

/// What `planewright report` writes in a folder.
fn written(folder: &Path, arguments: &[&str]) -> Vec<u8> {
    let output = Command::new(env!("CARGO_BIN_EXE_planewright"))
        .args(["report", "--force", "--draws", "100", "--out", "paper.html"])
        .args(arguments)
        .current_dir(folder)
        .output()
        .expect("the program starts");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    std::fs::read(folder.join("paper.html")).unwrap()
}

#[test]
fn regression_papers_are_byte_for_byte_those_of_the_command_line() {
    let server = Server::start(FEW);
    let folder = tempfile::tempdir().unwrap();
    copy("data/boats/lantern.toml", folder.path());
    copy("data/stock/planes.csv", folder.path());
    for (reader, units) in READERS.into_iter().zip(["marine", "imperial", "metric"]) {
        let address = format!(
            "/papers/{reader}.html?boat=lantern&stock=demo&units={units}&speed=20&deflection=3&condition=light"
        );
        let page = server.get(&address);
        assert_eq!(page.status, 200, "{}", page.text());
        let command = written(
            folder.path(),
            &["lantern.toml", "--for", reader, "--stock", "planes.csv", "--units", units],
        );
        assert!(page.body == command, "{reader}: the page and the command differ");
    }
}

#[test]
fn regression_papers_of_an_own_boat_and_list_are_those_of_the_command_line() {
    let server = Server::start(FEW);
    let folder = tempfile::tempdir().unwrap();
    let read = |name: &str| {
        std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).unwrap()
    };
    let boat = read("data/boats/wren.toml").replace("Skerry Wren", "Wren of <mine>");
    let list = read("data/stock/planes.csv");
    let list = list.lines().take(6).map(|line| format!("{line}\n")).collect::<String>();
    std::fs::write(folder.path().join("mine.toml"), &boat).unwrap();
    std::fs::write(folder.path().join("shelf.csv"), &list).unwrap();
    let fields = [
        ("text", boat.as_str()),
        ("text_name", "mine.toml"),
        ("stock_text", &list),
        ("stock_name", "shelf.csv"),
        ("keep", "file"),
    ];
    let page = server.post("/papers/dealer.html", &fields);
    let command = written(folder.path(), &["mine.toml", "--for", "dealer", "--stock", "shelf.csv"]);
    assert_eq!(page.status, 200);
    assert!(page.body == command, "the page and the command differ");
    assert!(page.text().contains("Wren of &lt;mine&gt;"));
    let head = page.head.to_lowercase();
    assert!(head.contains("attachment; filename=\"mine-dealer.html\""), "{head}");
}

#[test]
fn regression_papers_may_show_their_look_and_run_nothing() {
    let server = Server::start(FEW);
    let paper = server.get("/papers/owner.html?boat=wren");
    assert_eq!(paper.status, 200);
    let head = paper.head.to_lowercase();
    for header in [
        "content-type: text/html; charset=utf-8",
        "content-disposition: inline; filename=\"wren-owner.html\"",
        "content-security-policy: default-src 'none'; style-src 'unsafe-inline'; img-src data:; form-action 'none'",
        "x-content-type-options: nosniff",
        "cache-control: no-store",
    ] {
        assert!(head.contains(header), "{header} in {head}");
    }
    assert_eq!(head.matches("content-security-policy").count(), 1);
    assert!(!head.contains("script-src"));
    assert!(!paper.text().contains("<script"));
}

#[test]
fn regression_how_sure_gives_the_numbers_of_the_dealers_page() {
    let server = Server::start(FEW);
    let query = "boat=holm&units=marine";
    let paper = server.get(&format!("/papers/dealer.html?{query}")).text();
    let numbers = |text: &str| -> Vec<String> {
        let cut = text.split("<div class=\"key-numbers\">").nth(1).expect("key numbers");
        let cut = cut.split("</div>").next().unwrap();
        cut.split('<')
            .filter_map(|tag| tag.split_once('>'))
            .map(|(_, text)| text.to_owned())
            .collect()
    };
    let alone = server.get(&format!("/desk/sure?{query}"));
    assert_eq!(alone.status, 200);
    let head = format!(
        "GET /desk/sure?{query} HTTP/1.1\r\nHost: 127.0.0.1\r\nHX-Request: true\r\nConnection: close\r\n\r\n"
    );
    let part = server.raw(head.as_bytes());
    assert_eq!(part.status, 200);
    for answer in [&alone, &part] {
        assert_eq!(numbers(&answer.text()), numbers(&paper));
    }
    assert!(numbers(&paper).iter().any(|text| text.ends_with(" in 100")));
    // The part is swapped into the page; alone it is a page with a way back.
    assert!(alone.text().contains("<h1>How sure: Holm Sentinel</h1>"));
    assert!(!part.text().contains("<html"));
    assert!(alone.text().contains("href=\"/desk?boat=holm&amp;units=marine&amp;steps=marine\""));
}

#[test]
fn error_papers_of_no_boat_or_of_a_wrong_one_say_why() {
    let server = Server::start(FEW);
    for address in [
        "/papers/broker.html?boat=wren",
        "/papers/dealer?boat=wren",
        "/papers/..%2fdealer.html?boat=wren",
        "/papers/dealer.html",
        "/desk/sure",
        "/papers/dealer.html?boat=../../etc/passwd",
    ] {
        assert_eq!(server.get(address).status, 404, "{address}");
    }
    let wrong =
        server.post("/papers/owner.html", &[("text", "[hull]\n"), ("text_name", "bad.toml")]);
    assert_eq!(wrong.status, 422);
    assert!(wrong.plain().contains("the table [weight] is missing"), "{}", wrong.plain());
    let boat = std::fs::read_to_string("data/boats/wren.toml").unwrap();
    let list = server.post("/papers/dealer.html", &[("text", &boat), ("stock_text", "no list")]);
    assert_eq!(list.status, 422);
    let shelf = server.post("/desk", &[("text", &boat), ("stock_text", "no list")]);
    let problem = "stock.csv: ";
    assert!(list.plain().contains(problem) && shelf.plain().contains(problem), "{}", list.plain());
    let hard = boat.replace("at_least = \"2 deg\"", "at_least = \"8 deg\"");
    let short = server.post("/papers/dealer.html", &[("text", &hard)]);
    assert_eq!(short.status, 200);
    assert!(short.plain().contains("No pair does everything"));
}

#[cfg(not(feature = "pdf"))]
#[test]
fn error_a_typeset_paper_is_refused_where_none_can_be_made() {
    let server = Server::start(FEW);
    let answer = server.get("/papers/dealer-a4.pdf?boat=wren");
    assert_eq!(answer.status, 422);
    assert!(answer.plain().contains("this build cannot typeset PDF"));
    assert!(!server.get("/desk?boat=wren").text().contains("/papers/dealer-a4.pdf"));
}

#[cfg(feature = "pdf")]
#[test]
fn regression_a_typeset_paper_is_that_of_the_command_line() {
    let server = Server::start(FEW);
    let folder = tempfile::tempdir().unwrap();
    copy("data/boats/wren.toml", folder.path());
    for sheet in ["a4", "letter"] {
        let page = server.get(&format!("/papers/owner-{sheet}.pdf?boat=wren"));
        let arguments = ["wren.toml", "--for", "owner", "--format", "pdf", "--paper", sheet];
        assert!(page.body == written(folder.path(), &arguments), "{sheet}");
        assert!(page.head.contains("filename=\"wren-owner.pdf\""), "{}", page.head);
    }
}

#[test]
fn physics_papers_hold_up_no_drag_and_too_many_are_sent_away() {
    const PAPERS: usize = 20;
    let server = Server::start(FEW);
    let drag = "/desk/run?boat=lantern&planes=fitted&speed=16&deflection=6";
    let alone = server.get(drag);
    std::thread::scope(|scope| {
        let asked: Vec<_> = (0..PAPERS)
            .map(|_| scope.spawn(|| server.get("/papers/owner.html?boat=wren")))
            .collect();
        std::thread::sleep(Duration::from_millis(300));
        let mut drags = 0;
        while asked.iter().any(|paper| !paper.is_finished()) && drags < 200 {
            let begun = Instant::now();
            assert_eq!(server.get(drag).body, alone.body);
            // A paper takes seconds in a build for tests; a drag must not wait for one.
            assert!(begun.elapsed() < Duration::from_secs(2), "{:?}", begun.elapsed());
            drags += 1;
        }
        assert!(drags > 3);
        let answers: Vec<_> = asked.into_iter().map(|paper| paper.join().unwrap()).collect();
        let sent_away: Vec<_> = answers.iter().filter(|answer| answer.status == 503).collect();
        assert!(!sent_away.is_empty() && sent_away.len() < PAPERS);
        for away in &sent_away {
            assert!(away.plain().contains("Try again in a few seconds"), "{}", away.head);
            assert!(away.head.to_lowercase().contains("retry-after: 5"));
        }
        let made: Vec<_> = answers.iter().filter(|answer| answer.status == 200).collect();
        assert_eq!(made.len() + sent_away.len(), PAPERS);
        assert!(made.iter().all(|paper| paper.body == made[0].body));
    });
    server.assert_alive();
}

#[test]
fn regression_papers_of_visitors_do_not_mix() {
    let server = Server::start(FEW);
    let boats = [("wren", "Skerry Wren"), ("lantern", "Lantern Bay"), ("holm", "Holm Sentinel")];
    std::thread::scope(|scope| {
        for (boat, name) in boats {
            let server = &server;
            scope.spawn(move || {
                let paper = server.get(&format!("/papers/owner.html?boat={boat}")).text();
                let named = |name: &str| paper.contains(&format!("Trim planes on {name}"));
                assert!(named(name), "{boat}");
                let others = boats.iter().filter(|(_, other)| *other != name);
                others.for_each(|(_, other)| assert!(!paper.contains(other), "{boat}: {other}"));
            });
        }
    });
}

#[test]
fn regression_papers_nobody_waits_for_are_not_made() {
    let server = Server::start(FEW);
    let begun = Instant::now();
    assert_eq!(server.get("/papers/owner.html?boat=wren").status, 200);
    let one = begun.elapsed();
    for _ in 0..10 {
        let mut stream = server.connect();
        let bytes =
            super::client::request("GET", "/papers/owner.html?boat=wren", server.port, "", b"");
        std::io::Write::write_all(&mut stream, &bytes).unwrap();
    }
    std::thread::sleep(Duration::from_millis(200));
    // One may have begun; the other nine are gone with their connections.
    let begun = Instant::now();
    assert_eq!(server.get("/papers/owner.html?boat=wren").status, 200);
    assert!(begun.elapsed() < 5 * one, "{:?} beside {one:?}", begun.elapsed());
}

#[test]
fn regression_the_page_speaks_as_a_page() {
    let server = Server::start(FEW);
    for boat in ["wren", "lantern", "holm"] {
        let page = server.get(&format!("/desk?boat={boat}&stock=demo")).plain();
        let page = page.split("to read and to change here").next().unwrap();
        for sign in ["`", "'#'", "m^2"] {
            assert!(!page.contains(sign), "{boat}: {sign}");
        }
        assert!(page.contains(&as_on_the_page("`normal`")) || boat == "holm");
    }
}
