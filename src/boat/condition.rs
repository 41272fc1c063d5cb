//! Loading conditions: the boat as her loads are listed, and the same loads switched or moved.
//!
//! A condition is described by what differs from the load table
//! ([`ConditionInput`]). [`Boat::in_condition`](super::Boat::in_condition)
//! gives a full boat in a condition; every condition is checked when the boat
//! is built, so that an impossible one cannot exist.

use uom::si::f64::{Length, Mass};

use super::measure::{Named, given};
use super::{Fault, LoadItem, Weight};
use crate::spelling;

/// Name of the condition that the load table itself describes, when the file gives it no other.
pub const AS_LISTED: &str = "as listed";
/// Stands for every condition where one is asked for; no condition may be called so.
pub const ALL: &str = "all";

/// A loading condition as described: what differs from the loads as they are listed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ConditionInput {
    /// What it is called.
    pub name: String,
    /// A sentence on when she is loaded so, printed with the results.
    pub about: Option<String>,
    /// Items of the load table that are not aboard.
    pub without: Vec<String>,
    /// Items that are filled, moved or added.
    pub loads: Vec<LoadChange>,
}

/// An item of the load table that differs in a condition, or one that is added in it.
///
/// Where the weight is given as totals every entry is added to them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LoadChange {
    /// Which item of the load table; another name adds an item.
    pub item: String,
    /// Its mass; as listed when absent, needed when the item is added.
    pub mass: Option<Mass>,
    /// Its centre forward of the transom; as listed when absent, needed when the item is added.
    pub forward: Option<Length>,
    /// Its centre above the keel line; as listed when absent, needed when the item is added.
    pub up: Option<Length>,
    /// Its centre to starboard; as listed when absent, on the centreline when the item is added.
    pub starboard: Option<Length>,
}

impl LoadChange {
    /// Its values by their keys.
    pub(super) fn measures(&self) -> Named {
        given([
            ("mass", self.mass.map(Into::into)),
            ("forward", self.forward.map(Into::into)),
            ("up", self.up.map(Into::into)),
            ("starboard", self.starboard.map(Into::into)),
        ])
    }
}

impl LoadChange {
    /// The item as it is in the condition, in place of one of the load table.
    #[must_use]
    pub fn applied_to(&self, listed: &LoadItem) -> LoadItem {
        LoadItem {
            item: listed.item.clone(),
            mass: self.mass.unwrap_or(listed.mass),
            forward: self.forward.unwrap_or(listed.forward),
            up: self.up.unwrap_or(listed.up),
            starboard: self.starboard.unwrap_or(listed.starboard),
        }
    }

    /// The item that it adds; none when its mass or place is not known.
    #[must_use]
    pub fn added(&self) -> Option<LoadItem> {
        Some(LoadItem {
            item: self.item.clone(),
            mass: self.mass?,
            forward: self.forward?,
            up: self.up?,
            starboard: self.starboard.unwrap_or_default(),
        })
    }
}

/// A checked loading condition.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadingCondition {
    /// What it is called.
    pub name: String,
    /// A sentence on when she is loaded so.
    pub about: Option<String>,
    /// Mass and centre of gravity.
    pub weight: Weight,
}

/// Whether two names mean the same item or condition: letters may be large or small.
#[must_use]
pub fn same_name(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}

/// A condition that the boat does not have, asked for under a key.
pub(super) fn unknown<'a>(
    key: &str,
    written: &str,
    names: impl Iterator<Item = &'a str> + Clone,
) -> Fault {
    let names = spelling::by_likeness(written, names);
    let near = names.first().copied().unwrap_or(AS_LISTED);
    let known: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
    Fault {
        key: key.to_owned(),
        problem: format!("the boat has no loading condition `{}`", crate::units::quoted(written)),
        remedy: format!("did you mean `{near}`? Her conditions are {}", known.join(", ")),
    }
}

#[cfg(test)]
#[path = "condition_tests.rs"]
mod tests;
