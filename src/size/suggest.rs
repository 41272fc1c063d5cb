//! From a boat with duties to a suggestion.

use uom::si::f64::{Angle, Length, Velocity};
use uom::si::{angle::degree, length::meter, velocity::meter_per_second};

use super::bench::Bench;
use super::demand::Need;
use super::judge::{duty_results, set_by, variants};
use super::loaded::{Asking, Loaded};
use super::result::{
    Answer, Chance, ConditionResult, Governing, OtherModel, RuleOfThumb, ScheduleRow, Suggestion,
};
use super::schedule::schedule;
use super::search::{Binding, Least};
use super::sensitivity::Outlook;
use super::shortfall::{nothing_to_ask, shortfall};
use super::site::Site;
use super::trade_off::trade_off;
use crate::balance::forces::PlaneSize;
use crate::balance::sweep::planing_start;
use crate::balance::{LiftModel, Settings};
use crate::boat::{Aim, Boat, Fault, PlanePair};
use crate::flag::{Flag, Flags, Standing};
use crate::plane::effect;

/// Rounds of looking for a speed inside a duty's range that asks more than those sized for.
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

    /// Whether there is anything that planes could be asked to do.
    fn is_asked(&self) -> bool {
        !self.asking.duties.is_empty()
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
///
/// # Example
///
/// ```
/// let boat = planewright::read_boat("data/boats/wren.toml".as_ref())?.boat;
/// let suggestion = planewright::suggest(&boat, &planewright::Settings::default())?;
/// println!("{suggestion}");
/// assert!(suggestion.pair().is_some_and(|pair| pair.chord < pair.span));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
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

/// [`suggest_for`], with the first chords shifted by a start from 0 to 1; the answer does not depend on it.
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

/// What was chosen for a boat, and on what grounds.
#[derive(Clone, Debug, Default)]
pub(crate) struct Chosen {
    /// The pair in whole steps; none where no planes are needed, or no pair does.
    pub size: Option<PlaneSize>,
    /// Whether none are needed.
    pub none_needed: bool,
    /// The least pair before rounding.
    pub exact: Option<PlaneSize>,
    /// The duty that set the size, with the condition and the speed in m/s.
    pub governing: Option<(usize, usize, f64)>,
    pub binding: Vec<Binding>,
    /// The ends of a flat optimum.
    pub flat: Option<[PlaneSize; 2]>,
    /// What each condition alone would need; looked for where it is not known.
    pub alone: Vec<Outlook>,
    pub other_model: Option<OtherModel>,
    pub chance: Option<Chance>,
}

/// The answer for a choice that was made for the duties of a boat in some loading conditions.
pub(crate) fn chosen_for(
    boats: &[Boat],
    settings: &Settings,
    chosen: Chosen,
) -> Result<Suggestion, Fault> {
    let loaded = Loaded::all(boats, settings);
    let asking = Asking::of(&loaded, settings)?;
    let mut bench = Bench::new(&loaded, &asking.duties);
    bench.settle_speeds();
    let question = Question { loaded: &loaded, asking: &asking, bench };
    Ok(assemble(&question, chosen))
}

fn answer(question: &mut Question<'_>, start: f64) -> Suggestion {
    let none_needed = question.is_asked() && question.bench.bare_does_all();
    let step_m = question.boat().sizing().round_to.get::<meter>();
    let found = if none_needed || !question.is_asked() {
        None
    } else {
        search(&mut question.bench, start, step_m)
    };
    let mut chosen = Chosen { none_needed, ..Chosen::default() };
    if let Some(Sized { least, size, .. }) = &found {
        chosen.size = Some(*size);
        chosen.exact = Some(least.size);
        chosen.governing = set_by(&question.bench, least)
            .map(|(duty, site)| (duty, site.loaded, site.bare.speed_m_s));
        chosen.binding.clone_from(&least.binding);
        let [shallow, deep] = least.valley;
        chosen.flat = (deep.chord_m / shallow.chord_m > 1.1).then_some(least.valley);
    }
    chosen.other_model = other_model(question);
    let rechecked = found.is_none_or(|sized| sized.rechecked);
    let mut suggestion = assemble(question, chosen);
    suggestion.flags.insert_if(!rechecked, Flag::SizeNotRechecked);
    suggestion
}

/// A size that was searched for.
pub(crate) struct Sized {
    pub least: Least,
    /// The least pair in whole steps; the exact one where none in whole steps does.
    pub size: PlaneSize,
    /// Whether no speed inside the ranges of the duties ask mosts more than those sized for.
    pub rechecked: bool,
}

/// The least pair and its rounding; sized again when a speed inside a range turns out to ask more.
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
        // The floor says what is within 2 % of it, so that it must hold as well.
        if [least.size, least.floor].into_iter().any(|size| bench.add_overlooked_speed(size)) {
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

fn assemble(question: &Question<'_>, chosen: Chosen) -> Suggestion {
    let boat = question.boat();
    let bench = &question.bench;
    let answer = match chosen.size {
        _ if !question.is_asked() => Answer::Infeasible(Box::new(nothing_to_ask(question))),
        _ if chosen.none_needed => Answer::NoPlanesNeeded,
        Some(size) => Answer::Pair(pair_of(size)),
        None => Answer::Infeasible(Box::new(shortfall(question))),
    };
    let pair = match &answer {
        Answer::Pair(pair) => Some(*pair),
        Answer::Infeasible(shortfall) => shortfall.best,
        Answer::NoPlanesNeeded => None,
    };
    let size = pair.map(PlaneSize::from);
    let needs: Vec<Need> = size.map(|size| bench.needs(size)).unwrap_or_default();
    let duties = duty_results(question, size, &needs);
    // Where boats drawn fail it most often need not be where the boat as described needs most: every
    // output speaks of the latter, in the loading that governs.
    let governing = chosen.governing.map(|(duty, loaded, speed_m_s)| {
        let own = &duties[duty];
        let is_there = own.condition == question.loaded[loaded].name();
        let speed_m_s = if is_there { own.speed.get::<meter_per_second>() } else { speed_m_s };
        (duty, loaded, speed_m_s)
    });
    let main = governing.map_or(&question.loaded[0], |(_, loaded, _)| &question.loaded[loaded]);
    let conditions = conditions(question, &answer, size, &chosen.alone);
    let untested = governing.zip(size).map(|((duty, loaded, speed_m_s), size)| {
        let site = bench.site_at(loaded, speed_m_s);
        let need = site.need(size, &bench.rules);
        let asks_of_porpoising = matches!(question.asking.duties[duty].duty.aim(), Aim::Margin(_));
        let all = site.flags(Some((size, need.deflection_deg))).of(Standing::Untested);
        all.only(|flag| asks_of_porpoising || !flag.is_of_porpoising())
    });
    Suggestion {
        model: question.settings().model,
        exact: chosen.exact.map(pair_of),
        duties,
        set_by: governing.map(|(duty, ..)| duty),
        governing: governing.map(|(_, loaded, speed_m_s)| Governing {
            condition: question.loaded[loaded].name().to_owned(),
            speed: speed(speed_m_s),
        }),
        binding: chosen.binding,
        flat: chosen.flat.map(|valley| valley.map(pair_of)),
        other_model: chosen.other_model,
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
        rests_on_untested: untested.unwrap_or_default(),
        chance: chosen.chance,
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
    let of = |index: usize| schedule(&question, index, Some(PlaneSize::from(pair)));
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
    known: &[Outlook],
) -> Vec<ConditionResult> {
    let step_m = question.boat().sizing().round_to.get::<meter>();
    let alone = |index: usize| match answer {
        _ if index < known.len() => known[index],
        Answer::Pair(pair) if question.loaded.len() == 1 => Outlook::Pair(*pair),
        Answer::Infeasible(_) if question.loaded.len() == 1 && question.is_asked() => {
            Outlook::NoPairDoes
        }
        Answer::NoPlanesNeeded => Outlook::NoPlanesNeeded,
        _ => Outlook::of(&mut question.bench.only(index), step_m),
    };
    let condition = |(index, loaded): (usize, &Loaded<'_>)| {
        let hump = loaded.hump();
        ConditionResult {
            condition: loaded.name().to_owned(),
            about: loaded.boat.condition().about.clone(),
            weight: *loaded.boat.weight(),
            alone: alone(index),
            hump_speed: hump.map_or_else(|| planing_start(loaded.boat), |hump| hump.speed),
            hump_place: hump.map(|hump| hump.place),
            hump_trim_bare: hump.and_then(|hump| hump.trim),
            schedule: schedule(question, index, size),
        }
    };
    question.loaded.iter().enumerate().map(condition).collect()
}

/// The same search with the bottom's lift by the next model on the list, for the same duties.
fn other_model(question: &Question<'_>) -> Option<OtherModel> {
    if !question.is_asked() {
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
