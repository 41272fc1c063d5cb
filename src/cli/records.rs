//! What the JSON of several commands says alike.

use crate::chart::ChartFiles;

/// Every file of some charts.
pub(super) fn chart_paths<'a>(charts: impl IntoIterator<Item = &'a ChartFiles>) -> Vec<String> {
    let files = charts.into_iter().flat_map(|chart| [&chart.svg, &chart.png]);
    files.map(|path| path.display().to_string()).collect()
}
