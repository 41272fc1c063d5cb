//! The loading conditions of a boat file.

use super::values::Values;
use crate::boat::{ConditionInput, LoadChange};

impl Values<'_> {
    /// Every condition; nothing when one of them has a fault that leaves it without a name or an item.
    pub(super) fn conditions(&mut self) -> Option<Vec<ConditionInput>> {
        let all: Vec<_> = (0..self.count("condition")).map(|index| self.condition(index)).collect();
        all.into_iter().collect()
    }

    fn condition(&mut self, index: usize) -> Option<ConditionInput> {
        let key = |name: &str| format!("condition[{index}].{name}");
        let name = self.needed_text(&key("name"));
        let about = self.text(&key("about"));
        let without = self.names(&key("without"));
        let loads: Vec<_> = (0..self.count(&key("load")))
            .map(|index| self.load_change(&format!("{}[{index}]", key("load"))))
            .collect();
        let loads = loads.into_iter().collect::<Option<_>>()?;
        Some(ConditionInput { name: name?, about, without, loads })
    }

    fn load_change(&mut self, path: &str) -> Option<LoadChange> {
        let key = |name: &str| format!("{path}.{name}");
        let item = self.needed_text(&key("item"));
        Some(LoadChange {
            mass: self.value(&key("mass")),
            forward: self.value(&key("forward")),
            up: self.value(&key("up")),
            starboard: self.value(&key("starboard")),
            item: item?,
        })
    }
}
