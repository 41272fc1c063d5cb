//! The command line: arguments, commands and exit codes.
//!
//! A command turns its arguments into a checked request, computes, and only
//! then prints. Exit codes are set in `Ending` and nowhere else.

mod arguments;
mod charts;
mod check;
mod compare;
mod data;
mod doubt;
mod failure;
mod first;
mod fleet;
mod fuel;
mod level;
mod loads;
mod manual;
mod mark;
mod new;
mod on_plane;
mod records;
mod report;
mod run;
mod screen;
mod seaway;
mod serve;
mod shelf;
mod size;
mod strength;
mod sweep;
mod table;
mod tip;
mod told;
mod trial;
mod unit_words;
mod wish;

use std::path::Path;
use std::process::ExitCode;

use clap::error::ErrorKind;
use clap::{Parser, Subcommand};

use crate::error::{Appearance, error_text};
use arguments::BoatArguments;
use failure::Failure;

const EXAMPLES: &str = "\
Examples:
  planewright new my-boat.toml
  planewright run my-boat.toml
  planewright size my-boat.toml --charts charts
  planewright size my-boat.toml --stock planes.csv
  planewright compare my-boat.toml --pair 600x300mm --pair 675x300mm
  planewright loads my-boat.toml --stock planes.csv --part NAME
  planewright level my-boat.toml --off-centre \"90 kg at 0.8 m\"
  planewright seaway my-boat.toml --waves \"0.5 m\"
  planewright mark my-boat.toml --papers papers
  planewright doubt my-boat.toml
  planewright trial my-boat.toml log.csv --charts charts
  planewright on-plane my-boat.toml
  planewright fuel my-boat.toml
  planewright report my-boat.toml --for dealer --stock planes.csv
  planewright sweep my-boat.toml --vary \"weight.lcg = 2.2 m to 2.8 m, 7 values\" --speed \"20 kn\"
  planewright fleet boats.csv --speed \"20 kn\" --out answers.csv
  planewright check
  planewright serve

A boat file is text; every quantity in it carries its unit. Exit codes: 0 done,
1 asked for something the boat cannot do, 2 wrong input or usage.";

/// Sizes a powerboat's trim planes, which most people call trim tabs, and estimates how the boat runs with them
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
    Compare(compare::CompareArguments),
    Loads(loads::LoadsArguments),
    Level(level::LevelArguments),
    OnPlane(on_plane::OnPlaneArguments),
    Fuel(fuel::FuelArguments),
    Seaway(seaway::SeawayArguments),
    Mark(mark::MarkArguments),
    Doubt(Box<doubt::DoubtArguments>),
    Trial(trial::TrialArguments),
    Report(report::ReportArguments),
    Sweep(Box<sweep::SweepArguments>),
    Fleet(Box<fleet::FleetArguments>),
    Check(check::CheckArguments),
    Manual(manual::ManualArguments),
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
        Err(error) => refused(&tip::added(error)),
    }
    .into()
}

/// Runs a command. A fault that shows only as the boat is asked about is placed in her file.
fn execute(command: Command) -> Result<Ending, Failure> {
    let boat = command.boat().map(Path::to_owned);
    answered(command).map_err(|failure| match &boat {
        Some(boat) => failure.placed_in(boat),
        None => failure,
    })
}

impl Command {
    /// The boat file that it asks about.
    fn boat(&self) -> Option<&Path> {
        match self {
            Self::Run(arguments) => Some(arguments.boat.path()),
            Self::Size(arguments) => Some(arguments.boat.path()),
            Self::Compare(arguments) => Some(arguments.boat.path()),
            Self::Loads(arguments) => Some(arguments.boat.path()),
            Self::Level(arguments) => Some(arguments.boat.path()),
            Self::OnPlane(arguments) => Some(arguments.boat.path()),
            Self::Fuel(arguments) => Some(arguments.boat.path()),
            Self::Seaway(arguments) => Some(arguments.boat.path()),
            Self::Mark(arguments) => Some(arguments.boat.path()),
            Self::Doubt(arguments) => arguments.boat.as_ref().map(BoatArguments::path),
            Self::Trial(arguments) => arguments.boat.as_deref(),
            Self::Report(arguments) => Some(arguments.boat.path()),
            Self::Sweep(arguments) => Some(&arguments.boat),
            Self::Fleet(_) | Self::New(_) | Self::Check(_) | Self::Manual(_) | Self::Serve(_) => {
                None
            }
        }
    }
}

fn answered(command: Command) -> Result<Ending, Failure> {
    match command {
        Command::New(arguments) => new::execute(&arguments),
        Command::Run(arguments) => run::execute(&arguments),
        Command::Size(arguments) => size::execute(&arguments),
        Command::Compare(arguments) => compare::execute(&arguments),
        Command::Loads(arguments) => loads::execute(&arguments),
        Command::Level(arguments) => level::execute(&arguments),
        Command::OnPlane(arguments) => on_plane::execute(&arguments),
        Command::Fuel(arguments) => fuel::execute(&arguments),
        Command::Seaway(arguments) => seaway::execute(&arguments),
        Command::Mark(arguments) => mark::execute(&arguments),
        Command::Doubt(arguments) => doubt::execute(&arguments),
        Command::Trial(arguments) => trial::execute(&arguments),
        Command::Report(arguments) => report::execute(&arguments),
        Command::Sweep(arguments) => sweep::execute(&arguments),
        Command::Fleet(arguments) => fleet::execute(&arguments),
        Command::Check(arguments) => check::execute(&arguments),
        Command::Manual(arguments) => manual::execute(&arguments),
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

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    #[test]
    fn regression_command_line_is_consistent() {
        super::CommandLine::command().debug_assert();
    }
}
