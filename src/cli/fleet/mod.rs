//! `planewright fleet`: many boats in one table.

pub(super) mod json;
pub(super) mod question;
pub(super) mod written;

use std::path::PathBuf;

use clap::Args;

use super::arguments::inputs;
use super::{Ending, Failure};
use crate::fleet::{Fleet, source};
use crate::input::read_boat;
use crate::save::Overwrite;
use question::QuestionArguments;
use written::OutArguments;

const EXAMPLES: &str = "\
Examples:
  planewright fleet boats.csv --speed \"20 kn\" > answers.csv
  planewright fleet boats.csv --of size --out sizes.csv
  planewright fleet boats.csv --out answers.csv --resume
  planewright fleet loads.csv --boat my-boat.toml --speed \"12 kn\" --speed \"20 kn\" --keep hull_no
  planewright fleet boats.csv --speed \"20 kn\" --fields trim,resistance,draft --units imperial

The first line names the columns by the keys of a boat file with the unit of their numbers, for example
  hull.bottom_length [m],hull.chine_beam [m],hull.deadrise [deg],weight.mass [kg],weight.lcg [m]
and every further line is a boat. A number with a unit of its own needs none in the head; what a row
leaves empty is as in the file given with --boat, or estimated. Entries of a list are counted from one:
load[1].mass [kg]; weight.mass and its like stand in place of the loads that a file lists. The columns run.speed [kn] and run.deflection [deg] ask at a speed of the row's own.
Each row of the answer begins with the number of the row it belongs to; what is wrong with a boat stands
in its columns fault and cure, and the others go on. Exit code 0 also where some rows have a fault.
While it works, the answers stand in NAME.unfinished: a killed run goes on with --resume.";

/// Ask about many boats at once, each a row of a table: how she runs, or which planes she needs
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct FleetArguments {
    /// Table of boats, CSV with the keys of a boat file as its headings (or Parquet, where it is built in)
    table: PathBuf,
    /// Boat file for what the rows leave out
    #[arg(long, value_name = "FILE")]
    boat: Option<PathBuf>,
    /// Columns to be copied beside the answers, by their headings; they may be called as you like
    #[arg(long, value_name = "COLUMN,COLUMN", value_delimiter = ',')]
    keep: Vec<String>,
    #[command(flatten)]
    question: QuestionArguments,
    #[command(flatten)]
    out: OutArguments,
    /// Replace files that are there already
    #[arg(long)]
    force: bool,
}

pub(super) fn execute(arguments: &FleetArguments) -> Result<Ending, Failure> {
    let boat = arguments.boat.as_deref().map(read_boat).transpose()?;
    let mut read = vec![arguments.table.clone()];
    if let (Some(path), Some(file)) = (&arguments.boat, &boat) {
        read.extend(inputs(path, file));
    }
    let mut source = source::open(&arguments.table)?;
    let question = arguments.question.question()?;
    let fleet = Fleet::of(source.headings(), &arguments.keep, boat.as_ref(), question)?;
    let about = json::About {
        command: "fleet",
        of: arguments.question.word(),
        table: Some(&arguments.table),
        boat: boat.as_ref(),
        checksum: source.checksum().to_owned(),
    };
    let overwrite = Overwrite::forced(arguments.force);
    arguments.out.write(&fleet, &mut *source, &read, overwrite, &about)
}
