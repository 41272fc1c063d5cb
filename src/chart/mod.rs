//! Charts: line figures as SVG and PNG that also read in black and white.
//!
//! A chart knows nothing about boats: a caller hands over numbers already in
//! the unit written on the axis, and gets a figure back. Only the charts named
//! last on the list put a boat's numbers into charts.
//! Data flows down this list, and a file uses only what stands above it:
//!
//! * [`error`](ChartError): what can go wrong;
//! * `style`: colours, dash patterns and symbols;
//! * `scale`: round axis ticks;
//! * `contents`: what a chart shows ([`LineChart`] and its parts);
//! * `describe`: the same in words, for screen readers;
//! * `placement`: where a label fits without touching anything;
//! * `layout`: sizes of the sheet and of its margins;
//! * `shapes`: the contents cut to the plot;
//! * `plot`: grid and lines in the units of the axes, by the charting library;
//! * `symbol`, `frame`, `key`, `figure`: the drawing itself;
//! * `export`: SVG and PNG to disk;
//! * [`BarChart`]: bars to both sides of nought;
//! * [`Subject`]: the boat, her loading and her planes, which every chart of a boat names;
//! * [`running`]: the charts of a running boat, and any of its fields against another;
//! * [`sizing`]: the charts of a suggested pair;
//! * [`level`]: the charts of a list;
//! * [`on_plane`], [`fuel`]: the charts of getting on plane, and of fuel;
//! * [`seaway`]: the charts of a boat in head seas;
//! * [`doubt`]: the charts of how sure it all is.
//!
//! Strokes and letters are those of [`crate::drawing`].
//!
//! # Example
//!
//! ```
//! use planewright::chart::{Axis, LineChart, Series};
//!
//! let mut chart = LineChart::new(
//!     "Running trim",
//!     Axis::new("Speed", "kn"),
//!     Axis::new("Trim", "°"),
//! );
//! chart.series.push(Series::new("planes up", vec![(10.0, 5.1), (20.0, 4.2), (30.0, 3.0)]));
//! assert!(chart.svg()?.starts_with("<svg"));
//! # Ok::<(), planewright::chart::ChartError>(())
//! ```

mod bars;
mod contents;
mod describe;
pub mod doubt;
mod error;
mod export;
mod figure;
mod frame;
pub mod fuel;
mod key;
mod layout;
pub mod level;
pub mod loads;
pub mod on_plane;
mod placement;
mod plot;
pub mod running;
mod scale;
pub mod seaway;
mod shapes;
pub mod sizing;
mod style;
mod subject;
pub mod swept;
mod symbol;
#[cfg(test)]
mod tests;

pub use bars::BarChart;
pub use contents::{Axis, Band, Height, LineChart, Marker, Region, Rule, Series};
pub use error::ChartError;
pub use export::ChartFiles;
pub use style::{LineStyle, Symbol};
pub use subject::Subject;
