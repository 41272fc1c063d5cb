//! `planewright mark`: where the planes go on the transom, and the papers to work from.

mod json;

use std::fmt::Write;
use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};

use super::arguments::BoatArguments;
use super::first::First;
use super::screen::Screen;
use super::{Ending, Failure, shelf, unit_words};
use crate::answer::About;
use crate::balance::Settings;
use crate::boat::transom::Side;
use crate::boat::{Boat, Fault, PlanePair};
use crate::document::{Block, Document, Sheet};
use crate::doubt::advise_for;
use crate::input::read_as_fitted;
use crate::mark::{self, AsFittedAnswer, NO_ROOM, Paper, Placement, SheetUnits};
use crate::report::Format;
use crate::save::{FileSet, Overwrite};
use crate::size::Answer;
use crate::size::{PairSource, PairUsed};
use crate::stock::Part;
use crate::units::UnitSystem;

const EXAMPLES: &str = "\
Examples:
  planewright mark boat.toml
  planewright mark boat.toml --units imperial --papers papers --paper letter
  planewright mark boat.toml --advised --both-units
  planewright mark boat.toml --form > fitted.toml
  planewright mark boat.toml --as-fitted fitted.toml
  planewright mark boat.toml --stock planes.csv --part \"600 x 230 stainless hydraulic\"

The planes are those of the part, else of the boat file, else the size that `planewright size`
suggests for every loading condition, or for those named with --condition. Exit code 1 when there is no place for them
on the transom, which says what is missing, and when the part is unsafe on this boat. Screws that do
not bear the slamming load are replaced by through-bolts, and the first line says so.";

/// Print the marking-out sheet for fitting the planes, and write drawing and 1:1 template
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct MarkArguments {
    #[command(flatten)]
    pub(super) boat: BoatArguments,
    /// Stock list to take the part from
    #[arg(long, value_name = "CSV", requires = "part")]
    stock: Option<PathBuf>,
    /// Name of the part in the stock list
    #[arg(long, value_name = "NAME", requires = "stock")]
    part: Option<String>,
    /// Write sheet (text, HTML, and PDF where this build typesets it), drawing (SVG, PDF, DXF) and template (PDF) into this folder
    #[arg(long, value_name = "DIR")]
    papers: Option<PathBuf>,
    /// Paper of the PDFs
    #[arg(long, value_enum, default_value_t = PaperChoice::A4)]
    paper: PaperChoice,
    /// Print one JSON object in SI units, angles in degrees, instead of the sheet
    #[arg(long)]
    json: bool,
    /// Replace papers that are there already
    #[arg(long)]
    force: bool,
    /// Mark out the pair fitted, [planes] of the boat file
    #[arg(long, conflicts_with_all = ["advised", "part"])]
    fitted: bool,
    /// Mark out the pair that is advised, whatever is fitted
    #[arg(long, conflicts_with = "part")]
    advised: bool,
    /// Print the form 'as fitted' to be filled in, a TOML file, instead of the sheet
    #[arg(long, conflicts_with_all = ["json", "papers", "as_fitted"])]
    form: bool,
    /// Tell what the differences do between the plan and this form, filled in
    #[arg(long, value_name = "FILE", conflicts_with = "papers")]
    as_fitted: Option<PathBuf>,
    /// Write millimetres and inches beside each other
    #[arg(long, conflicts_with = "units")]
    both_units: bool,
    /// Units: imperial gives fractions of an inch
    #[arg(long, value_name = "SYSTEM", value_parser = unit_words::system(), default_value = UnitSystem::Metric.word())]
    units: UnitSystem,
}

/// Paper as named on the command line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum PaperChoice {
    A4,
    Letter,
}

impl MarkArguments {
    /// What the figures of the sheet are written in.
    fn sheet_units(&self) -> SheetUnits {
        if self.both_units { SheetUnits::Both } else { self.units.into() }
    }
}

impl From<PaperChoice> for Sheet {
    fn from(choice: PaperChoice) -> Self {
        match choice {
            PaperChoice::A4 => Self::A4,
            PaperChoice::Letter => Self::Letter,
        }
    }
}

impl From<PaperChoice> for Paper {
    fn from(choice: PaperChoice) -> Self {
        match choice {
            PaperChoice::A4 => Self::A4,
            PaperChoice::Letter => Self::Letter,
        }
    }
}

pub(super) fn execute(arguments: &MarkArguments) -> Result<Ending, Failure> {
    let files = arguments.boat.read()?;
    let file = &files[0];
    let part = part(arguments)?;
    let boats = arguments.boat.sized_for(&files)?;
    let first = First::of(&boats, &Settings::default(), arguments.units.into());
    let screen = Screen::of_stdout();
    let (pair, source) = match pair(&boats, part.as_ref(), arguments)? {
        Ok(found) => found,
        Err((word, fault)) if arguments.json => {
            let Fault { problem, remedy, .. } = &fault;
            let refused = json::Refused { word, problem, remedy };
            let about = first.about(file, PairUsed::fitted(&file.boat));
            screen.print_json(&about.around_flagged(refused))?;
            return Ok(Ending::WrongInput);
        }
        Err((_, fault)) => return Err(fault.into()),
    };
    let placement = match Placement::for_all(&boats, pair, part.as_ref()) {
        Ok(placement) => placement,
        Err(error) => {
            let Some(word) = error.word() else { return Err(error.into()) };
            if arguments.json {
                let (problem, remedy) = (&error.to_string(), error.remedy());
                let refused = json::Refused { word, problem, remedy };
                let about = first.about(file, PairUsed { pair: Some(pair), source });
                screen.print_json(&about.around_flagged(refused))?;
            } else if word == NO_ROOM {
                screen.print(&format!("No place for the planes: {error}.\n"))?;
            } else {
                screen.print(&format!("NOT MARKED OUT: {error}.\n"))?;
            }
            return Ok(Ending::CannotBeDone);
        }
    };
    let checksum = format!("CRC-32 {}", file.checksum());
    let placement = placement.from_source(source).with_checksum(&checksum);
    if arguments.form {
        screen.print(&mark::form(&placement, arguments.sheet_units()))?;
        return Ok(Ending::Done);
    }
    if let Some(path) = &arguments.as_fitted {
        let sides = read_as_fitted(path)?;
        let answer = AsFittedAnswer::of(&file.boat, &placement, &sides)?;
        if arguments.json {
            let about = first.about(file, PairUsed { pair: Some(pair), source });
            screen.print_json(&about.around_flagged(answer))?;
        } else {
            let text = screen.blocks(&answer.blocks(&placement, arguments.sheet_units()));
            screen.print(&first.above(text.trim_start_matches('\n'), screen))?;
        }
        return Ok(Ending::Done);
    }
    let papers = match &arguments.papers {
        Some(folder) => {
            let mut files = FileSet::new(Overwrite::forced(arguments.force));
            files.protect(arguments.boat.inputs(file).into_iter().chain(arguments.stock.clone()));
            files.make_folder(folder);
            add_papers(&mut files, &placement, arguments, folder, &first)?;
            let paths = files.paths().map(Path::to_owned).collect();
            files.write()?;
            paths
        }
        None => Vec::new(),
    };
    if arguments.json {
        let about = About {
            files: papers.iter().map(|path| path.display().to_string()).collect(),
            ..first.about(file, PairUsed { pair: Some(pair), source })
        };
        screen.print_json(&about.around_flagged(json::Written(&placement)))?;
        return Ok(Ending::Done);
    }
    let mut text = text_of(&mark::sheet(&placement, arguments.sheet_units()), screen);
    let size = format!("Size of the planes from {}.", origin(source));
    let _ = write!(text, "\n{}", screen.paragraph("", &size));
    for name in papers {
        let _ = writeln!(text, "Wrote {}", name.display());
    }
    screen.print(&first.above(&text, screen))?;
    Ok(Ending::Done)
}

/// The sheet as text: for which pair it is in the first line, what must be read first below it, who made it at its foot.
fn text_of(sheet: &Document, screen: Screen) -> String {
    let title = Block::Section(sheet.title.clone());
    let above = [std::slice::from_ref(&title), &sheet.blocks].map(|blocks| screen.blocks(blocks));
    let foot = screen.blocks(&[Block::Facts(sheet.origin.clone())]);
    format!("{}\n{foot}", above.concat().trim_start_matches('\n'))
}

fn part(arguments: &MarkArguments) -> Result<Option<Part>, Failure> {
    match (&arguments.stock, &arguments.part) {
        (Some(path), Some(name)) => shelf::part(path, name).map(Some),
        _ => Ok(None),
    }
}

/// Where the size comes from, in words.
const fn origin(source: PairSource) -> &'static str {
    match source {
        PairSource::Listed => "the part of the stock list",
        PairSource::Fitted => {
            "[planes] in the boat file, which need not be what `planewright size` suggests"
        }
        _ => "`planewright size` for the duties of the boat",
    }
}

/// The pair to mark out, and where its size comes from; else the word of `size` for why there is none, and what to do.
type Found = Result<(PlanePair, PairSource), (&'static str, Fault)>;

fn pair(boats: &[Boat], part: Option<&Part>, arguments: &MarkArguments) -> Result<Found, Failure> {
    if let Some(part) = part {
        return Ok(Ok((part.pair(), PairSource::Listed)));
    }
    match boats[0].planes().filter(|_| !arguments.advised) {
        Some(pair) => return Ok(Ok((pair, PairSource::Fitted))),
        None if arguments.fitted => return Ok(Err((NONE_FITTED, none_fitted()))),
        None => {}
    }
    let suggestion = advise_for(boats, &Settings::default())?;
    if let Some(silence) = suggestion.silence() {
        return Ok(Err((silence.word(), silence.fault())));
    }
    let problem = match suggestion.answer {
        Answer::Pair(pair) => return Ok(Ok((pair, PairSource::Suggested))),
        Answer::NoPlanesNeeded if arguments.advised => {
            "none are advised: the boat does every duty without any"
        }
        Answer::NoPlanesNeeded => {
            "the boat file has no planes, and the boat does every duty without any"
        }
        Answer::Infeasible(_) if arguments.advised => "none are advised: no size does every duty",
        Answer::Infeasible(_) => "the boat file has no planes, and no size does every duty",
    };
    let fault = Fault {
        key: "planes".to_owned(),
        problem: problem.to_owned(),
        remedy: "give [planes] with span and chord in the boat file, or --stock and --part; `planewright size` says more".to_owned(),
    };
    Ok(Err((suggestion.answer.word(), fault)))
}

/// Word of an answer where planes that are fitted were asked for, and none are.
const NONE_FITTED: &str = "none-fitted";

fn none_fitted() -> Fault {
    Fault {
        key: "planes".to_owned(),
        problem: "the boat file has no planes, and those fitted were asked for".to_owned(),
        remedy: "give [planes] with span and chord in the boat file, or leave --fitted out"
            .to_owned(),
    }
}

/// Adds all papers to the files to be written.
fn add_papers(
    files: &mut FileSet,
    placement: &Placement,
    arguments: &MarkArguments,
    folder: &Path,
    first: &First,
) -> Result<(), Failure> {
    let (units, paper) = (arguments.sheet_units(), arguments.paper.into());
    let screen = Screen::plain();
    let text = first.above(&text_of(&mark::sheet(placement, units), screen), screen);
    let mut papers = vec![("marking-out.txt", text.into_bytes())];
    papers.extend(typeset(placement, arguments, first)?);
    papers.push(("as-fitted.toml", mark::form(placement, units).into_bytes()));
    papers.extend([
        ("transom.svg", mark::drawing_svg(placement, units).into_bytes()),
        ("transom.pdf", mark::drawing_pdf(placement, units, paper)?),
        ("transom.dxf", mark::drawing_dxf(placement).into_bytes()),
        ("template-port.pdf", mark::template_pdf(placement, units, paper, Side::Port)?),
        ("template-starboard.pdf", mark::template_pdf(placement, units, paper, Side::Starboard)?),
    ]);
    for (name, content) in papers {
        files.add(folder.join(name), content);
    }
    Ok(())
}

/// The sheet with its drawing in every format that this build can write.
fn typeset(
    placement: &Placement,
    arguments: &MarkArguments,
    first: &First,
) -> Result<Vec<(&'static str, Vec<u8>)>, Failure> {
    let mut sheet = mark::sheet_with_drawing(placement, arguments.sheet_units());
    sheet.blocks.splice(0..0, first.blocks());
    let sheet = sheet.spoken();
    let names = [("marking-out.html", Format::Html), ("marking-out.pdf", Format::Pdf)];
    names
        .into_iter()
        .filter(|(_, format)| format.check().is_ok())
        .map(|(name, format)| {
            let paper = Some(arguments.paper.into());
            Ok((name, format.bytes_to_work_from(&sheet, paper)?))
        })
        .collect()
}
