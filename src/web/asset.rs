//! Files of the page, part of the binary.

use axum::http::header;
use axum::response::{IntoResponse, Response};

/// The page fetches a file once for each version of the program.
const KEPT: &str = "public, max-age=86400";

/// One file.
pub(super) struct Asset {
    /// Its place below `/assets/`.
    pub name: &'static str,
    kind: &'static str,
    bytes: fn() -> &'static [u8],
}

/// The style sheet, for the tests of its contrast too.
pub(super) const STYLE: &str = include_str!("assets/desk.css");

/// All of them. The licence of the script and of the lettering stand beside them.
pub(super) const ASSETS: [Asset; 8] = [
    Asset { name: "desk.css", kind: "text/css; charset=utf-8", bytes: || STYLE.as_bytes() },
    Asset {
        name: "htmx.js",
        kind: "text/javascript; charset=utf-8",
        bytes: || include_bytes!("assets/htmx.min.js"),
    },
    Asset {
        name: "htmx-licence.txt",
        kind: "text/plain; charset=utf-8",
        bytes: || include_bytes!("assets/HTMX-LICENSE.txt"),
    },
    Asset {
        name: "lettering-licence.txt",
        kind: "text/plain; charset=utf-8",
        bytes: || crate::drawing::FONT_LICENCE.as_bytes(),
    },
    Asset { name: "plain.ttf", kind: "font/ttf", bytes: dejavu::sans_condensed::regular },
    Asset { name: "bold.ttf", kind: "font/ttf", bytes: dejavu::sans_condensed::bold },
    Asset { name: "title.ttf", kind: "font/ttf", bytes: dejavu::serif_condensed::regular },
    Asset { name: "mark.svg", kind: "image/svg+xml", bytes: || include_bytes!("assets/mark.svg") },
];

/// The file of that name.
pub(super) fn asset(name: &str) -> Option<Response> {
    let asset = ASSETS.iter().find(|asset| asset.name == name)?;
    let headers = [(header::CONTENT_TYPE, asset.kind), (header::CACHE_CONTROL, KEPT)];
    Some((headers, (asset.bytes)()).into_response())
}
