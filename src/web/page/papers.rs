//! What may be taken away, and the boat file to mend or change.

use maud::{Markup, html};

use crate::web::answer::Desk;
use crate::web::ask::{Ask, SET, Source};
use crate::web::fields::REPEATED;
use crate::web::form;

/// The form that holds the state of the desk: other buttons of the desk send it too.
pub(super) const STATE: &str = "controls";

/// The state of a request as hidden fields, but for those that the form asks itself.
pub(super) fn kept(ask: &Ask, but: &[&str]) -> Markup {
    let from_form = matches!(ask.source, Source::Form(_));
    let mut kept: Vec<&str> = match ask.source {
        Source::Text(_) => vec!["text_name"],
        Source::Form(_) => vec!["form"],
        _ => vec!["boat"],
    };
    kept.extend(form::names().filter(|_| from_form));
    kept.extend(SET);
    kept.push("stock_name");
    html! {
        @for name in kept.iter().filter(|name| !but.contains(name)) {
            @if REPEATED.contains(name) {
                @for value in ask.fields.all(name) { input type="hidden" name=(name) value=(value); }
            } @else if let Some(value) = ask.fields.get(name) {
                input type="hidden" name=(name) value=(value);
            }
        }
        @for name in ["text", "stock_text"] {
            @if let (false, Some(text)) = (but.contains(&name), ask.fields.get(name)) {
                textarea name=(name) hidden aria-hidden="true" tabindex="-1" { "\n" (text) }
            }
        }
    }
}

/// The papers: word, name, and what is in them.
const PAPERS: [(&str, &str, &str); 3] = [
    ("dealer", "The dealer\u{2019}s page", "one page to print and sign"),
    ("owner", "The owner\u{2019}s letter", "plain words: why this size, and how to use it"),
    ("architect", "The architect\u{2019}s record", "everything, to check it"),
];
/// Papers typeset for a printer, where this build can.
const SHEETS: &[(&str, &str)] =
    if cfg!(feature = "pdf") { &[("a4", "PDF, A4"), ("letter", "PDF, Letter")] } else { &[] };

/// What may be kept: the papers, the page to send, and the boat file.
pub(super) fn papers(desk: &Desk) -> Markup {
    let (name, _) = desk.ask.file();
    let from_form = matches!(desk.ask.source, Source::Form(_));
    html! {
        section.sheet.screen-only #take aria-labelledby="papers" {
            h2 #papers { "To take away" }
            ul.papers {
                @for (word, title, what) in PAPERS { (paper(word, title, what)) }
                li {
                    div { strong { "The page to send" } span.hint { "one file for a buyer\u{2019}s telephone; works without this program and without a network" } }
                    div.buttons {
                        button form=(STATE) type="submit" formaction="/papers/buyer.html" formtarget="_blank"
                            aria-label="Look at the page to send, in a new tab" { "Look" }
                        button.quiet form=(STATE) type="submit" formaction="/papers/buyer.html" name="keep" value="file"
                            aria-label="Download: the page to send" { "Download" }
                    }
                }
                li {
                    div { strong { "The boat file" } span.hint { (name) ", for next time" } }
                    div.buttons {
                        button.quiet form=(STATE) type="submit" formaction="/boat-file" { "Download" }
                        @if from_form { a.button.quiet href={ "/form?" (desk.ask.query()) } { "Change the description" } }
                    }
                }
            }
            p.small {
                "About all her loading conditions"
                @if desk.shelf().is_some() { ", with the stock list" }
                ", whatever the sliders say. The first takes a few seconds, a quarter of a minute where much is asked of her; the others then come at once."
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
                button form=(STATE) type="submit" formaction=(address) formtarget="_blank"
                    aria-label={ "Read or print: " (title) ", in a new tab" } { "Read" }
                button.quiet form=(STATE) type="submit" formaction=(address) name="keep" value="file"
                    aria-label={ "Download: " (title) } { "Download" }
                @for (sheet, label) in SHEETS {
                    button.quiet form=(STATE) type="submit" formaction={ "/papers/" (word) "-" (sheet) ".pdf" }
                        aria-label={ (label) ": " (title) } { (label) }
                }
            }
        }
    }
}

/// The boat file on the desk, to be read and changed. A text with faults leaves the boat as it is.
pub(super) fn change(desk: &Desk) -> Markup {
    let (name, text) = desk.ask.file();
    html! {
        details.sheet.screen-only {
            summary { h2 { "The boat file" } span.hint { "to read and to change here" } }
            form.mend action="/desk" method="post" hx-post="/desk" hx-target="body" {
                (entry(&name, text, false))
            }
        }
    }
}

/// The text of a boat file with faults in a field, to be mended and read again.
pub(super) fn mend(name: &str, text: &str) -> Markup {
    html! { form.mend action="/desk" method="post" { (entry(name, text, true)) } }
}

fn entry(name: &str, text: &str, is_wrong: bool) -> Markup {
    html! {
        input type="hidden" name="text_name" value=(name);
        label for="text" { "Boat file" }
        textarea #text name="text" rows="24" spellcheck="false" aria-invalid=[is_wrong.then_some("true")]
            aria-describedby=[is_wrong.then_some("faults")] { "\n" (text) }
        button type="submit" { "Read it again" }
    }
}

/// What brings a stock list to the boat at the desk: sent with its state.
pub(super) fn bring_stock() -> Markup {
    html! {
        div.bring {
            label for="stock_file" { "Stock list of your own" }
            input #stock_file form=(STATE) type="file" name="stock_file" accept=".csv,text/csv" aria-describedby="stock_hint";
            button.quiet form=(STATE) type="submit" formaction="/desk#shelf" formmethod="post" formenctype="multipart/form-data" { "Rank this list" }
            span.hint #stock_hint { "CSV as a spreadsheet saves it, at most 1 MiB; name, span, chord and price are enough, each with its unit in the cell or in the heading. A list that cannot be read leaves the one before." }
        }
    }
}
