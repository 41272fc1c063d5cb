//! What takes a second or more: the papers, and how sure the answer is. Asked for behind the gate.

use std::sync::Arc;

use super::{Refused, Run, Sized, key, marked};
use crate::answer::SizeAnswer;
use crate::boat::transom::Side;
use crate::document::{Block, Sheet};
use crate::doubt::Progress;
use crate::mark::{self, Placement};
use crate::report::{self, Format, Gathered, Reader, ReportError};
use crate::tell;
use crate::web::ask::Ask;
use crate::web::kept::Kept;
use crate::web::list::ShelfFault;

/// A paper that an address names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::web) struct PaperName {
    pub what: What,
    pub format: Format,
    pub sheet: Option<Sheet>,
}

/// What a paper is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::web) enum What {
    /// A paper for a reader.
    For(Reader),
    /// The marking-out sheet.
    Marking,
    /// The dimensioned drawing of the transom.
    Transom,
    /// The transom at full size for other programs, always a DXF file.
    FullSize,
    /// The 1:1 template of one side.
    Template(Side),
}

/// A paper as a file.
pub(in crate::web) struct Paper {
    pub file_name: String,
    pub bytes: Vec<u8>,
}

/// Why there is no paper.
#[derive(Debug)]
pub(in crate::web) enum NoPaper {
    /// The boat cannot be used.
    Boat(Refused),
    /// The stock list cannot be used.
    List(ShelfFault),
    /// The paper cannot be made.
    Report(ReportError),
    /// The planes have no place on the transom, or cannot be drawn there.
    Mark(String),
}

impl From<ReportError> for NoPaper {
    fn from(error: ReportError) -> Self {
        Self::Report(error)
    }
}

impl What {
    /// Papers that are drawn to a scale, and so are made by every build.
    const fn is_drawn(self) -> bool {
        matches!(self, Self::Transom | Self::FullSize | Self::Template(_))
    }

    /// Whether it moves by a script of its own.
    pub const fn has_script(self) -> bool {
        matches!(self, Self::For(Reader::Buyer))
    }

    fn of(word: &str) -> Option<Self> {
        Some(match word {
            "marking" => Self::Marking,
            "transom" => Self::Transom,
            "template-port" => Self::Template(Side::Port),
            "template-starboard" => Self::Template(Side::Starboard),
            word => Self::For(Reader::ALL.into_iter().find(|reader| reader.word() == word)?),
        })
    }
}

/// The drawing at full size, by its name.
const FULL_SIZE: &str = "transom.dxf";

impl PaperName {
    /// What kind of file it is, for whoever fetches it.
    pub const fn media_type(&self) -> &'static str {
        match (self.what, self.format) {
            (What::FullSize, _) => "image/vnd.dxf",
            (_, Format::Html) => "text/html; charset=utf-8",
            (_, Format::Pdf) => "application/pdf",
        }
    }

    /// The paper of that name: `dealer.html`, `owner-a4.pdf`, `template-port-letter.pdf`.
    pub fn of(name: &str) -> Option<Self> {
        if name == FULL_SIZE {
            return Some(Self { what: What::FullSize, format: Format::Pdf, sheet: None });
        }
        let (stem, ending) = name.rsplit_once('.')?;
        let (word, format, sheet) = match (ending, stem.rsplit_once('-')) {
            ("html", _) => (stem, Format::Html, None),
            ("pdf", Some((word, "a4"))) => (word, Format::Pdf, Some(Sheet::A4)),
            ("pdf", Some((word, "letter"))) => (word, Format::Pdf, Some(Sheet::Letter)),
            _ => return None,
        };
        let what = What::of(word)?;
        let is_made = match format {
            Format::Html => !what.is_drawn(),
            Format::Pdf => what != What::For(Reader::Buyer),
        };
        is_made.then_some(Self { what, format, sheet })
    }
}

/// Everything that a paper may tell, as `planewright report` gathers it when no condition is named.
pub(in crate::web) fn gathered(
    ask: &Ask,
    kept: &Kept,
    progress: Progress<'_>,
) -> Result<Arc<Gathered>, NoPaper> {
    let (key, units) = (key(ask), ask.system.into());
    if let Some(known) = kept.gathered.get(&key) {
        if known.size.units == units {
            return Ok(known);
        }
        let size = SizeAnswer { units, ..known.size.clone() };
        return Ok(Arc::new(Gathered { size, ..(*known).clone() }));
    }
    let sized = Sized::of(ask, kept, progress).map_err(NoPaper::Boat)?;
    let size = sized.answer.clone().map_err(|fault| NoPaper::Boat(Refused::Fault(fault)))?;
    let shelf = sized.shelf.as_ref().map(|shelf| shelf.ranked.clone());
    let shelf = shelf.transpose().map_err(NoPaper::List)?;
    let size = SizeAnswer { units, ..size };
    Ok(kept.gathered.put(key, Gathered::about(size, shelf, ask.drawn(), progress)?))
}

/// The paper, as `planewright report` or `planewright mark` writes it.
pub(in crate::web) fn paper(
    ask: &Ask,
    name: PaperName,
    kept: &Kept,
    progress: Progress<'_>,
) -> Result<Paper, NoPaper> {
    let PaperName { what, format, sheet } = name;
    if !what.is_drawn() {
        format.check().map_err(|fault| NoPaper::Report(fault.into()))?;
    }
    if let What::For(reader) = what {
        let gathered = gathered(ask, kept, progress)?;
        let bytes = report::bytes(&gathered, reader, format, sheet)?;
        return Ok(Paper { file_name: reader.file_name(&ask.file().0, format), bytes });
    }
    let sized = Sized::of(ask, kept, progress).map_err(NoPaper::Boat)?;
    let run = Run::of(ask, &sized.boats, ask.system.into(), sized.suggestion().ok());
    let marked = marked(&sized, run.used(), ask);
    let units = marked.units;
    let placement = match &marked.placement {
        None => return Err(NoPaper::Mark("there are no planes to mark out".to_owned())),
        Some(Err(error)) => return Err(NoPaper::Mark(error.to_string())),
        Some(Ok(placement)) => placement,
    };
    let paper = match sheet.unwrap_or_default() {
        Sheet::A4 => mark::Paper::A4,
        Sheet::Letter => mark::Paper::Letter,
    };
    let drawn = |drawn: Result<Vec<u8>, mark::DrawError>| {
        drawn.map_err(|error| NoPaper::Mark(error.to_string()))
    };
    let (file_name, bytes) = match what {
        What::Transom => {
            ("transom.pdf".to_owned(), drawn(mark::drawing_pdf(placement, units, paper))?)
        }
        What::FullSize => (FULL_SIZE.to_owned(), mark::drawing_dxf(placement).into_bytes()),
        What::Template(side) => {
            let word = if side == Side::Port { "port" } else { "starboard" };
            let bytes = drawn(mark::template_pdf(placement, units, paper, side))?;
            (format!("template-{word}.pdf"), bytes)
        }
        What::Marking | What::For(_) => {
            let bytes = marking(&sized, placement, (ask, units), (format, sheet))?;
            (format!("marking-out.{}", format.ending()), bytes)
        }
    };
    Ok(Paper { file_name, bytes })
}

/// The marking-out sheet with its drawing; above it what must be settled first.
fn marking(
    sized: &Sized,
    placement: &Placement,
    (ask, units): (&Ask, mark::SheetUnits),
    (format, sheet): (Format, Option<Sheet>),
) -> Result<Vec<u8>, NoPaper> {
    let mut document = mark::sheet_with_drawing(placement, units);
    let first = tell::sense::first(&sized.sense, ask.system.into());
    document.blocks.splice(0..0, first.iter().map(Block::spoken));
    Ok(format.bytes_to_work_from(&document.spoken(), sheet)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn error_only_papers_that_there_are_have_names() {
        let dealer = PaperName::of("dealer.html").unwrap();
        assert_eq!((dealer.what, dealer.format), (What::For(Reader::Dealer), Format::Html));
        let owner = PaperName::of("owner-letter.pdf").unwrap();
        assert_eq!((owner.what, owner.sheet), (What::For(Reader::Owner), Some(Sheet::Letter)));
        let template = PaperName::of("template-port-a4.pdf").unwrap();
        assert_eq!(template.what, What::Template(Side::Port));
        assert_eq!(PaperName::of("transom.dxf").unwrap().media_type(), "image/vnd.dxf");
        for name in [
            "dealer",
            "broker.html",
            "dealer.pdf",
            "../dealer.html",
            "dealer-a3.pdf",
            "transom.html",
            "dealer.dxf",
            "buyer-a4.pdf",
            "",
        ] {
            assert_eq!(PaperName::of(name), None, "{name}");
        }
    }
}
