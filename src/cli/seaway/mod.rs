//! `planewright seaway`: how hard the boat rides in a head sea, with planes up and down.

mod json;
mod text;

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};
use uom::si::f64::{Acceleration, Angle, Length, Velocity};
use uom::si::velocity::meter_per_second;

use super::arguments::{self, BoatArguments, UnitArguments};
use super::screen::Screen;
use super::{Ending, Failure};
use crate::balance::Settings;
use crate::balance::sweep::speeds;
use crate::behaviour::seaway::{
    Fastest, Limit, Peaks, Place, Seaway, Stance, fastest, usual_wave_heights,
};
use crate::boat::{Boat, PlanePair};
use crate::chart::ChartFiles;
use crate::chart::seaway::seaway_charts;
use crate::input::BoatFile;
use crate::size::suggest_for;
use crate::units::{SpeedUnit, UnitChoice};

const EXAMPLES: &str = "\
Examples:
  planewright seaway boat.toml
  planewright seaway boat.toml --waves \"0.4 m\" --waves \"0.8 m\" --speed \"22 kn\"
  planewright seaway boat.toml --waves \"2 ft\" --limit \"0.5 g\" --units imperial
  planewright seaway boat.toml --limit \"1 g\" --of tenth --at bow --charts charts
  planewright seaway boat.toml --down-to \"2 deg\" --condition all --json

Without planes in the boat file the pair that `planewright size` names is used. With planes down
they are lowered until she runs at 3 deg of trim, the least that was tested in waves, and never beyond
what is safe. Without --waves: 0.2 of her beam, the least that was tested, 0.3 and 0.4 of it.";

/// Most rows of a table when no speeds are asked for.
const MOST_ROWS: usize = 10;

/// Show how hard the boat rides in a head sea, with planes up and down, and the speed that keeps a limit
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct SeawayArguments {
    #[command(flatten)]
    boat: BoatArguments,
    /// Significant wave height, crest to trough, with its unit; may be repeated
    #[arg(long, value_name = "HEIGHT", value_parser = arguments::waves)]
    waves: Vec<Length>,
    /// A speed with its unit, for example "22 kn"; may be repeated
    #[arg(long, value_name = "SPEED", value_parser = arguments::speed)]
    speed: Vec<Velocity>,
    /// Trim to which the planes bring her down, 2 to 7 deg
    #[arg(long, value_name = "ANGLE", default_value = "3 deg", value_parser = arguments::down_to)]
    down_to: Angle,
    /// Acceleration not to be exceeded, for example "1 g": also tells the speed that keeps it
    #[arg(long, value_name = "ACCELERATION", value_parser = arguments::limit)]
    limit: Option<Acceleration>,
    /// Which peaks the limit is for: the mean of all, of the highest third or tenth
    #[arg(long, value_enum, default_value_t = PeaksChoice::All, requires = "limit")]
    of: PeaksChoice,
    /// Where the limit is for
    #[arg(long, value_enum, default_value_t = PlaceChoice::Centre, requires = "limit")]
    at: PlaceChoice,
    /// Print one JSON object in SI units, accelerations in g (9.80665 m/s^2), angles in degrees
    #[arg(long)]
    json: bool,
    /// Also draw charts into this folder, each as SVG and PNG
    #[arg(long, value_name = "DIR")]
    charts: Option<PathBuf>,
    #[command(flatten)]
    units: UnitArguments,
}

/// Word for [`Peaks`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum PeaksChoice {
    /// Mean of all peaks
    All,
    /// Mean of the highest third
    Third,
    /// Mean of the highest tenth
    Tenth,
}

/// Word for [`Place`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum PlaceChoice {
    /// At the centre of gravity
    Centre,
    /// At the bow
    Bow,
}

/// Where the planes come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Origin {
    /// Fitted, by the boat file.
    BoatFile,
    /// Suggested for her duties.
    Suggested,
    /// She has none and no pair can be suggested.
    None,
}

/// Everything that an output of this command may show.
struct Seen {
    file: BoatFile,
    /// The boat with the pair used.
    boat: Boat,
    origin: Origin,
    units: UnitChoice,
    down_to: Angle,
    waves: Vec<Length>,
    stances: Vec<Stance>,
    limit: Option<Limit>,
    /// For each wave height, when there is a limit.
    fastest: Vec<Fastest>,
    charts: Vec<ChartFiles>,
}

pub(super) fn execute(arguments: &SeawayArguments) -> Result<Ending, Failure> {
    let files = arguments.boat.read()?;
    let several = files.len() > 1;
    let planes = Planes::of(&files[0].boat)?;
    let all = files.into_iter().map(|file| Seen::of(file, planes, arguments, several));
    let all = all.collect::<Result<Vec<_>, _>>()?;
    let screen = Screen::of_stdout();
    if arguments.json {
        screen.print_json(&json::answer(&all))?;
    } else {
        screen.print(&text::report(&all, screen))?;
    }
    Ok(Ending::Done)
}

impl Seen {
    /// The boat in her condition; `several` when it is one of several, so that its charts need names of their own.
    fn of(
        file: BoatFile,
        planes: Planes,
        arguments: &SeawayArguments,
        several: bool,
    ) -> Result<Self, Failure> {
        let units = arguments.units.choice();
        let settings = Settings::default();
        let boat = file.boat.with_planes(planes.pair).map_err(Failure::first_fault)?;
        let waves = match arguments.waves.as_slice() {
            [] => usual_wave_heights(&boat).to_vec(),
            given => given.to_vec(),
        };
        let asked = match arguments.speed.as_slice() {
            [] => usual_speeds(&boat, units.speed),
            given => given.to_vec(),
        };
        let sea = Seaway::of(&boat, &settings, arguments.down_to);
        let stances = asked.iter().map(|&speed| sea.stance(speed)).collect::<Result<_, _>>()?;
        let limit = arguments.limit();
        let fastest = match &limit {
            Some(limit) => {
                waves.iter().map(|&h| fastest(&sea, h, limit)).collect::<Result<_, _>>()?
            }
            None => Vec::new(),
        };
        let mut seen = Self {
            file,
            origin: planes.origin,
            units,
            down_to: arguments.down_to,
            waves,
            stances,
            limit,
            fastest,
            charts: Vec::new(),
            boat: boat.clone(),
        };
        if let Some(folder) = &arguments.charts {
            seen.charts = seen.draw(&sea, folder, several)?;
        }
        Ok(seen)
    }

    fn sea(&self) -> Seaway<'_> {
        Seaway::of(&self.boat, &Settings::default(), self.down_to)
    }

    /// The row that stands for all in a sentence: the middle one of those at which she runs.
    fn usual_row(&self) -> Option<&Stance> {
        let running: Vec<_> = self.stances.iter().filter(|s| s.up.running.is_some()).collect();
        running.get(running.len() / 2).copied()
    }

    /// The wave height that stands for all.
    fn usual_wave_height(&self) -> Length {
        self.waves[self.waves.len() / 2]
    }

    fn draw(
        &self,
        sea: &Seaway<'_>,
        folder: &Path,
        several: bool,
    ) -> Result<Vec<ChartFiles>, Failure> {
        super::make_folder(folder)?;
        let condition = &self.boat.condition().name;
        let suffix = if several { super::file_suffix(condition) } else { String::new() };
        let speed = self.usual_row().map_or(self.boat.drive().top_speed, |row| row.up.speed);
        let charts = seaway_charts(sea, speed, self.usual_wave_height(), self.units)?;
        charts
            .iter()
            .map(|named| Ok(named.chart.write(folder, &format!("{}{suffix}", named.stem))?))
            .collect()
    }
}

impl SeawayArguments {
    fn limit(&self) -> Option<Limit> {
        self.limit.map(|most| Limit {
            most,
            peaks: match self.of {
                PeaksChoice::All => Peaks::All,
                PeaksChoice::Third => Peaks::Third,
                PeaksChoice::Tenth => Peaks::Tenth,
            },
            place: match self.at {
                PlaceChoice::Centre => Place::Centre,
                PlaceChoice::Bow => Place::Bow,
            },
        })
    }
}

/// The pair used, the same in all conditions.
#[derive(Clone, Copy)]
struct Planes {
    pair: Option<PlanePair>,
    origin: Origin,
}

impl Planes {
    /// The planes that the boat has, else those named for her duties in all her conditions.
    fn of(boat: &Boat) -> Result<Self, Failure> {
        if let pair @ Some(_) = boat.planes() {
            return Ok(Self { pair, origin: Origin::BoatFile });
        }
        let pair = suggest_for(&boat.in_all_conditions()?, &Settings::default())?.pair();
        let origin = if pair.is_some() { Origin::Suggested } else { Origin::None };
        Ok(Self { pair, origin })
    }
}

/// Whole steps of the unit over the planing range, few enough for a table.
fn usual_speeds(boat: &Boat, unit: SpeedUnit) -> Vec<Velocity> {
    let one =
        Velocity::new::<meter_per_second>(1.0 / unit.value(Velocity::new::<meter_per_second>(1.0)));
    let mut step = 1.0;
    loop {
        let all = speeds(boat, one * step);
        if all.len() <= MOST_ROWS {
            return all;
        }
        step *= 2.0;
    }
}
