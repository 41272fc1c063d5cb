//! A printed page as data, and what turns it into text on a screen, a web page or a PDF.
//!
//! A [`Document`] is a title and a list of [`Block`]s in reading order: who
//! writes one says what is to be read, a renderer how it looks. It knows
//! nothing of boats.
//!
//! * `block`: what a page is made of;
//! * `column`: tables of words and numbers;
//! * `colours`: one list for all renderers;
//! * `spoken`: blocks whose words stand in no pieces yet, from a terminal's form to that of a page;
//! * [`html`]: one self-contained file that prints on A4 and Letter;
//! * `typeset` (feature `pdf`): the same as PDF.

mod block;
mod colours;
mod column;
pub mod html;
mod spoken;
#[cfg(feature = "pdf")]
pub mod typeset;
mod unbroken;

pub(crate) use crate::sentence::said;
pub use crate::sentence::{Piece, Sentence, spoken};
pub use block::{
    Block, CutOut, Document, Fact, Form, KeyNumber, Letterhead, Picture, Sheet, Table,
};
pub use column::{Column, aligned, fixed};
