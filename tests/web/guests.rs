//! Who may ask, how much may be sent at once, and that nobody's work holds up another.

use std::io::{Read, Write};
use std::time::{Duration, Instant};

use super::client::{Server, encoded, read_answer, request};

const SAFE: [&str; 4] = [
    "content-security-policy: default-src 'none';",
    "x-content-type-options: nosniff",
    "x-frame-options: deny",
    "referrer-policy: same-origin",
];

#[test]
fn error_pages_elsewhere_can_only_lead_to_the_first_page() {
    let server = Server::start(&[]);
    let from = |site: &str, mode: &str| {
        format!(
            "Sec-Fetch-Site: {site}\r\nSec-Fetch-Mode: {mode}\r\nOrigin: http://boats.example\r\n"
        )
    };
    for site in ["cross-site", "same-site"] {
        for (method, address, mode) in [
            ("POST", "/desk?boat=lantern", "navigate"),
            ("POST", "/desk", "no-cors"),
            ("GET", "/desk?boat=lantern", "navigate"),
            ("GET", "/papers/dealer.html?boat=lantern", "no-cors"),
            ("GET", "/", "no-cors"),
        ] {
            let answer = server.with_head(method, address, &from(site, mode));
            assert_eq!(answer.status, 403, "{site} {method} {address}: {}", answer.head);
            assert!(!answer.text().contains("Lantern Bay"), "{address}");
        }
        let lines = format!("Sec-Fetch-Site: {site}\r\nSec-Fetch-Mode: navigate\r\n");
        assert_eq!(server.with_head("GET", "/", &lines).status, 200);
    }
    // A browser that says only where a form came from.
    for origin in ["http://boats.example", "null"] {
        let answer = server.with_head("POST", "/desk", &format!("Origin: {origin}\r\n"));
        assert_eq!(answer.status, 403, "{origin}");
    }
    let own =
        format!("Origin: http://127.0.0.1:{}\r\nSec-Fetch-Site: same-origin\r\n", server.port);
    assert_eq!(server.with_head("GET", "/desk?boat=wren", &own).status, 200);
    assert_eq!(server.with_head("GET", "/desk?boat=wren", "Sec-Fetch-Site: none\r\n").status, 200);
}

#[test]
fn error_two_names_in_one_request_are_refused() {
    let server = Server::start(&[]);
    let port = server.port;
    for second in ["127.0.0.1", "boats.example"] {
        let bytes = format!(
            "GET / HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nHost: {second}\r\nConnection: close\r\n\r\n"
        );
        assert_eq!(server.raw(bytes.as_bytes()).status, 400, "{second}");
    }
    let bytes = format!(
        "GET http://boats.example/ HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nConnection: close\r\n\r\n"
    );
    assert_eq!(server.raw(bytes.as_bytes()).status, 421);
}

#[test]
fn error_a_page_served_to_others_answers_under_its_own_names_only() {
    let server = Server::start(&["--address", "0.0.0.0", "--name", "yard.example"]);
    let status = |host: &str| {
        let bytes = format!("GET /form HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n");
        server.raw(bytes.as_bytes()).status
    };
    let port = server.port;
    for host in ["localhost", "127.0.0.1", "192.0.2.7", "yard.example", "YARD.example"] {
        assert_eq!(status(&format!("{host}:{port}")), 200, "{host}");
    }
    for host in ["boats.example", "yard.example.boats.example", "127.0.0.1.boats.example", ""] {
        assert_eq!(status(host), 421, "{host}");
    }
}

#[test]
fn regression_refusals_below_the_page_carry_the_same_headers() {
    let server = Server::start(&[]);
    let many: String = (0..2000).map(|i| format!("X-Header-{i}: {i}\r\n")).collect();
    let long = "a".repeat(200_000);
    for (bytes, status) in [
        (format!("GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n{many}\r\n"), 431),
        (format!("GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Long: {long}\r\n\r\n"), 431),
        ("GET\r\n\r\n".to_owned(), 400),
        ("\u{1}\u{2}\u{3}\r\n\r\n".to_owned(), 400),
    ] {
        let answer = server.raw(bytes.as_bytes());
        assert_eq!(answer.status, status, "{}", answer.head);
        let head = answer.head.to_lowercase();
        for header in SAFE {
            assert!(head.contains(header), "{status}: {header} in {head}");
        }
        assert!(!answer.body.is_empty(), "{status}: it says why");
    }
    server.assert_alive();
}

#[test]
fn error_pasted_text_has_the_limit_of_a_file() {
    let server = Server::start(&[]);
    let long = format!("name = \"Long\" # {}", "x".repeat((1 << 20) + 1));
    let answer = server.post("/desk", &[("text", &long)]);
    assert_eq!(answer.status, 422);
    assert!(answer.plain().contains("larger than 1 MiB"), "{}", answer.plain());
    let list = server.post("/desk", &[("boat", "wren"), ("stock_text", &long)]);
    assert_eq!(list.status, 422);
    assert!(list.plain().contains("larger than 1 MiB"), "{}", list.plain());
}

#[test]
fn regression_a_pasted_boat_stands_in_its_page_no_more_than_twice() {
    let server = Server::start(&["--draws", "100"]);
    let boat = std::fs::read_to_string("data/boats/wren.toml").unwrap();
    let boat = format!("{boat}\n# a line that is nowhere else\n");
    let page = server.post("/desk", &[("text", &boat)]);
    assert_eq!(page.status, 200);
    // Once as the state of the desk, and once to be changed.
    assert_eq!(page.text().matches("a line that is nowhere else").count(), 2);
}

#[test]
fn regression_files_of_the_page_have_their_version_in_their_address() {
    let server = Server::start(&[]);
    let address = server.asset("desk.css");
    let style = server.get(&address);
    assert_eq!(style.status, 200);
    assert!(style.head.contains("immutable"), "{}", style.head);
    for other in ["/assets/desk.css", "/assets/00000000/desk.css"] {
        assert_eq!(server.get(other).status, 404, "{other}");
    }
    // The lettering that it names stands beside it.
    let folder = address.rsplit_once('/').unwrap().0;
    for name in ["plain.ttf", "bold.ttf", "title.ttf"] {
        assert!(style.text().contains(&format!("url(\"{name}\")")), "{name}");
        assert_eq!(server.get(&format!("{folder}/{name}")).status, 200, "{name}");
    }
}

/// A value of the process of the server, in its unit.
#[cfg(target_os = "linux")]
fn status_of(server: &Server, key: &str) -> u64 {
    let text = std::fs::read_to_string(format!("/proc/{}/status", server.child.id())).unwrap();
    let line = text.lines().find(|line| line.starts_with(key)).unwrap();
    line.split_whitespace().nth(1).unwrap().parse().unwrap()
}

#[cfg(target_os = "linux")]
#[test]
fn error_many_slow_bodies_take_little_memory() {
    const BODY: usize = 4 << 20;
    let server = Server::start(&[]);
    server.assert_alive();
    let before = status_of(&server, "VmHWM:");
    let head = format!(
        "POST /desk HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: {BODY}\r\n\r\ntext=",
        server.port
    );
    let part = vec![b'a'; 1 << 18];
    let slow: Vec<_> = (0..200)
        .map(|_| {
            let mut stream = server.connect();
            stream.set_write_timeout(Some(Duration::from_secs(2))).unwrap();
            let _ = stream.write_all(head.as_bytes());
            // All but the last of it: each waits for the rest.
            let sent = (0..15).take_while(|_| stream.write_all(&part).is_ok()).count();
            (stream, sent)
        })
        .collect();
    let grown = status_of(&server, "VmHWM:") - before;
    assert!(grown < 160_000, "{grown} kB more for 200 slow bodies");
    // Some wait, the others are told to come again, and a drag needs no room.
    let drag = server.get("/desk/run?boat=lantern&planes=fitted&speed=20&deflection=3");
    assert_eq!(drag.status, 200);
    drop(slow);
    std::thread::sleep(Duration::from_secs(1));
    server.assert_alive();
}

#[cfg(target_os = "linux")]
#[test]
fn error_only_so_many_connections_are_open_at_once() {
    let server = Server::start(&[]);
    let idle: Vec<_> = (0..800)
        .filter_map(|_| std::net::TcpStream::connect(("127.0.0.1", server.port)).ok())
        .collect();
    std::thread::sleep(Duration::from_millis(500));
    let open = std::fs::read_dir(format!("/proc/{}/fd", server.child.id())).unwrap().count();
    assert!(open < 560, "{open} files are open for {} connections", idle.len());
    // Whoever says nothing is let go, and others come in.
    server.assert_alive();
}

/// Seconds of work that the server has done.
#[cfg(target_os = "linux")]
fn worked_s(server: &Server) -> f64 {
    let text = std::fs::read_to_string(format!("/proc/{}/stat", server.child.id())).unwrap();
    let fields: Vec<&str> = text.rsplit_once(')').unwrap().1.split_whitespace().collect();
    let ticks = |place: usize| fields[place].parse::<f64>().unwrap();
    (ticks(11) + ticks(12)) / 100.0
}

#[cfg(target_os = "linux")]
#[test]
fn regression_work_for_a_visitor_who_is_gone_ends() {
    // So many draws that nothing would be done for minutes.
    let server = Server::start(&["--draws", "100000"]);
    for address in ["/desk?boat=lantern", "/papers/dealer.html?boat=holm"] {
        let mut stream = server.connect();
        stream.write_all(&request("GET", address, server.port, "", b"")).unwrap();
        std::thread::sleep(Duration::from_secs(3));
        stream.set_nonblocking(true).unwrap();
        let waits =
            stream.peek(&mut [0]).is_err_and(|e| e.kind() == std::io::ErrorKind::WouldBlock);
        assert!(waits, "{address}: it is at work");
        drop(stream);
        // What is between two questions whether to go on may take a moment on a busy machine.
        let begun = Instant::now();
        let mut more = f64::INFINITY;
        while more >= 0.1 && begun.elapsed() < Duration::from_secs(40) {
            let before = worked_s(&server);
            std::thread::sleep(Duration::from_secs(2));
            more = worked_s(&server) - before;
        }
        assert!(more < 0.1, "{address}: {more} s of work for nobody");
    }
}

#[test]
fn regression_boats_brought_by_others_do_not_hold_up_a_drag() {
    let server = Server::start(&[]);
    let text = std::fs::read_to_string("data/boats/lantern.toml").unwrap();
    let mut others = Vec::new();
    for number in 0..6 {
        let boat = text.replace("Lantern Bay", &format!("Other {number}"));
        let body = format!("text={}", encoded(&boat));
        let kind = "application/x-www-form-urlencoded";
        let mut stream = server.connect();
        stream.write_all(&request("POST", "/desk", server.port, kind, body.as_bytes())).unwrap();
        others.push(stream);
    }
    let mut times: Vec<Duration> = (0..15)
        .map(|number| {
            let begun = Instant::now();
            let drag =
                format!("/desk/run?boat=wren&planes=fitted&speed={}&deflection=3", 15 + number);
            assert_eq!(server.get(&drag).status, 200);
            begun.elapsed()
        })
        .collect();
    times.sort_unstable();
    assert!(times[7] < Duration::from_millis(800), "{times:?}");
    for stream in &mut others {
        let answer = read_answer(stream);
        assert!(matches!(answer.status, 200 | 503), "{}", answer.head);
    }
}

#[test]
fn error_an_answer_that_nobody_reads_holds_up_nobody() {
    let server = Server::start(&["--draws", "100"]);
    let deaf: Vec<_> = (0..8)
        .map(|_| {
            let mut stream = server.connect();
            let _ = stream.write_all(&request("GET", "/desk?boat=wren", server.port, "", b""));
            stream
        })
        .collect();
    server.assert_alive();
    let mut first = [0];
    assert!((&deaf[0]).read(&mut first).is_ok());
}
