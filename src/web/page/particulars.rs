//! The boat in a few numbers, and what was estimated of her.

use maud::{Markup, html};
use uom::si::f64::Length;
use uom::si::length::meter;

use crate::boat::keys::table;
use crate::boat::measure::plain_number;
use crate::boat::{Boat, Measure};
use crate::tell::reasons::outlook_text;
use crate::tell::sizing::written;
use crate::units::{MassUnit, UnitChoice, number_with_decimals};
use crate::web::answer::Desk;
use crate::web::form::FIELDS;

/// One number of the boat.
pub(super) struct Fact {
    name: &'static str,
    value: String,
    is_estimated: bool,
}

/// The numbers that matter, the best known first.
pub(super) fn facts(boat: &Boat, units: UnitChoice) -> Vec<Fact> {
    let (hull, weight, drive) = (boat.hull(), boat.weight(), boat.drive());
    let length = |length: Length| {
        let unit = units.length;
        format!("{} {}", number_with_decimals(unit.value(length), 2), unit.symbol())
    };
    let fact = |name, key: &str, value| Fact { name, value, is_estimated: boat.is_estimated(key) };
    let decimals = usize::from(units.mass != MassUnit::Pound && weight.mass.value < 100.0);
    let mass = number_with_decimals(units.mass.value(weight.mass), decimals);
    let speed = number_with_decimals(units.speed.value(drive.top_speed), 1);
    let mut facts = vec![
        fact("mass", "weight.mass", format!("{mass} {}", units.mass.symbol())),
        fact("chine beam", "hull.chine_beam", length(hull.chine_beam)),
        fact(
            "deadrise",
            "hull.deadrise",
            format!("{}°", plain_number(Measure::Angle(hull.deadrise).value())),
        ),
        fact("top speed", "drive.top_speed", format!("{speed} {}", units.speed.symbol())),
        fact("bottom length", "hull.bottom_length", length(hull.bottom_length)),
        fact("centre of gravity", "weight.lcg", format!("{} from transom", length(weight.lcg))),
        fact("centre of gravity, up", "weight.vcg", format!("{} above keel", length(weight.vcg))),
    ];
    if weight.tcg.get::<meter>().abs() >= 5e-4 {
        let side = if weight.tcg.get::<meter>() < 0.0 { "port" } else { "starboard" };
        facts.push(fact(
            "off the centreline",
            "weight.tcg",
            format!("{} to {side}", length(weight.tcg.abs())),
        ));
    }
    facts
}

/// The first facts in one line.
pub(super) fn sentence(facts: &[Fact], count: usize) -> String {
    let words = facts.iter().take(count).map(|fact| format!("{} {}", fact.name, fact.value));
    words.collect::<Vec<_>>().join(" · ")
}

/// The facts in one line, each marked that nobody gave.
pub(super) fn line(boat: &Boat, units: UnitChoice) -> Markup {
    html! {
        ul.line aria-label="The boat in numbers" {
            @for fact in facts(boat, units) {
                li { (fact.name) " " strong { (fact.value) } @if fact.is_estimated { " " span.estimated { "estimated" } } }
            }
        }
    }
}

/// What a key of the boat file is called: by the form where it asks for it, else by what it holds.
fn name_of(key: &str) -> String {
    if let Some(field) = FIELDS.iter().find(|field| field.path() == key) {
        return field.label.to_owned();
    }
    let (table_name, key) = key.rsplit_once('.').unwrap_or(("", key));
    let row = table(table_name).and_then(|table| table.key(key));
    row.map_or_else(
        || key.replace('_', " "),
        |row| row.meaning.split([';', ',']).next().unwrap_or_default().to_owned(),
    )
}

/// What was estimated, and how far the answer moves with it.
pub(super) fn estimates(desk: &Desk) -> Markup {
    let effects = desk.sized.answer.as_ref().map_or(&[][..], |answer| &answer.effects);
    if effects.is_empty() {
        return html! {};
    }
    html! {
        details.sheet #estimated {
            summary { h2 { "Estimated, since nobody gave it" } span.hint { (effects.len()) @if effects.len() == 1 { " value" } @else { " values" } ", and what each may change" } }
            p { "Measure what moves the answer most. The last two columns say which pair each end of the likely range would lead to." }
            div.wide tabindex="0" role="region" aria-label="Estimated values" {
                table {
                    thead { tr {
                        th scope="col" { "Value" } th scope="col" { "Used" } th scope="col" { "Likely range" }
                        th scope="col" { "Pair at the low end" } th scope="col" { "Pair at the high end" }
                    } }
                    tbody {
                        @for effect in effects {
                            tr {
                                th scope="row" { (name_of(effect.estimate.key)) span.hint { (effect.estimate.rule) } }
                                td { (written(effect.estimate.value, desk.units)) " " span.estimated { "estimated" } }
                                td { (written(effect.estimate.low, desk.units)) " to " (written(effect.estimate.high, desk.units)) }
                                td { (outlook_text(effect.low, desk.units)) }
                                td { (outlook_text(effect.high, desk.units)) }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// What the reader of the file warned of.
pub(super) fn warnings(desk: &Desk) -> Markup {
    html! {
        @if !desk.file().warnings.is_empty() {
            section.sheet.warn aria-labelledby="unusual" {
                h2 #unusual { "Unusual in the boat file" }
                ul { @for warning in &desk.file().warnings { li { (warning) } } }
            }
        }
    }
}
