//! A written drawing as a picture of pixels.

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::Tree;

use super::error::DrawingError;
use super::lettering::svg_options;

/// An SVG document as PNG with `scale` picture pixels per CSS pixel.
///
/// # Errors
/// [`DrawingError::Raster`] for a document that cannot be read or has no area.
pub(crate) fn png(svg: &str, scale: f32) -> Result<Vec<u8>, DrawingError> {
    let failed = |error: String| DrawingError::Raster(error);
    let tree = Tree::from_str(svg, &svg_options()).map_err(|error| failed(error.to_string()))?;
    let size = tree.size();
    let pixels = |length: f32| (length * scale).round() as u32;
    let mut picture = Pixmap::new(pixels(size.width()), pixels(size.height()))
        .ok_or_else(|| failed("the picture has no area".to_owned()))?;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut picture.as_mut());
    picture.encode_png().map_err(|error| failed(error.to_string()))
}
