//! The short form.

use maud::{Markup, html};

use super::frame::page;
use super::notice::Faults;
use crate::web::fields::Fields;
use crate::web::form::{COMPLAINT, COMPLAINTS, FIELDS, Field};
use crate::web::serve::Site;

/// Fields that go together.
const GROUPS: [(&str, std::ops::Range<usize>); 4] =
    [("Hull", 0..6), ("Weight", 6..9), ("Drive", 9..12), ("Planes fitted now", 12..14)];

pub(in crate::web) fn form(_site: &Site, fields: &Fields, faults: &Faults) -> Markup {
    let count = faults.count();
    let main = html! {
        section.sheet {
            h1 { "Describe a boat" }
            p { "Write each value with its unit, as you have it: " code { "7.4 m" } ", " code { "24 ft 3 in" } ", " code { "6200 lb" } ", " code { "32 kn" } ". Length over all, beam over all, mass, power and top speed are enough to begin. Whatever is left empty is estimated, and marked so, or left out." }
            @if count > 0 {
                div #refusal { div.faults #faults role="alert" tabindex="-1" {
                    p {
                        @if count == 1 { "One thing must be mended before the boat can be computed." }
                        @else { (count) " things must be mended before the boat can be computed." }
                    }
                    ul {
                        @for field in &FIELDS {
                            @for notice in faults.of(field.name) {
                                li { a href={ "#" (field.name) } { (field.label) } ": " (notice.problem) }
                            }
                        }
                        @for notice in faults.of("") { li { (notice.show()) } }
                    }
                } }
            }
            form.description action="/desk" method="get" novalidate {
                input type="hidden" name="form" value="1";
                fieldset {
                    legend { "What bothers you about her?" }
                    p.hint #complaints_hint { "Each tick says what the planes are to do. With none they are to relieve the bow, and to level one person at the rail." }
                    div.ticks {
                        @for (wish, complaint) in COMPLAINTS {
                            @let id = format!("{COMPLAINT}-{}", wish.word());
                            div.tick {
                                input #(id) type="checkbox" name=(COMPLAINT) value=(wish.word()) aria-describedby="complaints_hint"
                                    checked[fields.all(COMPLAINT).any(|given| given == wish.word())];
                                label for=(id) { (complaint) }
                            }
                        }
                    }
                    @for notice in faults.of(COMPLAINT) { span.fault { (notice.show()) } }
                }
                @for (name, places) in GROUPS {
                    fieldset {
                        legend { (name) }
                        div.fields { @for field in &FIELDS[places] { (entry(field, fields, faults)) } }
                    }
                }
                button type="submit" { "Show the boat" }
            }
        }
    };
    let title = if count > 0 { "Describe a boat: not yet right" } else { "Describe a boat" };
    page(title, "form", &main)
}

fn entry(field: &Field, fields: &Fields, faults: &Faults) -> Markup {
    let value = fields.get(field.name).unwrap_or_default();
    let wrong = faults.of(field.name);
    let hint = format!("{}_hint", field.name);
    let fault = format!("{}_fault", field.name);
    let described = if wrong.is_empty() { hint.clone() } else { format!("{fault} {hint}") };
    let invalid = (!wrong.is_empty()).then_some("true");
    html! {
        div.field.wrong[!wrong.is_empty()] {
            label for=(field.name) {
                (field.label)
                @if field.required() { " " span.needed { "needed" } }
            }
            @match field.words() {
                Some(words) => {
                    select #(field.name) name=(field.name) aria-describedby=(described) aria-invalid=[invalid] {
                        option value="" { "not known" }
                        @for word in words {
                            option value=(word) selected[*word == value] { (word.replace('-', " ")) }
                        }
                    }
                }
                None => {
                    input #(field.name) type="text" name=(field.name) value=(value) autocomplete="off"
                        placeholder={ "for example " (field.example()) }
                        aria-describedby=(described) aria-invalid=[invalid] required[field.required()];
                }
            }
            @for notice in wrong { span.fault #(fault) { (notice.show()) } }
            span.hint #(hint) {
                (field.hint)
                @if let Some(allowed) = field.allowed() { "; " (allowed) }
                @if !field.required() && !field.absent().is_empty() && field.key.0 != "planes" {
                    ". If empty: " (field.absent())
                }
            }
        }
    }
}
