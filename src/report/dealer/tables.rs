//! The tables of the dealer's page: the parts of the shelf side by side, or the size and its neighbours.

use uom::si::electric_potential::volt;

use super::super::gather::{COMPARED, Gathered};
use super::super::say;
use super::{named_short, sum_of};
use crate::boat::measure::plain_number;
use crate::document::{Block, Column, Table};
use crate::plane::actuator::Actuator;
use crate::plane::strength::Verdict;
use crate::stock::rank::Standing;
use crate::stock::{Ranked, Supply};
use crate::tell::shelf::on_hand;

/// The part advised with the two after it; the size and its neighbours without a list.
pub(super) fn choice(gathered: &Gathered) -> Option<Block> {
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
    let mut columns = vec![
        Column::words("from the stock list", of(&|r| named_short(&r.part.name))),
        Column::words("each, span x chord", of(&|r| r.part.pair().text(units))),
        Column::words("does what is asked", of(&|ranked| standing(gathered, ranked))),
        Column::numbers(
            "off her bow",
            "with all deflection",
            of(&|r| {
                let relief = gathered.relief_of(r.part.pair());
                relief.map_or("-".to_owned(), |likely| say::angle(likely.median))
            }),
        ),
        Column::words("bears", of(&bears)),
        Column::numbers(
            "boats like her",
            "of 100 it does all on",
            of(&|r| {
                let chance = r.judged.as_ref().ok().and_then(|judged| judged.chance);
                chance.map_or("-".to_owned(), |chance| say::in_hundred(chance.share))
            }),
        ),
        Column::numbers(
            "price",
            "of the pair",
            of(&|r| sum_of(r.pair_price(), &r.part.price.currency)),
        ),
    ];
    // What the list says of none is no column.
    if shown.iter().any(|ranked| ranked.part.supply.is_some()) {
        columns.insert(columns.len() - 2, Column::words("supply", of(&supply)));
    }
    if shown.iter().any(|ranked| ranked.part.on_hand.is_some()) {
        columns.insert(columns.len() - 1, Column::numbers("on hand", "pairs", of(&on_hand)));
    }
    let mut notes = strength(shown);
    let share = gathered.size.suggestion.share_allowed;
    notes.extend((share < 1.0).then(|| {
        format!("What is asked may use {:.0} % of the travel; the rest is kept.", 100.0 * share)
    }));
    if gathered.shelf.as_ref().is_some_and(|shelf| !shelf.ranking.one_currency) {
        notes.push("The list has several currencies: prices were not compared, and the smaller area comes first.".to_owned());
    }
    let kit = gathered.offer.as_ref().zip(gathered.part()).map(|(offer, r)| offer.kit(&r.part));
    notes.extend(kit.and_then(|kit| kit.tax.map(|(tax, ..)| (tax, kit.is_within))).map(
        |(tax, is_within)| {
            let with = if is_within { "with" } else { "without" };
            format!("These prices are {with} {tax}, and without the rest of the kit.")
        },
    ));
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
pub(in crate::report) fn weak(ranked: &Ranked) -> Vec<&'static str> {
    let Ok(judged) = &ranked.judged else { return Vec::new() };
    match judged.strength().map(|strength| (strength, strength.verdict())) {
        None | Some((_, Verdict::Bears)) => Vec::new(),
        Some((strength, verdict)) => {
            strength.having(verdict).map(|check| check.bearer.text()).collect()
        }
    }
}

/// Which of the parts shown have no allowance for slamming, and which are unsafe.
fn strength(shown: &[&Ranked]) -> Vec<String> {
    let with = |verdict: Verdict| {
        let so = shown.iter().filter(|ranked| {
            ranked.judged.as_ref().is_ok_and(|judged| judged.verdict() == Some(verdict))
        });
        // Those that are weak in the same places stand together.
        let mut groups: Vec<(Vec<String>, Vec<&str>)> = Vec::new();
        for ranked in so {
            let (name, places) = (named_short(&ranked.part.name), weak(ranked));
            match groups.iter_mut().find(|(_, own)| *own == places) {
                Some((names, _)) => names.push(name),
                None => groups.push((vec![name], places)),
            }
        }
        let group = |(names, places): &(Vec<String>, Vec<&str>)| match names.len() {
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
    let unknown: Vec<String> = shown
        .iter()
        .filter(|ranked| ranked.part.gear.is_none())
        .map(|ranked| named_short(&ranked.part.name))
        .collect();
    let unknown = (!unknown.is_empty()).then(|| {
        let whose = match unknown.len() == shown.len() {
            true => "of these parts".to_owned(),
            false => format!("of {}", unknown.join(", ")),
        };
        format!("Not known is the strength {whose}: the list gives their size alone. Ask the maker what plate, screws and actuators bear.")
    });
    slamming.into_iter().chain(steady).chain(unknown).collect()
}

/// Whether it bears what it is loaded with.
fn bears(ranked: &Ranked) -> String {
    match ranked.judged.as_ref().map(|judged| judged.verdict()) {
        Err(_) => "-",
        Ok(None) => "not known",
        Ok(Some(Verdict::Bears)) => "yes",
        Ok(Some(Verdict::NoSlammingAllowance)) => "not slamming",
        Ok(Some(Verdict::Unsafe)) => "UNSAFE",
    }
    .to_owned()
}

/// What feeds its actuators.
fn supply(ranked: &Ranked) -> String {
    let actuator = ranked.part.gear.as_ref().map(|gear| &gear.actuator);
    match actuator {
        None => ranked.part.supply.map_or("not said", Supply::word).to_owned(),
        Some(Actuator::Electric(motor)) => {
            format!("{} V electric", plain_number(motor.spec().supply_voltage.get::<volt>()))
        }
        Some(Actuator::Hydraulic(_)) => "hydraulic".to_owned(),
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
        (Standing::NotTested, _) => "not tested with so long a chord".to_owned(),
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
    let column = |index: usize| rows.iter().map(|row| row[index].clone()).collect();
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
