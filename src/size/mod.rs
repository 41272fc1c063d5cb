//! Which planes: the least pair that does what the boat needs, and why.
//!
//! [`suggest`] takes a boat with its duties and gives a [`Suggestion`]. A plane
//! is sized by what it must do; a duty is a condition and what must hold there.

mod asked;
mod duty;
mod judge;
mod result;
mod schedule;
mod search;
mod sensitivity;
mod shortfall;
mod site;
mod suggest;
mod trade_off;

pub(crate) use asked::Asked;
pub use asked::{PairDuty, safe_deflections};
pub use duty::{list_moment_n_m, sentence};
pub use result::{
    Answer, DutyResult, Reached, RuleOfThumb, ScheduleRow, Shortfall, Suggestion, TradePoint,
    Variant,
};
pub use search::{Binding, FLAT_SHARE};
pub use sensitivity::{Effect, Outlook, effects};
pub use site::Limit;
pub use suggest::suggest;
