//! Duties as a boat file gives them: each kind reads its own values ([`crate::boat::duty`]).

use super::collect::listed;
use super::values::Values;
use crate::boat::duty::{DutyKind, DutyValues, KINDS};
use crate::boat::{DutyInput, Measure, keys};

/// The duty of that index in the file; none where something is missing or wrong.
pub(super) fn duty(values: &mut Values<'_>, index: usize) -> Option<DutyInput> {
    let conditions = values.names(&format!("duty[{index}].condition"));
    let path = format!("duty[{index}].kind");
    let word = values.choice(&path);
    let kind = KINDS[values.need(&path, word)?];
    let mut below = Below { values, index };
    below.refuse_other_keys(kind);
    Some(DutyInput { duty: (kind.read)(&mut below)?, conditions })
}

/// The values that stand below one duty.
struct Below<'v, 'd> {
    values: &'v mut Values<'d>,
    index: usize,
}

impl Below<'_, '_> {
    fn path(&self, key: &str) -> String {
        format!("duty[{}].{key}", self.index)
    }

    fn refuse_other_keys(&mut self, kind: &DutyKind) {
        let Some(table) = keys::table("duty") else { return };
        for key in table.keys.iter().filter(|key| !matches!(key.name, "kind" | "condition")) {
            if !kind.keys.contains(&key.name) && self.gives(key.name) {
                let problem = format!("a duty of the kind {} has no {}", kind.word, key.name);
                self.fault(Some(key.name), &problem, &format!("it takes {}", listed(kind.keys)));
            }
        }
    }
}

impl DutyValues for Below<'_, '_> {
    fn value(&mut self, key: &str) -> Option<Measure> {
        self.values.value(&self.path(key))
    }

    fn needed_value(&mut self, key: &str) -> Option<Measure> {
        self.values.needed(&self.path(key))
    }

    fn gives(&self, key: &str) -> bool {
        self.values.document.values.contains_key(&self.path(key))
    }

    fn fault(&mut self, key: Option<&str>, problem: &str, remedy: &str) {
        let path = key.map_or_else(|| format!("duty[{}]", self.index), |key| self.path(key));
        self.values.fault_at(&path, problem.to_owned(), remedy.to_owned());
    }
}
