//! How a duty is read: the kinds of duty, and what a file gives for one.

use super::Duty;
use crate::boat::Measure;

/// A kind of duty as a boat file writes it.
pub(crate) struct DutyKind {
    /// The word that names it there and in every output.
    pub word: &'static str,
    /// The keys it takes beside `kind`.
    pub keys: &'static [&'static str],
    /// Those of them that stand in place of others, so that an example of the kind leaves them out.
    pub instead: &'static [&'static str],
    /// Makes one of what a file gives; none where something is missing or wrong, which is told as a fault.
    pub read: fn(&mut dyn DutyValues) -> Option<Duty>,
}

/// What a file gives for one duty, by the names of its keys.
pub(crate) trait DutyValues {
    /// The value of a key, where it is given and can be read.
    fn value(&mut self, key: &str) -> Option<Measure>;
    /// The same of a key that must be given: a fault where it is not.
    fn needed_value(&mut self, key: &str) -> Option<Measure>;
    /// Whether a key is given.
    fn gives(&self, key: &str) -> bool;
    /// Tells that something is wrong at a key, or with the duty as a whole.
    fn fault(&mut self, key: Option<&str>, problem: &str, remedy: &str);
}

impl dyn DutyValues + '_ {
    /// The quantity of a key that must be given.
    pub(super) fn needed<Q: TryFrom<Measure>>(&mut self, key: &str) -> Option<Q> {
        self.needed_value(key)?.try_into().ok()
    }
}
