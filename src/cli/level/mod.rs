//! `planewright level`: what lists the boat, and how her planes level her.

mod asked;
mod json;
mod tables;
mod text;

use std::path::PathBuf;

use clap::Args;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};
use uom::si::length::meter;
use uom::si::velocity::meter_per_second;

use super::arguments::{self, BoatArguments, UnitArguments};
use super::screen::Screen;
use super::{Ending, Failure};
use crate::balance::Settings;
use crate::balance::sweep::speeds;
use crate::behaviour::list::{ListPoint, ListStudy, SettingPoint, Stuck, StuckPoint, Verdict};
use crate::boat::{Boat, Duty, Fault, ListCause, Measure, PlanePair, Side};
use crate::chart::ChartFiles;
use crate::chart::level::level_charts;
use crate::input::BoatFile;
use crate::size::list_moment_n_m;
use crate::units::{SpeedUnit, UnitChoice};
use asked::StuckChoice;

const EXAMPLES: &str = "\
Examples:
  planewright level boat.toml
  planewright level boat.toml --off-centre \"90 kg at 0.8 m\" --speed \"22 kn\"
  planewright level boat.toml --moment \"-500 N m\" --mean \"4 deg\" --charts charts
  planewright level boat.toml --port \"8 deg\" --starboard \"2 deg\"
  planewright level boat.toml --stuck \"port down\"
  planewright level boat.toml --condition all

What heels her: weight off the centreline in the load table, [wind] and the propellers' rotation in the
boat file, and what is asked for here. Without --off-centre and --moment, the largest list duty of the
boat file is added. A moment is positive when it presses starboard down. Exit code 1 when the planes
level the list at none of the speeds.";

/// Most rows of a table when no speeds are asked for.
const MOST_ROWS: usize = 14;
/// Share of the top speed at which things are told in short when nothing names a speed.
const CRUISE_SHARE: f64 = 0.75;

/// Show what lists the boat, how to set her planes to level her, and what a plane that fails does
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct LevelArguments {
    #[command(flatten)]
    boat: BoatArguments,
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
    #[arg(long, value_name = "SIZE", value_parser = asked::size)]
    planes: Option<PlanePair>,
    /// Size of the port plane where it differs
    #[arg(long, value_name = "SIZE", value_parser = asked::size)]
    port_plane: Option<PlanePair>,
    /// Size of the starboard plane where it differs
    #[arg(long, value_name = "SIZE", value_parser = asked::size)]
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
struct Levelled {
    file: BoatFile,
    units: UnitChoice,
    /// Whether a list duty of the boat file is among what heels her.
    from_duty: bool,
    planes: Option<[PlanePair; 2]>,
    /// Where things are told in short.
    reference: ListPoint,
    points: Vec<ListPoint>,
    /// Slowest and fastest speeds at which the planes level her: where least is needed, and where most is.
    levelled: [Option<[Velocity; 2]>; 2],
    /// The setting asked for, at each speed.
    set: Vec<SettingPoint>,
    stuck: Option<StuckAnswer>,
    charts: Vec<ChartFiles>,
}

/// One plane out of action.
struct StuckAnswer {
    stuck: Stuck,
    points: Vec<StuckPoint>,
    /// Slowest and fastest speeds at which the other can stand beside it with a safe run.
    matched: Option<[Velocity; 2]>,
    /// The same at which the other levels all that heels her.
    balanced: Option<[Velocity; 2]>,
}

pub(super) fn execute(arguments: &LevelArguments) -> Result<Ending, Failure> {
    let files = arguments.boat.read()?;
    let several = files.len() > 1;
    let all = files.into_iter().map(|file| Levelled::of(arguments, file, several));
    let all = all.collect::<Result<Vec<_>, _>>()?;
    let screen = Screen::of_stdout();
    if arguments.json {
        screen.print_json(&json::object(&all))?;
    } else {
        screen.print(&text::report(&all, screen))?;
    }
    let cannot = all.iter().any(Levelled::cannot);
    Ok(if cannot { Ending::CannotBeDone } else { Ending::Done })
}

impl Levelled {
    /// The boat in her condition; `several` when it is one of several, so that its charts need names of their own.
    fn of(arguments: &LevelArguments, mut file: BoatFile, several: bool) -> Result<Self, Failure> {
        let units = arguments.units.choice();
        if let Some(pair) = arguments.planes {
            file.boat = file.boat.with_planes(Some(pair)).map_err(Failure::first_fault)?;
        }
        let (asked, duty_speed) = arguments.causes(&file.boat)?;
        let settings = Settings::default();
        let mut study = ListStudy::new(&file.boat, &settings, &asked)?
            .with_mean(arguments.mean.unwrap_or_default());
        if let Some(planes) = arguments.unlike(&file.boat)? {
            study = study.with_planes(planes);
        }
        let speeds = match arguments.speed.as_slice() {
            [] => table_speeds(&file.boat, units.speed),
            given => given.to_vec(),
        };
        let cruise = file.boat.drive().top_speed * CRUISE_SHARE;
        let told = arguments.speed.first().copied().or(duty_speed).unwrap_or(cruise);
        let reference = study.at(told)?;
        let points =
            speeds.iter().map(|&speed| study.at(speed)).collect::<Result<Vec<_>, Fault>>()?;
        let set = match arguments.port.zip(arguments.starboard) {
            Some((port, starboard)) => each(&speeds, |v| study.with_setting(v, [port, starboard]))?,
            None => Vec::new(),
        };
        if arguments.port.is_some() && study.planes().is_none() {
            return Err(no_planes("--port").into());
        }
        let stuck = stuck_answer(arguments, &study, &file.boat, &speeds, &reference)?;
        let mut charts = Vec::new();
        if let Some(folder) = &arguments.charts {
            super::make_folder(folder)?;
            let condition = &file.boat.condition().name;
            let suffix = if several { super::file_suffix(condition) } else { String::new() };
            for named in level_charts(&file.boat, &study, units)? {
                let stem = format!("{}{suffix}", named.stem);
                charts.push(named.chart.write(folder, &stem)?);
            }
        }
        let levelled = study.levelled_speeds()?;
        let planes = study.planes();
        let from_duty = duty_speed.is_some();
        Ok(Self { file, units, from_duty, planes, reference, points, levelled, set, stuck, charts })
    }

    fn boat(&self) -> &Boat {
        &self.file.boat
    }

    /// Whether there is a list that the planes level at none of the speeds.
    fn cannot(&self) -> bool {
        let verdicts =
            || self.points.iter().filter_map(|point| Some(point.levelling.as_ref()?.verdict));
        verdicts().next().is_some() && verdicts().all(|verdict| verdict == Verdict::TooLittle)
    }
}

/// One answer for each speed that has one.
fn each<T>(
    speeds: &[Velocity],
    answer: impl Fn(Velocity) -> Result<Option<T>, Fault>,
) -> Result<Vec<T>, Fault> {
    let all = speeds.iter().map(|&speed| answer(speed)).collect::<Result<Vec<_>, Fault>>()?;
    Ok(all.into_iter().flatten().collect())
}

/// The plane asked for, or the one whose sticking down adds to the list.
fn stuck_answer(
    arguments: &LevelArguments,
    study: &ListStudy<'_>,
    boat: &Boat,
    speeds: &[Velocity],
    reference: &ListPoint,
) -> Result<Option<StuckAnswer>, Fault> {
    if study.planes().is_none() {
        return if arguments.stuck.is_some() { Err(no_planes("--stuck")) } else { Ok(None) };
    }
    let worse = if reference.moment[0].value < 0.0 { Side::Starboard } else { Side::Port };
    let choice = arguments.stuck.unwrap_or(StuckChoice { side: worse, deflection: None });
    let deflection = choice.deflection.unwrap_or(boat.sizing().largest_deflection);
    let stuck = Stuck { side: choice.side, deflection };
    let points = each(speeds, |speed| study.with_stuck(speed, stuck))?;
    let matched = study.matched_speeds(stuck)?;
    Ok(Some(StuckAnswer { stuck, points, matched, balanced: study.balanced_speeds(stuck)? }))
}

fn no_planes(option: &str) -> Fault {
    Fault {
        key: option.to_owned(),
        problem: "the boat has no planes".to_owned(),
        remedy: "add [planes] with span and chord to the boat file, or give --planes".to_owned(),
    }
}

impl LevelArguments {
    /// What heels her beyond the load table, wind and propellers, and the speed of the duty it was taken from.
    fn causes(&self, boat: &Boat) -> Result<(Vec<ListCause>, Option<Velocity>), Fault> {
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
        if !asked.is_empty() || self.without_duties {
            return Ok((asked, None));
        }
        let lists = boat.duties().iter().filter_map(|duty| match *duty {
            Duty::List { cause, speed } => Some((cause, speed)),
            _ => None,
        });
        let size = |cause: ListCause| list_moment_n_m(cause).abs();
        let largest = lists.max_by(|a, b| size(a.0).total_cmp(&size(b.0)));
        Ok(largest.map_or((Vec::new(), None), |(cause, speed)| (vec![cause], Some(speed))))
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
            boat.with_planes(Some(pair)).map_err(Failure::first_fault)?;
        }
        Ok(Some(planes))
    }
}

/// Speeds from the start of planing to top speed, in steps that make no long table.
fn table_speeds(boat: &Boat, unit: SpeedUnit) -> Vec<Velocity> {
    let one = 1.0 / unit.value(Velocity::new::<meter_per_second>(1.0));
    let mut step = one;
    loop {
        let all = speeds(boat, Velocity::new::<meter_per_second>(step));
        if all.len() <= MOST_ROWS {
            return all;
        }
        step *= 2.0;
    }
}

/// The angle in degrees, without the sign of a nought.
fn whole_deg(angle: Angle) -> f64 {
    angle.get::<degree>() + 0.0
}
