//! What every page has around it.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::flag::CAUTION;
use crate::web::asset::address;

/// How the script behaves: no styles of its own, no code in attributes, and a refusal is shown above what stays.
const SCRIPT_SETTINGS: &str = r##"{"includeIndicatorStyles":false,"allowEval":false,"historyCacheSize":0,"selfRequestsOnly":true,"responseHandling":[{"code":"204","swap":false},{"code":"[45]..","swap":true,"error":true,"target":"#notice","select":"#refusal","swapOverride":"innerHTML"},{"code":"[23]..","swap":true}]}"##;

/// A whole page.
pub(super) fn page(title: &str, here: &str, main: &Markup) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light";
                meta name="htmx-config" content=(SCRIPT_SETTINGS);
                title { (title) " · Planewright" }
                link rel="icon" href=(address("mark.svg")) type="image/svg+xml";
                link rel="stylesheet" href=(address("desk.css"));
                script src=(address("htmx.js")) defer {}
                script src=(address("desk.js")) defer {}
            }
            body {
                a.skip href="#main" { "Skip to the content" }
                header.head {
                    a.name href="/" { (emblem()) span { "Planewright" } }
                    nav aria-label="Pages" {
                        ul {
                            li { a href="/" aria-current=[current(here, "start")] { "Boats" } }
                            li { a href="/form" aria-current=[current(here, "form")] { "Describe a boat" } }
                        }
                    }
                }
                main #main tabindex="-1" { (main) }
                footer {
                    p.caution { strong { "Before you rely on it. " } (CAUTION) }
                    p.small {
                        "Planewright " (env!("CARGO_PKG_VERSION")) ". Served by this machine; nothing is written down and nothing is sent elsewhere. "
                        "Lettering: DejaVu (" a href=(address("lettering-licence.txt")) { "licence" } "); script: htmx ("
                        a href=(address("htmx-licence.txt")) { "licence" } ")."
                    }
                }
            }
        }
    }
}

fn current(here: &str, page: &str) -> Option<&'static str> {
    (here == page).then_some("page")
}

/// A boat at trim over her plane.
fn emblem() -> Markup {
    html! {
        svg.emblem viewBox="0 0 44 24" width="44" height="24" aria-hidden="true" focusable="false" {
            path d="M1 17h42" fill="none" stroke="currentColor" stroke-width="1.5" {}
            path d="M10 18L36 9.5l5-6.5L9 11z" fill="currentColor" {}
            path d="M9.5 18l-7 4" fill="none" stroke="#e0aa4a" stroke-width="3" stroke-linecap="round" {}
        }
    }
}

/// A picture or a chart that is SVG already.
pub(super) fn drawing(svg: &str) -> Markup {
    PreEscaped(svg.to_owned())
}

/// A page that says why there is no other.
pub(in crate::web) fn refusal(why: &str) -> Markup {
    let main = html! {
        section.sheet {
            h1 { "Not now, or not here" }
            div.faults #refusal role="alert" { p { (why) } }
            p { a.button href="/" { "Choose a boat" } }
        }
    };
    page("Not now, or not here", "", &main)
}
