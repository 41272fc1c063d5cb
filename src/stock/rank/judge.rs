//! One part judged on one boat: which duties it does by its own means, and what it bears.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};

use crate::boat::{Boat, Fit};
use crate::doubt::{Probability, in_hundred};
use crate::plane::effect::LARGEST_TESTED_DEFLECTION_DEG;
use crate::plane::strength::Verdict;
use crate::size::{AskedOfPair, PairDuty, no_condition};
use crate::stock::Part;
use crate::stock::assess::{
    AssessError, Assessment, Largest, LimitedBy, PartLoadAt, Ready, Settings, Strength, assess,
    strength_of,
};

/// A part that could be judged on the boat.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// Whether the pair fits the transom, and where.
    pub fit: Fit,
    /// Every duty, where it uses the largest share of what the part can be put to.
    pub duties: Vec<PairDuty>,
    /// How far down the part can be put where each duty asks most.
    pub reach: Vec<Largest>,
    /// What its plate, screws and actuators make of it; none where the list does not describe them.
    pub gear: Option<JudgedGear>,
    /// Of each duty whether planes of its chord were not tested where it asks most.
    pub untested: Vec<bool>,
    /// How likely it does all duties on boats nearly like the one described; none for a part that
    /// has no room or is unsafe.
    pub chance: Option<Probability>,
}

/// What plate, screws and actuators of a part make of the loads.
#[derive(Clone, Debug, PartialEq)]
pub struct JudgedGear {
    /// What it does at the speeds at which the duties ask most, in the order of the duties, and at top speed.
    pub assessment: Assessment,
    /// Largest share of the actuators' push that the load of steady running takes at any speed at
    /// which the duties put the planes down.
    pub push_share: f64,
    /// What it bears at the deflection allowed, at all speeds.
    pub strength: Strength,
}

impl Judged {
    /// What it bears; none where that is not known.
    #[must_use]
    pub fn strength(&self) -> Option<&Strength> {
        self.gear.as_ref().map(|gear| &gear.strength)
    }

    /// The worst verdict on its strength; none where that is not known.
    #[must_use]
    pub fn verdict(&self) -> Option<Verdict> {
        self.strength().map(Strength::verdict)
    }

    /// Whether every duty that it misses is missed where planes of its chord were not tested, so that
    /// nobody knows whether it does.
    #[must_use]
    pub fn is_untested(&self) -> bool {
        let mut missed = self.duties.iter().zip(&self.untested).filter(|(duty, _)| !duty.met);
        !self.does_all() && missed.all(|(_, &is_untested)| is_untested)
    }

    /// Whether all duties are done, room or not.
    #[must_use]
    pub fn does_all(&self) -> bool {
        self.duties.iter().all(|duty| duty.met)
    }

    /// How many duties are done.
    #[must_use]
    pub fn done(&self) -> usize {
        self.duties.iter().filter(|duty| duty.met).count()
    }

    /// On how many in a hundred boats nearly like the one described it does all duties, in whole.
    #[must_use]
    pub fn in_hundred(&self) -> Option<u32> {
        self.chance.map(|chance| in_hundred(chance.share))
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
    pub(super) fn utilisation(&self) -> f64 {
        self.duties.iter().map(|duty| duty.utilisation).fold(0.0, f64::max)
    }
}

/// A part made ready on the boat in each of her loading conditions.
pub(super) fn ready<'a>(
    part: &'a Part,
    boats: &'a [Boat],
    settings: &'a Settings,
) -> Result<Vec<Ready<'a>>, AssessError> {
    boats.iter().map(|boat| Ready::new(part, boat, settings)).collect()
}

/// Judges a part on a boat in some loading conditions; all but its chance.
pub(super) fn judge(
    part: &Part,
    boats: &[Boat],
    asked: &AskedOfPair<'_>,
    settings: &Settings,
) -> Result<Judged, AssessError> {
    if part.gear.is_none() {
        return by_size(part, boats, asked);
    }
    let ready = ready(part, boats, settings)?;
    let reach_at = |index: usize, speed| ready[index].reach(speed).map(|reach| reach.deflection);
    let duties = asked.judge(part.pair(), reach_at)?;
    let reach = duties.iter().map(|duty| ready[duty.loaded].reach(duty.speed));
    let reach = reach.collect::<Result<Vec<_>, _>>()?;
    let mut loads = Vec::new();
    for (index, speed, deflection) in asked.put_to(part.pair(), reach_at)? {
        loads.extend(ready[index].load_at(speed, deflection)?);
    }
    let assessment = assessed(part, boats, settings, &duties)?;
    Ok(Judged {
        fit: assessment.fit.clone(),
        untested: untested(part, asked, &duties),
        duties,
        reach,
        gear: Some(JudgedGear {
            assessment,
            push_share: push_share(&ready, &loads),
            strength: strength_of(&ready)?,
        }),
        chance: None,
    })
}

/// A part of which only the size is known: it can be put as far down as was tested.
fn by_size(part: &Part, boats: &[Boat], asked: &AskedOfPair<'_>) -> Result<Judged, AssessError> {
    let boat = boats.first().ok_or_else(no_condition)?;
    let tested = Angle::new::<degree>(LARGEST_TESTED_DEFLECTION_DEG);
    let duties = asked.judge(part.pair(), |_, _| Ok::<_, AssessError>(tested))?;
    let reach = Largest { deflection: tested, limited_by: LimitedBy::Tested };
    Ok(Judged {
        fit: boat.transom().fits(part.pair()),
        reach: vec![reach; duties.len()],
        untested: untested(part, asked, &duties),
        duties,
        gear: None,
        chance: None,
    })
}

/// Of each duty whether planes of such a chord were not tested where it asks most.
fn untested(part: &Part, asked: &AskedOfPair<'_>, duties: &[PairDuty]) -> Vec<bool> {
    duties.iter().map(|duty| asked.is_chord_untested(part.pair(), duty)).collect()
}

/// What a part does in each condition at the speeds of the duties that ask most there, and at top speed;
/// its limits are the narrowest of all conditions.
fn assessed(
    part: &Part,
    boats: &[Boat],
    settings: &Settings,
    duties: &[PairDuty],
) -> Result<Assessment, AssessError> {
    let mut whole: Option<Assessment> = None;
    for (index, boat) in boats.iter().enumerate() {
        let here = duties.iter().filter(|duty| duty.loaded == index);
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

/// Largest share of the actuators' push that the load of steady running takes.
fn push_share(ready: &[Ready<'_>], loads: &[PartLoadAt]) -> f64 {
    let Some(push) = ready.first().map(Ready::push) else { return 0.0 };
    loads.iter().map(|at| (at.expected_push / push).value).fold(0.0, f64::max)
}
