//! The stock list: planes on the shelf, with their actuators, and what each can do on a boat.

pub mod part;

pub use part::{BracketScrews, HingeScrews, Part, Price, Spacing};
