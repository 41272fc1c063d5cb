//! How she runs: pictures, numbers, flags and curves.

use maud::{Markup, html};
use uom::si::angle::degree;
use uom::si::f64::Angle;

use super::cell;
use super::frame::drawing;
use crate::balance::{Outcome, Point, Running, fields};
use crate::boat::degrees;
use crate::document::spoken;
use crate::field::{Field, Quantity};
use crate::flag::{Flag, Standing};
use crate::picture::{Frame, letter, side_view, view_from_below};
use crate::tell::meaning;
use crate::units::{ForceUnit, UnitChoice, number_with_decimals};
use crate::web::answer::{Run, Settled};

/// The numbers of a run that are shown, with what each is called here.
const NUMBERS: [(&str, Field<Point>); 10] = [
    ("Trim", fields::TRIM),
    ("Under the porpoising limit by", fields::PORPOISING_MARGIN),
    ("Resistance", fields::RESISTANCE),
    ("Effective power", fields::EFFECTIVE_POWER),
    ("Keel wetted", fields::WETTED_KEEL),
    ("Chine wetted", fields::WETTED_CHINE),
    ("Draft at the transom", fields::DRAFT),
    ("Lift of the planes", fields::PLANE_LIFT),
    ("Drag of the planes", fields::PLANE_DRAG),
    ("Trim for one more degree of planes", fields::TRIM_PER_DEGREE),
];

/// What is said of a number, gravest first, and its heading.
const STANDINGS: [(Standing, &str); 3] = [
    (Standing::Danger, "Dangerous"),
    (Standing::Untested, "Not tested"),
    (Standing::Rough, "Rough"),
];

/// Widths that a picture is drawn for.
const FRAMES: [Frame; 2] = [Frame::Wide, Frame::Narrow];

/// Decimals that stay the same while a slider is dragged, so that no column jumps.
fn decimals(quantity: Quantity, units: UnitChoice) -> usize {
    match quantity {
        Quantity::Force | Quantity::ForcePerDegree | Quantity::Pressure => {
            force_decimals(units.force)
        }
        Quantity::Length | Quantity::Number | Quantity::Counted(_) => 2,
        Quantity::Angle | Quantity::Speed | Quantity::Power => 1,
    }
}

fn force_decimals(unit: ForceUnit) -> usize {
    if unit == ForceUnit::Kilonewton { 2 } else { 0 }
}

/// The unit as the page writes it: the sign for degrees.
fn symbol(quantity: Quantity, units: UnitChoice) -> String {
    match quantity {
        Quantity::Angle | Quantity::Counted(_) => "°".to_owned(),
        quantity => quantity.symbol(units),
    }
}

/// The boat from the side, for a wide and for a narrow screen.
pub(super) fn views(settled: &Settled) -> Markup {
    html! {
        @for frame in FRAMES {
            div.wide-only[frame == Frame::Wide].narrow-only[frame == Frame::Narrow] {
                figure.picture { (drawing(&side_view(&settled.scene(frame)))) }
            }
        }
    }
}

/// Her bottom from below, and what the lines of both pictures mean.
pub(super) fn below(settled: &Settled) -> Markup {
    html! {
        @for frame in FRAMES {
            div.wide-only[frame == Frame::Wide].narrow-only[frame == Frame::Narrow] {
                figure.picture { (drawing(&view_from_below(&settled.scene(frame)))) }
            }
        }
        (legend(settled))
    }
}

/// What the lines and colours of the pictures mean.
fn legend(settled: &Settled) -> Markup {
    let has_planes = settled.boat.planes().is_some();
    let entries = [
        ("surface", "the water, where it is level", true),
        ("wetted", "the part of her bottom that is wet", settled.point.running.is_some()),
        ("parting", "where the water meets the bottom", settled.point.running.is_some()),
        ("plane", "a trim plane", has_planes),
        ("arrow", "a force; the table below names each letter", settled.forces),
    ];
    html! {
        ul.legend aria-label="What the pictures show" {
            @for (mark, meaning, _) in entries.iter().filter(|(.., is_there)| *is_there) {
                li { (swatch(mark)) (meaning) }
            }
            li { "Trim is the angle between her keel and the water." }
        }
    }
}

/// A little of a line or colour of the pictures.
fn swatch(mark: &str) -> Markup {
    html! {
        svg.swatch.(mark) viewBox="0 0 26 14" width="26" height="14" aria-hidden="true" focusable="false" {
            @match mark {
                "wetted" | "plane" => rect x="1" y="1" width="24" height="12" {},
                "arrow" => path d="M1 7h16M15 3l9 4-9 4z" {},
                _ => path d="M1 7h24" {},
            }
        }
    }
}

/// One sentence with the numbers that matter most, read out when it changes.
pub(super) fn said(run: &Run, units: UnitChoice) -> Markup {
    let Some(settled) = &run.settled else { return html! { "No run can be computed." } };
    let point = &settled.point;
    let speed = number_with_decimals(units.speed.value(point.speed), 1);
    let at = format!("At {} {}", speed.trim_end_matches(".0"), units.speed.symbol());
    let planes = match degrees(point.deflection) {
        _ if settled.boat.planes().is_none() => "without planes".to_owned(),
        0.0 => "with planes up".to_owned(),
        deg => format!("with planes {} down", tenths(deg)),
    };
    html! {
        @if let Some(danger) = danger(settled) { p.danger { strong { "Danger. " } (danger) } }
        p {
            @match &point.running {
                None => { strong { (at) " " (planes) ": " } (spoken(point.meaning())) }
                Some(running) => {
                    strong { (at) " " (planes) " she runs at " (tenths(degrees(running.trim))) " of trim. " }
                    "Resistance " (resistance_text(running, units)) (against_up(settled, running)) "."
                    @if let Some(safe) = settled.safe.filter(|safe| !is_beyond(settled, *safe)) {
                        " Never put them beyond " (tenths(degrees(safe))) " at this speed."
                    }
                }
            }
        }
        @if let Some(untested) = untested(point) { p.untested { strong { "Not tested. " } (untested) } }
    }
}

fn resistance_text(running: &Running, units: UnitChoice) -> String {
    let force = units.force;
    let number = number_with_decimals(force.value(running.resistance), force_decimals(force));
    format!("{number} {}", force.symbol())
}

/// Whether the planes stand deeper than is safe.
fn is_beyond(settled: &Settled, safe: Angle) -> bool {
    degrees(settled.point.deflection) > degrees(safe) + 0.05
}

/// What is dangerous about this run, the gravest in one sentence.
fn danger(settled: &Settled) -> Option<String> {
    let point = &settled.point;
    if let Some(safe) = settled.safe.filter(|safe| is_beyond(settled, *safe)) {
        return Some(format!(
            "Too far down: never beyond {} at this speed.",
            tenths(degrees(safe))
        ));
    }
    if matches!(point.outcome, Outcome::BowUnder | Outcome::NoBalanceBowUp) {
        return Some("She does not run so: do not try it.".to_owned());
    }
    let worst = point.flags.iter().find(|flag| flag.standing() == Standing::Danger)?;
    Some(meaning(worst).on_page())
}

/// What was not tested of this run, in one sentence; none where all was.
fn untested(point: &Point) -> Option<String> {
    let parts: Vec<&str> = point.flags.iter().filter_map(Flag::untested).collect();
    let (last, rest) = parts.split_last()?;
    let joined = match rest {
        [] => (*last).to_owned(),
        rest => format!("{}, and {last}", rest.join(", ")),
    };
    let mut letters = joined.chars();
    let first = letters.next()?.to_uppercase().to_string();
    Some(format!("{first}{}.", spoken(letters.as_str())))
}

/// How the resistance compares with planes up.
fn against_up(settled: &Settled, running: &Running) -> String {
    let Some(up) = &settled.up.running else { return String::new() };
    if settled.point.deflection.get::<degree>() == 0.0 {
        return String::new();
    }
    let change = 100.0 * (running.resistance / up.resistance).value - 100.0;
    let percent = number_with_decimals(change.abs(), 1);
    let word = if change <= 0.0 { "less" } else { "more" };
    format!(
        ", {percent} % {word} than with planes up, where the trim is {}",
        tenths(degrees(up.trim))
    )
}

fn tenths(deg: f64) -> String {
    format!("{}°", number_with_decimals(deg, 1).trim_end_matches(".0"))
}

/// The table of numbers, planes up beside planes as set, and what to know before trusting them.
pub(super) fn table(settled: &Settled) -> Markup {
    let has_planes = settled.boat.planes().is_some();
    html! {
        table.numbers {
            caption { "How she runs" }
            thead { tr {
                td {}
                @if has_planes { th scope="col" { "planes up" } }
                th scope="col" { @if has_planes { "planes at " (tenths(degrees(settled.point.deflection))) } @else { "no planes" } }
                th.unit scope="col" { "unit" }
            } }
            tbody {
                @for (name, field) in NUMBERS.iter().filter(|(name, _)| has_planes || !name.contains("planes")) {
                    tr data-number=(field.si_name()) {
                        th scope="row" { (name) }
                        @if has_planes { (value(field, &settled.up, settled.units)) }
                        (value(field, &settled.point, settled.units))
                        td.unit { (symbol(field.quantity, settled.units)) }
                    }
                }
            }
        }
        (flags(settled))
    }
}

fn value(field: &Field<Point>, point: &Point, units: UnitChoice) -> Markup {
    let shown = field.shown(point, units);
    let decimals = decimals(field.quantity, units);
    let text = shown.map_or("–".to_owned(), |shown| number_with_decimals(shown, decimals));
    cell(&text, field.si(point))
}

/// What a reader must know before trusting the numbers: what is dangerous apart from what was not tested.
fn flags(settled: &Settled) -> Markup {
    let point = &settled.point;
    let is_running = point.outcome == Outcome::Running;
    html! {
        div.flags {
            h3 { "Before you trust these numbers" }
            @if !is_running { p.danger { (spoken(point.meaning())) } }
            @for (standing, title) in STANDINGS {
                @if point.flags.iter().any(|flag| flag.standing() == standing) {
                    div.(standing.word()) {
                        h4 { (title) }
                        ul { @for flag in point.flags.iter().filter(|flag| flag.standing() == standing) {
                            li.flag data-flag=(flag.word()) { (meaning(flag).on_page()) }
                        } }
                    }
                }
            }
            @if point.flags.is_empty() && is_running {
                p { "Everything here lies within the ranges in which the equations were tested." }
            }
        }
    }
}

/// Every force, with the letter it has in the picture.
pub(super) fn forces(settled: &Settled) -> Markup {
    let Some(budget) = settled.budget.as_ref().filter(|_| settled.forces) else { return html! {} };
    let (force, length, moment) = (settled.units.force, settled.units.length, settled.units.moment);
    let decimals = force_decimals(force);
    let shown = |value: f64, decimals| number_with_decimals(value, decimals);
    html! {
        div.wide tabindex="0" role="region" aria-label="Forces" {
            table.numbers {
                caption { "Every force on her, forward and up positive; moments about the centre of gravity, bow down positive" }
                thead { tr {
                    td {}
                    th scope="col" { "forward " (force.symbol()) }
                    th scope="col" { "up " (force.symbol()) }
                    th scope="col" { "acts forward " (length.symbol()) }
                    th scope="col" { "above the keel " (length.symbol()) }
                    th scope="col" { "moment " (moment.symbol()) }
                } }
                tbody {
                    @for (place, part) in budget.contributions.iter().enumerate() {
                        tr {
                            th scope="row" { span.letter { (letter(place)) } " " (part.name) }
                            td.number { (shown(force.value(part.forward), decimals)) }
                            td.number { (shown(force.value(part.up), decimals)) }
                            td.number { (shown(length.value(part.acts_forward), 2)) }
                            td.number { (shown(length.value(part.acts_above_keel), 2)) }
                            td.number { (shown(moment.value(part.moment_bow_down), 0)) }
                        }
                    }
                }
            }
        }
    }
}

/// Trim and resistance against speed.
pub(super) fn curves(settled: &Settled) -> Markup {
    html! {
        @for chart in settled.curves() {
            @if let Ok(svg) = chart.svg() {
                figure.chart tabindex="0" role="group" aria-label=(chart.title) { (drawing(&svg)) }
            }
        }
    }
}
