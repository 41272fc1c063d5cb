//! Duties as situations on the water, in words without formulas.

use super::gather::Gathered;
use super::say;
use crate::boat::degrees;
use crate::sentence::duty::{self, Story};
use crate::size::{DutyResult, Reached};
use uom::si::f64::Angle;

/// What a duty is about, as one sentence of a story.
pub(super) fn situation(result: &DutyResult, gathered: &Gathered) -> String {
    let wishes = match result.generated {
        true => gathered.boat().input().wishes.as_slice(),
        false => &[],
    };
    let is_past_the_hump = is_past_the_hump(result, gathered);
    let story = Story { wishes, is_past_the_hump, units: gathered.size.units };
    duty::situation(&result.duty, story).on_page()
}

/// Whether it is asked for from a speed past her hump on, in the loading where it asks most.
fn is_past_the_hump(result: &DutyResult, gathered: &Gathered) -> bool {
    let conditions = &gathered.size.suggestion.conditions;
    let own = conditions.iter().find(|own| own.condition == result.condition);
    let from = result.duty.speeds().slowest_given();
    own.zip(from).is_some_and(|(own, (_, from))| from > own.hump_speed)
}

/// What the bare boat and the pair reach, in one sentence; nothing where the boat has no balance.
pub(super) fn reached(result: &DutyResult) -> Option<String> {
    let both = |bare: Option<Angle>, with: Option<Angle>| Some((bare?, with?));
    match result.reached {
        Reached::Trim { bare, with } => both(bare, with).map(|(bare, with)| {
            format!(
                "With planes up the bow rises to {}; {} {}.",
                say::angle(bare),
                match result.met {
                    true => "it is done once they bring it down to",
                    false => "all the way down they bring it to",
                },
                say::angle(with)
            )
        }),
        Reached::Margin { bare, with } => both(bare, with).map(|(bare, with)| {
            let margin = |margin: Angle| match degrees(margin) {
                over if over < 0.0 => format!("{} over the limit", say::angle(-margin)),
                _ => format!("{} under it", say::angle(margin)),
            };
            format!(
                "With planes up she runs {}; with them set for it, {}.",
                margin(bare),
                margin(with)
            )
        }),
        Reached::Resistance { bare: Some(bare), with: Some(with), .. } => {
            let change = 100.0 * ((with / bare).value - 1.0);
            Some(format!(
                "Set for it, the planes change her resistance by {} % beside planes up.",
                crate::units::number_with_decimals(change, 1)
            ))
        }
        Reached::Difference { least, largest } => {
            let [one, other] = [least, largest].map(|a| degrees(a).abs());
            let (low, high) = if one < other { (one, other) } else { (other, one) };
            Some(format!(
                "The plane on the low side goes {} to {}° deeper than the other.",
                crate::units::number_with_decimals(low, 1),
                crate::units::number_with_decimals(high, 1)
            ))
        }
        Reached::Resistance { .. } => None,
    }
}
