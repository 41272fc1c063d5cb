//! `planewright level`: what lists the boat, and how her planes level her.

mod asked;
mod json;

use clap::Args;
use uom::si::f64::{Angle, Velocity};
use uom::si::length::meter;

use super::arguments::{self, BoatArguments, UnitArguments};
use super::charts::{ChartArguments, Charts};
use super::data::DataArguments;
use super::first::First;
use super::screen::Screen;
use super::{Ending, Failure, told};
use crate::answer::About;
use crate::balance::Settings;
use crate::behaviour::list::{Levelled, ListRequest};
use crate::boat::{Boat, Fault, ListCause, Measure, PlanePair};
use crate::chart::level::level_charts;
use crate::chart::{ChartFiles, Subject};
use crate::cli::records::chart_paths;
use crate::input::BoatFile;
use crate::size::PairUsed;
use crate::tell::level as tell;
use crate::units::UnitChoice;
use asked::StuckChoice;

/// The table that `--csv` prints.
const MAIN_TABLE: &str = "conditions.points";

const EXAMPLES: &str = "\
Examples:
  planewright level boat.toml
  planewright level boat.toml --off-centre \"90 kg at 0.8 m\" --speed \"22 kn\"
  planewright level boat.toml --moment \"-500 N m\" --mean \"4 deg\" --charts charts
  planewright level boat.toml --port \"8 deg\" --starboard \"2 deg\"
  planewright level boat.toml --stuck \"port down\"
  planewright level boat.toml --condition all
  planewright level boat.toml --csv > level.csv

What heels her: weight off the centreline in the load table, [wind] and the propellers' rotation in the
boat file, and what is asked for here. Without --off-centre and --moment, the largest list duty of the
boat file is added, or one person at the rail where it gives no duty. A moment is positive when it
presses starboard down. Exit code 1 when the planes level the list at none of the speeds.";

/// Show what lists the boat, how to set her planes to level her, and what a plane that fails does
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct LevelArguments {
    #[command(flatten)]
    pub(super) boat: BoatArguments,
    /// A speed with its unit, for example "22 kn"; may be repeated
    #[arg(long, value_name = "SPEED", value_parser = arguments::speed)]
    speed: Vec<Velocity>,
    /// Somebody or something off the centreline, "90 kg at 0.8 m" or "90 kg at 0.8 m to port"; may be repeated
    #[arg(long, value_name = "WHAT", value_parser = asked::off_centre)]
    off_centre: Vec<ListCause>,
    /// A heeling moment, for example "700 N m"; negative presses port down; may be repeated
    #[arg(long, value_name = "MOMENT", value_parser = asked::moment, allow_hyphen_values = true)]
    moment: Vec<ListCause>,
    /// Leave out the list duties of the boat file
    #[arg(long)]
    without_duties: bool,
    /// Mean deflection to keep while levelling, as far as that goes [default: the least]
    #[arg(long, value_name = "ANGLE", value_parser = arguments::deflection)]
    mean: Option<Angle>,
    /// Size of both planes in place of the boat's own, span by chord of one: "610 mm x 254 mm"
    #[arg(long, value_name = "SIZE", value_parser = PlanePair::read)]
    planes: Option<PlanePair>,
    /// Size of the port plane where it differs
    #[arg(long, value_name = "SIZE", value_parser = PlanePair::read)]
    port_plane: Option<PlanePair>,
    /// Size of the starboard plane where it differs
    #[arg(long, value_name = "SIZE", value_parser = PlanePair::read)]
    starboard_plane: Option<PlanePair>,
    /// Also show what the planes do with port at this deflection
    #[arg(long, value_name = "ANGLE", value_parser = arguments::deflection, requires = "starboard")]
    port: Option<Angle>,
    /// The deflection of starboard then
    #[arg(long, value_name = "ANGLE", value_parser = arguments::deflection, requires = "port")]
    starboard: Option<Angle>,
    /// A plane that does not move: "port up", "port down", "starboard at 8 deg" [default: the worse one down]
    #[arg(long, value_name = "WHAT", value_parser = asked::stuck)]
    stuck: Option<StuckChoice>,
    /// Print all tables with the reasons, not the short answer; --port and --stuck do so by themselves
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
struct LevelOutput {
    file: BoatFile,
    units: UnitChoice,
    levelled: Levelled,
    charts: Vec<ChartFiles>,
}

pub(super) fn execute(arguments: &LevelArguments) -> Result<Ending, Failure> {
    arguments::few("speed", &arguments.speed)?;
    arguments::few("off-centre", &arguments.off_centre)?;
    arguments::few("moment", &arguments.moment)?;
    let files = arguments.boat.read()?;
    let several = files.len() > 1;
    let mut charts = arguments.charts.begin(arguments.boat.inputs(&files[0]), several);
    let all = files.into_iter().map(|file| LevelOutput::of(arguments, file, &mut charts));
    let all = all.collect::<Result<Vec<_>, _>>()?;
    charts.write()?;
    let screen = Screen::of_stdout();
    let first = First::of(all.iter().map(LevelOutput::boat), &Settings::default(), all[0].units);
    if arguments.data.wanted() {
        let one = &all[0];
        let about = About {
            flags: all.iter().flat_map(|one| tell::flags(&one.told()).iter()).collect(),
            files: chart_paths(all.iter().flat_map(|one| &one.charts)),
            ..first.about(&one.file, PairUsed::fitted(one.boat()))
        };
        arguments.data.print(
            &about.around_flagged(json::Written(&all)),
            MAIN_TABLE,
            arguments.units.asked(),
            &first.warnings(),
        )?;
    } else if arguments.wants_all() {
        let pages: Vec<_> = all.iter().map(|one| one.page(screen)).collect();
        let text = told::pages(&pages, &tell::caution(&all[0].told()), screen);
        screen.print(&first.above(&text, screen))?;
    } else {
        let forms = all.iter().map(|one| (&one.file, tell::short_form(&one.told()))).collect();
        let charts = all.iter().flat_map(|one| &one.charts);
        screen.print(&first.above_short(&told::short(forms, charts, screen), screen))?;
    }
    let cannot = all.iter().any(|one| one.levelled.cannot());
    Ok(if cannot { Ending::CannotBeDone } else { Ending::Done })
}

impl LevelOutput {
    /// The boat in her condition, with her charts among the others.
    fn of(
        arguments: &LevelArguments,
        mut file: BoatFile,
        charts: &mut Charts<'_>,
    ) -> Result<Self, Failure> {
        let units = arguments.units.choice();
        if let Some(pair) = arguments.planes {
            file.boat = file.boat.with_planes(Some(pair))?;
        }
        let asked = arguments.asked(&file.boat, units)?;
        let study = asked.study(&file.boat, &Settings::default())?;
        let options =
            [("--port", arguments.port.is_some()), ("--stuck", arguments.stuck.is_some())];
        if study.planes().is_none()
            && let Some((option, _)) = options.iter().find(|(_, given)| *given)
        {
            return Err(no_planes(option).into());
        }
        let levelled = Levelled::of(&study, &asked)?;
        let subject = Subject::fitted(&file.boat, units);
        let charts = match charts.wanted() {
            true => charts.add(&file.boat, &level_charts(subject, &study)?)?,
            false => Vec::new(),
        };
        Ok(Self { file, units, levelled, charts })
    }

    fn boat(&self) -> &Boat {
        &self.file.boat
    }

    fn told(&self) -> tell::LevelText<'_> {
        tell::LevelText { boat: self.boat(), levelled: &self.levelled, units: self.units }
    }

    /// The answer as text for a person.
    fn page(&self, screen: Screen) -> String {
        let mut head = told::head(&self.boat().full_name(), &self.file, screen);
        if let Some(about) = &self.boat().condition().about {
            head.push_str(&screen.paragraph("", about));
        }
        told::page(&head, &tell::all(&self.told()), &self.file, &self.charts, screen)
    }
}

fn no_planes(option: &str) -> Fault {
    Fault {
        key: option.to_owned(),
        problem: "the boat has no planes".to_owned(),
        remedy: "add [planes] with span and chord to the boat file, or give --planes".to_owned(),
    }
}

impl LevelArguments {
    /// Whether everything is to be told: asked for, or what is asked for has a table of its own.
    fn wants_all(&self) -> bool {
        self.full || self.port.is_some() || self.stuck.is_some()
    }

    fn asked(&self, boat: &Boat, units: UnitChoice) -> Result<ListRequest, Failure> {
        let mut asked = ListRequest::usual(boat, units.speed);
        let causes = self.causes(boat)?;
        if !causes.is_empty() || self.without_duties {
            asked = asked.with_causes(boat, causes);
        }
        if let Some(&first) = self.speed.first() {
            asked.reference = first;
            asked.speeds.clone_from(&self.speed);
        }
        asked.mean = self.mean.unwrap_or_default();
        asked.planes = self.unlike(boat)?;
        asked.setting = self.port.zip(self.starboard).map(<[Angle; 2]>::from);
        asked.stuck = self.stuck.map(|stuck| (stuck.side, stuck.deflection));
        Ok(asked)
    }

    /// What is asked for that heels her.
    fn causes(&self, boat: &Boat) -> Result<Vec<ListCause>, Fault> {
        let asked: Vec<ListCause> = self.off_centre.iter().chain(&self.moment).copied().collect();
        for cause in &asked {
            if let ListCause::OffCentre { distance, .. } = cause
                && distance.get::<meter>().abs() > boat.hull().chine_beam.get::<meter>()
            {
                return Err(Fault {
                    key: "--off-centre".to_owned(),
                    problem: format!(
                        "{} off the centreline is outside the boat",
                        Measure::Length(*distance)
                    ),
                    remedy: "give the distance from the centreline, within the boat".to_owned(),
                });
            }
        }
        Ok(asked)
    }

    /// Planes that are not alike, where asked for.
    fn unlike(&self, boat: &Boat) -> Result<Option<[PlanePair; 2]>, Failure> {
        if self.port_plane.is_none() && self.starboard_plane.is_none() {
            return Ok(None);
        }
        let own = |given: Option<PlanePair>, option: &str| {
            given.or(boat.planes()).ok_or_else(|| no_planes(option))
        };
        let planes = [
            own(self.port_plane, "--starboard-plane")?,
            own(self.starboard_plane, "--port-plane")?,
        ];
        for pair in planes {
            boat.with_planes(Some(pair))?;
        }
        Ok(Some(planes))
    }
}
