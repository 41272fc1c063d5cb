//! Planewright sizes trim planes and estimates how a planing boat runs with them.
#![warn(missing_docs)]
#![forbid(unsafe_code)]

pub mod boat;
pub mod error;
pub mod input;
pub mod physical;
pub mod units;
pub mod water;
