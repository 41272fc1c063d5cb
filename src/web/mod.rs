//! A local page for a dealer with a buyer at the desk.
//!
//! The server writes nothing down: what a visitor has chosen stands in the address, or, for a boat
//! file of his own, in the page. The last few answers stay in memory, found again only by the whole
//! text that led to them, so that visitors do not meet. No text of a request ever becomes the name
//! of a file, and the boats and lists that the page offers are part of the program.
//!
//! Data flows down this list:
//!
//! * `demo`, `list`: the boats and the list that the program carries, and a list as the page takes it;
//! * `fields`: what a request says, as names and values;
//! * `form`: the short form, which is written as a boat file and read like any other;
//! * `ask`: a request understood: which boat, where on the water, with which planes;
//! * `answer`, `kept`: what the library says to it, and the last few answers;
//! * `page`: the answer as HTML;
//! * `asset`: files of the page;
//! * `origin`, `body`, `bare`, `guard`: who may ask, how much may be sent, refusals, headers;
//! * `gate`: the lines before what takes long;
//! * `posted`, `routes`, `slow`, `serve`: how a request says something, addresses, those that take long, the server.

mod answer;
mod ask;
mod asset;
mod bare;
mod body;
mod demo;
mod fields;
mod form;
mod gate;
mod guard;
mod kept;
mod list;
mod origin;
mod page;
#[cfg(test)]
mod palette;
mod posted;
mod routes;
mod serve;
mod slow;

pub use serve::{DEFAULT_PORT, ServeError, Site, router, serve};
