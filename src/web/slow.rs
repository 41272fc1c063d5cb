//! The addresses behind the gate: papers, and how sure the answer is.

use std::sync::Arc;

use axum::Extension;
use axum::extract::{Path, Request, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};

use super::answer::{NoPaper, PaperName, gathered, paper as made};
use super::ask::Ask;
use super::gate::{Gate, Turned};
use super::routes::{BROKEN, NOTHING, fields, no_boat, plain_name, refusal};
use super::serve::Site;
use super::{guard, page};
use crate::report::Format;

/// Said when too many papers are being made.
const BUSY: &str = "Other papers are being made just now. Try again in a few seconds.";
/// After so many seconds another try is worth it.
const TRY_AGAIN_S: &str = "5";
/// Sent by the script with what it asks.
const FROM_SCRIPT: &str = "hx-request";

type Behind = (State<Arc<Site>>, Extension<Arc<Gate>>);

/// A paper: to be read in the browser, or to be kept as a file when `keep` is said.
pub(super) async fn paper(
    (State(site), Extension(gate)): Behind,
    Path(name): Path<String>,
    request: Request,
) -> Response {
    let Some(name) = PaperName::of(&name) else {
        return guard::refusal(StatusCode::NOT_FOUND, NOTHING);
    };
    let fields = match fields(request).await {
        Ok(fields) => fields,
        Err(refusal) => return refusal,
    };
    // A typeset paper is for a printer, whatever shows it.
    let keep = fields.has("keep") || name.format == Format::Pdf;
    let Some(ask) = Ask::of(fields, &site) else { return no_boat(&site) };
    let asked = ask.clone();
    match gate.through(move || made(&asked, name)).await {
        Ok(Ok(paper)) => {
            let kind = match name.format {
                Format::Html => "text/html; charset=utf-8",
                Format::Pdf => "application/pdf",
            };
            let how = if keep { "attachment" } else { "inline" };
            let place = format!("{how}; filename=\"{}\"", plain_name(&paper.file_name));
            let headers = [
                (header::CONTENT_TYPE, kind.to_owned()),
                (header::CONTENT_DISPOSITION, place),
                (header::CONTENT_SECURITY_POLICY, guard::PAPER_POLICY.to_owned()),
            ];
            (headers, paper.bytes).into_response()
        }
        Ok(Err(why)) => no_paper(&site, &ask, &why),
        Err(why) => turned(why),
    }
}

/// How sure the answer is: a part of the desk for the script, a page of its own without it.
pub(super) async fn sure((State(site), Extension(gate)): Behind, request: Request) -> Response {
    let by_script = request.headers().contains_key(FROM_SCRIPT);
    let fields = match fields(request).await {
        Ok(fields) => fields,
        Err(refusal) => return refusal,
    };
    let Some(ask) = Ask::of(fields, &site) else { return no_boat(&site) };
    let asked = ask.clone();
    match gate.through(move || gathered(&asked)).await {
        Ok(Ok(gathered)) if by_script => page::sure(&gathered).into_response(),
        Ok(Ok(gathered)) => page::sure_alone(&ask, &gathered).into_response(),
        Ok(Err(why)) if by_script => page::not_sure(&notice(&why)).into_response(),
        Ok(Err(why)) => no_paper(&site, &ask, &why),
        Err(Turned::Busy) if by_script => again(page::sure_later(&ask, BUSY)),
        Err(why) => turned(why),
    }
}

/// The page that says why there is no paper.
fn no_paper(site: &Site, ask: &Ask, why: &NoPaper) -> Response {
    match why {
        NoPaper::Boat(why) => refusal(site, ask, why),
        why => {
            (StatusCode::UNPROCESSABLE_ENTITY, page::refused_upload(&notice(why))).into_response()
        }
    }
}

/// Why there is no paper, in the words of the command line.
fn notice(why: &NoPaper) -> page::Notice {
    match why {
        NoPaper::Boat(why) => page::first_notice(why),
        NoPaper::List(fault) => {
            page::Notice { problem: fault.problem.clone(), help: fault.help.clone() }
        }
        NoPaper::Report(crate::report::ReportError::Fault(fault)) => page::Notice {
            problem: format!("{}: {}", fault.key, fault.problem),
            help: fault.remedy.clone(),
        },
        NoPaper::Report(error) => page::Notice { problem: error.to_string(), help: String::new() },
    }
}

fn turned(why: Turned) -> Response {
    match why {
        Turned::Busy => again((StatusCode::SERVICE_UNAVAILABLE, page::refusal(BUSY))),
        Turned::Broken => guard::refusal(StatusCode::INTERNAL_SERVER_ERROR, BROKEN),
    }
}

/// A refusal after which another try is worth it.
fn again(refusal: impl IntoResponse) -> Response {
    let mut refusal = refusal.into_response();
    *refusal.status_mut() = StatusCode::SERVICE_UNAVAILABLE;
    refusal.headers_mut().insert(header::RETRY_AFTER, HeaderValue::from_static(TRY_AGAIN_S));
    refusal
}
