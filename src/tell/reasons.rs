//! The sentences that say why.

use uom::si::f64::{Angle, Force, Velocity};
use uom::si::length::meter;

use super::doubt::drawn_as_seen;
use super::over_limit::OverLimit;
use super::sizing::Sizing;
use crate::balance::LiftModel;
use crate::behaviour::drive_trim::can_be_trimmed;
use crate::boat::measure::plain_number;
use crate::boat::{Duty, PlanePair, degrees};
use crate::doubt::in_hundred;
use crate::flag::Flag;
use crate::size::{
    Answer, Binding, DutyResult, OtherModel, Outlook, Reached, SeenTrim, Suggestion, sentence,
};
use crate::units::{AreaUnit, LengthUnit, UnitChoice, number_with_decimals};

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
pub const fn binding_text(binding: Binding) -> &'static str {
    match binding {
        Binding::Duty => "what the duties ask, on as many boats as are wanted",
        Binding::SafeRun => "2 deg of trim at a duty, below which the bow digs",
        Binding::Room => "the room on the transom",
        Binding::SmallestChord => "the smallest chord allowed",
        Binding::SmallestAspect => "the smallest span/chord allowed",
        Binding::LargestAspect => {
            "the largest span/chord allowed, which a plane of less chord would have to exceed"
        }
    }
}

/// Area of both planes.
#[must_use]
pub fn area_text(pair: PlanePair, units: UnitChoice) -> String {
    let unit = units.area;
    let decimals = if unit == AreaUnit::SquareMetre { 3 } else { 0 };
    format!("{} {}", number_with_decimals(unit.value(pair.area()), decimals), unit.symbol())
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

/// What is suggested, and what set it.
#[must_use]
pub fn headline(sizing: &Sizing<'_>) -> Vec<String> {
    let (suggestion, units) = (sizing.suggestion, sizing.units);
    if let Some(silence) = suggestion.silence() {
        return vec![silence.sentence(units), silence.cure().to_owned()];
    }
    match &suggestion.answer {
        Answer::NoPlanesNeeded => {
            let none = "No planes needed: with planes up the boat does every duty below. Fitting planes would cost money and some drag, and gain nothing that was asked for.";
            let as_far = "No planes called for as far as it can be judged: with planes up the boat does every duty below where the equations were tested.";
            let first = if suggestion.is_all_judged() { none } else { as_far }.to_owned();
            std::iter::once(first).chain(caveats(sizing)).collect()
        }
        Answer::Pair(pair) => {
            let mut lines = vec![format!(
                "A pair of planes, {} each (span x chord), {} together.",
                pair.text(units),
                area_text(*pair, units)
            )];
            lines.extend(chance_text(suggestion, units));
            lines.extend(caveats(sizing));
            lines.extend(over_limit(sizing));
            if let Some(place) = suggestion.set_by {
                let duty = &suggestion.duties[place];
                let bites = match &suggestion.governing {
                    Some(governing) if suggestion.conditions.len() > 1 => format!(
                        "at {} in the loading `{}`",
                        speed_text(sizing, governing.speed),
                        governing.condition
                    ),
                    _ => format!("at {}", speed_text(sizing, duty.speed)),
                };
                lines.push(format!(
                    "The duty that set the size: {}; it asks most {bites}.",
                    sentence(&duty.duty, units),
                ));
            }
            lines.extend(exact_text(sizing));
            lines
        }
        Answer::Infeasible(shortfall) if suggestion.duties.is_empty() => {
            std::iter::once(format!("{}.", shortfall.missing))
                .chain(shortfall.remedies.iter().cloned())
                .collect()
        }
        Answer::Infeasible(shortfall) => {
            let mut lines = vec!["No pair that may be suggested does every duty.".to_owned()];
            match (shortfall.best, shortfall.duty) {
                (Some(best), Some(place)) => lines.push(format!(
                    "The pair that falls least short is {} each; it misses {} ({}): {}.",
                    best.text(units),
                    suggestion.duties[place].duty.name(),
                    sentence(&suggestion.duties[place].duty, units),
                    shortfall.missing
                )),
                _ => lines.push(format!("{}.", shortfall.missing)),
            }
            lines.extend(over_limit(sizing).filter(|_| shortfall.best.is_some()));
            lines.extend(shortfall.remedies.iter().cloned());
            lines
        }
    }
}

/// The least pair before rounding, and what keeps it from being smaller.
fn exact_text(sizing: &Sizing<'_>) -> Option<String> {
    let suggestion = sizing.suggestion;
    let step = sizing.boat().sizing().round_to;
    let unit = sizing.units.small_length;
    if !suggestion.binding.contains(&Binding::Duty) && suggestion.set_by.is_none() {
        return Some(format!(
            "No duty sets the size: it is the least pair that may be suggested, by {}. {} would take less.",
            binding_list(suggestion),
            match suggestion.is_all_judged() {
                true => "What is asked",
                false => "What can be judged of what is asked",
            }
        ));
    }
    Some(format!(
        "Before rounding to steps of {} {} the least pair is {}. What keeps that from being smaller: {}.",
        plain_number(unit.value(step)),
        unit.symbol(),
        suggestion.exact?.text(sizing.units),
        binding_list(suggestion)
    ))
}

/// How sure it is, and what it takes off: the chance at which the size was chosen.
#[must_use]
pub fn chance_text(suggestion: &Suggestion, units: UnitChoice) -> Option<String> {
    let chance = suggestion.chance.as_ref()?;
    let hundred = |share: f64| format!("{} in 100", in_hundred(share));
    let relief = chance.relief.map(|range| {
        let [low, median, high] =
            range.map(|angle| number_with_decimals(degrees(angle), 1));
        format!(" All the way down they take {median} deg off the trim at the hump of the middle one of these boats (nine in ten: {low} to {high}).")
    });
    let all = match suggestion.is_all_judged() {
        true => "every duty below",
        false => "what can be judged of the duties below",
    };
    let reached = if !chance.is_of_something() {
        "Nothing that is asked can be judged, so that there is no chance to count".to_owned()
    } else if chance.is_reached() {
        format!(
            "The chance that they do {all} is {}, where {} was asked",
            hundred(chance.reached),
            hundred(chance.wanted)
        )
    } else {
        format!(
            "PERHAPS: no pair that may be suggested does {all} at the {} asked; this one does at {}, and none of them by 2 in 100 more often. Measure what the answer follows (`planewright doubt`), or ask for less",
            hundred(chance.wanted),
            hundred(chance.reached)
        )
    };
    let seen =
        drawn_as_seen(&chance.seen, units).map_or(String::new(), |drawn| format!(" {drawn}"));
    Some(format!("{reached}.{}{seen}", relief.unwrap_or_default()))
}

/// What the answer rests on that nobody tested, judged or saw so: it stands below the headline in every output.
#[must_use]
pub fn caveats(sizing: &Sizing<'_>) -> Vec<String> {
    let all = [
        seen_otherwise(sizing),
        untested_text(sizing.suggestion),
        unjudged_text(sizing),
        perhaps_levels(sizing),
    ];
    all.into_iter().flatten().collect()
}

/// Where the settings of the table leave her above the porpoising limit, some of it where that is tested.
fn over_limit(sizing: &Sizing<'_>) -> Option<String> {
    let over = OverLimit::of(sizing);
    let has_settings = !sizing.suggestion.is_seen_otherwise();
    (has_settings && over.is_tested_somewhere()).then(|| over.sentence())?
}

/// Where a list is levelled at the mild end of what is expected and not at the other.
fn perhaps_levels(sizing: &Sizing<'_>) -> Option<String> {
    let suggestion = sizing.suggestion;
    let usable_deg = degrees(suggestion.usable_deflection);
    let dead_deg = suggestion.dead_band.map_or(0.0, degrees);
    let far = suggestion.duties.iter().filter_map(|duty| match duty.reached {
        Reached::Difference { least, largest } if duty.met => {
            Some((duty, degrees(least).abs().max(degrees(largest).abs()) + dead_deg))
        }
        _ => None,
    });
    let (duty, needed_deg) = far.max_by(|a, b| a.1.total_cmp(&b.1))?;
    (needed_deg > usable_deg).then(|| {
        format!(
            "PERHAPS LEVEL: {}. Where the sideways force is taken up is not known: at the hard end of what is expected that takes {} deg of the {} there are.",
            sentence(&duty.duty, sizing.units),
            number_with_decimals(needed_deg, 1),
            number_with_decimals(usable_deg, 1),
        )
    })
}

/// Where a trim was read further from the boat as described than the reading may be off.
fn seen_otherwise(sizing: &Sizing<'_>) -> Option<String> {
    let suggestion = sizing.suggestion;
    let read = |seen: SeenTrim| {
        format!(
            "at {} {} deg was read where the boat as described trims {}",
            speed_text(sizing, seen.speed),
            number_with_decimals(degrees(seen.read), 1),
            number_with_decimals(degrees(seen.described), 1),
        )
    };
    let read: Vec<String> = suggestion.seen_otherwise().map(read).collect();
    if read.is_empty() {
        return None;
    }
    let is_relief =
        |duty: &DutyResult| duty.generated && matches!(duty.duty, Duty::Relief { over: None, .. });
    let asked = match suggestion.duties.iter().any(is_relief) {
        true => "What is asked at the hump and the chance follow what was read",
        false => "The chance follows what was read",
    };
    Some(format!(
        "SEEN OTHERWISE: {}. {asked}; trims, settings and what is safe at each speed are those of the boat described, and not to be used before she is described as she runs: weigh her, find her centre of gravity, and ask again.",
        read.join("; "),
    ))
}

/// What nobody can judge, so that no chance holds it; nothing where all is judged.
fn unjudged_text(sizing: &Sizing<'_>) -> Option<String> {
    let duty = sizing.suggestion.duties.iter().find(|duty| duty.is_unjudged())?;
    let untested = match sizing.suggestion.pair() {
        Some(_) => "its curve or the planes were not tested",
        None => "nothing was tested that the limit stands on",
    };
    let [bare, with] = reached_texts(duty, sizing.units);
    let trims = match sizing.suggestion.pair() {
        Some(_) => {
            format!("{bare} the porpoising limit there with planes up and {with} it with the pair")
        }
        None => format!("{bare} the porpoising limit there"),
    };
    let ease = match can_be_trimmed(sizing.boat()) {
        true => "slow down, trim the drive in,",
        false => "slow down",
    };
    Some(format!(
        "NOT JUDGED, and in no chance: whether she porpoises at {}. She trims {trims}, where {untested}: if she does porpoise, {ease} and have it looked at.",
        speed_text(sizing, duty.speed),
    ))
}

/// Where the size rests on what nobody tested; nothing where it does not.
fn untested_text(suggestion: &Suggestion) -> Option<String> {
    let why: Vec<&str> = suggestion.rests_on_untested.iter().filter_map(Flag::untested).collect();
    (!why.is_empty()).then(|| {
        format!(
            "UNTESTED where the size is set: {}. The ranges are wider than they look.",
            why.join("; ")
        )
    })
}

fn binding_list(suggestion: &Suggestion) -> String {
    let names: Vec<&str> = suggestion.binding.iter().map(|&b| binding_text(b)).collect();
    names.join(" and ")
}

fn speed_text(sizing: &Sizing<'_>, speed: Velocity) -> String {
    let unit = sizing.units.speed;
    format!("{} {}", number_with_decimals(unit.value(speed), 1), unit.symbol())
}

/// What a duty is about: with planes up, and with the pair.
#[must_use]
pub fn reached_texts(result: &DutyResult, units: UnitChoice) -> [String; 2] {
    let tenths = |degrees: f64| number_with_decimals(degrees.abs(), 1);
    let trim = |trim: Option<Angle>| match trim {
        Some(trim) => format!("{} deg", tenths(degrees(trim))),
        None => "no balance".to_owned(),
    };
    let margin = |margin: Option<Angle>| match margin.map(degrees) {
        Some(over) if over < -0.05 => format!("{} deg over", tenths(over)),
        Some(under) => format!("{} deg under", tenths(under)),
        None => "no balance".to_owned(),
    };
    let force = |force: Option<Force>| match force {
        Some(force) => {
            let value = number_with_decimals(units.force.value(force), 0);
            format!("{value} {}", units.force.symbol())
        }
        None => "no balance".to_owned(),
    };
    match result.reached {
        Reached::Trim { bare, with } => [bare, with].map(trim),
        Reached::Margin { bare, with } => [bare, with].map(margin),
        Reached::Resistance { bare, with, .. } => [bare, with].map(force),
        Reached::Difference { least, largest } => {
            let [least, largest] = [least, largest].map(|angle| tenths(degrees(angle)));
            ["lists".to_owned(), format!("{least}..{largest} deg")]
        }
    }
}

/// Why not another size: flatness, the other reference, the rule of thumb.
#[must_use]
pub fn beside(sizing: &Sizing<'_>) -> Vec<String> {
    let (suggestion, units) = (sizing.suggestion, sizing.units);
    let mut lines = Vec::new();
    if suggestion.model == LiftModel::Shuford1958 {
        lines.push(
            "All of this is with the lift of the bottom by Shuford 1958, from memory, which is not the default."
                .to_owned(),
        );
    }
    if let Some([shallow, deep]) = suggestion.flat {
        lines.push(format!(
            "The optimum is flat: anything from {} to {} does the same within 2 % of the area. The shallow end was taken, since a plane's load on its hinge and actuator grows with chord x chord x span.",
            shallow.text(units),
            deep.text(units)
        ));
    }
    lines.extend(suggestion.other_model.map(|other| other_model(other, units)));
    lines.push(rule_of_thumb(sizing));
    lines
}

/// What the same duties would need by another lift model.
fn other_model(other: OtherModel, units: UnitChoice) -> String {
    let says = match other.outlook {
        Outlook::Pair(pair) => {
            format!("the same duties would need {} each", pair.text(units))
        }
        Outlook::NoPlanesNeeded => "the boat does the same duties without planes".to_owned(),
        Outlook::NoPairDoes => "no admissible pair does all of the same duties".to_owned(),
        Outlook::NothingAsked => "there is nothing that planes could be asked to do".to_owned(),
    };
    let memory = match other.model {
        LiftModel::Savitsky1964 => "",
        LiftModel::Shuford1958 => ", from memory",
    };
    format!(
        "By another theory of what the bottom lifts ({}{memory}) {says}; size --model {} says why. How far that is from the answer shows what the theory alone is worth.",
        other.model.name(),
        other.model.word()
    )
}

fn rule_of_thumb(sizing: &Sizing<'_>) -> String {
    let (suggestion, units) = (sizing.suggestion, sizing.units);
    let rule = suggestion.rule_of_thumb;
    let unit = units.small_length;
    let length = |value| {
        let decimals = usize::from(unit != LengthUnit::Millimetre);
        format!("{} {}", number_with_decimals(unit.value(value), decimals), unit.symbol())
    };
    let estimated = if rule.length_estimated { " (that length is an estimate)" } else { "" };
    let first = format!(
        "The trade's rule of thumb, one inch of span for each foot of boat on each side (common practice, no source), says a span of {}{estimated}.",
        length(rule.span)
    );
    let Answer::Pair(pair) = &suggestion.answer else {
        return format!(
            "{first} It looks at the length of the boat alone, not at what the planes must do."
        );
    };
    let ratio = pair.span.get::<meter>() / rule.span.get::<meter>();
    let why = if (0.9..=1.1).contains(&ratio) {
        "It agrees with the span suggested; it knows nothing of the chord, the weight or the speed, so that this is no proof of either."
    } else if ratio < 1.0 {
        "It is longer than what the duties need: it looks at length alone, and these duties, this weight and this speed ask for less."
    } else {
        "It is shorter than what the duties need: it looks at length alone, and these duties, this weight and this speed ask for more."
    };
    format!("{first} {why}")
}
