//! What only the papers of the parts state, as lines to fill in; and the form 'as fitted'.

use crate::document::{Block, Column, Table};
use crate::mark::hardware::ActuatorKind;
use crate::mark::placement::Placement;
use crate::mark::say::Say;

/// Where something is written in.
const BLANK: &str = "____________";

pub(super) fn blocks(placement: &Placement, say: Say) -> Vec<Block> {
    vec![
        Block::Section("From the papers of the parts: fill in, and work by it".to_owned()),
        Block::Table(stated(placement)),
        Block::Section("As fitted: fill in when all is done".to_owned()),
        Block::Table(as_fitted(placement, say)),
    ]
}

/// What no calculation knows.
fn stated(placement: &Placement) -> Table {
    let common = [
        ("screw or bolt", "torque"),
        ("screw", "pilot, where its maker states one"),
        ("sealant", "cleaner it names"),
        ("sealant", "cure until load, and until water"),
        ("lead-through", "hole, and its seal"),
    ];
    let hydraulic = [
        ("tube fitting", "torque, or turns past hand-tight"),
        ("pump", "oil, and how much"),
        ("pump", "fuse and cable"),
    ];
    let electric = [("actuator", "fuse and cable"), ("actuator", "plug, and its seal")];
    let kind = placement.hardware.actuator;
    let hydraulic = (kind != ActuatorKind::Electric).then_some(hydraulic);
    let electric = (kind != ActuatorKind::Hydraulic).then_some(electric);
    let rows: Vec<(&str, &str)> = common
        .into_iter()
        .chain(hydraulic.into_iter().flatten())
        .chain(electric.into_iter().flatten())
        .collect();
    Table {
        columns: vec![
            Column::words("of", rows.iter().map(|row| row.0.to_owned()).collect()),
            Column::words("what", rows.iter().map(|row| row.1.to_owned()).collect()),
            Column::words("its papers state", rows.iter().map(|_| BLANK.to_owned()).collect()),
        ],
        ..Table::default()
    }
}

/// What is measured on the finished work.
fn as_fitted(placement: &Placement, say: Say) -> Table {
    let (raised, lowered) = placement.travel;
    let rows = [
        ("outer end to the chine, along the edge", say.length(placement.edge() - placement.outer)),
        ("hinge line above the edge", say.length(placement.hinge.height)),
        ("gauge height, plane up", say.length(placement.gauge.trailing_edge)),
        ("angle at the upper stop", format!("{} up", say.angle(-raised))),
        ("angle at the lower stop", format!("{} down", say.angle(lowered))),
    ];
    let blanks = || rows.iter().map(|_| BLANK.to_owned()).collect();
    Table {
        columns: vec![
            Column::words("measure", rows.iter().map(|row| row.0.to_owned()).collect()),
            Column::words("planned", rows.iter().map(|row| row.1.clone()).collect()),
            Column::words("port", blanks()),
            Column::words("starboard", blanks()),
        ],
        notes: vec![
            "Angles from the bottom line with an inclinometer laid on the plate, the same on the \
             bottom taken off."
                .to_owned(),
        ],
        ..Table::default()
    }
}
