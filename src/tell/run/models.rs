//! The same points by each lift model: how far the answers lie apart for the theory alone.

use super::RunText;
use super::notes::Letters;
use super::tables::titled;
use crate::balance::opinions::{Beside, Spread};
use crate::balance::{LiftModel, Outcome, Point, fields};
use crate::document::{Block, Column, Fact, Table, fixed};
use crate::flag::Flags;
use crate::units::number_with_decimals;

const EXPLANATION: &str = "Each model is another theory of what the bottom lifts and where; friction, planes, hump factor \
and all else are the same. Neither is the truth: where they lie far apart, a number from one of them is worth no more \
than the distance to the other. Both may be off together, and the distance says nothing of a wrong weight or centre of \
gravity. Shuford's equations are from memory, and where their parts act is unsure.";

/// Every deflection by every lift model, and how far they lie apart; nothing without other opinions.
#[must_use]
pub fn models(run: &RunText<'_>) -> Vec<Block> {
    if run.opinions.is_empty() {
        return Vec::new();
    }
    let source = |model: LiftModel| Fact::new(year(model), model.source());
    let mut blocks = vec![
        Block::Section("By each lift model".to_owned()),
        Block::Terms(LiftModel::ALL.into_iter().map(source).collect()),
        Block::Paragraph(EXPLANATION.to_owned()),
    ];
    let letters = Letters::of(run);
    for (place, set) in run.sets.iter().enumerate() {
        let beside = Beside::of(run.settings.model, run.sets, run.opinions, place);
        blocks.push(Block::Section(titled(run, set, "Trim, resistance and wetted length")));
        blocks.push(Block::Table(Table {
            columns: columns(run, &beside, &letters),
            notes: vec![summary(run, &beside)],
            ..Table::default()
        }));
    }
    blocks.extend(super::before_planing(run));
    blocks
}

fn columns(run: &RunText<'_>, beside: &Beside<'_>, letters: &Letters) -> Vec<Column> {
    let spreads = beside.spreads();
    let apart = |value: &dyn Fn(&Spread) -> f64| -> Vec<Option<f64>> {
        spreads.iter().map(|spread| spread.as_ref().map(value)).collect()
    };
    let mut columns = vec![super::tables::speeds(run, beside.models[0].1)];
    for (model, points) in &beside.models {
        let mut trims = Column::field(&fields::TRIM, *points, run.units);
        let cells = trims.cells.into_iter().zip(*points);
        trims.cells = cells.map(|(cell, point)| or_short(cell, point.outcome)).collect();
        columns.push(trims.named(&head("trim", *model)));
    }
    columns.push(Column::numbers("trim\napart", "deg", fixed(&apart(&|s| s.trim_deg), 2)));
    for (model, points) in &beside.models {
        let resistance = Column::field(&fields::RESISTANCE, *points, run.units);
        columns.push(resistance.named(&head("resist.", *model)));
    }
    let shares = apart(&|s| 100.0 * s.resistance_share);
    columns.push(Column::numbers("resist.\napart", "%", fixed(&shares, 1)));
    for (model, points) in &beside.models {
        let wetted = Column::field(&fields::WETTED_LENGTH_RATIO, *points, run.units);
        columns.push(wetted.named(&head("wetted", *model)));
    }
    let lengths = apart(&|s| s.wetted_length_ratio);
    columns.push(Column::numbers("wetted\napart", "beams", fixed(&lengths, 2)));
    let notes = (0..spreads.len()).map(|at| {
        let each = beside.models.iter().map(|(_, points)| points[at].flags);
        let flags = each.reduce(Flags::union).unwrap_or_default();
        letters.text(flags).replace(' ', "")
    });
    columns.push(Column::words("notes", notes.collect()));
    columns.retain(|column| !column.is_blank());
    columns
}

/// What is measured over the year of the model, which is all that a narrow column has room for.
fn head(what: &str, model: LiftModel) -> String {
    format!("{what}\n{}", year(model))
}

pub(super) fn year(model: LiftModel) -> &'static str {
    model.name().rsplit(' ').next().unwrap_or_default()
}

/// The cell, or a short word where the boat does not run.
pub(super) fn or_short(cell: String, outcome: Outcome) -> String {
    match outcome {
        Outcome::Running => cell,
        Outcome::BowUnder => "bow under".to_owned(),
        Outcome::NoBalanceBowUp => "bow up".to_owned(),
        Outcome::BelowPlaningRange => "not yet".to_owned(),
    }
}

/// Where the models lie furthest apart.
fn summary(run: &RunText<'_>, beside: &Beside<'_>) -> String {
    let spreads = beside.spreads();
    let points = beside.models[0].1;
    let widest = |value: &dyn Fn(&Spread) -> f64| {
        let each = spreads.iter().zip(points).filter_map(|(s, p)| Some((value(s.as_ref()?), p)));
        each.max_by(|a, b| a.0.total_cmp(&b.0))
    };
    let (Some(trim), Some(resistance)) =
        (widest(&|s| s.trim_deg), widest(&|s| 100.0 * s.resistance_share))
    else {
        return "At no speed does she run by every model.".to_owned();
    };
    let unit = run.units.speed;
    let speed = |point: &Point| {
        format!("{} {}", number_with_decimals(unit.value(point.speed), 1), unit.symbol())
    };
    format!(
        "Where she runs by every model they differ by at most {} deg of trim (at {}) and {} % of resistance (at {}).",
        number_with_decimals(trim.0, 1),
        speed(trim.1),
        number_with_decimals(resistance.0, 0),
        speed(resistance.1)
    )
}
