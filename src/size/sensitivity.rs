//! How far the suggestion moves within the likely range of each estimated value.

use super::bench::Bench;
use super::suggest::{pair_of, search};
use crate::boat::{Boat, Estimate, Measure, PlanePair};

/// The answer for a changed value, or for one loading condition alone.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Outlook {
    /// No planes would be needed.
    NoPlanesNeeded,
    /// This pair.
    Pair(PlanePair),
    /// No pair would do every duty.
    NoPairDoes,
    /// There is nothing that planes could be asked to do.
    NothingAsked,
}

impl Outlook {
    /// The pair, where there is one.
    #[must_use]
    pub const fn pair(self) -> Option<PlanePair> {
        match self {
            Self::Pair(pair) => Some(pair),
            Self::NoPlanesNeeded | Self::NoPairDoes | Self::NothingAsked => None,
        }
    }

    /// The answer for what is asked, without its reasons.
    pub(super) fn of(bench: &mut Bench<'_>, step_m: f64) -> Self {
        if bench.asked.is_empty() {
            return Self::NothingAsked;
        }
        if bench.bare_does_all() {
            return Self::NoPlanesNeeded;
        }
        match search(bench, 0.5, step_m) {
            Some(sized) => Self::Pair(pair_of(sized.size)),
            None => Self::NoPairDoes,
        }
    }
}

/// An estimate, and the pairs that the ends of its likely range would lead to, with the same duties.
#[derive(Clone, Debug, PartialEq)]
pub struct Effect {
    /// The estimate.
    pub estimate: Estimate,
    /// With its lower end; none when the boat would be impossible.
    pub low: Option<Outlook>,
    /// With its upper end; none when the boat would be impossible.
    pub high: Option<Outlook>,
}

/// One effect for each estimate of the boat, asked about in several loading conditions, by a way of sizing: it is
/// given every boat to be sized at once, in her conditions, and none where she is impossible.
///
/// The estimates are those of the first condition. An estimate that depends on
/// the load is moved in each condition to the end of its range there.
pub(crate) fn effects_by(
    boats: &[Boat],
    sized: impl FnOnce(Vec<Option<Vec<Boat>>>) -> Vec<Option<Outlook>>,
) -> Vec<Effect> {
    let Some(first) = boats.first().filter(|boat| !boat.estimates().is_empty()) else {
        return Vec::new();
    };
    let with = |key: &str, end: fn(&Estimate) -> Measure| {
        let changed = |boat: &Boat| {
            let own = boat.estimates().iter().find(|estimate| estimate.key == key)?;
            boat.with_estimate(key, end(own)).ok()
        };
        boats.iter().map(changed).collect::<Option<Vec<_>>>()
    };
    let estimates = first.estimates();
    let changed = estimates.iter().flat_map(|estimate| {
        [with(estimate.key, |estimate| estimate.low), with(estimate.key, |estimate| estimate.high)]
    });
    let ends = sized(changed.collect());
    let both = estimates.iter().zip(ends.chunks_exact(2));
    both.map(|(estimate, ends)| Effect { estimate: estimate.clone(), low: ends[0], high: ends[1] })
        .collect()
}
