//! What is on the shelf, in order for the boat.

mod reasons;
mod short_form;

pub use reasons::reasons;
pub use short_form::with_shelf;

use std::path::Path;

use uom::si::f64::Length;

use crate::document::{Block, Column, Fact, Piece, Sentence, Table, said};
use crate::plane::strength::Verdict;
use crate::size::Limit;
use crate::stock::assess::Bearer;
use crate::stock::rank::{PLANES_OF_A_BOAT, unsafe_text};
use crate::stock::{Judged, Ranked, Ranking, Standing, StockList};
use crate::tell::words::{small_length, small_length_number};
use crate::units::{LengthUnit, UnitChoice, number_with_decimals};

/// What may be said of a part, each with its letter.
pub(crate) const NOTES: [(char, &str); 9] = [
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
    (
        'h',
        "not tested: where a duty asks most its chord is more than a tenth of the wetted length, the most that was tested. What is computed there is extrapolated.",
    ),
    (
        'i',
        "strength not known: the list does not describe plate, screws and actuators. It is judged by its size alone, with all deflection that the boat file allows; ask its maker what it bears.",
    ),
];

/// Reasons, table and notes.
#[must_use]
pub fn section(list: &StockList, ranking: &Ranking, units: UnitChoice) -> Vec<Block> {
    let file = Path::new(&list.name).file_name();
    let file = file.map_or(list.name.clone().into(), std::ffi::OsStr::to_string_lossy);
    let mut blocks = vec![Block::Section(format!("From the shelf: {file}"))];
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
        Ok(judged) => judged
            .strength()
            .and_then(|strength| unsafe_text(strength, units))
            .map(|why| format!("{} is unsafe: {why}.", ranked.part.name)),
    };
    blocks.push(Block::Points(ranking.ranked.iter().filter_map(unfit).collect()));
    blocks
}

/// What the columns mean.
pub(crate) fn explanation() -> Sentence {
    said![
        "'in 100' is on how many of a hundred boats nearly like this one it does all. 'used' is the largest share of the deflection that the part can be put to at the speed where a duty asks most: the least of what the boat file allows, its stroke, and the push of its actuators there. 'bears' is judged at the deflection allowed at each speed up to top speed: 'no-slam' bears steady running with its safety factor and has no allowance for slamming. Under 'fits' stands the span that is missing on each side. Prices are for the pair, and 'on hand' counts whole pairs. ",
        Piece::name("planewright loads"),
        " shows one part in full.",
    ]
}

fn columns(ranked: &[Ranked], units: UnitChoice) -> Vec<Column> {
    let of = |value: &dyn Fn(&Ranked) -> String| ranked.iter().map(value).collect();
    let decimals = 2 * usize::from(ranked.iter().any(|r| !is_whole(r.pair_price())));
    let currency = ranked.first().map_or("", |r| r.part.price.currency.as_str());
    let one_currency = ranked.iter().all(|r| r.part.price.currency == currency);
    let prices = of(&|r| match one_currency {
        true => number_with_decimals(r.pair_price(), decimals),
        false => price(r),
    });
    let judged = |value: fn(&Judged) -> String| {
        ranked.iter().map(|r| r.judged.as_ref().map_or("-".to_owned(), value)).collect::<Vec<_>>()
    };
    vec![
        Column::words("part", of(&|r| r.part.name.clone())),
        Column::words("pair", of(&|r| size(r, units))).in_unit(units.small_length.symbol()),
        Column::words("fits", of(&|r| fits_in(r, |missing| small_length_number(missing, units)))),
        Column::words("does", of(&does_text)),
        Column::numbers("in", "100", judged(in_hundred)),
        Column::numbers("used", "", judged(most_used)),
        Column::words(
            "bears",
            of(&|r| format!("{} {}", bears(r), letters(r)).trim_end().to_owned()),
        ),
        Column::numbers("pair\ncosts", if one_currency { currency } else { "" }, prices),
        Column::numbers("on hand", "pairs", of(&on_hand)),
    ]
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
        Ok(judged) if judged.fit.fits() => "yes".to_owned(),
        Ok(judged) => format!("-{}", written(judged.fit.missing)),
        Err(_) => "no".to_owned(),
    }
}

/// How many duties it does.
fn does(judged: &Judged) -> String {
    let done = judged.done();
    if judged.does_all() { "all".to_owned() } else { format!("{done} of {}", judged.duties.len()) }
}

/// The same of a part: what was not tested is not known to be missed.
pub(crate) fn does_text(ranked: &Ranked) -> String {
    match (&ranked.judged, ranked.standing) {
        (Err(_), _) => "-".to_owned(),
        (Ok(_), Standing::NotTested) => "not tested".to_owned(),
        (Ok(judged), _) => does(judged),
    }
}

/// Whole pairs on the shelf, of which the list counts the planes; a dash where it does not say.
pub(crate) fn on_hand(ranked: &Ranked) -> String {
    let pairs = ranked.part.on_hand.map(|planes| planes / PLANES_OF_A_BOAT);
    pairs.map_or_else(|| "-".to_owned(), |pairs| pairs.to_string())
}

/// A sum with its currency, where the list names one.
pub(crate) fn money(value: f64, currency: &str) -> String {
    format!("{} {currency}", amount(value)).trim_end().to_owned()
}

/// On how many boats in a hundred it does all.
pub(crate) fn in_hundred(judged: &Judged) -> String {
    judged.in_hundred().map_or_else(|| "-".to_owned(), |chance| chance.to_string())
}

/// What it bears, in a word of a table.
pub(crate) fn bears(ranked: &Ranked) -> &'static str {
    match ranked.judged.as_ref().map(Judged::verdict) {
        Ok(Some(Verdict::Bears)) => "yes",
        Ok(Some(Verdict::NoSlammingAllowance)) => "no-slam",
        Ok(Some(Verdict::Unsafe)) => "UNSAFE",
        Ok(None) => "not known",
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
    number_with_decimals(value, if is_whole(value) { 0 } else { 2 })
}

/// Whether a sum has no hundredths.
fn is_whole(value: f64) -> bool {
    (value - value.round()).abs() < 5e-3
}

fn price(ranked: &Ranked) -> String {
    money(ranked.pair_price(), &ranked.part.price.currency)
}

/// Letters of what is to be said of the strength.
pub(crate) fn letters(ranked: &Ranked) -> String {
    let Ok(judged) = &ranked.judged else { return String::new() };
    let strength = judged.strength();
    let weak = |bearer| {
        let verdict = strength.and_then(|strength| strength.of(bearer).verdict());
        verdict == Some(Verdict::NoSlammingAllowance)
    };
    let said = [
        judged.verdict() == Some(Verdict::Unsafe),
        weak(Bearer::Plate),
        weak(Bearer::HingeScrews) || weak(Bearer::BracketScrews),
        weak(Bearer::Actuators),
        strength.is_some_and(|strength| !strength.covers_screws()),
        ranked.part.gear.as_ref().is_some_and(|gear| !gear.actuator.has_holding_rating()),
        judged.duties.iter().any(|duty| !duty.met && duty.limit == Limit::SafeRun),
        judged.untested.contains(&true),
        strength.is_none(),
    ];
    NOTES.iter().zip(said).filter(|(_, said)| *said).map(|((letter, _), _)| *letter).collect()
}
