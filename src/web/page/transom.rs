//! Where the planes stand on the transom: the marking-out sheet, and what to print of it.

use maud::{Markup, html};

use super::papers::STATE;
use super::told::told;
use crate::web::answer::Desk;

/// Papers that are drawn to a scale: word in an address, and name.
const DRAWN: [(&str, &str); 3] = [
    ("transom", "the drawing"),
    ("template-port", "the template, port"),
    ("template-starboard", "the template, starboard"),
];
/// Sheets that they are made for.
const SHEETS: [(&str, &str); 2] = [("a4", "A4"), ("letter", "Letter")];

pub(super) fn section(desk: &Desk) -> Markup {
    let marked = &desk.marked;
    let Some(placement) = &marked.placement else { return html! {} };
    let pair = desk.run.pair().map(|pair| pair.text(desk.units)).unwrap_or_default();
    html! {
        details.sheet #transom open[desk.ask.both_units()] {
            summary { h2 { "Where on the transom" } span.hint { "the marking-out sheet for the planes tried, " (pair) } }
            @match placement {
                Err(error) => div.faults { p { (error) "." } },
                Ok(_) => {
                    p {
                        "For the planes tried above, " (pair) ", "
                        @match &marked.part {
                            Some(name) => { "with hinge and actuator of " (name) " from the shelf." }
                            None => "with hinge and actuator of usual sizes.",
                        }
                    }
                    div.screen-only {
                        div.tick {
                            input #both_units form=(STATE) type="checkbox" name="both_units" value="on" checked[desk.ask.both_units()];
                            label for="both_units" { "Figures in millimetres and in inches, on the sheet and the drawings that you open from here" }
                        }
                        div.buttons {
                            button form=(STATE) type="submit" formaction="/papers/marking.html" formtarget="_blank"
                                aria-label="Read or print: the marking-out sheet, in a new tab" { "Read or print" }
                        }
                        ul.papers {
                            li {
                                div { strong { "every hole at full size" } span.hint { "DXF, for drawing programs and machine shops" } }
                                div.buttons {
                                    button.quiet form=(STATE) type="submit" formaction="/papers/transom.dxf"
                                        aria-label="DXF: every hole at full size" { "DXF" }
                                }
                            }
                            @for (word, name) in DRAWN {
                                li {
                                    div { strong { (name) } span.hint { "PDF at the scale written on it" } }
                                    div.buttons {
                                        @for (sheet, label) in SHEETS {
                                            button.quiet form=(STATE) type="submit" formaction={ "/papers/" (word) "-" (sheet) ".pdf" }
                                                aria-label={ (label) ": " (name) } { (label) }
                                        }
                                    }
                                }
                            }
                        }
                    }
                    @if let Some(sheet) = marked.sheet() { div.marking { (told(&sheet.blocks)) } }
                }
            }
        }
    }
}
