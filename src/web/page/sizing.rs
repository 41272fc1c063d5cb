//! The size suggested, and why.

use maud::{Markup, html};

use super::cell;
use super::controls::with;
use super::frame::drawing;
use super::told::{in_columns, told};
use crate::balance::saving::Saving;
use crate::boat::{PlanePair, degrees};
use crate::chart::sizing::sizing_charts;
use crate::field::as_data;
use crate::sentence::duty::condition;
use crate::size::{Answer, DutyResult, ScheduleRow, Suggestion};
use crate::stock::Standing;
use crate::tell::reasons::{self, beside, headline, reached_texts};
use crate::tell::shelf::amount;
use crate::tell::sizing::{self, NO_SETTINGS, Sizing, generated_from, in_use, under_limit};
use crate::tell::{drive, loadings, meaning, saving};
use crate::units::{UnitSystem, number_with_decimals};
use crate::web::answer::Desk;
use crate::web::ask::pair_word;

/// The answer in one glance: a brass plate.
pub(super) fn plate(desk: &Desk) -> Markup {
    let units = desk.units;
    let (word, size, note) = match desk.sized.suggestion() {
        Err(_) => ("cannot be sized", "–".to_owned(), "see the reasons below".to_owned()),
        Ok(suggestion) => match &suggestion.answer {
            Answer::NoPlanesNeeded => (
                "Suggested",
                "no planes".to_owned(),
                "with planes up she does all that is asked".to_owned(),
            ),
            Answer::Pair(pair) if suggestion.is_seen_otherwise() => (
                "Buy nothing yet; a first guess",
                pair.text(units),
                "she was seen to run otherwise".to_owned(),
            ),
            Answer::Pair(pair) => ("Suggested, a pair", pair.text(units), governs(suggestion)),
            Answer::Infeasible(_) if suggestion.duties.is_empty() => (
                "Nothing can be said",
                "–".to_owned(),
                "see what to settle first, and the reasons below".to_owned(),
            ),
            Answer::Infeasible(shortfall) => (
                "No pair does every duty",
                shortfall.best.map_or("no room".to_owned(), |best| best.text(units)),
                "falls least short; see the reasons below".to_owned(),
            ),
        },
    };
    html! {
        a.plate href="#why" {
            span.word { (word) }
            strong.size { (size) }
            span.note { (note) }
            @if let Some(offered) = offered(desk) { span.note { (offered) } }
        }
    }
}

/// What the shelf has for it.
fn offered(desk: &Desk) -> Option<String> {
    if desk.is_seen_otherwise() {
        return None;
    }
    let first = desk.shelf()?.first(1).next()?;
    let price =
        format!("{} {} for the pair", first.part.price.currency, amount(first.pair_price()));
    match first.standing {
        Standing::Does => Some(format!("from the shelf: {}, {price}", first.part.name)),
        Standing::NotOnHand => Some(format!("to be ordered: {}, {price}", first.part.name)),
        _ => None,
    }
}

/// What the size of the plate is, and which loading set it where there are several.
fn governs(suggestion: &Suggestion) -> String {
    let several = suggestion.conditions.len() > 1;
    match suggestion.governing.as_ref().filter(|_| several) {
        Some(governing) => {
            format!(
                "each, span x chord; set by the loading \u{201c}{}\u{201d}",
                governing.condition
            )
        }
        None => "each, span x chord".to_owned(),
    }
}

/// That she was seen to run otherwise than she is described, before anything is shown of the boat described.
pub(super) fn seen_otherwise(desk: &Desk) -> Markup {
    let answer = desk.sized.answer.as_ref().ok();
    let said = answer.and_then(|answer| reasons::seen_otherwise(&desk.told(answer)));
    html! {
        @if let Some(said) = said {
            section.sheet.warn #seen aria-label="Seen otherwise" { p { (said.on_page()) } }
        }
    }
}

/// Why this size and no other.
pub(super) fn reasons(desk: &Desk) -> Markup {
    let answer = match &desk.sized.answer {
        Ok(answer) => answer,
        Err(fault) => {
            return html! {
                section.sheet.warn aria-labelledby="why" {
                    h2 #why { "No size can be suggested" }
                    p { (fault.key) ": " (fault.problem) } p { (fault.remedy) }
                }
            };
        }
    };
    let sizing = desk.told(answer);
    let [first, rest @ ..] = &headline(&sizing)[..] else {
        return html! {};
    };
    html! {
        details.sheet {
            summary { h2 { "Why this size" } span.hint { "what was asked of the planes, and what lies beside it" } }
            p.answer #why tabindex="-1" { (first.on_page()) }
            div.reasons { @for line in rest { p { (line.on_page()) } } }
            (told(&loadings::named(&sizing)))
            (duties(&sizing))
            (told(&sizing::variants(&sizing)))
            (steps(desk))
            details {
                summary { "What lies beside it" }
                @for line in beside(&sizing).into_iter().chain(drive::sentence(&sizing)) { p { (line.on_page()) } }
                @for flag in answer.suggestion.flags.iter() { p.flag data-flag=(flag.word()) { (meaning(flag).on_page()) } }
            }
        }
    }
}

/// In which steps sizes are looked for, and a link to the others: units that are only shown change no size.
fn steps(desk: &Desk) -> Markup {
    let (now, other, word) = match desk.ask.steps {
        UnitSystem::Imperial => ("whole inches", "whole millimetres", UnitSystem::Metric.word()),
        _ => ("millimetres", "whole inches", UnitSystem::Imperial.word()),
    };
    let link = with(&desk.ask, "steps", word);
    html! {
        p.small {
            "Sizes are looked for in " (now) "; the buttons for units only convert what is shown."
            @if let Some(link) = link { " " a href=(link) { "Look in " (other) } "." }
        }
    }
}

fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

fn duties(sizing: &Sizing<'_>) -> Markup {
    let suggestion = sizing.suggestion;
    let has_pair = suggestion.pair().is_some();
    let generated = suggestion.duties.iter().any(|duty| duty.generated);
    html! {
        h3 { "What the planes must do" }
        @if generated {
            p { span.estimated { "generated" } " " (generated_from(sizing.boat()).on_page()) }
        }
        div.wide tabindex="0" role="region" aria-label="Duties" {
            table {
                thead { tr {
                    th scope="col" { "duty" } th scope="col" { "hardest at" } th scope="col" { "planes up" }
                    @if has_pair {
                        th scope="col" { "with pair" } th scope="col" { "needs" } th scope="col" { "by planes" } th scope="col" { "uses" }
                    }
                    th scope="col" { "done" }
                } }
                tbody { @for duty in &suggestion.duties { (duty_row(sizing, duty, has_pair)) } }
            }
        }
        @if has_pair {
            p.small { (sizing::duty_explanation(sizing).on_page()) }
        }
    }
}

fn duty_row(sizing: &Sizing<'_>, duty: &DutyResult, has_pair: bool) -> Markup {
    let units = sizing.units;
    let angle = |angle: Option<uom::si::f64::Angle>| {
        angle.map_or("–".to_owned(), |a| format!("{}°", number_with_decimals(degrees(a), 1)))
    };
    let [up, with] = reached_texts(duty, units).map(|said| said.on_page());
    let speed = number_with_decimals(units.speed.value(duty.speed), 1);
    let is_judged = !duty.is_unjudged();
    let needed = duty.needed_deflection.filter(|_| is_judged);
    html! {
        tr {
            th scope="row" { (duty.duty.name().replace('-', " ")) span.hint { (condition(&duty.duty, units).on_page()) (loadings::held_in(&duty.held_in).on_page()) (sizing::turned(sizing, duty).unwrap_or_default().on_page()) } }
            td { (speed) " " (units.speed.symbol()) @if sizing.boats.len() > 1 { span.hint { "\u{201c}" (duty.condition) "\u{201d}" } } }
            td { (up) }
            @if has_pair {
                td { (with) }
                td data-si=[needed.map(degrees).map(as_data)] { (angle(needed)) }
                td {
                    @match duty.likely_deflection.filter(|_| is_judged) {
                        Some([low, high]) => { (angle(Some(low))) " to " (angle(Some(high))) }
                        None => "–",
                    }
                }
                td { (duty.share_used.filter(|_| is_judged).map_or("–".to_owned(), percent)) }
            }
            td { @if duty.met { (sizing::done(duty)) } @else { strong.no { "no" } } }
        }
    }
}

/// The deflection to use at each speed, as a table and as a chart.
pub(super) fn use_of_planes(desk: &Desk) -> Markup {
    let Ok(answer) = &desk.sized.answer else { return html! {} };
    let sizing = &desk.told(answer);
    let suggestion = sizing.suggestion;
    let Some(pair) = suggestion.pair().filter(|_| !suggestion.schedule.is_empty()) else {
        return html! {};
    };
    if suggestion.is_seen_otherwise() {
        return html! {
            section.sheet aria-labelledby="use" { h2 #use { "How to use them" } p { (NO_SETTINGS) } }
        };
    }
    let charts = sizing_charts(&desk.file().boat, suggestion, desk.units);
    let savings = saving::of_schedule(sizing);
    let even = savings.contains(&Some(Saving::SidesMayTurn));
    html! {
        section.sheet aria-labelledby="use" {
            h2 #use {
                "How to use " (pair.text(desk.units))
                @if let [first, _, ..] = &suggestion.conditions[..] { ", loaded \u{201c}" (first.condition) "\u{201d}" }
            }
            @if let Some(part) = other_part(desk, pair) {
                p.small { "Of another size the settings differ, as of " (part) " from the shelf: the papers give those of what they recommend." }
            }
            @if matches!(suggestion.answer, Answer::Infeasible(_)) {
                p { strong { "Not recommended: " } "this pair falls least short, and no pair does every duty." }
            }
            p { "Put the planes down to come over the hump, raise them as she gathers speed, and never past the angle under \u{201c}Never beyond\u{201d}. Raise them before a following sea." }
            div.wide tabindex="0" role="region" aria-label="Deflection to use at each speed" {
                table.numbers {
                    thead { tr {
                        th scope="col" { "Speed, " (desk.units.speed.symbol()) } th scope="col" { "Use" } th scope="col" { "Never beyond" }
                        th scope="col" { "Trim, planes up" } th scope="col" { "Trim" } th scope="col" { "Resistance" } th scope="col" { "Under porpoising limit" }
                    } }
                    tbody { @for (row, saving) in suggestion.schedule.iter().zip(&savings) { (schedule_row(desk, suggestion, (row, *saving))) } }
                }
                p.small { "Over the limit where negative; ? where it is not tested." }
                @if even { p.small { (saving::NOTE) } }
            }
            @if desk.boats().len() > 1 {
                details {
                    summary { "In her other loadings" }
                    (in_columns(&loadings::schedules(sizing)))
                }
            }
            details {
                summary { "The same as a chart" }
                div.charts {
                    @for named in &charts {
                        @if let Ok(svg) = named.chart.svg() {
                            figure.chart tabindex="0" role="group" aria-label=(named.chart.title) { (drawing(&svg)) }
                        }
                    }
                }
            }
        }
    }
}

/// The first part of the shelf that does everything, where its size is not the one suggested.
fn other_part(desk: &Desk, pair: PlanePair) -> Option<&str> {
    let first = desk.shelf()?.first(1).next()?;
    let is_other =
        first.standing == Standing::Does && pair_word(first.part.pair()) != pair_word(pair);
    is_other.then_some(first.part.name.as_str())
}

fn schedule_row(
    desk: &Desk,
    suggestion: &Suggestion,
    (row, saving): (&ScheduleRow, Option<Saving>),
) -> Markup {
    let speed = desk.units.speed.value(row.speed);
    let angle = |deg: f64| format!("{}°", number_with_decimals(deg, 1));
    let down = degrees(row.deflection);
    let used = match in_use(suggestion, row) {
        up if up == "up" => up,
        down => format!("{down}°"),
    };
    let trim =
        |trim: Option<uom::si::f64::Angle>| trim.map_or("–".to_owned(), |t| angle(degrees(t)));
    let change = match saving::change_text(row, saving) {
        None => "–".to_owned(),
        Some(even) if saving == Some(Saving::SidesMayTurn) => even,
        Some(percent) => {
            let grows = row.resistance_ratio.is_some_and(|ratio| ratio > 1.0005);
            format!("{}{percent} %", if grows { "+" } else { "" })
        }
    };
    html! {
        tr {
            th scope="row" { (number_with_decimals(speed, 1)) }
            (cell(&used, Some(down)))
            (cell(&angle(degrees(row.largest_safe)), Some(degrees(row.largest_safe))))
            td.number { (trim(row.trim_bare)) }
            td.number { (trim(row.trim)) }
            td.number { (change) }
            td.number { (under_limit(row)) }
        }
    }
}
