//! The second opinion beside the answer: what a tank series of real hulls says, planes up.

use uom::si::f64::Velocity;

use super::models::or_short;
use crate::balance::series::{SecondOpinion, SeriesRow};
use crate::boat::degrees;
use crate::document::{Block, Column, Sentence, Table, aligned, fixed, said};
use crate::tell::words;
use crate::units::UnitChoice;

const TITLE: &str = "Second opinion, planes up: a tank series of real hulls";
const EXPLANATION: &str = "A regression of towed models of planing hulls (Series 62, its 25 deg extension and part of Series 65; \
Radojcic 1991), brought from 100000 lb to her size by the friction of her wetted area, with her air and appendages added. \
Mean beam is taken as the chine beam over 1.21 (from memory); the moments of thrust, air and appendages went into an \
equivalent centre of gravity. 'series' is what it says, 'here' what is computed, 'apart' how much more is computed. Real \
hulls have a bow that the equations do not know. Sizes are taken from what is computed here, which near the hump is mostly the \
higher trim and asks for the larger pair; how far such hulls lie below it is part of the likely ranges and of the chance.";

/// The table, or why there is none; nothing where it was not asked for.
#[must_use]
pub fn second_opinion(opinion: &SecondOpinion, units: UnitChoice) -> Vec<Block> {
    if opinion.rows.is_empty() {
        return Vec::new();
    }
    let outside: Vec<String> = opinion.outside().iter().map(ToString::to_string).collect();
    let outside = outside.join("; ");
    let said: Vec<&SeriesRow> = opinion.said().map(|(row, _)| row).collect();
    let what = if said.is_empty() {
        Block::Paragraph(format!(
            "None by the tank series (Series 62, Radojcic 1991): she lies outside its models. {}.",
            capital(&outside)
        ))
    } else {
        let mut notes = vec![EXPLANATION.to_owned()];
        if said.len() < opinion.rows.len() {
            notes.push(format!("At the other speeds she lies outside its models: {outside}."));
        }
        Block::Table(Table { columns: columns(&said, units), notes, ..Table::default() })
    };
    vec![Block::Section(TITLE.to_owned()), what]
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn columns(rows: &[&SeriesRow], units: UnitChoice) -> Vec<Column> {
    let each = |value: &dyn Fn(&SeriesRow) -> Option<f64>| -> Vec<Option<f64>> {
        rows.iter().map(|row| value(row)).collect()
    };
    let (force, length) = (units.force, units.length);
    let trims = fixed(&each(&|row| Some(degrees(row.computed.running?.trim))), 1);
    let trims = trims.into_iter().zip(rows).map(|(cell, row)| or_short(cell, row.computed.outcome));
    let share = each(&|row| Some(100.0 * row.resistance_apart()?));
    let wet = each(&|row| Some(length.value(row.computed_wetted_length()?)));
    let resistance = each(&|row| Some(force.value(row.computed.running?.resistance)));
    vec![
        Column::numbers("F-vol", "", fixed(&each(&|row| Some(row.volume_froude_number)), 2)),
        Column::numbers(
            "speed",
            units.speed.symbol(),
            fixed(&each(&|row| Some(units.speed.value(row.speed()))), 1),
        ),
        Column::numbers(
            "trim\nseries",
            "deg",
            fixed(&each(&|row| Some(degrees(row.series.as_ref().ok()?.trim))), 1),
        ),
        Column::numbers("trim\nhere", "deg", trims.collect()),
        Column::numbers(
            "trim\napart",
            "deg",
            signed(&each(&|row| row.trim_apart().map(degrees)), 1),
        ),
        Column::numbers(
            "resist.\nseries",
            force.symbol(),
            aligned(&each(&|row| Some(force.value(row.series.as_ref().ok()?.resistance))), 4),
        ),
        Column::numbers("resist.\nhere", force.symbol(), aligned(&resistance, 4)),
        Column::numbers("resist.\napart", "%", signed(&share, 0)),
        Column::numbers(
            "wetted\nseries",
            length.symbol(),
            fixed(&each(&|row| Some(length.value(row.series.as_ref().ok()?.wetted_length))), 1),
        ),
        Column::numbers("wetted\nhere", length.symbol(), fixed(&wet, 1)),
        Column::numbers(
            "wetted\napart",
            length.symbol(),
            signed(&each(&|row| Some(length.value(row.wetted_length_apart()?))), 1),
        ),
    ]
}

/// Numbers with their sign, and nought without one.
fn signed(values: &[Option<f64>], decimals: usize) -> Vec<String> {
    let with_sign = |(cell, value): (String, &Option<f64>)| match value {
        Some(value) if *value > 0.0 && cell.contains(|c: char| ('1'..='9').contains(&c)) => {
            format!("+{cell}")
        }
        _ => cell,
    };
    fixed(values, decimals).into_iter().zip(values).map(with_sign).collect()
}

/// Trim by the series and as computed at one speed, in a plain sentence; none where either says nothing.
#[must_use]
pub fn second_opinion_sentence(
    opinion: &SecondOpinion,
    speed: Velocity,
    units: UnitChoice,
) -> Option<Sentence> {
    let (row, series) = opinion.said().find(|(row, _)| row.speed() == speed)?;
    let running = row.computed.running?;
    Some(said![
        "At ",
        words::speed(speed, units),
        " with planes up a tank series of real hulls (Series 62) says ",
        words::angle(series.trim, 1),
        format!(" where the equations say {}.", words::angle_number(running.trim, 1)),
    ])
}
