//! A local page for a dealer with a buyer at the desk.
//!
//! The server keeps nothing: what a visitor has chosen stands in the address, or, for a boat file
//! of his own, in the page. Whatever is computed for a request is dropped with its answer, so
//! that visitors do not meet. No text of a request ever becomes the name of a file, and the boats
//! and lists that the page offers are part of the program.
//!
//! Data flows down this list:
//!
//! * `demo`: the boats and the list that the program carries;
//! * `fields`: what a request says, as names and values;
//! * `form`: the short form, which is written as a boat file and read like any other;
//! * `ask`: a request understood: which boat, where on the water, with which planes;
//! * `answer`: what the library says to it;
//! * `page`: the answer as HTML;
//! * `asset`, `guard`, `gate`, `routes`, `slow`, `serve`: files of the page, limits, the line before what takes long, addresses, those that take long, the server.

mod answer;
mod ask;
mod asset;
mod demo;
mod fields;
mod form;
mod gate;
mod guard;
mod page;
#[cfg(test)]
mod palette;
mod routes;
mod serve;
mod slow;

pub use serve::{DEFAULT_PORT, ServeError, Site, router, serve};
