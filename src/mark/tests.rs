//! Placement, sheet and papers of whole boats.

mod fixtures;
mod geometry;
mod placing;
mod wording;
