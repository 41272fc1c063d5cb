//! `planewright doubt`: how sure the answers are.

mod calibration;
mod json;
pub(super) mod progress;
mod text;

use clap::Args;
use uom::si::angle::degree;
use uom::si::f64::Angle;

use super::arguments::{self, BoatArguments, UnitArguments};
use super::charts::{ChartArguments, Charts};
use super::data::DataArguments;
use super::first::First;
use super::screen::Screen;
use super::told;
use super::{Ending, Failure};
use crate::answer::About;
use crate::balance::Settings;
use crate::boat::Boat;
use crate::chart::doubt::{duty_chart, influence_charts, likely_charts};
use crate::chart::{ChartFiles, Subject};
use crate::cli::records::chart_paths;
use crate::doubt::{DRAWS, Drawn, RUN_DRAWS, Request, RunningDoubt, SEED, running, usual_duties};
use crate::flag::Flags;
use crate::input::BoatFile;
use crate::size::PairUsed;
use crate::tell;
use crate::units::UnitChoice;
use progress::Bar;

/// The table that `--csv` prints.
const MAIN_TABLE: &str = "conditions.speeds";

const EXAMPLES: &str = "\
Examples:
  planewright doubt boat.toml
  planewright doubt boat.toml --draws 100000 --seed 7 --charts charts
  planewright doubt boat.toml --deflection \"5 deg\" --condition all --json
  planewright doubt boat.toml --csv --table conditions.inputs
  planewright doubt --calibration

How well each value is known is stated in the boat file with [[tolerance]]; what is not stated
counts as taken from a brochure, and what is estimated spreads over its likely range. The same seed
gives the same answer to the last digit, on any machine with any number of processors.";

/// Draw many boats nearly like this one and show how sure trim and resistance are, and what to measure
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct DoubtArguments {
    #[command(flatten)]
    pub(super) boat: Option<BoatArguments>,
    /// Boats drawn
    #[arg(long, value_name = "NUMBER", default_value_t = RUN_DRAWS,
          value_parser = clap::value_parser!(u32).range(100..=i64::from(crate::schema::most::DRAWS)))]
    draws: u32,
    /// Seed of the random numbers
    #[arg(long, value_name = "NUMBER", default_value_t = SEED)]
    seed: u64,
    /// Mean deflection of the planes fitted, for example "5 deg" [default: planes up]
    #[arg(long, value_name = "ANGLE", value_parser = arguments::deflection)]
    deflection: Option<Angle>,
    /// Show how far the equations have stood from published tests, instead of a boat
    #[arg(long, conflicts_with_all = ["boat", "charts"])]
    calibration: bool,
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
struct Doubted {
    file: BoatFile,
    units: UnitChoice,
    running: RunningDoubt,
    charts: Vec<ChartFiles>,
}

impl Doubted {
    fn boat(&self) -> &Boat {
        &self.file.boat
    }

    /// The same for whoever tells it.
    fn told(&self) -> tell::doubt::Doubted<'_> {
        tell::doubt::Doubted { boat: self.boat(), running: &self.running, units: self.units }
    }
}

pub(super) fn execute(arguments: &DoubtArguments) -> Result<Ending, Failure> {
    let screen = Screen::of_stdout();
    let Some(boat) = arguments.boat.as_ref().filter(|_| !arguments.calibration) else {
        return calibration::print(&arguments.data, screen);
    };
    let files = boat.read()?;
    let judged = arguments.draws.min(DRAWS);
    let boats: Vec<Boat> = files.iter().map(|file| file.boat.clone()).collect();
    let mut charts = arguments.charts.begin(boat.inputs(&files[0]), files.len() > 1);
    let bar = Bar::of(u64::from(arguments.draws) * files.len() as u64 + u64::from(judged));
    let mut doubted = files
        .into_iter()
        .map(|file| arguments.doubted(file, &mut charts, &bar))
        .collect::<Result<Vec<_>, Failure>>()?;
    let drawn = Drawn { draws: judged, seed: arguments.seed };
    let duties = usual_duties(&boats, &Settings::default(), drawn, &|done| bar.advance(done))?;
    bar.finish();
    if charts.wanted() {
        let of_duties = duty_chart(Subject::fitted(&boats[0], arguments.units.choice()), &duties);
        doubted[0].charts.extend(charts.add_of_all(of_duties.as_slice())?);
    }
    charts.write()?;
    let first = First::of(&boats, &Settings::default(), arguments.units.choice());
    if arguments.data.wanted() {
        let file = &doubted[0].file;
        let about = About {
            flags: duties.seen.iter().fold(Flags::NONE, |all, seen| all.union(seen.flags)),
            files: chart_paths(doubted.iter().flat_map(|doubted| &doubted.charts)),
            ..first.about(file, PairUsed::fitted(&file.boat))
        };
        arguments.data.print(
            &about.around_flagged(json::Written::of(&doubted, &duties)),
            MAIN_TABLE,
            arguments.units.asked(),
            &first.warnings(),
        )?;
    } else if arguments.full {
        screen.print(&first.above(&text::report(&doubted, &duties, screen), screen))?;
    } else {
        let forms = text::short(&doubted, &duties);
        let charts = doubted.iter().flat_map(|doubted| &doubted.charts);
        screen.print(&first.above_short(&told::short(forms, charts, screen), screen))?;
    }
    Ok(Ending::Done)
}

impl DoubtArguments {
    fn doubted(
        &self,
        file: BoatFile,
        charts: &mut Charts<'_>,
        bar: &Bar,
    ) -> Result<Doubted, Failure> {
        let request = Request {
            draws: self.draws,
            seed: self.seed,
            deflection: self.deflection.unwrap_or_else(|| Angle::new::<degree>(0.0)),
        };
        let settings = Settings::default();
        let running = running(&file.boat, &settings, &request, &|done| bar.advance(done))?;
        let units = self.units.choice();
        let mut doubted = Doubted { file, units, running, charts: Vec::new() };
        if charts.wanted() {
            doubted.charts = draw(&doubted, charts)?;
        }
        Ok(doubted)
    }
}

fn draw(doubted: &Doubted, files: &mut Charts<'_>) -> Result<Vec<ChartFiles>, Failure> {
    let subject = Subject::fitted(doubted.boat(), doubted.units);
    let mut charts = files.add(subject.boat, &likely_charts(subject, &doubted.running))?;
    charts.extend(files.add_bars(subject.boat, &influence_charts(subject, &doubted.running))?);
    Ok(charts)
}
