//! What the JSON of several commands says alike.

use crate::boat::PlanePair;
use crate::chart::ChartFiles;
use crate::field::{InSi, written};

/// Every file of some charts.
pub(super) fn chart_paths<'a>(charts: impl IntoIterator<Item = &'a ChartFiles>) -> Vec<String> {
    let files = charts.into_iter().flat_map(|chart| [&chart.svg, &chart.png]);
    files.map(|path| path.display().to_string()).collect()
}

/// Span and chord of one plane.
pub(super) struct Size(pub PlanePair);

written! {
    Size as size {
        "span_m": size.0.span.in_si(),
        "chord_m": size.0.chord.in_si(),
    }
}
