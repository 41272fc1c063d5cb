//! Results told to a person: what the command line, the reports and the page say alike.
//!
//! Each room turns one kind of result into [`Block`](crate::document::Block)s
//! and leaves their look to whoever shows them.

pub mod doubt;
pub mod drive;
pub mod fuel;
pub mod level;
pub mod loadings;
pub mod loads;
pub mod on_plane;
pub mod reasons;
pub mod run;
pub(crate) mod saving;
pub mod seaway;
pub mod sense;
pub mod shelf;
pub mod sizing;
pub mod trial;
mod words;

/// Title of the section of notes, the last of every answer that has one.
pub const NOTES: &str = "Notes";
