//! SVG to PNG, and both to the files to be written.

use std::path::{Path, PathBuf};

use super::contents::LineChart;
use super::error::ChartError;
use super::figure;
use crate::drawing::png;
use crate::save::FileSet;

/// Picture pixels per CSS pixel in a PNG.
const PNG_SCALE: f32 = 2.0;

/// Where the two files of a chart go.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChartFiles {
    /// The drawing.
    pub svg: PathBuf,
    /// The picture of it, twice as many pixels each way.
    pub png: PathBuf,
}

impl LineChart {
    /// The chart as an SVG document of 900 CSS pixels width.
    ///
    /// The same chart gives the same bytes every time.
    ///
    /// # Errors
    /// [`ChartError::Range`] for an impossible fixed axis range;
    /// [`ChartError::Draw`] when the drawing engine refuses.
    pub fn svg(&self) -> Result<String, ChartError> {
        figure::draw(self)
    }

    /// The chart as a PNG picture with two pixels per CSS pixel.
    ///
    /// # Errors
    /// As [`LineChart::svg`], and [`ChartError::Drawing`].
    pub fn png(&self) -> Result<Vec<u8>, ChartError> {
        Ok(png(&self.svg()?, PNG_SCALE)?)
    }

    /// Adds `stem.svg` and `stem.png` in a folder to the files to be written.
    ///
    /// # Errors
    /// As [`LineChart::png`]; [`ChartError::Stem`] for a stem that is no plain file name.
    pub fn add_to(
        &self,
        files: &mut FileSet,
        folder: &Path,
        stem: &str,
    ) -> Result<ChartFiles, ChartError> {
        add_both(files, self.svg()?, folder, stem)
    }
}

/// An SVG document and its picture among the files to be written.
pub(super) fn add_both(
    files: &mut FileSet,
    svg: String,
    folder: &Path,
    stem: &str,
) -> Result<ChartFiles, ChartError> {
    if matches!(stem, "" | "." | "..") || stem.contains(['/', '\\', '\0']) {
        return Err(ChartError::Stem(stem.to_owned()));
    }
    let added = ChartFiles {
        svg: folder.join(format!("{stem}.svg")),
        png: folder.join(format!("{stem}.png")),
    };
    let picture = png(&svg, PNG_SCALE)?;
    files.add(&added.svg, svg);
    files.add(&added.png, picture);
    Ok(added)
}
