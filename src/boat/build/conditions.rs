//! Loading conditions: what each is made of, and whether the boat is possible in it.

use super::findings::Findings;
use super::hull::{sum_of, with_items};
use crate::boat::condition::{ALL, AS_LISTED, ConditionInput, LoadChange, same_name};
use crate::boat::{BoatInput, LoadItem, LoadingCondition, Weight, WeightInput};
use crate::spelling;
use crate::units::quoted;

/// The condition that the load table describes.
pub(super) fn as_listed(input: &BoatInput, weight: Weight) -> LoadingCondition {
    LoadingCondition {
        name: input.base_condition.clone().unwrap_or_else(|| AS_LISTED.to_owned()),
        about: None,
        weight,
    }
}

/// Checks the names and entries of every condition against the load table and each other.
pub(super) fn check(findings: &mut Findings, input: &BoatInput) {
    let base = input.base_condition.as_deref().unwrap_or(AS_LISTED);
    if input.base_condition.is_some() {
        check_name(findings, "base_condition", base);
    }
    for (index, condition) in input.conditions.iter().enumerate() {
        let key = |plain: &str| format!("condition[{index}].{plain}");
        check_name(findings, &key("name"), &condition.name);
        let earlier = input.conditions[..index].iter().map(|other| other.name.as_str());
        if std::iter::once(base).chain(earlier).any(|other| same_name(other, &condition.name)) {
            findings.fault(
                &key("name"),
                format!("`{}` is the name of another condition", quoted(&condition.name)),
                "give each condition a name of its own; that of the loads as they are listed is base_condition, `as listed` when it is left out".to_owned(),
            );
        }
        if condition.without.is_empty() && condition.loads.is_empty() {
            findings.fault(
                &format!("condition[{index}]"),
                "nothing differs from the loads as they are listed".to_owned(),
                "say what is not aboard, without = [\"fuel\"], or what is filled, moved or added, below [[condition.load]]".to_owned(),
            );
        }
        Entries { input, condition, index }.check(findings);
    }
}

fn check_name(findings: &mut Findings, key: &str, name: &str) {
    let fault = if name.trim().is_empty() {
        "a condition needs a name".to_owned()
    } else if same_name(name, ALL) {
        format!("`{}` stands for every condition", quoted(name))
    } else {
        return;
    };
    findings.fault(
        key,
        fault,
        "give it a name by which it can be asked for, such as `light`".to_owned(),
    );
}

/// The entries of one condition.
struct Entries<'a> {
    input: &'a BoatInput,
    condition: &'a ConditionInput,
    index: usize,
}

impl Entries<'_> {
    fn listed(&self) -> &[LoadItem] {
        match &self.input.weight {
            WeightInput::Loads(items) => items,
            WeightInput::Totals { .. } => &[],
        }
    }

    fn check(&self, findings: &mut Findings) {
        let key = format!("condition[{}].without", self.index);
        for name in &self.condition.without {
            self.check_left_out(findings, &key, name);
        }
        for (index, change) in self.condition.loads.iter().enumerate() {
            let path = format!("condition[{}].load[{index}]", self.index);
            let key = |plain: &str| format!("{path}.{plain}");
            findings.check_all(&path, change.measures());
            let item = quoted(&change.item);
            if self.condition.loads[..index]
                .iter()
                .any(|other| same_name(&other.item, &change.item))
            {
                findings.fault(
                    &key("item"),
                    format!("`{item}` has two entries in this condition"),
                    "put what they say into one".to_owned(),
                );
            } else if self.condition.without.iter().any(|name| same_name(name, &change.item)) {
                findings.fault(
                    &key("item"),
                    format!("`{item}` is left out by `without`, and has an entry"),
                    "delete one of the two".to_owned(),
                );
            } else {
                self.check_change(findings, &key("item"), change);
            }
        }
    }

    fn check_left_out(&self, findings: &mut Findings, key: &str, name: &str) {
        if matches!(self.input.weight, WeightInput::Totals { .. }) {
            findings.fault(
                key,
                format!("`{}` cannot be left out of totals", quoted(name)),
                "list the items below [[load]] in place of [weight], or make the totals those of the light boat and add what is aboard below [[condition.load]]".to_owned(),
            );
            return;
        }
        match self.listed().iter().filter(|load| same_name(&load.item, name)).count() {
            0 => findings.fault(
                key,
                format!("the load table has no item `{}`", quoted(name)),
                self.items_known(name),
            ),
            1 => {}
            count => findings.fault(key, several(name, count), APART.to_owned()),
        }
    }

    fn check_change(&self, findings: &mut Findings, key: &str, change: &LoadChange) {
        let item = quoted(&change.item);
        let count = self.listed().iter().filter(|load| same_name(&load.item, &change.item)).count();
        let is_blank = change.mass.is_none()
            && change.forward.is_none()
            && change.up.is_none()
            && change.starboard.is_none();
        match count {
            0 if item.trim().is_empty() => {
                findings.fault(key, "the item has no name".to_owned(), "say what it is".to_owned());
            }
            0 if change.added().is_none() => {
                let lacking = [
                    ("mass", change.mass.is_none()),
                    ("forward", change.forward.is_none()),
                    ("up", change.up.is_none()),
                ];
                let lacking: Vec<&str> =
                    lacking.into_iter().filter_map(|(name, lacks)| lacks.then_some(name)).collect();
                let remedy = if self.listed().is_empty() {
                    "give mass, forward and up of what is added to the totals of [weight]"
                        .to_owned()
                } else {
                    format!(
                        "an item that is added needs mass, forward and up; {}",
                        self.items_known(&change.item)
                    )
                };
                findings.fault(
                    key,
                    format!(
                        "`{item}` is not in the load table, and has no {}",
                        lacking.join(" and no ")
                    ),
                    remedy,
                );
            }
            0 => {}
            1 if is_blank => findings.fault(
                key,
                format!("nothing differs for `{item}`"),
                "give the mass, forward, up or starboard that it has in this condition".to_owned(),
            ),
            1 => {}
            count => findings.fault(key, several(&change.item, count), APART.to_owned()),
        }
    }

    /// The item meant, and all there are.
    fn items_known(&self, written: &str) -> String {
        let names = self.listed().iter().map(|load| load.item.as_str());
        let near = spelling::nearest(written, names.clone()).map_or("", |(name, _)| name);
        let all: Vec<String> = names.map(|name| format!("`{name}`")).collect();
        format!("did you mean `{near}`? The items are {}", all.join(", "))
    }
}

fn several(name: &str, count: usize) -> String {
    format!("{count} items of the load table are called `{}`", quoted(name))
}

const APART: &str = "give each item a name of its own";

/// Mass and centre of gravity in a condition; only for one whose entries were checked.
pub(super) fn weight(
    findings: &mut Findings,
    input: &BoatInput,
    listed: &Weight,
    index: usize,
) -> Weight {
    let aboard = aboard(input, Some(index));
    let mut weight = match &input.weight {
        WeightInput::Loads(_) => sum_of(findings, &aboard),
        WeightInput::Totals { .. } => return with_items(listed, &aboard),
    };
    if let Some(trial) = input.trial.as_ref().filter(|_| weight.mass.value > 0.0) {
        weight.lcg += trial.lcg_shift_at(weight.mass, listed.mass);
    }
    weight
}

/// The items aboard in a condition, or as they are listed; where totals are given only those added to them.
pub(in crate::boat) fn aboard(input: &BoatInput, index: Option<usize>) -> Vec<LoadItem> {
    let items: &[LoadItem] = match &input.weight {
        WeightInput::Loads(items) => items,
        WeightInput::Totals { .. } => &[],
    };
    let Some(condition) = index.and_then(|index| input.conditions.get(index)) else {
        return items.to_vec();
    };
    let change_of =
        |item: &str| condition.loads.iter().find(|change| same_name(&change.item, item));
    let aboard = items
        .iter()
        .filter(|load| !condition.without.iter().any(|name| same_name(name, &load.item)));
    let mut loaded: Vec<LoadItem> = aboard
        .map(|load| {
            change_of(&load.item).map_or_else(|| load.clone(), |change| change.applied_to(load))
        })
        .collect();
    let is_new =
        |change: &&LoadChange| !items.iter().any(|load| same_name(&load.item, &change.item));
    loaded.extend(condition.loads.iter().filter(is_new).filter_map(LoadChange::added));
    loaded
}
