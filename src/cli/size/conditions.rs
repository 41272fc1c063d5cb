//! What the text of a sizing says about loading conditions; nothing where there is only one.

use uom::si::f64::Length;
use uom::si::length::meter;

use super::Answered;
use super::reasons::outlook_text;
use super::text::in_use;
use crate::boat::{Boat, degrees};
use crate::cli::screen::{Screen, paragraph};
use crate::cli::table::{Column, aligned, fixed, table};
use crate::size::{Answer, ConditionResult, DutyResult, ScheduleRow};
use crate::units::number_with_decimals;

/// Off the centreline by less reads as on it, m.
const CENTRED_M: f64 = 5e-3;

/// The conditions beside each other: weight, hump, and what each alone would need.
pub(super) fn section(answered: &Answered, screen: Screen) -> String {
    let results = &answered.suggestion.conditions;
    if results.len() < 2 {
        return String::new();
    }
    let (boats, units) = (&answered.boats, answered.units);
    let numbers = |name: &str, unit: &str, significant, value: &dyn Fn(&Boat) -> f64| {
        let values: Vec<_> = boats.iter().map(|boat| Some(value(boat))).collect();
        Column::numbers(name, unit, aligned(&values, significant))
    };
    let of = |value: &dyn Fn(&ConditionResult) -> String| results.iter().map(value).collect();
    let trims: Vec<_> = results.iter().map(|r| r.hump_trim_bare.map(degrees)).collect();
    let (length, mass) = (units.length, units.mass);
    let governing = answered.suggestion.governing.as_ref();
    let columns = [
        Column::words("loading", of(&|r| r.condition.clone())),
        numbers("mass", mass.symbol(), 4, &|boat| mass.value(boat.weight().mass)),
        numbers("LCG", length.symbol(), 3, &|boat| length.value(boat.weight().lcg)),
        numbers("VCG", length.symbol(), 3, &|boat| length.value(boat.weight().vcg)),
        Column::words("TCG", boats.iter().map(|boat| off_centre(boat, answered)).collect()),
        Column::numbers("hump trim,", "planes up, deg", fixed(&trims, 1)),
        Column::words("alone it needs", of(&|r| outlook_text(Some(r.alone), units))),
        Column::words(
            "",
            of(&|r| match governing {
                Some(governing) if governing.condition == r.condition => "GOVERNS".to_owned(),
                _ => String::new(),
            }),
        ),
    ];
    let mut text =
        format!("\n{}\n{}", screen.heading("Loading conditions"), table(&columns, screen));
    for boat in boats {
        if let Some(about) = &boat.condition().about {
            text.push_str(&paragraph(&format!("  {}: ", boat.condition().name), about));
        }
    }
    text.push_str(&paragraph("  ", &why(answered)));
    text
}

/// `30 mm to port`.
fn off_centre(boat: &Boat, answered: &Answered) -> String {
    let tcg = boat.weight().tcg;
    if tcg.get::<meter>().abs() < CENTRED_M {
        return "centred".to_owned();
    }
    let unit = answered.units.length;
    let side = if tcg < Length::new::<meter>(0.0) { "port" } else { "starboard" };
    format!("{} {} {side}", number_with_decimals(unit.value(tcg.abs()), 2), unit.symbol())
}

/// Which condition governs, and what is different in it.
fn why(answered: &Answered) -> String {
    let (suggestion, units) = (&answered.suggestion, answered.units);
    let Some(governing) = &suggestion.governing else {
        return match suggestion.answer {
            Answer::NoPlanesNeeded => "No loading needs planes.".to_owned(),
            Answer::Pair(_) => {
                "The limits on the size set it, not a loading.".to_owned()
            }
            Answer::Infeasible(_) => {
                "The pair must do the duties in every loading named here; each has its own deflections.".to_owned()
            }
        };
    };
    let named = answered.boats.iter().zip(&suggestion.conditions);
    let is_it = |result: &ConditionResult| result.condition == governing.condition;
    let Some((boat, result)) = named.clone().find(|(_, result)| is_it(result)) else {
        return String::new();
    };
    let others = "The pair does the duties in every loading; each has its own deflections.";
    let Some((first, first_result)) = named.clone().next().filter(|(_, result)| !is_it(result))
    else {
        return format!("`{}` governs. {others}", governing.condition);
    };
    let mut differences = Vec::new();
    let heavier = 100.0 * ((boat.weight().mass / first.weight().mass).value - 1.0);
    if heavier.abs() >= 0.5 {
        let word = if heavier > 0.0 { "heavier" } else { "lighter" };
        differences.push(format!("{:.0} % {word}", heavier.abs()));
    }
    let aft = first.weight().lcg - boat.weight().lcg;
    if aft.get::<meter>().abs() >= CENTRED_M {
        let word = if aft > Length::new::<meter>(0.0) { "aft" } else { "forward" };
        let shift = number_with_decimals(units.length.value(aft.abs()), 2);
        differences.push(format!("her weight {shift} {} further {word}", units.length.symbol()));
    }
    if let (Some(own), Some(its)) = (result.hump_trim_bare, first_result.hump_trim_bare) {
        let [own, its] = [own, its].map(|trim| number_with_decimals(degrees(trim), 1));
        differences.push(format!("{own} deg of trim at the hump instead of {its}"));
    }
    let listing = off_centre(boat, answered);
    if listing != "centred" {
        differences.push(format!("her weight {listing} of the centreline"));
    }
    format!(
        "`{}` governs. Against `{}`: {}. {others}",
        governing.condition,
        first_result.condition,
        differences.join(", ")
    )
}

/// The condition in which a duty bites most; empty where there is only one.
pub(super) fn where_it_bites(answered: &Answered, result: &DutyResult) -> String {
    match answered.boats.len() {
        1 => String::new(),
        _ => result.condition.clone(),
    }
}

/// ` (only in `light`)`, for a duty that does not hold in all conditions.
pub(super) fn held_in(names: &[String]) -> String {
    if names.is_empty() {
        return String::new();
    }
    let names: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
    format!(" (only in {})", names.join(", "))
}

/// The deflections by loading, side by side; nothing without a pair.
pub(super) fn schedules(answered: &Answered, screen: Screen) -> String {
    let suggestion = &answered.suggestion;
    let results = &suggestion.conditions;
    if results.len() < 2 {
        return String::new();
    }
    let longest = results.iter().max_by_key(|result| result.schedule.len());
    let rows = longest.map_or(&[][..], |result| &result.schedule);
    let unit = answered.units.speed;
    let speeds: Vec<_> = rows.iter().map(|row| Some(unit.value(row.speed))).collect();
    let use_text = |row: &ScheduleRow| in_use(suggestion, row);
    let safe_text = |row: &ScheduleRow| number_with_decimals(degrees(row.largest_safe), 1);
    let tables: [(&str, &dyn Fn(&ScheduleRow) -> String); 2] =
        [("Use, by loading, deg", &use_text), ("Never beyond, by loading, deg", &safe_text)];
    let mut text = String::new();
    for (title, cell) in tables {
        let mut columns = vec![Column::numbers("speed", unit.symbol(), fixed(&speeds, 1))];
        for result in results {
            let own = |row: &ScheduleRow| result.schedule.iter().find(|own| own.speed == row.speed);
            let cells = rows.iter().map(|row| own(row).map_or("-".to_owned(), cell)).collect();
            columns.push(Column::numbers(&result.condition, "", cells));
        }
        text.push_str(&format!("\n{}\n{}", screen.heading(title), table(&columns, screen)));
    }
    text
}
