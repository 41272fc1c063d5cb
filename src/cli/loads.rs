//! `planewright loads`: what the planes carry, and what moves and holds them.

mod choices;
mod json;
mod text;

use std::path::PathBuf;

use clap::Args;
use uom::si::f64::{Angle, Length, Velocity};

use super::Ending;
use super::Failure;
use super::arguments::{BoatArguments, UnitArguments, deflection, few, speed};
use super::charts::{ChartArguments, Charts};
use super::data::DataArguments;
use super::first::First;
use super::records::chart_paths;
use super::screen::Screen;
use super::{shelf, told};
use crate::answer::About;
use crate::balance::Settings;
use crate::boat::Boat;
use crate::chart::ChartFiles;
use crate::chart::loads::loads_charts;
use crate::input::BoatFile;
use crate::size::PairUsed;
use crate::stock::{LoadsAsked, Part, PlaneLoads, Planes};
use crate::tell;
use crate::units::UnitChoice;
use choices::StrengthArguments;

/// The table that `--csv` prints.
const MAIN_TABLE: &str = "conditions.loads";

const EXAMPLES: &str = "\
Examples:
  planewright loads boat.toml
  planewright loads boat.toml --stock planes.csv --part \"600 x 230 stainless hydraulic\"
  planewright loads boat.toml --stock planes.csv --part NAME --load-factor 3 --transom laminate
  planewright loads boat.toml --charts charts
  planewright loads boat.toml --speed 25kn --deflection 8deg --json
  planewright loads boat.toml --csv > loads.csv

Without a part the load on the planes of the boat file is shown, else on the pair that `planewright
size` suggests. With a part: what its actuators push and hold, its stroke, and what plate, screws and actuators bear
at the deflection allowed at each speed. Without --condition: the loads as they are listed, on a pair
suggested for every loading condition. Exit code 1 when the part has no room on the transom, or is
unsafe under the load of steady running.";

/// Show what the water puts on a plane, and what actuator, plate and screws make of it
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct LoadsArguments {
    #[command(flatten)]
    pub(super) boat: BoatArguments,
    /// Stock list to take the part from
    #[arg(long, value_name = "CSV", requires = "part")]
    stock: Option<PathBuf>,
    /// Name of the part in the stock list
    #[arg(long, value_name = "NAME", requires = "stock")]
    part: Option<String>,
    /// Speed with its unit; may be given several times [default: over the planing range]
    #[arg(long = "speed", value_name = "SPEED", value_parser = speed)]
    speeds: Vec<Velocity>,
    /// Deflection with its unit; may be given several times [default: 5, 10 and 15 deg]
    #[arg(long = "deflection", value_name = "ANGLE", value_parser = deflection)]
    deflections: Vec<Angle>,
    /// Print all tables with the reasons, not the short answer
    #[arg(long)]
    full: bool,
    #[command(flatten)]
    data: DataArguments,
    #[command(flatten)]
    charts: ChartArguments,
    #[command(flatten)]
    strength: StrengthArguments,
    #[command(flatten)]
    units: UnitArguments,
}

/// Everything that an output of this command may show for one loading condition.
struct Loaded {
    file: BoatFile,
    units: UnitChoice,
    cable_length: Length,
    found: PlaneLoads,
    charts: Vec<ChartFiles>,
}

impl Loaded {
    fn of(
        file: BoatFile,
        part: Option<Part>,
        planes: Planes,
        arguments: &LoadsArguments,
        charts: &mut Charts<'_>,
    ) -> Result<Self, Failure> {
        let units = arguments.units.choice();
        let asked = LoadsAsked {
            settings: arguments.strength.settings(),
            speeds: arguments.speeds.clone(),
            deflections: arguments.deflections.clone(),
            speed_unit: units.speed,
        };
        let found = PlaneLoads::of(&file.boat, planes, part, &asked)?;
        let charts = match charts.wanted() {
            true => charts.add(&file.boat, &loads_charts(&file.boat, &found, units)?)?,
            false => Vec::new(),
        };
        Ok(Self { file, units, cable_length: arguments.strength.cable_length, found, charts })
    }

    fn boat(&self) -> &Boat {
        &self.file.boat
    }

    /// Whether the part has room and is safe; pairs without a part are not judged.
    fn can_be_fitted(&self) -> bool {
        self.found.fits() && !self.found.is_unsafe()
    }

    /// The same for whoever tells it.
    fn told(&self) -> tell::loads::Loads<'_> {
        tell::loads::Loads {
            boat: self.boat(),
            found: &self.found,
            cable_length: self.cable_length,
            units: self.units,
            warnings: &self.file.warnings,
        }
    }
}

pub(super) fn execute(arguments: &LoadsArguments) -> Result<Ending, Failure> {
    few("speed", &arguments.speeds)?;
    few("deflection", &arguments.deflections)?;
    let files = arguments.boat.read()?;
    let part = match (&arguments.stock, &arguments.part) {
        (Some(path), Some(name)) => Some(shelf::part(path, name)?),
        _ => None,
    };
    let sized_for = arguments.boat.sized_for(&files)?;
    let inputs = arguments.boat.inputs(&files[0]).into_iter().chain(arguments.stock.clone());
    let mut charts = arguments.charts.begin(inputs.collect(), files.len() > 1);
    let loaded = files.into_iter().map(|file| {
        let planes = Planes::of(&file.boat, part.as_ref(), &sized_for)?;
        Loaded::of(file, part.clone(), planes, arguments, &mut charts)
    });
    let loaded = loaded.collect::<Result<Vec<_>, _>>()?;
    charts.write()?;
    let screen = Screen::of_stdout();
    let boats = loaded.iter().map(Loaded::boat);
    let first = First::of(boats, &Settings::default(), arguments.units.choice());
    if arguments.data.wanted() {
        let planes = loaded[0].found.planes;
        let planes = PairUsed { pair: Some(planes.pair), source: planes.source };
        let about = About {
            files: chart_paths(loaded.iter().flat_map(|one| &one.charts)),
            ..first.about(&loaded[0].file, planes)
        };
        arguments.data.print(
            &about.around_flagged(json::Written { conditions: &loaded }),
            MAIN_TABLE,
            arguments.units.asked(),
            &first.warnings(),
        )?;
    } else if arguments.full {
        screen.print(&first.above(&text::report(&loaded, screen), screen))?;
    } else {
        let forms =
            loaded.iter().map(|one| (&one.file, tell::loads::short_form(&one.told()))).collect();
        let charts = loaded.iter().flat_map(|one| &one.charts);
        screen.print(&first.above_short(&told::short(forms, charts, screen), screen))?;
    }
    Ok(if loaded.iter().all(Loaded::can_be_fitted) { Ending::Done } else { Ending::CannotBeDone })
}
