//! What can go wrong when a drawing is written.

/// Why a drawing could not be written.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum DrawingError {
    /// The embedded font could not be read.
    #[error("the embedded font cannot be read")]
    Font,
    /// The PDF writer refused.
    #[error("the PDF could not be written: {0}")]
    Pdf(String),
    /// The drawing could not be turned into pixels.
    #[error("the drawing could not be turned into a picture: {0}")]
    Raster(String),
}
