//! `planewright new`: a file to begin with.

use std::path::PathBuf;

use clap::Args;

use super::screen::Screen;
use super::{Ending, Failure};
use crate::input::{Overwrite, starter_file, write_file};
use crate::offer::starter_offer;
use crate::stock::starter_stock;

const EXAMPLES: &str = "\
Examples:
  planewright new my-boat.toml
  planewright new my-boat.toml --force
  planewright new --stock list.csv
  planewright new --dealer dealer.toml";

/// Write a starter boat file, or a stock list or a dealer's file: it runs as it is, and explains every key
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct NewArguments {
    /// File to write, for example my-boat.toml
    file: PathBuf,
    /// A stock list instead of a boat file, for `size` and `report`
    #[arg(long, conflicts_with = "dealer")]
    stock: bool,
    /// A dealer's file instead, for `report --for dealer`
    #[arg(long)]
    dealer: bool,
    /// Replace the file if it is there already
    #[arg(long)]
    force: bool,
}

pub(super) fn execute(arguments: &NewArguments) -> Result<Ending, Failure> {
    let overwrite = if arguments.force { Overwrite::Yes } else { Overwrite::No };
    let name = arguments.file.display();
    let (content, told) = if arguments.stock {
        let told = format!(
            "Wrote {name}: a stock list of invented parts that can be ranked as it is. Put\nyour own in their place; then\n  planewright size BOAT --stock {name}\n"
        );
        (starter_stock(), told)
    } else if arguments.dealer {
        let told = format!(
            "Wrote {name}: a dealer's file with invented values. Put your own in their\nplace; then\n  planewright report BOAT --for dealer --stock CSV --dealer {name}\n"
        );
        (starter_offer(), told)
    } else {
        let told = format!(
            "Wrote {name}: a boat that runs as it is. Put your own values in, and a #\nbefore those that you do not know (they are then estimated, and marked so); then\n  planewright run {name}\n"
        );
        (starter_file(), told)
    };
    write_file(&arguments.file, content.as_bytes(), overwrite)?;
    Screen::of_stdout().print(&told)?;
    Ok(Ending::Done)
}
