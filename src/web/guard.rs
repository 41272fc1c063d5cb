//! Limits on every request, and headers on every answer.

use std::net::IpAddr;
use std::sync::Arc;
use std::time::Duration;

use axum::body::{Body, to_bytes};
use axum::extract::{Request, State};
use axum::http::{HeaderName, HeaderValue, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use super::page;
use super::serve::Site;

/// Largest body of a request: a boat file and a stock list, each of at most 1 MiB, and what packing adds.
pub(super) const LARGEST_BODY_BYTES: usize = 4 << 20;
/// Time that a body may take to arrive.
pub(super) const BODY_TIME: Duration = Duration::from_secs(15);
/// Time that an answer may take.
pub(super) const ANSWER_TIME: Duration = Duration::from_secs(60);

/// What a page of this server may load and do: nothing that is not its own.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; \
img-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// What a paper may load and do: its own look and the pictures that stand in it; no script, no form, nothing from elsewhere.
pub(super) const PAPER_POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; \
form-action 'none'; base-uri 'none'; frame-ancestors 'none'";

/// Headers of every answer.
const HEADERS: [(HeaderName, &str); 5] = [
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::X_FRAME_OPTIONS, "DENY"),
    (header::REFERRER_POLICY, "no-referrer"),
    (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
];

/// Reads the body within its limits, lets the request be answered within its time, and adds the headers.
pub(super) async fn guard(State(site): State<Arc<Site>>, request: Request, next: Next) -> Response {
    let answer = guarded(&site, request, next).await;
    let mut answer = answer.unwrap_or_else(|refusal| refusal);
    for (name, value) in HEADERS {
        answer.headers_mut().insert(name, HeaderValue::from_static(value));
    }
    let unless_own =
        [(header::CONTENT_SECURITY_POLICY, POLICY), (header::CACHE_CONTROL, "no-store")];
    for (name, value) in unless_own {
        answer.headers_mut().entry(name).or_insert(HeaderValue::from_static(value));
    }
    answer
}

async fn guarded(site: &Site, request: Request, next: Next) -> Result<Response, Response> {
    if !names_this_server(site.address, &request) {
        return Err(refusal(
            StatusCode::MISDIRECTED_REQUEST,
            "This page answers only under its own address, such as 127.0.0.1 or localhost.",
        ));
    }
    let (head, body) = request.into_parts();
    let announced =
        head.headers.get(header::CONTENT_LENGTH).and_then(|length| length.to_str().ok());
    if announced
        .and_then(|length| length.parse().ok())
        .is_some_and(|length: usize| length > LARGEST_BODY_BYTES)
    {
        return Err(too_large());
    }
    let read = tokio::time::timeout(BODY_TIME, to_bytes(body, LARGEST_BODY_BYTES)).await;
    let bytes = match read {
        Ok(Ok(bytes)) => bytes,
        Ok(Err(_)) => return Err(too_large()),
        Err(_) => {
            return Err(closing(refusal(
                StatusCode::REQUEST_TIMEOUT,
                "The request took too long to arrive.",
            )));
        }
    };
    let request = Request::from_parts(head, Body::from(bytes));
    tokio::time::timeout(ANSWER_TIME, next.run(request)).await.map_err(|_| {
        refusal(StatusCode::SERVICE_UNAVAILABLE, "The answer took too long; try again in a moment.")
    })
}

/// Whether the request is meant for this server. A page elsewhere whose name was made to point
/// here must not read what is served to this machine alone.
fn names_this_server(address: IpAddr, request: &Request) -> bool {
    if !address.is_loopback() {
        return true;
    }
    let in_head = request.headers().get(header::HOST).and_then(|host| host.to_str().ok());
    let host =
        in_head.or_else(|| request.uri().authority().map(|a| a.as_str())).unwrap_or_default();
    let name = match host.strip_prefix('[') {
        Some(rest) => rest.split(']').next().unwrap_or_default(),
        None => host.rsplit_once(':').map_or(host, |(name, _)| name),
    };
    name.eq_ignore_ascii_case("localhost")
        || name.parse::<IpAddr>().is_ok_and(|address| address.is_loopback())
}

fn too_large() -> Response {
    closing(refusal(
        StatusCode::PAYLOAD_TOO_LARGE,
        "That is more than the page takes: a boat file or a stock list has at most 1 MiB.",
    ))
}

/// A refusal after which the rest of the request is not read.
fn closing(mut refusal: Response) -> Response {
    refusal.headers_mut().insert(header::CONNECTION, HeaderValue::from_static("close"));
    refusal
}

/// A page that says why there is no other.
pub(super) fn refusal(status: StatusCode, why: &str) -> Response {
    (status, page::refusal(why)).into_response()
}
