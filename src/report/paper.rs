//! The way from a boat file to a paper's bytes: one for the command line and for the page, so that neither can drift.

use std::path::Path;

use super::{Gathered, Reader, ReportError, Wanted, buyer, document};
use crate::boat::{Boat, Fault};
use crate::document::{Document, Sheet, html};
use crate::input::BoatFile;
use crate::stock::StockList;
use crate::tell::sizing::in_steps_of;
use crate::units::UnitChoice;

/// Kind of file of a paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// One page for a browser, with everything in it.
    Html,
    /// Typeset; only when built with the feature `pdf`.
    Pdf,
}

impl Format {
    /// The ending of its name.
    #[must_use]
    pub const fn ending(self) -> &'static str {
        match self {
            Self::Html => "html",
            Self::Pdf => "pdf",
        }
    }

    /// Whether this build can write it.
    ///
    /// # Errors
    /// When it cannot, with what to do.
    pub fn check(self) -> Result<(), Fault> {
        match self {
            Self::Pdf if !cfg!(feature = "pdf") => Err(no_pdf()),
            _ => Ok(()),
        }
    }

    /// The paper as a file; HTML prints on any sheet when none is named, PDF takes A4.
    ///
    /// # Errors
    /// When this build cannot write it, or the typesetter refuses the paper.
    pub fn bytes(self, paper: &Document, sheet: Option<Sheet>) -> Result<Vec<u8>, ReportError> {
        match self {
            Self::Html => Ok(html::page_on(paper, sheet).into_bytes()),
            #[cfg(feature = "pdf")]
            Self::Pdf => Ok(crate::document::typeset::pdf(paper, sheet.unwrap_or_default())?.0),
            #[cfg(not(feature = "pdf"))]
            Self::Pdf => Err(no_pdf().into()),
        }
    }

    /// The same of a paper to work from with a tape in hand: in HTML every quantity stays on one line.
    ///
    /// # Errors
    /// As [`Self::bytes`].
    pub fn bytes_to_work_from(
        self,
        paper: &Document,
        sheet: Option<Sheet>,
    ) -> Result<Vec<u8>, ReportError> {
        match self {
            Self::Html => Ok(html::page_to_work_from(paper, sheet).into_bytes()),
            Self::Pdf => self.bytes(paper, sheet),
        }
    }
}

/// The paper for a reader as a file; the page to send is HTML.
///
/// # Errors
/// As [`super::document`] and [`Format::bytes`].
pub fn bytes(
    gathered: &Gathered,
    reader: Reader,
    format: Format,
    sheet: Option<Sheet>,
) -> Result<Vec<u8>, ReportError> {
    reader.check(format)?;
    match reader {
        Reader::Buyer => Ok(buyer::page(gathered)?.into_bytes()),
        reader => format.bytes(&document(gathered, reader)?, sheet),
    }
}

impl Reader {
    /// Whether a paper for this reader is made in a format, by this build.
    ///
    /// # Errors
    /// When it is not, with what to do.
    pub fn check(self, format: Format) -> Result<(), Fault> {
        if self == Self::Buyer && format == Format::Pdf {
            return Err(Fault {
                key: "run.format".to_owned(),
                problem: "the page for the buyer moves, which a PDF cannot".to_owned(),
                remedy: "leave out --format, or take --for owner for a paper to print".to_owned(),
            });
        }
        format.check()
    }

    /// Name of the paper about the boat of a file: `boat-owner.html`.
    #[must_use]
    pub fn file_name(self, boat_file: &str, format: Format) -> String {
        let stem = Path::new(boat_file).file_stem().unwrap_or_default().to_string_lossy();
        format!("{stem}-{}.{}", self.word(), format.ending())
    }
}

impl Wanted {
    /// What is wanted about a boat in the loading conditions given, the first of them first, with sizes in whole steps of the units.
    ///
    /// # Errors
    /// When she cannot be built so.
    pub fn of(
        file: BoatFile,
        boats: Vec<Boat>,
        list: Option<StockList>,
        units: UnitChoice,
        draws: u32,
    ) -> Result<Self, Fault> {
        let in_steps = |boat| in_steps_of(boat, units).map_err(Fault::from);
        let boats = boats.into_iter().map(in_steps).collect::<Result<Vec<_>, _>>()?;
        let boat = boats.first().cloned().unwrap_or_else(|| file.boat.clone());
        Ok(Self { file: BoatFile { boat, ..file }, boats, list, units, draws, offer: None })
    }
}

fn no_pdf() -> Fault {
    Fault {
        key: "run.format".to_owned(),
        problem: "this build cannot typeset PDF".to_owned(),
        remedy: "print the HTML report from a browser, or build with `cargo build --release --features pdf`".to_owned(),
    }
}
