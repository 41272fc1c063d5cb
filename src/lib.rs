//! Planewright sizes trim planes and estimates how a planing boat runs with them.
#![warn(missing_docs)]
#![forbid(unsafe_code)]

pub mod boat;
pub mod physical;
pub mod water;
