//! Addresses of the page, and what stands behind each.

use std::sync::Arc;

use axum::extract::{Path, Request, State};
use axum::http::{HeaderName, HeaderValue, StatusCode, header};
use axum::middleware::from_fn_with_state;
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use axum::{Extension, Router};
use tokio::task::JoinHandle;

use super::answer::{Refused, Run, run_only};
use super::ask::{Ask, Source};
use super::body::{LARGEST_BODY_BYTES, Room};
use super::origin::Names;
use super::posted::fields;
use super::serve::Site;
use super::slow::Behind;
use super::{asset, guard, page, slow};
use crate::units::UnitChoice;

/// Tells the script to keep the address of the page in step with the sliders.
const KEEP_ADDRESS: HeaderName = HeaderName::from_static("hx-replace-url");

pub(super) fn router(site: Arc<Site>, behind: Behind) -> Router {
    let names = Names::of(site.address, &site.names);
    let watch = Arc::new(guard::Watch { names, room: Room::new() });
    Router::new()
        .route("/", get(start))
        .route("/form", get(form))
        .route("/desk", get(slow::desk).post(slow::desk))
        .route("/desk/run", get(run).post(run))
        .route("/desk/sure", get(slow::sure).post(slow::sure))
        .route("/papers/{name}", get(slow::paper).post(slow::paper))
        .route("/boat-file", get(boat_file).post(boat_file))
        .route("/assets/{version}/{name}", get(file_of_the_page))
        .fallback(nothing_here)
        .method_not_allowed_fallback(not_so)
        .layer(Extension(Arc::new(behind)))
        .layer(axum::extract::DefaultBodyLimit::max(LARGEST_BODY_BYTES))
        .layer(from_fn_with_state(watch, guard::guard))
        .with_state(site)
}

async fn start(State(site): State<Arc<Site>>) -> Response {
    computed(move || page::start(&site, &[]).into_response()).await
}

async fn form(State(site): State<Arc<Site>>, request: Request) -> Response {
    match fields(request).await {
        Ok(fields) => page::form(&site, &fields, &page::Faults::default()).into_response(),
        Err(refusal) => refusal.into_response(),
    }
}

async fn run(
    State(site): State<Arc<Site>>,
    Extension(behind): Extension<Arc<Behind>>,
    request: Request,
) -> Response {
    let fields = match fields(request).await {
        Ok(fields) => fields,
        Err(refusal) => return refusal.into_response(),
    };
    let Some(ask) = Ask::of(fields, &site) else { return no_boat(&site) };
    if ask.is_open() {
        return slow::run(&site, behind, ask).await;
    }
    computed(move || ran(&site, &ask, run_only(&ask))).await
}

/// What the sliders ask for, as parts of the page.
pub(super) fn ran(site: &Site, ask: &Ask, run: Result<(Run, UnitChoice), Refused>) -> Response {
    match run {
        Ok((run, units)) => {
            let mut answer = page::run(&run, units).into_response();
            let address = format!("/desk?{}", ask.query());
            if let (true, Ok(address)) = (ask.in_address(), HeaderValue::from_str(&address)) {
                answer.headers_mut().insert(KEEP_ADDRESS, address);
            }
            answer
        }
        Err(why) => refusal(site, ask, &why),
    }
}

/// The boat file as it stands, to be kept.
async fn boat_file(State(site): State<Arc<Site>>, request: Request) -> Response {
    let fields = match fields(request).await {
        Ok(fields) => fields,
        Err(refusal) => return refusal.into_response(),
    };
    let Some(ask) = Ask::of(fields, &site) else { return no_boat(&site) };
    let (name, text) = ask.file();
    let attached = format!("attachment; filename=\"{}\"", plain_name(&name));
    let headers = [
        (header::CONTENT_TYPE, "text/plain; charset=utf-8".to_owned()),
        (header::CONTENT_DISPOSITION, attached),
    ];
    (headers, text.to_owned()).into_response()
}

/// A name for a download that every system takes.
pub(super) fn plain_name(name: &str) -> String {
    let is_plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '.' | '-' | '_');
    name.chars().map(|c| if is_plain(c) { c } else { '-' }).collect()
}

async fn file_of_the_page(Path((version, name)): Path<(String, String)>) -> Response {
    asset::asset(&version, &name).unwrap_or_else(|| guard::refusal(StatusCode::NOT_FOUND, NOTHING))
}

pub(super) const NOTHING: &str = "There is nothing at this address.";

/// Said when the program fails.
pub(super) const BROKEN: &str =
    "Something went wrong inside the program. The boat file that led here would help to mend it.";

async fn nothing_here() -> Response {
    guard::refusal(StatusCode::NOT_FOUND, NOTHING)
}

async fn not_so() -> Response {
    guard::refusal(StatusCode::METHOD_NOT_ALLOWED, "This address cannot be asked in this way.")
}

pub(super) fn no_boat(site: &Site) -> Response {
    let why = "Choose a boat first: the address names none that this page knows.".to_owned();
    (
        StatusCode::NOT_FOUND,
        page::start(site, &[page::Notice { problem: why, help: String::new() }]),
    )
        .into_response()
}

/// The page to which a boat with faults goes back.
pub(super) fn refusal(site: &Site, ask: &Ask, why: &Refused) -> Response {
    let page = match &ask.source {
        Source::Form(written) => page::form(site, &ask.fields, &page::faults(why, Some(written))),
        _ => page::refused_file(ask, why),
    };
    (StatusCode::UNPROCESSABLE_ENTITY, page).into_response()
}

/// An answer under way. When nobody waits for it any more and it has not begun, it never does.
struct UnderWay(JoinHandle<Response>);

impl Drop for UnderWay {
    fn drop(&mut self) {
        self.0.abort();
    }
}

/// Computes an answer where it does not hold up other visitors.
async fn computed(answer: impl FnOnce() -> Response + Send + 'static) -> Response {
    let mut under_way = UnderWay(tokio::task::spawn_blocking(answer));
    (&mut under_way.0)
        .await
        .unwrap_or_else(|_| guard::refusal(StatusCode::INTERNAL_SERVER_ERROR, BROKEN))
}
