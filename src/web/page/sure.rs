//! How sure the answer is: three numbers with their likely range, fetched once the desk is shown.

use maud::{Markup, html};

use super::controls::with;
use super::frame::page;
use super::notice::Notice;
use super::papers::{STATE, kept};
use super::told::told;
use crate::report::{Gathered, in_short, seen};
use crate::web::answer::Desk;
use crate::web::ask::Ask;

/// The place on the desk where the answer comes.
pub(super) fn section(desk: &Desk) -> Markup {
    html! {
        section.sheet #sure aria-labelledby="sure_title" {
            h2 #sure_title { "How sure" }
            (why(desk.ask.draws))
            div #sure_answer aria-live="polite" { (question(&desk.ask, "load delay:150ms, submit")) }
        }
    }
}

/// Why there is a range at all.
fn why(draws: u32) -> Markup {
    html! {
        p {
            "Nobody knows a boat exactly. Her mass, where her weight lies, how strongly planes act on her and the equations themselves are known within limits. So "
            (draws) " boats nearly like her are drawn within those limits, and each is run. Nine in ten of them lie within the likely range."
        }
    }
}

/// Asks for the answer: by itself with the script, with its button without. What is asked stands in the controls.
fn question(ask: &Ask, when: &str) -> Markup {
    let get = ask.in_address().then_some("/desk/sure");
    let post = (!ask.in_address()).then_some("/desk/sure");
    html! {
        div.question hx-get=[get] hx-post=[post] hx-trigger=(when) hx-include={ "#" (STATE) } hx-params="not stock_file,keep" hx-target="#sure_answer" {
            button.quiet form=(STATE) type="submit" formaction="/desk/sure" { "Work it out" }
            div.working role="status" {
                progress aria-label="Drawing boats" {}
                p { "The boats are being drawn; that takes a few seconds, and a quarter of a minute where much is asked of her." }
            }
        }
    }
}

/// The answer for the desk.
pub(in crate::web) fn sure(gathered: &Gathered) -> Markup {
    html! {
        (told(&in_short(gathered)))
        @for line in seen(gathered) { p { (line) } }
        p.small {
            "The dealer's page gives the same numbers. They hold for what is recommended here, whatever is tried with the sliders, and for straight running in calm water."
        }
    }
}

/// The answer as a page of its own.
pub(in crate::web) fn sure_alone(ask: &Ask, gathered: &Gathered) -> Markup {
    let name = gathered.boat().name();
    let main = html! {
        section.sheet #sure {
            h1 { "How sure: " (name) }
            (why(ask.draws))
            (sure(gathered))
            @match with(ask, "planes", ask.fields.get("planes").unwrap_or_default()) {
                Some(link) => p { a.button.quiet href=(link) { "Back to " (name) } },
                None => {
                    form action="/desk" method="post" {
                        (kept(ask, &[]))
                        button.quiet type="submit" { "Back to " (name) }
                    }
                }
            }
        }
    };
    page("How sure", "", &main)
}

/// Why there is no answer.
pub(in crate::web) fn not_sure(notice: &Notice) -> Markup {
    html! { div.faults role="alert" { p { (notice.show()) } } }
}

/// Others are before: the button asks again.
pub(in crate::web) fn sure_later(ask: &Ask, why: &str) -> Markup {
    html! { p { (why) } (question(ask, "load delay:4s")) }
}
