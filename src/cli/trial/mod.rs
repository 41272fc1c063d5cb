//! `planewright trial`: what a sea trial tells about the boat.

mod guide;
mod json;
mod text;

use std::path::{Path, PathBuf};

use clap::Args;
use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

use super::arguments::{UnitArguments, inputs};
use super::charts::{ChartArguments, Charts};
use super::data::DataArguments;
use super::first::First;
use super::screen::Screen;
use super::{Ending, Failure};
use crate::answer::About;
use crate::balance::Settings;
use crate::boat::{Boat, Fault};
use crate::chart::ChartFiles;
use crate::cli::records::chart_paths;
use crate::input::{BoatFile, read_boat};
use crate::size::PairUsed;
use crate::trial::charts::trial_charts;
use crate::trial::{
    Calibrated, Learned, Log, Options, Pairing, Refusal, calibrated, learn, measurements, read_log,
    usual_path,
};
use crate::units::{UnitChoice, parse_fraction};

/// The table that `--csv` prints.
const MAIN_TABLE: &str = "measurements";

const EXAMPLES: &str = "\
Examples:
  planewright trial --how
  planewright trial boat.toml log.csv --report-only
  planewright trial boat.toml log.csv --charts charts
  planewright trial boat.toml log.csv --report-only --csv > measurements.csv
  planewright trial boat.toml log.csv --efficiency 0.55 --write boat-after-refit.toml

From a log of speed and trim, as far as its data reach: where the centre of gravity acts, how strongly
the planes act, how rough the bottom is. A calibrated copy of the boat file is written beside the old
one (boat-trial.toml), never over a file. data/trials/COLUMNS.md says what a log holds. Exit code 1
when the log cannot tell anything.";

/// Learn from a sea trial, and write a calibrated boat file beside the old one
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct TrialArguments {
    /// Boat file, as the boat was loaded on the trial
    #[arg(required_unless_present = "how")]
    pub(super) boat: Option<PathBuf>,
    /// Log of the trial, a CSV file
    #[arg(required_unless_present = "how")]
    log: Option<PathBuf>,
    /// Loading condition of the trial by its name in the boat file [default: the loads as they are listed]
    #[arg(long, value_name = "NAME")]
    condition: Option<String>,
    /// Print how to make a trial, and what to accept after planes were fitted
    #[arg(long, conflicts_with_all = ["boat", "log", "condition", "csv"])]
    how: bool,
    /// Propulsive efficiency, resistance times speed over shaft power, for example 0.55 [default: that of the boat file, or 0.52, held very doubtful]
    #[arg(long, value_name = "SHARE", value_parser = efficiency)]
    efficiency: Option<Ratio>,
    /// Where to write the calibrated boat file [default: NAME-trial.toml in this folder]
    #[arg(long, value_name = "FILE", conflicts_with = "report_only")]
    write: Option<PathBuf>,
    /// Write no boat file
    #[arg(long)]
    report_only: bool,
    #[command(flatten)]
    data: DataArguments,
    #[command(flatten)]
    charts: ChartArguments,
    #[command(flatten)]
    units: UnitArguments,
}

/// Reads `--efficiency`, for clap.
fn efficiency(text: &str) -> Result<Ratio, String> {
    let share = parse_fraction(text).map_err(|error| error.one_line())?;
    if (0.2..=0.85).contains(&share) {
        return Ok(Ratio::new::<ratio>(share));
    }
    Err("it lies between 0.2 and 0.85; planing boats have 0.45 to 0.65".to_owned())
}

/// Everything that an output of this command may show.
struct Trial {
    file: BoatFile,
    log: Log,
    pairing: Pairing,
    units: UnitChoice,
    outcome: Result<Outcome, Refusal>,
}

/// What came of a log that tells something.
struct Outcome {
    learned: Learned,
    calibrated: Calibrated,
    written: Option<PathBuf>,
    charts: Vec<ChartFiles>,
}

impl Trial {
    fn boat(&self) -> &Boat {
        &self.file.boat
    }
}

pub(super) fn execute(arguments: &TrialArguments) -> Result<Ending, Failure> {
    let screen = Screen::of_stdout();
    let (Some(boat), Some(log)) = (&arguments.boat, &arguments.log) else {
        if arguments.data.json {
            screen.print_json(&guide::record())?;
        } else {
            screen.print(&guide::page(screen))?;
        }
        return Ok(Ending::Done);
    };
    let trial = Trial::of(boat, log, arguments)?;
    let first = First::of([trial.boat()], &Settings::default(), trial.units);
    if arguments.data.wanted() {
        let charts = trial.outcome.iter().flat_map(|outcome| &outcome.charts);
        let about = About {
            files: chart_paths(charts),
            ..first.about(&trial.file, PairUsed::fitted(trial.boat()))
        };
        arguments.data.print(
            &about.around_flagged(&trial),
            MAIN_TABLE,
            arguments.units.asked(),
            &first.warnings(),
        )?;
    } else {
        screen.print(&first.above(&text::report(&trial, screen), screen))?;
    }
    Ok(if trial.outcome.is_ok() { Ending::Done } else { Ending::CannotBeDone })
}

impl Trial {
    fn of(boat: &Path, log_path: &Path, arguments: &TrialArguments) -> Result<Self, Failure> {
        let mut file = read_boat(boat)?;
        if let Some(name) = &arguments.condition {
            let unknown = |fault| Fault { key: "run.condition".to_owned(), ..fault };
            file = file.in_condition(name).map_err(unknown)?;
        }
        let log = read_log(log_path)?;
        let target = match &arguments.write {
            Some(path) => Some(path.clone()),
            None => (!arguments.report_only).then(|| usual_path(boat)),
        };
        let read = inputs(boat, &file).into_iter().chain([log_path.to_owned()]).collect();
        let mut charts = arguments.charts.begin(read, false);
        // Nobody waits for an answer that cannot be kept.
        charts.files.check(target.as_deref())?;
        let units = arguments.units.choice();
        let settings = Settings::default();
        let pairing = measurements(&log);
        let options = Options { efficiency: arguments.efficiency };
        let learned = learn(&file.boat, &settings, &pairing.measurements, &options);
        let outcome = match learned {
            Err(refusal) => Err(refusal),
            Ok(learned) => {
                let folder = target.as_deref().and_then(Path::parent).unwrap_or(Path::new(""));
                let calibrated =
                    calibrated(&file, &file.boat, &learned, &log, units.length, folder)?;
                let after = calibrated.file.boat.in_condition(&file.boat.condition().name)?;
                let drawn = match charts.wanted() {
                    true => draw(&mut charts, &file.boat, &after, &settings, &learned, units)?,
                    false => Vec::new(),
                };
                if let Some(path) = &target {
                    charts.files.add(path, calibrated.file.text.as_bytes());
                }
                charts.write()?;
                Ok(Outcome { learned, calibrated, written: target, charts: drawn })
            }
        };
        Ok(Self { file, log, pairing, units, outcome })
    }
}

fn draw(
    files: &mut Charts<'_>,
    before: &Boat,
    after: &Boat,
    settings: &Settings,
    learned: &Learned,
    units: UnitChoice,
) -> Result<Vec<ChartFiles>, Failure> {
    let charts = trial_charts(before, after, settings, learned, units)?;
    files.add(after, &charts)
}
