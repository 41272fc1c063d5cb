//! The shelf ranked for the boat at the desk.

use super::settings;
use crate::boat::Boat;
use crate::doubt::Drawn;
use crate::stock::{Ranked, Ranking, Standing, StockList, assess, parse_stock, rank_for};
use crate::web::ask::{Ask, shown_name};
use crate::web::demo;

/// Parts of a list that this page ranks.
const MOST_PARTS: usize = 200;

/// A stock list and its order for the boat, or why there is none.
pub(in crate::web) struct ShelfAnswer {
    /// Name of the list.
    pub name: String,
    /// Whether it is the invented one that the program carries.
    pub is_demo: bool,
    pub ranked: Result<(StockList, Ranking), ShelfFault>,
}

/// What is wrong with a list, and what to do.
#[derive(Debug)]
pub(in crate::web) struct ShelfFault {
    pub problem: String,
    pub help: String,
}

impl ShelfAnswer {
    /// The first parts that can be fitted and have room.
    pub fn first(&self, count: usize) -> impl Iterator<Item = &Ranked> {
        let ranked = self.ranked.as_ref().map(|(_, ranking)| ranking.ranked.as_slice());
        let usable = |ranked: &&Ranked| ranked.standing <= Standing::Misses;
        ranked.unwrap_or_default().iter().filter(usable).take(count)
    }
}

/// A list that was read, or what is wrong with it.
type Listed = Result<StockList, ShelfFault>;

/// The list that a request names, ranked; none when it names none.
pub(in crate::web) fn shelf(ask: &Ask, boats: &[Boat]) -> Option<ShelfAnswer> {
    let (name, list) = list(ask)?;
    let is_demo = is_demo(ask);
    Some(ShelfAnswer {
        name,
        is_demo,
        ranked: list.and_then(|list| ranked(list, boats, ask.drawn())),
    })
}

/// The list that a request names, with its name; that which the server was started with when it names none.
pub(super) fn list(ask: &Ask) -> Option<(String, Listed)> {
    if let Some(text) = ask.fields.get("stock_text") {
        let name = shown_name(ask.fields.get("stock_name"), "stock.csv");
        let list = read(&name, text);
        return Some((name, list));
    }
    if is_demo(ask) {
        return Some((demo::STOCK_FILE.to_owned(), read(demo::STOCK_FILE, demo::STOCK)));
    }
    let list = ask.given_stock.as_deref()?;
    let name = shown_name(Some(&list.name), "stock.csv");
    let list = short_enough(StockList { name: name.clone(), ..list.clone() });
    Some((name, list))
}

fn is_demo(ask: &Ask) -> bool {
    !ask.fields.has("stock_text") && ask.fields.get("stock") == Some("demo")
}

fn read(name: &str, text: &str) -> Listed {
    let list = parse_stock(name, text).map_err(|error| ShelfFault {
        problem: error.to_string(),
        help: miette::Diagnostic::help(&error).map_or_else(String::new, |help| help.to_string()),
    })?;
    short_enough(list)
}

fn short_enough(list: StockList) -> Listed {
    let name = &list.name;
    if list.parts.len() <= MOST_PARTS {
        return Ok(list);
    }
    Err(ShelfFault {
        problem: format!(
            "{name}: {} parts are more than the {MOST_PARTS} that this page ranks",
            list.parts.len()
        ),
        help: "leave out those that are out of the question, or use the command line".to_owned(),
    })
}

fn ranked(
    list: StockList,
    boats: &[Boat],
    drawn: Drawn,
) -> Result<(StockList, Ranking), ShelfFault> {
    let ranking = rank_for(boats, &settings(), &list, &assess::Settings::default(), drawn);
    ranking.map(|ranking| (list, ranking)).map_err(|fault| ShelfFault {
        problem: format!("{}: {}", fault.key, fault.problem),
        help: fault.remedy,
    })
}
