//! A drag while pages elsewhere post heavy bodies without pause.
//!
//! A second of it here. The figure of `reports/reliability.md` comes from
//! `PLANEWRIGHT_FLOOD=30 cargo test --release --test web foreign_flood -- --nocapture`, in seconds.

use std::io::Write;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
use std::time::{Duration, Instant};

use super::client::{Server, encoded, read_answer};

/// Pages that post at once.
const PAGES: usize = 8;
/// A drag as the script asks for it.
const DRAG: &str = "/desk/run?boat=lantern&planes=600+mm+x+250+mm&speed=16&deflection=6";

/// A boat as heavy to size as the page takes, with a comment that makes a mebibyte of it.
fn heavy() -> Vec<u8> {
    let boat = std::fs::read_to_string("tests/abuse/slow_size_969.toml").unwrap();
    let text = format!("{boat}\n# {}\n", "x".repeat((1 << 20) - boat.len() - 10));
    format!("text={}", encoded(&text)).into_bytes()
}

#[test]
fn error_a_drag_is_answered_under_a_foreign_flood() {
    let seconds = std::env::var("PLANEWRIGHT_FLOOD").map_or(1.0, |text| text.parse().unwrap());
    let server = Server::start(&[]);
    let body = heavy();
    let head = format!(
        "POST /desk HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nOrigin: http://boats.example\r\nSec-Fetch-Site: cross-site\r\n\
         Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {}\r\n\r\n",
        server.port,
        body.len()
    );
    let alone = drags(&server, Instant::now() + Duration::from_secs_f64(0.3 * seconds));
    let is_over = AtomicBool::new(false);
    let [refused, broken] = [const { AtomicU32::new(0) }; 2];
    let during = std::thread::scope(|scope| {
        for _ in 0..PAGES {
            scope.spawn(|| {
                while !is_over.load(Ordering::Relaxed) {
                    let mut stream = server.connect();
                    // It is refused by its head: the rest may find nobody who reads it.
                    let _ =
                        stream.write_all(head.as_bytes()).and_then(|()| stream.write_all(&body));
                    match read_answer(&mut stream).status {
                        403 => refused.fetch_add(1, Ordering::Relaxed),
                        0 => broken.fetch_add(1, Ordering::Relaxed),
                        other => panic!("a foreign page was answered {other}"),
                    };
                }
            });
        }
        let during = drags(&server, Instant::now() + Duration::from_secs_f64(seconds));
        is_over.store(true, Ordering::Relaxed);
        during
    });
    let posts = refused.into_inner() + broken.into_inner();
    assert!(posts as usize >= PAGES, "{posts} posts are no flood");
    println!(
        "{posts} foreign posts of {} kB: a drag takes {:.1?} at the median of {}, {:.1?} at worst; without them {:.1?} of {}",
        body.len() / 1000,
        during[during.len() / 2],
        during.len(),
        during[during.len() - 1],
        alone[alone.len() / 2],
        alone.len()
    );
    server.assert_alive();
}

/// Drags one after the other until some time; how long each took, the shortest first.
fn drags(server: &Server, end: Instant) -> Vec<Duration> {
    let mut took = Vec::new();
    while took.is_empty() || Instant::now() < end {
        let began = Instant::now();
        assert_eq!(server.get(DRAG).status, 200);
        took.push(began.elapsed());
    }
    took.sort_unstable();
    took
}
