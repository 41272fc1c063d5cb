//! The duties on very many boats nearly like the one described: how likely each is done by each pair.

use rayon::iter::{IntoParallelIterator, ParallelIterator};
use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, velocity::meter_per_second};

use super::draw::Draws;
use super::inputs::Inputs;
use super::interval::{Likely, Probability, likely};
use super::running::{Influence, Progress, influences};
use super::seen::SeenFit;
use crate::balance::Settings;
use crate::balance::forces::PlaneSize;
use crate::boat::{Boat, Duty, Fault, Particulars, PlanePair};
use crate::size::{AskedOfDraws, Loaded, OnDraw, no_condition};

/// How many boats are drawn to be judged, and from which seed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Drawn {
    /// Boats drawn.
    pub draws: u32,
    /// Seed of the random numbers.
    pub seed: u64,
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
    /// Each duty, in the order of the list.
    pub each: Vec<Probability>,
    /// All of them on the same boat.
    pub all: Probability,
}

/// Deflection that the duties need of a pair at one speed in one condition.
#[derive(Clone, Debug, PartialEq)]
pub struct NeedDoubt {
    /// Name of the condition.
    pub condition: String,
    /// The speed.
    pub speed: Velocity,
    /// Deflection of the deeper plane; none where no deflection does it.
    pub needed: Likely<Option<Angle>>,
    /// Share of the boats drawn on which the usable deflection does it.
    pub usable: Probability,
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
    /// What the strain of that pair follows, the strongest first.
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
    let described = Described::of(boats, settings)?;
    described.duties(pairs, pair, drawn, progress)
}

/// What one boat drawn answers.
struct Answer {
    /// Whether each duty is done, and all: of the bare boat and of each pair.
    done: Vec<(Vec<bool>, bool)>,
    needed_deg: Vec<f64>,
    strain: f64,
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
            inputs: Inputs::of(first).as_seen(first, settings)?,
            asked: AskedOfDraws::of(&Loaded::all(boats, settings), settings)?,
        })
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
            let draw = draws.draw(u64::from(number));
            let boats = self.boats.iter().zip(&self.particulars);
            let loaded: Vec<Loaded<'_>> = boats
                .map(|(boat, own)| Loaded { boat, prism: draw.prism(own, &self.settings) })
                .collect();
            let answer = ask(&self.asked.on(&loaded));
            progress(1);
            answer
        };
        (0..drawn.draws).into_par_iter().map(one).collect()
    }

    pub fn duties(
        self,
        pairs: &[PlanePair],
        pair: Option<PlanePair>,
        drawn: Drawn,
        progress: Progress<'_>,
    ) -> Result<DutiesDoubt, Fault> {
        let sizes: Vec<Option<PlaneSize>> =
            std::iter::once(None).chain(pairs.iter().map(|&pair| Some(pair.into()))).collect();
        let held = &self.asked.asking.duties;
        let size = pair.map(PlaneSize::from);
        let answers = self.ask_all(drawn, progress, |boat| Answer {
            done: sizes.iter().map(|&size| boat.judged(size, held.len())).collect(),
            needed_deg: size.map(|size| boat.needed_deg(size)).unwrap_or_default(),
            strain: size.map_or(f64::NAN, |size| boat.strain(size)),
        });
        let strains: Vec<f64> = answers.iter().map(|answer| answer.strain).collect();
        let draws = Draws::new(&self.inputs, drawn.seed);
        Ok(DutiesDoubt {
            drawn,
            duties: held.iter().map(|held| self.held(held)).collect(),
            generated: self.asked.asking.generated,
            pairs: pair_doubts(&answers, pairs, held.len(), drawn.draws),
            pair,
            needs: pair.map(|_| self.needs(&answers, drawn.draws)).unwrap_or_default(),
            usable: Angle::new::<degree>(self.asked.usable_deg),
            follows: match pair {
                Some(_) => influences(&self.inputs, &draws, &strains),
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
        let need = |(place, &(loaded, speed_m_s)): (usize, &(usize, f64))| {
            let needed: Vec<f64> = answers.iter().map(|answer| answer.needed_deg[place]).collect();
            let able = needed.iter().filter(|&&deg| deg <= usable_deg).count();
            let angle = |deg: f64| deg.is_finite().then(|| Angle::new::<degree>(deg));
            Some(NeedDoubt {
                condition: self.name(loaded),
                speed: Velocity::new::<meter_per_second>(speed_m_s),
                needed: likely(needed)?.map(angle),
                usable: Probability::of(u32::try_from(able).unwrap_or(u32::MAX), draws),
            })
        };
        self.asked.speeds_m_s.iter().enumerate().filter_map(need).collect()
    }
}

/// Shares of the boats drawn, for the bare boat and for each pair.
fn pair_doubts(
    answers: &[Answer],
    pairs: &[PlanePair],
    duties: usize,
    draws: u32,
) -> Vec<PairDoubt> {
    let share = |does: &dyn Fn(&Answer) -> bool| {
        let count = answers.iter().filter(|answer| does(answer)).count();
        Probability::of(u32::try_from(count).unwrap_or(u32::MAX), draws)
    };
    let of = |(place, pair): (usize, Option<PlanePair>)| PairDoubt {
        pair,
        each: (0..duties).map(|duty| share(&|answer| answer.done[place].0[duty])).collect(),
        all: share(&|answer| answer.done[place].1),
    };
    std::iter::once(None).chain(pairs.iter().copied().map(Some)).enumerate().map(of).collect()
}

#[cfg(test)]
#[path = "duties_tests.rs"]
mod tests;
