//! The answer as text for a person.

use super::estimates::estimates;
use super::header::{header, significant_digits};
use super::notes::{Letters, outcomes_of};
use super::{Run, Set, budget, opinions, tables};
use crate::balance::sensitivity::Landmarks;
use crate::balance::{Point, Running, TRIM_FLOOR_DEG};
use crate::boat::{Measure, degrees};
use crate::cli::charts_text;
use crate::cli::screen::{CAUTION, Screen, paragraph};
use crate::units::number_with_decimals;

/// All of it, one loading condition after the other.
pub(super) fn report(runs: &[Run], with_budget: bool, screen: Screen) -> String {
    let blocks: Vec<String> = runs.iter().map(|run| block(run, with_budget, screen)).collect();
    format!("{}\n{}", blocks.join("\n\n"), paragraph("", CAUTION))
}

/// One loading condition: head, summary, tables, notes.
fn block(run: &Run, with_budget: bool, screen: Screen) -> String {
    let letters = Letters::of(run);
    let mut text = header(run, screen);
    text.push_str(&estimates(run, screen));
    text.push_str(&in_short(run, screen));
    if !run.opinions.is_empty() {
        text.push_str(&opinions::report(run, &letters, screen));
        text.push_str(&notes(run, &letters, screen));
        return text;
    }
    if run.sets.len() > 1 {
        text.push_str(&tables::side_by_side(run, screen));
    }
    for set in &run.sets {
        text.push_str(&tables::of_set(run, set, &letters, screen));
    }
    if with_budget {
        for point in run.points() {
            text.push_str(&budget::budget(run, point, screen));
        }
    }
    text.push_str(&notes(run, &letters, screen));
    text
}

/// `5 deg`.
pub(super) fn deflection_text(set: &Set) -> String {
    Measure::Angle(set.deflection).to_string()
}

fn trim_text(running: &Running) -> String {
    format!("{} deg", number_with_decimals(degrees(running.trim), 1))
}

fn in_short(run: &Run, screen: Screen) -> String {
    let mut text = format!("\n{}\n", screen.heading("In short"));
    for set in &run.sets {
        let who = match run.boat().planes() {
            None => "Without planes".to_owned(),
            Some(_) => format!("Planes at {}", deflection_text(set)),
        };
        text.push_str(&paragraph(&format!("  {who}: "), &sentences(run, &set.landmarks)));
    }
    text
}

/// The hump, top speed, and where she may porpoise.
fn sentences(run: &Run, landmarks: &Landmarks) -> String {
    let speed = |point: &Point| {
        let unit = run.units.speed;
        format!("{} {}", number_with_decimals(unit.value(point.speed), 1), unit.symbol())
    };
    let drag = |running: &Running| {
        let unit = run.units.force;
        format!("{} {}", significant_digits(unit.value(running.resistance), 4), unit.symbol())
    };
    let mut text = match landmarks.hump.as_ref().and_then(|hump| Some((hump, hump.running?))) {
        None => "she runs at no speed from the start of planing to top speed. ".to_owned(),
        Some((hump, running)) => {
            let what = if hump.speed_coefficient > 1.001 {
                "the hump, where the bow rides highest,"
            } else {
                "the bow rides highest where planing starts; that"
            };
            format!(
                "{what} is at {} (Cv {:.2}) with {} of trim and {} of resistance. ",
                speed(hump),
                hump.speed_coefficient,
                trim_text(&running),
                drag(&running)
            )
        }
    };
    let top = &landmarks.top;
    match top.running {
        None => text.push_str(&format!("At top speed, {}: {}", speed(top), top.outcome.meaning())),
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

fn too_little(running: &Running) -> &'static str {
    if degrees(running.trim) < TRIM_FLOOR_DEG {
        " (TOO LITTLE: under 2 deg a bow digs and steers)"
    } else {
        ""
    }
}

fn share_of_power(run: &Run, running: &Running) -> String {
    run.boat().drive().power.map_or_else(String::new, |power| {
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

/// Outcomes, flags, unusual values and files.
fn notes(run: &Run, letters: &Letters, screen: Screen) -> String {
    let mut text = String::new();
    for outcome in outcomes_of(run) {
        text.push_str(&paragraph(&format!("  {outcome}: "), outcome.meaning()));
    }
    for (letter, flag) in letters.each() {
        text.push_str(&paragraph(&format!("  {letter}  "), &format!("{flag}: {}", flag.meaning())));
    }
    for warning in &run.file.warnings {
        text.push_str(&paragraph("  ! ", &screen.warning(&warning.to_string())));
    }
    text.push_str(&charts_text(&run.charts));
    if !text.is_empty() {
        text.insert_str(0, &format!("\n{}\n", screen.heading("Notes")));
    }
    text
}
