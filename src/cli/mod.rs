//! The command line: arguments, commands and exit codes.
//!
//! A command turns its arguments into a checked request, computes, and only
//! then prints. Exit codes are set in `Ending` and nowhere else.

mod arguments;
mod failure;
mod new;
mod run;
mod screen;
mod table;

use std::process::ExitCode;

use clap::error::ErrorKind;
use clap::{Parser, Subcommand};

use crate::error::{Appearance, error_text};
use failure::Failure;

const EXAMPLES: &str = "\
Examples:
  planewright new my-boat.toml
  planewright run my-boat.toml
  planewright run my-boat.toml --charts charts

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
}

/// How a command ended, and with it the exit code of the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Ending {
    /// Done: 0.
    Done,
    /// The input was wrong, or could not be read or written: 2.
    WrongInput,
}

impl From<Ending> for ExitCode {
    fn from(ending: Ending) -> Self {
        Self::from(match ending {
            Ending::Done => 0,
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

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    #[test]
    fn regression_command_line_is_consistent() {
        super::CommandLine::command().debug_assert();
    }
}
