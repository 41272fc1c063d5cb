//! The units that a boat file is written in: what a person meant is looked for in them.

use std::collections::BTreeMap;

use super::Measure;

/// The unit of each value, by its key, in the spelling that the boat file prefers.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Written(BTreeMap<String, &'static str>);

impl FromIterator<(String, &'static str)> for Written {
    fn from_iter<I: IntoIterator<Item = (String, &'static str)>>(units: I) -> Self {
        Self(units.into_iter().collect())
    }
}

impl Written {
    /// The unit of a value; the usual one of boats where nobody wrote it: m, kg, kn, kW.
    #[must_use]
    pub fn unit_of(&self, key: &str, value: Measure) -> &'static str {
        self.0.get(key).copied().unwrap_or(match value {
            Measure::Speed(_) => "kn",
            other => other.unit(),
        })
    }
}
