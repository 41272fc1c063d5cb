//! `planewright size`: which planes, and why.

mod confidence;
pub(super) mod data;
mod json;
mod shelf;
mod text;

use std::path::PathBuf;

use clap::Args;
use shelf::Shelf;

use super::arguments::{BoatArguments, UnitArguments};
use super::charts::Folder;
use super::first::First;
use super::run::ModelChoice;
use super::screen::Screen;
use super::{Ending, Failure};
use crate::balance::Settings;
use crate::boat::Boat;
use crate::chart::ChartFiles;
use crate::chart::running::running_charts;
use crate::chart::sizing::sizing_charts;
use crate::doubt::{ConfidentSize, Drawn};
use crate::input::BoatFile;
use crate::size::{Effect, Suggestion, effects_for, suggest_for};
use crate::tell::sizing::{Sizing, in_steps_of};
use crate::units::UnitChoice;

const EXAMPLES: &str = "\
Examples:
  planewright size boat.toml
  planewright size boat.toml --charts charts
  planewright size boat.toml --condition light --condition full
  planewright size boat.toml --stock planes.csv
  planewright size boat.toml --confidence 90
  planewright size boat.toml --units imperial
  planewright size boat.toml --json

What the planes must do stands in the boat file as [[duty]] tables; without any, sensible ones are
generated from the boat and printed, ready to be put into the file and changed. With a stock list the
parts on the shelf are ranked; data/stock/COLUMNS.md says what a list holds. The duties are done in
every loading condition of the file, or in those named with --condition; the output says which one
governs. Exit code 1 when no size does every duty; with a stock list, when no pair on the shelf does.";

/// Suggest a pair of planes, with the reasons: what sets the size, what a smaller one would miss
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct SizeArguments {
    #[command(flatten)]
    boat: BoatArguments,
    /// Whose lift of the bottom the boat is balanced with
    #[arg(long, value_enum, default_value_t = ModelChoice::Savitsky1964)]
    model: ModelChoice,
    /// Also rank the parts of this stock list for the boat
    #[arg(long, value_name = "CSV")]
    stock: Option<PathBuf>,
    /// Also find the least pair that does every duty on so many in a hundred boats nearly like this one
    #[arg(long, value_name = "PERCENT", value_parser = confidence::percent)]
    confidence: Option<f64>,
    /// Boats drawn for --confidence
    #[arg(long, value_name = "NUMBER", default_value_t = confidence::DRAWS,
          value_parser = clap::value_parser!(u32).range(50..=100_000))]
    draws: u32,
    /// Seed of the random numbers of --confidence
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    seed: u64,
    /// Print one JSON object in SI units, angles in degrees
    #[arg(long)]
    json: bool,
    /// Also draw charts into this folder, each as SVG and PNG
    #[arg(long, value_name = "DIR")]
    charts: Option<PathBuf>,
    #[command(flatten)]
    units: UnitArguments,
}

/// Everything that an output of this command may show.
struct Answered {
    /// The file, with the boat in the first of the conditions.
    file: BoatFile,
    /// The boat in each loading condition asked about.
    boats: Vec<Boat>,
    units: UnitChoice,
    settings: Settings,
    suggestion: Suggestion,
    /// Effect of the estimates on the suggestion.
    effects: Vec<Effect>,
    charts: Vec<ChartFiles>,
    shelf: Option<Shelf>,
    /// The size for a share of the boats nearly like this one, when that is asked for.
    confident: Option<ConfidentSize>,
}

impl Answered {
    fn boat(&self) -> &Boat {
        &self.file.boat
    }

    /// What must be settled before it is believed.
    fn first(&self) -> First {
        First::of(&self.boats, &self.settings, self.units)
    }

    fn told(&self) -> Sizing<'_> {
        Sizing {
            boats: &self.boats,
            suggestion: &self.suggestion,
            effects: &self.effects,
            settings: &self.settings,
            units: self.units,
        }
    }
}

pub(super) fn execute(arguments: &SizeArguments) -> Result<Ending, Failure> {
    let units = arguments.units.choice();
    let mut files = arguments.boat.read()?;
    let boats = arguments.boat.sized_for(&files)?.into_iter();
    let boats = boats.map(|boat| in_steps_of(boat, units)).collect::<Result<Vec<_>, _>>();
    let boats = boats.map_err(Failure::first_fault)?;
    let file = BoatFile { boat: boats[0].clone(), ..files.swap_remove(0) };
    let settings = Settings { model: arguments.model.into(), ..Settings::default() };
    let suggestion = suggest_for(&boats, &settings)?;
    let shelf = match &arguments.stock {
        Some(path) => Some(Shelf::ranked(path, &boats, &settings)?),
        None => None,
    };
    let effects = effects_for(&boats, &settings);
    let drawn = Drawn { draws: arguments.draws, seed: arguments.seed };
    let confident = match arguments.confidence {
        Some(wanted) => Some(confidence::found(&boats, &settings, wanted, drawn)?),
        None => None,
    };
    let charts = Vec::new();
    let mut answered =
        Answered { file, boats, units, settings, suggestion, effects, charts, shelf, confident };
    if let Some(folder) = &arguments.charts {
        answered.charts = draw(&answered, folder)?;
    }
    let screen = Screen::of_stdout();
    if arguments.json {
        screen.print_json(&answered.first().with(json::answer(&answered)))?;
    } else {
        screen.print(&answered.first().above(&text::report(&answered, screen), screen))?;
    }
    let does_all = match &answered.shelf {
        Some(shelf) => shelf.ranking.does_all(),
        None => answered.suggestion.does_all(),
    };
    let is_sure = answered.confident.as_ref().is_none_or(ConfidentSize::is_reached);
    Ok(if does_all && is_sure { Ending::Done } else { Ending::CannotBeDone })
}

/// The sizing charts, and those of the boat running with the pair suggested.
fn draw(answered: &Answered, folder: &std::path::Path) -> Result<Vec<ChartFiles>, Failure> {
    let suggestion = &answered.suggestion;
    let mut charts = sizing_charts(answered.boat(), suggestion, answered.units);
    let with_pair = match suggestion.pair() {
        Some(pair) => answered.boat().with_planes(Some(pair)).map_err(Failure::first_fault)?,
        None => answered.boat().clone(),
    };
    let deflections = super::run::chart_deflections(&with_pair);
    charts.extend(running_charts(&with_pair, &answered.settings, &deflections, answered.units)?);
    Folder::of(folder, answered.boat(), false)?.write(&charts)
}
