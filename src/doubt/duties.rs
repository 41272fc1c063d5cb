//! The duties on very many boats nearly like the one described: how likely each is done by each pair.

use rayon::iter::{IntoParallelIterator, IntoParallelRefIterator, ParallelIterator};
use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};
use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, velocity::meter_per_second};

use super::advise::{DRAWS, SEED};
use super::draw::{Draw, Draws};
use super::inputs::{Inputs, What};
use super::interval::{Likely, Probability, likely};
use super::running::{Influence, Progress, influences};
use super::seen::SeenFit;
use crate::balance::Settings;
use crate::balance::forces::PlaneSize;
use crate::boat::{Boat, Duty, Fault, Particulars, PlanePair};
use crate::field::{InSi, si, written};
use crate::sentence::duty::condition;
use crate::size::{AskedOfDraws, Loaded, OnDraw, Settled, no_condition};
use crate::units::UnitSystem;

/// Deflection that stands for 'none at all', degrees.
const NONE_DEG: f64 = 1e-3;

/// How many boats are drawn to be judged, and from which seed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Drawn {
    /// Boats drawn.
    pub draws: u32,
    /// Seed of the random numbers.
    pub seed: u64,
}

impl Default for Drawn {
    /// What every answer counts when nothing else is asked for, so that all say the same.
    fn default() -> Self {
        Self { draws: DRAWS, seed: SEED }
    }
}

/// A duty, with the loading conditions in which it holds.
#[derive(Clone, Debug, PartialEq)]
pub struct HeldDuty {
    /// What must hold.
    pub duty: Duty,
    /// Names of the conditions.
    pub conditions: Vec<String>,
}

/// How likely a pair does the duties.
#[derive(Clone, Debug, PartialEq)]
pub struct PairDoubt {
    /// The pair; none for the bare boat.
    pub pair: Option<PlanePair>,
    /// Each duty, in the order of the list; none for one that cannot be judged.
    pub each: Vec<Option<Probability>>,
    /// All of them that can be judged on the same boat.
    pub all: Probability,
}

/// Deflection that the duties need of a pair at one speed in one condition.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct NeedDoubt {
    /// Name of the condition.
    pub condition: String,
    /// The speed.
    #[serde(rename = "speed_m_s", serialize_with = "si")]
    pub speed: Velocity,
    /// Deflection of the deeper plane; none where no deflection does it.
    #[serde(flatten, serialize_with = "in_degrees")]
    pub needed: Likely<Option<Angle>>,
    /// Share of the boats drawn on which the usable deflection does it.
    #[serde(rename = "usable_does")]
    pub usable: Probability,
}

/// A size to the last bit, as it was asked about.
struct Exact(PlanePair);

/// Writes a likely angle as entries of the object that it belongs to; for `serialize_with`.
fn in_degrees<S: Serializer>(
    likely: &Likely<Option<Angle>>,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    let mut map = serializer.serialize_map(Some(3))?;
    let Likely { low, median, high } = likely.in_si();
    for (key, end) in [("low_deg", low), ("median_deg", median), ("high_deg", high)] {
        map.serialize_entry(key, &end)?;
    }
    map.end()
}

/// How sure it is that duties are done.
#[derive(Clone, Debug, PartialEq)]
pub struct DutiesDoubt {
    /// What was asked for.
    pub drawn: Drawn,
    /// The duties.
    pub duties: Vec<HeldDuty>,
    /// Whether they were generated from the boat.
    pub generated: bool,
    /// The bare boat first, then the pairs asked about.
    pub pairs: Vec<PairDoubt>,
    /// The pair whose deflections are given.
    pub pair: Option<PlanePair>,
    /// Deflections that it needs.
    pub needs: Vec<NeedDoubt>,
    /// Largest usable deflection.
    pub usable: Angle,
    /// What the utilisation of that pair follows, the strongest first.
    pub follows: Vec<Influence>,
    /// What was seen of the boat, which all boats drawn would have shown; none when nothing was.
    pub seen: Option<SeenFit>,
}

/// How likely the duties are done on boats nearly like the one described, by some pairs; and what deflections one of them needs.
///
/// `boats` is one boat in each of her loading conditions. A boat drawn is off by
/// the same in all of them.
///
/// # Errors
/// As [`crate::size::suggest_for`].
pub fn duties(
    boats: &[Boat],
    settings: &Settings,
    pairs: &[PlanePair],
    pair: Option<PlanePair>,
    drawn: Drawn,
    progress: Progress<'_>,
) -> Result<DutiesDoubt, Fault> {
    let pairs: Vec<Reaching> = pairs.iter().copied().map(Reaching::from).collect();
    duties_within(boats, settings, &pairs, pair, drawn, progress)
}

/// [`duties`] by pairs of which some can be put down only so far.
///
/// # Errors
/// As [`duties`].
pub fn duties_within(
    boats: &[Boat],
    settings: &Settings,
    pairs: &[Reaching],
    pair: Option<PlanePair>,
    drawn: Drawn,
    progress: Progress<'_>,
) -> Result<DutiesDoubt, Fault> {
    let described = Described::of(boats, settings)?;
    described.duties(pairs, pair, drawn, progress)
}

/// A pair that can be put down only so far at each speed, such as a part with weak actuators.
#[derive(Clone, Debug, PartialEq)]
pub struct Reaching {
    /// The pair.
    pub pair: PlanePair,
    /// How far down it can be put at each of [`AskedOfReaching::speeds`]; none for as far as the boat file allows.
    pub usable: Option<Vec<Angle>>,
}

written! {
    HeldDuty as held {
        "name": held.duty.name(),
        "sentence": condition(&held.duty, UnitSystem::default().into()).to_string(),
        "conditions": held.conditions,
    }
    PairDoubt as doubt {
        "pair": doubt.pair.map(Exact),
        "each": doubt.each,
        "all": doubt.all,
    }
    Exact as size {
        "span_m": size.0.span.in_si(),
        "chord_m": size.0.chord.in_si(),
        "area_m2": size.0.area().in_si(),
    }
    DutiesDoubt as doubt {
        "draws": doubt.drawn.draws,
        "seed": doubt.drawn.seed,
        "generated": doubt.generated,
        "duties": doubt.duties,
        "pairs": doubt.pairs,
        "needs_of": doubt.pair.map(Exact),
        "usable_deflection_deg": doubt.usable.in_si(),
        "needs": doubt.needs,
        "follows": doubt.follows,
    }
}

impl DutiesDoubt {
    /// Whether every duty can be judged; else a chance of all is one of the others.
    #[must_use]
    pub fn is_all_judged(&self) -> bool {
        self.pairs.first().is_none_or(|pair| pair.each.iter().all(Option::is_some))
    }

    /// Whether any duty can be judged, so that there is something to count.
    #[must_use]
    pub fn is_of_something(&self) -> bool {
        self.pairs.first().is_some_and(|pair| pair.each.iter().any(Option::is_some))
    }
}

impl From<PlanePair> for Reaching {
    fn from(pair: PlanePair) -> Self {
        Self { pair, usable: None }
    }
}

impl Reaching {
    fn usable_deg(&self) -> Option<Vec<f64>> {
        let usable = self.usable.as_ref()?.iter();
        Some(usable.map(|angle| angle.get::<degree>().max(NONE_DEG)).collect())
    }
}

/// What pairs take off the trim with all the deflection that may be used.
#[derive(Clone, Debug, PartialEq)]
pub struct Reliefs {
    /// The speed of largest trim with planes up among those that are judged.
    pub speed: Velocity,
    /// The pairs, in the order in which they were asked about; none where no boat drawn runs.
    pub pairs: Vec<(PlanePair, Option<Likely<Angle>>)>,
}

/// The duties of a boat, ready to be asked of such pairs on boats nearly like her.
pub struct AskedOfReaching<'a>(Described<'a>);

impl<'a> AskedOfReaching<'a> {
    /// Of a boat in each of her loading conditions.
    ///
    /// # Errors
    /// As [`duties`].
    pub fn of(boats: &'a [Boat], settings: &Settings) -> Result<Self, Fault> {
        Ok(Self(Described::of(boats, settings)?))
    }

    /// Index of the condition and speed of everything that is judged.
    pub fn speeds(&self) -> impl Iterator<Item = (usize, Velocity)> {
        let speeds = self.0.asked.speeds_m_s.iter();
        speeds.map(|&(loaded, speed_m_s)| (loaded, Velocity::new::<meter_per_second>(speed_m_s)))
    }

    /// How likely each pair does all duties, in their order.
    pub fn chances(
        &self,
        pairs: &[Reaching],
        drawn: Drawn,
        progress: Progress<'_>,
    ) -> Vec<Probability> {
        let asked: Vec<(PlaneSize, Option<Vec<f64>>)> =
            pairs.iter().map(|reaching| (reaching.pair.into(), reaching.usable_deg())).collect();
        let answers = self.0.ask_all(drawn, progress, |boat| -> Vec<bool> {
            let does = |(size, usable_deg): &(PlaneSize, Option<Vec<f64>>)| match usable_deg {
                Some(usable_deg) => boat.does_all_within(*size, usable_deg),
                None => boat.does_all(*size),
            };
            asked.iter().map(does).collect()
        });
        let done = |index: usize| answers.iter().filter(|answer| answer[index]).count();
        (0..pairs.len()).map(|index| Probability::counted(done(index), drawn.draws)).collect()
    }

    /// What each pair takes off the trim with all the deflection that may be used, in their order: at the speed of largest
    /// trim with planes up among those that are judged in a loading condition, no further than to 2° of trim.
    ///
    /// None where she runs nowhere.
    pub fn reliefs(
        &self,
        pairs: &[Reaching],
        loaded: usize,
        drawn: Drawn,
        progress: Progress<'_>,
    ) -> Option<Reliefs> {
        let middle = Draw::at(&self.0.inputs, &[0.5; What::COUNT]);
        let hump = self.0.ask(&middle, |boat| self.0.asked.hump_index(boat, loaded))?;
        let (_, speed_m_s) = self.0.asked.speeds_m_s[hump];
        let usable_deg = |own: &Reaching| own.usable_deg().map(|all| all[hump]);
        let asked: Vec<(PlaneSize, Option<f64>)> =
            pairs.iter().map(|own| (own.pair.into(), usable_deg(own))).collect();
        let answers = self.0.ask_all(drawn, progress, |boat| -> Vec<f64> {
            let relief = |&(size, usable_deg): &(PlaneSize, Option<f64>)| {
                boat.relief_deg(hump, size, usable_deg)
            };
            asked.iter().map(relief).collect()
        });
        let of_pair = |index: usize| {
            let all = answers.iter().map(|answer| answer[index]).collect();
            Some(likely(all)?.map(Angle::new::<degree>))
        };
        let own = pairs.iter().enumerate();
        Some(Reliefs {
            speed: Velocity::new::<meter_per_second>(speed_m_s),
            pairs: own.map(|(index, own)| (own.pair, of_pair(index))).collect(),
        })
    }
}

/// What one boat drawn answers.
struct Answer {
    /// Whether each duty is done, and all: of the bare boat and of each pair.
    done: Vec<(Vec<bool>, bool)>,
    needed_deg: Vec<f64>,
    utilisation: f64,
}

/// One boat in all conditions asked about, ready to be drawn.
pub(super) struct Described<'a> {
    boats: &'a [Boat],
    particulars: Vec<Particulars>,
    settings: Settings,
    pub inputs: Inputs,
    pub asked: AskedOfDraws,
}

impl<'a> Described<'a> {
    pub fn of(boats: &'a [Boat], settings: &Settings) -> Result<Self, Fault> {
        let first = boats.first().ok_or_else(no_condition)?;
        Ok(Self {
            boats,
            particulars: boats.iter().map(Boat::particulars).collect(),
            settings: *settings,
            inputs: Inputs::of(first).with_seen(first, settings)?,
            asked: AskedOfDraws::of(&Loaded::all(boats, settings), settings)?,
        })
    }

    /// The boat in each condition.
    pub fn boats(&self) -> &'a [Boat] {
        self.boats
    }

    /// One boat drawn in each condition.
    fn loaded(&self, draw: &Draw) -> Vec<Loaded<'a>> {
        let boats = self.boats.iter().zip(&self.particulars);
        let one = |(boat, own)| Loaded::new(boat, draw.prism(own, &self.settings));
        boats.map(one).collect()
    }

    /// Asks something of one boat drawn.
    pub fn ask<T>(&self, draw: &Draw, ask: impl FnOnce(&OnDraw<'_>) -> T) -> T {
        ask(&self.asked.on(&self.loaded(draw)))
    }

    /// Asks something of every boat drawn, on all processors; the answers stand in the order of the draws.
    pub fn ask_all<T: Send>(
        &self,
        drawn: Drawn,
        progress: Progress<'_>,
        ask: impl Fn(&OnDraw<'_>) -> T + Sync,
    ) -> Vec<T> {
        let draws = Draws::new(&self.inputs, drawn.seed);
        let one = |number: u32| {
            let answer = self.ask(&draws.draw(u64::from(number)), &ask);
            progress(1);
            answer
        };
        (0..drawn.draws).into_par_iter().map(one).collect()
    }

    /// Every boat drawn as she settles with planes up, to be asked again and again.
    pub fn settle_all(&self, drawn: Drawn, progress: Progress<'_>) -> Vec<Settled<'a>> {
        let draws = Draws::new(&self.inputs, drawn.seed);
        let one = |number: u32| {
            let settled = self.asked.settled(self.loaded(&draws.draw(u64::from(number))));
            progress(1);
            settled
        };
        (0..drawn.draws).into_par_iter().map(one).collect()
    }

    /// [`Self::ask_all`] of boats of which it is known how they settle with planes up.
    pub fn ask_again<T: Send>(
        &self,
        known: &[Settled<'_>],
        ask: impl Fn(&OnDraw<'_>) -> T + Sync,
    ) -> Vec<T> {
        known.par_iter().map(|known| ask(&self.asked.again(known))).collect()
    }

    pub fn duties(
        self,
        pairs: &[Reaching],
        pair: Option<PlanePair>,
        drawn: Drawn,
        progress: Progress<'_>,
    ) -> Result<DutiesDoubt, Fault> {
        let own = pairs.iter().map(|own| (Some(own.pair.into()), own.usable_deg()));
        let sizes: Vec<(Option<PlaneSize>, Option<Vec<f64>>)> =
            std::iter::once((None, None)).chain(own).collect();
        let held = &self.asked.asking.duties;
        let size = pair.map(PlaneSize::from);
        let answers = self.ask_all(drawn, progress, |boat| Answer {
            done: sizes
                .iter()
                .map(|(size, usable_deg)| boat.judged(*size, usable_deg.as_deref(), held.len()))
                .collect(),
            needed_deg: size.map(|size| boat.needed_deg(size)).unwrap_or_default(),
            utilisation: size.map_or(f64::NAN, |size| boat.utilisation(size)),
        });
        let utilisations: Vec<f64> = answers.iter().map(|answer| answer.utilisation).collect();
        let draws = Draws::new(&self.inputs, drawn.seed);
        Ok(DutiesDoubt {
            drawn,
            duties: held.iter().map(|held| self.held(held)).collect(),
            generated: self.asked.asking.generated,
            pairs: pair_doubts(&answers, pairs, &self.asked.unjudged, drawn.draws),
            pair,
            needs: pair.map(|_| self.needs(&answers, drawn.draws)).unwrap_or_default(),
            usable: Angle::new::<degree>(self.asked.usable_deg),
            follows: match pair {
                Some(_) => influences(&self.inputs, &draws, &utilisations),
                None => Vec::new(),
            },
            seen: self.seen(),
        })
    }

    /// What was seen of the boat.
    pub fn seen(&self) -> Option<SeenFit> {
        self.inputs.seen.as_ref().map(|seen| seen.fit.clone())
    }

    fn name(&self, loaded: usize) -> String {
        self.boats[loaded].condition().name.clone()
    }

    fn held(&self, held: &crate::size::Held) -> HeldDuty {
        let conditions = held.loaded.iter().map(|&loaded| self.name(loaded)).collect();
        HeldDuty { duty: held.duty, conditions }
    }

    fn needs(&self, answers: &[Answer], draws: u32) -> Vec<NeedDoubt> {
        let usable_deg = self.asked.usable_deg;
        let need = |(index, &(loaded, speed_m_s)): (usize, &(usize, f64))| {
            let needed: Vec<f64> = answers.iter().map(|answer| answer.needed_deg[index]).collect();
            let able = needed.iter().filter(|&&deg| deg <= usable_deg).count();
            let angle = |deg: f64| deg.is_finite().then(|| Angle::new::<degree>(deg));
            Some(NeedDoubt {
                condition: self.name(loaded),
                speed: Velocity::new::<meter_per_second>(speed_m_s),
                needed: likely(needed)?.map(angle),
                usable: Probability::counted(able, draws),
            })
        };
        self.asked.speeds_m_s.iter().enumerate().filter_map(need).collect()
    }
}

/// Shares of the boats drawn, for the bare boat and for each pair.
fn pair_doubts(
    answers: &[Answer],
    pairs: &[Reaching],
    unjudged: &[bool],
    draws: u32,
) -> Vec<PairDoubt> {
    let share = |does: &dyn Fn(&Answer) -> bool| {
        let count = answers.iter().filter(|answer| does(answer)).count();
        Probability::counted(count, draws)
    };
    let of = |(index, pair): (usize, Option<PlanePair>)| PairDoubt {
        pair,
        each: unjudged
            .iter()
            .enumerate()
            .map(|(duty, unjudged)| {
                (!unjudged).then(|| share(&|answer| answer.done[index].0[duty]))
            })
            .collect(),
        all: share(&|answer| answer.done[index].1),
    };
    let asked = pairs.iter().map(|reaching| Some(reaching.pair));
    std::iter::once(None).chain(asked).enumerate().map(of).collect()
}

#[cfg(test)]
#[path = "duties_tests.rs"]
mod tests;
