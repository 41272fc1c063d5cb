//! The dealer's page: what to take, what it costs, what it does and what it does not do.

mod numbers;
mod offer;
mod tables;

pub(super) use numbers::least_sure;
use numbers::{each_done, headline, numbers};
use tables::choice;
pub(super) use tables::weak;

use super::gather::{Advised, Gathered};
use super::limits::{cautions, fitted_note, limits, swing};
use super::owner_words::situation;
use super::{ReportError, origin, pictures, say};

use crate::document::{Block, Document, Fact, Form, Sentence};
use crate::doubt::in_hundred;
use crate::stock::Ranked;
use crate::stock::rank::Standing;
use crate::tell;
use crate::tell::shelf::amount;
use crate::units::number_with_decimals;

/// The page.
pub(super) fn document(gathered: &Gathered) -> Result<Document, ReportError> {
    let boat = gathered.boat();
    let mut blocks = gathered.first();
    blocks.splice(0..0, offer::letterhead(gathered));
    blocks.extend(gathered.is_said().then(|| lead(gathered)));
    blocks.extend(caveats(gathered));
    // An offer needs the room for what it costs: why the size is so stands on the page without one.
    let is_offer = gathered.offer.is_some();
    let why = why(gathered).filter(|_| !is_offer);
    let why: Vec<String> = why.into_iter().chain(fitted_note(gathered)).collect();
    if !why.is_empty() {
        blocks.push(Block::Paragraph(why.join(" ")));
    }
    blocks.push(Block::KeyNumbers(numbers(gathered)));
    blocks
        .push(Block::Facts(each_done(gathered).into_iter().chain(particulars(gathered)).collect()));
    blocks.extend(say::estimated_in_short(boat).map(|all| {
        let swing = swing(gathered).filter(|_| !is_offer);
        let swing = swing.unwrap_or_else(|| "Measured, the answer is surer.".to_owned());
        Block::Paragraph(format!("Estimated, since nobody gave it: {all}. {swing}"))
    }));
    blocks.extend(offer::kit(gathered));
    blocks.extend(choice(gathered));
    if let Some(chart) = pictures::bow_chart(gathered).filter(|_| !is_offer) {
        blocks.push(Block::Pictures(vec![pictures::chart(&chart)?]));
    }
    blocks.push(Block::Heading("What it will not do, and what to know".to_owned()));
    blocks.push(Block::Points(limits(gathered)));
    blocks.push(Block::Caution {
        title: "Before the first hole and the first run".to_owned(),
        points: cautions(),
    });
    if gathered.is_asked() {
        // Where there is nothing to take, there is nothing to accept.
        let lines: &[&str] = match gathered.part() {
            // What depends on an open question is not sold yet.
            Some(_) if gathered.sense.questions.is_empty() => {
                &["Offered by", "Accepted by", "Date"]
            }
            _ => &["Worked out by", "Seen by", "Date"],
        };
        blocks.push(Block::WriteOn(lines.iter().map(|&line| line.to_owned()).collect()));
    }
    Ok(Document {
        // An offer stays on one sheet.
        title: match is_offer {
            true => format!("Trim planes for {}", named(boat.name())),
            false => format!("Trim planes for {}", boat.name()),
        },
        subject: offer::subject(gathered),
        origin: origin(gathered),
        form: Form::Sheet,
        blocks,
    })
}

/// What to take, and how sure that is.
pub(super) fn in_short(gathered: &Gathered) -> Vec<Block> {
    vec![lead(gathered), Block::KeyNumbers(numbers(gathered))]
}

/// What to take, and what changes with it.
fn lead(gathered: &Gathered) -> Block {
    let changes = headline(gathered).map_or_else(String::new, |changes| format!("{changes} "));
    Block::Lead(format!("{changes}{}", recommendation(gathered)))
}

/// A sum as a paper writes it: the currency before the number, where there is one.
fn sum_of(value: f64, currency: &str) -> String {
    format!("{currency} {}", amount(value)).trim_start().to_owned()
}

/// Letters of a name that the page holds; what is longer is cut.
const LONGEST_NAME: usize = 60;
/// Letters of it in a narrow column, and where several stand in a sentence.
const LONGEST_SHORT_NAME: usize = 32;

/// A name as the page has room for it.
fn named(name: &str) -> String {
    cut(name, LONGEST_NAME)
}

/// The same for a narrow column.
fn named_short(name: &str) -> String {
    cut(name, LONGEST_SHORT_NAME)
}

fn cut(name: &str, longest: usize) -> String {
    if name.chars().count() <= longest {
        return name.to_owned();
    }
    let kept: String = name.chars().take(longest - 1).collect();
    format!("{}…", kept.trim_end())
}

/// The one sentence to read.
fn recommendation(gathered: &Gathered) -> String {
    let units = gathered.size.units;
    let take = match gathered.size.suggestion.is_all_judged() {
        true => "Take",
        false => {
            "Not all that is asked can be judged, and no pair is sure to do it. For what can be judged, take"
        }
    };
    match (gathered.advised, gathered.part()) {
        (Advised::Nothing, _) if gathered.size.suggestion.is_all_judged() => {
            "No planes needed: she does everything that is asked of her without them.".to_owned()
        }
        (Advised::Nothing, _) => "No planes called for, as far as it can be judged: without them she does what is asked of her where the equations were tested.".to_owned(),
        (Advised::Pair(pair), _) if gathered.keeps() => format!(
            "Keep the planes she has, {} each, span by chord: {} does what is asked so much more often that it would be worth changing them.{}",
            pair.text(units),
            if gathered.shelf.is_some() { "nothing in the stock list" } else { "no pair" },
            less_sure(gathered).unwrap_or_default()
        ),
        (Advised::Pair(pair), _) if !gathered.has_settings() => format!(
            "Nothing to be ordered yet: she was seen to trim otherwise than she is described. A first guess is a pair of {} each, span by chord.",
            pair.text(units)
        ),
        (Advised::Pair(pair), Some(ranked)) => {
            let stock = match ranked.standing {
                Standing::Does if ranked.part.on_hand.is_none() => "",
                Standing::Does => "in stock: ",
                _ => "to be ordered: ",
            };
            let remedy = ranked.remedy(units).map(|remedy| {
                format!(" As it comes, at this price, it has no allowance for slamming. Fit it so, the changes being extra: {remedy}.")
            });
            let remedy = remedy.unwrap_or_default();
            let unknown = match ranked.part.gear {
                Some(_) => "",
                None => " Their strength is not known: ask the maker before ordering.",
            };
            let less_sure = less_sure(gathered).unwrap_or_default();
            format!(
                "{take} a pair of {} ({} each, span by chord), {stock}{} for the pair.{less_sure}{remedy}{unknown}",
                named(&ranked.part.name),
                pair.text(units),
                sum_of(ranked.pair_price(), &ranked.part.price.currency)
            )
        }
        (Advised::Pair(pair), None) => {
            let is_unsafe = |ranked: &Ranked| ranked.standing == Standing::Unsafe;
            let shelf = match &gathered.shelf {
                Some(shelf) if shelf.ranking.ranked.iter().any(is_unsafe) => {
                    " Nothing in the stock list that is safe on her does all of it often enough."
                }
                Some(_) => " Nothing in the stock list does all of it often enough.",
                None => "",
            };
            let less_sure = less_sure(gathered).unwrap_or_default();
            format!(
                "{take} a pair of planes of {} each, span by chord.{shelf}{less_sure}",
                pair.text(units)
            )
        }
        (Advised::Short(Some(pair)), _) => format!(
            "No pair does everything that is asked of her. The nearest is {} each, span by chord; it is not recommended: `planewright size` names what is missing and what would help.",
            pair.text(units)
        ),
        (Advised::Short(None), _) if !gathered.is_asked() => unsaid(gathered),
        (Advised::Short(None), _) => {
            "There is no room on her transom for planes that would help.".to_owned()
        }
    }
}

/// That the pair advised does what is asked less often than is wanted, and which would; nothing where it does.
pub(super) fn less_sure(gathered: &Gathered) -> Option<String> {
    let wanted = gathered.size.suggestion.chance.as_ref()?.wanted;
    let reached = gathered.chance()?.share;
    let would = match &gathered.size.suggestion.answer {
        crate::size::Answer::Pair(pair) if gathered.size.suggestion.exact.is_some() => {
            format!("a pair of {} would", pair.text(gathered.size.units))
        }
        _ => "no pair that may be suggested would".to_owned(),
    };
    (in_hundred(reached) < in_hundred(wanted)).then(|| {
        format!(
            " They do {} on {} in 100 boats nearly like her, where {} are wanted; {would}.",
            gathered.all_asked(),
            say::in_hundred(reached),
            say::in_hundred(wanted)
        )
    })
}

/// What the answer rests on that nobody tested, judged or saw so, as the command line says it.
pub(super) fn caveats(gathered: &Gathered) -> Option<Block> {
    let all = Sentence::joined(tell::reasons::caveats(&gathered.sizing()), " ");
    (!all.is_empty()).then_some(Block::Said(all))
}

/// Why nothing can be said about planes, in the words of every other answer.
pub(super) fn unsaid(gathered: &Gathered) -> String {
    Sentence::joined(tell::reasons::headline(&gathered.sizing()), " ").on_page()
}

/// What set the size, as a situation on the water.
fn why(gathered: &Gathered) -> Option<String> {
    let suggestion = &gathered.size.suggestion;
    if let crate::size::Answer::Infeasible(shortfall) = &suggestion.answer
        && gathered.part().is_none()
    {
        let missing = tell::shortfall::missing(&shortfall.missing, gathered.size.units).capital();
        return gathered.is_asked().then(|| format!("{}.", missing.on_page()));
    }
    let duty = &suggestion.duties[suggestion.set_by?];
    let governing = suggestion.governing.as_ref()?;
    let several = gathered.size.boats.len() > 1;
    let boat = &gathered.size.boats[gathered.main_loading()];
    Some(format!(
        "The size is set by this: {} It is hardest at {}{}.",
        situation(duty, gathered),
        say::speed(governing.speed, gathered.size.units),
        say::loaded(boat, several),
    ))
}

/// The boat in a few lines.
fn particulars(gathered: &Gathered) -> Vec<Fact> {
    let (boat, units) = (gathered.boat(), gathered.size.units);
    let (hull, weight) = (boat.hull(), boat.weight());
    let length = |length| {
        format!("{} {}", number_with_decimals(units.length.value(length), 2), units.length.symbol())
    };
    let masses = gathered.size.boats.iter().map(|boat| units.mass.value(boat.weight().mass));
    let (least, most) = masses.fold((f64::MAX, f64::MIN), |(a, b), m| (a.min(m), b.max(m)));
    let mass = |value: f64| number_with_decimals(value, 0);
    let symbol = units.mass.symbol();
    let all_up = if mass(least) == mass(most) {
        format!("{} {symbol}", mass(units.mass.value(weight.mass)))
    } else {
        format!("{} to {} {symbol}", mass(least), mass(most))
    };
    let mut facts = Vec::new();
    facts.extend(hull.overall_length.map(|overall| Fact::new("Length over all", length(overall))));
    let noted = |fact: Fact, key: &str| match boat.is_estimated(key) {
        true => fact.noted("estimated"),
        false if boat.stations_of(key).is_some() => fact.noted("from stations"),
        false => fact,
    };
    facts.push(noted(Fact::new("Chine beam", length(hull.chine_beam)), "hull.chine_beam"));
    facts.push(noted(Fact::new("Deadrise", say::angle(hull.deadrise)), "hull.deadrise"));
    facts.push(Fact::new("Mass, all up", all_up));
    facts.push(Fact::new("Top speed", say::speed(boat.drive().top_speed, units)));
    let room = length(gathered.size.suggestion.room);
    facts.push(Fact::new("Room on each side", room).noted("for the span"));
    facts
}
