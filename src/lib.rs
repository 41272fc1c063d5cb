//! Planewright sizes trim planes and estimates how a planing boat runs with them.
#![warn(missing_docs)]
#![forbid(unsafe_code)]

pub mod balance;
pub mod boat;
pub mod chart;
pub mod check;
pub mod cli;
pub mod error;
pub mod flag;
pub mod hydro;
pub mod input;
pub mod mark;
mod numeric;
pub mod physical;
pub mod plane;
pub mod size;
pub mod stock;
pub mod units;
pub mod water;
