//! The answer as one JSON object: SI units, angles in degrees, null for what does not exist.

use serde::Serialize;

use super::Doubted;
use crate::doubt::{DutiesDoubt, LIKELY_SHARES, RunningDoubt};

/// The run in each loading condition, and the duties in all of them.
#[derive(Serialize)]
pub(super) struct Written<'a> {
    likely_shares: [f64; 2],
    conditions: Vec<InCondition<'a>>,
    duties: &'a DutiesDoubt,
}

#[derive(Serialize)]
struct InCondition<'a> {
    name: &'a str,
    #[serde(flatten)]
    running: &'a RunningDoubt,
}

impl<'a> Written<'a> {
    pub fn of(all: &'a [Doubted], duties: &'a DutiesDoubt) -> Self {
        let one = |doubted: &'a Doubted| InCondition {
            name: &doubted.boat().condition().name,
            running: &doubted.running,
        };
        Self { likely_shares: LIKELY_SHARES, conditions: all.iter().map(one).collect(), duties }
    }
}
