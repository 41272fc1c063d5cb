//! `planewright new`: a file to begin with.

use std::path::PathBuf;

use clap::Args;

use super::screen::Screen;
use super::wish::WishChoice;
use super::{Ending, Failure};
use crate::boat::Wish;
use crate::input::starter_file_for;
use crate::offer::starter_offer;
use crate::save::{FileSet, Overwrite};
use crate::stock::starter_stock;

const EXAMPLES: &str = "\
Examples:
  planewright new my-boat.toml
  planewright new my-boat.toml --for bow-high --for leans
  planewright new my-boat.toml --force
  planewright new --stock list.csv
  planewright new --dealer dealer.toml

What bothers you says what the planes are for: --for writes it into the file, and `planewright size`
asks it of the planes.";

/// Write a starter boat file, or a stock list or a dealer's file: it runs as it is, and explains every key
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct NewArguments {
    /// File to write, for example my-boat.toml
    file: PathBuf,
    /// What bothers you about the boat; may be given several times
    #[arg(long = "for", value_name = "WISH", value_enum, conflicts_with_all = ["stock", "dealer"])]
    wishes: Vec<WishChoice>,
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
    let wishes: Vec<Wish> = arguments.wishes.iter().map(|wish| wish.0).collect();
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
        let mut told = format!(
            "Wrote {name}: a boat that runs as it is. Put your own values in, and a #\nbefore those that you do not know (they are then estimated, and marked so); then\n  planewright size {name}\n"
        );
        if wishes.is_empty() {
            told.push_str(
                "What bothers you? Add it with --for, and the planes are sized for it:\n",
            );
            for wish in Wish::ALL {
                told.push_str(&format!("  --for {:<14}  {}\n", wish.word(), wish.complaint()));
            }
        }
        (starter_file_for(&wishes), told)
    };
    let mut files = FileSet::new(Overwrite::forced(arguments.force));
    files.add(&arguments.file, content);
    files.write()?;
    Screen::of_stdout().print(&told)?;
    Ok(Ending::Done)
}
