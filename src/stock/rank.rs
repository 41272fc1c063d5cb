//! The whole shelf in order for one boat: what does all duties first, the cheapest of it first.
//!
//! A part is judged by its own means: at each speed it can use the least of what the boat file
//! allows, the 15° that were tested, what its stroke gives, and what its actuators can push
//! against the expected load there. Strength under the design load does not change the order; it
//! is noted beside it, since it hangs on the make-up of the transom, which a list does not know.

mod reasons;

pub(crate) use reasons::amount;

use std::cmp::Ordering;

use uom::si::area::square_meter;
use uom::si::f64::{Area, Velocity};
use uom::si::length::meter;

use super::assess::{AssessError, Assessment, Largest, PartLoadAt, Ready, Settings, assess};
use super::part::Part;
use super::read::StockList;
use crate::balance;
use crate::boat::{Boat, Duty, Fault};
use crate::size::{AskedOfPair, Loaded, PairDuty, no_condition};

/// Planes that a boat takes.
pub const PLANES_OF_A_BOAT: u32 = 2;

/// Where a part stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// It fits, does all duties, and a pair is on hand.
    Does,
    /// It fits and does all duties, and there is no pair on hand.
    NotOnHand,
    /// It fits, and misses a duty.
    Misses,
    /// There is no room for it on the transom.
    NoRoom,
    /// Its linkage does not work on this transom, or it could not be judged.
    CannotBeFitted,
}

impl Standing {
    /// Stable word for outputs.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Does => "does-all",
            Self::NotOnHand => "does-all-not-on-hand",
            Self::Misses => "misses",
            Self::NoRoom => "no-room",
            Self::CannotBeFitted => "cannot-be-fitted",
        }
    }
}

/// What plate, screws and actuators bear at every speed at which the duties put the planes down, at the deflections needed there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// Largest share of the actuators' push that the expected load takes.
    pub push_share: f64,
    /// Whether the standing actuators bear the design load.
    pub holds_design: bool,
    /// Whether the plate keeps its safety factor under the expected load.
    pub plate_expected: bool,
    /// The same under the design load.
    pub plate_design: bool,
    /// Whether the screws keep theirs under the expected load; none where it is not covered.
    pub screws_expected: Option<bool>,
    /// The same under the design load.
    pub screws_design: Option<bool>,
}

/// A part that could be judged on the boat.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// What it does at the speeds at which the duties bite, in the order of the duties, and at top speed.
    pub assessment: Assessment,
    /// Every duty, where it uses the largest share of what the part can be put to.
    pub duties: Vec<PairDuty>,
    /// How far down the part can be put where each duty bites.
    pub reach: Vec<Largest>,
    /// What it bears at every speed at which the duties put the planes down.
    pub strength: Strength,
}

impl Judged {
    /// Whether all duties are done, room or not.
    #[must_use]
    pub fn does_all(&self) -> bool {
        self.duties.iter().all(|duty| duty.met)
    }

    /// Largest share used by any duty; none when a duty is beyond any deflection.
    #[must_use]
    pub fn most_used(&self) -> Option<f64> {
        self.duties
            .iter()
            .map(|duty| duty.share_used)
            .try_fold(0.0, |most, used| Some(used?.max(most)))
    }

    /// How far the worst duty is missed; at most 1 when none is.
    fn strain(&self) -> f64 {
        self.duties.iter().map(|duty| duty.strain).fold(0.0, f64::max)
    }
}

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
    /// Whether all prices are in one currency, so that they could be compared.
    pub one_currency: bool,
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
/// First come those that fit, do all duties and are on hand as a pair, by price and then by area;
/// then those that would do but are not on hand; then those that miss a duty, by how little; last
/// those without room or that cannot be fitted. Prices in several currencies are not compared.
///
/// # Errors
/// As [`crate::size::suggest`]. A part that cannot be judged is ranked last with its reason.
pub fn rank(
    boat: &Boat,
    balance: &balance::Settings,
    list: &StockList,
    settings: &Settings,
) -> Result<Ranking, Fault> {
    rank_for(std::slice::from_ref(boat), balance, list, settings)
}

/// [`rank`] for a boat in several loading conditions: a part must do the duties in all of them.
///
/// # Errors
/// As [`rank`]; and when there is no boat.
pub fn rank_for(
    boats: &[Boat],
    balance: &balance::Settings,
    list: &StockList,
    settings: &Settings,
) -> Result<Ranking, Fault> {
    let loaded = Loaded::all(boats, balance);
    let asked = AskedOfPair::of(&loaded, balance)?;
    let is_asked = !asked.asking.duties.is_empty();
    let no_planes_needed = is_asked && asked.bare_does_all();
    let first_currency = list.parts.first().map(|part| &part.price.currency);
    let one_currency = list.parts.iter().all(|part| Some(&part.price.currency) == first_currency);
    let mut ranked: Vec<Ranked> = if no_planes_needed || !is_asked {
        Vec::new()
    } else {
        list.parts.iter().map(|part| ranked(part, judge(part, boats, &asked, settings))).collect()
    };
    ranked.sort_by(|a, b| order(a, b, one_currency));
    Ok(Ranking {
        no_planes_needed,
        share_allowed: asked.share_allowed(),
        generated: asked.asking.generated,
        conditions: boats.len(),
        duties: asked.asking.duties.into_iter().map(|held| held.duty).collect(),
        one_currency,
        ranked,
    })
}

fn ranked(part: &Part, judged: Result<Judged, AssessError>) -> Ranked {
    let standing = match &judged {
        Err(_) => Standing::CannotBeFitted,
        Ok(judged) if !judged.assessment.fit.fits() => Standing::NoRoom,
        Ok(judged) if !judged.does_all() => Standing::Misses,
        Ok(_) if part.on_hand < PLANES_OF_A_BOAT => Standing::NotOnHand,
        Ok(_) => Standing::Does,
    };
    Ranked { part: part.clone(), standing, judged }
}

fn judge(
    part: &Part,
    boats: &[Boat],
    asked: &AskedOfPair<'_>,
    settings: &Settings,
) -> Result<Judged, AssessError> {
    let ready: Vec<Ready<'_>> =
        boats.iter().map(|boat| Ready::new(part, boat, settings)).collect::<Result<_, _>>()?;
    let reach_at = |place: usize, speed| ready[place].reach(speed).map(|reach| reach.deflection);
    let duties = asked.judge(part.pair(), reach_at)?;
    let reach = duties.iter().map(|duty| ready[duty.loaded].reach(duty.speed));
    let reach = reach.collect::<Result<Vec<_>, _>>()?;
    let mut loads = Vec::new();
    for (place, speed, deflection) in asked.put_to(part.pair(), reach_at)? {
        loads.extend(ready[place].load_at(speed, deflection)?);
    }
    let strength = strength(part, &loads);
    Ok(Judged { assessment: assessed(part, boats, settings, &duties)?, duties, reach, strength })
}

/// What a part does in each condition at the speeds of the duties that bite there, and at top speed;
/// its limits are the narrowest of all conditions.
fn assessed(
    part: &Part,
    boats: &[Boat],
    settings: &Settings,
    duties: &[PairDuty],
) -> Result<Assessment, AssessError> {
    let mut whole: Option<Assessment> = None;
    for (place, boat) in boats.iter().enumerate() {
        let here = duties.iter().filter(|duty| duty.loaded == place);
        let speeds: Vec<Velocity> =
            here.map(|duty| duty.speed).chain([boat.drive().top_speed]).collect();
        let own = assess(part, boat, settings, &speeds)?;
        whole = Some(match whole {
            None => own,
            Some(mut whole) => {
                whole.by_speed.extend(own.by_speed);
                whole.limits = whole.limits.narrower(&own.limits);
                whole
            }
        });
    }
    whole.ok_or_else(|| no_condition().into())
}

/// What a part bears under all of some loads.
fn strength(part: &Part, loads: &[PartLoadAt]) -> Strength {
    let push = part.actuator.push();
    let shares = loads.iter().map(|at| (at.expected_push / push).value);
    let screws = |enough: fn(&PartLoadAt) -> Option<bool>| {
        loads.iter().map(enough).try_fold(true, |all, one| Some(all && one?))
    };
    Strength {
        push_share: shares.fold(0.0, f64::max),
        holds_design: loads.iter().all(|at| at.design_push <= part.actuator.hold()),
        plate_expected: loads.iter().all(|at| at.expected.plate.strong_enough),
        plate_design: loads.iter().all(|at| at.design.plate.strong_enough),
        screws_expected: screws(|at| at.expected.screws.enough()),
        screws_design: screws(|at| at.design.screws.enough()),
    }
}

fn order(a: &Ranked, b: &Ranked, one_currency: bool) -> Ordering {
    let price = || {
        if one_currency {
            a.part.price.amount.total_cmp(&b.part.price.amount)
        } else {
            Ordering::Equal
        }
    };
    let shortfall = |ranked: &Ranked| match (&ranked.judged, ranked.standing) {
        (Ok(judged), Standing::Misses) => judged.strain(),
        (Ok(judged), Standing::NoRoom) => judged.assessment.fit.missing.get::<meter>(),
        _ => 0.0,
    };
    // Beside room, what they miss; nothing for those that do all.
    let strain = |ranked: &Ranked| match (&ranked.judged, ranked.standing) {
        (Ok(judged), Standing::NoRoom) if !judged.does_all() => judged.strain(),
        _ => 0.0,
    };
    a.standing
        .cmp(&b.standing)
        .then_with(|| shortfall(a).total_cmp(&shortfall(b)))
        .then_with(|| strain(a).total_cmp(&strain(b)))
        .then_with(price)
        .then_with(|| a.area_m2().total_cmp(&b.area_m2()))
        .then_with(|| a.part.name.cmp(&b.part.name))
}

#[cfg(test)]
#[path = "rank/tests.rs"]
mod tests;
