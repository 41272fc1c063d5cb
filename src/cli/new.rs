//! `planewright new`: a starter boat file.

use std::path::PathBuf;

use clap::Args;

use super::screen::Screen;
use super::{Ending, Failure};
use crate::input::{Overwrite, write_starter_file};

const EXAMPLES: &str = "\
Examples:
  planewright new my-boat.toml
  planewright new my-boat.toml --force";

/// Write a starter boat file: it runs as it is, and explains every key
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct NewArguments {
    /// File to write, for example my-boat.toml
    file: PathBuf,
    /// Replace the file if it is there already
    #[arg(long)]
    force: bool,
}

pub(super) fn execute(arguments: &NewArguments) -> Result<Ending, Failure> {
    let overwrite = if arguments.force { Overwrite::Yes } else { Overwrite::No };
    write_starter_file(&arguments.file, overwrite)?;
    let name = arguments.file.display();
    Screen::of_stdout().print(&format!(
        "Wrote {name}: a boat that runs as it is. Put your own values in, and a #\nbefore those that you do not know (they are then estimated, and marked so); then\n  planewright run {name}\n"
    ))?;
    Ok(Ending::Done)
}
