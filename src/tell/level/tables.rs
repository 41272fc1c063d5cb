//! The tables of a list.

use uom::si::f64::{Angle, Torque, Velocity};

use super::super::words::{between, section, speed_text};
use super::sentences::stuck_sentences;
use super::{LevelText, flags, letters};
use crate::balance::{Outcome, Point};
use crate::behaviour::list::side_word;
use crate::behaviour::list::{
    Cause, Heel, HeelAngle, LevelEnd, Levelling, ListPoint, RunSafety, SettingPoint, StuckPoint,
    Verdict,
};
use crate::boat::degrees;
use crate::document::{Block, Column, Table, aligned, fixed};
use crate::flag::Flags;
use crate::units::{UnitChoice, number_with_decimals};

/// A titled table with what explains it.
fn titled(title: &str, columns: impl Into<Vec<Column>>, explanation: &str) -> Vec<Block> {
    let columns = columns.into();
    let notes = vec![explanation.to_owned()];
    section(title, vec![Block::Table(Table { columns, notes, ..Table::default() })])
}

/// What heels her at the speed of the summary.
#[must_use]
pub fn what_heels(told: &LevelText<'_>) -> Vec<Block> {
    let point = &told.levelled.reference;
    if point.contributions.is_empty() {
        return Vec::new();
    }
    let unit = told.units.moment;
    let mut names: Vec<String> =
        point.contributions.iter().map(|c| c.cause.text(told.units)).collect();
    names.push("SUM".to_owned());
    let moments = |height: usize| {
        let each = point.contributions.iter().map(|c| c.moment[height]);
        let all = each.chain([point.moment[height]]);
        fixed(&all.map(|moment| Some(unit.value(moment))).collect::<Vec<_>>(), 0)
    };
    let mut columns = vec![Column::words("cause", names)];
    if moments(0) == moments(1) {
        columns.push(Column::numbers("moment", unit.symbol(), moments(0)));
    } else {
        columns.push(Column::numbers("taken up at the bottom", unit.symbol(), moments(0)));
        columns.push(Column::numbers("at the centre of gravity", unit.symbol(), moments(1)));
    }
    let title = format!("What heels her at {}", speed_text(point.bare.speed, told.units));
    let wind = point.contributions.iter().any(|c| c.cause == Cause::Wind);
    let torque = point.contributions.iter().any(|c| c.cause == Cause::Propellers);
    let mut explanation = "Positive presses starboard down.".to_owned();
    if wind {
        explanation.push_str(" The wind heels her about the height at which the water holds her sideways, which is not known: at the bottom, or as high as her centre of gravity. Her own headway makes the wind on her side stronger than counted here.");
    }
    if torque {
        explanation.push_str(" The torque of the propellers is that of full power, less in proportion to the thrust at slower speeds.");
    }
    titled(&title, columns, &explanation)
}

fn speeds<'a>(speeds: impl Iterator<Item = &'a Velocity>, units: UnitChoice) -> Column {
    let unit = units.speed;
    let values: Vec<_> = speeds.map(|&speed| Some(unit.value(speed))).collect();
    Column::numbers("speed", unit.symbol(), fixed(&values, 1))
}

fn trim_text(point: &Point) -> String {
    match (point.running, point.outcome) {
        (Some(running), _) => number_with_decimals(degrees(running.trim), 1),
        (None, Outcome::BelowPlaningRange) => "-".to_owned(),
        (None, Outcome::NoBalanceBowUp) => "bow-up".to_owned(),
        (None, outcome) => outcome.word().to_owned(),
    }
}

fn letters_text(told: &LevelText<'_>, raised: Flags) -> String {
    let all = letters(flags(told)).filter(|(_, flag)| raised.contains(*flag));
    all.map(|(letter, _)| letter.to_string()).collect::<Vec<_>>().join(" ")
}

/// How to set the planes, speed by speed.
#[must_use]
pub fn levelling(told: &LevelText<'_>) -> Vec<Block> {
    let rows: Vec<(&ListPoint, &Levelling)> = told
        .levelled
        .points
        .iter()
        .filter_map(|point| Some((point, point.levelling.as_ref()?)))
        .filter(|(_, levelling)| levelling.verdict != Verdict::NoList)
        .collect();
    if rows.is_empty() {
        return Vec::new();
    }
    let unit = told.units.moment;
    let end = |place: usize, value: &dyn Fn(&LevelEnd) -> String| -> Vec<String> {
        rows.iter().map(|(_, levelling)| value(&levelling.ends[place])).collect()
    };
    let difference = |end: &LevelEnd| end.difference.map_or("none".to_owned(), tenths);
    let [low, high] = [end(0, &difference), end(1, &difference)];
    let needed = low.into_iter().zip(high).map(|(low, high)| between([low, high], "..")).collect();
    let moments: Vec<_> = rows.iter().map(|(point, _)| Some(unit.value(point.moment[0]))).collect();
    let room = rows.iter().map(|(_, levelling)| {
        let [least, largest] = &levelling.ends;
        let mean = largest.mean.or(least.mean);
        mean.map_or("-".to_owned(), |mean| between(mean.map(tenths), ".."))
    });
    let columns = [
        speeds(rows.iter().map(|(point, _)| &point.bare.speed), told.units),
        Column::numbers("moment", unit.symbol(), aligned(&moments, 4)),
        Column::numbers("difference", "deg", needed),
        Column::numbers("port", "deg", end(0, &|end| tenths(end.setting[0]))),
        Column::numbers("starboard", "deg", end(0, &|end| tenths(end.setting[1]))),
        Column::numbers("trim", "deg", end(0, &|end| trim_text(&end.point))),
        Column::numbers("mean", "deg", room.collect()),
        Column::words(
            "level?",
            rows.iter().map(|(_, levelling)| verdict_text(levelling.verdict).to_owned()).collect(),
        ),
        Column::numbers("left", unit.symbol(), end(0, &|end| left_text(end, told.units))),
        Column::words("notes", end(0, &|end| letters_text(told, end.point.flags))),
    ];
    let columns: Vec<Column> = columns.into_iter().filter(|column| !column.is_blank()).collect();
    titled("Levelling her", columns, EXPLANATION)
}

const EXPLANATION: &str = "'difference': how much deeper starboard must stand to level her; negative, port. It is a range, since \
nobody knows whether the water takes the sideways force up at the bottom or as high as the centre of gravity, nor whether the planes' \
lift acts at mid-span or partly spreads over the bottom (0.7 of the arm): begin with 'port' and 'starboard', the low \
end, and deepen until she is level. 'trim': as you begin. 'mean': what the mean of both planes may be while they level her; that is left \
for trim. 'perhaps': enough at the low end only. 'left': the moment that the planes cannot level.";

/// Degrees to a tenth.
fn tenths(angle: Angle) -> String {
    number_with_decimals(degrees(angle), 1)
}

fn verdict_text(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::NoList => "no list",
        Verdict::Levels => "yes",
        Verdict::Perhaps => "perhaps",
        Verdict::TooLittle => "NO",
    }
}

fn left_text(end: &LevelEnd, units: UnitChoice) -> String {
    match end.limit {
        None => "-".to_owned(),
        Some(_) => number_with_decimals(units.moment.value(end.left), 0),
    }
}

/// The rough heel with planes up.
#[must_use]
pub fn heel(told: &LevelText<'_>) -> Vec<Block> {
    let points = &told.levelled.points;
    if points.iter().all(|point| point.moment.iter().all(|moment| moment.value == 0.0)) {
        return Vec::new();
    }
    let unit = told.units.moment;
    let stiffness = |place: usize| {
        let all = points.iter().map(|point| point.heel.stiffness_per_degree[place]);
        let values: Vec<_> = all.map(|torque| torque.map(|torque| unit.value(torque))).collect();
        aligned(&values, 3)
    };
    let per_degree = format!("{} per deg", unit.symbol());
    let columns = [
        speeds(points.iter().map(|point| &point.bare.speed), told.units),
        Column::numbers("stiffness, bottom", &per_degree, stiffness(0)),
        Column::numbers("stiffness, centre", &per_degree, stiffness(1)),
        Column::words("heel, deg", points.iter().map(|point| heel_text(&point.heel)).collect()),
    ];
    titled("Heel with planes up: A ROUGH ESTIMATE", columns, HEEL_EXPLANATION)
}

const HEEL_EXPLANATION: &str = "'bottom' and 'centre': the sideways force taken up at the bottom, or as high as the centre of gravity. \
'not stiff': this estimate finds no stiffness and gives no answer; 'beyond': more than 12 deg or than her deadrise, where it ends. The buoyant part of the lift rights her as it would afloat; for the rest \
each half of the bottom is put at its own deadrise, heel apart, with the same keel wetted (after Lewandowski 1996, from memory; derived). \
The righting moment is the difference of two large ones, so that the heel may be half or \
twice as much; no published example was at hand to check it against. Levelling her needs none of this.";

/// A heel in words and numbers.
fn heel_text(heel: &Heel) -> String {
    match heel.angle {
        HeelAngle::Between([low, high]) => {
            let mut ends = [low, high].map(|angle| degrees(angle).abs());
            ends.sort_by(f64::total_cmp);
            let text = between(ends.map(|deg| number_with_decimals(deg, 1)), "..");
            match (low.value < -1e-9, high.value > 1e-9) {
                (false, false) => "upright".to_owned(),
                (true, true) => format!("{}..{}", tenths(low), tenths(high)),
                (true, false) => format!("{text} to port"),
                (false, true) => format!("{text} to starboard"),
            }
        }
        HeelAngle::AtLeast(least) => {
            let side = if least.value < 0.0 { "port" } else { "starboard" };
            format!("over {} to {side}", number_with_decimals(degrees(least).abs(), 1))
        }
        HeelAngle::NotStiff => "not stiff".to_owned(),
        HeelAngle::Beyond => "beyond".to_owned(),
        HeelAngle::NotRunning => "-".to_owned(),
    }
}

/// A moment that is left between two, with the side it presses down.
fn between_moments(moments: [Torque; 2], units: UnitChoice) -> String {
    let values = moments.map(|moment| number_with_decimals(units.moment.value(moment) + 0.0, 0));
    between(values, "..")
}

/// What the setting asked for does.
#[must_use]
pub fn setting(told: &LevelText<'_>) -> Vec<Block> {
    let Some(first) = told.levelled.set.first() else { return Vec::new() };
    let rows = &told.levelled.set;
    let units = told.units;
    let of = |value: &dyn Fn(&SettingPoint) -> String| rows.iter().map(value).collect();
    let columns = [
        speeds(rows.iter().map(|set| &set.point.speed), units),
        Column::numbers(
            "planes",
            units.moment.symbol(),
            of(&|set| between_moments(set.planes, units)),
        ),
        Column::numbers(
            "together",
            units.moment.symbol(),
            of(&|set| between_moments(set.moment, units)),
        ),
        Column::words("ROUGH heel, deg", of(&|set| heel_text(&set.heel))),
        Column::numbers("trim", "deg", of(&|set| trim_text(&set.point))),
        Column::words("safe run", of(&|set| safe_text(set).to_owned())),
        Column::words("notes", of(&|set| letters_text(told, set.point.flags))),
    ];
    let [port, starboard] = first.setting.map(tenths);
    let title = format!("With port at {port} and starboard at {starboard} deg");
    titled(
        &title,
        columns,
        "Moments of the planes, and of everything together, between the least and the largest expected; positive presses starboard down.",
    )
}

fn safe_text(set: &SettingPoint) -> &'static str {
    match set.safety {
        RunSafety::Safe => "yes",
        RunSafety::TrimUnderTwo => "NO: bow digs",
        RunSafety::NotRunning => "NO",
        RunSafety::PitchUnstable => "NO: unstable",
    }
}

/// What she does with a plane out of action, speed by speed and in sentences.
#[must_use]
pub fn failures(told: &LevelText<'_>) -> Vec<Block> {
    let Some(answer) = &told.levelled.stuck else { return Vec::new() };
    let rows = &answer.points;
    let units = told.units;
    let of = |value: &dyn Fn(&StuckPoint) -> String| rows.iter().map(value).collect();
    let mut columns = vec![
        speeds(rows.iter().map(|row| &row.other_up.point.speed), units),
        Column::numbers(
            "moment",
            units.moment.symbol(),
            of(&|row| between_moments(row.other_up.moment, units)),
        ),
        Column::words("ROUGH heel, deg", of(&|row| heel_text(&row.other_up.heel))),
        Column::numbers("trim", "deg", of(&|row| trim_text(&row.other_up.point))),
    ];
    if answer.stuck.deflection.value > 0.0 {
        columns.extend([
            Column::numbers("beside", "trim, deg", of(&|row| trim_text(&row.matched.point))),
            Column::words("safe run", of(&|row| safe_text(&row.matched).to_owned())),
        ]);
    }
    columns.push(Column::numbers(
        "levels at",
        "deg",
        of(&|row| row.levelling.map_or("none".to_owned(), |r| between(r.map(tenths), ".."))),
    ));
    let place = if answer.stuck.deflection.value > 0.0 {
        format!("at {} deg", tenths(answer.stuck.deflection))
    } else {
        "up".to_owned()
    };
    let title = format!("If the {} plane stays {place}", side_word(answer.stuck.side));
    let mut blocks = titled(&title, columns, STUCK_EXPLANATION);
    blocks.push(Block::Paragraph(stuck_sentences(told, answer)));
    blocks
}

const STUCK_EXPLANATION: &str = "'moment', 'heel' and 'trim' with the other plane up; positive presses starboard down. 'beside': with the \
other as deep as the stuck one, so that the planes do not heel her. 'levels at': where the other plane levels all that heels her.";
