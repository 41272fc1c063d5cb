//! Limits on every request, and headers on every answer.

use std::sync::Arc;
use std::time::Duration;

use axum::body::Body;
use axum::extract::{Request, State};
use axum::http::{HeaderName, HeaderValue, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use super::body::{LARGEST_BODY_BYTES, Room, Unread};
use super::origin::{Misnamed, Names, is_from_elsewhere};
use super::page;

/// Time that an answer may take.
pub(super) const ANSWER_TIME: Duration = Duration::from_secs(60);
/// After so many seconds another try is worth it.
pub(super) const TRY_AGAIN_S: &str = "5";

/// What every request is held against.
#[derive(Clone, Debug)]
pub(super) struct Watch {
    pub names: Names,
    pub room: Room,
}

/// What a page of this server may load and do: nothing that is not its own.
pub(super) const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; \
img-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// What a paper may load and do: its own look and the pictures that stand in it; no script, no form, nothing from elsewhere.
const PAPER_POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; \
form-action 'none'; base-uri 'none'; frame-ancestors 'none'";

/// The same for a page that moves by a script of its own, which asks nothing of anybody.
const MOVING_PAPER_POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; \
img-src data:; form-action 'none'; base-uri 'none'; frame-ancestors 'none'; sandbox allow-scripts allow-modals";

/// What a paper may load and do.
pub(super) const fn paper_policy(has_script: bool) -> &'static str {
    if has_script { MOVING_PAPER_POLICY } else { PAPER_POLICY }
}

/// Headers of every answer.
pub(super) const HEADERS: [(HeaderName, &str); 5] = [
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::X_FRAME_OPTIONS, "DENY"),
    (header::REFERRER_POLICY, "same-origin"),
    (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
];

/// Reads the body within its limits, lets the request be answered within its time, and adds the headers.
pub(super) async fn guard(
    State(watch): State<Arc<Watch>>,
    request: Request,
    next: Next,
) -> Response {
    let answer = guarded(&watch, request, next).await;
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

async fn guarded(watch: &Watch, request: Request, next: Next) -> Result<Response, Response> {
    let (head, body) = request.into_parts();
    watch.names.check(&head.headers, &head.uri).map_err(|wrong| match wrong {
        Misnamed::Twice => refusal(StatusCode::BAD_REQUEST, "The request names two servers."),
        Misnamed::Foreign => refusal(
            StatusCode::MISDIRECTED_REQUEST,
            "This page answers only under its own address, such as 127.0.0.1 or localhost. Where it is served to others under a name, start it with --name and that name.",
        ),
    })?;
    if is_from_elsewhere(&head.method, &head.uri, &head.headers) {
        return Err(refusal(
            StatusCode::FORBIDDEN,
            "A page elsewhere asked for this, which only this page may do. To see it, begin here.",
        ));
    }
    let announced =
        head.headers.get(header::CONTENT_LENGTH).and_then(|length| length.to_str().ok());
    if announced
        .and_then(|length| length.parse().ok())
        .is_some_and(|length: usize| length > LARGEST_BODY_BYTES)
    {
        return Err(too_large());
    }
    let mut held = watch.room.read(body).await.map_err(|why| match why {
        Unread::TooLarge => too_large(),
        Unread::TooSlow => {
            closing(refusal(StatusCode::REQUEST_TIMEOUT, "The request took too long to arrive."))
        }
        Unread::Broken => closing(refusal(
            StatusCode::BAD_REQUEST,
            "The request breaks off, or is not what its head says.",
        )),
        Unread::Full => closing(again(refusal(
            StatusCode::SERVICE_UNAVAILABLE,
            "Too much is being sent to this page just now; try again in a few seconds.",
        ))),
    })?;
    let request = Request::from_parts(head, Body::from(std::mem::take(&mut held.bytes)));
    let answer = tokio::time::timeout(ANSWER_TIME, next.run(request)).await;
    drop(held);
    answer.map_err(|_| {
        again(refusal(
            StatusCode::SERVICE_UNAVAILABLE,
            "The answer took too long, and was given up. Try again in a moment, or ask with the command line.",
        ))
    })
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

/// A refusal after which another try is worth it.
pub(super) fn again(mut refusal: Response) -> Response {
    refusal.headers_mut().insert(header::RETRY_AFTER, HeaderValue::from_static(TRY_AGAIN_S));
    refusal
}

/// A page that says why there is no other.
pub(super) fn refusal(status: StatusCode, why: &str) -> Response {
    (status, page::refusal(why)).into_response()
}
