//! Proof of the sizing against an own judging of what a pair does, by dense scans.

mod answers;
mod conditions;
pub(crate) mod fleet;
mod judge;
mod optimum;
mod resistance;
mod schedule;
mod usual;
