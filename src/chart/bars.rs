//! Bars to the left and right of nought: which of several things matters, and which way.

use std::path::Path;

use super::error::ChartError;
use super::export::{ChartFiles, add_both};
use super::frame::draw_writing;
use super::layout::{AXIS_PX, BORDER_PX, LABEL_PX, NUMBER_PX, SHEET_WIDTH_PX, Writing};
use super::scale::{Scale, drawable, format_number};
use super::style::{BAND_LINE, BAND_TINT, FORM, GRID};
use crate::drawing::geometry::Lean;
use crate::drawing::{Anchor, Drawing, INK, Pen, QUIET_INK, Rect, SEA, TextBlock};
use crate::save::FileSet;

/// Height of one row.
const ROW_PX: f64 = 27.0;
/// Height of a bar.
const BAR_PX: f64 = 15.0;
/// Widest name at the left.
const NAME_PX: f64 = 250.0;
/// Room for the number beyond the end of a bar.
const NUMBER_ROOM_PX: f64 = 46.0;

/// Named bars to both sides of nought, drawn from above in their order.
///
/// A bar to the right is filled, one to the left hatched, so that they differ on a black-and-white
/// printer too; each carries its number.
#[derive(Clone, Debug, PartialEq)]
pub struct BarChart {
    /// What the chart shows.
    pub title: String,
    /// For whom and with what reservation.
    pub subtitle: Option<String>,
    /// What the length of a bar is.
    pub axis: String,
    /// What a bar to the left and to the right means.
    pub sides: [String; 2],
    /// Names and lengths.
    pub bars: Vec<(String, f64)>,
    /// The length at both ends of the axis.
    pub largest: f64,
    /// Sources and cautions below the chart.
    pub footnote: Option<String>,
}

impl BarChart {
    /// The chart as an SVG document; the same chart gives the same bytes every time.
    ///
    /// # Errors
    /// [`ChartError::Range`] for an impossible length of the axis, [`ChartError::Draw`] when the
    /// drawing engine refuses.
    pub fn svg(&self) -> Result<String, ChartError> {
        if !drawable(self.largest) || self.largest <= 0.0 {
            let (from, to) = (-self.largest, self.largest);
            return Err(ChartError::Range { axis: self.axis.clone(), from, to });
        }
        let sheet = Sheet::of(self);
        let mut drawing = Drawing::new([SHEET_WIDTH_PX, sheet.height_px], &self.title, FORM);
        drawing.part("chart-grid", |drawing| {
            for tick in sheet.scale.ticks() {
                let x = sheet.across(tick);
                let thin = Pen::solid(GRID, 0.75);
                drawing.line([x, sheet.plot.top], [x, sheet.plot.bottom], thin);
            }
        });
        drawing.part("chart-bars", |drawing| self.all_bars(drawing, &sheet));
        drawing.part("chart-axes", |drawing| self.axes(drawing, &sheet));
        draw_writing(&mut drawing, &sheet.writing, sheet.title_line_y());
        Ok(drawing.svg(&self.in_words()))
    }

    /// Adds `stem.svg` and `stem.png` in a folder to the files to be written.
    ///
    /// # Errors
    /// As [`BarChart::svg`], and as [`super::LineChart::add_to`].
    pub fn add_to(
        &self,
        files: &mut FileSet,
        folder: &Path,
        stem: &str,
    ) -> Result<ChartFiles, ChartError> {
        add_both(files, self.svg()?, folder, stem)
    }

    fn in_words(&self) -> String {
        let [left, right] = &self.sides;
        let mut text = format!("{}. To the left: {left}. To the right: {right}.", self.axis);
        for (name, length) in &self.bars {
            text += &format!(" {name}: {}.", format_number(*length, 2));
        }
        for more in [&self.subtitle, &self.footnote].into_iter().flatten() {
            text += &format!(" {more}");
        }
        text
    }

    fn all_bars(&self, drawing: &mut Drawing, sheet: &Sheet) {
        for (row, (name, length)) in self.bars.iter().enumerate() {
            #[allow(clippy::cast_precision_loss)]
            let y = sheet.plot.top + (row as f64 + 0.5) * ROW_PX;
            let shown = length.clamp(-self.largest, self.largest);
            let (from, to) = (sheet.across(0.0), sheet.across(shown));
            let bar = Rect {
                left: from.min(to),
                right: from.max(to),
                top: y - 0.5 * BAR_PX,
                bottom: y + 0.5 * BAR_PX,
            };
            draw_bar(drawing, &bar, shown < 0.0);
            let block = TextBlock::wrapped(name, LABEL_PX, NAME_PX);
            let line = block.lines.first().map_or("", String::as_str);
            let names_end = sheet.plot.left - NUMBER_ROOM_PX;
            drawing.text([names_end, y], LABEL_PX, Anchor::End, line);
            let number = format_number(*length, 2);
            let (beside, anchor) =
                if shown < 0.0 { (to - 6.0, Anchor::End) } else { (to + 6.0, Anchor::Start) };
            drawing.text([beside, y], NUMBER_PX, anchor, &number);
        }
    }

    fn axes(&self, drawing: &mut Drawing, sheet: &Sheet) {
        let plot = &sheet.plot;
        let zero = sheet.across(0.0);
        let strong = Pen::solid(INK, 1.25);
        drawing.line([zero, plot.top - 4.0], [zero, plot.bottom + 4.0], strong);
        let row = plot.bottom + 5.0 + NUMBER_PX;
        for tick in sheet.scale.ticks() {
            let at = [sheet.across(tick), row];
            drawing.text(at, NUMBER_PX, Anchor::Middle, &sheet.scale.number(tick));
        }
        let label = [plot.centre()[0], row + 1.5 * AXIS_PX];
        drawing.text(label, AXIS_PX, Anchor::Middle, &self.axis);
        let sides_y = plot.top - 0.9 * LABEL_PX;
        let [left, right] = &self.sides;
        for (text, x, anchor) in
            [(left, zero - 10.0, Anchor::End), (right, zero + 10.0, Anchor::Start)]
        {
            drawing.letters([x, sides_y], LABEL_PX, anchor, QUIET_INK, text);
        }
    }
}

/// A bar: filled to the right of nought, hatched on a tint to the left.
fn draw_bar(drawing: &mut Drawing, bar: &Rect, to_left: bool) {
    if bar.width() < 0.5 {
        return;
    }
    let corners = bar.corners();
    drawing.shape(&corners, None, Some(if to_left { BAND_TINT } else { SEA }));
    if to_left {
        drawing.hatch(&corners, 5.0, Lean::Forward, &Pen::solid(BAND_LINE, 0.75));
    }
    let [a, b, c, d] = corners;
    drawing.open(&[a, b, c, d, a], Pen::solid(INK, 0.75));
}

/// Where everything lies.
struct Sheet {
    height_px: f64,
    plot: Rect,
    scale: Scale,
    writing: Writing,
}

impl Sheet {
    fn of(chart: &BarChart) -> Self {
        let (subtitle, footnote) = (chart.subtitle.as_deref(), chart.footnote.as_deref());
        let writing = Writing::of(&chart.title, subtitle, footnote);
        let top = BORDER_PX + writing.head() + 38.0;
        #[allow(clippy::cast_precision_loss)]
        let bottom = top + ROW_PX * chart.bars.len().max(1) as f64;
        let plot = Rect {
            left: BORDER_PX + NAME_PX + NUMBER_ROOM_PX,
            right: SHEET_WIDTH_PX - BORDER_PX - NUMBER_ROOM_PX,
            top,
            bottom,
        };
        let below = 5.0 + 2.0 * NUMBER_PX + 2.0 * AXIS_PX;
        Self {
            height_px: (bottom + below + writing.footnote.height() + BORDER_PX).ceil(),
            plot,
            scale: Scale::fixed(-chart.largest, chart.largest, 9.0),
            writing,
        }
    }

    fn across(&self, length: f64) -> f64 {
        self.plot.left + self.scale.fraction(length) * self.plot.width()
    }

    /// Where the line under the title block runs.
    fn title_line_y(&self) -> f64 {
        BORDER_PX - 4.0 + self.writing.head() + 6.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chart(bars: Vec<(String, f64)>) -> BarChart {
        BarChart {
            title: "What the trim follows".to_owned(),
            subtitle: Some("Heron & <crew>".to_owned()),
            axis: "Rank correlation".to_owned(),
            sides: ["more of it lowers the bow".to_owned(), "lifts the bow".to_owned()],
            bars,
            largest: 1.0,
            footnote: None,
        }
    }

    #[test]
    fn regression_bars_carry_their_names_and_numbers_and_repeat_to_the_byte() {
        let bars = vec![("LCG".to_owned(), -0.82), ("mass".to_owned(), 0.31)];
        let svg = chart(bars.clone()).svg().unwrap();
        for text in ["LCG", "−0.82", "mass", "0.31", "Heron &amp; &lt;crew&gt;"] {
            assert!(svg.contains(text), "{text}");
        }
        assert_eq!(svg, chart(bars).svg().unwrap());
        assert!(chart(Vec::new()).svg().is_ok());
    }

    #[test]
    fn error_an_axis_needs_a_length() {
        let empty = BarChart { largest: 0.0, ..chart(Vec::new()) };
        assert!(matches!(empty.svg(), Err(ChartError::Range { .. })));
    }
}
