//! A printed page as data, and what turns it into text on a screen, a web page or a PDF.
//!
//! A [`Document`] is a title and a list of [`Block`]s in reading order: who
//! writes one says what is to be read, a renderer how it looks. It knows
//! nothing of boats.
//!
//! * `block`: what a page is made of;
//! * `column`: tables of words and numbers;
//! * `colours`: one list for all renderers;
//! * `sentence`: a sentence of pieces, which each renderer shows its own way;
//! * `spoken`: words that stand in no pieces yet, from a terminal's form to that of a page;
//! * [`html`]: one self-contained file that prints on A4 and Letter;
//! * `typeset` (feature `pdf`): the same as PDF.

mod block;
mod colours;
mod column;
pub mod html;
mod sentence;
mod spoken;
#[cfg(feature = "pdf")]
pub mod typeset;

pub use block::{Block, Document, Fact, Form, KeyNumber, Picture, Sheet, Table};
pub use column::{Column, aligned, fixed};
pub(crate) use sentence::said;
pub use sentence::{Piece, Sentence};
pub use spoken::spoken;
