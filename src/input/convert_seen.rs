//! Trims that were read on the water.

use super::values::Values;
use crate::boat::Seen;

/// One reading, or nothing when it has a fault.
pub(super) fn seen(values: &mut Values<'_>, index: usize) -> Option<Seen> {
    let key = |name: &str| format!("seen[{index}].{name}");
    let speed = values.needed(&key("speed"));
    let deflection = values.value_or_default(&key("deflection"));
    let trim = values.needed(&key("trim"));
    let by = values.value(&key("by"));
    let condition = values.text(&key("condition"));
    Some(Seen { speed: speed?, deflection, trim: trim?, by, condition, planes: None })
}

#[cfg(test)]
#[path = "seen_tests.rs"]
mod tests;
