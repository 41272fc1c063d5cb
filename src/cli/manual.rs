//! `planewright manual`: the manual pages and what a shell needs to complete commands.

use std::path::{Path, PathBuf};

use clap::{Args, Command, CommandFactory};
use clap_complete::Shell;

use super::screen::Screen;
use super::{CommandLine, Ending, Failure};
use crate::save::{FileSet, Overwrite};

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
    /// Replace pages that are there already
    #[arg(long, requires = "into")]
    force: bool,
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
        let mut files = FileSet::new(Overwrite::forced(arguments.force));
        files.make_folder(folder);
        let mut command = command.disable_help_subcommand(true);
        command.build();
        add_pages(&mut files, &command, folder)?;
        files.write()?;
        screen.print(&format!("Wrote the manual pages into {}.\n", folder.display()))?;
    } else {
        let mut page = Vec::new();
        clap_mangen::Man::new(command).render(&mut page)?;
        screen.print(&String::from_utf8_lossy(&page))?;
    }
    Ok(Ending::Done)
}

/// Adds the page of a command, and those of the commands below it.
fn add_pages(files: &mut FileSet, command: &Command, folder: &Path) -> Result<(), Failure> {
    for below in command.get_subcommands().filter(|below| !below.is_hide_set()) {
        add_pages(files, below, folder)?;
    }
    let page = clap_mangen::Man::new(command.clone());
    let mut text = Vec::new();
    page.render(&mut text)?;
    files.add(folder.join(page.get_filename()), text);
    Ok(())
}

fn completions(shell: Shell) -> String {
    let mut command = CommandLine::command();
    let name = command.get_name().to_owned();
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut command, name, &mut script);
    String::from_utf8_lossy(&script).into_owned()
}
