//! Hostile requests: whatever stands in the address of the page or is posted to it is answered or refused,
//! nothing of it comes back as more than text, and no answer fails.

use std::sync::{LazyLock, Mutex};

use axum::body::{Body, to_bytes};
use axum::http::{Request, StatusCode, header};
use hyper::service::Service;
use hyper_util::service::TowerToHyperService;
use planewright::web::{Site, router};
use proptest::prelude::*;
use tokio::runtime::{Builder, Runtime};

use super::check_seen;
use super::mutate::{edits, spoilt};

/// What stands in the addresses and forms of the page, so that pieces of each get into the others. How she is
/// set stands first: what comes later counts, and without it the whole answer is computed for every request.
static STATES: LazyLock<Vec<String>> = LazyLock::new(|| {
    let set = "planes=none&speed=16&deflection=0";
    let states = [
        "boat=wren",
        "boat=wren&planes=fitted&units=marine&in=marine&steps=marine&speed=16.5&deflection=6",
        "boat=lantern&planes=725+mm+x+250+mm&units=imperial&in=imperial&speed=22&deflection=4&aboard=on",
        "boat=holm&condition=rescue&speed=9+m%2Fs&deflection=0.1+rad&forces=on&planes=fitted",
        "boat=lantern&stock=demo&condition=normal&speed=30+mph",
        "form=1&name=My+boat&overall_length=24+ft+3+in&overall_beam=2.55+m&deadrise=deep+V&mass=2800+kg\
         &drive=outboard&power=220+kW&for=bow-high&for=leans",
        "form=1&name=%C3%84&bottom_length=6.5+m&chine_beam=2.25+m&deadrise=18+deg&mass=6200+lb&lcg=2.45+m\
         &vcg=0.75+m&drive=shaft&top_speed=32+kn&span=24+in&chord=9+in&units=metric",
        "boat=wren&stock_text=name,span,chord,price%0Aplain,600+mm,230+mm,410&stock_name=own.csv",
        "text=name+%3D+%22A%22%0A%5Bhull%5D%0Abottom_length+%3D+%226.5+m%22%0Achine_beam+%3D+%222.25+m%22%0A\
         deadrise+%3D+%2218+deg%22%0A%5Bweight%5D%0Amass+%3D+%222800+kg%22%0A&text_name=a.toml",
    ];
    states.iter().map(|state| format!("{set}&{state}")).collect()
});

/// Where it is sent, most often where it costs least.
fn paths() -> impl Strategy<Value = &'static str> {
    prop_oneof![
        300 => Just("/desk/run"),
        350 => Just("/form"),
        250 => Just("/boat-file"),
        50 => Just("/"),
        2 => Just("/desk"),
        1 => Just("/desk/sure"),
        1 => Just("/papers/owner.html"),
        5 => Just("/papers/\u{202e}.html"),
    ]
}

/// How it is sent.
#[derive(Clone, Copy, Debug)]
enum Way {
    Address,
    Form,
    Upload,
}

/// The page without a socket.
struct Served {
    runtime: Runtime,
    page: TowerToHyperService<axum::Router>,
}

static SERVED: LazyLock<Mutex<Served>> = LazyLock::new(|| {
    let runtime = Builder::new_current_thread().enable_all().build().expect("a runtime");
    let page = router(Site { draws: 50, ..Site::default() }).expect("a page");
    Mutex::new(Served { runtime, page: TowerToHyperService::new(page) })
});

struct Answer {
    status: StatusCode,
    kind: String,
    kept_address: Option<String>,
    text: String,
}

impl Served {
    fn asked(&self, request: Request<Body>) -> Answer {
        self.runtime.block_on(async {
            let answer = self.page.call(request).await.expect("an answer");
            let of = |name: &str| {
                let value = answer.headers().get(name)?;
                Some(value.to_str().expect("a head of plain letters").to_owned())
            };
            assert_eq!(of("x-content-type-options").as_deref(), Some("nosniff"));
            assert!(of("content-security-policy").is_some_and(|policy| policy.contains("'none'")));
            let (status, kind) = (answer.status(), of("content-type").unwrap_or_default());
            let kept_address = of("hx-replace-url");
            let bytes = to_bytes(answer.into_body(), usize::MAX).await.expect("a body");
            let text = String::from_utf8(bytes.to_vec()).expect("text");
            Answer { status, kind, kept_address, text }
        })
    }
}

/// The request, where its address can be one at all.
fn request(path: &str, way: Way, state: &[u8]) -> Option<Request<Body>> {
    let path: String = percent(path.as_bytes(), |byte| byte == b'/' || byte == b'.');
    let (method, address, kind, body) = match way {
        // Marks that separate its parts stay; what no address can hold is sent as every browser would.
        Way::Address => {
            let query = percent(state, |byte| b"&=+%;,.:/?@!$'()*-_~".contains(&byte));
            ("GET", format!("{path}?{query}"), None, Vec::new())
        }
        Way::Form => ("POST", path, Some("application/x-www-form-urlencoded"), state.to_vec()),
        Way::Upload => ("POST", path, Some("multipart/form-data; boundary=xyz"), upload(state)),
    };
    let request = Request::builder().method(method).uri(address).header(header::HOST, "127.0.0.1");
    let request = match kind {
        Some(kind) => request.header(header::CONTENT_TYPE, kind),
        None => request,
    };
    request.body(Body::from(body)).ok()
}

/// The parts of a state as parts of an upload: texts as files, all else as fields.
fn upload(state: &[u8]) -> Vec<u8> {
    let mut body = Vec::new();
    for part in state.split(|&byte| byte == b'&') {
        let middle = part.iter().position(|&byte| byte == b'=').unwrap_or(part.len());
        let (name, value) = part.split_at(middle);
        let name = match name {
            b"text" => &b"boat_file\"; filename=\"a.toml"[..],
            b"stock_text" => &b"stock_file\"; filename=\"../own.csv"[..],
            name => name,
        };
        body.extend(b"--xyz\r\nContent-Disposition: form-data; name=\"");
        body.extend(name);
        body.extend(b"\"\r\n\r\n");
        body.extend(value.get(1..).unwrap_or_default());
        body.extend(b"\r\n");
    }
    body.extend(b"--xyz--\r\n");
    body
}

fn percent(bytes: &[u8], stays: impl Fn(u8) -> bool) -> String {
    let mut text = String::new();
    for &byte in bytes {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' => text.push(char::from(byte)),
            byte if stays(byte) => text.push(char::from(byte)),
            byte => text.push_str(&format!("%{byte:02X}")),
        }
    }
    text
}

/// What no answer holds: pieces of a request that have become part of the page, and numbers that are none.
fn check_page(text: &str) {
    let names = names_in_tags(text);
    for foreign in ["<script>x()", "onclick", "data-si=\"NaN", "data-si=\"inf"] {
        let within = if foreign == "onclick" { &names } else { text };
        let found =
            within.find(foreign).map(|at| within[at..].chars().take(300).collect::<String>());
        assert_eq!(found, None);
    }
    for drawn in [" d=\"", " x=\"", " y=\"", " points=\"", " width=\"", " cx=\""] {
        for value in text.split(drawn).skip(1).filter_map(|rest| rest.split('"').next()) {
            assert!(!value.contains("NaN") && !value.contains("inf"), "{drawn}{value}");
        }
    }
}

/// The names of the tags of a page and of their attributes, without values, and without what is text.
fn names_in_tags(page: &str) -> String {
    let (mut is_tag, mut is_value) = (false, false);
    let mut names = String::new();
    for letter in page.chars() {
        match letter {
            '<' => is_tag = true,
            '>' if !is_value => is_tag = false,
            '"' if is_tag => is_value = !is_value,
            letter if is_tag && !is_value => names.push(letter),
            _ => {}
        }
    }
    names
}

/// A page without the texts of files in it, which stand there to be changed, letter by letter as they came.
fn without_texts(page: &str) -> String {
    let mut parts = page.split("<textarea");
    let first = parts.next().unwrap_or_default().to_owned();
    let after = |part: &str| part.split_once("</textarea>").map(|(_, after)| after.to_owned());
    std::iter::once(first).chain(parts.filter_map(after)).collect()
}

proptest! {
    #![proptest_config(super::config())]

    #[test]
    fn error_a_spoilt_request_is_answered_or_refused(
        path in paths(),
        way in prop::sample::select(vec![Way::Address, Way::Form, Way::Upload]),
        edits in edits(),
    ) {
        let state = spoilt(&STATES, &edits);
        let Some(request) = request(path, way, &state) else { return Ok(()) };
        let served = SERVED.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        let answer = served.asked(request);
        let given = String::from_utf8_lossy(&state).into_owned();
        let status = answer.status.as_u16();
        prop_assert!([200, 400, 404, 405, 413, 422].contains(&status), "{status}: {path} {way:?} {given}");
        if answer.kind.starts_with("text/html") {
            check_page(&answer.text);
            check_seen(&without_texts(&answer.text));
        }
        if let Some(address) = answer.kept_address {
            prop_assert!(address.starts_with("/desk?"), "{address}");
            let again = address.replacen("/desk?", "/desk/run?", 1);
            let again = Request::get(&again).header(header::HOST, "127.0.0.1").body(Body::empty());
            let again = served.asked(again.expect("an address"));
            prop_assert_eq!(again.status, StatusCode::OK, "{} of {}", address, given);
            prop_assert!(again.text == answer.text, "{} of {} shows another", address, given);
        }
    }
}
