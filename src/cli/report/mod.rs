//! `planewright report`: the paper for a reader.

mod json;
mod write;

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::arguments::{BoatArguments, UnitArguments};
use super::doubt::progress::Bar;
use super::first::First;
use super::screen::{CAUTION, Screen};
use super::{Ending, Failure, shelf};
use crate::answer::About;
use crate::boat::{Boat, Fault};
use crate::document::Sheet;
use crate::doubt::DRAWS;
use crate::input::BoatFile;
use crate::offer::{Offer, read_offer};
use crate::report::{Advised, Format, Gathered, Reader, ReportError, Wanted, bytes};
use write::Papers;

const EXAMPLES: &str = "\
Examples:
  planewright report boat.toml --for owner
  planewright report boat.toml --for dealer --stock planes.csv --out page.html
  planewright report boat.toml --for dealer --stock planes.csv --dealer dealer.toml --out offer.html
  planewright report boat.toml --for architect --condition all --out record.html
  planewright report boat.toml --for dealer --units imperial --paper letter --force
  planewright report boat.toml --for buyer --stock planes.csv --out to-send.html
  planewright report boat.toml --for dealer --stock planes.csv --json

One file with everything in it, to be read on a screen or printed on A4 and Letter. With a stock list
the planes advised come from the shelf; without one they are those of `planewright size`. For the
architect the tables are written beside it as CSV and JSON. The page for the buyer is one file to send:
it works on a telephone, without this program and without a network. An existing file is only replaced with
--force. Exit code 1 when no planes do every duty; the paper then says so.";

/// Write the paper for a reader: the architect's record, the dealer's page, the owner's letter, or a page to send to a buyer
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct ReportArguments {
    #[command(flatten)]
    pub(super) boat: BoatArguments,
    /// For whom it is
    #[arg(long = "for", value_enum, value_name = "READER")]
    reader: ReaderChoice,
    /// Choose from the parts of this stock list
    #[arg(long, value_name = "CSV")]
    stock: Option<PathBuf>,
    /// Make the dealer's page an offer with what stands in this file of the dealer's own; `planewright new --dealer FILE` writes one
    #[arg(long, value_name = "FILE")]
    dealer: Option<PathBuf>,
    /// Where to write it [default: BOAT-READER.html here]
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Size of the paper; HTML prints on either when none is named [default for pdf: a4]
    #[arg(long, value_enum)]
    paper: Option<PaperChoice>,
    /// Kind of file; pdf only when built with the feature `pdf`
    #[arg(long, value_enum, default_value_t = FormatChoice::Html)]
    format: FormatChoice,
    /// Boats drawn for the likely ranges
    #[arg(long, value_name = "NUMBER", default_value_t = DRAWS,
          value_parser = clap::value_parser!(u32).range(100..=i64::from(crate::schema::most::DRAWS)))]
    draws: u32,
    /// Replace files that exist
    #[arg(long)]
    force: bool,
    /// Say what was written and what it advises as one JSON object, SI units
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    units: UnitArguments,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum ReaderChoice {
    /// Everything, to check it
    Architect,
    /// One page to sell from
    Dealer,
    /// Plain words
    Owner,
    /// One file to send: the boat on a telephone, with sliders
    Buyer,
}

impl From<ReaderChoice> for Reader {
    fn from(choice: ReaderChoice) -> Self {
        match choice {
            ReaderChoice::Architect => Self::Architect,
            ReaderChoice::Dealer => Self::Dealer,
            ReaderChoice::Owner => Self::Owner,
            ReaderChoice::Buyer => Self::Buyer,
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum PaperChoice {
    A4,
    Letter,
}

impl From<PaperChoice> for Sheet {
    fn from(choice: PaperChoice) -> Self {
        match choice {
            PaperChoice::A4 => Self::A4,
            PaperChoice::Letter => Self::Letter,
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum FormatChoice {
    Html,
    Pdf,
}

impl From<FormatChoice> for Format {
    fn from(choice: FormatChoice) -> Self {
        match choice {
            FormatChoice::Html => Self::Html,
            FormatChoice::Pdf => Self::Pdf,
        }
    }
}

impl From<ReportError> for Failure {
    fn from(error: ReportError) -> Self {
        match error {
            ReportError::Fault(fault) => fault.into(),
            ReportError::Chart(error) => error.into(),
            ReportError::Assess(error) => error.into(),
            #[cfg(feature = "pdf")]
            ReportError::Typeset(error) => error.into(),
        }
    }
}

pub(super) fn execute(arguments: &ReportArguments) -> Result<Ending, Failure> {
    let format = Format::from(arguments.format);
    let reader = Reader::from(arguments.reader);
    reader.check(format)?;
    let mut files = arguments.boat.read()?;
    let units = arguments.units.choice();
    let boats = arguments.boat.sized_for(&files)?;
    let mut papers = Papers::new(arguments.out(&files[0]), arguments.force);
    papers.protect(arguments.boat.inputs(&files[0]));
    papers.protect(arguments.stock.iter().chain(&arguments.dealer).cloned());
    if reader == Reader::Architect {
        papers.reserve_data();
    }
    papers.check()?;
    let mut list = arguments.stock.as_deref().map(shelf::list).transpose()?;
    let offer = arguments.offer()?;
    papers.protect(logo_of(offer.as_ref()));
    papers.check()?;
    if let (Some(offer), Some(list)) = (&offer, &mut list) {
        offer.price(list)?;
    }
    let wanted = Wanted::of(files.swap_remove(0), boats, list, units, arguments.draws)?;
    let wanted = Wanted { offer, ..wanted };
    let in_file = |boat: &Boat| BoatFile { boat: boat.clone(), ..wanted.file.clone() };
    let of_data = wanted.boats.iter().map(in_file).collect();
    let bar = Bar::of(4 * u64::from(arguments.draws));
    let gathered = Gathered::of(wanted, &|done| bar.advance(done))?;
    bar.finish();
    papers.add(bytes(&gathered, reader, format, arguments.paper.map(Sheet::from))?);
    if reader == Reader::Architect {
        papers.add_data(&gathered, of_data)?;
    }
    let written = papers.write()?;
    let first = First::known(&gathered.sense, gathered.size.units);
    let screen = Screen::of_stdout();
    if arguments.json {
        let about = About {
            flags: gathered.size.suggestion.flags,
            files: written,
            ..first.about(&gathered.size.file, gathered.used())
        };
        screen.print_json(&about.around_flagged(json::Written { gathered: &gathered, reader }))?;
    } else {
        let lines: String = written.iter().map(|name| format!("Wrote {name}\n")).collect();
        let text = format!("{lines}\n{}", screen.paragraph("", CAUTION));
        screen.print(&first.above(&text, screen))?;
    }
    Ok(match gathered.advised {
        Advised::Short(_) => Ending::CannotBeDone,
        _ => Ending::Done,
    })
}

/// The file of a dealer's logo.
fn logo_of(offer: Option<&Offer>) -> Option<PathBuf> {
    Some(offer?.dealer.logo.as_ref()?.file().to_owned())
}

impl ReportArguments {
    /// What makes the page an offer.
    fn offer(&self) -> Result<Option<Offer>, Failure> {
        match (&self.dealer, self.reader) {
            (None, _) => Ok(None),
            (Some(path), ReaderChoice::Dealer) => Ok(Some(read_offer(path)?)),
            (Some(_), _) => Err(Failure::Fault(Fault {
                key: "run.dealer".to_owned(),
                problem: "only the dealer's page is an offer".to_owned(),
                remedy: "give --for dealer, or leave --dealer out".to_owned(),
            })),
        }
    }

    /// Where the paper goes.
    fn out(&self, file: &BoatFile) -> PathBuf {
        let reader = Reader::from(self.reader);
        let usual = || PathBuf::from(reader.file_name(&file.name, self.format.into()));
        self.out.clone().unwrap_or_else(usual)
    }
}
