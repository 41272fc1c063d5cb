//! What must be known before the numbers are leant on.

use uom::si::f64::Velocity;

use super::{Loads, section, speed_text};
use crate::document::Block;
use crate::flag::Standing;
use crate::plane::hinge::HingeFlag;

/// What closes every page that shows loads.
pub(super) const HANDLING: [&str; 4] = [
    "Planes are moved under way with large forces: keep hands clear, let the pressure off and disconnect the battery before any work.",
    "Only load from below is looked at: running astern, grounding, ropes, trailers and straps are not.",
    "Screws are judged for being pulled out only, not for shear, rot or fatigue.",
    "A hole below the waterline can sink a boat: bed and seal every one, and leave doubt about the transom to the builder or a surveyor.",
];

/// Cautions for whoever works on planes; they belong on every page that shows loads.
#[must_use]
pub fn handling() -> Vec<Block> {
    vec![Block::Caution {
        title: "Before any work on planes".to_owned(),
        points: HANDLING.map(str::to_owned).to_vec(),
    }]
}

/// What was outside a tested range, where nothing is shown, and which values of the file look unusual.
#[must_use]
pub fn flags(loads: &Loads<'_>) -> Vec<Block> {
    let found = loads.found;
    let mut lines = untested(loads);
    let shown = |speed: &Velocity| found.loads.iter().any(|load| load.speed == *speed);
    for speed in found.speeds.iter().filter(|speed| !shown(speed)) {
        lines.push(format!(
            "At {} she does not plane or finds no balance; nothing is shown.",
            speed_text(loads, *speed)
        ));
    }
    if lines.is_empty() && loads.warnings.is_empty() {
        return Vec::new();
    }
    let mut blocks = section("Notes", lines);
    if !loads.warnings.is_empty() {
        blocks.push(Block::Warnings(loads.warnings.iter().map(ToString::to_string).collect()));
    }
    blocks
}

/// What was outside a tested range, each once.
fn untested(loads: &Loads<'_>) -> Vec<String> {
    met(loads).into_iter().map(flag_text).collect()
}

/// The same in one line of words; nothing where all was tested.
pub(super) fn untested_in_short(loads: &Loads<'_>) -> Option<String> {
    let flags = met(loads).into_iter().filter(|flag| flag.standing() == Standing::Untested);
    let meanings: Vec<&str> = flags.map(meaning).collect();
    (!meanings.is_empty()).then(|| format!("UNTESTED at some speeds: {}.", meanings.join("; ")))
}

fn met(loads: &Loads<'_>) -> Vec<HingeFlag> {
    let mut flags: Vec<HingeFlag> = Vec::new();
    for flag in loads.found.loads.iter().flat_map(|load| &load.flags) {
        if !flags.contains(flag) {
            flags.push(*flag);
        }
    }
    flags
}

const fn meaning(flag: HingeFlag) -> &'static str {
    match flag {
        HingeFlag::AngleBeyondTests => {
            "deflection beyond 15 deg or trim beyond 10 deg, the most that was tested with planes"
        }
        HingeFlag::SpeedBeyondTests => {
            "planes were tested between speed coefficients (Cv) of 2 and 7, and outside them the loads are extended"
        }
        HingeFlag::ChordBeyondTests => {
            "the chord is more than a tenth of the wetted length, the most that was tested"
        }
        HingeFlag::AspectOutside => {
            "beam over wetted length is outside what the trim's share in the cross-check was worked out for"
        }
        HingeFlag::PlateDry => "the plane is up; it runs dry and carries nothing",
    }
}

fn flag_text(flag: HingeFlag) -> String {
    format!("{}: {}.", flag.standing().label(flag.word()), meaning(flag))
}
