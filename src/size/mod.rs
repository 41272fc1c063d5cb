//! Which planes: the least pair that does what the boat needs, and why.
//!
//! [`suggest`] takes a boat with its duties and gives a [`Suggestion`]. A plane
//! is sized by what it must do; a duty is a condition and what must hold there.

mod able;
mod bench;
mod closest;
mod demand;
mod drawn;
mod duty;
mod generate;
mod given;
pub mod in_words;
mod json;
mod judge;
mod line;
mod loaded;
mod missing;
mod need;
mod reach;
mod result;
mod room;
mod schedule;
mod search;
mod sensitivity;
mod shortfall;
mod silence;
mod site;
mod suggest;
mod trade_off;
mod unjudged;
mod used;

pub use demand::Limit;
pub(crate) use drawn::{AskedOfDraws, OnDraw, Settled};
pub use generate::{RELIEF_GROWS_SLOWER_DEG, RELIEF_SHARE};
pub(crate) use given::AskedOfPair;
pub use given::{Given, PairDuty, safe_deflections};
pub use line::FLAT_SHARE;
pub(crate) use loaded::{Held, Loaded, no_condition};
pub use missing::{Change, HeldTrim, Missing, Remedy, Shortfall, Spot, TriedResult};
pub use result::{
    Answer, Chance, ConditionResult, DutyResult, Governing, Miss, OtherModel, Reached, RuleOfThumb,
    ScheduleRow, SeenTrim, SeenTrims, Suggestion, TradePoint, Variant,
};
pub use search::Binding;
pub(crate) use sensitivity::effects_by;
pub use sensitivity::{Effect, Outlook};
pub use silence::Silence;
pub(crate) use site::Site;
pub(crate) use suggest::{Chosen, chosen_for, pair_of};
pub use suggest::{schedules_for, suggest, suggest_for};
pub use used::{PairSource, PairUsed};

#[cfg(test)]
pub(crate) mod proof;
