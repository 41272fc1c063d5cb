//! Stock lists for the commands that take one: what is wrong with a list is said once, together.

use std::path::Path;

use super::Failure;
use crate::boat::Fault;
use crate::stock::{Part, StockList, read_stock};

/// Reads a list; its faults go to the error stream and the rest is used.
pub(super) fn list(path: &Path) -> Result<StockList, Failure> {
    let list = read_stock(path)?;
    for fault in &list.faults {
        eprintln!("warning: {}: {fault}", list.name);
    }
    Ok(list)
}

/// The part of that name.
pub(super) fn part(path: &Path, name: &str) -> Result<Part, Failure> {
    named(&list(path)?, name)
}

/// The parts of those names, in their order.
pub(super) fn parts(path: &Path, names: &[String]) -> Result<Vec<Part>, Failure> {
    let list = list(path)?;
    names.iter().map(|name| named(&list, name)).collect()
}

fn named(list: &StockList, name: &str) -> Result<Part, Failure> {
    let same = |part: &&Part| part.name.to_lowercase() == name.trim().to_lowercase();
    if let Some(part) = list.parts.iter().find(same) {
        return Ok(part.clone());
    }
    let known: Vec<&str> = list.parts.iter().map(|part| part.name.as_str()).collect();
    Err(Failure::Fault(Fault {
        key: "run.part".to_owned(),
        problem: format!("{} has no part '{name}'", list.name),
        remedy: format!("its parts are: {}", known.join("; ")),
    }))
}
