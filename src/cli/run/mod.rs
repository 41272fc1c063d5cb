//! `planewright run`: how the boat runs, speed by speed.

mod choices;
pub(super) mod data;
mod drive_trim;
mod json;
mod points;
mod settings;
mod text;

use clap::Args;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};

use super::arguments::{self, BoatArguments, UnitArguments};
use super::charts::{ChartArguments, Charts};
use super::data::DataArguments;
use super::first::First;
use super::screen::Screen;
use super::told;
use super::{Ending, Failure};
use crate::answer::{About, Enveloped, Flagged};
use crate::balance::opinions::Opinion;
use crate::balance::sensitivity::{Sensitivity, sensitivities};
use crate::balance::series::SecondOpinion;
use crate::balance::sweep::{Set, speeds, usual_step, within_reach};
use crate::balance::{Balance, BeforePlaning, LiftModel, Method, Point, Settings};
use crate::behaviour::drive_trim::DriveTrims;
use crate::boat::{Boat, Fault};
use crate::chart::running::own::own_charts;
use crate::chart::running::{model_charts, running_charts};
use crate::chart::{ChartFiles, Subject};
use crate::cli::records::chart_paths;
use crate::field::Field;
use crate::input::BoatFile;
use crate::size::PairUsed;
use crate::size::Silence;
use crate::tell;
use crate::units::UnitChoice;
pub(super) use choices::ModelChoice;
use choices::ModelsChoice;
pub(super) use settings::SettingsArguments;

/// The table that `--csv` prints with the forces; without them it is that of the points.
const MAIN_TABLE: &str = "points.budget";

const EXAMPLES: &str = "\
Examples:
  planewright run boat.toml
  planewright run boat.toml --aboard 2 --full
  planewright run boat.toml --speed \"22 kn\" --speed \"26 kn\" --deflection \"5 deg\" --budget
  planewright run boat.toml --charts charts --units imperial
  planewright run boat.toml --charts charts --x speed --y resistance,plane_drag
  planewright run boat.toml --charts charts --x deflection --y trim,porpoising_limit --speed \"20 kn\"
  planewright run boat.toml --drive-trim \"-4 deg\" --speed \"16 kn\"
  planewright run boat.toml --condition all --csv > boat.csv
  planewright run boat.toml --csv --table landmarks
  planewright run boat.toml --models all --charts charts
  planewright run boat.toml --method general-1964 --roughness 0 --json

Without --speed: from the start of planing (speed coefficient 1) to top speed, in steps of 1 kn,
1 mph, 2 km/h or 1 m/s. Without --deflection: 0 deg, and with planes fitted also 5 and 10 deg, a
light and a strong use of what planes were tested for (15 deg); charts show more of them. Without
--condition: the loads as they are listed.";

/// Deflections of the tables when none are asked for, degrees.
const TABLE_DEFLECTIONS_DEG: [f64; 3] = [0.0, 5.0, 10.0];
/// Deflections of the charts when none are asked for, degrees.
const CHART_DEFLECTIONS_DEG: [f64; 6] = [0.0, 2.5, 5.0, 7.5, 10.0, 15.0];

/// Show how the boat runs: trim, resistance, porpoising and what the planes do, speed by speed
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct RunArguments {
    #[command(flatten)]
    pub(super) boat: BoatArguments,
    /// A speed with its unit, for example "22 kn"; may be repeated
    #[arg(long, value_name = "SPEED", value_parser = arguments::speed)]
    speed: Vec<Velocity>,
    /// A mean deflection of the planes with its unit, for example "5 deg"; may be repeated
    #[arg(long, value_name = "ANGLE", value_parser = arguments::deflection)]
    deflection: Vec<Angle>,
    /// Also show what the drive does at this trim with planes up, for example "-4 deg": negative is in; may be repeated
    #[arg(long, value_name = "ANGLE", value_parser = arguments::drive_trim, allow_hyphen_values = true)]
    drive_trim: Vec<Angle>,
    #[command(flatten)]
    balance: SettingsArguments,
    /// Show the answers by every lift model side by side, and how far they lie apart
    #[arg(long, value_enum, conflicts_with = "budget")]
    models: Option<ModelsChoice>,
    /// Print all tables with the reasons, not the short answer; --budget, --models and --drive-trim do so by themselves
    #[arg(long)]
    full: bool,
    #[command(flatten)]
    data: DataArguments,
    /// Also print every force, where it acts and its moment
    #[arg(long)]
    budget: bool,
    #[command(flatten)]
    charts: ChartArguments,
    /// Draw these numbers of a point instead of the usual charts, by their names in --csv without the unit
    #[arg(long, value_name = "FIELD,FIELD", value_delimiter = ',', requires = "charts", value_parser = choices::field)]
    y: Vec<Field<Point>>,
    /// What they are drawn against
    #[arg(long, value_name = "FIELD", requires = "y", default_value = "speed", value_parser = choices::field)]
    x: Field<Point>,
    #[command(flatten)]
    units: UnitArguments,
}

/// Everything that an output of this command may show for one loading condition.
struct RunOutput {
    file: BoatFile,
    /// The planes that she runs with.
    planes: PairUsed,
    settings: Settings,
    units: UnitChoice,
    /// For each deflection: the points by speed.
    sets: Vec<Set>,
    /// The same by every other lift model, where that is asked for.
    opinions: Vec<Opinion>,
    /// The pre-planing regression, where every opinion is asked for.
    before_planing: BeforePlaning,
    /// What a tank series says beside what is computed, planes up.
    second_opinion: SecondOpinion,
    /// Effect of the estimates on the boat with her planes up.
    sensitivities: Vec<Sensitivity>,
    /// What trimming the drive does, when asked for.
    drive_trims: Option<DriveTrims>,
    /// Whether nothing can be said about planes.
    is_silent: bool,
    charts: Vec<ChartFiles>,
}

/// Some runs as JSON, with the budget of every point where it is asked for.
fn enveloped<'a>(
    runs: &'a [RunOutput],
    first: &'a First,
    with_budget: bool,
) -> Enveloped<'a, Flagged<json::Written<'a>>> {
    let file = &runs[0].file;
    let about = About {
        flags: runs.iter().flat_map(|run| run.told().flags()).collect(),
        files: chart_paths(runs.iter().flat_map(|run| &run.charts)),
        ..first.about(file, runs[0].planes)
    };
    about.around_flagged(json::Written { runs, with_budget })
}

pub(super) fn execute(arguments: &RunArguments) -> Result<Ending, Failure> {
    arguments::few("speed", &arguments.speed)?;
    arguments::few("deflection", &arguments.deflection)?;
    arguments::few("drive-trim", &arguments.drive_trim)?;
    let files = arguments.boat.read()?;
    let several = files.len() > 1;
    let mut charts = arguments.charts.begin(arguments.boat.inputs(&files[0]), several);
    let runs = files.into_iter().map(|file| RunOutput::of(arguments, file, &mut charts));
    let runs = runs.collect::<Result<Vec<_>, _>>()?;
    charts.write()?;
    let first = first(&runs);
    let screen = Screen::of_stdout();
    if arguments.data.csv && arguments.data.table.is_none() && !arguments.budget {
        let warnings = runs[0].file.warnings.iter().map(ToString::to_string);
        for line in warnings.chain(first.warnings()) {
            eprintln!("warning: {line}");
        }
        screen.print(&points::rows(&runs, arguments.units.asked())?)?;
    } else if arguments.data.wanted() {
        arguments.data.print(
            &enveloped(&runs, &first, arguments.budget),
            MAIN_TABLE,
            arguments.units.asked(),
            &first.warnings(),
        )?;
    } else if arguments.wants_all() {
        let text = text::report(&runs, arguments.budget, screen);
        screen.print(&first.above(&text, screen))?;
    } else {
        let forms = text::short(&runs, arguments.speed.len());
        let charts = runs.iter().flat_map(|run| &run.charts);
        screen.print(&first.above_short(&told::short(forms, charts, screen), screen))?;
    }
    Ok(Ending::Done)
}

/// What must be settled before the runs are believed.
fn first(runs: &[RunOutput]) -> First {
    First::of(runs.iter().map(RunOutput::boat), &runs[0].settings, runs[0].units)
}

impl RunOutput {
    /// The boat in her condition, with her charts among the others.
    fn of(
        arguments: &RunArguments,
        file: BoatFile,
        charts: &mut Charts<'_>,
    ) -> Result<Self, Failure> {
        let settings = arguments.balance.settings();
        let units = arguments.units.choice();
        let speeds = match arguments.speed.as_slice() {
            [] => speeds(&file.boat, usual_step(units.speed)),
            given => given.to_vec(),
        };
        let deflections = arguments.deflections(&file.boat, &TABLE_DEFLECTIONS_DEG);
        let sets = Set::all(&file.boat, &settings, &speeds, &deflections)?;
        let sensitivities = sensitivities(&file.boat, &settings, Angle::new::<degree>(0.0));
        let second_opinion = SecondOpinion::of(&file.boat, &settings, &arguments.speed)?;
        let drive_trims = match arguments.drive_trim.as_slice() {
            [] => None,
            asked => Some(DriveTrims::of(&file.boat, &settings, asked, &speeds)?),
        };
        let is_silent = Silence::of(&file.boat, &settings).is_some();
        let mut run = Self {
            planes: PairUsed::fitted(&file.boat),
            file,
            settings,
            units,
            sets,
            opinions: Vec::new(),
            before_planing: BeforePlaning::default(),
            second_opinion,
            sensitivities,
            drive_trims,
            is_silent,
            charts: Vec::new(),
        };
        if arguments.models.is_some() {
            run.ask_every_model()?;
        }
        if charts.wanted() {
            let deflections = arguments.deflections(&run.file.boat, &CHART_DEFLECTIONS_DEG);
            run.charts = match arguments.y.as_slice() {
                [] => run.draw(&deflections, charts)?,
                y => {
                    let deflections = arguments.deflections(&run.file.boat, &TABLE_DEFLECTIONS_DEG);
                    let subject = Subject::fitted(&run.file.boat, units);
                    let (speeds, x) = (&arguments.speed, arguments.x);
                    let own = own_charts(subject, &settings, &deflections, speeds, x, y)?;
                    charts.add_own(&run.file.boat, &own)?
                }
            };
        }
        Ok(run)
    }

    fn boat(&self) -> &Boat {
        &self.file.boat
    }

    fn balance(&self) -> Balance {
        Balance::of(self.boat(), &self.settings)
    }

    fn points(&self) -> impl Iterator<Item = &Point> {
        self.sets.iter().flat_map(|set| &set.points)
    }

    /// The points by every model shown, the one chosen first.
    fn points_by_model(&self) -> impl Iterator<Item = (LiftModel, &Point)> {
        let others = self
            .opinions
            .iter()
            .flat_map(|opinion| opinion.sets.iter().flatten().map(|point| (opinion.model, point)));
        self.points().map(|point| (self.settings.model, point)).chain(others)
    }

    /// What every lift model says, and the pre-planing regression beside them.
    fn ask_every_model(&mut self) -> Result<(), Fault> {
        if !self.settings.method.is_full_balance() {
            return Err(Fault {
                key: "run.models".to_owned(),
                problem: "the 1964 cases know only the lift of their own paper".to_owned(),
                remedy: "use the full method, or leave out --models".to_owned(),
            });
        }
        self.opinions = Opinion::others(self.boat(), &self.settings, &self.sets)?;
        let others = self.opinions.iter().map(|opinion| opinion.model);
        let models: Vec<LiftModel> = std::iter::once(self.settings.model).chain(others).collect();
        self.before_planing = BeforePlaning::of(self.boat(), &self.settings, &models)?;
        Ok(())
    }

    /// The same for whoever tells it.
    fn told(&self) -> tell::run::RunText<'_> {
        tell::run::RunText {
            boat: self.boat(),
            settings: &self.settings,
            units: self.units,
            sets: &self.sets,
            opinions: &self.opinions,
            before_planing: &self.before_planing,
            second_opinion: &self.second_opinion,
            sensitivities: &self.sensitivities,
            drive_trims: self.drive_trims.as_ref(),
            warnings: &self.file.warnings,
            is_silent: self.is_silent,
        }
    }

    /// The usual charts.
    fn draw(
        &self,
        deflections: &[Angle],
        files: &mut Charts<'_>,
    ) -> Result<Vec<ChartFiles>, Failure> {
        let subject = Subject::fitted(&self.file.boat, self.units);
        let mut charts = running_charts(subject, &self.settings, deflections, &[])?;
        if !self.opinions.is_empty() {
            let first = deflections.first().copied().unwrap_or_default();
            charts.extend(model_charts(subject, &self.settings, first)?);
        }
        files.add(self.boat(), &charts)
    }
}

impl RunArguments {
    /// Whether everything is to be told: asked for, or what is asked for has a table of its own.
    fn wants_all(&self) -> bool {
        self.full || self.budget || self.models.is_some() || !self.drive_trim.is_empty()
    }

    /// The deflections asked for, or the usual ones as far as the boat's planes reach.
    fn deflections(&self, boat: &Boat, usual_deg: &[f64]) -> Vec<Angle> {
        if !self.deflection.is_empty() {
            return self.deflection.clone();
        }
        if !Method::from(self.balance.method).is_full_balance() {
            return vec![Angle::new::<degree>(0.0)];
        }
        within_reach(boat, usual_deg)
    }
}

/// The deflections of charts for a boat, when none are asked for.
pub(super) fn chart_deflections(boat: &Boat) -> Vec<Angle> {
    within_reach(boat, &CHART_DEFLECTIONS_DEG)
}
