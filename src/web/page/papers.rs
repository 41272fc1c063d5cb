//! What may be taken away, and the boat file to mend or change.

use maud::{Markup, html};

use super::controls::word;
use crate::web::answer::Desk;
use crate::web::ask::{Ask, Source};
use crate::web::form::FIELDS;

/// The state of a request as hidden fields, but for those that the form asks itself.
pub(super) fn kept(ask: &Ask, but: &[&str]) -> Markup {
    let form = FIELDS.iter().map(|field| field.name);
    let from_form = matches!(ask.source, Source::Form(_));
    let mut names: Vec<&str> = match ask.source {
        Source::Text(_) => vec!["text_name"],
        Source::Form(_) => vec!["form"],
        _ => vec!["boat"],
    };
    names.extend(form.filter(|_| from_form));
    names.extend([
        "units",
        "in",
        "condition",
        "speed",
        "deflection",
        "planes",
        "forces",
        "stock",
        "stock_name",
    ]);
    html! {
        @for name in names.iter().filter(|name| !but.contains(name)) {
            @if let Some(value) = ask.fields.get(name) { input type="hidden" name=(name) value=(value); }
        }
        @for name in ["text", "stock_text"] {
            @if let (false, Some(text)) = (but.contains(&name), ask.fields.get(name)) {
                textarea name=(name) hidden aria-hidden="true" tabindex="-1" { "\n" (text) }
            }
        }
    }
}

/// Files to keep. Further papers get a line each.
pub(super) fn papers(desk: &Desk) -> Markup {
    let (name, text) = desk.ask.file();
    let method = if desk.ask.in_address() { "get" } else { "post" };
    let from_form = matches!(desk.ask.source, Source::Form(_));
    html! {
        section.sheet.screen-only aria-labelledby="papers" {
            h2 #papers { "To take away" }
            ul.papers {
                li {
                    form action="/boat-file" method=(method) {
                        (kept(&desk.ask, &["stock_text", "stock_name"]))
                        button type="submit" { "Download the boat file" }
                        span.hint { (name) ", for the command line and for next time" }
                    }
                }
                @if from_form {
                    li {
                        a.button.quiet href={ "/form?" (desk.ask.query()) } { "Change the description" }
                    }
                }
            }
            details {
                summary { "The boat file, to read and to change here" }
                (mend(&name, text, false))
            }
        }
    }
}

/// The text of a boat file in a field, to be changed and read again.
pub(super) fn mend(name: &str, text: &str, is_wrong: bool) -> Markup {
    html! {
        form.mend action="/desk" method="post" {
            input type="hidden" name="text_name" value=(name);
            label for="text" { "Boat file" }
            textarea #text name="text" rows="24" spellcheck="false" aria-invalid=[is_wrong.then_some("true")]
                aria-describedby=[is_wrong.then_some("faults")] { "\n" (text) }
            button type="submit" { "Read it again" }
        }
    }
}

/// The form that brings a stock list to the boat at the desk.
pub(super) fn bring_stock(desk: &Desk) -> Markup {
    html! {
        form action="/desk#shelf" method="post" enctype="multipart/form-data" {
            (kept(&desk.ask, &["stock", "stock_name", "stock_text", "units", "in"]))
            input type="hidden" name="units" value=(word(desk.ask.system));
            p {
                label for="stock_file" { "Stock list of your own" }
                input #stock_file type="file" name="stock_file" accept=".csv,text/csv" required aria-describedby="stock_hint";
                span.hint #stock_hint { "CSV with units, at most 1 MiB" }
            }
            button type="submit" { "Rank this list" }
        }
    }
}
