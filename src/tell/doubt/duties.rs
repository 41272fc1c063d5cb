//! The duties on the boats drawn: how likely they are done, and what they need.

use super::follows_most;
use super::seen::drawn_as_seen;
use crate::boat::{PlanePair, degrees};
use crate::document::{Block, Column, Fact, Table, fixed};
use crate::doubt::{DutiesDoubt, NeedDoubt, PairDoubt, Probability, SeenReading};
use crate::sentence::duty::condition;
use crate::size::SeenTrim;
use crate::units::{UnitChoice, number_with_decimals};

/// Said where a duty is left out of every chance.
const NOT_JUDGED: &str = " Not judged: the margin under the porpoising limit is short with planes up where its curve or the planes were not tested; no chance holds that duty.";

/// How likely each pair does the duties; nothing without duties.
#[must_use]
pub fn duties(doubt: &DutiesDoubt, fitted: Option<PlanePair>, units: UnitChoice) -> Vec<Block> {
    if doubt.duties.is_empty() {
        return Vec::new();
    }
    let numbered = doubt.duties.iter().enumerate().map(|(place, held)| {
        Fact::new(
            format!("{}. {}", place + 1, held.duty.name()),
            condition(&held.duty, units).to_string(),
        )
    });
    let largest = doubt.pairs.iter().map(|pair| pair.all.error).fold(0.0, f64::max);
    let seen: Vec<SeenTrim> =
        doubt.seen.iter().flat_map(|seen| &seen.readings).map(SeenReading::beside).collect();
    let note = format!(
        "In per cent of {} boats drawn, the same for every pair; chance alone moves a number by up to {:.1}. A duty counts as done within the usable deflection and with a safe run: trim 2 deg or more, bow not driven under; all, when they are done on the same boat.{}{}{}",
        doubt.drawn.draws,
        100.0 * largest,
        if doubt.is_all_judged() { "" } else { NOT_JUDGED },
        if doubt.generated { " The duties were GENERATED from the boat." } else { "" },
        drawn_as_seen(&seen, units).map_or(String::new(), |drawn| format!(" {drawn}"))
    );
    vec![
        Block::Section("How likely the duties are done".to_owned()),
        Block::Terms(numbered.collect()),
        Block::Table(Table {
            columns: pair_columns(doubt, units, fitted),
            notes: vec![note],
            ..Table::default()
        }),
    ]
}

fn percent(probability: &Probability) -> String {
    number_with_decimals(100.0 * probability.share, 0)
}

fn pair_columns(doubt: &DutiesDoubt, units: UnitChoice, fitted: Option<PlanePair>) -> Vec<Column> {
    let of = |value: &dyn Fn(&PairDoubt) -> String| doubt.pairs.iter().map(value).collect();
    let name = |pair: &PairDoubt| match pair.pair {
        None => "planes up".to_owned(),
        Some(own) if Some(own) == fitted => format!("{}, fitted", own.text(units)),
        Some(own) => own.text(units),
    };
    let mut columns = vec![Column::words("pair", of(&name))];
    for place in 0..doubt.duties.len() {
        let duty = format!("duty {}", place + 1);
        let cell =
            |pair: &PairDoubt| pair.each[place].as_ref().map_or("not judged".to_owned(), percent);
        columns.push(Column::numbers(&duty, "%", of(&cell)));
    }
    let all = if doubt.is_all_judged() { "all" } else { "all judged" };
    columns.push(Column::numbers(all, "%", of(&|pair| percent(&pair.all))));
    columns
}

/// The deflection that the duties need of the pair; nothing without one.
#[must_use]
pub fn needs(doubt: &DutiesDoubt, units: UnitChoice) -> Vec<Block> {
    let Some(pair) = doubt.pair.filter(|_| !doubt.duties.is_empty()) else { return Vec::new() };
    let note = doubt.follows.first().map(|first| {
        format!(
            "Of the deeper plane. {} Its rank correlation with that is {:+.2}.",
            follows_most("How hard the pair must work", first),
            first.rank_correlation
        )
    });
    vec![
        Block::Section(format!("Deflection that the duties need of {}", pair.text(units))),
        Block::Table(Table {
            columns: need_columns(doubt, units),
            notes: note.into_iter().collect(),
            ..Table::default()
        }),
    ]
}

fn need_columns(doubt: &DutiesDoubt, units: UnitChoice) -> Vec<Column> {
    let rows = &doubt.needs;
    let angles = |part: &dyn Fn(&NeedDoubt) -> Option<uom::si::f64::Angle>| {
        let deg = |row| part(row).map(|angle| number_with_decimals(degrees(angle), 1));
        rows.iter().map(|row| deg(row).unwrap_or_else(|| "none does".to_owned())).collect()
    };
    let speeds: Vec<_> = rows.iter().map(|row| Some(units.speed.value(row.speed))).collect();
    let mut columns = Vec::new();
    if rows.iter().any(|row| row.condition != rows[0].condition) {
        let conditions = rows.iter().map(|row| row.condition.clone()).collect();
        columns.push(Column::words("loading", conditions));
    }
    columns.extend([
        Column::numbers("speed", units.speed.symbol(), fixed(&speeds, 1)),
        Column::numbers("needs low", "5 %", angles(&|row| row.needed.low)),
        Column::numbers("median", "deg", angles(&|row| row.needed.median)),
        Column::numbers("high", "95 %", angles(&|row| row.needed.high)),
        Column::numbers(
            &format!("{:.0} deg does", degrees(doubt.usable)),
            "% of boats",
            rows.iter().map(|row| percent(&row.usable)).collect(),
        ),
    ]);
    columns
}
