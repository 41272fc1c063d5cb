//! The addresses behind a gate: a boat brought to the desk, papers, and how sure the answer is.

use std::sync::Arc;

use axum::Extension;
use axum::extract::{Path, Request, State};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};

use super::answer::{Desk, NoPaper, PaperName, Refused, gathered, paper as made, run_advised};
use super::ask::Ask;
use super::gate::{Gates, Turned};
use super::kept::Kept;
use super::posted::{fields, refused};
use super::routes::{BROKEN, NOTHING, no_boat, plain_name, ran, refusal};
use super::serve::Site;
use super::{guard, page};
use crate::report::Format;

/// Said when too much is being computed.
const BUSY: &str =
    "The program is computing for others just now. Try again in a few seconds; nothing is lost.";
/// Sent by the script with what it asks.
const FROM_SCRIPT: &str = "hx-request";

/// What stands behind the gates, and what is kept of it.
pub(super) struct Behind {
    pub gates: Gates,
    pub kept: Kept,
}

type Slow = Extension<Arc<Behind>>;

/// The boat at the desk.
pub(super) async fn desk(
    State(site): State<Arc<Site>>,
    Extension(behind): Slow,
    request: Request,
) -> Response {
    let fields = match fields(request).await {
        Ok(fields) => fields,
        Err(refusal) => return refusal.into_response(),
    };
    let list_fault = fields.list_fault.clone();
    let Some(ask) = Ask::of(fields, &site) else {
        return match list_fault {
            Some([problem, help]) => refused(page::Notice { problem, help }),
            None => no_boat(&site),
        };
    };
    let (asked, kept) = (ask.clone(), behind.clone());
    let desk = behind.gates.boats.through(move |waiting| {
        let desk = Desk::of(asked, &kept.kept, &|_| waiting.go_on())?;
        Ok::<_, Refused>(page::desk(&desk).into_response())
    });
    match desk.await {
        Ok(Ok(page)) => page,
        Ok(Err(why)) => refusal(&site, &ask, &why),
        Err(why) => turned(why),
    }
}

/// A drag that leaves something to the answer.
pub(super) async fn run(site: &Site, behind: Arc<Behind>, ask: Ask) -> Response {
    let (asked, kept) = (ask.clone(), behind.clone());
    let run = behind
        .gates
        .boats
        .through(move |waiting| run_advised(&asked, &kept.kept, &|_| waiting.go_on()));
    match run.await {
        Ok(run) => ran(site, &ask, run),
        Err(why) => turned(why),
    }
}

/// A paper: to be read in the browser, or to be kept as a file when `keep` is said.
pub(super) async fn paper(
    State(site): State<Arc<Site>>,
    Extension(behind): Slow,
    Path(name): Path<String>,
    request: Request,
) -> Response {
    let Some(name) = PaperName::of(&name) else {
        return guard::refusal(StatusCode::NOT_FOUND, NOTHING);
    };
    let fields = match fields(request).await {
        Ok(fields) => fields,
        Err(refusal) => return refusal.into_response(),
    };
    // A typeset paper is for a printer, whatever shows it.
    let keep = fields.has("keep") || name.format == Format::Pdf;
    let Some(ask) = Ask::of(fields, &site) else { return no_boat(&site) };
    let (asked, kept) = (ask.clone(), behind.clone());
    let paper = behind
        .gates
        .papers
        .through(move |waiting| made(&asked, name, &kept.kept, &|_| waiting.go_on()));
    match paper.await {
        Ok(Ok(paper)) => {
            let kind = name.media_type();
            let how = if keep { "attachment" } else { "inline" };
            let place = format!("{how}; filename=\"{}\"", plain_name(&paper.file_name));
            let headers = [
                (header::CONTENT_TYPE, kind.to_owned()),
                (header::CONTENT_DISPOSITION, place),
                (
                    header::CONTENT_SECURITY_POLICY,
                    guard::paper_policy(name.what.has_script()).to_owned(),
                ),
            ];
            (headers, paper.bytes).into_response()
        }
        Ok(Err(why)) => no_paper(&site, &ask, &why),
        Err(why) => turned(why),
    }
}

/// How sure the answer is: a part of the desk for the script, a page of its own without it.
pub(super) async fn sure(
    State(site): State<Arc<Site>>,
    Extension(behind): Slow,
    request: Request,
) -> Response {
    let by_script = request.headers().contains_key(FROM_SCRIPT);
    let fields = match fields(request).await {
        Ok(fields) => fields,
        Err(refusal) => return refusal.into_response(),
    };
    let Some(ask) = Ask::of(fields, &site) else { return no_boat(&site) };
    let (asked, kept) = (ask.clone(), behind.clone());
    let sure = behind
        .gates
        .papers
        .through(move |waiting| gathered(&asked, &kept.kept, &|_| waiting.go_on()));
    match sure.await {
        Ok(Ok(gathered)) if by_script => page::sure(&gathered).into_response(),
        Ok(Ok(gathered)) => page::sure_alone(&ask, &gathered).into_response(),
        Ok(Err(why)) if by_script => page::not_sure(&notice(&why)).into_response(),
        Ok(Err(why)) => no_paper(&site, &ask, &why),
        // As an answer, so that it stands where the ranges will.
        Err(Turned::Busy) if by_script => page::sure_later(&ask, BUSY).into_response(),
        Err(why) => turned(why),
    }
}

/// The page that says why there is no paper.
fn no_paper(site: &Site, ask: &Ask, why: &NoPaper) -> Response {
    match why {
        NoPaper::Boat(why) => refusal(site, ask, why),
        why => refused(notice(why)),
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
        NoPaper::Mark(problem) => page::Notice { problem: problem.clone(), help: String::new() },
        NoPaper::Report(error) => page::Notice { problem: error.to_string(), help: String::new() },
    }
}

fn turned(why: Turned) -> Response {
    match why {
        Turned::Busy => guard::again(guard::refusal(StatusCode::SERVICE_UNAVAILABLE, BUSY)),
        Turned::Broken => guard::refusal(StatusCode::INTERNAL_SERVER_ERROR, BROKEN),
    }
}
