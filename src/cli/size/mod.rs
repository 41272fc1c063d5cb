//! `planewright size`: which planes, and why.

mod json;
mod shelf;
mod text;

use std::path::PathBuf;

pub(super) use crate::size::explain::pair_text;

use clap::Args;
use shelf::Shelf;

use super::arguments::UnitArguments;
use super::screen::Screen;
use super::{Ending, Failure};
use crate::balance::Settings;
use crate::boat::Boat;
use crate::chart::ChartFiles;
use crate::chart::running::running_charts;
use crate::chart::sizing::sizing_charts;
use crate::input::{BoatFile, read_boat};
use crate::size::{Effect, Suggestion, effects, in_steps_of, suggest};
use crate::units::UnitChoice;

const EXAMPLES: &str = "\
Examples:
  planewright size boat.toml
  planewright size boat.toml --charts charts
  planewright size boat.toml --stock planes.csv
  planewright size boat.toml --units imperial
  planewright size boat.toml --json

What the planes must do stands in the boat file as [[duty]] tables; without any, sensible ones are
generated from the boat and printed, ready to be put into the file and changed. With a stock list the
parts on the shelf are ranked; data/stock/COLUMNS.md says what a list holds. Exit code 1 when no size
does every duty; with a stock list, when no pair on the shelf does.";

/// Suggest a pair of planes, with the reasons: what sets the size, what a smaller one would miss
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct SizeArguments {
    /// Boat file; `planewright new FILE` writes one to start from
    boat: PathBuf,
    /// Also rank the parts of this stock list for the boat
    #[arg(long, value_name = "CSV")]
    stock: Option<PathBuf>,
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
    file: BoatFile,
    units: UnitChoice,
    settings: Settings,
    suggestion: Suggestion,
    /// Effect of the estimates on the suggestion.
    effects: Vec<Effect>,
    charts: Vec<ChartFiles>,
    shelf: Option<Shelf>,
}

impl Answered {
    fn boat(&self) -> &Boat {
        &self.file.boat
    }
}

pub(super) fn execute(arguments: &SizeArguments) -> Result<Ending, Failure> {
    let units = arguments.units.choice();
    let mut file = read_boat(&arguments.boat)?;
    file.boat = in_steps_of(file.boat, units).map_err(Failure::first_fault)?;
    let settings = Settings::default();
    let suggestion = suggest(&file.boat, &settings)?;
    let shelf = match &arguments.stock {
        Some(path) => Some(Shelf::ranked(path, &file.boat, &settings)?),
        None => None,
    };
    let effects = effects(&file.boat, &settings);
    let charts = Vec::new();
    let mut answered = Answered { file, units, settings, suggestion, effects, charts, shelf };
    if let Some(folder) = &arguments.charts {
        answered.charts = draw(&answered, folder)?;
    }
    let screen = Screen::of_stdout();
    if arguments.json {
        screen.print_json(&json::answer(&answered))?;
    } else {
        screen.print(&text::report(&answered, screen))?;
    }
    let does_all = match &answered.shelf {
        Some(shelf) => shelf.ranking.does_all(),
        None => answered.suggestion.does_all(),
    };
    Ok(if does_all { Ending::Done } else { Ending::CannotBeDone })
}

/// The sizing charts, and those of the boat running with the pair suggested.
fn draw(answered: &Answered, folder: &std::path::Path) -> Result<Vec<ChartFiles>, Failure> {
    super::make_folder(folder)?;
    let suggestion = &answered.suggestion;
    let mut charts = sizing_charts(answered.boat(), suggestion, answered.units);
    let with_pair = match suggestion.pair() {
        Some(pair) => answered.boat().with_planes(Some(pair)).map_err(Failure::first_fault)?,
        None => answered.boat().clone(),
    };
    let deflections = super::run::chart_deflections(&with_pair);
    charts.extend(running_charts(&with_pair, &answered.settings, &deflections, answered.units)?);
    charts.iter().map(|named| Ok(named.chart.write(folder, named.stem)?)).collect()
}
