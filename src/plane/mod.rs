//! What a trim plane does to the boat, and what it carries itself.

pub mod effect;
pub mod roll;
