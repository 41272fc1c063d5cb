//! Addresses of the page, and what stands behind each.

use std::path::Path;
use std::sync::Arc;

use axum::extract::{Form, FromRequest, Multipart, Query, Request, State};
use axum::http::{HeaderName, HeaderValue, Method, StatusCode, header};
use axum::middleware::from_fn_with_state;
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use axum::{Extension, Router};
use tokio::task::JoinHandle;

use super::answer::{Desk, Refused, run_only};
use super::ask::{Ask, Source, shown_name};
use super::fields::Fields;
use super::gate::Gate;
use super::serve::Site;
use super::{asset, guard, page, slow};

/// Tells the script to keep the address of the page in step with the sliders.
const KEEP_ADDRESS: HeaderName = HeaderName::from_static("hx-replace-url");
/// Files of a form: the field of the upload, and the fields that its text and name become.
const UPLOADS: [(&str, &str, &str); 2] =
    [("boat_file", "text", "text_name"), ("stock_file", "stock_text", "stock_name")];

pub(super) fn router(site: Arc<Site>, gate: Arc<Gate>) -> Router {
    Router::new()
        .route("/", get(start))
        .route("/form", get(form))
        .route("/desk", get(desk).post(desk))
        .route("/desk/run", get(run).post(run))
        .route("/desk/sure", get(slow::sure).post(slow::sure))
        .route("/papers/{name}", get(slow::paper).post(slow::paper))
        .route("/boat-file", get(boat_file).post(boat_file))
        .route("/assets/{name}", get(file_of_the_page))
        .fallback(nothing_here)
        .method_not_allowed_fallback(not_so)
        .layer(Extension(gate))
        .layer(axum::extract::DefaultBodyLimit::max(guard::LARGEST_BODY_BYTES))
        .layer(from_fn_with_state(site.clone(), guard::guard))
        .with_state(site)
}

async fn start(State(site): State<Arc<Site>>) -> Response {
    computed(move || page::start(&site, &[]).into_response()).await
}

async fn form(State(site): State<Arc<Site>>, request: Request) -> Response {
    match fields(request).await {
        Ok(fields) => page::form(&site, &fields, &page::Faults::default()).into_response(),
        Err(refusal) => refusal,
    }
}

async fn desk(State(site): State<Arc<Site>>, request: Request) -> Response {
    let fields = match fields(request).await {
        Ok(fields) => fields,
        Err(refusal) => return refusal,
    };
    computed(move || {
        let Some(ask) = Ask::of(fields, &site) else { return no_boat(&site) };
        let refused = ask.clone();
        match Desk::of(ask) {
            Ok(desk) => page::desk(&desk).into_response(),
            Err(why) => refusal(&site, &refused, &why),
        }
    })
    .await
}

async fn run(State(site): State<Arc<Site>>, request: Request) -> Response {
    let fields = match fields(request).await {
        Ok(fields) => fields,
        Err(refusal) => return refusal,
    };
    computed(move || {
        let Some(ask) = Ask::of(fields, &site) else { return no_boat(&site) };
        match run_only(&ask) {
            Ok((run, units)) => {
                let mut answer = page::run(&run, units).into_response();
                let address = format!("/desk?{}", ask.query());
                if let (true, Ok(address)) = (ask.in_address(), HeaderValue::from_str(&address)) {
                    answer.headers_mut().insert(KEEP_ADDRESS, address);
                }
                answer
            }
            Err(why) => refusal(&site, &ask, &why),
        }
    })
    .await
}

/// The boat file as it stands, to be kept.
async fn boat_file(State(site): State<Arc<Site>>, request: Request) -> Response {
    let fields = match fields(request).await {
        Ok(fields) => fields,
        Err(refusal) => return refusal,
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

async fn file_of_the_page(axum::extract::Path(name): axum::extract::Path<String>) -> Response {
    asset::asset(&name).unwrap_or_else(|| guard::refusal(StatusCode::NOT_FOUND, NOTHING))
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

/// What a request says, from its address or its body.
pub(super) async fn fields(request: Request) -> Result<Fields, Response> {
    if request.method() != Method::POST {
        let query = Query::<Vec<(String, String)>>::try_from_uri(request.uri());
        return query.map(|Query(pairs)| Fields::of(pairs)).map_err(|_| unreadable());
    }
    let kind = request.headers().get(header::CONTENT_TYPE).and_then(|kind| kind.to_str().ok());
    if kind.is_some_and(|kind| kind.starts_with("multipart/form-data")) {
        let parts = Multipart::from_request(request, &()).await.map_err(|_| unreadable())?;
        return uploaded(parts).await;
    }
    let pairs = Form::<Vec<(String, String)>>::from_request(request, &()).await;
    pairs.map(|Form(pairs)| Fields::of(pairs)).map_err(|_| unreadable())
}

/// Fields and files of an upload.
async fn uploaded(mut parts: Multipart) -> Result<Fields, Response> {
    let mut pairs = Vec::new();
    while let Some(part) = parts.next_field().await.map_err(|_| unreadable())? {
        let name = part.name().unwrap_or_default().to_owned();
        let file_name = part.file_name().map(str::to_owned);
        let bytes = part.bytes().await.map_err(|_| unreadable())?;
        let Some((field, text_field, name_field)) =
            UPLOADS.iter().find(|(field, ..)| *field == name)
        else {
            pairs.push((name, String::from_utf8_lossy(&bytes).into_owned()));
            continue;
        };
        if bytes.is_empty() && file_name.as_deref().unwrap_or_default().is_empty() {
            continue;
        }
        let shown = shown_name(file_name.as_deref(), field);
        let text = text_of(text_field, &shown, bytes.to_vec()).map_err(|notice| {
            (StatusCode::UNPROCESSABLE_ENTITY, page::refused_upload(&notice)).into_response()
        })?;
        pairs.push(((*text_field).to_owned(), text));
        pairs.push(((*name_field).to_owned(), shown));
    }
    Ok(Fields::of(pairs))
}

/// The text of an uploaded file, or what is wrong with it in the words of the command line.
fn text_of(field: &str, shown: &str, bytes: Vec<u8>) -> Result<String, page::Notice> {
    // The name stands in messages only; nothing is opened by it.
    let name = Path::new(shown);
    match field {
        "stock_text" => {
            crate::stock::text_of_list(name, bytes).map_err(|error| page::Notice::of(&error))
        }
        _ => crate::input::text_of(name, bytes).map_err(|error| page::Notice::of(&error)),
    }
}

fn unreadable() -> Response {
    guard::refusal(StatusCode::BAD_REQUEST, "The request cannot be read.")
}
