//! What the text of a sizing says about loading conditions; nothing where there is only one.

use uom::si::f64::Length;
use uom::si::length::meter;

use super::reasons::outlook_text;
use super::sizing::{Sizing, in_use};
use super::words::{angle, angle_number};
use crate::balance::HumpPlace;
use crate::boat::{Boat, degrees};
use crate::document::{Block, Column, Fact, Piece, Sentence, Table, aligned, fixed, said};
use crate::size::{Answer, ConditionResult, DutyResult, ScheduleRow};
use crate::units::{UnitChoice, number_with_decimals};

/// Off the centreline by less reads as on it, m.
const CENTRED_M: f64 = 5e-3;
/// How that reads.
const CENTRED: &str = "0";
/// Longest name of a condition that a table shows whole.
const LONGEST_NAME: usize = 24;
/// Width that the names of all conditions may take as heads of a table.
const WIDTH_OF_HEADS: usize = 84;

/// Speed of the hump, and whether it lies where planing starts.
fn hump_at(result: &ConditionResult, units: UnitChoice) -> String {
    let speed = number_with_decimals(units.speed.value(result.hump_speed), 1);
    match result.hump_place {
        Some(HumpPlace::PlaningStart) => format!("start {speed}"),
        _ => speed,
    }
}

/// What the columns of the conditions mean.
const COLUMNS: &str = "'hump' is the speed of the largest trim with planes up, and 'trim' that trim; 'start': it lies where planing starts. TCG to starboard or port.";
/// What numbers before the duties mean.
const NUMBERS: &str = "Below, '#' is the number of the loading in which a duty asks most.";

/// The conditions beside each other: weight, hump, and what each alone would need; the duties below bear their numbers.
#[must_use]
pub fn section(sizing: &Sizing<'_>) -> Vec<Block> {
    beside(sizing, format!("{COLUMNS} {NUMBERS}"))
}

/// The same where the duties below name their conditions.
pub(crate) fn named(sizing: &Sizing<'_>) -> Vec<Block> {
    beside(sizing, COLUMNS.to_owned())
}

fn beside(sizing: &Sizing<'_>, explanation: String) -> Vec<Block> {
    let results = &sizing.suggestion.conditions;
    if results.len() < 2 {
        return Vec::new();
    }
    let (boats, units) = (sizing.boats, sizing.units);
    let numbers = |name: &str, unit: &str, significant, value: &dyn Fn(&Boat) -> f64| {
        let values: Vec<_> = boats.iter().map(|boat| Some(value(boat))).collect();
        Column::numbers(name, unit, aligned(&values, significant))
    };
    let of = |value: &dyn Fn(&ConditionResult) -> String| results.iter().map(value).collect();
    let trims: Vec<_> = results.iter().map(|r| r.hump_trim_bare.map(degrees)).collect();
    let (length, mass) = (units.length, units.mass);
    let governing = sizing.suggestion.governing.as_ref().map(|governing| &governing.condition);
    let columns = [
        Column::numbers("", "", (1..=results.len()).map(|number| number.to_string()).collect()),
        Column::words("loading", of(&|r| short_name(&r.condition))),
        numbers("mass", mass.symbol(), 4, &|boat| mass.value(boat.weight().mass)),
        numbers("LCG", length.symbol(), 3, &|boat| length.value(boat.weight().lcg)),
        Column::words("TCG", boats.iter().map(|boat| off_centre(boat, sizing)).collect())
            .in_unit(length.symbol()),
        Column::numbers("hump", units.speed.symbol(), of(&|r| hump_at(r, units))),
        Column::numbers("trim", "deg", fixed(&trims, 1)),
        Column::words(
            "alone it needs",
            of(&|r| {
                let governs = if governing == Some(&r.condition) { ", GOVERNS" } else { "" };
                format!("{}{governs}", outlook_text(Some(r.alone), units))
            }),
        ),
    ];
    let about = |boat: &Boat| {
        let condition = boat.condition();
        Some(Fact::new(condition.name.clone(), condition.about.clone()?))
    };
    vec![
        Block::Section("Loading conditions".to_owned()),
        Block::Table(Table { columns: columns.into(), ..Table::default() }),
        Block::Terms(boats.iter().filter_map(about).collect()),
        Block::Said(why(sizing)),
        Block::Paragraph(explanation),
    ]
}

/// The name, cut where it is too long for a table.
fn short_name(name: &str) -> String {
    if name.chars().count() <= LONGEST_NAME {
        return name.to_owned();
    }
    let kept: String = name.chars().take(LONGEST_NAME - 2).collect();
    format!("{}..", kept.trim_end())
}

/// `0.03 port`.
fn off_centre(boat: &Boat, sizing: &Sizing<'_>) -> String {
    let tcg = boat.weight().tcg;
    if tcg.get::<meter>().abs() < CENTRED_M {
        return CENTRED.to_owned();
    }
    let unit = sizing.units.length;
    let side = if tcg < Length::new::<meter>(0.0) { "port" } else { "starboard" };
    format!("{} {side}", number_with_decimals(unit.value(tcg.abs()), 2))
}

/// Which condition governs, and what is different in it.
fn why(sizing: &Sizing<'_>) -> Sentence {
    let (suggestion, units) = (sizing.suggestion, sizing.units);
    let Some(governing) = &suggestion.governing else {
        return match suggestion.answer {
            Answer::NoPlanesNeeded => "No loading needs planes.".into(),
            Answer::Pair(_) => {
                "The limits on the size set it, not a loading.".into()
            }
            Answer::Infeasible(_) => {
                "The pair must do the duties in every loading named here; each has its own deflections.".into()
            }
        };
    };
    let named = sizing.boats.iter().zip(&suggestion.conditions);
    let is_it = |result: &ConditionResult| result.condition == governing.condition;
    let Some((boat, result)) = named.clone().find(|(_, result)| is_it(result)) else {
        return Sentence::default();
    };
    let alone = suggestion.conditions.iter().map(|result| result.alone.pair());
    let is_larger = suggestion
        .pair()
        .is_some_and(|pair| alone.flatten().all(|alone| alone.area() < pair.area()));
    let others = if is_larger {
        "The pair does the duties in every loading, with one chance for all of them, which takes a \
         larger one than each alone; each has its own deflections."
    } else {
        "The pair does the duties in every loading; each has its own deflections."
    };
    let Some((first, first_result)) = named.clone().next().filter(|(_, result)| !is_it(result))
    else {
        return said![Piece::name(&governing.condition), " governs. ", others];
    };
    let mut differences: Vec<Sentence> = Vec::new();
    let heavier = 100.0 * ((boat.weight().mass / first.weight().mass).value - 1.0);
    if heavier.abs() >= 0.5 {
        let word = if heavier > 0.0 { "heavier" } else { "lighter" };
        differences.push(format!("{:.0} % {word}", heavier.abs()).into());
    }
    let aft = first.weight().lcg - boat.weight().lcg;
    if aft.get::<meter>().abs() >= CENTRED_M {
        let word = if aft > Length::new::<meter>(0.0) { "aft" } else { "forward" };
        let shift = number_with_decimals(units.length.value(aft.abs()), 2);
        let shift = Piece::quantity(shift, units.length.symbol());
        differences.push(said!["her weight ", shift, " further ", word]);
    }
    if let (Some(own), Some(its)) = (result.hump_trim_bare, first_result.hump_trim_bare) {
        let instead = format!(" of trim at the hump instead of {}", angle_number(its, 1));
        differences.push(said![angle(own, 1), instead]);
    }
    said![
        Piece::name(&governing.condition),
        " governs. Against ",
        Piece::name(&first_result.condition),
        ": ",
        Sentence::joined(differences, ", "),
        ". ",
        others,
    ]
}

/// The duties by name; where there are several conditions, each with the number of that in which it asks most.
pub(super) fn duty_column(sizing: &Sizing<'_>) -> Column {
    let suggestion = sizing.suggestion;
    let all = &suggestion.conditions;
    let name = |result: &DutyResult| {
        let place = all.iter().position(|condition| condition.condition == result.condition);
        match place {
            Some(place) if all.len() > 1 => format!("{} {}", place + 1, result.duty.name()),
            _ => result.duty.name().to_owned(),
        }
    };
    let head = if all.len() > 1 { "# duty" } else { "duty" };
    Column::words(head, suggestion.duties.iter().map(name).collect())
}

/// ` (only in `light`)`, for a duty that does not hold in all conditions.
pub(crate) fn held_in(names: &[String]) -> Sentence {
    if names.is_empty() {
        return Sentence::default();
    }
    let names = names.iter().map(|name| Piece::name(name).into());
    said![" (only in ", Sentence::joined(names, ", "), ")"]
}

/// What a cell of a schedule says.
type Cell<'a> = &'a dyn Fn(&ScheduleRow) -> String;

/// The deflections by loading, side by side; nothing without a pair.
pub(crate) fn schedules(sizing: &Sizing<'_>) -> Vec<Block> {
    let suggestion = sizing.suggestion;
    let results = &suggestion.conditions;
    if results.len() < 2 {
        return Vec::new();
    }
    let longest = results.iter().max_by_key(|result| result.schedule.len());
    let rows = longest.map_or(&[][..], |result| &result.schedule);
    let unit = sizing.units.speed;
    let speeds: Vec<_> = rows.iter().map(|row| Some(unit.value(row.speed))).collect();
    let use_text = |row: &ScheduleRow| in_use(suggestion, row);
    let safe_text = |row: &ScheduleRow| number_with_decimals(degrees(row.largest_safe), 1);
    let tables: [(&str, Cell<'_>); 2] =
        [("Use, by loading, deg", &use_text), ("Never beyond, by loading, deg", &safe_text)];
    let mut blocks = Vec::new();
    for (title, cell) in tables {
        let mut columns = vec![Column::numbers("speed", unit.symbol(), fixed(&speeds, 1))];
        for (result, head) in results.iter().zip(heads(results)) {
            let own = |row: &ScheduleRow| result.schedule.iter().find(|own| own.speed == row.speed);
            let cells = rows.iter().map(|row| own(row).map_or("-".to_owned(), cell)).collect();
            columns.push(Column::numbers(&head, "", cells));
        }
        blocks.push(Block::Section(title.to_owned()));
        blocks.push(Block::Table(Table { columns, ..Table::default() }));
    }
    blocks
}

/// The names of the conditions; their numbers where the names are too long to stand side by side.
fn heads(results: &[ConditionResult]) -> Vec<String> {
    let width: usize = results.iter().map(|r| r.condition.chars().count() + 2).sum();
    let numbered = (1..=results.len()).map(|number| format!("no. {number}"));
    if width > WIDTH_OF_HEADS {
        return numbered.collect();
    }
    results.iter().map(|result| result.condition.clone()).collect()
}
