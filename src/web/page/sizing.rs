//! The size suggested, and why.

use maud::{Markup, html};

use super::cell;
use super::frame::drawing;
use crate::boat::degrees;
use crate::chart::sizing::sizing_charts;
use crate::size::explain::{beside, headline, pair_text, reached_texts};
use crate::size::{Answer, DutyResult, ScheduleRow, Suggestion, sentence};
use crate::units::number_with_decimals;
use crate::web::answer::Desk;

/// The answer in one glance: a brass plate.
pub(super) fn plate(desk: &Desk) -> Markup {
    let units = desk.units;
    let (word, size, note) = match &desk.suggestion {
        Err(_) => ("cannot be sized", "–".to_owned(), "see the reasons below".to_owned()),
        Ok(suggestion) => match &suggestion.answer {
            Answer::NoPlanesNeeded => (
                "Suggested",
                "no planes".to_owned(),
                "with planes up she does all that is asked".to_owned(),
            ),
            Answer::Pair(pair) => {
                ("Suggested, a pair", pair_text(*pair, units), "each, span x chord".to_owned())
            }
            Answer::Infeasible(shortfall) => (
                "No pair does every duty",
                shortfall.best.map_or("no room".to_owned(), |best| pair_text(best, units)),
                "falls least short; see the reasons below".to_owned(),
            ),
        },
    };
    html! {
        a.plate href="#why" {
            span.word { (word) }
            strong.size { (size) }
            span.note { (note) }
        }
    }
}

/// Why this size and no other, and how to use it.
pub(super) fn reasons(desk: &Desk) -> Markup {
    let suggestion = match &desk.suggestion {
        Ok(suggestion) => suggestion,
        Err(fault) => {
            return html! {
                section.sheet.warn #why aria-labelledby="why_title" {
                    h2 #why_title { "No size can be suggested" }
                    p { (fault.key) ": " (fault.problem) } p { (fault.remedy) }
                }
            };
        }
    };
    let [first, rest @ ..] = &headline(suggestion, &desk.file.boat, desk.units)[..] else {
        return html! {};
    };
    html! {
        section.sheet #why aria-labelledby="why_title" tabindex="-1" {
            h2 #why_title { "Why this size" }
            p.answer { (first.replace("^2", "²")) }
            div.reasons { @for line in rest { p { (line) } } }
            (duties(desk, suggestion))
            (variants(desk, suggestion))
            details {
                summary { "What lies beside it" }
                @for line in beside(suggestion, desk.units) { p { (line) } }
                @for flag in suggestion.flags.iter() { p.flag { strong { (flag) } " " (flag.meaning()) } }
            }
        }
        (use_of_planes(desk, suggestion))
    }
}

fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

fn duties(desk: &Desk, suggestion: &Suggestion) -> Markup {
    let has_pair = suggestion.pair().is_some();
    let generated = suggestion.duties.iter().any(|duty| duty.generated);
    html! {
        h3 { "What the planes must do" }
        @if generated {
            p { span.estimated { "generated" } " The file asks for nothing, so that usual duties were taken (common practice, no source)." }
        }
        div.wide tabindex="0" role="region" aria-label="Duties" {
            table {
                thead { tr {
                    th scope="col" { "Duty" } th scope="col" { "Bites most at" } th scope="col" { "Planes up" }
                    @if has_pair {
                        th scope="col" { "With the pair" } th scope="col" { "Needs" } th scope="col" { "Likely range" } th scope="col" { "Uses" }
                    }
                    th scope="col" { "Done" }
                } }
                tbody { @for duty in &suggestion.duties { (duty_row(desk, duty, has_pair)) } }
            }
        }
        @if has_pair {
            p.small {
                "Needs: deflection of the deeper plane. A duty may use " (percent(suggestion.share_allowed)) " of the "
                (number_with_decimals(degrees(suggestion.usable_deflection), 0)) "° that are usable. The likely range holds for nine boats in ten: how strongly planes act differs by about a quarter from boat to boat, and that is judged, not measured; a sea trial settles it."
            }
        }
    }
}

fn duty_row(desk: &Desk, duty: &DutyResult, has_pair: bool) -> Markup {
    let units = desk.units;
    let angle = |angle: Option<uom::si::f64::Angle>| {
        angle.map_or("–".to_owned(), |a| format!("{}°", number_with_decimals(degrees(a), 1)))
    };
    let [up, with] = reached_texts(duty, units);
    let speed = number_with_decimals(units.speed.value(duty.speed), 1);
    html! {
        tr {
            th scope="row" { (duty.duty.name()) span.hint { (sentence(&duty.duty, units)) } }
            td { (speed) " " (units.speed.symbol()) }
            td { (up) }
            @if has_pair {
                td { (with) }
                td data-si=[duty.needed_deflection.map(degrees)] { (angle(duty.needed_deflection)) }
                td {
                    @match duty.likely_deflection {
                        Some([low, high]) => { (angle(Some(low))) " to " (angle(Some(high))) }
                        None => "–",
                    }
                }
                td { (duty.share_used.map_or("–".to_owned(), percent)) }
            }
            td { @if duty.met { "yes" } @else { strong.no { "no" } } }
        }
    }
}

fn variants(desk: &Desk, suggestion: &Suggestion) -> Markup {
    if suggestion.variants.is_empty() {
        return html! {};
    }
    html! {
        h3 { "Why not smaller or larger" }
        div.wide tabindex="0" role="region" aria-label="Smaller and larger pairs" {
            table {
                thead { tr {
                    th scope="col" { "Change" } th scope="col" { "Pair" } th scope="col" { "Uses at most" }
                    th scope="col" { "Holds the hump at" } th scope="col" { "Misses" }
                } }
                tbody {
                    @for variant in &suggestion.variants {
                        tr {
                            th scope="row" { (variant.name) }
                            td { (pair_text(variant.pair, desk.units)) }
                            td { (percent(variant.share_used)) }
                            td { (variant.hump_trim.map_or("–".to_owned(), |t| format!("{}°", number_with_decimals(degrees(t), 1)))) }
                            td {
                                @if variant.too_long.is_some() { "room on the transom" }
                                @else if variant.missed.is_empty() { "nothing" }
                                @else {
                                    (variant.missed.iter().map(|&place| suggestion.duties[place].duty.name()).collect::<Vec<_>>().join(", "))
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// The deflection to use at each speed, as a table and as a chart.
fn use_of_planes(desk: &Desk, suggestion: &Suggestion) -> Markup {
    if suggestion.pair().is_none() || suggestion.schedule.is_empty() {
        return html! {};
    }
    let charts = sizing_charts(&desk.file.boat, suggestion, desk.units);
    html! {
        section.sheet aria-labelledby="use" {
            h2 #use { "How to use them" }
            p { "Put the planes down to come over the hump, raise them as she gathers speed, and never go beyond the second column. Raise them before a following sea." }
            div.beside {
            div.wide tabindex="0" role="region" aria-label="Deflection to use at each speed" {
                table.numbers {
                    thead { tr {
                        th scope="col" { "Speed, " (desk.units.speed.symbol()) } th scope="col" { "Use" } th scope="col" { "Never beyond" }
                        th scope="col" { "Trim, planes up" } th scope="col" { "Trim" } th scope="col" { "Resistance" }
                    } }
                    tbody { @for row in &suggestion.schedule { (schedule_row(desk, suggestion, row)) } }
                }
            }
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

fn schedule_row(desk: &Desk, suggestion: &Suggestion, row: &ScheduleRow) -> Markup {
    let speed = desk.units.speed.value(row.speed);
    let angle = |deg: f64| format!("{}°", number_with_decimals(deg, 1));
    // Below the dead band the plate is not in the water: that reads as planes up.
    let dead_deg = suggestion.dead_band.map_or(0.0, degrees);
    let down = degrees(row.deflection);
    let used = if down < dead_deg { "up".to_owned() } else { angle(down) };
    let trim =
        |trim: Option<uom::si::f64::Angle>| trim.map_or("–".to_owned(), |t| angle(degrees(t)));
    let change = row.resistance_ratio.map_or("–".to_owned(), |ratio| {
        let percent = 100.0 * (ratio - 1.0);
        let sign = if percent > 0.05 { "+" } else { "" };
        format!("{sign}{} %", number_with_decimals(percent, 1))
    });
    html! {
        tr {
            th scope="row" { (number_with_decimals(speed, 1)) }
            (cell(&used, Some(down)))
            (cell(&angle(degrees(row.largest_safe)), Some(degrees(row.largest_safe))))
            td.number { (trim(row.trim_bare)) }
            td.number { (trim(row.trim)) }
            td.number { (change) }
        }
    }
}
