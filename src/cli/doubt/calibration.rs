//! How far the equations have stood from published tests, as text and as JSON.

use serde::Serialize;

use crate::cli::screen::{CAUTION, Screen, paragraph};
use crate::cli::table::{Column, table};
use crate::cli::{Ending, Failure};
use crate::doubt::calibrate::{Calibrated, Coverage, USED, calibrated, coverage, printed};

/// What a reader must know before trusting the table.
const HONESTLY: &str = "Few data, and not all of them independent: the worked example of 1964 was computed by hand with the same equations, so that it shows reading and rounding and hardly any spread of real hulls, and a single run of a single model stands for all the others. So what the sources say is widened for their small number (Student's distribution, one degree of freedom for each source), and a floor by judgement stands under it. That all or nearly all values fall within shows that the ranges are not too narrow for these cases; it does not show that they are right for a boat unlike them. A sea trial says more about one boat than this table.";

/// Prints the calibration.
pub(super) fn print(json: bool, screen: Screen) -> Result<Ending, Failure> {
    let all = printed();
    let factors = calibrated(&all, None);
    let coverage = coverage(&all);
    if json {
        screen.print_json(&Record::of(&factors, &coverage))?;
    } else {
        screen.print(&text(&factors, &coverage, screen))?;
    }
    Ok(Ending::Done)
}

fn text(factors: &[Calibrated; 3], coverage: &[Coverage], screen: Screen) -> String {
    let mut text =
        format!("{}\n", screen.heading("How far the equations stand from published tests"));
    text.push_str(&table(&factor_columns(factors), screen));
    text.push_str(&paragraph(
        "  ",
        "Standard deviations of the ratio of the printed to the computed value, in per cent: of all sources alike; widened for their small number; the floor by judgement; and what is drawn with, the larger of the two, rounded up.",
    ));
    text.push_str(&format!(
        "\n{}\n",
        screen.heading("How many printed values fall within the range for nine in ten")
    ));
    text.push_str(&table(&coverage_columns(coverage), screen));
    let furthest: Vec<String> =
        coverage.iter().map(|row| format!("{} ({:+.1})", row.furthest, row.deviations)).collect();
    text.push_str(&paragraph(
        "  ",
        &format!("Furthest out, in standard deviations: {}.", furthest.join("; ")),
    ));
    let [values, within, used] = totals(coverage);
    text.push_str(&paragraph(
        "  ",
        &format!(
            "Leaving each source out in turn, {within} of {values} of its values fall within the range foretold from the others; {used} of {values} within the range used, to which it has contributed. Nine in ten are asked for."
        ),
    ));
    text.push('\n');
    text.push_str(&paragraph("  ", HONESTLY));
    text.push('\n');
    text.push_str(&paragraph("", CAUTION));
    text
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

/// Values, those within when left out, and those within as used.
fn totals(coverage: &[Coverage]) -> [usize; 3] {
    let sum = |value: fn(&Coverage) -> usize| coverage.iter().map(value).sum();
    [sum(|row| row.values), sum(|row| row.within), sum(|row| row.within_used)]
}

#[derive(Serialize)]
struct Record {
    factors: Vec<FactorRecord>,
    coverage: Vec<CoverageRecord>,
    values: usize,
    within_left_out: usize,
    within_as_used: usize,
    asked_for_share: f64,
    note: &'static str,
    caution: &'static str,
}

#[derive(Serialize)]
struct FactorRecord {
    factor: &'static str,
    sources: usize,
    plain: f64,
    widened: f64,
    floor: f64,
    used: f64,
}

#[derive(Serialize)]
struct CoverageRecord {
    source: &'static str,
    values: usize,
    within_left_out: usize,
    within_as_used: usize,
    furthest: String,
    furthest_deviations: f64,
}

impl Record {
    fn of(factors: &[Calibrated; 3], coverage: &[Coverage]) -> Self {
        let [values, within_left_out, within_as_used] = totals(coverage);
        let factor = |(own, used): (&Calibrated, f64)| FactorRecord {
            factor: own.what.word(),
            sources: own.sources,
            plain: own.plain,
            widened: own.widened,
            floor: own.floor,
            used,
        };
        let source = |row: &Coverage| CoverageRecord {
            source: row.source.name(),
            values: row.values,
            within_left_out: row.within,
            within_as_used: row.within_used,
            furthest: row.furthest.clone(),
            furthest_deviations: row.deviations,
        };
        Self {
            factors: factors.iter().zip(USED).map(factor).collect(),
            coverage: coverage.iter().map(source).collect(),
            values,
            within_left_out,
            within_as_used,
            asked_for_share: 0.9,
            note: HONESTLY,
            caution: CAUTION,
        }
    }
}
