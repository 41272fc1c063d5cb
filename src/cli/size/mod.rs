//! `planewright size`: which planes, and why.

mod chance;
pub(super) mod data;
mod shelf;
mod text;

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use shelf::Shelf;
use shelf::json::Written;

use super::arguments::{BoatArguments, UnitArguments};
use super::charts::Folder;
use super::doubt::progress::Bar;
use super::first::First;
use super::records::chart_paths;
use super::run::ModelChoice;
use super::screen::Screen;
use super::{Ending, Failure};
use crate::answer::{About, Enveloped, Sized};
use crate::balance::Settings;
use crate::boat::{Boat, Wish};
use crate::chart::ChartFiles;
use crate::chart::running::running_charts;
use crate::chart::sizing::sizing_charts;
use crate::doubt::{DRAWS, Drawn, SEED, advise_with, effects_for};
use crate::input::BoatFile;
use crate::size::{Effect, Suggestion};
use crate::tell::drive;
use crate::tell::sizing::{Sizing, in_steps_of};
use crate::units::UnitChoice;

const EXAMPLES: &str = "\
Examples:
  planewright size boat.toml
  planewright size boat.toml --charts charts
  planewright size boat.toml --condition light --condition full
  planewright size boat.toml --stock planes.csv
  planewright size boat.toml --chance 90
  planewright size boat.toml --for bow-high --for leans
  planewright size boat.toml --units imperial
  planewright size boat.toml --json

What the planes must do stands in the boat file as [[duty]] tables; without any, sensible ones are
generated from the boat and printed, ready to be put into the file and changed. The size is the least
pair that does them on 80 of a hundred boats nearly like the one described. With a stock list the
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
    /// How sure the size is to do every duty: on so many in a hundred boats nearly like this one (the file's sizing.chance, else 80)
    #[arg(long, value_name = "N", value_parser = chance::in_a_hundred)]
    chance: Option<f64>,
    /// What you wish of the planes, in place of the duties of the file; may be given several times
    #[arg(long = "for", value_name = "WISH", value_enum)]
    wishes: Vec<WishChoice>,
    /// Boats drawn
    #[arg(long, value_name = "NUMBER", default_value_t = DRAWS,
          value_parser = clap::value_parser!(u32).range(50..=100_000))]
    draws: u32,
    /// Seed of the random numbers
    #[arg(long, value_name = "NUMBER", default_value_t = SEED)]
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

/// Word for a [`Wish`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum WishChoice {
    /// The bow stands too high
    BowHigh,
    /// She is slow to come onto the plane
    SlowToPlane,
    /// She nods by herself at speed
    Porpoises,
    /// She leans to one side
    Leans,
    /// She pounds in a head sea
    Pounds,
}

impl From<WishChoice> for Wish {
    fn from(choice: WishChoice) -> Self {
        match choice {
            WishChoice::BowHigh => Self::BowHigh,
            WishChoice::SlowToPlane => Self::SlowToPlane,
            WishChoice::Porpoises => Self::Porpoises,
            WishChoice::Leans => Self::Leans,
            WishChoice::Pounds => Self::Pounds,
        }
    }
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
}

impl Answered {
    fn boat(&self) -> &Boat {
        &self.file.boat
    }

    /// What must be settled before it is believed.
    fn first(&self) -> First {
        First::of(&self.boats, &self.settings, self.units)
    }

    /// As JSON.
    fn enveloped<'a>(&'a self, first: &'a First) -> Enveloped<'a, Sized<'a, Option<Written>>> {
        let about = About {
            flags: self.suggestion.flags,
            files: chart_paths(&self.charts),
            ..first.about(&self.file, self.suggestion.used())
        };
        about.around(Sized {
            suggestion: &self.suggestion,
            drive_trimmed_in: drive::duties(&self.told()),
            estimates: &self.effects,
            shelf: self.shelf.as_ref().map(|shelf| Written::of(shelf, self.units)),
        })
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
    let boats = boats.map_err(Failure::first_fault)?.into_iter();
    let wishes: Vec<Wish> = arguments.wishes.iter().copied().map(Wish::from).collect();
    let boats = boats.map(|boat| chance::asked(boat, arguments.chance, &wishes));
    let boats = boats.collect::<Result<Vec<_>, _>>()?;
    let file = BoatFile { boat: boats[0].clone(), ..files.swap_remove(0) };
    let settings = Settings { model: arguments.model.into(), ..Settings::default() };
    let drawn = Drawn { draws: arguments.draws, seed: arguments.seed };
    let bar = Bar::of(u64::from(drawn.draws));
    let suggestion = advise_with(&boats, &settings, drawn, &|done| bar.advance(done))?;
    bar.finish();
    let shelf = match &arguments.stock {
        Some(path) => Some(Shelf::ranked(path, &boats, &settings, drawn)?),
        None => None,
    };
    let effects = effects_for(&boats, &settings, &suggestion);
    let charts = Vec::new();
    let mut answered =
        Answered { file, boats, units, settings, suggestion, effects, charts, shelf };
    if let Some(folder) = &arguments.charts {
        answered.charts = draw(&answered, folder)?;
    }
    let screen = Screen::of_stdout();
    if arguments.json {
        screen.print_json(&answered.enveloped(&answered.first()))?;
    } else {
        screen.print(&answered.first().above(&text::report(&answered, screen), screen))?;
    }
    let does_all = match &answered.shelf {
        Some(shelf) => shelf.ranking.does_all(),
        None => answered.suggestion.does_all(),
    };
    Ok(if does_all { Ending::Done } else { Ending::CannotBeDone })
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
