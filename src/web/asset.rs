//! Files of the page, part of the binary.

use std::sync::LazyLock;

use axum::http::header;
use axum::response::{IntoResponse, Response};

/// A file stays what it is under its address: a browser fetches it once.
const KEPT: &str = "public, max-age=31536000, immutable";

/// What all files are as bytes, in eight letters: part of their address, so that a browser never
/// takes those of another program for them.
static VERSION: LazyLock<String> = LazyLock::new(|| {
    let mut hash = crc32fast::Hasher::new();
    ASSETS.iter().for_each(|asset| hash.update((asset.bytes)()));
    format!("{:08x}", hash.finalize())
});

/// The address of a file.
pub(super) fn address(name: &str) -> String {
    format!("/assets/{}/{name}", *VERSION)
}

/// One file.
struct Asset {
    /// Its place below `/assets/`.
    name: &'static str,
    kind: &'static str,
    bytes: fn() -> &'static [u8],
}

/// The style sheet, for the tests of its contrast too.
pub(super) const STYLE: &str = include_str!("assets/desk.css");

/// All of them. The licence of the script and of the lettering stand beside them.
static ASSETS: [Asset; 9] = [
    Asset {
        name: "desk.js",
        kind: "text/javascript; charset=utf-8",
        bytes: || include_bytes!("assets/desk.js"),
    },
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
pub(super) fn asset(version: &str, name: &str) -> Option<Response> {
    let asset = ASSETS.iter().find(|asset| asset.name == name && version == *VERSION)?;
    let headers = [(header::CONTENT_TYPE, asset.kind), (header::CACHE_CONTROL, KEPT)];
    Some((headers, (asset.bytes)()).into_response())
}
