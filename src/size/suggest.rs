//! From a boat with duties to a suggestion.

use uom::si::f64::{Angle, Length, Velocity};
use uom::si::{angle::degree, length::meter, velocity::meter_per_second};

use super::bench::Bench;
use super::demand::Need;
use super::judge::{duty_results, set_by, variants};
use super::loaded::{Asking, Loaded};
use super::result::{
    Answer, ConditionResult, Governing, OtherModel, RuleOfThumb, ScheduleRow, Suggestion,
};
use super::schedule::schedule;
use super::search::Least;
use super::sensitivity::Outlook;
use super::shortfall::{nothing_to_ask, shortfall};
use super::site::Site;
use super::trade_off::trade_off;
use crate::balance::forces::PlaneSize;
use crate::balance::sweep::planing_start;
use crate::balance::{Hump, LiftModel, Settings};
use crate::boat::{Boat, BoatInput, Fault, LiftReference, PlanePair};
use crate::flag::{Flag, Flags};
use crate::plane::effect;

/// Rounds of looking for a speed inside a duty's range that bites more than those sized for.
const RECHECKS: usize = 8;

/// Everything a search stands on.
pub(crate) struct Question<'a> {
    /// The boat in each loading condition asked about.
    pub loaded: &'a [Loaded<'a>],
    pub asking: &'a Asking,
    pub bench: Bench<'a>,
}

impl<'a> Question<'a> {
    /// The boat, for what is the same in every loading condition.
    pub fn boat(&self) -> &'a Boat {
        self.loaded[0].boat
    }

    /// The boat in the condition of a site.
    pub fn at(&self, site: &Site<'_>) -> &'a Loaded<'a> {
        &self.loaded[site.loaded]
    }

    pub fn settings(&self) -> &'a Settings {
        &self.loaded[0].prism.settings
    }
}

/// The least pair of planes that does a boat's duties in the loading condition that she is in, and why.
///
/// Without duties in the boat file, sensible ones are generated from the boat.
///
/// # Errors
/// A [`Fault`] when a duty holds at a speed below the planing range, where the
/// equations do not apply, and when the settings ask for a 1964 case.
pub fn suggest(boat: &Boat, settings: &Settings) -> Result<Suggestion, Fault> {
    suggest_for(std::slice::from_ref(boat), settings)
}

/// The least pair of planes that does a boat's duties in each of some loading conditions, and why.
///
/// `boats` is one boat, in each of the conditions ([`Boat::in_condition`]); a
/// duty holds in those that it names, or in all. Each condition has its own
/// deflections. Duties that are generated are so for each condition by itself.
///
/// # Errors
/// As [`suggest`]; and when there is no boat.
pub fn suggest_for(boats: &[Boat], settings: &Settings) -> Result<Suggestion, Fault> {
    suggest_from(boats, settings, 0.5)
}

/// [`suggest_for`], with the first chords shifted by a start from 0 to 1; the answer does not hang on it.
pub(crate) fn suggest_from(
    boats: &[Boat],
    settings: &Settings,
    start: f64,
) -> Result<Suggestion, Fault> {
    let loaded = Loaded::all(boats, settings);
    let asking = Asking::of(&loaded, settings)?;
    let bench = Bench::new(&loaded, &asking.duties);
    let mut question = Question { loaded: &loaded, asking: &asking, bench };
    Ok(answer(&mut question, start))
}

fn answer(question: &mut Question<'_>, start: f64) -> Suggestion {
    if question.asking.duties.is_empty() {
        let shortfall = nothing_to_ask(question);
        return assemble(question, Answer::Infeasible(Box::new(shortfall)), None);
    }
    if question.bench.bare_does_all() {
        return assemble(question, Answer::NoPlanesNeeded, None);
    }
    let step_m = question.boat().sizing().round_to.get::<meter>();
    let Some(sized) = search(&mut question.bench, start, step_m) else {
        let shortfall = shortfall(question);
        return assemble(question, Answer::Infeasible(Box::new(shortfall)), None);
    };
    let answer = Answer::Pair(pair_of(sized.size));
    let mut suggestion = assemble(question, answer, Some(&sized.least));
    suggestion.flags.insert_if(!sized.rechecked, Flag::SizeNotRechecked);
    suggestion
}

/// A size that was searched for.
pub(crate) struct Sized {
    pub least: Least,
    /// The least pair in whole steps; the exact one where none in whole steps does.
    pub size: PlaneSize,
    /// Whether no speed inside the ranges of the duties bites more than those sized for.
    pub rechecked: bool,
}

/// The least pair and its rounding; sized again when a speed inside a range turns out to bite more.
pub(crate) fn search(bench: &mut Bench<'_>, start: f64, step_m: f64) -> Option<Sized> {
    bench.settle_speeds();
    let rounds = RECHECKS * bench.loaded.len();
    search_in(bench, rounds, start, step_m)
}

/// The same in so many rounds at the most.
pub(crate) fn search_in(
    bench: &mut Bench<'_>,
    rounds: usize,
    start: f64,
    step_m: f64,
) -> Option<Sized> {
    for _ in 0..rounds {
        let least = bench.least(start)?;
        if bench.add_overlooked_speed(least.size) {
            continue;
        }
        let size = bench.rounded(&least, step_m).unwrap_or(least.size);
        if !bench.add_overlooked_speed(size) {
            return Some(Sized { least, size, rechecked: true });
        }
    }
    let least = bench.least(start)?;
    let size = bench.rounded(&least, step_m).unwrap_or(least.size);
    let rechecked = !bench.add_overlooked_speed(size);
    Some(Sized { least, size, rechecked })
}

fn assemble(question: &Question<'_>, answer: Answer, least: Option<&Least>) -> Suggestion {
    let boat = question.boat();
    let bench = &question.bench;
    let pair = match &answer {
        Answer::Pair(pair) => Some(*pair),
        Answer::Infeasible(shortfall) => shortfall.best,
        Answer::NoPlanesNeeded => None,
    };
    let size = pair.map(PlaneSize::from);
    let needs: Vec<Need> = size.map(|size| bench.needs(size)).unwrap_or_default();
    let flat = least
        .map(|least| least.valley)
        .filter(|[shallow, deep]| deep.chord_m / shallow.chord_m > 1.1);
    let governing = least.and_then(|least| set_by(bench, least));
    let main = governing.map_or(&question.loaded[0], |(_, site)| question.at(site));
    let conditions = conditions(question, &answer, size);
    Suggestion {
        model: question.settings().model,
        exact: least.map(|least| pair_of(least.size)),
        duties: duty_results(question, size, &needs),
        set_by: governing.as_ref().map(|(duty, _)| *duty),
        governing: governing.as_ref().map(|(_, site)| Governing {
            condition: question.at(site).name().to_owned(),
            speed: speed(site.bare.speed_m_s),
        }),
        binding: least.map(|least| least.binding.clone()).unwrap_or_default(),
        flat: flat.map(|valley| valley.map(pair_of)),
        other_reference: least.and_then(|_| other_reference(question)),
        other_model: other_model(question),
        variants: match answer {
            Answer::Pair(pair) => variants(question, pair),
            _ => Vec::new(),
        },
        trade_off: size.map(|size| trade_off(question, main, size)).unwrap_or_default(),
        trade_off_condition: main.name().to_owned(),
        bare_hump_resistance: super::trade_off::bare_hump_resistance(main),
        schedule: conditions[0].schedule.clone(),
        conditions,
        dead_band: pair.map(|pair| effect::dead_band(boat.transom().hinge_height, pair.chord)),
        room: boat.transom().room().largest_span,
        usable_deflection: boat.sizing().largest_deflection,
        share_allowed: bench.rules.share,
        rule_of_thumb: rule_of_thumb(boat),
        flags: flags(bench, size, &needs),
        answer,
    }
}

/// What to do at each speed with a pair that is given, e.g. one from the shelf, in each of some loading conditions.
///
/// # Errors
/// As [`suggest_for`].
pub fn schedules_for(
    boats: &[Boat],
    settings: &Settings,
    pair: PlanePair,
) -> Result<Vec<Vec<ScheduleRow>>, Fault> {
    let loaded = Loaded::all(boats, settings);
    let asking = Asking::of(&loaded, settings)?;
    let mut bench = Bench::new(&loaded, &asking.duties);
    bench.settle_speeds();
    let question = Question { loaded: &loaded, asking: &asking, bench };
    let of = |place: usize| schedule(&question, place, Some(PlaneSize::from(pair)));
    Ok((0..loaded.len()).map(of).collect())
}

/// Flags at every duty point, with the deflection it needs.
fn flags(bench: &Bench<'_>, size: Option<PlaneSize>, needs: &[Need]) -> Flags {
    let mut flags = Flags::default();
    let Some(size) = size else {
        for site in &bench.sites {
            flags = flags.union(site.flags(None));
        }
        return flags;
    };
    for (site, need) in bench.sites.iter().zip(needs) {
        flags = flags.union(site.flags(Some((size, need.deflection_deg))));
    }
    flags
}

/// Every loading condition by itself: what it alone would need, and what to do in it.
fn conditions(
    question: &Question<'_>,
    answer: &Answer,
    size: Option<PlaneSize>,
) -> Vec<ConditionResult> {
    let step_m = question.boat().sizing().round_to.get::<meter>();
    let alone = |place: usize| match answer {
        Answer::Pair(pair) if question.loaded.len() == 1 => Outlook::Pair(*pair),
        Answer::Infeasible(_) if question.loaded.len() == 1 => Outlook::NoPairDoes,
        Answer::NoPlanesNeeded => Outlook::NoPlanesNeeded,
        _ => Outlook::of(&mut question.bench.only(place), step_m),
    };
    let condition = |(place, loaded): (usize, &Loaded<'_>)| {
        let hump = Hump::of_prism(loaded.boat, &loaded.prism);
        ConditionResult {
            condition: loaded.name().to_owned(),
            alone: alone(place),
            hump_speed: hump.map_or_else(|| planing_start(loaded.boat), |hump| hump.speed),
            hump_place: hump.map(|hump| hump.place),
            hump_trim_bare: hump.and_then(|hump| hump.trim),
            schedule: schedule(question, place, size),
        }
    };
    question.loaded.iter().enumerate().map(condition).collect()
}

/// The same search with the planes' lift measured from the other end of the chord.
fn other_reference(question: &Question<'_>) -> Option<PlanePair> {
    let other = |loaded: &Loaded<'_>| {
        let mut input: BoatInput = loaded.boat.input().clone();
        input.sizing.lift_reference = match input.sizing.lift_reference {
            LiftReference::Transom => LiftReference::TrailingEdge,
            LiftReference::TrailingEdge => LiftReference::Transom,
        };
        Boat::build(input).ok()
    };
    let boats = question.loaded.iter().map(other).collect::<Option<Vec<_>>>()?;
    let loaded = Loaded::all(&boats, question.settings());
    let bench = question.bench.with_loaded(&loaded);
    let least = bench.least(0.5)?;
    bench.rounded(&least, boats[0].sizing().round_to.get::<meter>()).map(pair_of)
}

/// The same search with the bottom's lift by the next model on the list, for the same duties.
fn other_model(question: &Question<'_>) -> Option<OtherModel> {
    if question.asking.duties.is_empty() {
        return None;
    }
    let settings = question.settings();
    let model = LiftModel::ALL.into_iter().find(|&model| model != settings.model)?;
    let boats: Vec<Boat> = question.loaded.iter().map(|loaded| loaded.boat.clone()).collect();
    let loaded = Loaded::all(&boats, &Settings { model, ..*settings });
    let step_m = question.boat().sizing().round_to.get::<meter>();
    let outlook = Outlook::of(&mut Bench::new(&loaded, &question.asking.duties), step_m);
    Some(OtherModel { model, outlook })
}

fn rule_of_thumb(boat: &Boat) -> RuleOfThumb {
    /// The bottom's usual share of the length over all, as in the estimate of the bottom length.
    const BOTTOM_SHARE: f64 = 0.85;
    let hull = boat.hull();
    let length = hull.overall_length.unwrap_or(hull.bottom_length / BOTTOM_SHARE);
    // One inch for each foot.
    RuleOfThumb { length, length_estimated: hull.overall_length.is_none(), span: length / 12.0 }
}

pub(crate) fn pair_of(size: PlaneSize) -> PlanePair {
    PlanePair { span: Length::new::<meter>(size.span_m), chord: Length::new::<meter>(size.chord_m) }
}

pub(crate) fn degrees(value: f64) -> Angle {
    Angle::new::<degree>(value)
}

pub(crate) fn speed(value_m_s: f64) -> Velocity {
    Velocity::new::<meter_per_second>(value_m_s)
}
