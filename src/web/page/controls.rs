//! The sliders and what goes with them.

use maud::{Markup, html};

use super::papers::{STATE, kept};
use crate::boat::degrees;
use crate::boat::measure::plain_number;
use crate::units::{UnitChoice, UnitSystem, number_with_decimals};
use crate::web::answer::{Desk, Run, Slider};
use crate::web::ask::{Ask, MORE_ABOARD, Planes, pair_word};

/// The form that holds the whole state of the desk.
pub(super) fn controls(desk: &Desk) -> Markup {
    let (run, ask) = (&desk.run, &desk.ask);
    let in_address = ask.in_address();
    let method = if in_address { "get" } else { "post" };
    let get = in_address.then_some("/desk/run");
    let post = (!in_address).then_some("/desk/run");
    let speed = desk.units.speed.symbol();
    html! {
        form #(STATE).controls action="/desk" method=(method) hx-get=[get] hx-post=[post] hx-params="not stock_file,keep"
            hx-trigger="input throttle:80ms" hx-target="#views" hx-sync="this:replace" aria-label="Try it" {
            (kept(ask, &["units", "in", "condition", "aboard", "speed", "deflection", "planes", "forces", "both_units"]))
            input type="hidden" name="units" value=(ask.system.word());
            input type="hidden" name="in" value=(ask.system.word());
            // While a form waits out its throttle it hears nothing: the fields tell of the last value.
            fieldset hx-get=[get] hx-post=[post] hx-trigger="change" hx-include="closest form" hx-params="not stock_file,keep" hx-sync="closest form:replace" {
                legend { "Try it" }
                @if desk.boats().len() > 1 { (loading(desk)) } @else { (faults(run, "condition")) }
                div.field {
                    div.tick {
                        input #aboard type="checkbox" name="aboard" value=(MORE_ABOARD) aria-describedby="aboard_hint" checked[ask.more_aboard().is_some()];
                        label for="aboard" { "Two more aboard than her loads list" }
                    }
                    span.hint #aboard_hint { "size, settings and papers stay as they are" }
                }
                (slider("speed", "Speed", speed, run.speed, &now_speed(run, desk.units)))
                (faults(run, "speed"))
                (slider("deflection", "Planes down", "degrees", run.deflection, &now_deflection(run)))
                div #limit.limit { (limit(run)) }
                (faults(run, "deflection"))
                div.field {
                    label for="planes" { "Planes" }
                    select #planes name="planes" aria-describedby="planes_fault" {
                        @for choice in &desk.choices {
                            option value=(choice.word) selected[choice.word == chosen(run)] { (choice.label) }
                        }
                    }
                }
                (faults(run, "planes"))
                div.buttons {
                    button type="submit" { "Show" }
                    div.tick {
                        input #forces type="checkbox" name="forces" value="on" checked[ask.forces()];
                        label for="forces" { "Draw the forces" }
                    }
                }
                div.units role="group" aria-label="Units" {
                    @for &system in UnitSystem::ALL {
                        button.quiet type="submit" name="units" value=(system.word())
                            aria-pressed=(if system == ask.system { "true" } else { "false" }) { (spoken(system)) }
                    }
                }
            }
        }
    }
}

/// Where on the slider the planes may not go at this speed, as a red bar under it.
pub(super) fn limit(run: &Run) -> Markup {
    let Some(safe) = run.settled.as_ref().and_then(|settled| settled.safe) else { return html! {} };
    let at =
        100.0 * (degrees(safe) - run.deflection.from) / (run.deflection.to - run.deflection.from);
    let at = at.clamp(0.0, 100.0);
    let shown = |share: f64| format!("{share:.1}");
    html! {
        svg viewBox="0 0 100 4" preserveAspectRatio="none" aria-hidden="true" focusable="false" {
            rect.free x="0" y="0" width=(shown(at)) height="4" {}
            rect.beyond x=(shown(at)) y="0" width=(shown(100.0 - at)) height="4" {}
        }
        span { "never beyond " (number_with_decimals(degrees(safe), 1).trim_end_matches(".0")) "° at this speed" }
    }
}

/// The loading conditions to choose from.
fn loading(desk: &Desk) -> Markup {
    let chosen = &desk.run.boat.condition().name;
    html! {
        div.field {
            label for="condition" { "Loading" }
            select #condition name="condition" aria-describedby="condition_fault" {
                @for boat in desk.boats() {
                    @let name = &boat.condition().name;
                    option value=(name) selected[name == chosen] { (name) }
                }
            }
        }
        (faults(&desk.run, "condition"))
    }
}

fn slider(name: &str, label: &str, unit: &str, slider: Slider, now: &Markup) -> Markup {
    html! {
        div.field.slider {
            label for=(name) { (label) ", " (unit) }
            output id={ (name) "_now" } for=(name) { (now) }
            input #(name) type="range" name=(name) min=(plain_number(slider.from)) max=(plain_number(slider.to))
                step="0.5" value=(plain_number(slider.at)) aria-describedby={ (name) "_fault" };
            span.ends aria-hidden="true" { span { (plain_number(slider.from)) } span { (plain_number(slider.to)) } }
        }
    }
}

/// The speed beside its slider.
pub(super) fn now_speed(run: &Run, units: UnitChoice) -> Markup {
    html! { (plain_number(run.speed.at)) " " (units.speed.symbol()) }
}

/// The deflection beside its slider.
pub(super) fn now_deflection(run: &Run) -> Markup {
    html! {
        @if matches!(run.planes, Planes::Off) { "no planes" }
        @else if run.deflection.at == 0.0 { "up" }
        @else { (plain_number(run.deflection.at)) "°" }
    }
}

/// What is wrong with a field, beside it.
pub(super) fn faults(run: &Run, field: &str) -> Markup {
    html! {
        div.fault id={ (field) "_fault" } role="alert" { (fault_texts(run, field)) }
    }
}

/// What is wrong with a field, in the words of the command line.
pub(super) fn fault_texts(run: &Run, field: &str) -> Markup {
    html! { @for text in run.faults_of(field) { p { (text) } } }
}

fn chosen(run: &Run) -> String {
    match run.planes {
        Planes::Fitted => "fitted".to_owned(),
        Planes::Off => "none".to_owned(),
        Planes::Pair(pair) => pair_word(pair),
    }
}

const fn spoken(system: UnitSystem) -> &'static str {
    match system {
        UnitSystem::Marine => "m, kn",
        UnitSystem::Metric => "m, km/h",
        UnitSystem::Imperial => "ft, mph",
    }
}

/// A link to the state of a request with one field changed; none when the state stands in the page.
pub(super) fn with(ask: &Ask, name: &str, value: &str) -> Option<String> {
    if !ask.in_address() {
        return None;
    }
    let mut changed = ask.clone();
    changed.fields.set(name, value);
    Some(format!("/desk?{}", changed.query()))
}
