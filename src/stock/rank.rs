//! The whole shelf in order for one boat: what does most comes first, what is unsafe last.
//!
//! A part is judged by its own means: at each speed it can use the least of what the boat file
//! allows, the 15° that were tested, what its stroke gives, and what its actuators can push
//! against the expected load there. A part that does not bear the load of steady running at the
//! deflection allowed is unsafe and never recommended. One that bears it and has no allowance for
//! slamming is recommended with its remedy; that does not change the order, since it depends on the
//! make-up of the transom, which a list does not know. Of a part that the list does not describe only
//! the size is judged, with all deflection that the boat file allows; its strength is not known, and
//! every output says so.

mod judge;
mod remedy;

pub use judge::{Judged, JudgedGear};
use judge::{judge, ready};
pub(crate) use remedy::{bolts_text, remedy, unsafe_said, unsafe_text};

use std::cmp::Ordering;

use rayon::iter::ParallelIterator;
use rayon::slice::ParallelSlice;
use uom::si::area::square_meter;
use uom::si::f64::{Area, Velocity};
use uom::si::{length::meter, ratio::ratio};

use super::assess::{AssessError, Settings};
use super::part::Part;
use super::read::StockList;
use crate::balance;
use crate::boat::{Boat, Duty, Fault};
use crate::doubt::{AskedOfReaching, Drawn, Progress, Reaching, in_hundred};
use crate::field::by_word;
use crate::plane::strength::Verdict;
use crate::size::{AskedOfPair, Loaded};
use crate::units::UnitChoice;

/// A stock list and its order for the boat.
#[derive(Clone, Debug)]
pub struct Shelf {
    /// The list.
    pub list: StockList,
    /// Its order.
    pub ranking: Ranking,
}

/// Parts judged one after another on what is known of the duties; such runs of parts are judged side by side.
const PARTS_TOGETHER: usize = 64;

/// Planes that a boat takes.
pub const PLANES_OF_A_BOAT: u32 = 2;

/// A part that does what is asked on less than this share of the boats wanted is not to be taken for it. Judged.
const SELDOM: f64 = 0.5;

/// Where a part stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// It fits, does all duties, and a pair is on hand, or the list does not say how many are.
    Does,
    /// It fits and does all duties, and there is no pair on hand.
    NotOnHand,
    /// It fits and does all duties on the boat as described, and on fewer than half as many boats nearly like her as are wanted.
    Seldom,
    /// It fits, and whether it does a duty is not known: nobody tested planes of such a chord on such a bottom.
    NotTested,
    /// It fits, and misses a duty.
    Misses,
    /// There is no room for it on the transom.
    NoRoom,
    /// Its linkage does not work on this transom, or it could not be judged.
    CannotBeFitted,
    /// Plate, screws or actuators do not bear the load of steady running: never to be recommended.
    Unsafe,
}

impl Standing {
    /// Stable word for outputs.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Does => "does-all",
            Self::NotOnHand => "does-all-not-on-hand",
            Self::Seldom => "does-all-seldom",
            Self::NotTested => "not-tested",
            Self::Misses => "misses",
            Self::NoRoom => "no-room",
            Self::CannotBeFitted => "cannot-be-fitted",
            Self::Unsafe => "unsafe",
        }
    }
}

by_word!(Standing);

/// One part in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Ranked {
    /// The part.
    pub part: Part,
    /// Where it stands.
    pub standing: Standing,
    /// How it was judged, or why it could not be.
    pub judged: Result<Judged, AssessError>,
}

impl Ranked {
    /// Price of a pair.
    #[must_use]
    pub fn pair_price(&self) -> f64 {
        f64::from(PLANES_OF_A_BOAT) * self.part.price.amount
    }

    /// What is to be done to it, so that it bears slamming; none where nothing is, or its strength is not known.
    #[must_use]
    pub(crate) fn remedy(&self, units: UnitChoice) -> Option<String> {
        remedy(self.part.gear.as_ref()?, self.judged.as_ref().ok()?.strength()?, units)
    }

    /// Area of a pair.
    #[must_use]
    pub fn area(&self) -> Area {
        self.part.pair().area()
    }

    fn area_m2(&self) -> f64 {
        self.area().get::<square_meter>()
    }
}

/// The shelf in order.
#[derive(Clone, Debug, PartialEq)]
pub struct Ranking {
    /// Whether the boat does all duties with planes up, so that nothing was ranked.
    pub no_planes_needed: bool,
    /// The duties.
    pub duties: Vec<Duty>,
    /// Whether they were generated from the boat.
    pub generated: bool,
    /// Number of loading conditions in which they are to be done.
    pub conditions: usize,
    /// Share of the usable deflection that duties may use.
    pub share_allowed: f64,
    /// Share of boats nearly like this one on which all duties are to be done.
    pub wanted: f64,
    /// Boats drawn for the chances.
    pub drawn: Drawn,
    /// Whether all prices are in one currency, so that they could be compared.
    pub one_currency: bool,
    /// Whether every duty can be judged; else the chances are of the others alone.
    pub all_judged: bool,
    /// Every part of the list, best first.
    pub ranked: Vec<Ranked>,
}

impl Ranking {
    /// Whether the boat can be fitted out from the shelf, or needs no planes.
    #[must_use]
    pub fn does_all(&self) -> bool {
        self.no_planes_needed || self.ranked.first().is_some_and(|r| r.standing == Standing::Does)
    }
}

/// Puts every part of a list in order for a boat in the loading condition that she is in.
///
/// First come those that fit, do all duties and are on hand as a pair, then those that would do but
/// are not on hand, then those that do them on the boat described and seldom on those nearly like
/// her, then those that miss a duty: the one that does more duties first. Among equals the chance
/// that it does all of them on boats nearly like this one counts, in whole hundredths up to what is
/// wanted: more makes a pair larger and no better. Then, where duties are missed, by how little;
/// then price, a chance beyond what is wanted, and area. After them stand those without
/// room, then those that cannot be fitted, and last those that are unsafe. Prices in several
/// currencies are not compared.
///
/// # Errors
/// As [`crate::size::suggest`]. A part that cannot be judged is ranked with its reason.
pub fn rank(
    boat: &Boat,
    balance: &balance::Settings,
    list: &StockList,
    settings: &Settings,
    drawn: Drawn,
) -> Result<Ranking, Fault> {
    rank_for(std::slice::from_ref(boat), balance, list, settings, drawn, &|_| ())
}

/// [`rank`] for a boat in several loading conditions: a part must do the duties in all of them.
///
/// Progress is told part by part as they are judged, then boat by boat as they are drawn.
///
/// # Errors
/// As [`rank`]; and when there is no boat.
pub fn rank_for(
    boats: &[Boat],
    balance: &balance::Settings,
    list: &StockList,
    settings: &Settings,
    drawn: Drawn,
    progress: Progress<'_>,
) -> Result<Ranking, Fault> {
    let loaded = Loaded::all(boats, balance);
    let asked = AskedOfPair::of(&loaded, balance)?;
    let is_asked = !asked.asking.duties.is_empty();
    let no_planes_needed = is_asked && asked.bare_does_all();
    let all_judged = asked.is_all_judged();
    let first_currency = list.parts.first().map(|part| &part.price.currency);
    let one_currency = list.parts.iter().all(|part| Some(&part.price.currency) == first_currency);
    let mut ranked: Vec<Ranked> = if no_planes_needed || !is_asked {
        Vec::new()
    } else {
        let judged = |parts: &[Part]| -> Result<Vec<Ranked>, Fault> {
            let asked = AskedOfPair::of(&loaded, balance)?;
            let one = |part| {
                let judged = ranked(part, judge(part, boats, &asked, settings));
                progress(1);
                judged
            };
            Ok(parts.iter().map(one).collect())
        };
        let chunks = list.parts.par_chunks(PARTS_TOGETHER).map(judged);
        chunks.collect::<Result<Vec<_>, Fault>>()?.into_iter().flatten().collect()
    };
    add_chances(&mut ranked, boats, balance, settings, drawn, progress)?;
    let wanted = boats.first().map_or(0.0, |boat| boat.sizing().chance.get::<ratio>());
    for ranked in &mut ranked {
        let share = ranked.judged.as_ref().ok().and_then(|judged| Some(judged.chance?.share));
        if ranked.standing < Standing::Seldom && share.is_some_and(|share| share < SELDOM * wanted)
        {
            ranked.standing = Standing::Seldom;
        }
    }
    ranked.sort_by(|a, b| order(a, b, in_hundred(wanted), one_currency));
    Ok(Ranking {
        no_planes_needed,
        wanted,
        share_allowed: asked.share_allowed(),
        generated: asked.asking.generated,
        conditions: boats.len(),
        duties: asked.asking.duties.into_iter().map(|held| held.duty).collect(),
        drawn,
        one_currency,
        all_judged,
        ranked,
    })
}

fn ranked(part: &Part, judged: Result<Judged, AssessError>) -> Ranked {
    let standing = match &judged {
        Err(_) => Standing::CannotBeFitted,
        Ok(judged) if judged.verdict() == Some(Verdict::Unsafe) => Standing::Unsafe,
        Ok(judged) if !judged.fit.fits() => Standing::NoRoom,
        Ok(judged) if judged.is_untested() => Standing::NotTested,
        Ok(judged) if !judged.does_all() => Standing::Misses,
        Ok(_) if part.on_hand.is_some_and(|planes| planes < PLANES_OF_A_BOAT) => {
            Standing::NotOnHand
        }
        Ok(_) => Standing::Does,
    };
    Ranked { part: part.clone(), standing, judged }
}

/// How likely each part that has room and is safe does all duties: all of them on the same boats.
fn add_chances(
    ranked: &mut [Ranked],
    boats: &[Boat],
    balance: &balance::Settings,
    settings: &Settings,
    drawn: Drawn,
    progress: Progress<'_>,
) -> Result<(), Fault> {
    let asked = AskedOfReaching::of(boats, balance)?;
    let is_asked = |ranked: &&mut Ranked| ranked.standing <= Standing::Misses;
    let mut pairs = Vec::new();
    let mut places = Vec::new();
    for ranked in ranked.iter_mut().filter(is_asked) {
        let Ok(reaching) = reaching(&ranked.part, boats, settings, &asked) else { continue };
        pairs.push(reaching);
        places.push(ranked);
    }
    if pairs.is_empty() {
        return Ok(());
    }
    for (ranked, chance) in places.into_iter().zip(asked.chances(&pairs, drawn, progress)) {
        if let Ok(judged) = &mut ranked.judged {
            judged.chance = Some(chance);
        }
    }
    Ok(())
}

/// How far down a part can be put at each speed that is judged.
///
/// # Errors
/// As [`super::assess()`].
pub fn reaching(
    part: &Part,
    boats: &[Boat],
    settings: &Settings,
    asked: &AskedOfReaching<'_>,
) -> Result<Reaching, AssessError> {
    if part.gear.is_none() {
        return Ok(Reaching::from(part.pair()));
    }
    let ready = ready(part, boats, settings)?;
    let reach = |(index, speed): (usize, Velocity)| Ok(ready[index].reach(speed)?.deflection);
    let usable = asked.speeds().map(reach).collect::<Result<_, AssessError>>()?;
    Ok(Reaching { pair: part.pair(), usable: Some(usable) })
}

fn order(a: &Ranked, b: &Ranked, wanted: u32, one_currency: bool) -> Ordering {
    let judged =
        |ranked: &Ranked, value: &dyn Fn(&Judged) -> f64| ranked.judged.as_ref().map_or(0.0, value);
    let least_first =
        |value: &dyn Fn(&Judged) -> f64| judged(a, value).total_cmp(&judged(b, value));
    let most_first = |value: &dyn Fn(&Judged) -> f64| least_first(value).reverse();
    let missing = |judged: &Judged| judged.fit.missing.get::<meter>();
    let done = |judged: &Judged| judged.done() as f64;
    let chance = |judged: &Judged| f64::from(judged.in_hundred().unwrap_or(0));
    let as_wanted = |judged: &Judged| chance(judged).min(f64::from(wanted));
    // What is missed; nothing for those that do all.
    let utilisation = |judged: &Judged| if judged.does_all() { 0.0 } else { judged.utilisation() };
    let price = || {
        if one_currency {
            a.part.price.amount.total_cmp(&b.part.price.amount)
        } else {
            Ordering::Equal
        }
    };
    // What was not tested is no better and no worse than what is missed.
    let standing = |ranked: &Ranked| match ranked.standing {
        Standing::NotTested => Standing::Misses,
        other => other,
    };
    standing(a)
        .cmp(&standing(b))
        .then_with(|| least_first(&missing))
        .then_with(|| most_first(&done))
        .then_with(|| most_first(&as_wanted))
        .then_with(|| least_first(&utilisation))
        .then_with(price)
        .then_with(|| most_first(&chance))
        .then_with(|| a.area_m2().total_cmp(&b.area_m2()))
        .then_with(|| a.part.name.cmp(&b.part.name))
}

#[cfg(test)]
#[path = "rank/tests.rs"]
mod tests;
