//! A list in sentences.

use uom::si::f64::{Angle, Torque, Velocity};

use super::super::words::{angle_text, between, section, speed_text};
use super::LevelText;
use crate::behaviour::list::side_word;
use crate::behaviour::list::{HeelAngle, LevelLimit, Levelling, StuckAnswer, Verdict};
use crate::boat::{PlanePair, degrees};
use crate::document::Block;
use crate::units::{LengthUnit, UnitChoice, number_with_decimals};

/// `1373 N m`, without a sign.
fn moment_text(moment: Torque, units: UnitChoice) -> String {
    let value = units.moment.value(moment.abs());
    format!("{} {}", number_with_decimals(value, 0), units.moment.symbol())
}

/// The side that goes down under a moment.
fn side_down(moment: Torque) -> &'static str {
    if moment.value < 0.0 { "port" } else { "starboard" }
}

/// The other side.
fn opposite(side: &'static str) -> &'static str {
    if side == "port" { "starboard" } else { "port" }
}

/// What heels her, how to level her, from which speed on, and how far she leans.
#[must_use]
pub fn in_short(told: &LevelText<'_>) -> Vec<Block> {
    section("In short", sentences(told).into_iter().map(Block::Paragraph).collect())
}

pub(super) fn sentences(told: &LevelText<'_>) -> Vec<String> {
    let units = told.units;
    let point = &told.levelled.reference;
    let speed = speed_text(point.bare.speed, units);
    let mut sentences = vec![heeled_by(told, &speed)];
    if point.moment.iter().all(|moment| moment.value == 0.0) {
        return sentences;
    }
    sentences.extend(planes_text(told));
    match &point.levelling {
        Some(levelling) => {
            let [how, room] = how_to_level(told, levelling, &speed);
            sentences.push(format!("{how}{room}"));
            sentences.push(from_which_speed(told));
        }
        None if told.levelled.planes.is_none() => sentences.push(
            "She has no planes. `planewright size` suggests a pair, and `level --planes SIZE` tries one."
                .to_owned(),
        ),
        None => sentences.push(format!("At {speed}: {}", point.bare.meaning())),
    }
    sentences.push(heel_sentence(point.heel.angle, &speed));
    sentences
}

pub(super) fn heeled_by(told: &LevelText<'_>, speed: &str) -> String {
    let [bottom, centre] = told.levelled.reference.moment;
    if bottom.value == 0.0 && centre.value == 0.0 {
        return "Nothing that is known here heels her. Ask `planewright level` with --off-centre \"90 kg at 0.8 m\" or --moment \"700 N m\", or give `starboard` to the loads of her file.".to_owned();
    }
    let units = told.units;
    let mut ends = [bottom, centre].map(|moment| units.moment.value(moment.abs()));
    ends.sort_by(f64::total_cmp);
    let moment = between(ends.map(|moment| number_with_decimals(moment, 0)), " to ");
    let duty = match (told.levelled.from_duty, told.levelled.duty_generated) {
        (true, false) => " The largest list duty of her file is among it.",
        (true, true) if told.levelled.reference.contributions.len() == 1 => {
            " That is one person of 85 kg at the starboard rail, GENERATED since her file gives no duty."
        }
        (true, true) => {
            " One person of 85 kg at the starboard rail is among it, GENERATED since her file gives no duty."
        }
        (false, _) => "",
    };
    format!(
        "At {speed} a moment of {moment} {} presses her {} side down.{duty}",
        units.moment.symbol(),
        side_down(bottom)
    )
}

/// Her planes, port and starboard, and how far down they go; nothing where she has none.
fn planes_text(told: &LevelText<'_>) -> Option<String> {
    let [port, starboard] = told.levelled.planes?;
    let unit = told.units.small_length;
    let decimals = usize::from(unit != LengthUnit::Millimetre);
    let size = |pair: PlanePair| {
        format!(
            "{} x {} {}",
            number_with_decimals(unit.value(pair.span), decimals),
            number_with_decimals(unit.value(pair.chord), decimals),
            unit.symbol()
        )
    };
    let which = if port == starboard {
        format!("{} each", size(port))
    } else {
        format!("port {}, starboard {}", size(port), size(starboard))
    };
    let largest = angle_text(told.boat.sizing().largest_deflection);
    Some(format!("Her planes: {which} (span x chord), to {largest} at the most."))
}

/// How to set the planes; and what that leaves for trim.
pub(super) fn how_to_level(
    told: &LevelText<'_>,
    levelling: &Levelling,
    speed: &str,
) -> [String; 2] {
    let only = |text: String| [text, String::new()];
    let [least, largest] = &levelling.ends;
    let deeper = side_down(told.levelled.reference.moment[0]);
    let other = opposite(deeper);
    let depth = |angle: Angle| number_with_decimals(degrees(angle).abs(), 1);
    let ends = [least.difference, largest.difference].map(|d| d.map(depth));
    let needed = match &ends {
        [Some(low), Some(high)] => between([low.clone(), high.clone()], " to "),
        [Some(low), None] => format!("{low} or any number of"),
        _ => return only(no_arm(deeper)),
    };
    match levelling.verdict {
        Verdict::NoList => Default::default(),
        Verdict::TooLittle => {
            let left = moment_text(least.left, told.units);
            let why = match least.limit {
                Some(LevelLimit::SafeRun) => "a safe run ends before that",
                _ => "her planes do not go so deep",
            };
            only(format!(
                "At {speed} the planes cannot level her: {deeper} would have to stand {needed} deg deeper than {other}, and {why}. As deep as may be, {left} of the moment are left. Shift weight, or go at a speed at which they can."
            ))
        }
        verdict => {
            let [port, starboard] = least.setting;
            let begin = format!(
                "begin with port at {} and starboard at {}",
                angle_text(port),
                angle_text(starboard)
            );
            let doubt = if verdict == Verdict::Perhaps {
                " Perhaps the planes do not go deep enough for the higher number."
            } else {
                ""
            };
            let trim = least.point.running.map_or_else(String::new, |running| {
                format!(" She then trims {}{}.", angle_text(running.trim), planes_up(told))
            });
            let how = format!(
                "At {speed} set the {deeper} plane {needed} deg deeper than the {other} one: {begin}, then deepen {deeper} a little at a time until she is level.{doubt}{trim}"
            );
            [how, room_for_trim(levelling)]
        }
    }
}

fn planes_up(told: &LevelText<'_>) -> String {
    let bare = told.levelled.reference.bare.running;
    bare.map_or_else(String::new, |running| {
        format!(" ({} with planes up)", angle_text(running.trim))
    })
}

fn room_for_trim(levelling: &Levelling) -> String {
    let [least, largest] = &levelling.ends;
    let Some([from, to]) = largest.mean.or(least.mean) else { return String::new() };
    format!(
        " While they level her the mean of both planes may be anything from {} to {}: that is left for trim.",
        angle_text(from),
        angle_text(to)
    )
}

fn no_arm(deeper: &str) -> String {
    format!(
        "A plane on the {deeper} side does not raise that side by these figures: on so deep a V, mounted so near the middle, its force leans past the point it would turn her about. Planes cannot be relied on to level her."
    )
}

pub(super) fn from_which_speed(told: &LevelText<'_>) -> String {
    let units = told.units;
    let [best, sure] = told.levelled.from_to;
    let range = |[slowest, fastest]: [Velocity; 2]| {
        let top = told.boat.drive().top_speed;
        let to = if fastest < top * (1.0 - 1e-9) {
            format!("to {}", speed_text(fastest, units))
        } else {
            "on".to_owned()
        };
        format!("from {} {to}", speed_text(slowest, units))
    };
    match (sure, best) {
        (Some(sure), Some(best)) if range(sure) == range(best) => {
            format!("The planes can level this list {}.", range(sure))
        }
        (Some(sure), Some(best)) => format!(
            "The planes can level this list {}; perhaps {}, if they roll her as well as they may.",
            range(sure),
            range(best)
        ),
        (None, Some(best)) => {
            format!(
                "The planes can perhaps level this list {}, and perhaps at no speed.",
                range(best)
            )
        }
        _ => "The planes can level this list at no speed from the start of planing to top speed."
            .to_owned(),
    }
}

/// How far she heels with planes up.
pub(super) fn heel_sentence(angle: HeelAngle, speed: &str) -> String {
    match angle {
        HeelAngle::Between([low, high]) => {
            let side = if (low + high).value < 0.0 { "port" } else { "starboard" };
            let mut ends = [low, high].map(|angle| degrees(angle).abs());
            ends.sort_by(f64::total_cmp);
            format!(
                "With planes up she would lean {} deg to {side} at {speed}: a ROUGH estimate.",
                between(ends.map(|deg| number_with_decimals(deg, 1)), " to ")
            )
        }
        HeelAngle::AtLeast(least) => format!(
            "With planes up she would lean {} deg or more to {} at {speed}: a ROUGH estimate. {}",
            number_with_decimals(degrees(least).abs(), 1),
            if least.value < 0.0 { "port" } else { "starboard" },
            angle.meaning()
        ),
        other => format!("With planes up at {speed}: {}", other.meaning()),
    }
}

pub(super) fn stuck_sentences(told: &LevelText<'_>, answer: &StuckAnswer) -> String {
    let units = told.units;
    let side = side_word(answer.stuck.side);
    let other = opposite(side);
    let at = angle_text(answer.stuck.deflection);
    if answer.stuck.deflection.value == 0.0 {
        let down = side_down(told.levelled.reference.moment[0]);
        let list = told.levelled.reference.moment[0].value != 0.0;
        return if list && down == side {
            format!(
                "With the {side} plane up for good nothing raises the {side} side. Leave {other} up too, shift weight to {other}, and go easy: any use of {other} alone makes the list worse."
            )
        } else {
            format!(
                "With the {side} plane up for good, {other} alone still raises its own side. Leave it up but to level her; alone it is no use for trim, since it heels her."
            )
        };
    }
    let beside = match answer.matched {
        None => format!(
            "bringing {other} beside it gives a safe run at no speed that is looked at here"
        ),
        Some([_, fastest]) if fastest >= told.boat.drive().top_speed * (1.0 - 1e-9) => {
            format!("bringing {other} beside it gives a safe run up to top speed")
        }
        Some([_, fastest]) => format!(
            "bringing {other} beside it gives a safe run up to {}; faster, both planes so deep press the bow down too far",
            speed_text(fastest, units)
        ),
    };
    let list = if told.levelled.reference.moment[0].value == 0.0 {
        ""
    } else {
        " Her own list is then still there; 'levels at' says where the other plane would take that away too."
    };
    format!(
        "With the {side} plane stuck at {at}, {beside}. Slow down first, then bring {other} beside it, a little at a time.{list}"
    )
}
