//! From a boat with duties to a suggestion.

use uom::si::f64::{Angle, Length, Velocity};
use uom::si::{angle::degree, length::meter, velocity::meter_per_second};

use super::bench::Bench;
use super::demand::Need;
use super::generate::generated;
use super::judge::{duty_results, set_by, variants};
use super::result::{Answer, RuleOfThumb, Suggestion};
use super::schedule::schedule;
use super::search::Least;
use super::shortfall::{nothing_to_ask, shortfall};
use super::trade_off::{hump_speed_m_s, trade_off};
use crate::balance::forces::{PlaneSize, Prism};
use crate::balance::sweep::planing_start;
use crate::balance::{Method, Settings};
use crate::boat::{Boat, BoatInput, Duty, Fault, LiftReference, Measure, PlanePair};
use crate::flag::Flags;
use crate::plane::effect;

/// Rounds of looking for a speed inside a duty's range that bites more than those sized for.
const RECHECKS: usize = 8;

/// Everything a search stands on.
pub(crate) struct Question<'a> {
    pub boat: &'a Boat,
    pub prism: &'a Prism,
    pub duties: &'a [Duty],
    pub generated: bool,
    pub bench: Bench<'a>,
}

/// The least pair of planes that does a boat's duties, and why.
///
/// Without duties in the boat file, sensible ones are generated from the boat.
///
/// # Errors
/// A [`Fault`] when a duty holds at a speed below the planing range, where the
/// equations do not apply, and when the settings ask for a 1964 case.
pub fn suggest(boat: &Boat, settings: &Settings) -> Result<Suggestion, Fault> {
    suggest_from(boat, settings, 0.5)
}

/// [`suggest`], with the first chords shifted by a start from 0 to 1; the answer does not hang on it.
pub(crate) fn suggest_from(
    boat: &Boat,
    settings: &Settings,
    start: f64,
) -> Result<Suggestion, Fault> {
    let prism = Prism::new(boat, settings);
    let (duties, is_generated) = duties_asked(boat, &prism)?;
    let bench = Bench::new(boat, &prism, &duties);
    let mut question =
        Question { boat, prism: &prism, duties: &duties, generated: is_generated, bench };
    Ok(answer(&mut question, start))
}

/// The duties of a boat, or those generated for one that has none, checked; and whether they were
/// generated.
pub(crate) fn duties_asked(boat: &Boat, prism: &Prism) -> Result<(Vec<Duty>, bool), Fault> {
    if prism.settings.method != Method::Full {
        return Err(Fault {
            key: "method".to_owned(),
            problem: "the 1964 cases know no planes".to_owned(),
            remedy: "size with the full method".to_owned(),
        });
    }
    let is_generated = !boat.gives_duties();
    let duties = if is_generated { generated(boat, prism) } else { boat.duties().to_vec() };
    check_speeds(boat, &duties)?;
    Ok((duties, is_generated))
}

fn answer(question: &mut Question<'_>, start: f64) -> Suggestion {
    if question.duties.is_empty() {
        let shortfall = nothing_to_ask(question);
        return assemble(question, Answer::Infeasible(Box::new(shortfall)), None);
    }
    if question.bench.bare_does_all() {
        return assemble(question, Answer::NoPlanesNeeded, None);
    }
    let step_m = question.boat.sizing().round_to.get::<meter>();
    let Some((least, size)) = search(&mut question.bench, start, step_m) else {
        let shortfall = shortfall(question);
        return assemble(question, Answer::Infeasible(Box::new(shortfall)), None);
    };
    assemble(question, Answer::Pair(pair_of(size)), Some(&least))
}

/// The least pair and its rounding; sized again when a speed inside a range turns out to bite more.
pub(crate) fn search(bench: &mut Bench<'_>, start: f64, step_m: f64) -> Option<(Least, PlaneSize)> {
    bench.settle_speeds();
    for _ in 0..RECHECKS {
        let least = bench.least(start)?;
        if bench.add_overlooked_speed(least.size) {
            continue;
        }
        let size = bench.rounded(&least, step_m).unwrap_or(least.size);
        if !bench.add_overlooked_speed(size) {
            return Some((least, size));
        }
    }
    let least = bench.least(start)?;
    let size = bench.rounded(&least, step_m).unwrap_or(least.size);
    Some((least, size))
}

/// Every duty must hold in the planing range.
fn check_speeds(boat: &Boat, duties: &[Duty]) -> Result<(), Fault> {
    let start = planing_start(boat);
    for (place, duty) in duties.iter().enumerate() {
        let (key, speed) = match *duty {
            Duty::HumpTrim { from, .. } => ("from", from),
            Duty::PorpoisingMargin { up_to, .. } => ("up_to", up_to),
            Duty::LeastResistance { speed, .. } | Duty::List { speed, .. } => ("speed", speed),
        };
        if speed < start * (1.0 - 1e-9) {
            return Err(Fault {
                key: format!("duty[{place}].{key}"),
                problem: format!(
                    "{} is below the planing range, which starts at {} (Cv 1) for this beam",
                    Measure::Speed(speed),
                    Measure::Speed(start)
                ),
                remedy: format!("give at least {}", Measure::Speed(start)),
            });
        }
    }
    Ok(())
}

fn assemble(question: &Question<'_>, answer: Answer, least: Option<&Least>) -> Suggestion {
    let boat = question.boat;
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
    Suggestion {
        exact: least.map(|least| pair_of(least.size)),
        duties: duty_results(question, size, &needs),
        set_by: least.and_then(|least| set_by(bench, least)),
        binding: least.map(|least| least.binding.clone()).unwrap_or_default(),
        flat: flat.map(|valley| valley.map(pair_of)),
        other_reference: least.and_then(|_| other_reference(question)),
        variants: match answer {
            Answer::Pair(pair) => variants(question, pair),
            _ => Vec::new(),
        },
        trade_off: size.map(|size| trade_off(question, size)).unwrap_or_default(),
        bare_hump_resistance: super::trade_off::bare_hump_resistance(question),
        schedule: schedule(question, size),
        dead_band: pair.map(|pair| effect::dead_band(boat.transom().hinge_height, pair.chord)),
        room: boat.transom().room().largest_span,
        usable_deflection: boat.sizing().largest_deflection,
        share_allowed: bench.rules.share,
        rule_of_thumb: rule_of_thumb(boat),
        flags: flags(bench, size, &needs),
        answer,
    }
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

/// The same search with the planes' lift measured from the other end of the chord.
fn other_reference(question: &Question<'_>) -> Option<PlanePair> {
    let mut input: BoatInput = question.boat.input().clone();
    input.sizing.lift_reference = match input.sizing.lift_reference {
        LiftReference::Transom => LiftReference::TrailingEdge,
        LiftReference::TrailingEdge => LiftReference::Transom,
    };
    let boat = Boat::build(input).ok()?;
    let prism = Prism::new(&boat, &question.prism.settings);
    let bench = question.bench.with_prism(&prism);
    let least = bench.least(0.5)?;
    bench.rounded(&least, boat.sizing().round_to.get::<meter>()).map(pair_of)
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

/// Speed of the largest bare trim; see [`hump_speed_m_s`].
pub(crate) fn hump_m_s(question: &Question<'_>) -> f64 {
    hump_speed_m_s(question.boat, question.prism)
}
