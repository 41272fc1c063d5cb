//! `planewright size`: which planes, and why.

mod chance;
pub(super) mod data;
mod shelf;
mod text;

use std::path::PathBuf;

use clap::Args;
use shelf::json::Written;

use super::arguments::{BoatArguments, DrawArguments, UnitArguments};
use super::charts::{ChartArguments, Charts};
use super::data::DataArguments;
use super::doubt::progress::Bar;
use super::first::First;
use super::records::chart_paths;
use super::run::ModelChoice;
use super::screen::Screen;
use super::wish::WishChoice;
use super::{Ending, Failure};
use crate::answer::SizeAnswer;
use crate::balance::Settings;
use crate::boat::Wish;
use crate::chart::running::running_charts;
use crate::chart::sizing::sizing_charts;
use crate::chart::{ChartFiles, Subject};
use crate::size::PairUsed;
use crate::stock::Shelf;
use crate::tell::sizing::in_steps_of;

/// The table that `--csv` prints.
const MAIN_TABLE: &str = "conditions.schedule";

const EXAMPLES: &str = "\
Examples:
  planewright size boat.toml
  planewright size boat.toml --charts charts
  planewright size boat.toml --condition light --condition full
  planewright size boat.toml --stock planes.csv
  planewright size boat.toml --chance 90
  planewright size boat.toml --for bow-high --for leans
  planewright size boat.toml --aboard 2
  planewright size boat.toml --full
  planewright size boat.toml --units imperial
  planewright size boat.toml --json
  planewright size boat.toml --csv > schedule.csv
  planewright size boat.toml --stock planes.csv --csv --table stock

What the planes must do stands in the boat file as [[duty]] tables; without any, sensible ones are
generated from the boat and printed, ready to be put into the file and changed. The size is the least
pair that does them on 80 of a hundred boats nearly like the one described. With a stock list the
parts on the shelf are ranked; data/stock/COLUMNS.md says what a list holds. The duties are done in
every loading condition of the file, or in those named with --condition; the output says which one
governs. Exit code 1 when no size does every duty; with a stock list, when no pair on the shelf does.";

/// Suggest a pair of planes, with the reasons: what sets the size, what a smaller one would miss
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct SizeArguments {
    #[command(flatten)]
    pub(super) boat: BoatArguments,
    /// Whose lift of the bottom the boat is balanced with
    #[arg(long, value_enum, default_value_t = ModelChoice::Savitsky1964)]
    model: ModelChoice,
    /// Also rank the parts of this stock list for the boat
    #[arg(long, value_name = "CSV")]
    stock: Option<PathBuf>,
    /// How sure the size is to do every duty: on so many in a hundred boats nearly like this one (the file's sizing.chance, else 80)
    #[arg(long, value_name = "N", value_parser = chance::in_a_hundred)]
    chance: Option<f64>,
    /// What you wish of the planes, in place of the duties of the file; may be given several times
    #[arg(long = "for", value_name = "WISH", value_enum)]
    wishes: Vec<WishChoice>,
    #[command(flatten)]
    draw: DrawArguments,
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

/// Everything that an output of this command may show.
struct SizeOutput {
    answer: SizeAnswer,
    charts: Vec<ChartFiles>,
    shelf: Option<Shelf>,
}

pub(super) fn execute(arguments: &SizeArguments) -> Result<Ending, Failure> {
    let units = arguments.units.choice();
    let mut files = arguments.boat.read()?;
    let boats = arguments.boat.sized_for(&files)?.into_iter();
    let boats = boats.map(|boat| in_steps_of(boat, units)).collect::<Result<Vec<_>, _>>();
    let boats = boats?.into_iter();
    let wishes: Vec<Wish> = arguments.wishes.iter().map(|wish| wish.0).collect();
    let boats = boats.map(|boat| chance::asked(boat, arguments.chance, &wishes));
    let boats = boats.collect::<Result<Vec<_>, _>>()?;
    let inputs = arguments.boat.inputs(&files[0]).into_iter().chain(arguments.stock.clone());
    let mut charts = arguments.charts.begin(inputs.collect(), false);
    let file = files.swap_remove(0);
    let settings = Settings { model: arguments.model.into(), ..Settings::default() };
    let drawn = arguments.draw.drawn();
    let bar = Bar::of(u64::from(drawn.draws));
    let is_short = !arguments.full && !arguments.data.wanted();
    let answer = SizeAnswer::alone(file, boats, units, settings, drawn, &|done| bar.advance(done))?;
    let answer = if is_short { answer } else { answer.with_beside(drawn.seed) };
    bar.finish();
    let shelf = match &arguments.stock {
        Some(path) => Some(shelf::ranked(path, &answer.boats, &settings, drawn)?),
        None => None,
    };
    let mut answered = SizeOutput { answer, charts: Vec::new(), shelf };
    if charts.wanted() {
        answered.charts = draw(&answered.answer, &mut charts)?;
    }
    charts.write()?;
    let screen = Screen::of_stdout();
    let sense = answered.answer.sense();
    let first = First::known(&sense, units);
    if arguments.data.wanted() {
        let shelf = answered.shelf.as_ref().map(|shelf| Written { shelf, units });
        let files = chart_paths(&answered.charts);
        arguments.data.print(
            &answered.answer.enveloped(&sense, files, shelf),
            MAIN_TABLE,
            arguments.units.asked(),
            &first.warnings(),
        )?;
    } else {
        screen.print(&match arguments.full {
            true => first.above(&text::report(&answered, screen), screen),
            false => first.above_short(&text::short(&answered, screen), screen),
        })?;
    }
    let does_all = match &answered.shelf {
        Some(shelf) => shelf.ranking.does_all(),
        None => answered.answer.suggestion.does_all(),
    };
    Ok(if does_all { Ending::Done } else { Ending::CannotBeDone })
}

/// The sizing charts, and those of the boat running with the pair suggested.
fn draw(answered: &SizeAnswer, files: &mut Charts<'_>) -> Result<Vec<ChartFiles>, Failure> {
    let suggestion = &answered.suggestion;
    let mut charts = sizing_charts(answered.boat(), suggestion, answered.units);
    let with_pair = match suggestion.pair() {
        Some(pair) => answered.boat().with_planes(Some(pair))?,
        None => answered.boat().clone(),
    };
    let deflections = super::run::chart_deflections(&with_pair);
    let planes = match suggestion.used() {
        PairUsed { pair: None, .. } => PairUsed::fitted(&with_pair),
        suggested => suggested,
    };
    let subject = Subject { boat: &with_pair, planes, units: answered.units };
    // Where she was seen to trim otherwise there is no setting to show.
    let schedule = if suggestion.is_seen_otherwise() { &[][..] } else { &suggestion.schedule };
    charts.extend(running_charts(subject, &answered.settings, &deflections, schedule)?);
    files.add(answered.boat(), &charts)
}
