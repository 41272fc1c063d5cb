//! The run in a few sentences: the hump, top speed, and where she may porpoise.

use super::RunText;
use super::particulars::significant_digits;
use super::tables::deflection_text;
use crate::balance::sensitivity::Landmarks;
use crate::balance::sweep::Set;
use crate::balance::{HumpPlace, Point, Running, TRIM_FLOOR_DEG};
use crate::boat::degrees;
use crate::document::{Block, Fact};
use crate::tell::words::section;
use crate::units::number_with_decimals;

/// Each deflection in a few sentences.
#[must_use]
pub fn in_short(run: &RunText<'_>) -> Vec<Block> {
    let is_told = |set: &&Set| !run.is_silent || set.landmarks.hump.is_some();
    let term = |set: &Set| Fact::new(who(run, set), sentences(run, &set.landmarks));
    section("In short", vec![Block::Terms(run.sets.iter().filter(is_told).map(term).collect())])
}

/// How the planes stand.
pub(super) fn who(run: &RunText<'_>, set: &Set) -> String {
    match run.boat.planes() {
        None => "Without planes".to_owned(),
        Some(_) => format!("Planes at {}", deflection_text(set)),
    }
}

fn trim_text(running: &Running) -> String {
    format!("{} deg", number_with_decimals(degrees(running.trim), 1))
}

/// The hump, top speed, and where she may porpoise.
pub(super) fn sentences(run: &RunText<'_>, landmarks: &Landmarks) -> String {
    let speed = |point: &Point| {
        let unit = run.units.speed;
        format!("{} {}", number_with_decimals(unit.value(point.speed), 1), unit.symbol())
    };
    let drag = |running: &Running| {
        let unit = run.units.force;
        format!("{} {}", significant_digits(unit.value(running.resistance), 4), unit.symbol())
    };
    let mut text = match (&landmarks.hump, landmarks.hump_place) {
        (Some(hump), Some(place)) => at_hump(hump, place, &speed, &drag),
        _ => "she runs at no speed from the start of planing to top speed. ".to_owned(),
    };
    let top = &landmarks.top;
    match top.running {
        None => text.push_str(&format!("At top speed, {}: {}", speed(top), top.meaning())),
        Some(running) => {
            let unit = run.units.power;
            let power = significant_digits(unit.value(running.effective_power), 3);
            text.push_str(&format!(
                "At top speed, {}: {} of trim{}, {} of resistance, {power} {} of effective power{}; {}",
                speed(top),
                trim_text(&running),
                too_little(&running),
                drag(&running),
                unit.symbol(),
                share_of_power(run, &running),
                porpoising(&running)
            ));
        }
    }
    text
}

/// What she does at the hump, the speed of the largest trim with planes up.
fn at_hump(
    hump: &Point,
    place: HumpPlace,
    speed: &dyn Fn(&Point) -> String,
    drag: &dyn Fn(&Running) -> String,
) -> String {
    let where_to = match place {
        HumpPlace::PlaningStart => ", which lies where planing starts",
        HumpPlace::Inside => "",
        HumpPlace::TopSpeed => ", which she does not get over",
    };
    let head =
        format!("at the hump{where_to}, {} (Cv {:.2}): ", speed(hump), hump.speed_coefficient);
    match hump.running {
        Some(running) => {
            format!("{head}{} of trim and {} of resistance. ", trim_text(&running), drag(&running))
        }
        None => format!("{head}{} ", hump.meaning()),
    }
}

fn too_little(running: &Running) -> &'static str {
    if degrees(running.trim) < TRIM_FLOOR_DEG {
        " (TOO LITTLE: under 2 deg a bow digs and steers)"
    } else {
        ""
    }
}

fn share_of_power(run: &RunText<'_>, running: &Running) -> String {
    run.boat.drive().power.map_or_else(String::new, |power| {
        let share = (running.effective_power / power).value * 100.0;
        format!(" ({share:.0} % of the rated power; good propulsion delivers about half)")
    })
}

fn porpoising(running: &Running) -> String {
    let margin_deg = degrees(running.porpoising_margin());
    let side = if margin_deg >= 0.0 { "under" } else { "OVER" };
    let margin = number_with_decimals(margin_deg.abs(), 1);
    format!("{margin} deg {side} the lower porpoising limit.")
}
