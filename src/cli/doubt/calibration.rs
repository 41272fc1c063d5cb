//! How far the equations have stood from published tests, as text and as JSON.

use serde::Serialize;

use crate::cli::data::DataArguments;
use crate::cli::screen::{CAUTION, Screen};
use crate::cli::{Ending, Failure};
use crate::doubt::calibrate::{Calibrated, Coverage, USED, calibrated, coverage, printed};
use crate::tell::doubt::{HONESTLY, calibration};

/// Prints the calibration.
pub(super) fn print(data: &DataArguments, screen: Screen) -> Result<Ending, Failure> {
    let all = printed();
    let factors = calibrated(&all, None);
    let coverage = coverage(&all);
    if data.wanted() {
        data.print(&Record::of(&factors, &coverage), "factors", None, &[])?;
    } else {
        screen.print(&text(&factors, &coverage, screen))?;
    }
    Ok(Ending::Done)
}

fn text(factors: &[Calibrated; 3], coverage: &[Coverage], screen: Screen) -> String {
    let told = screen.blocks(&calibration(factors, coverage));
    format!("{}\n{}", told.trim_start_matches('\n'), screen.paragraph("", CAUTION))
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
        let [values, within_left_out, within_as_used] = Coverage::totals(coverage);
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
