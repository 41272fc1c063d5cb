//! What the papers advise: from the shelf, by calculation, or to keep what she has.

use uom::si::ratio::ratio;

use super::ReportError;
use super::gather::{Advised, COMPARED};
use crate::balance::Settings;
use crate::boat::{Boat, PlanePair};
use crate::doubt::{AskedOfReaching, Drawn, Reaching};
use crate::size::{Answer, Suggestion};
use crate::stock::rank::{Standing, reaching};
use crate::stock::{Shelf, assess};

/// So much more often must another pair do what is asked to be worth changing those that are fitted. Judged.
const WORTH_CHANGING: f64 = 0.05;

/// The pairs that are held against each other: that advised, and the first of the shelf that can be fitted.
pub(super) fn compared(
    advised: Option<PlanePair>,
    shelf: Option<&Shelf>,
    boats: &[Boat],
    settings: &Settings,
) -> Result<Vec<Reaching>, ReportError> {
    let asked = AskedOfReaching::of(boats, settings)?;
    let ranked = shelf.map(|shelf| shelf.ranking.ranked.as_slice()).unwrap_or_default();
    let usable = ranked.iter().take(COMPARED).filter(|r| r.standing <= Standing::Misses);
    let mut pairs: Vec<Reaching> = Vec::new();
    for ranked in usable {
        let reaching = reaching(&ranked.part, boats, &assess::Settings::default(), &asked)?;
        if pairs.iter().all(|other| other.pair != reaching.pair) {
            pairs.push(reaching);
        }
    }
    // What she has is held against it.
    let fitted = boats.first().and_then(Boat::planes);
    if let Some(fitted) = fitted.filter(|&fitted| pairs.iter().all(|other| other.pair != fitted)) {
        pairs.push(Reaching::from(fitted));
    }
    // The one that is advised stands first, whether it is on the shelf or not.
    let index = pairs.iter().position(|other| Some(other.pair) == advised);
    let first = match (index, advised) {
        (Some(index), _) => Some(pairs.remove(index)),
        (None, advised) => advised.map(Reaching::from),
    };
    Ok(first.into_iter().chain(pairs).collect())
}

/// The best of the shelf where there is one; else the size by calculation.
pub(super) fn advised(suggestion: &Suggestion, shelf: Option<&Shelf>) -> Advised {
    let by_size = match &suggestion.answer {
        Answer::NoPlanesNeeded => Advised::Nothing,
        Answer::Pair(pair) => Advised::Pair(*pair),
        Answer::Infeasible(shortfall) => Advised::Short(shortfall.best),
    };
    let Some(ranking) = shelf.map(|shelf| &shelf.ranking) else { return by_size };
    match ranking.ranked.first() {
        // Where nothing can be asked, nothing is done without planes either.
        _ if suggestion.duties.is_empty() => by_size,
        _ if ranking.no_planes_needed => Advised::Nothing,
        Some(first) if first.standing <= Standing::NotOnHand => Advised::Pair(first.part.pair()),
        _ => by_size,
    }
}

/// The pair fitted where no other, from the shelf or by calculation, does what is asked so much more often, or it
/// does it often enough; and the size by calculation where a part of the shelf is no better than what she has.
pub(super) fn kept(
    boats: &[Boat],
    settings: &Settings,
    suggestion: &Suggestion,
    shelf: Option<&Shelf>,
    drawn: Drawn,
    advised: Advised,
) -> Result<Advised, ReportError> {
    let fitted = boats.first().and_then(Boat::planes);
    let (Some(fitted), Advised::Pair(best)) = (fitted, advised) else { return Ok(advised) };
    let first = shelf.and_then(|shelf| shelf.ranking.ranked.first());
    let on_shelf = first.filter(|first| first.part.pair() == best);
    let of_part = on_shelf.and_then(|first| first.judged.as_ref().ok()?.chance);
    let of_part = of_part.map(|chance| chance.share);
    let of_size = suggestion.chance.as_ref().map(|chance| chance.reached);
    let Some(best_share) = of_part.into_iter().chain(of_size).reduce(f64::max) else {
        return Ok(advised);
    };
    let asked = AskedOfReaching::of(boats, settings)?;
    let own = asked.chances(&[fitted.into()], drawn, &|_| ())[0].share;
    let enough = boats[0].sizing().chance.get::<ratio>().min(best_share - WORTH_CHANGING);
    let is_no_better = of_part.is_some_and(|share| share < own + WORTH_CHANGING);
    Ok(match &suggestion.answer {
        _ if own >= enough => Advised::Pair(fitted),
        Answer::Pair(size) if is_no_better => Advised::Pair(*size),
        _ => advised,
    })
}
