//! What may be taken away, and the boat file to mend or change.

use maud::{Markup, html};

use crate::web::answer::Desk;
use crate::web::ask::{Ask, SET, Source};
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
    names.extend(SET);
    names.push("stock_name");
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

/// The three papers: word, name, and what is in them.
const PAPERS: [(&str, &str, &str); 3] = [
    (
        "dealer",
        "The dealer\u{2019}s page",
        "one page to print and sign: what to take, what it costs, how sure, what it will not do",
    ),
    (
        "owner",
        "The owner\u{2019}s letter",
        "plain words: why this size, and how to use it at each speed",
    ),
    (
        "architect",
        "The architect\u{2019}s record",
        "everything, to check it: equations, forces, tables, charts",
    ),
];
/// Papers typeset for a printer, where this build can.
const SHEETS: &[(&str, &str)] =
    if cfg!(feature = "pdf") { &[("a4", "PDF, A4"), ("letter", "PDF, Letter")] } else { &[] };

/// What may be kept: the papers and the boat file.
pub(super) fn papers(desk: &Desk) -> Markup {
    let (name, text) = desk.ask.file();
    let method = if desk.ask.in_address() { "get" } else { "post" };
    let from_form = matches!(desk.ask.source, Source::Form(_));
    html! {
        section.sheet.screen-only aria-labelledby="papers" {
            h2 #papers { "To take away" }
            p {
                "Papers about this boat in all her loading conditions"
                @if desk.shelf.is_some() { ", with the stock list above" }
                ", whatever the sliders say. Each takes a few seconds, and a quarter of a minute where much is asked of her."
            }
            form action="/papers/dealer.html" method=(method) {
                (kept(&desk.ask, &[]))
                ul.papers { @for (word, title, what) in PAPERS { (paper(word, title, what)) } }
            }
            form action="/boat-file" method=(method) {
                (kept(&desk.ask, &["stock_text", "stock_name"]))
                ul.papers {
                    li {
                        div { strong { "The boat file" } span.hint { (name) ", for the command line and for next time" } }
                        div.buttons {
                            button.quiet type="submit" { "Download the boat file" }
                            @if from_form { a.button.quiet href={ "/form?" (desk.ask.query()) } { "Change the description" } }
                        }
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

/// One paper: to be read in a new tab, or kept.
fn paper(word: &str, title: &str, what: &str) -> Markup {
    let address = format!("/papers/{word}.html");
    html! {
        li {
            div { strong { (title) } span.hint { (what) } }
            div.buttons {
                button type="submit" formaction=(address) formtarget="_blank"
                    aria-label={ "Read or print: " (title) ", in a new tab" } { "Read or print" }
                button.quiet type="submit" formaction=(address) name="keep" value="file"
                    aria-label={ "Download: " (title) } { "Download" }
                @for (sheet, label) in SHEETS {
                    button.quiet type="submit" formaction={ "/papers/" (word) "-" (sheet) ".pdf" }
                        aria-label={ (label) ": " (title) } { (label) }
                }
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
            input type="hidden" name="units" value=(desk.ask.system.word());
            p {
                label for="stock_file" { "Stock list of your own" }
                input #stock_file type="file" name="stock_file" accept=".csv,text/csv" required aria-describedby="stock_hint";
                span.hint #stock_hint { "CSV with units, at most 1 MiB" }
            }
            button type="submit" { "Rank this list" }
        }
    }
}
