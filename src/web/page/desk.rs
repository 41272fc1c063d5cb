//! The page of a boat.

use maud::{Markup, html};

use super::frame::page;
use super::told::told;
use super::{controls, papers, particulars, running, shelf, sizing, sure, transom};
use crate::document::Block;
use crate::tell;
use crate::units::UnitChoice;
use crate::web::answer::{Desk, Run};

pub(in crate::web) fn desk(desk: &Desk) -> Markup {
    let boat = &desk.file().boat;
    let main = html! {
        section.title aria-labelledby="boat" {
            div {
                h1 #boat { (boat.name()) }
                @if let Some(scenario) = &boat.input().scenario { p.scenario { (scenario) } }
                div #particulars { (particulars::line(&desk.run.boat, desk.units)) }
            }
            (sizing::plate(desk))
        }
        div #notice role="alert" {}
        (first(desk))
        (sizing::seen_otherwise(desk))
        (particulars::warnings(desk))
        section.try aria-label="How she runs" {
            div.boat {
                div #said.said role="status" aria-live="polite" { (running::said(&desk.run, desk.units)) }
                div #views.views { (views(&desk.run)) }
            }
            div.side { (controls::controls(desk)) }
        }
        div.counter {
            (shelf::shelf(desk))
            (papers::papers(desk))
        }
        div.advice {
            (sizing::use_of_planes(desk))
            (sure::section(desk))
        }
        details.sheet #run {
            summary { h2 { "This run in numbers" } span.hint { "forces, flags, curves, and the bottom from below" } }
            div #below.views { (below(&desk.run)) }
            div #numbers { (numbers(&desk.run)) }
            div #curves.curves { (curves(&desk.run)) }
        }
        (sizing::reasons(desk))
        (transom::section(desk))
        (particulars::estimates(desk))
        (papers::change(desk))
    };
    page(boat.name(), "", &main)
}

/// What must be settled before anything below is believed.
fn first(desk: &Desk) -> Markup {
    let blocks = tell::sense::first(&desk.sized.sense, desk.units);
    let [Block::Alert(title), rest @ ..] = blocks.as_slice() else { return html! {} };
    html! {
        section.sheet.warn aria-labelledby="first" {
            h2 #first { (title) }
            (told(rest))
        }
    }
}

/// What changes with the sliders: the pictures, and beside them everything that shows the same run.
pub(in crate::web) fn run(run: &Run, units: UnitChoice) -> Markup {
    let swapped =
        |id: &str, inner: &Markup| html! { div id=(id) hx-swap-oob="innerHTML" { (inner) } };
    html! {
        (views(run))
        (swapped("particulars", &particulars::line(&run.boat, units)))
        (swapped("below", &below(run)))
        (swapped("limit", &controls::limit(run)))
        (swapped("numbers", &numbers(run)))
        (swapped("curves", &curves(run)))
        (swapped("said", &running::said(run, units)))
        (swapped("speed_now", &controls::now_speed(run, units)))
        (swapped("deflection_now", &controls::now_deflection(run)))
        @for field in ["condition", "speed", "deflection", "planes"] {
            (swapped(&format!("{field}_fault"), &controls::fault_texts(run, field)))
        }
    }
}

fn views(run: &Run) -> Markup {
    html! { @if let Some(settled) = &run.settled { (running::views(settled)) } }
}

fn below(run: &Run) -> Markup {
    html! { @if let Some(settled) = &run.settled { (running::below(settled)) } }
}

fn numbers(run: &Run) -> Markup {
    html! {
        @if let Some(settled) = &run.settled {
            (running::table(settled))
            (running::forces(settled))
        }
    }
}

fn curves(run: &Run) -> Markup {
    html! { @if let Some(settled) = &run.settled { (running::curves(settled)) } }
}
