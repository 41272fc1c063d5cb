//! Flags in JSON: all of them, and those that say danger or untested.

use serde::Serialize;

use crate::flag::{Flags, Standing};

/// The stable words of some flags; flattened into the record that they belong to.
#[derive(Serialize)]
pub(super) struct FlagWords {
    /// All of them.
    flags: Vec<&'static str>,
    /// Of these, those where the run itself is dangerous.
    danger: Vec<&'static str>,
    /// Of these, those where nobody tested.
    untested: Vec<&'static str>,
}

impl From<Flags> for FlagWords {
    fn from(flags: Flags) -> Self {
        let of = |standing| flags.of(standing).words();
        Self {
            flags: flags.words(),
            danger: of(Standing::Danger),
            untested: of(Standing::Untested),
        }
    }
}
