//! What a request says, from its address, its form or its files.

use std::path::Path;

use axum::extract::{Form, FromRequest, Multipart, Query, Request};
use axum::http::{Method, StatusCode, header};
use axum::response::{IntoResponse, Response};

use super::ask::shown_name;
use super::fields::{Fields, TEXTS};
use super::{guard, page};

/// Files of a form: the field of the upload, and the fields that its text and name become.
const UPLOADS: [(&str, &str, &str); 2] =
    [("boat_file", "text", "text_name"), ("stock_file", "new_stock_text", "new_stock_name")];

/// Why a request cannot be used.
pub(super) enum Unusable {
    /// It is no form.
    Unreadable,
    /// One of its texts is none.
    Text(page::Notice),
}

impl IntoResponse for Unusable {
    fn into_response(self) -> Response {
        match self {
            Self::Unreadable => {
                guard::refusal(StatusCode::BAD_REQUEST, "The request cannot be read.")
            }
            Self::Text(notice) => refused(notice),
        }
    }
}

/// What a request says. A text that is pasted has the limits of a file.
pub(super) async fn fields(request: Request) -> Result<Fields, Unusable> {
    if request.method() != Method::POST {
        let query = Query::<Vec<(String, String)>>::try_from_uri(request.uri());
        return query.map_err(|_| Unusable::Unreadable).and_then(|Query(pairs)| taken(pairs));
    }
    let kind = request.headers().get(header::CONTENT_TYPE).and_then(|kind| kind.to_str().ok());
    if kind.is_some_and(|kind| kind.starts_with("multipart/form-data")) {
        let parts =
            Multipart::from_request(request, &()).await.map_err(|_| Unusable::Unreadable)?;
        return uploaded(parts).await;
    }
    let pairs = Form::<Vec<(String, String)>>::from_request(request, &()).await;
    pairs.map_err(|_| Unusable::Unreadable).and_then(|Form(pairs)| taken(pairs))
}

/// Fields of an address or a form, each text as if it had been a file.
fn taken(pairs: Vec<(String, String)>) -> Result<Fields, Unusable> {
    let text = |(name, value): (String, String)| {
        if !TEXTS.contains(&name.as_str()) {
            return Ok((name, value));
        }
        let value = text_of(&name, "the text", value.into_bytes()).map_err(Unusable::Text)?;
        Ok((name, value))
    };
    pairs.into_iter().map(text).collect::<Result<Vec<_>, _>>().map(Fields::of)
}

/// Fields and files of an upload.
async fn uploaded(mut parts: Multipart) -> Result<Fields, Unusable> {
    let mut pairs = Vec::new();
    let mut list_fault = None;
    while let Some(part) = parts.next_field().await.map_err(|_| Unusable::Unreadable)? {
        let name = part.name().unwrap_or_default().to_owned();
        let file_name = part.file_name().map(str::to_owned);
        let bytes = part.bytes().await.map_err(|_| Unusable::Unreadable)?;
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
        match text_of(text_field, &shown, bytes.to_vec()) {
            Ok(text) if *field == "stock_file" && text.trim().is_empty() => {
                list_fault = Some([format!("{shown}: the file is empty"), String::new()]);
            }
            Ok(text) => {
                pairs.push(((*text_field).to_owned(), text));
                pairs.push(((*name_field).to_owned(), shown));
            }
            // The boat and the list before it stay.
            Err(notice) if *field == "stock_file" => {
                list_fault = Some([notice.problem, notice.help]);
            }
            Err(notice) => return Err(Unusable::Text(notice)),
        }
    }
    let mut fields = taken(pairs)?;
    fields.list_fault = list_fault;
    Ok(fields)
}

/// The text of a file, or what is wrong with it in the words of the command line.
fn text_of(field: &str, shown: &str, bytes: Vec<u8>) -> Result<String, page::Notice> {
    // The name stands in messages only; nothing is opened by it.
    let name = Path::new(shown);
    match field {
        "text" => crate::input::text_of(name, bytes).map_err(|error| page::Notice::of(&error)),
        _ => crate::stock::text_of_list(name, bytes).map_err(|error| page::Notice::of(&error)),
    }
}

/// The page that says why a file cannot be used.
pub(super) fn refused(notice: page::Notice) -> Response {
    (StatusCode::UNPROCESSABLE_ENTITY, page::refused_upload(&notice)).into_response()
}
