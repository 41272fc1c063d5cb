//! `planewright report`: the paper for a reader.

mod json;
mod write;

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};

use super::arguments::{BoatArguments, UnitArguments};
use super::doubt::progress::Bar;
use super::screen::{CAUTION, Screen, paragraph};
use super::{Ending, Failure, shelf};
use crate::boat::Fault;
use crate::document::Sheet;
use crate::input::BoatFile;
use crate::report::gather::DRAWS;
use crate::report::{Advised, Gathered, Reader, ReportError, Wanted, document};
use crate::tell::sizing::in_steps_of;
use write::Papers;

const EXAMPLES: &str = "\
Examples:
  planewright report boat.toml --for owner
  planewright report boat.toml --for dealer --stock planes.csv --out offer.html
  planewright report boat.toml --for architect --condition all --out record.html
  planewright report boat.toml --for dealer --units imperial --paper letter --force
  planewright report boat.toml --for dealer --stock planes.csv --json

One file with everything in it, to be read on a screen or printed on A4 and Letter. With a stock list
the planes advised come from the shelf; without one they are those of `planewright size`. For the
architect the tables are written beside it as CSV and JSON. An existing file is only replaced with
--force. Exit code 1 when no planes do every duty; the paper then says so.";

/// Write the paper for a reader: the architect's record, the dealer's page or the owner's letter
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct ReportArguments {
    #[command(flatten)]
    boat: BoatArguments,
    /// For whom it is
    #[arg(long = "for", value_enum, value_name = "READER")]
    reader: ReaderChoice,
    /// Choose from the parts of this stock list
    #[arg(long, value_name = "CSV")]
    stock: Option<PathBuf>,
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
          value_parser = clap::value_parser!(u32).range(100..=100_000))]
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
}

impl From<ReaderChoice> for Reader {
    fn from(choice: ReaderChoice) -> Self {
        match choice {
            ReaderChoice::Architect => Self::Architect,
            ReaderChoice::Dealer => Self::Dealer,
            ReaderChoice::Owner => Self::Owner,
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

impl FormatChoice {
    const fn ending(self) -> &'static str {
        match self {
            Self::Html => "html",
            Self::Pdf => "pdf",
        }
    }
}

impl From<ReportError> for Failure {
    fn from(error: ReportError) -> Self {
        match error {
            ReportError::Fault(fault) => fault.into(),
            ReportError::Chart(error) => error.into(),
            ReportError::Assess(error) => error.into(),
        }
    }
}

pub(super) fn execute(arguments: &ReportArguments) -> Result<Ending, Failure> {
    if arguments.format == FormatChoice::Pdf && !cfg!(feature = "pdf") {
        return Err(no_pdf().into());
    }
    let mut files = arguments.boat.read()?;
    let units = arguments.units.choice();
    let boats = arguments.boat.sized_for(&files)?.into_iter();
    let boats = boats
        .map(|boat| in_steps_of(boat, units).map_err(Failure::first_fault))
        .collect::<Result<Vec<_>, _>>()?;
    let reader = arguments.reader.into();
    let mut papers = Papers::new(arguments.out(&files[0]), arguments.force);
    if reader == Reader::Architect {
        papers.reserve_data();
    }
    papers.check()?;
    let list = arguments.stock.as_deref().map(shelf::list).transpose()?;
    let own = files.swap_remove(0);
    let of_data = boats.iter().map(|boat| BoatFile { boat: boat.clone(), ..own.clone() }).collect();
    let file = BoatFile { boat: boats[0].clone(), ..own };
    let wanted = Wanted { file, boats, list, units, draws: arguments.draws };
    let bar = Bar::of(3 * u64::from(arguments.draws));
    let gathered = Gathered::of(wanted, &|done| bar.advance(done))?;
    bar.finish();
    let paper = document(&gathered, reader)?;
    papers.add(arguments.bytes(&paper)?);
    if reader == Reader::Architect {
        papers.add_data(&gathered, of_data)?;
    }
    papers.write()?;
    let screen = Screen::of_stdout();
    if arguments.json {
        screen.print_json(&json::object(&gathered, reader, papers.files()))?;
    } else {
        screen.print(&format!("{}\n{}", papers.text(), paragraph("", CAUTION)))?;
    }
    Ok(match gathered.advised {
        Advised::Short(_) => Ending::CannotBeDone,
        _ => Ending::Done,
    })
}

impl ReportArguments {
    /// Where the paper goes.
    fn out(&self, file: &BoatFile) -> PathBuf {
        self.out.clone().unwrap_or_else(|| {
            let stem = Path::new(&file.name).file_stem().unwrap_or_default().to_string_lossy();
            let reader = Reader::from(self.reader).word();
            PathBuf::from(format!("{stem}-{reader}.{}", self.format.ending()))
        })
    }

    fn bytes(&self, paper: &crate::document::Document) -> Result<Vec<u8>, Failure> {
        let sheet = self.paper.map(Sheet::from);
        match self.format {
            FormatChoice::Html => Ok(crate::document::html::page_on(paper, sheet).into_bytes()),
            #[cfg(feature = "pdf")]
            FormatChoice::Pdf => {
                Ok(crate::document::typeset::pdf(paper, sheet.unwrap_or_default())?.0)
            }
            #[cfg(not(feature = "pdf"))]
            FormatChoice::Pdf => Err(no_pdf().into()),
        }
    }
}

fn no_pdf() -> Fault {
    Fault {
        key: "run.format".to_owned(),
        problem: "this build cannot typeset PDF".to_owned(),
        remedy: "print the HTML report from a browser, or build with `cargo build --release --features pdf`".to_owned(),
    }
}
