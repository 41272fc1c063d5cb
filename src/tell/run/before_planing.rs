//! Resistance before planing by the regression of Mercier & Savitsky (1973), beside what the lift models say there.

use super::RunText;
use super::models::{or_short, year};
use crate::balance::BeforePlaningRow;
use crate::document::{Block, Column, Table, aligned, fixed};

const EXPLANATION: &str = "A regression on towed models of round and hard-chined transom sterns (Mercier & Savitsky 1973, \
from memory), brought from 100000 lb to her size by the friction on her wetted area at rest. It knows neither planes nor \
centre of gravity, and answers for planes up; the lift models know no displacement. Volume Froude numbers 1 to 2; no number for a form \
outside those of the models, and none where the regression falls below the friction of her own wetted area.";
const WITHOUT: &str = "The file gives no hull.entrance_half_angle and hull.transom_area_ratio, so there is no opinion \
by the pre-planing regression (Mercier & Savitsky 1973).";

/// The regression beside the lift models, or why there is none.
#[must_use]
pub fn before_planing(run: &RunText<'_>) -> Vec<Block> {
    let title = "Before planing, planes up: a third opinion on the resistance";
    let what = if run.before_planing.rows.is_empty() {
        Block::Paragraph(WITHOUT.to_owned())
    } else {
        let notes = vec![EXPLANATION.to_owned()];
        Block::Table(Table { columns: columns(run), notes, ..Table::default() })
    };
    vec![Block::Section(title.to_owned()), what]
}

fn columns(run: &RunText<'_>) -> Vec<Column> {
    let rows = &run.before_planing.rows;
    let (speed, force) = (run.units.speed, run.units.force);
    let each = |value: &dyn Fn(&BeforePlaningRow) -> Option<f64>| {
        rows.iter().map(value).collect::<Vec<_>>()
    };
    let froude = each(&|row| Some(row.volume_froude_number));
    let speeds = each(&|row| Some(speed.value(row.speed)));
    let regression = each(&|row| row.resistance.map(|r| force.value(r)));
    let mut columns = vec![
        Column::numbers("F-vol", "", fixed(&froude, 1)),
        Column::numbers("speed", speed.symbol(), fixed(&speeds, 1)),
        Column::numbers("resist.\nregression", force.symbol(), aligned(&regression, 4)),
    ];
    for (place, (model, ..)) in rows[0].by_model.iter().enumerate() {
        let numbers = each(&|row| row.by_model[place].1.map(|r| force.value(r)));
        let cells = aligned(&numbers, 4)
            .into_iter()
            .zip(rows)
            .map(|(cell, row)| or_short(cell, row.by_model[place].2));
        let head = format!("resist.\n{}", year(*model));
        columns.push(Column::numbers(&head, force.symbol(), cells.collect()));
    }
    columns
}
