//! `planewright new`: a starter boat file.

use std::path::PathBuf;

use clap::Args;

use super::screen::Screen;
use super::wish::WishChoice;
use super::{Ending, Failure};
use crate::boat::Wish;
use crate::input::{Overwrite, write_starter_file_for};

const EXAMPLES: &str = "\
Examples:
  planewright new my-boat.toml
  planewright new my-boat.toml --for bow-high --for leans
  planewright new my-boat.toml --force

What bothers you says what the planes are for: --for writes it into the file, and `planewright size`
asks it of the planes.";

/// Write a starter boat file: it runs as it is, and explains every key
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct NewArguments {
    /// File to write, for example my-boat.toml
    file: PathBuf,
    /// What bothers you about the boat; may be given several times
    #[arg(long = "for", value_name = "WISH", value_enum)]
    wishes: Vec<WishChoice>,
    /// Replace the file if it is there already
    #[arg(long)]
    force: bool,
}

pub(super) fn execute(arguments: &NewArguments) -> Result<Ending, Failure> {
    let overwrite = if arguments.force { Overwrite::Yes } else { Overwrite::No };
    let wishes: Vec<Wish> = arguments.wishes.iter().map(|wish| wish.0).collect();
    write_starter_file_for(&arguments.file, &wishes, overwrite)?;
    let name = arguments.file.display();
    let mut text = format!(
        "Wrote {name}: a boat that runs as it is. Put your own values in, and a #\nbefore those that you do not know (they are then estimated, and marked so); then\n  planewright size {name}\n"
    );
    if wishes.is_empty() {
        text.push_str("What bothers you? Add it with --for, and the planes are sized for it:\n");
        for wish in Wish::ALL {
            text.push_str(&format!("  --for {:<14}  {}\n", wish.word(), wish.complaint()));
        }
    }
    Screen::of_stdout().print(&text)?;
    Ok(Ending::Done)
}
