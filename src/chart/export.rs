//! SVG to PNG, and both to disk.

use std::io::Write;
use std::path::{Path, PathBuf};

use super::contents::LineChart;
use super::error::ChartError;
use super::figure;
use crate::drawing::png;

/// Picture pixels per CSS pixel in a PNG.
const PNG_SCALE: f32 = 2.0;

/// Where the two files of a chart were written.
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

    /// Writes `stem.svg` and `stem.png` into an existing directory.
    ///
    /// Both are drawn before either is written, and each appears whole or not at all.
    ///
    /// # Errors
    /// As [`LineChart::png`]; [`ChartError::Stem`] for a stem that is no plain
    /// file name; [`ChartError::Write`] when the disk refuses.
    pub fn write(&self, directory: &Path, stem: &str) -> Result<ChartFiles, ChartError> {
        write_both(&self.svg()?, directory, stem)
    }
}

/// Writes an SVG document and its picture, each whole or not at all.
pub(super) fn write_both(
    svg: &str,
    directory: &Path,
    stem: &str,
) -> Result<ChartFiles, ChartError> {
    if matches!(stem, "" | "." | "..") || stem.contains(['/', '\\', '\0']) {
        return Err(ChartError::Stem(stem.to_owned()));
    }
    let png_bytes = png(svg, PNG_SCALE)?;
    let files = ChartFiles {
        svg: directory.join(format!("{stem}.svg")),
        png: directory.join(format!("{stem}.png")),
    };
    write_whole(&files.svg, directory, svg.as_bytes())?;
    write_whole(&files.png, directory, &png_bytes)?;
    Ok(files)
}

/// Writes beside the target first, then moves into place.
fn write_whole(path: &Path, directory: &Path, bytes: &[u8]) -> Result<(), ChartError> {
    let failed = |source| ChartError::Write { path: path.to_owned(), source };
    let mut builder = tempfile::Builder::new();
    #[cfg(unix)]
    let builder = {
        // The usual mode of a new file; the user's mask still applies.
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(std::fs::Permissions::from_mode(0o666))
    };
    let mut file = builder.tempfile_in(directory).map_err(failed)?;
    file.write_all(bytes).map_err(failed)?;
    file.persist(path).map_err(|error| failed(error.error))?;
    Ok(())
}
