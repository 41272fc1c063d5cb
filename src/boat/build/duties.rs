//! The planes, what they must do, and the limits on their size.

use super::findings::Findings;
use crate::boat::condition::{self, LoadingCondition, same_name};
use crate::boat::keys::or_default;
use crate::boat::measure::plain_number;
use crate::boat::{BoatInput, Duty, DutyInput, Hull, Measure, Sizing, SizingInput};

/// The limits of a size, each as given or as its row says.
pub(super) fn sizing(findings: &mut Findings, given: &SizingInput) -> Sizing {
    let sizing = Sizing {
        largest_deflection: or_default(given.largest_deflection, "sizing.largest_deflection"),
        share: or_default(given.share, "sizing.share"),
        chance: or_default(given.chance, "sizing.chance"),
        smallest_chord: or_default(given.smallest_chord, "sizing.smallest_chord"),
        smallest_aspect: or_default(given.smallest_aspect, "sizing.smallest_aspect"),
        largest_aspect: or_default(given.largest_aspect, "sizing.largest_aspect"),
        round_to: or_default(given.round_to, "sizing.round_to"),
    };
    findings.check_all("sizing", given.measures());
    if sizing.smallest_aspect > sizing.largest_aspect {
        findings.fault(
            "sizing.largest_aspect",
            format!(
                "{} is below smallest_aspect, {}",
                plain_number(sizing.largest_aspect),
                plain_number(sizing.smallest_aspect)
            ),
            "give a largest_aspect of at least smallest_aspect".to_owned(),
        );
    }
    sizing
}

pub(super) fn planes(findings: &mut Findings, input: &BoatInput, hull: &Hull) {
    findings.check_if("planes.effectiveness", input.plane_effectiveness.map(Measure::Number));
    let Some(pair) = input.planes else { return };
    findings.check_all("planes", pair.measures());
    let bottom_edge = hull.chine_beam / hull.deadrise.cos();
    if 2.0 * pair.span > bottom_edge {
        findings.fault(
            "planes.span",
            format!(
                "two planes of {} are wider than the bottom edge, {}",
                Measure::Length(pair.span),
                Measure::Length(bottom_edge)
            ),
            "span is that of ONE plane, along the bottom edge".to_owned(),
        );
    }
}

/// Whether a duty holds in conditions that the boat has.
pub(super) fn check_conditions(
    findings: &mut Findings,
    index: usize,
    asked: &DutyInput,
    conditions: &[LoadingCondition],
) {
    let key = format!("duty[{index}].condition");
    let names = conditions.iter().map(|condition| condition.name.as_str());
    for asked in &asked.conditions {
        if !names.clone().any(|name| same_name(name, asked)) {
            findings.faults.push(condition::unknown(&key, asked, names.clone()));
        }
    }
}

/// Each value of a duty against its limits, and all of them against each other.
pub(super) fn check_duty(findings: &mut Findings, index: usize, duty: &Duty, hull: &Hull) {
    let path = format!("duty[{index}]");
    findings.check_all(&path, duty.values());
    findings.faults.extend(duty.at_odds(&path, hull));
}
