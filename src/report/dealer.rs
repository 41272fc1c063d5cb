//! The dealer's page: what to take, what it costs, what it does and what it does not do.

use uom::si::electric_potential::volt;

use super::gather::{Advised, COMPARED, Gathered, Hump};
use super::limits::{cautions, fitted_note, limits, swing};
use super::owner_words::situation;
use super::{ReportError, origin, pictures, say};

use crate::balance::HumpPlace;
use crate::balance::saving::Saving;
use crate::boat::measure::plain_number;
use crate::document::{Block, Column, Document, Fact, Form, KeyNumber, Sentence, Table};
use crate::doubt::in_hundred;
use crate::plane::actuator::Actuator;
use crate::plane::strength::Verdict;
use crate::sentence::duty;
use crate::stock::Ranked;
use crate::stock::rank::{Standing, remedy};
use crate::tell;
use crate::tell::shelf::amount;
use crate::units::number_with_decimals;

/// The page.
pub(super) fn document(gathered: &Gathered) -> Result<Document, ReportError> {
    let boat = gathered.boat();
    let mut blocks = gathered.first();
    blocks.extend(gathered.is_said().then(|| Block::Lead(recommendation(gathered))));
    blocks.extend(caveats(gathered));
    let why: Vec<String> = why(gathered).into_iter().chain(fitted_note(gathered)).collect();
    if !why.is_empty() {
        blocks.push(Block::Paragraph(why.join(" ")));
    }
    blocks.push(Block::KeyNumbers(numbers(gathered)));
    blocks.push(Block::Facts(particulars(gathered)));
    blocks.extend(say::estimated(boat).map(|all| {
        let swing = swing(gathered).unwrap_or_else(|| "Measured, the answer is surer.".to_owned());
        Block::Paragraph(format!("Estimated, since nobody gave it: {all}. {swing}"))
    }));
    blocks.extend(choice(gathered));
    if let Some(chart) = pictures::bow_chart(gathered) {
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
        title: format!("Trim planes for {}", boat.name()),
        subject: "Recommendation".to_owned(),
        origin: origin(gathered),
        form: Form::Sheet,
        blocks,
    })
}

/// What to take, and how sure that is.
pub(super) fn in_short(gathered: &Gathered) -> Vec<Block> {
    vec![Block::Lead(recommendation(gathered)), Block::KeyNumbers(numbers(gathered))]
}

/// The one sentence to read.
fn recommendation(gathered: &Gathered) -> String {
    let units = gathered.size.units;
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
                Standing::Does => "in stock",
                _ => "to be ordered",
            };
            let remedy = ranked.judged.as_ref().ok().and_then(|judged| {
                let remedy = remedy(&ranked.part, &judged.strength, units)?;
                Some(format!(" As it comes, at this price, it has no allowance for slamming. Fit it so, the changes being extra: {remedy}."))
            });
            let remedy = remedy.unwrap_or_default();
            let less_sure = less_sure(gathered).unwrap_or_default();
            format!(
                "Take a pair of {} ({} each, span by chord), {stock}: {} {} for the pair.{less_sure}{remedy}",
                ranked.part.name,
                pair.text(units),
                ranked.part.price.currency,
                amount(ranked.pair_price())
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
                "Take a pair of planes of {} each, span by chord.{shelf}{less_sure}",
                pair.text(units)
            )
        }
        (Advised::Short(Some(pair)), _) => format!(
            "No pair does everything that is asked of her. The nearest is {} each, span by chord; it is not recommended before the question below is settled.",
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
    let boat = &gathered.size.boats[gathered.main_place()];
    Some(format!(
        "The size is set by this: {} It is hardest at {}{}.",
        situation(duty, gathered),
        say::speed(governing.speed, gathered.size.units),
        say::loaded(boat, several),
    ))
}

/// Three numbers that matter, each with its likely range.
fn numbers(gathered: &Gathered) -> Vec<KeyNumber> {
    let mut numbers = Vec::new();
    if let Some(hump) = &gathered.hump {
        let at = say::speed(hump.speed, gathered.size.units);
        let loaded = say::loaded(&hump.boat, gathered.size.boats.len() > 1);
        let told = hump.told();
        let up = hump.trim_up().zip(told.map(|(up, _)| up));
        numbers.extend(up.map(|(likely, trim)| KeyNumber {
            name: format!("Bow up at {at}, planes up"),
            value: say::angle(trim),
            likely: format!("likely {}", say::angles(likely)),
            meaning: format!(
                "the highest she carries her bow while getting on plane{}{loaded}",
                if hump.lies == HumpPlace::PlaningStart { ", where planing starts" } else { "" }
            ),
        }));
        let down = hump.trim_down().zip(told.and_then(|(_, down)| down));
        let down = down.filter(|_| gathered.has_settings());
        numbers.extend(down.map(|(likely, trim)| KeyNumber {
            name: format!("Bow up at {at}, planes {} down", say::angle(hump.deflection)),
            value: say::angle(trim),
            likely: format!("likely {}", say::angles(likely)),
            meaning: format!(
                "{}; they can go {}",
                if !gathered.is_asked_at(hump) && saves(gathered) {
                    "so set they save power; nothing is asked at this speed"
                } else if !gathered.is_asked_at(hump) {
                    "so set she runs at about the same power; nothing is asked at this speed"
                } else if gathered.is_eased() && saves(gathered) {
                    "deeper than what is asked takes, since that saves power"
                } else if gathered.is_eased() {
                    "deeper than what is asked takes, at about the same power"
                } else {
                    "set for what is asked"
                },
                say::angle(gathered.size.suggestion.usable_deflection)
            ),
        }));
    }
    numbers.extend(gathered.chance().map(|chance| KeyNumber {
        name: match gathered.size.suggestion.is_all_judged() {
            true => "Does everything asked for".to_owned(),
            false => "Does what can be judged of it".to_owned(),
        },
        value: format!("{} in 100", say::in_hundred(chance.share)),
        likely: format!(
            "counted on {} boats drawn: {}",
            gathered.duties.drawn.draws,
            say::share_range(chance)
        ),
        meaning: format!(
            "of boats nearly like her{}{}; a trial on the water tells whether she is one of them",
            if gathered.advised.pair().is_some() { ", with these planes" } else { "" },
            least_sure(gathered).map_or(String::new(), |(duty, share)| {
                // The share of the box already where the others are surer by far.
                let all = format!("{} in 100", say::in_hundred(chance.share));
                let beside = if share == all { String::new() } else { format!(" ({share})") };
                format!("; the least sure is “{duty}”{beside}")
            })
        ),
    }));
    numbers
}

/// The duty that is least often done by the pair advised, where there are several, and how often.
pub(super) fn least_sure(gathered: &Gathered) -> Option<(String, String)> {
    let doubt = &gathered.duties;
    let asked = gathered.advised.pair();
    let pair = doubt.pairs.iter().find(|pair| pair.pair == asked)?;
    // Of what cannot be judged no chance is told.
    let each = doubt.duties.iter().zip(&pair.each);
    let shares: Vec<_> = each.filter_map(|(held, each)| Some((held, each.as_ref()?))).collect();
    let (held, chance) = shares.iter().min_by(|a, b| a.1.share.total_cmp(&b.1.share))?;
    (shares.len() > 1 && chance.share < 1.0).then(|| {
        (say::small(duty::title(&held.duty)), format!("{} in 100", say::in_hundred(chance.share)))
    })
}

/// Whether the planes as advised save power at the hump, wet sides or not.
fn saves(gathered: &Gathered) -> bool {
    let saving = |hump: &Hump| gathered.saving(hump.place, hump.speed, hump.deflection);
    gathered.hump.as_ref().and_then(saving) == Some(Saving::Saves)
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

/// The part advised with the two after it; the size and its neighbours without a list.
fn choice(gathered: &Gathered) -> Option<Block> {
    match &gathered.shelf {
        Some(shelf) if !shelf.ranking.ranked.is_empty() => {
            let shown: Vec<&Ranked> = shelf.ranking.ranked.iter().take(COMPARED).collect();
            Some(Block::Table(shelf_table(gathered, &shown)))
        }
        _ => sizes_table(gathered).map(Block::Table),
    }
}

fn shelf_table(gathered: &Gathered, shown: &[&Ranked]) -> Table {
    let of = |value: &dyn Fn(&Ranked) -> String| shown.iter().map(|r| value(r)).collect();
    let units = gathered.size.units;
    let columns = vec![
        Column::words("from the stock list", of(&|r| r.part.name.clone())),
        Column::words("each, span x chord", of(&|r| r.part.pair().text(units))),
        Column::words("does what is asked", of(&|ranked| standing(gathered, ranked))),
        Column::words("supply", of(&supply)),
        Column::numbers(
            "boats like her",
            "of 100 it does all on",
            of(&|r| {
                let chance = r.judged.as_ref().ok().and_then(|judged| judged.chance);
                chance.map_or("-".to_owned(), |chance| say::in_hundred(chance.share))
            }),
        ),
        Column::numbers("on hand", "pairs", of(&|r| (r.part.on_hand / 2).to_string())),
        Column::numbers(
            "price",
            "of the pair",
            of(&|r| format!("{} {}", r.part.price.currency, amount(r.pair_price()))),
        ),
    ];
    let mut notes = strength(shown);
    let share = gathered.size.suggestion.share_allowed;
    notes.extend((share < 1.0).then(|| {
        format!("What is asked may use {:.0} % of the travel; the rest is kept.", 100.0 * share)
    }));
    if gathered.shelf.as_ref().is_some_and(|shelf| !shelf.ranking.one_currency) {
        notes.push("The list has several currencies: prices were not compared, and the smaller area comes first.".to_owned());
    }
    notes.extend(left_out(gathered));
    let title = match gathered.part() {
        Some(_) if shown.len() > 2 => "The choice and the two after it",
        Some(_) => "The choice and what comes after it",
        None => "Nearest in the stock list",
    };
    let list = gathered.shelf.as_ref().map(|shelf| say::file(&shelf.list.name));
    let title = list.map_or(title.to_owned(), |list| format!("{title}, from {list}"));
    Table { title, columns, strong: gathered.part().map(|_| 0), notes }
}

/// That what cannot be judged is in no chance; nothing where all can be.
fn left_out(gathered: &Gathered) -> Option<String> {
    let all = gathered.size.suggestion.is_all_judged();
    (!all).then(|| "What cannot be judged is counted nowhere in this table.".to_owned())
}

/// What a part does not bear, and what of it depends on slamming alone; empty where it bears all.
pub(super) fn weak(ranked: &Ranked) -> Vec<&'static str> {
    let Ok(judged) = &ranked.judged else { return Vec::new() };
    let strength = &judged.strength;
    match strength.verdict() {
        Verdict::Bears => Vec::new(),
        verdict => strength.having(verdict).map(|check| check.bearer.text()).collect(),
    }
}

/// Which of the parts shown have no allowance for slamming, and which are unsafe.
fn strength(shown: &[&Ranked]) -> Vec<String> {
    let with = |verdict: Verdict| {
        let named = shown.iter().filter(|ranked| {
            ranked.judged.as_ref().is_ok_and(|judged| judged.strength.verdict() == verdict)
        });
        // Those that are weak in the same places stand together.
        let mut groups: Vec<(Vec<&str>, Vec<&str>)> = Vec::new();
        for ranked in named {
            let (name, places) = (ranked.part.name.as_str(), weak(ranked));
            match groups.iter_mut().find(|(_, own)| *own == places) {
                Some((names, _)) => names.push(name),
                None => groups.push((vec![name], places)),
            }
        }
        let group = |(names, places): &(Vec<&str>, Vec<&str>)| match names.len() {
            count if count > 1 && count == shown.len() => {
                format!("all shown ({})", places.join(", "))
            }
            _ => format!("{} ({})", names.join(", "), places.join(", ")),
        };
        let all: Vec<String> = groups.iter().map(group).collect();
        (!all.is_empty()).then(|| all.join("; "))
    };
    let slamming = with(Verdict::NoSlammingAllowance).map(|all| {
        format!("No allowance for slamming as they come, though they bear steady running with its safety factor: {all}. Through-bolt, take a stronger plate or actuator, and ask whoever made it.")
    });
    let steady = with(Verdict::Unsafe).map(|all| {
        format!("Unsafe on her under the load of steady running, not to be taken: {all}.")
    });
    slamming.into_iter().chain(steady).collect()
}

/// What feeds its actuators.
fn supply(ranked: &Ranked) -> String {
    match &ranked.part.actuator {
        Actuator::Electric(motor) => {
            format!("{} V electric", plain_number(motor.spec().supply_voltage.get::<volt>()))
        }
        Actuator::Hydraulic(_) => "hydraulic".to_owned(),
    }
}

fn standing(gathered: &Gathered, ranked: &Ranked) -> String {
    let all = match gathered.size.suggestion.is_all_judged() {
        true => "all",
        false => "all that can be judged",
    };
    match (ranked.standing, &ranked.judged) {
        (Standing::Does, _) => all.to_owned(),
        (Standing::NotOnHand, _) => format!("{all}; no pair on hand"),
        (Standing::Seldom, _) => {
            format!("{all} on the boat as described, on too few like her")
        }
        (Standing::Misses, Ok(judged)) => {
            let missed = judged.duties.iter().filter(|duty| !duty.met).count();
            match judged.duties.len() {
                1 => "does not do it".to_owned(),
                all => format!("misses {missed} of {all} things"),
            }
        }
        (Standing::NoRoom, _) => "no room on the transom".to_owned(),
        (Standing::Unsafe, _) => "unsafe on her".to_owned(),
        _ => "cannot be fitted".to_owned(),
    }
}

/// The size and what a fifth more or less would do.
fn sizes_table(gathered: &Gathered) -> Option<Table> {
    let suggestion = &gathered.size.suggestion;
    let pair = gathered.advised.pair()?;
    let units = gathered.size.units;
    if suggestion.variants.is_empty() {
        return None;
    }
    let share = suggestion.duties.iter().filter_map(|duty| duty.share_used).fold(0.0, f64::max);
    let mut rows = vec![[
        "the size advised".to_owned(),
        pair.text(units),
        format!("{:.0} %", 100.0 * share),
        gathered.chance().map_or("-".to_owned(), |chance| say::in_hundred(chance.share)),
        "nothing".to_owned(),
    ]];
    rows.extend(suggestion.variants.iter().map(|variant| {
        let misses = match (variant.too_long, variant.missed.len()) {
            (Some(_), _) => "no room on the transom".to_owned(),
            (None, 0) => "nothing".to_owned(),
            (None, missed) => format!("{missed} of {} things asked", suggestion.duties.len()),
        };
        [
            variant.name.to_owned(),
            variant.pair.text(units),
            format!("{:.0} %", 100.0 * variant.share_used),
            variant.chance.map_or("-".to_owned(), say::in_hundred),
            misses,
        ]
    }));
    let mut notes = vec!["No stock list was given, so that there is no price.".to_owned()];
    notes.extend(left_out(gathered));
    let column = |place: usize| rows.iter().map(|row| row[place].clone()).collect();
    Some(Table {
        title: "The size and its neighbours".to_owned(),
        columns: vec![
            Column::words("size", column(0)),
            Column::words("each, span x chord", column(1)),
            Column::numbers("travel needed", "for what is asked", column(2)),
            Column::numbers("boats like her", "of 100 it does all on", column(3)),
            Column::words("misses", column(4)),
        ],
        strong: Some(0),
        notes,
    })
}
