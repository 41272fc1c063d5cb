//! Marking out: where the planes go on the transom, and the papers to work from.
//!
//! [`Placement::new`] computes every position once; the marking-out [`sheet`], the dimensioned
//! drawing ([`drawing_svg`], [`drawing_pdf`]) and the 1:1 template ([`template_pdf`]) only show
//! it, so they cannot contradict each other.
//!
//! Every figure is derived from the boat and the part, or says that it is a custom of the trade,
//! with its range; the sheet tells which. Cutting a transom can sink a boat and hurt people: all
//! papers open with cautions and defer to local codes and to licensed practice.

mod accepted;
mod as_fitted;
mod circuit;
mod drawing;
mod dxf;
mod error;
mod face;
pub mod hardware;
mod hinge;
mod holding;
pub mod holes;
mod note;
mod paper;
mod pen;
mod place;
mod placement;
mod say;
mod scale;
mod sheet;
mod style;
pub mod symmetry;
mod template;
mod tiles;

#[cfg(test)]
mod tests;

pub use as_fitted::{AsFittedAnswer, form};
pub use error::{DrawError, MarkError, NO_ROOM};
pub use hinge::Hinge;
pub use holding::Holding;
pub use note::Note;
pub use paper::Paper;
pub use placement::{Bracket, Placement};
pub use say::SheetUnits;

use crate::boat::transom::Side;
use crate::document::{Document, Picture};
use crate::drawing::pdf;
use say::Say;

/// The marking-out sheet in words: cautions, numbered steps in working order, tables of positions,
/// drills, checks and materials.
#[must_use]
pub fn sheet(placement: &Placement, units: SheetUnits) -> Document {
    sheet::document(placement, Say(units), None, Vec::new())
}

/// The same sheet with the drawing of the transom in it, to be read on a page or printed.
#[must_use]
pub fn sheet_with_drawing(placement: &Placement, units: SheetUnits) -> Document {
    let drawing = Picture {
        svg: drawing_svg(placement, units),
        caption:
            "The transom from aft, one plane square on, and the side view, made smaller to fit \
                  the page. The written figures hold: do not measure off it."
                .to_owned(),
        description: drawing_in_words(placement),
    };
    let circuits = circuit::Circuit::of(placement).iter().map(|&circuit| {
        let drawn = circuit::drawing(placement, circuit, Say(units));
        let title = drawn.title.to_lowercase();
        Picture {
            svg: drawn.svg(&title),
            caption: format!(
                "{}{}: what is joined to what.",
                drawn.title[..1].to_owned(),
                &title[1..]
            ),
            description: format!(
                "Diagram of {title}: battery, fuse, switch, and what moves each plane."
            ),
        }
    });
    sheet::document(placement, Say(units), Some(drawing), circuits.collect())
}

/// The whole transom seen from aft, with one plane square on and the side view, as SVG the size
/// of an A4 sheet on its side.
#[must_use]
pub fn drawing_svg(placement: &Placement, units: SheetUnits) -> String {
    let sheet = drawing::sheet(placement, Say(units), Paper::A4);
    sheet.svg(&drawing_in_words(placement))
}

fn drawing_in_words(placement: &Placement) -> String {
    format!(
        "Dimensioned drawing of the transom of {} seen from aft with a pair of trim planes: \
         centreline, chines, hinge lines, screws and actuator brackets, port and starboard \
         alike.",
        placement.boat
    )
}

/// The transom at full size with every hole on both sides, as a DXF file in millimetres.
#[must_use]
pub fn drawing_dxf(placement: &Placement) -> String {
    dxf::file(placement)
}

/// The same drawing as PDF, one page of the given paper on its side; the same bytes every time.
///
/// # Errors
/// [`DrawError`] when the PDF cannot be written.
pub fn drawing_pdf(
    placement: &Placement,
    units: SheetUnits,
    paper: Paper,
) -> Result<Vec<u8>, DrawError> {
    let sheet = drawing::sheet(placement, Say(units), paper);
    Ok(pdf(std::slice::from_ref(&sheet), &sheet.title)?)
}

/// The template of one side, or of both, at full size over as many pages as it takes; the same
/// bytes every time.
///
/// # Errors
/// [`DrawError::TooManyPages`] when paper would be no help; else as [`drawing_pdf`].
pub fn template_pdf(
    placement: &Placement,
    units: SheetUnits,
    paper: Paper,
    side: Side,
) -> Result<Vec<u8>, DrawError> {
    let sheets = template::sheets(placement, Say(units), paper, side)?;
    Ok(pdf(&sheets, &format!("{}: template for trim planes, 1:1", placement.boat))?)
}
