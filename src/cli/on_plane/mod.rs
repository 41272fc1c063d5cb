//! `planewright on-plane`: does she get over the hump, and how long does it take?

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
use crate::behaviour::on_plane::{OnPlane, OnPlaneRequest, on_plane};
use crate::boat::Boat;
use crate::chart::on_plane::on_plane_charts;
use crate::chart::{ChartFiles, Subject};
use crate::cli::records::chart_paths;
use crate::input::BoatFile;
use crate::size::PairUsed;
use crate::tell::on_plane as tell;
use crate::units::UnitChoice;

/// The table that `--csv` prints.
const MAIN_TABLE: &str = "conditions.runs.rows";

const EXAMPLES: &str = "\
Examples:
  planewright on-plane boat.toml
  planewright on-plane boat.toml --to \"20 kn\" --charts charts
  planewright on-plane boat.toml --deflection \"10 deg\" --condition all
  planewright on-plane boat.toml --json
  planewright on-plane boat.toml --csv --table conditions.runs

Full power from rest, in calm water and without wind. The planes are the pair fitted, else the one
that `size` suggests for all loading conditions. Without --to: until she is past the hump and planing
with planes up (Savitsky 1964: speed coefficient over the root of wetted length in beams of 1 from
4 deg of trim, 2 at 2 deg). Without --deflection the planes are held at half of what they can be put
to. Exit code 1 when she does not get there in any way.";

/// Getting on plane: time and distance from rest, the hump, the slowest planing and the top speed
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct OnPlaneArguments {
    #[command(flatten)]
    pub(super) boat: BoatArguments,
    /// Speed to reach, with its unit, for example "20 kn" [default: past the hump and planing]
    #[arg(long, value_name = "SPEED", value_parser = arguments::speed)]
    to: Option<Velocity>,
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
struct OnPlaneOutput {
    file: BoatFile,
    units: UnitChoice,
    pair: PairUsed,
    answer: OnPlane,
    charts: Vec<ChartFiles>,
}

impl OnPlaneOutput {
    fn boat(&self) -> &Boat {
        &self.file.boat
    }

    fn told(&self) -> tell::OnPlaneText<'_> {
        tell::OnPlaneText {
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

pub(super) fn execute(arguments: &OnPlaneArguments) -> Result<Ending, Failure> {
    let settings = Settings::default();
    let files = arguments.boat.read()?;
    let several = files.len() > 1;
    let pair = crate::doubt::pair_used(&files[0].boat, &settings)?;
    let asked = OnPlaneRequest { to: arguments.to, held: arguments.deflection };
    let units = arguments.units.choice();
    let mut charts = arguments.charts.begin(arguments.boat.inputs(&files[0]), several);
    let mut all = Vec::new();
    for file in files {
        let answer = on_plane(&file.boat, &settings, pair.pair, &asked)?;
        let subject = Subject { boat: &file.boat, planes: pair, units };
        let charts = match charts.wanted() {
            true => charts.add(&file.boat, &on_plane_charts(subject, &answer))?,
            false => Vec::new(),
        };
        all.push(OnPlaneOutput { file, units, pair, answer, charts });
    }
    charts.write()?;
    let screen = Screen::of_stdout();
    let first = First::of(all.iter().map(OnPlaneOutput::boat), &settings, units);
    if arguments.data.wanted() {
        let about = About {
            flags: all
                .iter()
                .flat_map(|one| tell::flags(&one.told()).into_iter().map(|(flag, _)| flag))
                .collect(),
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
    let gets_there = all.iter().all(|one| one.answer.runs.iter().any(|run| run.reaches));
    Ok(if gets_there { Ending::Done } else { Ending::CannotBeDone })
}
