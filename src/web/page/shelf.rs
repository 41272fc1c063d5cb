//! What is on the shelf for this boat.

use maud::{Markup, html};

use super::controls::with;
use super::papers::bring_stock;
use crate::stock::{Judged, Ranked, Ranking, StockList};
use crate::tell::shelf::{
    NOTES, bears, does_text, explanation, fits, in_hundred, letters, money, most_used, on_hand,
    reasons,
};
use crate::web::answer::Desk;
use crate::web::ask::pair_word;

/// Parts that are shown at once: the best and its runners-up.
const FIRST: usize = 3;
/// The short word of a table of the terminal for what has no allowance for slamming, and what stands for it here.
const NO_SLAM: &str = "no-slam";
const NOT_SLAMMING: &str = "not slamming";

pub(super) fn shelf(desk: &Desk) -> Markup {
    html! {
        section.sheet #shelf aria-labelledby="shelf_title" {
            h2 #shelf_title { "From the shelf" }
            @if let Some(fault) = &desk.ask.list_fault {
                div.faults role="alert" {
                    p { span.problem { "The new list was not taken: " (fault.problem) } span.help { (fault.help) } }
                }
            }
            @match desk.shelf().map(|shelf| (shelf, &shelf.ranked)) {
                None => {
                    p { "Bring your stock list, and its parts are ranked for this boat, with the price of a pair." }
                    @if let Some(link) = with(&desk.ask, "stock", "demo") {
                        p { a.button.quiet href={ (link) "#shelf" } { "Rank the invented demonstration list" } }
                    }
                }
                Some((shelf, Ok(ranked))) => {
                    p.small {
                        "List: " (shelf.name)
                        @if shelf.is_demo { ", invented: none of these planes is sold anywhere" }
                        "."
                    }
                    (parts(desk, &ranked.list, &ranked.ranking))
                }
                Some((_, Err(fault))) => {
                    div.faults role="alert" { p { span.problem { (fault.problem) } span.help { (fault.help) } } }
                }
            }
            (bring_stock())
        }
    }
}

fn parts(desk: &Desk, list: &StockList, ranking: &Ranking) -> Markup {
    let used: Vec<_> = NOTES
        .iter()
        .filter(|(letter, _)| ranking.ranked.iter().any(|r| letters(r).contains(*letter)))
        .collect();
    html! {
        @if desk.is_seen_otherwise() {
            p { strong { "Nothing to be ordered yet: " } "she was seen to run otherwise than she is described, and this order is that of the boat described." }
        }
        @let lines = reasons(ranking, desk.units);
        @if let Some(first) = lines.first() { p.answer { (first.on_page()) } }
        @if !list.faults.is_empty() {
            div.faults role="alert" { ul { @for fault in &list.faults { li { (fault) } } } }
        }
        @if !ranking.ranked.is_empty() {
            @let (best, others) = ranking.ranked.split_at(FIRST.min(ranking.ranked.len()));
            (table(desk, "The best on the shelf", best))
            @if !others.is_empty() {
                details {
                    summary { "The others on the list, " (others.len()) }
                    (table(desk, "The others on the list", others))
                }
            }
        }
        details {
            summary { "Why this order, and what the columns say" }
            @for line in lines.iter().skip(1) { p { (line.on_page()) } }
            @if !ranking.ranked.is_empty() {
                p.small { (explanation().on_page().replace(NO_SLAM, NOT_SLAMMING)) }
                dl.notes {
                    @for (letter, meaning) in used { div { dt { (letter) } dd { (meaning) } } }
                }
            }
        }
    }
}

fn table(desk: &Desk, name: &str, parts: &[Ranked]) -> Markup {
    html! {
        div.wide tabindex="0" role="region" aria-label=(name) {
            table {
                thead { tr {
                    th scope="col" { "part" } th.number scope="col" { "price of the pair" } th.number scope="col" { "in 100" }
                    th.number scope="col" { "pairs on hand" } th scope="col" { "does" } th scope="col" { "bears" }
                    th.number scope="col" { "used" } th scope="col" { "fits" } th scope="col" { "each plane" }
                } }
                tbody { @for part in parts { (row(desk, part)) } }
            }
        }
    }
}

fn row(desk: &Desk, part: &Ranked) -> Markup {
    let judged = |value: fn(&Judged) -> String| part.judged.as_ref().map_or("–".to_owned(), value);
    let word = pair_word(part.part.pair());
    let try_it = with(&desk.ask, "planes", &word);
    html! {
        tr {
            th scope="row" {
                @match try_it {
                    Some(link) => a href=(link) title="Try it on the boat" { (part.part.name) },
                    None => (part.part.name),
                }
                @if let Err(error) = &part.judged { span.hint { (error) } }
            }
            td.number { (money(part.pair_price(), &part.part.price.currency)) }
            td.number { (judged(in_hundred)) }
            td.number { (on_hand(part)) }
            td { (does_text(part)) }
            td { (bears(part).replace(NO_SLAM, NOT_SLAMMING)) @if !letters(part).is_empty() { " (" (letters(part)) ")" } }
            td.number { (judged(most_used)) }
            td { (fits(part, desk.units)) }
            td { (part.part.pair().text(desk.units)) }
        }
    }
}
