//! A stock list as this page takes it: readable, and not too long.

use crate::stock::{StockList, parse_stock};

/// Name of a list that came without one.
pub(super) const UNNAMED: &str = "stock.csv";
/// Parts of a list that this page ranks.
const MOST_PARTS: usize = 200;

/// What is wrong with a list, and what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct ShelfFault {
    pub problem: String,
    pub help: String,
}

/// A list that was read, or what is wrong with it.
pub(super) type Listed = Result<StockList, ShelfFault>;

/// A list that is short enough for this page, or what is wrong with it.
pub(super) fn read_list(name: &str, text: &str) -> Listed {
    let list = parse_stock(name, text).map_err(|error| ShelfFault {
        problem: error.to_string(),
        help: miette::Diagnostic::help(&error).map_or_else(String::new, |help| help.to_string()),
    })?;
    if list.parts.is_empty() {
        return Err(nothing_in(&list));
    }
    short_enough(list)
}

/// Why a list of which no line can be used takes the place of none.
fn nothing_in(list: &StockList) -> ShelfFault {
    let faults: Vec<String> = list.faults.iter().map(ToString::to_string).collect();
    let help = match faults.is_empty() {
        true => "write each part in a line of its own, below the headings".to_owned(),
        false => faults.join("\n"),
    };
    ShelfFault { problem: format!("{}: no line of it could be used", list.name), help }
}

/// A list, unless it is too long.
pub(super) fn short_enough(list: StockList) -> Listed {
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
