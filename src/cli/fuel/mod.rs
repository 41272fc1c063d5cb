//! `planewright fuel`: power and fuel at each speed, and what the planes save or cost.

mod json;

use clap::Args;
use uom::si::f64::{Angle, Velocity};

use super::arguments::{self, BoatArguments, UnitArguments};
use super::charts::ChartArguments;
use super::data::DataArguments;
use super::first::First;
use super::screen::Screen;
use super::told;
use super::{Ending, Failure};
use crate::answer::About;
use crate::balance::Settings;
use crate::behaviour::fuel::{Fuel, FuelRequest, fuel};
use crate::boat::Boat;
use crate::chart::fuel::fuel_charts;
use crate::chart::{ChartFiles, Subject};
use crate::cli::records::chart_paths;
use crate::input::BoatFile;
use crate::size::PairUsed;
use crate::tell::fuel as tell;
use crate::units::UnitChoice;

/// The table that `--csv` prints.
const MAIN_TABLE: &str = "conditions.rows";

const EXAMPLES: &str = "\
Examples:
  planewright fuel boat.toml
  planewright fuel boat.toml --cruise \"22 kn\" --charts charts
  planewright fuel boat.toml --deflection \"5 deg\" --condition all
  planewright fuel boat.toml --json
  planewright fuel boat.toml --condition all --csv > fuel.csv

The planes are the pair fitted, else the one that `size` suggests for all loading conditions. They
are shown up, held at one deflection, and at the deflection of least resistance with a safe run, which
is zero where planes only cost fuel. Without --cruise: three quarters of the top speed. Efficiency and
consumption are estimated where the boat file does not give them, and marked.";

/// Power and fuel at each speed: planes up, held and used best; saving at cruise, and what planes cost
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct FuelArguments {
    #[command(flatten)]
    pub(super) boat: BoatArguments,
    /// Cruising speed with its unit [default: three quarters of the top speed]
    #[arg(long, value_name = "SPEED", value_parser = arguments::speed)]
    cruise: Option<Velocity>,
    /// Deflection at which the planes are held [default: half of what they can be put to]
    #[arg(long, value_name = "ANGLE", value_parser = arguments::deflection)]
    deflection: Option<Angle>,
    /// Print all tables with the reasons, not the short answer
    #[arg(long)]
    full: bool,
    #[command(flatten)]
    data: DataArguments,
    #[command(flatten)]
    charts: ChartArguments,
    #[command(flatten)]
    units: UnitArguments,
}

/// Everything that an output of this command may show for one loading condition.
struct FuelOutput {
    file: BoatFile,
    units: UnitChoice,
    pair: PairUsed,
    answer: Fuel,
    charts: Vec<ChartFiles>,
}

impl FuelOutput {
    fn boat(&self) -> &Boat {
        &self.file.boat
    }

    fn told(&self) -> tell::FuelText<'_> {
        tell::FuelText {
            boat: self.boat(),
            pair: self.pair,
            answer: &self.answer,
            units: self.units,
        }
    }

    /// The answer as text for a person.
    fn page(&self, screen: Screen) -> String {
        let head = told::head(self.boat().name(), &self.file, screen);
        told::page(&format!("{head}\n"), &tell::all(&self.told()), &self.file, &self.charts, screen)
    }
}

pub(super) fn execute(arguments: &FuelArguments) -> Result<Ending, Failure> {
    let settings = Settings::default();
    let files = arguments.boat.read()?;
    let several = files.len() > 1;
    let pair = crate::doubt::pair_used(&files[0].boat, &settings)?;
    let asked = FuelRequest { cruise: arguments.cruise, held: arguments.deflection };
    let units = arguments.units.choice();
    let step = crate::balance::sweep::usual_step(units.speed);
    let mut charts = arguments.charts.begin(arguments.boat.inputs(&files[0]), several);
    let mut all = Vec::new();
    for file in files {
        let answer = fuel(&file.boat, &settings, pair.pair, step, &asked)?;
        let subject = Subject { boat: &file.boat, planes: pair, units };
        let charts = match charts.wanted() {
            true => charts.add(&file.boat, &fuel_charts(subject, &answer))?,
            false => Vec::new(),
        };
        all.push(FuelOutput { file, units, pair, answer, charts });
    }
    charts.write()?;
    let screen = Screen::of_stdout();
    let first = First::of(all.iter().map(FuelOutput::boat), &settings, units);
    if arguments.data.wanted() {
        let about = About {
            flags: all.iter().flat_map(|one| tell::flags(&one.told())).collect(),
            files: chart_paths(all.iter().flat_map(|one| &one.charts)),
            ..first.about(&all[0].file, pair)
        };
        arguments.data.print(
            &about.around_flagged(json::Written(&all)),
            MAIN_TABLE,
            arguments.units.asked(),
            &first.warnings(),
        )?;
    } else if arguments.full {
        let pages: Vec<_> = all.iter().map(|one| one.page(screen)).collect();
        screen.print(&first.above(&told::pages(&pages, &[], screen), screen))?;
    } else {
        let forms = all.iter().map(|one| (&one.file, tell::short_form(&one.told()))).collect();
        let charts = all.iter().flat_map(|one| &one.charts);
        screen.print(&first.above_short(&told::short(forms, charts, screen), screen))?;
    }
    Ok(Ending::Done)
}
