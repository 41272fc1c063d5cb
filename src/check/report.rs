//! All comparisons with their verdicts, as one serialisable object.

use serde::Serialize;

use super::{Comparison, Verdict};

/// How many comparisons were met.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Summary {
    /// Judged comparisons within tolerance.
    pub within: usize,
    /// Comparisons judged.
    pub judged: usize,
    /// Comparisons shown for information.
    pub shown: usize,
}

impl Summary {
    /// Counts.
    #[must_use]
    pub fn of(comparisons: &[Comparison]) -> Self {
        let count = |verdict| comparisons.iter().filter(|each| each.verdict() == verdict).count();
        let [within, missed, shown] = [Verdict::Met, Verdict::Missed, Verdict::Shown].map(count);
        Self { within, judged: within + missed, shown }
    }

    /// Whether every judged comparison is within tolerance; never when none was judged.
    #[must_use]
    pub const fn all_met(&self) -> bool {
        self.judged > 0 && self.within == self.judged
    }
}

impl std::fmt::Display for Summary {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "{} of {} within tolerance, {} shown for information",
            self.within, self.judged, self.shown
        )
    }
}

/// A comparison with what follows from it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Row<'a> {
    /// The comparison.
    #[serde(flatten)]
    pub comparison: &'a Comparison,
    /// [`Comparison::difference`].
    pub difference: f64,
    /// [`Comparison::verdict`].
    pub verdict: Verdict,
}

/// All comparisons, for JSON.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Report<'a> {
    /// How many were met.
    pub summary: Summary,
    /// One for each comparison.
    pub comparisons: Vec<Row<'a>>,
}

impl<'a> Report<'a> {
    /// Puts the verdicts beside the comparisons.
    #[must_use]
    pub fn of(comparisons: &'a [Comparison]) -> Self {
        let rows = comparisons.iter().map(|comparison| Row {
            comparison,
            difference: comparison.difference(),
            verdict: comparison.verdict(),
        });
        Self { summary: Summary::of(comparisons), comparisons: rows.collect() }
    }
}
