//! What a part bears, in one word each and with what to do.

use uom::si::f64::Velocity;

use super::{Loads, speed_text};
use crate::boat::degrees;
use crate::document::{Block, Column, Table, fixed};
use crate::plane::strength::Verdict;
use crate::stock::PartLoads;
use crate::stock::rank::{remedy, unsafe_text};

/// What the part bears at all speeds; nothing for a pair that is no part.
#[must_use]
pub fn verdict(loads: &Loads<'_>) -> Vec<Block> {
    if let Some(name) = &loads.found.not_described {
        return vec![
            Block::Section("What it bears".to_owned()),
            Block::Paragraph(format!(
                "NOT KNOWN: the stock list gives of {name} nothing but its size, so that nobody can say here whether its plate, screws and actuators bear the loads below. Ask its maker what it bears, and hold that against them before it is fitted."
            )),
        ];
    }
    let Some(view) = &loads.found.part else { return Vec::new() };
    vec![
        Block::Section("What it bears".to_owned()),
        Block::Paragraph(sentence(loads, view, true)),
        Block::Table(table(loads, view)),
    ]
}

/// What is borne, and what to do about what is not.
pub(super) fn sentence(loads: &Loads<'_>, view: &PartLoads, with_remedy: bool) -> String {
    let strength = &view.strength;
    let screws = if strength.covers_screws() {
        ""
    } else {
        " The screws are NOT COVERED by this: through-bolt the plane with backing plates, or have the builder judge its fastening."
    };
    let verdict = match strength.verdict() {
        Verdict::Bears => "At every deflection that is allowed it bears both steady running and slamming, each with its safety factor.".to_owned(),
        Verdict::NoSlammingAllowance => {
            let lacks = "NO ALLOWANCE FOR SLAMMING: at the deflections allowed it bears steady running with its safety factor, and not the design load.";
            match remedy(&view.gear, strength, loads.units).filter(|_| with_remedy) {
                Some(remedy) => format!("{lacks} Before it is fitted: {remedy}."),
                None => format!("{lacks} --full says what to change before it is fitted."),
            }
        }
        Verdict::Unsafe => format!(
            "UNSAFE on this boat: {}. Do not fit it as it comes.",
            unsafe_text(strength, loads.units).unwrap_or_default()
        ),
    };
    format!("{verdict}{screws}")
}

/// Plate, screws and actuators, each where it is worst off.
pub(super) fn table(loads: &Loads<'_>, view: &PartLoads) -> Table {
    let checks = &view.strength.checks;
    let unit = loads.units.speed;
    let percent = |share: Option<f64>| share.map(|share| 100.0 * share);
    let numbers = |value: &dyn Fn(usize) -> Option<f64>, decimals| {
        fixed(&(0..checks.len()).map(value).collect::<Vec<_>>(), decimals)
    };
    let words = |value: &dyn Fn(usize) -> String| (0..checks.len()).map(value).collect();
    Table {
        columns: vec![
            Column::words("worst off", words(&|i| checks[i].bearer.text().to_owned())),
            Column::numbers("at", unit.symbol(), numbers(&|i| Some(unit.value(checks[i].speed)), 1)),
            Column::numbers("down", "deg", numbers(&|i| Some(degrees(checks[i].deflection)), 1)),
            Column::numbers("steady", "%", numbers(&|i| percent(checks[i].steady), 0)),
            Column::numbers("slamming", "%", numbers(&|i| percent(checks[i].slamming), 0)),
            Column::words("verdict", words(&|i| word(checks[i].verdict()))),
        ],
        notes: vec![
            "'steady' and 'slamming' are what the expected and the design load take of what is borne with its safety factor, at the deflection allowed, at the worst of twelve speeds to top speed.".to_owned(),
        ],
        ..Table::default()
    }
}

/// A verdict as a word of a table.
pub(super) fn word(verdict: Option<Verdict>) -> String {
    match verdict {
        Some(Verdict::Unsafe) => "UNSAFE".to_owned(),
        Some(verdict) => verdict.text().to_owned(),
        None => "not covered".to_owned(),
    }
}

/// A speed up to which something holds.
pub(super) fn up_to(loads: &Loads<'_>, speed: Velocity) -> String {
    if !speed.value.is_finite() || speed >= loads.boat.drive().top_speed {
        "at all speeds to top speed".to_owned()
    } else {
        format!("only up to {}", speed_text(loads, speed))
    }
}
