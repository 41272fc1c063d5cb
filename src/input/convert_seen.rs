//! Trims that were read on the water.

use super::desk::Desk;
use crate::boat::Seen;

/// One reading, or nothing when it has a fault.
pub(super) fn seen(desk: &mut Desk<'_>, index: usize) -> Option<Seen> {
    let key = |name: &str| format!("seen[{index}].{name}");
    let speed = desk.needed(&key("speed"));
    let deflection = desk.value_or_default(&key("deflection"));
    let trim = desk.needed(&key("trim"));
    let by = desk.value(&key("by"));
    let condition = desk.text(&key("condition"));
    Some(Seen { speed: speed?, deflection, trim: trim?, by, condition, planes: None })
}

#[cfg(test)]
#[path = "seen_tests.rs"]
mod tests;
