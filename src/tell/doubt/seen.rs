//! What was seen of the boat on the water, how it fits, and what it is worth.

use super::Doubted;
use crate::boat::degrees;
use crate::document::{Block, Column, Sentence, Table, fixed, said};
use crate::doubt::{Likely, SeenFit, SeenReading, What};
use crate::flag::Flag;
use crate::size::SeenTrim;
use crate::tell::words::{angle, angle_number, speed};
use crate::units::{UnitChoice, number_with_decimals};
use uom::si::f64::Angle;

/// Inputs named where what was seen does not fit.
const NAMED: usize = 3;

/// What was seen and by how much it narrows the trim at the hump; nothing where nothing was.
#[must_use]
pub fn seen(doubted: &Doubted<'_>) -> Vec<Block> {
    let Some(seen) = &doubted.running.seen else { return Vec::new() };
    let mut blocks = vec![
        Block::Section("What was seen".to_owned()),
        Block::Table(Table { columns: columns(&seen.fit, doubted.units), ..Table::default() }),
    ];
    let hump = doubted.running.hump_trim.as_ref();
    let row = hump.and_then(|hump| doubted.running.speeds.iter().find(|r| r.speed == hump.speed));
    if let (Some(row), Some(before)) = (row, seen.hump_before)
        && let Some(after) = row.trim
    {
        blocks.push(Block::Paragraph(format!(
            "{} It takes the likely trim at the hump, {} {}, from {} to {} deg.",
            match seen.fit.is_met() {
                true => "Only boats that would have shown this were drawn.",
                false => "The boats drawn come as near to this as they can, which is not near enough for all of it.",
            },
            number_with_decimals(doubted.units.speed.value(row.speed), 1),
            doubted.units.speed.symbol(),
            range(before),
            range(after)
        )));
    }
    blocks.extend(does_not_fit(&seen.fit));
    blocks
}

/// `6.4 to 11.8`.
fn range(likely: Likely<Angle>) -> String {
    let [low, high] = [likely.low, likely.high].map(|a| number_with_decimals(degrees(a), 1));
    format!("{low} to {high}")
}

fn columns(fit: &SeenFit, units: UnitChoice) -> Vec<Column> {
    let readings = &fit.readings;
    let of = |value: &dyn Fn(&SeenReading) -> f64, decimals| {
        let all: Vec<Option<f64>> = readings.iter().map(|reading| Some(value(reading))).collect();
        fixed(&all, decimals)
    };
    vec![
        Column::numbers("speed", units.speed.symbol(), of(&|r| units.speed.value(r.speed), 1)),
        Column::numbers("planes", "deg down", of(&|r| degrees(r.deflection), 1)),
        Column::numbers("seen", "trim deg", of(&|r| degrees(r.trim), 2)),
        Column::numbers("sure to", "± deg", of(&|r| degrees(r.by), 2)),
        Column::numbers("by her file", "trim deg", of(&|r| degrees(r.described), 2)),
        Column::numbers("as told", "trim deg", of(&|r| degrees(r.computed), 2)),
        Column::numbers("best fit", "trim deg", of(&|r| degrees(r.fitted), 2)),
    ]
}

/// That what was seen does not fit the boat as described, and what to check; nothing where it fits.
fn does_not_fit(fit: &SeenFit) -> Vec<Block> {
    if !fit.flags.contains(Flag::SeenDoesNotFit) {
        return Vec::new();
    }
    let moved: Vec<String> = fit
        .moved
        .iter()
        .filter(|(what, _)| matches!(what, What::Value(_)) && what.is_found_ashore())
        .take(NAMED)
        .map(|(what, deviations)| format!("{} ({deviations:+.1})", what.name()))
        .collect();
    let most = match moved.as_slice() {
        [] => String::new(),
        names => format!(
            " To come near it these would have to be off by so many of their standard deviations: {}.",
            names.join(", ")
        ),
    };
    vec![Block::Warnings(vec![format!("{}{most}", Flag::SeenDoesNotFit.meaning())])]
}

/// Which boats were drawn, where trims were seen, and what of it even they miss; nothing where none was.
#[must_use]
pub fn drawn_as_seen(readings: &[SeenTrim], units: UnitChoice) -> Option<Sentence> {
    let trims = match readings.len() {
        0 => return None,
        1 => "the trim".to_owned(),
        several => format!("the {several} trims"),
    };
    let missed: Vec<Sentence> = readings
        .iter()
        .filter(|seen| seen.is_missed())
        .map(|seen| {
            said![
                angle(seen.read, 1),
                " at ",
                speed(seen.speed, units),
                format!(" ({} on the boat that fits best)", angle_number(seen.fitted, 1)),
            ]
        })
        .collect();
    if missed.is_empty() {
        let all =
            format!("All boats drawn are such as may well have shown {trims} seen on the water.");
        return Some(all.into());
    }
    Some(said![
        format!(
            "All boats drawn come as near to {trims} seen on the water as they can; what was read cannot all be met, and this is missed: "
        ),
        Sentence::joined(missed, "; "),
        ". Read it again.",
    ])
}
