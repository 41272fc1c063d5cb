//! What is on the shelf, in order for the boat.

mod reasons;
mod short_form;

pub use reasons::reasons;
pub use short_form::with_shelf;

use uom::si::f64::Length;

use crate::document::{Block, Column, Fact, Piece, Sentence, Table, said};
use crate::plane::strength::Verdict;
use crate::size::Limit;
use crate::stock::assess::Bearer;
use crate::stock::rank::unsafe_text;
use crate::stock::{Judged, Ranked, Ranking, StockList};
use crate::tell::words::{small_length, small_length_number};
use crate::units::{LengthUnit, UnitChoice, number_with_decimals};

/// Longest name of a part that a table shows whole.
const LONGEST_NAME: usize = 24;

/// What may be said of a part, each with its letter.
pub(crate) const NOTES: [(char, &str); 7] = [
    (
        'a',
        "UNSAFE: at the deflection allowed it does not bear the load of steady running with its safety factor. Never to be taken for this boat.",
    ),
    ('b', "the plate has no allowance for slamming: a thicker or stiffer one."),
    ('c', "the screws have no allowance for slamming: through-bolt the plane."),
    (
        'd',
        "the standing actuators have no allowance for slamming: rest the planes against a stop, or ask for a higher rating.",
    ),
    (
        'e',
        "the screws are not covered by the equations for wood: through-bolt, or ask the builder.",
    ),
    ('f', "the list gives no rating for holding, so that the push stands for it."),
    (
        'g',
        "misses a duty because the run is not safe there: trim under 2 deg, or the bow driven under.",
    ),
];

/// Reasons, table and notes.
#[must_use]
pub fn section(list: &StockList, ranking: &Ranking, units: UnitChoice) -> Vec<Block> {
    let mut blocks = vec![Block::Section(format!("From the shelf: {}", list.name))];
    blocks.extend(reasons(ranking, units).into_iter().map(Block::Said));
    if ranking.ranked.is_empty() {
        return blocks;
    }
    blocks.push(Block::Table(Table {
        columns: columns(&ranking.ranked, units),
        notes: vec![explanation().to_string()],
        ..Table::default()
    }));
    let said = |letter| ranking.ranked.iter().any(|ranked| letters(ranked).contains(letter));
    let notes = NOTES.iter().filter(|(letter, _)| said(*letter));
    blocks.push(Block::Terms(notes.map(|(l, meaning)| Fact::new(*l, *meaning)).collect()));
    let unfit = |ranked: &Ranked| match &ranked.judged {
        Err(error) => Some(format!("{}: {error}.", ranked.part.name)),
        Ok(judged) => unsafe_text(&judged.strength, units)
            .map(|why| format!("{} is unsafe: {why}.", ranked.part.name)),
    };
    blocks.push(Block::Points(ranking.ranked.iter().filter_map(unfit).collect()));
    blocks
}

/// What the columns mean.
pub(crate) fn explanation() -> Sentence {
    said![
        "'in 100' is on how many of a hundred boats nearly like this one it does all. 'used' is the largest share of the deflection that the part can be put to at the speed where a duty asks most: the least of what the boat file allows, its stroke, and the push of its actuators there. 'bears' is judged at the deflection allowed at each speed up to top speed: 'no-slam' bears steady running with its safety factor and has no allowance for slamming. Under 'fits' stands the span that is missing on each side. Prices are for the pair. ",
        Piece::name("planewright loads"),
        " shows one part in full.",
    ]
}

fn columns(ranked: &[Ranked], units: UnitChoice) -> Vec<Column> {
    let of = |value: &dyn Fn(&Ranked) -> String| ranked.iter().map(value).collect();
    let currency = ranked.first().map_or("", |r| r.part.price.currency.as_str());
    let one_currency = ranked.iter().all(|r| r.part.price.currency == currency);
    let prices = of(&|r| if one_currency { amount(r.pair_price()) } else { price(r) });
    let judged = |value: fn(&Judged) -> String| {
        ranked.iter().map(|r| r.judged.as_ref().map_or("-".to_owned(), value)).collect::<Vec<_>>()
    };
    vec![
        Column::words("part", of(&|r| short_name(&r.part.name))),
        Column::words("pair", of(&|r| size(r, units))).in_unit(units.small_length.symbol()),
        Column::words("fits", of(&|r| fits_in(r, |missing| small_length_number(missing, units)))),
        Column::words("does", judged(does)),
        Column::numbers("in", "100", judged(in_hundred)),
        Column::numbers("used", "", judged(most_used)),
        Column::words(
            "bears",
            of(&|r| format!("{} {}", bears(r), letters(r)).trim_end().to_owned()),
        ),
        Column::numbers("price", if one_currency { currency } else { "" }, prices),
        Column::numbers("on", "hand", of(&|r| r.part.on_hand.to_string())),
    ]
}

/// The name, cut where it is too long for the table.
fn short_name(name: &str) -> String {
    if name.chars().count() <= LONGEST_NAME {
        return name.to_owned();
    }
    let kept: String = name.chars().take(LONGEST_NAME - 2).collect();
    format!("{}..", kept.trim_end())
}

/// Span and chord, without the unit.
fn size(ranked: &Ranked, units: UnitChoice) -> String {
    let unit = units.small_length;
    let decimals = match unit {
        LengthUnit::Millimetre => 0,
        LengthUnit::Inch => 1,
        LengthUnit::Metre | LengthUnit::Foot => 2,
    };
    let text = |length| number_with_decimals(unit.value(length), decimals);
    format!("{}x{}", text(ranked.part.span), text(ranked.part.chord))
}

/// Whether it fits, or the span that is missing on each side.
pub(crate) fn fits(ranked: &Ranked, units: UnitChoice) -> String {
    fits_in(ranked, |missing| small_length(missing, units).to_string())
}

fn fits_in(ranked: &Ranked, written: impl Fn(Length) -> String) -> String {
    match &ranked.judged {
        Ok(judged) if judged.assessment.fit.fits() => "yes".to_owned(),
        Ok(judged) => format!("-{}", written(judged.assessment.fit.missing)),
        Err(_) => "no".to_owned(),
    }
}

/// How many duties it does.
pub(crate) fn does(judged: &Judged) -> String {
    let done = judged.done();
    if judged.does_all() { "all".to_owned() } else { format!("{done} of {}", judged.duties.len()) }
}

/// On how many boats in a hundred it does all.
pub(crate) fn in_hundred(judged: &Judged) -> String {
    judged.in_hundred().map_or_else(|| "-".to_owned(), |chance| chance.to_string())
}

/// What it bears, in a word of a table.
pub(crate) fn bears(ranked: &Ranked) -> &'static str {
    match ranked.judged.as_ref().map(|judged| judged.strength.verdict()) {
        Ok(Verdict::Bears) => "yes",
        Ok(Verdict::NoSlammingAllowance) => "no-slam",
        Ok(Verdict::Unsafe) => "UNSAFE",
        Err(_) => "-",
    }
}

/// Largest share used by any duty.
pub(crate) fn most_used(judged: &Judged) -> String {
    match judged.most_used() {
        Some(share) if share < 10.0 => percent(share),
        _ => ">999 %".to_owned(),
    }
}

/// A share in whole per cent.
pub(crate) fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

/// A sum of money, with hundredths only where it has some.
pub(crate) fn amount(value: f64) -> String {
    let whole = (value - value.round()).abs() < 5e-3;
    number_with_decimals(value, if whole { 0 } else { 2 })
}

fn price(ranked: &Ranked) -> String {
    format!("{} {}", amount(ranked.pair_price()), ranked.part.price.currency)
}

/// Letters of what is to be said of the strength.
pub(crate) fn letters(ranked: &Ranked) -> String {
    let Ok(judged) = &ranked.judged else { return String::new() };
    let strength = &judged.strength;
    let weak = |bearer| strength.of(bearer).verdict() == Some(Verdict::NoSlammingAllowance);
    let said = [
        strength.verdict() == Verdict::Unsafe,
        weak(Bearer::Plate),
        weak(Bearer::HingeScrews) || weak(Bearer::BracketScrews),
        weak(Bearer::Actuators),
        !strength.covers_screws(),
        !ranked.part.actuator.has_holding_rating(),
        judged.duties.iter().any(|duty| !duty.met && duty.limit == Limit::SafeRun),
    ];
    NOTES.iter().zip(said).filter(|(_, said)| *said).map(|((letter, _), _)| *letter).collect()
}
