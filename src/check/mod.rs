//! Published cases, computed here and set beside what was printed.
//!
//! One file per source. The printed values live in `data/published`, which
//! says for each where it is printed and how it was read; the tolerances
//! stand here, each with its reason. No case reads the data that the program
//! itself interpolates.

mod data;
mod faltinsen_2005;
mod fridsma_1969;
mod fridsma_1971;
mod gaylo_roske_2019;
mod gaylo_roske_2019_pressure;
mod naca_1953;
mod report;
mod roark;
mod savitsky_1964;
mod savitsky_brown_1976;
#[cfg(feature = "program")]
pub mod table;
mod water;
mod wood_screws;

use std::borrow::Cow;

use serde::Serialize;
use thiserror::Error;

use crate::balance::Outcome;
use crate::boat::Faults;
use crate::plane::strength::StrengthError;

pub use report::{Report, Row, Summary};

/// How far a computed value may lie from the printed one.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Tolerance {
    /// As a share of the printed value.
    Relative(f64),
    /// In the unit of the printed value.
    Absolute(f64),
}

/// A computed value beside a printed one.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Comparison {
    /// Where in the source the value stands, and at what condition.
    pub case: String,
    /// What is compared.
    pub quantity: &'static str,
    /// Unit of both values; empty for a plain number.
    pub unit: &'static str,
    /// What the source prints.
    pub printed: f64,
    /// What the program computes.
    pub computed: f64,
    /// How far apart the two may lie.
    pub tolerance: Tolerance,
    /// Whether the comparison counts; one that does not is shown for information.
    pub judged: bool,
    /// The source.
    pub source: &'static str,
    /// What a reader must know about this comparison.
    pub note: Option<Cow<'static, str>>,
}

/// What a comparison says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Within tolerance.
    Met,
    /// Outside it.
    Missed,
    /// Shown for information, not judged.
    Shown,
}

impl Comparison {
    /// Computed less printed: a share of the printed value under a relative tolerance, in the unit under an absolute one.
    #[must_use]
    pub fn difference(&self) -> f64 {
        let difference = self.computed - self.printed;
        match self.tolerance {
            Tolerance::Relative(_) => difference / self.printed.abs(),
            Tolerance::Absolute(_) => difference,
        }
    }

    /// Whether the difference lies within the tolerance; never for a value that is not a number.
    #[must_use]
    pub fn met(&self) -> bool {
        let (Tolerance::Relative(allowed) | Tolerance::Absolute(allowed)) = self.tolerance;
        self.difference().abs() <= allowed
    }

    /// What the comparison says.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        match (self.judged, self.met()) {
            (false, _) => Verdict::Shown,
            (true, true) => Verdict::Met,
            (true, false) => Verdict::Missed,
        }
    }

    fn with_note(self, note: impl Into<Cow<'static, str>>) -> Self {
        Self { note: Some(note.into()), ..self }
    }

    fn for_information(self) -> Self {
        Self { judged: false, ..self }
    }
}

/// One case of a source, whose comparisons share their heading.
struct Case {
    source: &'static str,
    name: String,
}

impl Case {
    fn new(source: &'static str, name: impl Into<String>) -> Self {
        Self { source, name: name.into() }
    }

    fn compare(
        &self,
        quantity: &'static str,
        unit: &'static str,
        [printed, computed]: [f64; 2],
        tolerance: Tolerance,
    ) -> Comparison {
        Comparison {
            case: self.name.clone(),
            quantity,
            unit,
            printed,
            computed,
            tolerance,
            judged: true,
            source: self.source,
            note: None,
        }
    }
}

/// Why a case could not be computed at all.
#[derive(Debug, Error)]
pub enum CheckError {
    /// The data does not read as it should.
    #[error(
        "the published data in {file} cannot be read; the program was built from a damaged copy"
    )]
    Data {
        /// File under `data/published`.
        file: &'static str,
        /// What the reader says.
        #[source]
        cause: csv::Error,
    },
    /// The data holds another number of rows than the case needs.
    #[error("the published data in {file} has no row for {wanted}")]
    NoRow {
        /// File under `data/published`.
        file: &'static str,
        /// What was looked for.
        wanted: &'static str,
    },
    /// The published boat is refused by the program's own checks.
    #[error("the boat of {case} cannot be built: {faults}")]
    Boat {
        /// The case.
        case: &'static str,
        /// What is wrong with it.
        faults: Faults,
    },
    /// The published boat does not run.
    #[error("the boat of {case} does not run in balance: {outcome}")]
    NotRunning {
        /// The case.
        case: &'static str,
        /// What it does instead.
        outcome: Outcome,
    },
    /// The published plate or screw is refused by the program's own checks.
    #[error("{case} cannot be computed: {cause}")]
    Strength {
        /// The case.
        case: &'static str,
        /// What is wrong with it.
        #[source]
        cause: StrengthError,
    },
}

/// All published cases.
///
/// # Errors
/// When a case cannot be computed at all; a value that is off is no error but
/// a comparison that is not met.
pub fn all() -> Result<Vec<Comparison>, CheckError> {
    let mut all = savitsky_1964::comparisons()?;
    all.extend(savitsky_brown_1976::comparisons()?);
    all.extend(faltinsen_2005::comparisons()?);
    all.extend(fridsma_1969::comparisons()?);
    all.extend(fridsma_1971::comparisons()?);
    all.extend(gaylo_roske_2019::comparisons()?);
    all.extend(gaylo_roske_2019_pressure::comparisons()?);
    all.extend(naca_1953::comparisons()?);
    all.extend(water::comparisons()?);
    all.extend(roark::comparisons()?);
    all.extend(wood_screws::comparisons()?);
    Ok(all)
}

#[cfg(test)]
mod tests {
    use super::{Case, Tolerance, Verdict};

    #[test]
    fn physics_a_comparison_is_met_up_to_its_tolerance_and_not_beyond() {
        let case = Case::new("a source", "a case");
        for (computed, tolerance, met) in [
            (-101.0, Tolerance::Relative(0.0101), true),
            (-99.0, Tolerance::Relative(0.0101), true),
            (-101.0, Tolerance::Relative(0.0099), false),
            (-99.0, Tolerance::Relative(0.0099), false),
            (-101.0, Tolerance::Absolute(1.01), true),
            (-101.0, Tolerance::Absolute(0.99), false),
            (100.0, Tolerance::Relative(1.0), false),
            (f64::NAN, Tolerance::Relative(1.0), false),
            (f64::INFINITY, Tolerance::Absolute(1.0), false),
        ] {
            let comparison = case.compare("quantity", "N", [-100.0, computed], tolerance);
            assert_eq!(comparison.met(), met, "{computed} {tolerance:?}");
            assert_eq!(comparison.verdict(), if met { Verdict::Met } else { Verdict::Missed });
            assert_eq!(comparison.for_information().verdict(), Verdict::Shown);
        }
    }
}
