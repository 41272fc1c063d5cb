//! The sentences that say why.

mod beside;
mod caveats;

pub use beside::beside;
pub use caveats::caveats;

pub(crate) use caveats::{brought_to, over_limit, read_otherwise, seen_otherwise};
use uom::si::f64::{Angle, Force};

use super::doubt::drawn_as_seen;
use super::shortfall;
use super::sizing::Sizing;
use super::words::{angle, angle_number, speed, whole_degrees};
use crate::boat::measure::plain_number;
use crate::boat::{PlanePair, degrees};
use crate::document::{Piece, Sentence, said};
use crate::doubt::in_hundred;
use crate::sentence::duty::condition;
use crate::size::{Answer, Binding, DutyResult, Outlook, Reached, Shortfall, Suggestion};
use crate::units::{AreaUnit, UnitChoice, number_with_decimals};

/// The answer as a stable word.
#[must_use]
pub const fn answer_word(suggestion: &Suggestion) -> &'static str {
    match suggestion.answer {
        Answer::NoPlanesNeeded => "no-planes-needed",
        Answer::Pair(_) => "pair",
        Answer::Infeasible(_) => "no-pair-does-all",
    }
}

/// What keeps the least pair from being smaller, in words.
#[must_use]
pub fn binding_text(binding: Binding) -> Sentence {
    match binding {
        Binding::Duty => "what the duties ask, on as many boats as are wanted".into(),
        Binding::SafeRun => said![whole_degrees(2), " of trim at a duty, below which the bow digs"],
        Binding::Room => "the room on the transom".into(),
        Binding::SmallestChord => "the smallest chord allowed".into(),
        Binding::SmallestAspect => "the smallest span/chord allowed".into(),
        Binding::LargestAspect => {
            "the largest span/chord allowed, which a plane of less chord would have to exceed"
                .into()
        }
    }
}

/// Area of both planes.
#[must_use]
pub fn area_text(pair: PlanePair, units: UnitChoice) -> Piece {
    let unit = units.area;
    let decimals = if unit == AreaUnit::SquareMetre { 3 } else { 0 };
    Piece::quantity(number_with_decimals(unit.value(pair.area()), decimals), unit.symbol())
}

/// An outlook in a few words.
#[must_use]
pub fn outlook_text(outlook: Option<Outlook>, units: UnitChoice) -> String {
    match outlook {
        Some(Outlook::Pair(pair)) => pair.text(units),
        Some(Outlook::NoPlanesNeeded) => "none needed".to_owned(),
        Some(Outlook::NoPairDoes) => "none does all".to_owned(),
        Some(Outlook::NothingAsked) => "nothing is asked".to_owned(),
        None => "impossible".to_owned(),
    }
}

/// What is suggested, what it rests on, and what set it.
#[must_use]
pub fn headline(sizing: &Sizing<'_>) -> Vec<Sentence> {
    let suggestion = sizing.suggestion;
    let mut lines = answer(sizing);
    if suggestion.silence().is_some() {
        return lines;
    }
    match &suggestion.answer {
        Answer::NoPlanesNeeded => lines.extend(caveats(sizing)),
        Answer::Pair(_) => {
            lines.extend(chance_text(suggestion, sizing.units));
            lines.extend(caveats(sizing));
            lines.extend(over_limit(sizing));
            lines.extend(set_by(sizing, " in the loading ").map(|[duty, hardest]| {
                said!["The duty that set the size: ", duty, "; it asks most at ", hardest, "."]
            }));
            lines.extend(exact_text(sizing));
        }
        Answer::Infeasible(_) => {}
    }
    lines
}

/// The answer itself: the pair, that none is needed, or what the best of them misses.
#[must_use]
pub(crate) fn answer(sizing: &Sizing<'_>) -> Vec<Sentence> {
    let (suggestion, units) = (sizing.suggestion, sizing.units);
    if let Some(silence) = suggestion.silence() {
        return vec![silence.sentence(units).into(), silence.cure().into()];
    }
    match &suggestion.answer {
        Answer::NoPlanesNeeded => {
            let none = "No planes needed: with planes up the boat does every duty below. Fitting planes would cost money and some drag, and gain nothing that was asked for.";
            let as_far = "No planes called for as far as it can be judged: with planes up the boat does every duty below where the equations were tested.";
            let first = if suggestion.is_all_judged() { none } else { as_far };
            vec![first.into()]
        }
        Answer::Pair(pair) => vec![said![
            if suggestion.is_seen_otherwise() {
                "Buy nothing yet; a first guess is a pair of planes, "
            } else {
                "A pair of planes, "
            },
            format!("{} each (span x chord), ", pair.text(units)),
            area_text(*pair, units),
            " together.",
        ]],
        Answer::Infeasible(shortfall) if suggestion.duties.is_empty() => {
            let missing = shortfall::missing(&shortfall.missing, units);
            let remedies = shortfall.remedies.iter().map(|each| shortfall::remedy(each, units));
            std::iter::once(said![missing, "."]).chain(remedies).collect()
        }
        Answer::Infeasible(shortfall) => falls_short(sizing, shortfall),
    }
}

/// The duty that set the size, and where it asks most; none where no duty did.
pub(crate) fn set_by(sizing: &Sizing<'_>, in_loading: &'static str) -> Option<[Sentence; 2]> {
    let (suggestion, units) = (sizing.suggestion, sizing.units);
    let duty = &suggestion.duties[suggestion.set_by?];
    let hardest = match &suggestion.governing {
        Some(governing) if suggestion.conditions.len() > 1 => {
            said![speed(governing.speed, units), in_loading, Piece::name(&governing.condition),]
        }
        _ => speed(duty.speed, units).into(),
    };
    Some([condition(&duty.duty, units), hardest])
}

/// The pair that falls least short, what it misses, and what would help.
fn falls_short(sizing: &Sizing<'_>, shortfall: &Shortfall) -> Vec<Sentence> {
    let (suggestion, units) = (sizing.suggestion, sizing.units);
    let missing = shortfall::missing(&shortfall.missing, units);
    let mut lines = vec!["No pair that may be suggested does every duty.".into()];
    lines.push(match (shortfall.best, shortfall.duty) {
        (Some(best), Some(place)) => {
            let duty = &suggestion.duties[place].duty;
            said![
                format!(
                    "The pair that falls least short is {} each; it misses {} (",
                    best.text(units),
                    duty.name()
                ),
                condition(duty, units),
                "): ",
                missing,
                ".",
            ]
        }
        _ => said![missing, "."],
    });
    lines.extend(over_limit(sizing).filter(|_| shortfall.best.is_some()));
    lines.extend(shortfall.remedies.iter().map(|each| shortfall::remedy(each, units)));
    lines
}

/// The least pair before rounding, and what keeps it from being smaller.
fn exact_text(sizing: &Sizing<'_>) -> Option<Sentence> {
    let suggestion = sizing.suggestion;
    let step = sizing.boat().sizing().round_to;
    let unit = sizing.units.small_length;
    if !suggestion.binding.contains(&Binding::Duty) && suggestion.set_by.is_none() {
        let what = match suggestion.is_all_judged() {
            true => "What is asked",
            false => "What can be judged of what is asked",
        };
        let list = binding_list(suggestion);
        return Some(said![
            "No duty sets the size: it is the least pair that may be suggested, by ",
            list,
            format!(". {what} would take less."),
        ]);
    }
    Some(said![
        "Before rounding to steps of ",
        Piece::quantity(plain_number(unit.value(step)), unit.symbol()),
        format!(" the least pair is {}. ", suggestion.exact?.text(sizing.units)),
        "What keeps that from being smaller: ",
        binding_list(suggestion),
        ".",
    ])
}

/// How sure it is, and what it takes off: the chance at which the size was chosen.
#[must_use]
pub fn chance_text(suggestion: &Suggestion, units: UnitChoice) -> Option<Sentence> {
    chance_of(suggestion, units, "every duty below", "the duties below")
}

/// The same with what the duties are called.
pub(crate) fn chance_of(
    suggestion: &Suggestion,
    units: UnitChoice,
    every: &str,
    all_of: &str,
) -> Option<Sentence> {
    let chance = suggestion.chance.as_ref()?;
    let hundred = |share: f64| format!("{} in 100", in_hundred(share));
    let relief = chance.relief.zip(chance.relief_speed).map(|([low, median, high], at)| {
        said![
            " All the way down they take ",
            angle(median, 1),
            " off the trim at ",
            speed(at, units),
            " on the middle one of these boats (nine in ten: ",
            format!("{} to {}).", angle_number(low, 1), angle_number(high, 1)),
        ]
    });
    let all = match suggestion.is_all_judged() {
        true => every.to_owned(),
        false => format!("what can be judged of {all_of}"),
    };
    let reached: Sentence = if !chance.is_of_something() {
        "Nothing that is asked can be judged, so that there is no chance to count".into()
    } else if chance.is_reached() {
        let of = match suggestion.is_all_judged() {
            true => format!("The chance that they do {every}"),
            false => {
                format!("Not all of {all_of} can be judged; the chance that they do the others")
            }
        };
        let [reached, wanted] = [chance.reached, chance.wanted].map(hundred);
        format!("{of} is {reached}, where {wanted} was asked").into()
    } else {
        said![
            format!(
                "PERHAPS: no pair that may be suggested does {all} at the {} asked; this one does at {}, and none of them by 2 in 100 more often. Measure what the answer follows (",
                hundred(chance.wanted),
                hundred(chance.reached)
            ),
            Piece::name("planewright doubt"),
            "), or ask for less",
        ]
    };
    let brought = brought_to(&chance.seen, units);
    let seen = drawn_as_seen(&chance.seen.all, units);
    let seen: Vec<Sentence> = seen.into_iter().chain(brought).map(|own| said![" ", own]).collect();
    let seen = Sentence::joined(seen, "");
    Some(said![reached, ".", relief, seen])
}

fn binding_list(suggestion: &Suggestion) -> Sentence {
    Sentence::joined(suggestion.binding.iter().map(|&binding| binding_text(binding)), " and ")
}

/// What a duty is about: with planes up, and with the pair.
#[must_use]
pub fn reached_texts(result: &DutyResult, units: UnitChoice) -> [Sentence; 2] {
    let none = || Sentence::from("no balance");
    let trim = |trim: Option<Angle>| trim.map_or_else(none, |trim| angle(trim.abs(), 1).into());
    let margin = |margin: Option<Angle>| {
        let Some(margin) = margin else { return none() };
        let side = if degrees(margin) < -0.05 { " over" } else { " under" };
        said![angle(margin.abs(), 1), side]
    };
    let force = |force: Option<Force>| {
        let Some(force) = force else { return none() };
        let unit = units.force;
        Piece::quantity(number_with_decimals(unit.value(force), 0), unit.symbol()).into()
    };
    match result.reached {
        Reached::Trim { bare, with } => [bare, with].map(trim),
        Reached::Margin { bare, with } => [bare, with].map(margin),
        Reached::Resistance { bare, with, .. } => [bare, with].map(force),
        Reached::Difference { least, largest } => {
            let ends = [least, largest].map(|angle| angle_number(angle.abs(), 1));
            ["lists".into(), Piece::Range { ends, unit: "deg" }.into()]
        }
    }
}
