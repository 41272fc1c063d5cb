//! How far the equations have stood from published tests.

use crate::document::{Block, Column, Table};
use crate::doubt::calibrate::{Calibrated, Coverage, USED};

/// What a reader must know before trusting the table.
pub const HONESTLY: &str = "Few data, and not all of them independent: the worked example of 1964 was computed by hand with the same equations, so that it shows reading and rounding and hardly any spread of real hulls, and a single run of a single model stands for all the others. So what the sources say is widened for their small number (Student's distribution, one degree of freedom for each source), and a floor by judgement stands under it. That all or nearly all values fall within shows that the ranges are not too narrow for these cases; it does not show that they are right for a boat unlike them. A sea trial says more about one boat than this table.";

/// What was meant by each deviation.
const DEVIATIONS: &str = "Standard deviations of the ratio of the printed to the computed value, in per cent: of all sources alike; widened for their small number; the floor by judgement; and what is drawn with, the larger of the two, rounded up.";

/// The factors, how the printed values fall within them, and what that is worth.
#[must_use]
pub fn calibration(factors: &[Calibrated; 3], coverage: &[Coverage]) -> Vec<Block> {
    let furthest: Vec<String> =
        coverage.iter().map(|row| format!("{} ({:+.1})", row.furthest, row.deviations)).collect();
    let [values, within, used] = Coverage::totals(coverage);
    let notes = vec![
        format!("Furthest out, in standard deviations: {}.", furthest.join("; ")),
        format!(
            "Leaving each source out in turn, {within} of {values} of its values fall within the range foretold from the others; {used} of {values} within the range used, to which it has contributed. Nine in ten are asked for."
        ),
    ];
    vec![
        Block::Section("How far the equations stand from published tests".to_owned()),
        Block::Table(Table {
            columns: factor_columns(factors),
            notes: vec![DEVIATIONS.to_owned()],
            ..Table::default()
        }),
        Block::Section("How many printed values fall within the range for nine in ten".to_owned()),
        Block::Table(Table { columns: coverage_columns(coverage), notes, ..Table::default() }),
        Block::Section("What that is worth".to_owned()),
        Block::Paragraph(HONESTLY.to_owned()),
    ]
}

fn percent(share: f64) -> String {
    format!("{:.1}", 100.0 * share)
}

fn factor_columns(factors: &[Calibrated; 3]) -> Vec<Column> {
    let of = |value: &dyn Fn(usize) -> String| (0..factors.len()).map(value).collect();
    vec![
        Column::words("factor on", of(&|i| factors[i].what.name().to_owned())),
        Column::numbers("from", "sources", of(&|i| factors[i].sources.to_string())),
        Column::numbers("plain", "%", of(&|i| percent(factors[i].plain))),
        Column::numbers("widened", "%", of(&|i| percent(factors[i].widened))),
        Column::numbers("floor", "%", of(&|i| percent(factors[i].floor))),
        Column::numbers("used", "%", of(&|i| percent(USED[i]))),
    ]
}

fn coverage_columns(rows: &[Coverage]) -> Vec<Column> {
    let of = |value: &dyn Fn(&Coverage) -> String| rows.iter().map(value).collect();
    vec![
        Column::words("source", of(&|row| row.source.name().to_owned())),
        Column::numbers("values", "printed", of(&|row| row.values.to_string())),
        Column::numbers("within", "left out", of(&|row| row.within.to_string())),
        Column::numbers("within", "as used", of(&|row| row.within_used.to_string())),
    ]
}
