//! Drawing: strokes, shapes and lettering on a sheet, written as SVG, PDF or PNG.
//!
//! A `Drawing` is a list of marks in its own unit, pixels or millimetres, from the upper left
//! corner of the sheet, down positive. Charts, pictures of the boat, the transom drawing and the
//! template are all made of it, and each writer knows every mark. It knows nothing of boats.
//!
//! * `error`: what can go wrong ([`DrawingError`]);
//! * `colour`: colours, ink and paper;
//! * `lettering`: the embedded letters, their widths, and lines broken to a width;
//! * `geometry`: points, rectangles, clipping and hatching;
//! * `sheet`: the drawing and its marks;
//! * `dimension`: arrows and dimension lines;
//! * `view`: from a model in metres to the sheet;
//! * `window`: the part of a drawing that shows on a page;
//! * `svg`, `pdf`, `png`: the writers;
//! * `dxf`: lines, circles and texts at full size for other programs.
//!
//! The embedded font is DejaVu Sans; its licence is in `DEJAVU-LICENSE.txt` beside this file and
//! in [`FONT_LICENCE`].

mod colour;
mod dimension;
pub(crate) mod dxf;
mod error;
pub(crate) mod geometry;
mod lettering;
mod pdf;
mod png;
mod sheet;
mod svg;
mod view;
mod window;

pub use colour::Colour;
pub(crate) use colour::{BRASS, BUFF, HAIR, INK, PAPER, PORT_LIGHT, QUIET_INK, SEA, SHALLOWS};
#[cfg(test)]
pub(crate) use colour::{contrast, luminance};
pub(crate) use dimension::{Dimension, Head};
pub use error::DrawingError;
pub(crate) use geometry::{Point, Rect};
#[cfg(test)]
pub(crate) use lettering::svg_options;
pub use lettering::{FONT_FAMILY, FONT_LICENCE};
pub(crate) use lettering::{TextBlock, clean, width};
pub(crate) use pdf::pdf;
pub(crate) use png::png;
pub(crate) use sheet::{Anchor, Drawing, Form, Mark, Pen, Round};
pub(crate) use view::View;
pub(crate) use window::Window;
