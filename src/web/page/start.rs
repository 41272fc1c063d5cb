//! The first page: choose a boat, bring one, or describe one.

use maud::{Markup, html};
use uom::si::angle::degree;
use uom::si::f64::Angle;

use super::frame::{drawing, page};
use super::notice::Notice;
use super::particulars::{facts, sentence};
use crate::balance::sensitivity::Landmarks;
use crate::boat::Boat;
use crate::input::parse_boat;
use crate::picture::{Frame, Scene, side_view};
use crate::units::UnitChoice;
use crate::web::answer::settings;
use crate::web::ask::{GIVEN, shown_name};
use crate::web::demo::BOATS;
use crate::web::serve::Site;

pub(in crate::web) fn start(site: &Site, notices: &[Notice]) -> Markup {
    let main = html! {
        section.opening {
            h1 { "Which trim planes does this boat need?" }
            p.lead { "Trim planes, which most people call trim tabs, push the stern up and the bow down. Choose a boat, set a speed, and put the planes down: the page shows how she runs, what size does the work, and why." }
            @for notice in notices {
                div.faults role="alert" { p { (notice.show()) } }
            }
        }
        section aria-labelledby="choose" {
            h2 #choose { "Choose a boat" }
            @let shelf = if site.stock.is_some() { "" } else { "&stock=demo" };
            ul.cards {
                @if let Some(file) = &site.boat { (card(GIVEN, &file.boat, shelf)) }
                @for demo in &BOATS {
                    @if let Ok(file) = parse_boat(demo.file, demo.text) {
                        (card(demo.word, &file.boat, shelf))
                    }
                }
            }
            p.small {
                @match &site.stock {
                    Some(list) => { "The three demonstration boats are invented. The shelf is that of " (shown_name(Some(&list.name), "the stock list")) "." }
                    None => "The three demonstration boats and the planes on their shelf are invented.",
                }
            }
        }
        div.pair {
            section.sheet aria-labelledby="bring" {
                h2 #bring { "Bring a boat file" }
                form action="/desk" method="post" enctype="multipart/form-data" {
                    p {
                        label for="boat_file" { "Boat file" }
                        input #boat_file type="file" name="boat_file" accept=".toml,text/plain" required aria-describedby="boat_file_hint";
                        span.hint #boat_file_hint { "Text with units, at most 1 MiB; " code { "planewright new my-boat.toml" } " writes one to start from." }
                    }
                    button type="submit" { "Read the boat" }
                }
            }
            section.sheet aria-labelledby="describe" {
                h2 #describe { "Describe a boat" }
                p { "Length, beam, mass and power are enough to begin. What you do not know is estimated by stated rules, and marked so." }
                p { a.button href="/form" { "Fill the short form" } }
            }
        }
    };
    page("Choose a boat", "start", &main)
}

fn card(word: &str, boat: &Boat, shelf: &str) -> Markup {
    html! {
        li {
            a.card href={ "/desk?boat=" (word) (shelf) } {
                span.picture aria-hidden="true" { (portrait(boat)) }
                strong { (boat.name()) }
                span.facts { (sentence(&facts(boat, UnitChoice::default()), 4)) }
                @if let Some(scenario) = &boat.input().scenario { span.scenario { (scenario) } }
            }
        }
    }
}

/// The boat where her trim is largest, planes up.
fn portrait(boat: &Boat) -> Markup {
    let up = Angle::new::<degree>(0.0);
    let hump = Landmarks::of(boat, &settings(), up).ok().and_then(|landmarks| landmarks.hump);
    let Some(point) = hump else { return html! {} };
    let units = UnitChoice::default();
    let scene = Scene { boat, point: &point, budget: None, units, frame: Frame::Narrow };
    drawing(&side_view(&scene))
}
