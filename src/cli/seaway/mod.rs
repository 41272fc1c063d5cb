//! `planewright seaway`: how hard the boat rides in a head sea, with planes up and down.

mod json;

use clap::{Args, ValueEnum};
use uom::si::f64::{Acceleration, Angle, Length, Velocity};

use super::arguments::{self, BoatArguments, UnitArguments};
use super::charts::{ChartArguments, Charts};
use super::data::DataArguments;
use super::first::First;
use super::screen::Screen;
use super::told;
use super::{Ending, Failure};
use crate::answer::About;
use crate::balance::Settings;
use crate::balance::sweep::few_speeds;
use crate::behaviour::seaway::{Limit, Peaks, Place, SeawayRequest, Seen};
use crate::boat::Boat;
use crate::chart::ChartFiles;
use crate::chart::seaway::seaway_charts;
use crate::cli::records::chart_paths;
use crate::input::BoatFile;
use crate::size::PairUsed;
use crate::tell::seaway as tell;
use crate::units::UnitChoice;

/// The table that `--csv` prints.
const MAIN_TABLE: &str = "conditions.waves.rides";

const EXAMPLES: &str = "\
Examples:
  planewright seaway boat.toml
  planewright seaway boat.toml --waves \"0.4 m\" --waves \"0.8 m\" --speed \"22 kn\"
  planewright seaway boat.toml --waves \"2 ft\" --limit \"0.5 g\" --units imperial
  planewright seaway boat.toml --limit \"1 g\" --of tenth --at bow --charts charts
  planewright seaway boat.toml --down-to \"2 deg\" --condition all --json
  planewright seaway boat.toml --csv > seaway.csv

Without planes in the boat file the pair that `planewright size` suggests for all loading conditions
is used. With planes down they are lowered until she runs at 3 deg of trim, the least that was tested
in waves, and never beyond what is safe. Without --waves: 0.2 of her beam, the least that was tested, 0.3 and 0.4 of it.";

/// Most rows of a table when no speeds are asked for.
const MOST_ROWS: usize = 10;

/// Show how hard the boat rides in a head sea, what it adds to her resistance, and the speed that keeps a limit
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct SeawayArguments {
    #[command(flatten)]
    pub(super) boat: BoatArguments,
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

/// Everything that an output of this command may show for one loading condition.
struct SeawayOutput {
    file: BoatFile,
    pair: PairUsed,
    units: UnitChoice,
    seen: Seen,
    charts: Vec<ChartFiles>,
}

pub(super) fn execute(arguments: &SeawayArguments) -> Result<Ending, Failure> {
    arguments::few("speed", &arguments.speed)?;
    arguments::few("waves", &arguments.waves)?;
    let files = arguments.boat.read()?;
    let several = files.len() > 1;
    let pair = crate::doubt::pair_used(&files[0].boat, &Settings::default())?;
    let mut charts = arguments.charts.begin(arguments.boat.inputs(&files[0]), several);
    let all = files.into_iter().map(|file| SeawayOutput::of(file, pair, arguments, &mut charts));
    let all = all.collect::<Result<Vec<_>, _>>()?;
    charts.write()?;
    let screen = Screen::of_stdout();
    let boats = all.iter().map(|one| &one.file.boat);
    let first = First::of(boats, &Settings::default(), all[0].units);
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
        let text = told::pages(&pages, &tell::caution(), screen);
        screen.print(&first.above(&text, screen))?;
    } else {
        let forms = all.iter().map(|one| (&one.file, tell::short_form(&one.told()))).collect();
        let charts = all.iter().flat_map(|one| &one.charts);
        screen.print(&first.above_short(&told::short(forms, charts, screen), screen))?;
    }
    Ok(Ending::Done)
}

impl SeawayOutput {
    /// The boat in her condition, with her charts among the others.
    fn of(
        file: BoatFile,
        pair: PairUsed,
        arguments: &SeawayArguments,
        charts: &mut Charts<'_>,
    ) -> Result<Self, Failure> {
        let units = arguments.units.choice();
        let boat = file.boat.with_planes(pair.pair)?;
        let seen = Seen::of(boat.clone(), &Settings::default(), &arguments.asked(&boat, units))?;
        let mut answered = Self { file, pair, units, seen, charts: Vec::new() };
        if charts.wanted() {
            answered.charts = answered.draw(charts)?;
        }
        Ok(answered)
    }

    fn told(&self) -> tell::SeawayText<'_> {
        tell::SeawayText { seen: &self.seen, pair: self.pair, units: self.units }
    }

    /// The answer as text for a person.
    fn page(&self, screen: Screen) -> String {
        let head = told::head(&self.seen.boat.full_name(), &self.file, screen);
        told::page(&head, &tell::all(&self.told()), &self.file, &self.charts, screen)
    }

    fn draw(&self, files: &mut Charts<'_>) -> Result<Vec<ChartFiles>, Failure> {
        let seen = &self.seen;
        let speed = seen.usual_stance().map_or(seen.boat.drive().top_speed, |row| row.up.speed);
        let charts =
            seaway_charts(&seen.sea(), speed, seen.usual_wave_height(), self.pair, self.units)?;
        files.add(&seen.boat, &charts)
    }
}

impl SeawayArguments {
    fn asked(&self, boat: &Boat, units: UnitChoice) -> SeawayRequest {
        let speeds = match self.speed.as_slice() {
            [] => few_speeds(boat, units.speed, MOST_ROWS),
            given => given.to_vec(),
        };
        SeawayRequest {
            waves: self.waves.clone(),
            speeds,
            down_to: self.down_to,
            limit: self.limit(),
        }
    }

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
