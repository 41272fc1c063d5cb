//! What is not known exactly.

use super::Doubted;
use crate::boat::measure::plain_number;
use crate::boat::{Toleranced, bound_of};
use crate::document::{Block, Column, Table};
use crate::doubt::{Basis, Input, LIKELY_SHARES, Spread, What};
use crate::units::UnitChoice;

/// What is not known exactly, how wide, and by whose word.
#[must_use]
pub fn inputs(doubted: &Doubted<'_>) -> Vec<Block> {
    let list = &doubted.running.inputs;
    let of = |value: &dyn Fn(&Input) -> String| list.iter().map(value).collect();
    let columns = [
        Column::words("input", of(&|input| input.what.word().to_owned())),
        Column::words("nine in ten lie within", of(&|input| width(input, doubted.units))),
        Column::words("known", of(&|input| basis(&input.basis).to_owned())),
    ];
    let note = "Widths by how a value was come by are common practice, no source; `planewright doubt --calibration` shows where those of the equations come from.";
    vec![
        Block::Section("What is not known exactly".to_owned()),
        Block::Table(Table {
            columns: columns.into(),
            notes: vec![note.to_owned()],
            ..Table::default()
        }),
    ]
}

/// The likely range about the value used.
fn width(input: &Input, units: UnitChoice) -> String {
    let [low, high] = LIKELY_SHARES.map(|share| input.spread.quantile(share));
    match (input.spread, input.what) {
        (Spread::Factor { .. }, _) => {
            format!("{:+.0} % .. {:+.0} %", 100.0 * (low - 1.0), 100.0 * (high - 1.0))
        }
        (Spread::Step { .. }, What::Value(of)) => {
            let (factor, unit) = step_unit(of, units);
            format!("{} .. {} {unit}", signed(factor * low), signed(factor * high))
        }
        (Spread::Step { .. }, _) => format!("{} .. {}", signed(low), signed(high)),
    }
}

fn signed(value: f64) -> String {
    let sign = if value < 0.0 { "-" } else { "+" };
    format!("{sign}{}", plain_number((1e3 * value.abs()).round() / 1e3))
}

/// A step of one in the unit of the bounds table, in the unit asked for.
fn step_unit(of: Toleranced, units: UnitChoice) -> (f64, &'static str) {
    match bound_of(of.key()).map_or("", |bound| bound.unit) {
        "m" => {
            let metre = uom::si::f64::Length::new::<uom::si::length::meter>(1.0);
            (units.length.value(metre), units.length.symbol())
        }
        unit => (1.0, unit),
    }
}

fn basis(basis: &Basis) -> &'static str {
    match basis {
        Basis::Stated => "stated in the file",
        Basis::Source(source) => source.word(),
        Basis::TakenAsBrochure => "taken as from a brochure",
        Basis::Estimate => "ESTIMATED by a rule",
        Basis::Calibrated => "held against published tests",
        Basis::TankRuns => "scatter of tank runs with planes",
    }
}
