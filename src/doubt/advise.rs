//! The least pair that does all duties on a share of the boats nearly like the one described: what every output advises.
//!
//! The same boats are drawn for every size. On each of them the least span that
//! does what is asked is found at each speed, with all usable deflection: the
//! reserve is the chance and nothing else. The span that suffices for the share
//! wanted is the one that so many of the least spans lie under. The planes' lift
//! goes with their area, so that the chord is a matter of room and of load: the
//! shallowest one whose span fits is taken.

use std::cell::OnceCell;

use rayon::iter::{IntoParallelIterator, ParallelIterator};
use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};
use uom::si::length::meter;
use uom::si::ratio::ratio;
use uom::si::velocity::meter_per_second;

use super::draw::Draw;
use super::duties::{Described, Drawn};
use super::inputs::What;
use super::interval::{Probability, likely};
use super::running::Progress;
use crate::balance::forces::PlaneSize;
use crate::balance::{LiftModel, Settings};
use crate::boat::{Boat, Fault, PlanePair};
use crate::size::{
    Binding, Chance, Chosen, Effect, OnDraw, OtherModel, Outlook, PairSource, PairUsed, SeenTrims,
    Settled, Suggestion, chosen_for, effects_by, pair_of,
};

/// Boats drawn when nothing else is asked for, a power of two, by which they lie most evenly: a share of 80 % is then good to 1.4 %.
pub const DRAWS: u32 = 256;
/// The fewest that a chance is counted on: one of them is then 2 % of it. Common practice, no source.
pub const FEWEST_DRAWS: u32 = 50;
/// Seed of the random numbers; one and the same, so that the same file gives the same answer everywhere.
///
/// Of 64 that one whose least spans lay nearest to those of 8192 draws, on three demo boats and
/// sixteen random ones: 0.5 %, where seeds are off by 1.5 % in the middle.
pub const SEED: u64 = 9;
/// Boats drawn for what stands beside the answer.
const DRAWS_BESIDE: u32 = 64;
/// Chords kept in store go in so many steps of a size: 225, 300 mm; 9, 12 in. Common practice, no source.
const USUAL_CHORD_STEPS: f64 = 3.0;
/// The deepest of them in steps; a deeper plane is made to order, in any whole step. Common practice, no source.
const DEEPEST_USUAL_STEPS: f64 = 12.0;
/// So much less of a chance is given for a smaller pair where none reaches what is wanted.
const USELESS_SHARE: f64 = 0.02;

/// The pair that the duties of a boat ask for in some loading conditions, at the chance that her file wants, and why.
///
/// # Errors
/// As [`crate::size::suggest_for`].
///
/// # Example
///
/// ```
/// let boat = planewright::read_boat("data/boats/wren.toml".as_ref())?.boat;
/// let in_all = boat.in_all_conditions()?;
/// let advised = planewright::advise_for(&in_all, &planewright::Settings::default())?;
/// assert!(advised.chance.is_some_and(|chance| chance.is_reached()));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn advise_for(boats: &[Boat], settings: &Settings) -> Result<Suggestion, Fault> {
    advise_with(boats, settings, Drawn::default(), &|_| ())
}

/// [`advise_for`] with so many boats drawn from a seed.
///
/// What another theory would lead to stays open: [`other_model`].
///
/// # Errors
/// As [`crate::size::suggest_for`].
pub fn advise_with(
    boats: &[Boat],
    settings: &Settings,
    drawn: Drawn,
    progress: Progress<'_>,
) -> Result<Suggestion, Fault> {
    let described = Described::of(boats, settings)?;
    if described.asked.asking.duties.is_empty() {
        return chosen_for(boats, settings, Chosen::default());
    }
    let spans = Spans::of(&described, drawn, progress);
    let wanted = boats[0].sizing().chance.get::<ratio>();
    let mut chosen = spans.chosen(wanted);
    if chosen.size.is_some() || chosen.none_needed {
        chosen.chance = Some(spans.chance(wanted, &chosen));
    }
    let mut suggestion = chosen_for(boats, settings, chosen)?;
    let sizes: Vec<PlaneSize> = suggestion.variants.iter().map(|v| v.pair.into()).collect();
    for (variant, share) in suggestion.variants.iter_mut().zip(spans.shares(&sizes)) {
        variant.chance = Some(share);
    }
    if let Some(seen) = described.seen() {
        suggestion.flags = suggestion.flags.union(seen.flags);
    }
    Ok(suggestion)
}

/// One effect for each estimate of the boat on what is advised, counted on fewer boats: an end that
/// changes nothing on these is told as what is advised.
#[must_use]
pub fn effects_for(boats: &[Boat], settings: &Settings, advised: &Suggestion) -> Vec<Effect> {
    let drawn = Drawn { draws: DRAWS_BESIDE, seed: SEED };
    let unchanged = outlook(boats, settings, drawn).ok();
    let told = advised.pair().map(Outlook::Pair);
    let outlook_at = |changed: Option<Vec<Boat>>| {
        let end = outlook(&changed?, settings, drawn).ok()?;
        told.filter(|_| Some(end) == unchanged).or(Some(end))
    };
    effects_by(boats, |all| all.into_par_iter().map(outlook_at).collect())
}

/// The pair fitted; else the one advised for the duties of the boat in all her loading conditions.
///
/// # Errors
/// As [`advise_for`].
pub fn pair_used(boat: &Boat, settings: &Settings) -> Result<PairUsed, Fault> {
    if let pair @ Some(_) = boat.planes() {
        return Ok(PairUsed { pair, source: PairSource::Fitted });
    }
    let pair = advise_for(&boat.in_all_conditions()?, settings)?.pair();
    let source = if pair.is_some() { PairSource::Suggested } else { PairSource::Nowhere };
    Ok(PairUsed { pair, source })
}

/// What would be advised, without its reasons.
fn outlook(boats: &[Boat], settings: &Settings, drawn: Drawn) -> Result<Outlook, Fault> {
    let described = Described::of(boats, settings)?;
    if described.asked.asking.duties.is_empty() {
        return Ok(Outlook::NothingAsked);
    }
    let wanted = boats[0].sizing().chance.get::<ratio>();
    Ok(outlook_of(&Spans::of(&described, drawn, &|_| ()).chosen(wanted)))
}

fn outlook_of(chosen: &Chosen) -> Outlook {
    match chosen.size {
        Some(size) => Outlook::Pair(pair_of(size)),
        None if chosen.none_needed => Outlook::NoPlanesNeeded,
        None => Outlook::NoPairDoes,
    }
}

/// What the same boat would be advised with the bottom's lift by the next model on the list; nothing where nothing is asked.
#[must_use]
pub fn other_model(boats: &[Boat], settings: &Settings, seed: u64) -> Option<OtherModel> {
    let model = LiftModel::ALL.into_iter().find(|&model| model != settings.model)?;
    let drawn = Drawn { draws: DRAWS_BESIDE, seed };
    let outlook = outlook(boats, &Settings { model, ..*settings }, drawn).ok()?;
    (outlook != Outlook::NothingAsked).then_some(OtherModel { model, outlook })
}

/// Least spans on every boat drawn.
struct Spans<'d, 'b> {
    described: &'d Described<'b>,
    drawn: Drawn,
    step_m: f64,
    /// Every chord in whole steps.
    chords_m: Vec<f64>,
    /// Indices of those that are usual.
    usual: Vec<usize>,
    /// Boats that need no planes.
    bare: usize,
    /// What each boat answers whatever the pair.
    settled: Vec<Settled<'b>>,
    /// For each chord whether its largest span does all on each boat in each condition; looked for when it is asked about.
    does: Vec<OnceCell<Vec<Vec<bool>>>>,
    /// For each chord the least span of each boat at each speed that is judged; looked for when it is asked about.
    least_m: Vec<OnceCell<Vec<Vec<f64>>>>,
}

impl<'d, 'b> Spans<'d, 'b> {
    fn of(described: &'d Described<'b>, drawn: Drawn, progress: Progress<'_>) -> Self {
        let step_m = described.boats()[0].sizing().round_to.get::<meter>();
        let chords_m = described.asked.chords_m(step_m);
        let usual = usual(&chords_m, step_m);
        let settled = described.settle_all(drawn, progress);
        let bare = settled.iter().filter(|boat| boat.bare_does_all()).count();
        let does = vec![OnceCell::new(); chords_m.len()];
        let least_m = vec![OnceCell::new(); chords_m.len()];
        Self { described, drawn, step_m, chords_m, usual, bare, settled, does, least_m }
    }

    fn ask_again<T: Send>(&self, ask: impl Fn(&OnDraw<'_>) -> T + Sync) -> Vec<T> {
        self.described.ask_again(&self.settled, ask)
    }

    /// The least span of each boat at each speed that is judged.
    fn least_m(&self, chord: usize) -> &[Vec<f64>] {
        let chord_m = self.chords_m[chord];
        self.least_m[chord].get_or_init(|| self.ask_again(|boat| boat.least_spans_m(chord_m)))
    }

    /// Share of the boats on which the largest span of a chord does all, in one condition or in all.
    fn reach(&self, chord: usize, loaded: Option<usize>) -> f64 {
        let conditions = self.described.boats().len();
        let chord_m = self.chords_m[chord];
        let does = self.does[chord].get_or_init(|| {
            let span_m = self.described.asked.spans_m(chord_m, 0.0, self.step_m).last();
            self.ask_again(|boat| match span_m {
                Some(span_m) => boat.does_in_each(PlaneSize { span_m, chord_m }, conditions),
                None => vec![false; conditions],
            })
        });
        let is_done = |does: &&Vec<bool>| match loaded {
            Some(loaded) => does[loaded],
            None => does.iter().all(|&does| does),
        };
        Probability::counted(does.iter().filter(is_done).count(), self.drawn.draws).share
    }

    /// The least span of each boat for a chord in one condition or in all, sorted.
    fn sorted_m(&self, chord: usize, loaded: Option<usize>) -> Vec<f64> {
        let speeds = &self.described.asked.speeds_m_s;
        let is_asked = |at: &(usize, f64)| loaded.is_none_or(|own| at.0 == own);
        let largest = |least_m: &Vec<f64>| {
            let asked = speeds.iter().zip(least_m).filter(|(at, _)| is_asked(at));
            asked.map(|(_, &least_m)| least_m).fold(0.0, f64::max)
        };
        let mut all: Vec<f64> = self.least_m(chord).iter().map(largest).collect();
        all.sort_by(f64::total_cmp);
        all
    }

    /// The least pair for a share in one condition or in all: exact, and in whole steps.
    ///
    /// Of a usual chord where that is not more than is needed, because its span may not be less.
    fn least(&self, wanted: f64, loaded: Option<usize>) -> Option<[PlaneSize; 2]> {
        let at = |chord: usize| {
            if self.reach(chord, loaded) < wanted - 1e-9 {
                return None;
            }
            let chord_m = self.chords_m[chord];
            let exact_m = quantile(&self.sorted_m(chord, loaded), wanted);
            let span_m = self.in_steps(chord_m, exact_m)?;
            Some([exact_m, span_m].map(|span_m| PlaneSize { span_m, chord_m }))
        };
        let usual = (0..self.usual.len()).find_map(|index| Some((index, at(self.usual[index])?)));
        let Some((index, found)) = usual else {
            return self.not_usual().find_map(at);
        };
        let [exact, _] = found;
        let ends_m = self.described.asked.span_ends_m(exact.chord_m);
        let is_least = ends_m.is_some_and(|[least_m, _]| exact.span_m <= least_m + 1e-9);
        let below = index.checked_sub(1).map(|below| self.usual[below]);
        let between = below.filter(|_| is_least).map(|below| below + 1..self.usual[index]);
        between.and_then(|mut between| between.find_map(at)).or(Some(found))
    }

    /// Indices of the chords that are looked at where no usual one does it: beyond the first usual one, since no shallower one does it then.
    fn not_usual(&self) -> impl Iterator<Item = usize> {
        let first = self.usual.first().map_or(0, |first| first + 1);
        (first..self.chords_m.len()).filter(|index| !self.usual.contains(index))
    }

    fn in_steps(&self, chord_m: f64, exact_m: f64) -> Option<f64> {
        let mut spans = self.described.asked.spans_m(chord_m, exact_m, self.step_m);
        exact_m.is_finite().then(|| spans.next())?
    }

    /// The pair that does all most often where none reaches what is wanted, or a smaller one that is hardly worse.
    fn most_often(&self) -> Option<PlaneSize> {
        let deepest = self.chords_m.len().checked_sub(1);
        let tried = self.usual.iter().copied().chain(deepest);
        let best = tried.map(|chord| self.reach(chord, None)).fold(0.0, f64::max);
        let [_, size] = self.least(best - USELESS_SHARE, None)?;
        Some(size)
    }

    fn chosen(&self, wanted: f64) -> Chosen {
        let mut chosen = Chosen { alone: self.alone(wanted), ..Chosen::default() };
        #[allow(clippy::cast_precision_loss)]
        if self.bare as f64 >= wanted * f64::from(self.drawn.draws) {
            chosen.none_needed = true;
            return chosen;
        }
        let even = self.even();
        if let Some([exact, size]) = self.least(wanted, None) {
            (chosen.exact, chosen.size) = (Some(exact), Some(size));
        } else if even.is_some() {
            chosen.size = self.most_often();
        }
        if let Some(size) = chosen.size {
            if chosen.exact.is_some_and(|exact| self.is_smallest(exact)) {
                chosen.binding = vec![Binding::SmallestChord, Binding::SmallestAspect];
            } else {
                chosen.governing = self.governing(size);
                chosen.binding = self.binding(size, chosen.exact);
            }
        }
        chosen
    }

    /// Whether no smaller pair may be suggested, so that no duty sets the size.
    fn is_smallest(&self, exact: PlaneSize) -> bool {
        let first_m = self.usual.first().map(|&chord| self.chords_m[chord]);
        let ends_m = first_m.and_then(|first_m| self.described.asked.span_ends_m(first_m));
        first_m == Some(exact.chord_m)
            && ends_m.is_some_and(|[least_m, _]| exact.span_m <= least_m + 1e-9)
    }

    /// How often each of some sizes does every duty.
    fn shares(&self, sizes: &[PlaneSize]) -> Vec<f64> {
        let answers = self
            .ask_again(|boat| sizes.iter().map(|&size| boat.does_all(size)).collect::<Vec<_>>());
        let share = |index: usize| {
            let done = answers.iter().filter(|does| does[index]).count();
            Probability::counted(done, self.drawn.draws).share
        };
        (0..sizes.len()).map(share).collect()
    }

    /// What each condition alone would need.
    fn alone(&self, wanted: f64) -> Vec<Outlook> {
        let speeds = &self.described.asked.speeds_m_s;
        let one = |loaded: usize| {
            if speeds.iter().all(|at| at.0 != loaded) {
                return Outlook::NoPlanesNeeded;
            }
            let least = self.least(wanted, Some(loaded));
            least.map_or(Outlook::NoPairDoes, |[_, size]| Outlook::Pair(pair_of(size)))
        };
        (0..self.described.boats().len()).map(one).collect()
    }

    /// Asks something of the boat as described.
    fn ask_described<T>(&self, ask: impl FnOnce(&OnDraw<'_>) -> T) -> T {
        let middle = Draw::at(&self.described.inputs, &[0.5; What::COUNT]);
        self.described.ask(&middle, ask)
    }

    /// The least pair that the boat as described needs.
    fn even(&self) -> Option<PlanePair> {
        self.ask_described(|boat| {
            self.usual.iter().copied().chain(self.not_usual()).find_map(|chord| {
                let chord_m = self.chords_m[chord];
                let least_m = boat.least_spans_m(chord_m).into_iter().fold(0.0, f64::max);
                let span_m = self.in_steps(chord_m, least_m)?;
                Some(pair_of(PlaneSize { span_m, chord_m }))
            })
        })
    }

    /// The duty, condition and speed that ask for the largest span on most boats; none where the smallest pair does it.
    fn governing(&self, size: PlaneSize) -> Option<(usize, usize, f64)> {
        let chord = self.chords_m.iter().position(|&chord_m| chord_m == size.chord_m)?;
        let speeds = &self.described.asked.speeds_m_s;
        let mut counts = vec![0_u32; speeds.len()];
        for least_m in self.least_m(chord) {
            let most = (0..least_m.len()).max_by(|&i, &j| least_m[i].total_cmp(&least_m[j]))?;
            counts[most] += 1;
        }
        // Where the boat as described needs nothing, no duty of hers can be named.
        let mut missed: Vec<usize> = (0..counts.len()).filter(|&at| counts[at] > 0).collect();
        missed.sort_by_key(|&index| std::cmp::Reverse((counts[index], index)));
        self.ask_described(|boat| {
            missed.into_iter().find_map(|index| {
                let duty = self.described.asked.hardest(boat, index, size)?;
                let (loaded, speed_m_s) = speeds[index];
                Some((duty, loaded, speed_m_s))
            })
        })
    }

    fn binding(&self, size: PlaneSize, exact: Option<PlaneSize>) -> Vec<Binding> {
        let mut binding = vec![Binding::Duty];
        if exact.is_some_and(|exact| exact.span_m + self.step_m <= size.span_m + 1e-9) {
            binding = vec![Binding::SmallestAspect];
        }
        let first_m = self.usual.first().map(|&chord| self.chords_m[chord]);
        if let Some(first_m) = first_m.filter(|&first_m| first_m < size.chord_m) {
            let room_m = self.described.boats()[0].transom().room().largest_span.get::<meter>();
            let fits = self.described.asked.span_ends_m(first_m).map_or(0.0, |[_, most_m]| most_m);
            binding.push(if fits >= room_m - 1e-9 {
                Binding::Room
            } else {
                Binding::LargestAspect
            });
        } else {
            binding.push(Binding::SmallestChord);
        }
        binding
    }

    /// How often the choice does each duty and all of them, and what it takes off at the hump.
    fn chance(&self, wanted: f64, chosen: &Chosen) -> Chance {
        let duties = self.described.asked.asking.duties.len();
        let loaded = chosen.governing.map_or(0, |(_, loaded, _)| loaded);
        let hump = self.ask_described(|boat| self.described.asked.hump_index(boat, loaded));
        let answers = self.ask_again(|boat| {
            let relief_deg = match (hump, chosen.size) {
                (Some(index), Some(size)) => boat.relief_deg(index, size, None),
                _ => f64::NAN,
            };
            (boat.judged(chosen.size, None, duties), relief_deg)
        });
        let share = |does: &dyn Fn(&Judged) -> bool| {
            let met = answers.iter().filter(|(judged, _)| does(judged)).count();
            Probability::counted(met, self.drawn.draws)
        };
        let all = share(&|(_, all)| *all);
        let relief = likely(answers.iter().map(|(_, relief_deg)| *relief_deg).collect());
        let angle = |value: f64| Angle::new::<degree>(value);
        Chance {
            wanted,
            reached: all.share,
            error: all.error,
            each: (0..duties)
                .map(|duty| {
                    let is_judged = !self.described.asked.unjudged[duty];
                    is_judged.then(|| share(&|(each, _)| each[duty]).share)
                })
                .collect(),
            relief: relief.map(|likely| [likely.low, likely.median, likely.high].map(angle)),
            relief_speed: hump.map(|hump| {
                Velocity::new::<meter_per_second>(self.described.asked.speeds_m_s[hump].1)
            }),
            even: self.even(),
            draws: self.drawn.draws,
            seed: self.drawn.seed,
            seen: self.described.seen().map_or_else(SeenTrims::default, |fit| fit.beside()),
        }
    }
}

/// Whether a drawn boat does each duty, and all of them.
type Judged = (Vec<bool>, bool);

/// Indices of the chords kept in store and of those that are made to order; all where there is none.
fn usual(chords_m: &[f64], step_m: f64) -> Vec<usize> {
    let is_usual = |index: &usize| {
        let steps = chords_m[*index] / step_m;
        let whole = steps / USUAL_CHORD_STEPS;
        (whole - whole.round()).abs() < 1e-6 || steps > DEEPEST_USUAL_STEPS
    };
    let all = 0..chords_m.len();
    let usual: Vec<usize> = all.clone().filter(is_usual).collect();
    if usual.is_empty() { all.collect() } else { usual }
}

/// The value that a share of sorted ones lies under.
fn quantile(sorted: &[f64], wanted: f64) -> f64 {
    #[allow(clippy::cast_precision_loss, clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let rank = (wanted * sorted.len() as f64 - 1e-9).ceil().max(1.0) as usize;
    sorted.get(rank - 1).copied().unwrap_or(f64::INFINITY)
}

#[cfg(test)]
#[path = "advise_tests.rs"]
mod tests;
