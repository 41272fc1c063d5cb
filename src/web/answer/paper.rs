//! What takes a second or more: the papers, and how sure the answer is. Asked for behind the gate.

use super::shelf::{ShelfFault, list};
use super::{Refused, boat_file};
use crate::document::Sheet;
use crate::report::{Format, Gathered, Reader, ReportError, Wanted, document};
use crate::web::ask::Ask;

/// A paper that an address names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::web) struct PaperName {
    pub reader: Reader,
    pub format: Format,
    pub sheet: Option<Sheet>,
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
}

impl From<ReportError> for NoPaper {
    fn from(error: ReportError) -> Self {
        Self::Report(error)
    }
}

impl PaperName {
    /// The paper of that name: `dealer.html`, `owner-a4.pdf`, `architect-letter.pdf`.
    pub fn of(name: &str) -> Option<Self> {
        let (stem, ending) = name.rsplit_once('.')?;
        let (word, format, sheet) = match (ending, stem.split_once('-')) {
            ("html", None) => (stem, Format::Html, None),
            ("pdf", Some((word, "a4"))) => (word, Format::Pdf, Some(Sheet::A4)),
            ("pdf", Some((word, "letter"))) => (word, Format::Pdf, Some(Sheet::Letter)),
            _ => return None,
        };
        let reader = Reader::ALL.into_iter().find(|reader| reader.word() == word)?;
        Some(Self { reader, format, sheet })
    }
}

/// Everything that a paper may tell, as `planewright report` gathers it when no condition is named.
pub(in crate::web) fn gathered(ask: &Ask) -> Result<Gathered, NoPaper> {
    let (file, boats) = boat_file(ask).map_err(NoPaper::Boat)?;
    let list = list(ask).map(|(_, list)| list).transpose().map_err(NoPaper::List)?;
    let wanted = Wanted::of(file, boats, list, ask.system.into(), ask.draws)
        .map_err(|fault| NoPaper::Boat(Refused::Fault(fault)))?;
    Ok(Gathered::of(wanted, &|_| ())?)
}

/// The paper, as `planewright report` writes it.
pub(in crate::web) fn paper(ask: &Ask, name: PaperName) -> Result<Paper, NoPaper> {
    name.format.check().map_err(|fault| NoPaper::Report(fault.into()))?;
    let gathered = gathered(ask)?;
    let bytes = name.format.bytes(&document(&gathered, name.reader)?, name.sheet)?;
    Ok(Paper { file_name: name.reader.file_name(&ask.file().0, name.format), bytes })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn error_only_papers_that_there_are_have_names() {
        let dealer = PaperName::of("dealer.html").unwrap();
        assert_eq!((dealer.reader, dealer.format), (Reader::Dealer, Format::Html));
        let owner = PaperName::of("owner-letter.pdf").unwrap();
        assert_eq!((owner.reader, owner.sheet), (Reader::Owner, Some(Sheet::Letter)));
        for name in ["dealer", "broker.html", "dealer.pdf", "../dealer.html", "dealer-a3.pdf", ""] {
            assert_eq!(PaperName::of(name), None, "{name}");
        }
    }
}
