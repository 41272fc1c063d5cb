//! `planewright check`: the published cases, computed here beside the printed values.

use clap::Args;

use super::data::DataArguments;
use super::screen::Screen;
use super::{Ending, Failure};
use crate::check::{Report, Summary, all, table::table};

const EXAMPLES: &str = "\
Examples:
  planewright check
  planewright check --json
  planewright check --csv > checks.csv

Every case is computed on this machine by the same code that answers for a boat, and held against
the value printed in its source. Exit code 1 when one misses its tolerance.";

/// Compute published cases on this machine and compare them with their printed values
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct CheckArguments {
    #[command(flatten)]
    data: DataArguments,
}

pub(super) fn execute(arguments: &CheckArguments) -> Result<Ending, Failure> {
    let comparisons = all()?;
    let screen = Screen::of_stdout();
    if arguments.data.wanted() {
        arguments.data.print(&Report::of(&comparisons), "comparisons", None, &[])?;
    } else {
        screen.print(&table(&comparisons, screen.draws_lines()))?;
    }
    let met = Summary::of(&comparisons).all_met();
    Ok(if met { Ending::Done } else { Ending::CannotBeDone })
}
