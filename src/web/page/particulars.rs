//! The boat in a few numbers, and what was estimated of her.

use maud::{Markup, html};
use uom::si::f64::Length;
use uom::si::length::meter;

use crate::boat::measure::plain_number;
use crate::boat::{Boat, Measure};
use crate::tell::reasons::outlook_text;
use crate::tell::sizing::written;
use crate::units::{MassUnit, UnitChoice, number_with_decimals};
use crate::web::answer::Desk;

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
    let is_estimated = |key: &str| boat.estimates().iter().any(|estimate| estimate.key == key);
    let fact = |name, key: &str, value| Fact { name, value, is_estimated: is_estimated(key) };
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

/// The cells of the title block.
pub(super) fn block(boat: &Boat, units: UnitChoice) -> Markup {
    html! {
        dl.block {
            @for fact in facts(boat, units) {
                div {
                    dt { (fact.name) }
                    dd { (fact.value) @if fact.is_estimated { " " span.estimated { "estimated" } } }
                }
            }
        }
    }
}

/// What was estimated, and how far the answer moves with it.
pub(super) fn estimates(desk: &Desk) -> Markup {
    if desk.effects.is_empty() {
        return html! {};
    }
    html! {
        section.sheet aria-labelledby="estimated" {
            h2 #estimated { "Estimated, since nobody gave it" }
            p { "Measure what moves the answer most. The last two columns say which pair each end of the likely range would lead to." }
            div.wide tabindex="0" role="region" aria-label="Estimated values" {
                table {
                    thead { tr {
                        th scope="col" { "Value" } th scope="col" { "Used" } th scope="col" { "Likely range" }
                        th scope="col" { "Pair at the low end" } th scope="col" { "Pair at the high end" }
                    } }
                    tbody {
                        @for effect in &desk.effects {
                            tr {
                                th scope="row" { (effect.estimate.key) span.hint { (effect.estimate.rule) } }
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
        @if !desk.file.warnings.is_empty() {
            section.sheet.warn aria-labelledby="unusual" {
                h2 #unusual { "Unusual in the boat file" }
                ul { @for warning in &desk.file.warnings { li { (warning) } } }
            }
        }
    }
}
