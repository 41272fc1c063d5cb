//! The shelf ranked for the boat at the desk.

use super::settings;
use crate::boat::Boat;
use crate::doubt::{Drawn, Progress};
use crate::stock::{Ranked, Shelf, Standing, StockList, assess, rank_for};
use crate::web::ask::{Ask, shown_name};
use crate::web::demo;
use crate::web::list::{Listed, ShelfFault, UNNAMED, read_list, short_enough};

/// A stock list and its order for the boat, or why there is none.
#[derive(Debug)]
pub(in crate::web) struct ShelfAnswer {
    /// Name of the list.
    pub name: String,
    /// Whether it is the invented one that the program carries.
    pub is_demo: bool,
    pub ranked: Result<Shelf, ShelfFault>,
}

impl ShelfAnswer {
    /// The first parts that can be fitted and have room.
    pub fn first(&self, count: usize) -> impl Iterator<Item = &Ranked> {
        let ranked = self.ranked.as_ref().map(|shelf| shelf.ranking.ranked.as_slice());
        let usable = |ranked: &&Ranked| ranked.standing <= Standing::Misses;
        ranked.unwrap_or_default().iter().filter(usable).take(count)
    }
}

/// The list that a request names, ranked; none when it names none.
pub(super) fn shelf(ask: &Ask, boats: &[Boat], progress: Progress<'_>) -> Option<ShelfAnswer> {
    let (name, list) = list(ask)?;
    let is_demo = is_demo(ask);
    Some(ShelfAnswer {
        name,
        is_demo,
        ranked: list.and_then(|list| ranked(list, boats, ask.drawn(), progress)),
    })
}

/// Name and text of the list that a request names: what tells one from another. Of that which the server was started with there is only one.
pub(super) fn named(ask: &Ask) -> Option<(String, String)> {
    if let Some(text) = ask.fields.get("stock_text") {
        return Some((shown_name(ask.fields.get("stock_name"), UNNAMED), text.to_owned()));
    }
    if is_demo(ask) {
        return Some((demo::STOCK_FILE.to_owned(), demo::STOCK.to_owned()));
    }
    ask.given_stock.as_deref().map(|list| (list.name.clone(), String::new()))
}

/// The list that a request names, with its name; that which the server was started with when it names none.
fn list(ask: &Ask) -> Option<(String, Listed)> {
    if let Some(text) = ask.fields.get("stock_text") {
        let name = shown_name(ask.fields.get("stock_name"), UNNAMED);
        let list = read_list(&name, text);
        return Some((name, list));
    }
    if is_demo(ask) {
        return Some((demo::STOCK_FILE.to_owned(), read_list(demo::STOCK_FILE, demo::STOCK)));
    }
    let list = ask.given_stock.as_deref()?;
    let name = shown_name(Some(&list.name), UNNAMED);
    let list = short_enough(StockList { name: name.clone(), ..list.clone() });
    Some((name, list))
}

fn is_demo(ask: &Ask) -> bool {
    !ask.fields.has("stock_text") && ask.fields.get("stock") == Some("demo")
}

fn ranked(
    list: StockList,
    boats: &[Boat],
    drawn: Drawn,
    progress: Progress<'_>,
) -> Result<Shelf, ShelfFault> {
    let gear = assess::Settings::default();
    let ranking = rank_for(boats, &settings(), &list, &gear, drawn, progress);
    ranking.map(|ranking| Shelf { list, ranking }).map_err(|fault| ShelfFault {
        problem: format!("{}: {}", fault.key, fault.problem),
        help: fault.remedy,
    })
}
