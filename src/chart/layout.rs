//! Sizes of the sheet and of its margins.
//!
//! The sheet is 900 px wide and as high as the chart asks; it grows in height when titles,
//! notes or the key need more room, so that nothing is squeezed or cut.

use super::contents::{Axis, LineChart};
use super::error::ChartError;
use super::scale::{Scale, power_of_ten};
use crate::drawing::{Point, Rect, TextBlock, clean, width};

/// Width of every chart, CSS pixels.
pub(super) const SHEET_WIDTH_PX: f64 = 900.0;
/// Bare border of the sheet.
pub(super) const BORDER_PX: f64 = 18.0;

/// Letter heights in CSS pixels. Nothing is smaller than [`NOTE_PX`].
const TITLE_PX: f64 = 19.0;
/// A title that needs more than two lines.
const LONG_TITLE_PX: f64 = 15.0;
const SUBTITLE_PX: f64 = 12.5;
pub(super) const AXIS_PX: f64 = 12.5;
pub(super) const NUMBER_PX: f64 = 12.0;
pub(super) const LABEL_PX: f64 = 12.0;
const NOTE_PX: f64 = 11.5;

/// Room between the plot and the samples of the key, bridged by leaders.
pub(super) const LEADER_PX: f64 = 16.0;
/// Length of a sample in the key.
pub(super) const SAMPLE_PX: f64 = 34.0;
/// Room between a sample and its name.
pub(super) const SAMPLE_GAP_PX: f64 = 7.0;
/// Least and greatest width of names in the key.
const KEY_WIDTH_PX: (f64, f64) = (96.0, 190.0);
/// Room between two entries of the key.
pub(super) const KEY_GAP_PX: f64 = 5.0;
/// Room for tick marks beside the frame.
pub(super) const TICK_ROOM_PX: f64 = 10.0;

/// What is written above and below a chart.
pub(super) struct Writing {
    pub title: TextBlock,
    pub subtitle: TextBlock,
    pub footnote: TextBlock,
}

impl Writing {
    pub fn of(title: &str, subtitle: Option<&str>, footnote: Option<&str>) -> Self {
        let wide = SHEET_WIDTH_PX - 2.0 * BORDER_PX;
        Self {
            title: title_block(title, wide),
            subtitle: TextBlock::wrapped(subtitle.unwrap_or(""), SUBTITLE_PX, wide),
            footnote: TextBlock::wrapped(footnote.unwrap_or(""), NOTE_PX, wide),
        }
    }

    /// Height of title and subtitle together.
    pub fn head(&self) -> f64 {
        self.title.height() + self.subtitle.height()
    }
}

/// The sheet with everything written around the plot.
pub(super) struct Layout {
    pub height_px: f64,
    pub plot: Rect,
    pub x: Scale,
    pub y: Scale,
    pub writing: Writing,
    pub x_label: TextBlock,
    pub y_label: TextBlock,
    /// Width of the names in the key.
    pub key_width_px: f64,
}

impl Layout {
    /// Sizes for a chart whose key needs at least this height.
    pub fn of(chart: &LineChart, key_height_px: f64) -> Result<Self, ChartError> {
        let sheet_width = SHEET_WIDTH_PX - 2.0 * BORDER_PX;
        let (subtitle, footnote) = (chart.subtitle.as_deref(), chart.footnote.as_deref());
        let writing = Writing::of(&chart.title, subtitle, footnote);
        let key_width_px = key_width(chart);

        let y = chart.y_scale()?;
        let y_label = axis_block(&chart.y, &y, sheet_width);
        let left = BORDER_PX + widest_number(&y) + TICK_ROOM_PX;
        let key = LEADER_PX + SAMPLE_PX + SAMPLE_GAP_PX + key_width_px;
        let right = SHEET_WIDTH_PX - BORDER_PX - key;
        let x = x_scale_for(chart, right - left)?;
        let x_label = axis_block(&chart.x, &x, sheet_width);

        let top = title_height(&writing) + y_label.height() + 15.0;
        let below = TICK_ROOM_PX + 2.0 + NUMBER_PX * 1.25 + x_label.height() + 8.0;
        let notes = match writing.footnote.height() {
            0.0 => 0.0,
            height => height + 8.0,
        };
        let outside = top + below + notes + BORDER_PX;
        let [least_px, least_plot_px] = chart.height.least_px();
        let plot_height = least_plot_px.max(least_px - outside).max(key_height_px);
        Ok(Self {
            height_px: (outside + plot_height).ceil(),
            plot: Rect { left, top, right, bottom: top + plot_height },
            x,
            y,
            writing,
            x_label,
            y_label,
            key_width_px,
        })
    }

    /// The place of a point of the chart on the sheet; far points are brought near.
    pub fn on_sheet(&self, point: (f64, f64)) -> Point {
        let bring_near = |fraction: f64| fraction.clamp(-1e6, 1e6);
        [
            self.plot.left + bring_near(self.x.fraction(point.0)) * self.plot.width(),
            self.plot.bottom - bring_near(self.y.fraction(point.1)) * self.plot.height(),
        ]
    }

    /// Left end of the samples of the key.
    pub fn key_left(&self) -> f64 {
        self.plot.right + LEADER_PX
    }

    /// Where the line under the title block runs.
    pub fn title_line_y(&self) -> f64 {
        title_height(&self.writing) - 4.0
    }
}

fn title_height(writing: &Writing) -> f64 {
    BORDER_PX - 4.0 + writing.head() + 12.0
}

fn title_block(text: &str, limit_px: f64) -> TextBlock {
    let block = TextBlock::wrapped(text, TITLE_PX, limit_px);
    if block.lines.len() <= 2 { block } else { TextBlock::wrapped(text, LONG_TITLE_PX, limit_px) }
}

fn axis_block(axis: &Axis, scale: &Scale, limit_px: f64) -> TextBlock {
    let unit = match (scale.exponent, axis.unit.trim()) {
        (0, "") => String::new(),
        (0, unit) => format!(" ({unit})"),
        (power, "") => format!(" (×{})", power_of_ten(power)),
        (power, unit) => format!(" (×{} {unit})", power_of_ten(power)),
    };
    TextBlock::wrapped(&format!("{}{unit}", clean(&axis.label)), AXIS_PX, limit_px)
}

fn widest_number(scale: &Scale) -> f64 {
    scale.ticks().iter().map(|tick| width(&scale.number(*tick), NUMBER_PX)).fold(0.0, f64::max)
}

/// The x scale with as many numbers as stand side by side.
fn x_scale_for(chart: &LineChart, width_px: f64) -> Result<Scale, ChartError> {
    let mut scale = chart.x_scale(2.0)?;
    for wanted in [8.0, 6.0, 5.0, 4.0, 3.0] {
        let finer = chart.x_scale(wanted)?;
        let pitch = finer.step / (finer.to - finer.from) * width_px;
        if widest_number(&finer) + 18.0 <= pitch {
            scale = finer;
            break;
        }
    }
    Ok(scale)
}

/// Width for the names of the lines; other names are broken to fit it.
fn key_width(chart: &LineChart) -> f64 {
    let widest = chart
        .series
        .iter()
        .map(|series| width(&clean(&series.label), LABEL_PX))
        .fold(0.0, f64::max);
    (widest + 1.0).clamp(KEY_WIDTH_PX.0, KEY_WIDTH_PX.1)
}
