//! What a server must bear: huge, slow, broken and many requests.

use std::io::{Read, Write};
use std::process::Command;
use std::time::{Duration, Instant};

use super::client::{Server, multipart, read_answer, request};

#[test]
fn error_a_huge_body_is_refused_and_the_server_goes_on() {
    let server = Server::start(&[]);
    let body = vec![b'a'; 6 << 20];
    let answer = server.upload("boat_file", "huge.toml", &body);
    assert!(answer.status == 413 || answer.status == 0, "{}", answer.head);
    // Only the head is sent, so that the refusal can be read.
    let mut stream = server.connect();
    let head = format!(
        "POST /desk HTTP/1.1\r\nHost: localhost:{}\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 999999999\r\n\r\n",
        server.port
    );
    stream.write_all(head.as_bytes()).unwrap();
    let refused = read_answer(&mut stream);
    assert_eq!(refused.status, 413);
    assert!(refused.plain().contains("more than the page takes"));
    server.assert_alive();
}

#[test]
fn error_a_file_over_its_limit_is_refused_in_the_words_of_the_command_line() {
    let server = Server::start(&[]);
    let body = vec![b'#'; (1 << 20) + 1];
    let answer = server.upload("boat_file", "big.toml", &body);
    assert_eq!(answer.status, 422);
    assert!(answer.plain().contains("big.toml: larger than 1 MiB, so it is not a boat file"));
}

#[test]
fn error_a_slow_body_is_given_up_and_holds_nobody_up() {
    let server = Server::start(&[]);
    let mut slow = server.connect();
    let head = format!(
        "POST /desk HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 1000\r\n\r\ntext=",
        server.port
    );
    slow.write_all(head.as_bytes()).unwrap();
    let mut slow_head = server.connect();
    slow_head.write_all(b"GET / HTTP/1.1\r\nHost:").unwrap();
    let begun = Instant::now();
    server.assert_alive();
    let answer = read_answer(&mut slow);
    assert_eq!(answer.status, 408, "{}", answer.head);
    let waited = begun.elapsed();
    assert!(waited > Duration::from_secs(10) && waited < Duration::from_secs(50), "{waited:?}");
    let mut rest = Vec::new();
    let _ = slow_head.read_to_end(&mut rest);
    server.assert_alive();
}

#[test]
fn error_a_head_that_never_ends_is_given_up() {
    let server = Server::start(&[]);
    let mut slow = server.connect();
    slow.write_all(b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Slow: ").unwrap();
    let begun = Instant::now();
    // A letter now and then does not buy more time.
    while begun.elapsed() < Duration::from_secs(40) && slow.write_all(b"a").is_ok() {
        std::thread::sleep(Duration::from_millis(500));
    }
    let waited = begun.elapsed();
    assert!(waited > Duration::from_secs(5) && waited < Duration::from_secs(30), "{waited:?}");
    server.assert_alive();
}

#[test]
fn error_a_body_that_drips_is_given_up() {
    let server = Server::start(&[]);
    let mut slow = server.connect();
    let head = "POST /desk HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/x-www-form-urlencoded\r\nTransfer-Encoding: chunked\r\n\r\n";
    slow.write_all(head.as_bytes()).unwrap();
    let begun = Instant::now();
    while begun.elapsed() < Duration::from_secs(60) && slow.write_all(b"1\r\na\r\n").is_ok() {
        std::thread::sleep(Duration::from_millis(500));
    }
    let waited = begun.elapsed();
    assert!(waited > Duration::from_secs(10) && waited < Duration::from_secs(45), "{waited:?}");
    server.assert_alive();
}

#[test]
fn error_a_huge_body_without_a_length_is_refused() {
    let server = Server::start(&[]);
    let mut stream = server.connect();
    let head = "POST /desk HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/x-www-form-urlencoded\r\nTransfer-Encoding: chunked\r\n\r\n";
    stream.write_all(head.as_bytes()).unwrap();
    let chunk = [b"10000\r\n".as_slice(), &[b'a'; 0x1_0000], b"\r\n"].concat();
    // It is cut off long before so much was sent.
    let sent = (0..4096).take_while(|_| stream.write_all(&chunk).is_ok()).count();
    assert!(sent < 1024, "{sent} chunks of 64 KiB were taken");
    server.assert_alive();
}

#[test]
fn error_floods_of_headers_and_long_addresses_are_refused() {
    let server = Server::start(&[]);
    let many: String = (0..2000).map(|i| format!("X-Header-{i}: {i}\r\n")).collect();
    let answer = server.raw(
        format!("GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n{many}\r\n").as_bytes(),
    );
    assert_eq!(answer.status, 431, "{}", answer.head);
    let long = "a".repeat(2 << 20);
    let address = server.raw(
        format!("GET /desk?boat={long} HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n")
            .as_bytes(),
    );
    assert!(matches!(address.status, 0 | 414 | 431), "{}", address.head);
    let value = server
        .raw(format!("GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Long: {long}\r\n\r\n").as_bytes());
    assert!(matches!(value.status, 0 | 431), "{}", value.head);
    server.assert_alive();
}

#[test]
fn error_unknown_methods_are_refused() {
    let server = Server::start(&[]);
    let style = server.asset("desk.css");
    for method in ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "SAIL"] {
        for address in ["/", "/desk?boat=wren", "/papers/dealer.html?boat=wren", &style] {
            let answer = server.raw(&request(method, address, server.port, "", b""));
            assert_eq!(answer.status, 405, "{method} {address}: {}", answer.head);
        }
    }
    // What is posted where only reading makes sense.
    let posted = server.post("/", &[("boat", "wren")]);
    assert_eq!(posted.status, 405);
    // HEAD is GET without a body.
    let head = server.raw(&request("HEAD", "/form", server.port, "", b""));
    assert_eq!((head.status, head.body.len()), (200, 0));
    server.assert_alive();
}

#[test]
fn error_connections_closed_by_half_hold_up_nobody() {
    let server = Server::start(&[]);
    let address = "/desk/run?boat=wren&speed=20";
    let right = server.get(address).numbers("trim_deg");
    for _ in 0..200 {
        // The request is whole, and its sender will say no more: it is answered, or let go.
        let mut stream = server.connect();
        stream.write_all(&request("GET", address, server.port, "", b"")).unwrap();
        stream.shutdown(std::net::Shutdown::Write).unwrap();
        let answer = read_answer(&mut stream);
        if answer.status != 0 {
            assert_eq!((answer.status, answer.numbers("trim_deg")), (200, right.clone()));
        }
    }
    for _ in 0..200 {
        // It breaks off in the middle of its head or of its body.
        let mut stream = server.connect();
        stream
            .write_all(b"POST /desk HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 99\r\n\r\nte")
            .unwrap();
        stream.shutdown(std::net::Shutdown::Write).unwrap();
        assert!(matches!(read_answer(&mut stream).status, 0 | 400 | 413));
    }
    server.assert_alive();
}

#[test]
fn error_very_many_fields_are_no_harm() {
    let server = Server::start(&[]);
    let fields = "speed=1&".repeat(100_000) + "boat=wren&speed=20&units=marine";
    let kind = "application/x-www-form-urlencoded";
    let bytes = request("POST", "/desk/run", server.port, kind, fields.as_bytes());
    let answer = server.raw(&bytes);
    assert_eq!(answer.status, 200);
    assert_eq!(
        answer.numbers("trim_deg"),
        server.get("/desk/run?boat=wren&speed=20&units=marine").numbers("trim_deg")
    );
    let part = "--xyz\r\nContent-Disposition: form-data; name=\"a\"\r\n\r\nb\r\n";
    let parts = part.repeat(20_000) + "--xyz--\r\n";
    let kind = "multipart/form-data; boundary=xyz";
    let answer = server.raw(&request("POST", "/desk", server.port, kind, parts.as_bytes()));
    assert_eq!(answer.status, 404, "{}", answer.head);
    server.assert_alive();
}

#[test]
fn error_bytes_that_are_no_text_are_refused() {
    let server = Server::start(&[]);
    let file = server.upload("boat_file", "bad.toml", b"name = \"\xff\xfe\"\n");
    assert_eq!(file.status, 422);
    let said = "bad.toml: this is not text in UTF-8: line 1 holds something else";
    assert!(file.plain().contains(said), "{}", file.plain());
    let list = server.upload("stock_file", "bad.csv", b"name,\0\x01\n");
    assert_eq!(list.status, 422);
    assert!(list.plain().contains("bad.csv: this is not text"), "{}", list.plain());
    let zero = server.upload("boat_file", "zero.toml", b"name\0");
    assert_eq!(zero.status, 422);
    for address in
        ["/desk?boat=%ff%fe", "/desk?boat=wren&speed=%ff", "/desk/run?boat=wren&planes=%c3"]
    {
        let answer = server.get(address);
        assert!(matches!(answer.status, 200 | 400 | 404), "{address}: {}", answer.head);
    }
    let kind = "application/x-www-form-urlencoded";
    let form = server.raw(&request("POST", "/desk", server.port, kind, b"boat=\xff\xfe&text=\x80"));
    assert!(matches!(form.status, 400 | 404 | 422), "{}", form.head);
    server.assert_alive();
}

#[test]
fn error_paths_of_requests_reach_no_file() {
    let server = Server::start(&[]);
    for address in [
        "/../Cargo.toml",
        "/assets/../../Cargo.toml",
        "/assets/..%2f..%2fCargo.toml",
        "/assets/%2e%2e/%2e%2e/Cargo.toml",
        "//etc/passwd",
        "/etc/passwd",
        "/assets/%00",
        "/data/boats/wren.toml",
        "/desk?boat=../data/boats/wren.toml",
        "/desk?boat=/etc/passwd",
        "/boat-file?boat=..%2f..%2fetc%2fpasswd",
    ] {
        let answer = server.get(address);
        assert!(matches!(answer.status, 400 | 404), "{address}: {}", answer.head);
        let text = answer.text();
        assert!(!text.contains("root:") && !text.contains("[package]") && !text.contains("[hull]"));
    }
    let named = multipart("boat_file", "../../../etc/passwd", b"[hull]\n");
    let kind = "multipart/form-data; boundary=xyz";
    let answer = server.raw(&request("POST", "/desk", server.port, kind, &named));
    assert_eq!(answer.status, 422);
    assert!(answer.text().contains("passwd has") && !answer.text().contains("root:"));
    server.assert_alive();
}

#[test]
fn error_garbage_is_refused() {
    let server = Server::start(&[]);
    for bytes in [
        &b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc"[..],
        b"GET\r\n\r\n",
        b"GET / HTTP/9.9\r\n\r\n",
        b"POST /desk HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: multipart/form-data\r\nContent-Length: 4\r\nConnection: close\r\n\r\nabcd",
        b"DELETE /desk HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n",
    ] {
        let answer = server.raw(bytes);
        assert!(matches!(answer.status, 0 | 400 | 405 | 505), "{}", answer.head);
    }
    let unfinished =
        request("POST", "/desk", server.port, "multipart/form-data; boundary=xyz", b"--xyz\r\n");
    assert_eq!(server.raw(&unfinished).status, 400);
    server.assert_alive();
}

#[test]
fn error_other_names_of_this_machine_are_not_answered() {
    let server = Server::start(&[]);
    let answer = server.raw(b"GET / HTTP/1.1\r\nHost: boats.example\r\nConnection: close\r\n\r\n");
    assert_eq!(answer.status, 421);
    assert!(!answer.text().contains("Lantern"));
    for host in ["localhost", "[::1]:80", "127.0.0.1:9"] {
        let bytes = format!("GET / HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n");
        assert_eq!(server.raw(bytes.as_bytes()).status, 200, "{host}");
    }
}

#[test]
fn error_too_many_duties_are_refused() {
    let server = Server::start(&[]);
    let mut text = std::fs::read_to_string("data/boats/wren.toml").unwrap();
    let duty =
        "\n[[duty]]\nkind = \"hump-trim\"\nat_most = \"6 deg\"\nfrom = \"10 kn\"\nto = \"16 kn\"\n";
    text.push_str(&duty.repeat(500));
    let begun = Instant::now();
    let answer = server.upload("boat_file", "many.toml", text.as_bytes());
    assert_eq!(answer.status, 422);
    assert!(answer.plain().contains("and at most 50 are taken"), "{}", answer.plain());
    assert!(begun.elapsed() < Duration::from_secs(20));
}

#[test]
fn physics_a_thousand_drags_at_once_are_all_answered_rightly() {
    const DRAGS: usize = 1000;
    let server = Server::start(&[]);
    let alone: Vec<Vec<f64>> =
        (0..4).map(|i| server.get(&address(i)).numbers("resistance_n")).collect();
    let mut streams = Vec::with_capacity(DRAGS);
    for i in 0..DRAGS {
        // Where the system allows fewer open files, those that came first are read first.
        let Ok(mut stream) = std::net::TcpStream::connect(("127.0.0.1", server.port)) else {
            break;
        };
        stream.set_read_timeout(Some(Duration::from_secs(300))).unwrap();
        stream.write_all(&request("GET", &address(i), server.port, "", b"")).unwrap();
        streams.push(stream);
    }
    assert!(streams.len() >= 900, "only {} connections could be opened", streams.len());
    // What could not be opened comes afterwards, so that every one is asked for.
    let opened = streams.len();
    let mut first: Vec<_> = streams.into_iter().map(Some).collect();
    first.resize_with(DRAGS, || None);
    let begun = Instant::now();
    for (i, stream) in first.into_iter().enumerate() {
        let mut answer = match stream {
            Some(mut stream) => read_answer(&mut stream),
            None => server.get(&address(i)),
        };
        // A machine that cannot keep up tells the end of the queue to try again; so it does.
        while answer.status == 503 && begun.elapsed() < Duration::from_secs(300) {
            answer = server.get(&address(i));
        }
        assert_eq!(answer.status, 200, "{i} of {opened}: {}", answer.head);
        assert_eq!(answer.numbers("resistance_n"), alone[i % 4], "{i}");
    }
    server.assert_alive();
}

fn address(i: usize) -> String {
    let (speed, deflection) = (14 + 3 * (i % 4), 2 * (i % 4));
    format!("/desk/run?boat=lantern&planes=fitted&speed={speed}&deflection={deflection}")
}

#[test]
fn error_a_port_in_use_is_named() {
    let server = Server::start(&[]);
    let port = server.port.to_string();
    let output = Command::new(env!("CARGO_BIN_EXE_planewright"))
        .args(["serve", "--port", &port])
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(
        said.contains(&format!("127.0.0.1:{port}: another program uses this port already")),
        "{said}"
    );
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("--port 0 takes one that is free"), "{said}");
}

#[cfg(unix)]
#[test]
fn regression_it_stops_when_told() {
    for signal in ["-INT", "-TERM"] {
        let mut server = Server::start(&[]);
        // An idle connection must not keep it.
        let _idle = server.connect();
        let id = server.child.id().to_string();
        assert!(Command::new("kill").args([signal, &id]).status().unwrap().success());
        let begun = Instant::now();
        let status = loop {
            if let Some(status) = server.child.try_wait().unwrap() {
                break status;
            }
            assert!(begun.elapsed() < Duration::from_secs(15), "{signal}: it goes on");
            std::thread::sleep(Duration::from_millis(20));
        };
        assert_eq!(status.code(), Some(0), "{signal}");
    }
}

#[test]
fn practice_serving_to_a_network_is_warned_of() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_planewright"))
        .args(["serve", "--address", "0.0.0.0", "--port", "0"])
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    let mut said = [0; 60];
    child.stderr.as_mut().unwrap().read_exact(&mut said).unwrap();
    child.kill().unwrap();
    child.wait().unwrap();
    let said = String::from_utf8_lossy(&said);
    assert!(said.starts_with("warning: 0.0.0.0 is not this machine alone"), "{said}");
}
