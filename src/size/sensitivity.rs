//! How far the suggestion moves within the likely range of each estimated value.

use uom::si::length::meter;

use super::bench::Bench;
use super::generate::generated;
use super::suggest::{pair_of, search};
use crate::balance::Settings;
use crate::balance::forces::Prism;
use crate::boat::{Boat, Duty, Estimate, Measure, PlanePair};

/// The pair that a value would lead to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outlook {
    /// No planes would be needed.
    NoPlanesNeeded,
    /// This pair.
    Pair(PlanePair),
    /// No pair would do every duty.
    NoPairDoes,
}

impl Outlook {
    /// The pair, where there is one.
    #[must_use]
    pub const fn pair(self) -> Option<PlanePair> {
        match self {
            Self::Pair(pair) => Some(pair),
            Self::NoPlanesNeeded | Self::NoPairDoes => None,
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

/// One effect for each estimate of the boat.
#[must_use]
pub fn effects(boat: &Boat, settings: &Settings) -> Vec<Effect> {
    if boat.estimates().is_empty() {
        return Vec::new();
    }
    let duties = if boat.gives_duties() {
        boat.duties().to_vec()
    } else {
        generated(boat, &Prism::new(boat, settings))
    };
    let with = |estimate: &Estimate, value: Measure| {
        let changed = boat.with_estimate(estimate.key, value).ok()?;
        Some(outlook(&changed, settings, &duties))
    };
    boat.estimates()
        .iter()
        .map(|estimate| Effect {
            estimate: estimate.clone(),
            low: with(estimate, estimate.low),
            high: with(estimate, estimate.high),
        })
        .collect()
}

/// The answer for some duties, without its reasons.
fn outlook(boat: &Boat, settings: &Settings, duties: &[Duty]) -> Outlook {
    let prism = Prism::new(boat, settings);
    let mut bench = Bench::new(boat, &prism, duties);
    if bench.bare_does_all() {
        return Outlook::NoPlanesNeeded;
    }
    let step_m = boat.sizing().round_to.get::<meter>();
    match search(&mut bench, 0.5, step_m) {
        Some((_, size)) => Outlook::Pair(pair_of(size)),
        None => Outlook::NoPairDoes,
    }
}
