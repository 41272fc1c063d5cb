//! The shelf as text for a person.

use super::Shelf;
use crate::cli::screen::{Screen, paragraph};
use crate::cli::table::{Column, table};
use crate::stock::rank::amount;
use crate::stock::rank::notes::{NOTES, does, fits, letters, most_used, percent};
use crate::stock::{Judged, Ranked};
use crate::units::{LengthUnit, UnitChoice, number_with_decimals};

/// Longest name of a part that a table shows whole.
const LONGEST_NAME: usize = 29;

/// Table, reasons and notes.
pub(in super::super) fn section(shelf: &Shelf, units: UnitChoice, screen: Screen) -> String {
    let ranking = &shelf.ranking;
    let mut text =
        format!("\n{}\n", screen.heading(&format!("From the shelf: {}", shelf.list.name)));
    for line in ranking.reasons(units) {
        text.push_str(&paragraph("  ", &line));
    }
    if ranking.ranked.is_empty() {
        return text;
    }
    text.push('\n');
    text.push_str(&table(&columns(&ranking.ranked, units), screen));
    text.push_str(&paragraph("  ", EXPLANATION));
    for (letter, meaning) in NOTES {
        if ranking.ranked.iter().any(|ranked| letters(ranked).contains(letter)) {
            text.push_str(&paragraph(&format!("  {letter}  "), meaning));
        }
    }
    for ranked in &ranking.ranked {
        if let Err(error) = &ranked.judged {
            text.push_str(&paragraph("  - ", &format!("{}: {error}.", ranked.part.name)));
        }
    }
    text
}

const EXPLANATION: &str = "'used' is the largest share of the deflection that the part can be put to at the speed where a duty bites: the least of what the boat file allows, its stroke, and the push of its actuators there. 'push' is the most that the load of steady running takes of that push at any speed of the duties. The design load, an allowance for slamming, is in the letters. Under 'fits' stands the span that is missing on each side. Prices are for the pair. `planewright loads` shows one part in full.";

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
        Column::words(&format!("pair\n{}", units.small_length.symbol()), of(&|r| size(r, units))),
        Column::words("fits", of(&|r| fits(r, units))),
        Column::words("does", judged(does)),
        Column::numbers("used", "", judged(most_used)),
        Column::numbers("push", "", judged(|j| percent(j.strength.push_share))),
        Column::words("", of(&letters)),
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

fn price(ranked: &Ranked) -> String {
    format!("{} {}", amount(ranked.pair_price()), ranked.part.price.currency)
}
