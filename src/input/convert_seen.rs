//! Trims that were read on the water.

use super::desk::Desk;
use crate::boat::Seen;

/// One reading, or nothing when it has a fault.
pub(super) fn seen(desk: &mut Desk<'_>, index: usize) -> Option<Seen> {
    let key = |name: &str| format!("seen[{index}].{name}");
    let speed = desk.speed(&key("speed"));
    let speed = desk.need(&key("speed"), speed);
    let deflection = desk.angle(&key("deflection")).unwrap_or_default();
    let trim = desk.angle(&key("trim"));
    let trim = desk.need(&key("trim"), trim);
    let by = desk.angle(&key("by"));
    let condition = desk.text(&key("condition"));
    Some(Seen { speed: speed?, deflection, trim: trim?, by, condition, planes: None })
}

#[cfg(test)]
#[path = "seen_tests.rs"]
mod tests;
