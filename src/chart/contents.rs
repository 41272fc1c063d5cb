//! What a chart shows.
//!
//! Numbers are plain f64 in the unit written on the axis: a chart does not
//! convert. A value that is NaN, infinite or beyond ±1e300 counts as missing.

use super::error::ChartError;
use super::scale::{Fit, Scale, drawable};
use super::style::LineStyle;

/// A line chart: title block, two axes, lines, and what helps to judge them.
///
/// Everything is labelled in the drawing itself where there is room. What finds
/// no clear place there is named in the key on the right. Text never lies on
/// text or on a line: the sheet grows in height when there is much to write.
#[derive(Clone, Debug, PartialEq)]
pub struct LineChart {
    /// What the chart shows.
    pub title: String,
    /// For whom and with what reservation: boat, model, 'inputs partly estimated'.
    pub subtitle: Option<String>,
    /// The horizontal axis.
    pub x: Axis,
    /// The vertical axis.
    pub y: Axis,
    /// The lines, each named at its right end.
    pub series: Vec<Series>,
    /// Shaded areas between two lines, such as a porpoising limit with its doubt.
    pub bands: Vec<Band>,
    /// Horizontal lines not to go below, such as a least trim.
    pub floors: Vec<Rule>,
    /// Stretches of the x axis where the method has no tests behind it.
    pub untested: Vec<Region>,
    /// Single points with a name, such as the chosen set-up.
    pub markers: Vec<Marker>,
    /// Sources and cautions below the chart.
    pub footnote: Option<String>,
    /// How high it is drawn.
    pub height: Height,
}

/// Least height of a chart of 900 px width; it grows where there is much to write.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Height {
    /// 560 px: a figure by itself.
    #[default]
    Usual,
    /// 400 px: three below each other on a page.
    Low,
    /// 310 px: a strip on a page with much else.
    Strip,
}

impl Height {
    /// Least height of the sheet and of the plot in it, CSS pixels.
    pub(super) const fn least_px(self) -> [f64; 2] {
        match self {
            Self::Usual => [560.0, 330.0],
            Self::Low => [400.0, 210.0],
            Self::Strip => [310.0, 150.0],
        }
    }

    /// Numbered ticks wanted on the vertical axis.
    const fn ticks(self) -> f64 {
        match self {
            Self::Usual => 7.0,
            Self::Low | Self::Strip => 5.0,
        }
    }
}

/// One axis: name, unit and, if wanted, its range.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// The quantity.
    pub label: String,
    /// Its unit, written in parentheses after the label; empty for a plain number.
    pub unit: String,
    /// First and last value in the unit of the axis; `None` fits the contents.
    pub range: Option<(f64, f64)>,
}

/// One line of points.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    /// Its name, written at the end of the line.
    pub label: String,
    /// Points (x, y) in drawing order. A missing value (NaN) breaks the line.
    pub points: Vec<(f64, f64)>,
    /// How it is drawn; `None` takes the style of its place in the chart.
    pub style: Option<LineStyle>,
}

/// A shaded area between a lower and an upper line.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// Its name.
    pub label: String,
    /// Points (x, y) of the lower edge, x rising.
    pub lower: Vec<(f64, f64)>,
    /// Points (x, y) of the upper edge, x rising.
    pub upper: Vec<(f64, f64)>,
}

/// A horizontal line across the chart that values should stay above.
#[derive(Clone, Debug, PartialEq)]
pub struct Rule {
    /// Its name, written along the line.
    pub label: String,
    /// Its height, in the unit of the y axis.
    pub y: f64,
}

/// A stretch of the x axis without tests behind it.
#[derive(Clone, Debug, PartialEq)]
pub struct Region {
    /// Its name.
    pub label: String,
    /// Where it begins, in the unit of the x axis; may be -∞ for the left edge.
    pub x_from: f64,
    /// Where it ends, in the unit of the x axis; may be ∞ for the right edge.
    pub x_to: f64,
}

/// One point with a name.
#[derive(Clone, Debug, PartialEq)]
pub struct Marker {
    /// Its name.
    pub label: String,
    /// Its place, in the unit of the x axis.
    pub x: f64,
    /// Its height, in the unit of the y axis.
    pub y: f64,
}

impl LineChart {
    /// An empty chart with its title and axes; fill the public fields next.
    pub fn new(title: impl Into<String>, x: Axis, y: Axis) -> Self {
        Self {
            title: title.into(),
            subtitle: None,
            x,
            y,
            series: Vec::new(),
            bands: Vec::new(),
            floors: Vec::new(),
            untested: Vec::new(),
            markers: Vec::new(),
            footnote: None,
            height: Height::Usual,
        }
    }

    /// The horizontal scale with about this many numbered ticks.
    pub(super) fn x_scale(&self, wanted: f64) -> Result<Scale, ChartError> {
        let values = self.all_points().map(|point| point.0);
        let has_lines = self.series.iter().any(|s| s.runs().any(|run| run.len() > 1));
        let fit = if has_lines || !self.bands.is_empty() {
            Fit::Tight
        } else {
            // Lone points would sit on the frame.
            Fit::Round
        };
        self.x.scale(values, wanted, fit)
    }

    /// The vertical scale, with as many numbered ticks as its height has room for.
    pub(super) fn y_scale(&self) -> Result<Scale, ChartError> {
        let floors = self.floors.iter().map(|rule| rule.y);
        let values = self.all_points().map(|point| point.1).chain(floors);
        self.y.scale(values, self.height.ticks(), Fit::Round)
    }

    /// Every point the automatic ranges must hold.
    fn all_points(&self) -> impl Iterator<Item = (f64, f64)> + '_ {
        let lines = self.series.iter().flat_map(|s| s.points.iter());
        let edges = self.bands.iter().flat_map(|b| b.lower.iter().chain(&b.upper));
        let markers = self.markers.iter().map(|m| (m.x, m.y));
        lines.chain(edges).copied().chain(markers).filter(|(x, y)| drawable(*x) && drawable(*y))
    }
}

impl Axis {
    /// An axis that fits its contents. An empty unit means a plain number.
    pub fn new(label: impl Into<String>, unit: impl Into<String>) -> Self {
        Self { label: label.into(), unit: unit.into(), range: None }
    }

    /// The same axis over a fixed range, in its own unit.
    pub fn over(mut self, from: f64, to: f64) -> Self {
        self.range = Some((from, to));
        self
    }

    fn scale(
        &self,
        values: impl Iterator<Item = f64>,
        wanted: f64,
        fit: Fit,
    ) -> Result<Scale, ChartError> {
        match self.range {
            None => Ok(Scale::around(values, wanted, fit)),
            Some((from, to)) if drawable(from) && drawable(to) && from < to => {
                Ok(Scale::fixed(from, to, wanted))
            }
            Some((from, to)) => Err(ChartError::Range { axis: self.label.clone(), from, to }),
        }
    }
}

impl Series {
    /// A line in the style of its place in the chart.
    pub fn new(label: impl Into<String>, points: Vec<(f64, f64)>) -> Self {
        Self { label: label.into(), points, style: None }
    }

    /// The same line in a style of its own.
    pub fn styled(mut self, style: LineStyle) -> Self {
        self.style = Some(style);
        self
    }

    /// The unbroken runs of drawable points.
    pub(super) fn runs(&self) -> impl Iterator<Item = &[(f64, f64)]> {
        self.points.split(|(x, y)| !drawable(*x) || !drawable(*y)).filter(|run| !run.is_empty())
    }
}

impl Band {
    /// A shaded area between a lower and an upper line, x rising on both.
    pub fn new(label: impl Into<String>, lower: Vec<(f64, f64)>, upper: Vec<(f64, f64)>) -> Self {
        Self { label: label.into(), lower, upper }
    }
}

impl Rule {
    /// A horizontal line at this height.
    pub fn new(label: impl Into<String>, y: f64) -> Self {
        Self { label: label.into(), y }
    }
}

impl Region {
    /// A stretch of the x axis between two places.
    pub fn new(label: impl Into<String>, x_from: f64, x_to: f64) -> Self {
        Self { label: label.into(), x_from, x_to }
    }
}

impl Marker {
    /// A named point.
    pub fn new(label: impl Into<String>, x: f64, y: f64) -> Self {
        Self { label: label.into(), x, y }
    }
}
