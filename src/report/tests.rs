//! What the papers must keep.

use super::*;
use crate::document::{Block, html};
use crate::input::parse_boat;
use crate::stock::parse_stock;
use crate::units::UnitChoice;

fn gathered(name: &str, with_list: bool) -> Gathered {
    let root = env!("CARGO_MANIFEST_DIR");
    let text = std::fs::read_to_string(format!("{root}/data/boats/{name}.toml")).unwrap();
    let file = parse_boat(name, &text).unwrap();
    let boats = file.boat.in_all_conditions().unwrap();
    let stock = std::fs::read_to_string(format!("{root}/data/stock/planes.csv")).unwrap();
    let list = with_list.then(|| parse_stock("planes", stock.as_bytes()).unwrap());
    let wanted = Wanted { file, boats, list, units: UnitChoice::default(), draws: 60 };
    Gathered::of(wanted, &|_| ()).unwrap()
}
