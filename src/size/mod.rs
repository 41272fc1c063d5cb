//! Which planes: the least pair that does what the boat needs, and why.
//!
//! [`suggest`] takes a boat with its duties and gives a [`Suggestion`]. A plane
//! is sized by what it must do; a duty is a condition and what must hold there.

mod bench;
mod closest;
mod demand;
mod duty;
pub mod explain;
mod generate;
mod given;
mod judge;
mod line;
mod need;
mod reach;
mod result;
mod room;
mod schedule;
mod search;
mod sensitivity;
mod shortfall;
mod site;
mod suggest;
mod trade_off;

pub use demand::Limit;
pub use duty::{list_moment_n_m, sentence};
pub use explain::in_steps_of;
pub(crate) use given::AskedOfPair;
pub use given::{PairDuty, safe_deflections};
pub use line::FLAT_SHARE;
pub use result::{
    Answer, DutyResult, Miss, Reached, RuleOfThumb, ScheduleRow, Shortfall, Suggestion, TradePoint,
    Variant,
};
pub use search::Binding;
pub use sensitivity::{Effect, Outlook, effects};
pub use suggest::suggest;

#[cfg(test)]
mod proof;
