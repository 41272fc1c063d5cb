//! `planewright manual`: the manual pages and what a shell needs to complete commands.

use std::path::PathBuf;

use clap::{Args, CommandFactory};
use clap_complete::Shell;

use super::screen::Screen;
use super::{CommandLine, Ending, Failure};

const EXAMPLES: &str = "\
Examples:
  planewright manual > planewright.1
  planewright manual --into man1
  planewright manual --completions bash > planewright.bash

Both are made from the definitions that the program itself reads its arguments by.";

/// Print the manual page, write one for every command, or print completions for a shell
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct ManualArguments {
    /// Write the pages of all commands into this folder
    #[arg(long, value_name = "DIR", conflicts_with = "completions")]
    into: Option<PathBuf>,
    /// Print what this shell needs to complete commands and options
    #[arg(long, value_name = "SHELL")]
    completions: Option<Shell>,
}

pub(super) fn execute(arguments: &ManualArguments) -> Result<Ending, Failure> {
    let command = CommandLine::command();
    let screen = Screen::of_stdout();
    if let Some(shell) = arguments.completions {
        screen.print(&completions(shell))?;
    } else if let Some(folder) = &arguments.into {
        super::charts::make(folder)?;
        clap_mangen::generate_to(command, folder)?;
        screen.print(&format!("Wrote the manual pages into {}.\n", folder.display()))?;
    } else {
        let mut page = Vec::new();
        clap_mangen::Man::new(command).render(&mut page)?;
        screen.print(&String::from_utf8_lossy(&page))?;
    }
    Ok(Ending::Done)
}

fn completions(shell: Shell) -> String {
    let mut command = CommandLine::command();
    let name = command.get_name().to_owned();
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut command, name, &mut script);
    String::from_utf8_lossy(&script).into_owned()
}
