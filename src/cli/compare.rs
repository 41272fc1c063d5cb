//! `planewright compare`: a few pairs side by side.

mod json;

use std::path::PathBuf;

use clap::Args;

use super::arguments::{BoatArguments, DrawArguments, UnitArguments};
use super::data::DataArguments;
use super::doubt::progress::Bar;
use super::first::First;
use super::screen::{CAUTION, Screen};
use super::{Ending, Failure, shelf};
use crate::balance::Settings;
use crate::boat::{Fault, PlanePair};
use crate::document::Block;
use crate::plane::strength::Verdict;
use crate::size::PairUsed;
use crate::stock::compare::{Candidate, Comparison};
use crate::tell;

/// Pairs that stand side by side at most.
const MOST_PAIRS: usize = 4;

/// The table that `--csv` prints.
const MAIN_TABLE: &str = "pairs";

const EXAMPLES: &str = "\
Examples:
  planewright compare boat.toml --pair 600x300mm --pair \"675 x 300 mm\"
  planewright compare boat.toml --pair \"24 x 9 in\" --pair \"24 x 12 in\" --units imperial
  planewright compare boat.toml --stock planes.csv --part NAME --part OTHER --json
  planewright compare boat.toml --pair 600x300mm --pair 675x300mm --csv

Two to four pairs, as sizes (span x chord of one plane) or as parts of a stock list. Each is set as its
own schedule has it; the trims are those of the loading condition in which she trims most. Exit code 1
when none of them has room and bears its loads as far as that is known.";

/// Set two to four pairs side by side: chance, relief, trim, resistance, strength and price
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct CompareArguments {
    #[command(flatten)]
    pub(super) boat: BoatArguments,
    /// A pair by the span and chord of one plane, for example 600x300mm; may be given several times
    #[arg(long = "pair", value_name = "SIZE", value_parser = PlanePair::read)]
    pairs: Vec<PlanePair>,
    /// Stock list that the parts stand in
    #[arg(long, value_name = "CSV")]
    stock: Option<PathBuf>,
    /// A part of the stock list by its name; may be given several times
    #[arg(long = "part", value_name = "NAME", requires = "stock")]
    parts: Vec<String>,
    #[command(flatten)]
    draw: DrawArguments,
    #[command(flatten)]
    data: DataArguments,
    #[command(flatten)]
    units: UnitArguments,
}

pub(super) fn execute(arguments: &CompareArguments) -> Result<Ending, Failure> {
    let candidates = candidates(arguments)?;
    let units = arguments.units.choice();
    let files = arguments.boat.read()?;
    let boats = arguments.boat.sized_for(&files)?;
    let drawn = arguments.draw.drawn();
    let settings = Settings::default();
    let bar = Bar::of(2 * u64::from(drawn.draws));
    let found = Comparison::of(&boats, &settings, candidates, drawn, &|done| bar.advance(done))?;
    bar.finish();
    let boat = &boats[found.loading];
    let first = First::of(&boats, &settings, units);
    let screen = Screen::of_stdout();
    if arguments.data.wanted() {
        let about = first.about(&files[0], PairUsed::fitted(&files[0].boat));
        arguments.data.print(
            &about.around_flagged(json::Written { found: &found, boat }),
            MAIN_TABLE,
            arguments.units.asked(),
            &first.warnings(),
        )?;
    } else {
        let table = Block::Table(tell::compare::table(&found, &boats, units));
        let text = format!(
            "{}\n{}\n{}",
            screen.heading(&boat.full_name()),
            screen.blocks(&[table]),
            screen.paragraph("", CAUTION)
        );
        screen.print(&first.above(&text, screen))?;
    }
    let is_usable = |pair: &crate::stock::compare::ComparedPair| {
        pair.fit.fits() && pair.strength != Some(Verdict::Unsafe)
    };
    Ok(match found.pairs.iter().any(is_usable) {
        true => Ending::Done,
        false => Ending::CannotBeDone,
    })
}

/// The sizes first, then the parts, each in the order in which they were given.
fn candidates(arguments: &CompareArguments) -> Result<Vec<Candidate>, Failure> {
    let mut all: Vec<Candidate> = arguments.pairs.iter().copied().map(Candidate::Size).collect();
    if let Some(path) = arguments.stock.as_deref().filter(|_| !arguments.parts.is_empty()) {
        all.extend(
            shelf::parts(path, &arguments.parts)?
                .into_iter()
                .map(|part| Candidate::Part(Box::new(part))),
        );
    }
    if (2..=MOST_PAIRS).contains(&all.len()) {
        return Ok(all);
    }
    Err(Failure::Fault(Fault {
        key: "run.pair".to_owned(),
        problem: match all.len() {
            0 => "no pair is given".to_owned(),
            1 => "one pair is given, and nothing beside it".to_owned(),
            more => format!("{more} pairs are given, more than {MOST_PAIRS}"),
        },
        remedy: format!(
            "give two to {MOST_PAIRS}, for example --pair 600x300mm --pair 675x300mm, or --stock planes.csv --part NAME --part OTHER"
        ),
    }))
}
