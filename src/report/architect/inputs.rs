//! What went in: the boat, and how well each value is known.

use uom::si::f64::Length;

use crate::boat::measure::plain_number;
use crate::boat::{Toleranced, bound_of, degrees};
use crate::document::{Block, Column, Fact, Table};
use crate::doubt::{Basis, Input, LIKELY_SHARES, Spread, What};
use crate::report::gather::Gathered;
use crate::units::{UnitChoice, number_with_decimals};

/// The boat in numbers, and the tolerances.
pub(super) fn section(gathered: &Gathered) -> Vec<Block> {
    let mut blocks = vec![Block::Section("The boat".to_owned()), Block::Facts(facts(gathered))];
    if let Some(hump) = &gathered.hump {
        blocks.push(Block::Table(tolerances(&hump.up.inputs, gathered.units)));
    }
    blocks
}

fn facts(gathered: &Gathered) -> Vec<Fact> {
    let (boat, units) = (gathered.boat(), gathered.units);
    let length = |length: Length| {
        format!("{} {}", number_with_decimals(units.length.value(length), 3), units.length.symbol())
    };
    let (hull, weight, drive, transom) = (boat.hull(), boat.weight(), boat.drive(), boat.transom());
    let several = boat.conditions().len() > 1;
    let loaded = if several { boat.condition().name.clone() } else { String::new() };
    let mut facts = Vec::new();
    facts.extend(hull.overall_length.map(|overall| Fact::new("Length over all", length(overall))));
    facts.extend([
        Fact::new("Planing bottom, keel line", length(hull.bottom_length)),
        Fact::new("Chine beam b", length(hull.chine_beam)),
        Fact::new("Deadrise β", format!("{} deg", number_with_decimals(degrees(hull.deadrise), 1))),
        Fact::new(
            "Mass",
            format!("{} {}", number_with_decimals(units.mass.value(weight.mass), 0), units.mass.symbol()),
        )
        .noted(loaded),
        Fact::new("LCG forward of the transom", length(weight.lcg)),
        Fact::new("VCG above the keel line", length(weight.vcg)),
        Fact::new("TCG to starboard", length(weight.tcg)),
        Fact::new("Top speed", crate::report::say::speed(drive.top_speed, units)),
        Fact::new("Thrust line to keel line ε", format!("{} deg", number_with_decimals(degrees(drive.thrust_angle), 1))),
        Fact::new("Thrust line below the centre of gravity f", length(drive.thrust_offset)),
        Fact::new("Hinge above the bottom edge", length(transom.hinge_height)),
        Fact::new("Room for the span, each side", length(gathered.suggestion.room)),
        Fact::new("Roughness allowance ΔCf", plain_number(gathered.settings.allowance_for(boat))),
        Fact::new("Lift of the bottom", gathered.settings.model.name()).noted(gathered.settings.model.source()),
    ]);
    facts
}

fn tolerances(inputs: &[Input], units: UnitChoice) -> Table {
    let of = |value: &dyn Fn(&Input) -> String| inputs.iter().map(value).collect();
    Table {
        title: "What is not known exactly, and by how much".to_owned(),
        columns: vec![
            Column::words("input", of(&|input| input.what.name().to_owned())),
            Column::words("key or factor", of(&|input| input.what.word().to_owned())),
            Column::words("nine in ten lie within", of(&|input| width(input, units))),
            Column::words("known", of(&|input| basis(&input.basis).to_owned())),
        ],
        strong: None,
        notes: vec!["Widths by how a value was come by are common practice, no source; those of the equations come from published tests, see below.".to_owned()],
    }
}

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
        (Spread::Either, _) => "transom or trailing edge, one as likely".to_owned(),
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
            let metre = Length::new::<uom::si::length::meter>(1.0);
            (units.length.value(metre), units.length.symbol())
        }
        unit => (1.0, unit),
    }
}

fn basis(basis: &Basis) -> &'static str {
    match basis {
        Basis::Stated => "stated in the file",
        Basis::Source(source) => source.word(),
        Basis::TakenAsBrochure => "not stated: as a brochure",
        Basis::Estimate => "ESTIMATED by a rule",
        Basis::Calibrated => "held against published tests",
        Basis::Judged => "judged, no source",
    }
}
