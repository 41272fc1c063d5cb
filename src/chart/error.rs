//! What can go wrong while drawing a chart.

use crate::drawing::DrawingError;

/// Why a chart could not be drawn.
#[derive(Debug, thiserror::Error)]
pub enum ChartError {
    /// A fixed axis range is not two finite numbers in rising order.
    #[error(
        "axis '{axis}' cannot run from {from} to {to}: give two finite numbers, the smaller one first"
    )]
    Range {
        /// The axis label.
        axis: String,
        /// Where the axis was asked to begin, in the axis unit.
        from: f64,
        /// Where the axis was asked to end, in the axis unit.
        to: f64,
    },
    /// The drawing engine refused an element.
    #[error("the chart could not be drawn: {0}")]
    Draw(String),
    /// The finished drawing could not be turned into pixels.
    #[error(transparent)]
    Drawing(#[from] DrawingError),
    /// A file stem is empty or holds a path separator.
    #[error("'{0}' is no file name for a chart: give a plain name without '/' or '\\'")]
    Stem(String),
}
