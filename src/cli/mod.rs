//! The command line: arguments, commands and exit codes.
//!
//! A command turns its arguments into a checked request, computes, and only
//! then prints. Exit codes are set in `Ending` and nowhere else.

mod arguments;
mod check;
mod estimates;
mod failure;
mod loads;
mod mark;
mod new;
mod run;
mod screen;
mod serve;
mod shelf;
mod size;
mod table;

use std::path::Path;
use std::process::ExitCode;

use clap::error::ErrorKind;
use clap::{Parser, Subcommand};

use crate::chart::ChartFiles;
use crate::error::{Appearance, error_text};
use failure::Failure;

const EXAMPLES: &str = "\
Examples:
  planewright new my-boat.toml
  planewright run my-boat.toml
  planewright size my-boat.toml --charts charts
  planewright size my-boat.toml --stock planes.csv
  planewright loads my-boat.toml --stock planes.csv --part NAME
  planewright mark my-boat.toml --papers papers
  planewright check
  planewright serve

A boat file is text; every quantity in it carries its unit. Exit codes: 0 done,
1 asked for something the boat cannot do, 2 wrong input or usage.";

/// Sizes a powerboat's trim planes and estimates how the boat runs with them
#[derive(Debug, Parser)]
#[command(name = "planewright", version, after_help = EXAMPLES, arg_required_else_help = true)]
struct CommandLine {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    New(new::NewArguments),
    Run(run::RunArguments),
    Size(size::SizeArguments),
    Loads(loads::LoadsArguments),
    Mark(mark::MarkArguments),
    Check(check::CheckArguments),
    Serve(serve::ServeArguments),
}

/// How a command ended, and with it the exit code of the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Ending {
    /// Done: 0.
    Done,
    /// Asked for something the boat cannot do, or a published case was missed: 1.
    CannotBeDone,
    /// The input was wrong, or could not be read or written: 2.
    WrongInput,
}

impl From<Ending> for ExitCode {
    fn from(ending: Ending) -> Self {
        Self::from(match ending {
            Ending::Done => 0,
            Ending::CannotBeDone => 1,
            Ending::WrongInput => 2,
        })
    }
}

/// Runs the program on the arguments it was started with.
#[must_use]
pub fn main() -> ExitCode {
    match CommandLine::try_parse() {
        Ok(line) => finished(execute(line.command)),
        Err(error) => refused(&error),
    }
    .into()
}

fn execute(command: Command) -> Result<Ending, Failure> {
    match command {
        Command::New(arguments) => new::execute(&arguments),
        Command::Run(arguments) => run::execute(&arguments),
        Command::Size(arguments) => size::execute(&arguments),
        Command::Loads(arguments) => loads::execute(&arguments),
        Command::Mark(arguments) => mark::execute(&arguments),
        Command::Check(arguments) => check::execute(&arguments),
        Command::Serve(arguments) => serve::execute(&arguments),
    }
}

/// Reports a failure. A reader that closed the pipe has seen what it wanted.
fn finished(result: Result<Ending, Failure>) -> Ending {
    match result {
        Ok(ending) => ending,
        Err(failure) if failure.is_closed_pipe() => Ending::Done,
        Err(failure) => {
            eprint!("{}", error_text(&failure, Appearance::of_stderr()));
            Ending::WrongInput
        }
    }
}

/// Prints help or the version where they were asked for, and what is wrong with the arguments otherwise.
fn refused(error: &clap::Error) -> Ending {
    // Nothing can be done about a stream that takes no text.
    let _ = error.print();
    match error.kind() {
        ErrorKind::DisplayHelp | ErrorKind::DisplayVersion => Ending::Done,
        _ => Ending::WrongInput,
    }
}

/// Makes a folder for charts.
fn make_folder(folder: &Path) -> Result<(), Failure> {
    std::fs::create_dir_all(folder)
        .map_err(|reason| Failure::Folder { path: folder.to_owned(), reason })
}

/// The charts written, by name; nothing when there are none.
fn charts_text(charts: &[ChartFiles]) -> String {
    let Some(first) = charts.first() else { return String::new() };
    let folder = first.svg.parent().unwrap_or(first.svg.as_path()).display();
    let mut text = format!("  Charts in {folder}, each as SVG and PNG:\n");
    for chart in charts {
        let name = chart.svg.file_stem().unwrap_or_default().to_string_lossy();
        text.push_str(&format!("    {name}\n"));
    }
    text
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    #[test]
    fn regression_command_line_is_consistent() {
        super::CommandLine::command().debug_assert();
    }
}
