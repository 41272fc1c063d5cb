//! `planewright sweep`: keys of a boat file varied, each combination a boat.

use std::path::PathBuf;

use clap::Args;

use super::arguments::inputs;
use super::charts::{ChartArguments, text};
use super::fleet::json::About;
use super::fleet::question::QuestionArguments;
use super::fleet::written::OutArguments;
use super::screen::Screen;
use super::{Ending, Failure};
use crate::boat::Fault;
use crate::chart::Subject;
use crate::chart::running::own::OwnChart;
use crate::chart::swept::{Swept, swept_charts};
use crate::fleet::source::Source;
use crate::fleet::vary::{Combinations, Varied};
use crate::fleet::{Column, ColumnKind, Fleet, Question, RunQuestion, SizeQuestion, run_field};
use crate::input::{BoatFile, read_boat};
use crate::spelling::{by_likeness, plain};
use crate::units::quoted;

/// Combinations that are still drawn.
const MOST_DRAWN: u64 = 20_000;

const EXAMPLES: &str = "\
Examples:
  planewright sweep boat.toml --vary \"weight.lcg = 2.6 m to 3.2 m, 7 values\" --speed \"20 kn\"
  planewright sweep boat.toml --vary \"weight.lcg = 2.6 m to 3.2 m, 13 values\" --vary \"planes.span = 400 mm, 500 mm, 600 mm\" --speed \"20 kn\" --deflection \"8 deg\" --charts charts
  planewright sweep boat.toml --vary \"run.speed = 10 kn to 30 kn, 41 values\" --vary \"hull.deadrise = 14, 18, 22 deg\" --charts charts --y trim,resistance
  planewright sweep boat.toml --vary \"weight.mass = 2.4 t to 3.2 t, 5 values\" --of size --out sizes.csv

Any key of a boat file may be varied, and run.speed and run.deflection; entries of a list are counted
from one, as in load[2].mass; weight.lcg and its like stand in place of the loads that a file lists. Every
combination is one boat, with the last key changing fastest, and has its rows in the table as
`planewright fleet` gives them. Charts draw against the first key that is a number, with a line for each
value of the others: at most twelve.";

/// Vary values of a boat, every combination a boat of its own: how each runs, or which planes each needs
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct SweepArguments {
    /// Boat file; `planewright new FILE` writes one to start from
    pub(super) boat: PathBuf,
    /// A key with its values: "KEY = FROM to TO, N values" or "KEY = VALUE, VALUE"; may be repeated
    #[arg(long, value_name = "KEY = VALUES", required = true)]
    vary: Vec<String>,
    #[command(flatten)]
    question: QuestionArguments,
    #[command(flatten)]
    out: OutArguments,
    #[command(flatten)]
    charts: ChartArguments,
    /// Draw these numbers of the answers [default: trim and resistance, or the area and the chance of a size]
    #[arg(long, value_name = "FIELD,FIELD", value_delimiter = ',', requires = "charts")]
    y: Vec<String>,
}

pub(super) fn execute(arguments: &SweepArguments) -> Result<Ending, Failure> {
    let file = read_boat(&arguments.boat)?;
    let varied = arguments.vary.iter().map(|said| Varied::read(said));
    let varied: Vec<Varied> = varied.collect::<Result<_, _>>()?;
    let mut source = Combinations::of(varied.clone())?;
    let keep = source.headings().to_vec();
    let fleet = |question| Fleet::of(&keep, &keep, Some(&file), question);
    let read = inputs(&arguments.boat, &file);
    let question = arguments.question.question()?;
    let mut charts = arguments.charts.begin(read.clone(), false);
    let mut drawn = Vec::new();
    if charts.wanted() {
        let own = arguments.own_charts(&file, varied, question.clone())?;
        drawn = charts.add_own(&file.boat, &own)?;
        charts.write()?;
    }
    if arguments.out.out.is_none() && !drawn.is_empty() {
        Screen::of_stdout().print(&text(&drawn))?;
        return Ok(Ending::Done);
    }
    let about = About {
        command: "sweep",
        of: arguments.question.word(),
        table: None,
        boat: Some(&file),
        checksum: source.checksum().to_owned(),
    };
    let overwrite = arguments.charts.overwrite();
    arguments.out.write(&fleet(question)?, &mut source, &read, overwrite, &about)
}

impl SweepArguments {
    /// The charts, of answers in the units of the output.
    fn own_charts(
        &self,
        file: &BoatFile,
        varied: Vec<Varied>,
        question: Question,
    ) -> Result<Vec<OwnChart>, Failure> {
        let units = self.question.units.choice();
        let (question, usual) = match question {
            Question::Run(run) => {
                let mut fields = run.fields.clone();
                for name in &self.y {
                    fields.push(run_field(name)?);
                }
                let run = RunQuestion { units: Some(units), fields, ..run };
                (Question::Run(run), ["trim", "resistance"])
            }
            Question::Size(size) => {
                let size = SizeQuestion { units: Some(units), ..size };
                (Question::Size(size), ["area", "chance"])
            }
        };
        let mut source = Combinations::of(varied.clone())?;
        if source.expected() > MOST_DRAWN {
            return Err(Failure::Fault(Fault {
                key: "run.charts".to_owned(),
                problem: format!("{} combinations are too many for a chart", source.expected()),
                remedy: format!("vary less for the charts: at most {MOST_DRAWN}"),
            }));
        }
        let keep = source.headings().to_vec();
        let fleet = Fleet::of(&keep, &keep, Some(file), question)?;
        let lines = source.next(usize::MAX)?;
        let rows = fleet.answers(1, &lines);
        let usual = usual.map(str::to_owned);
        let y = if self.y.is_empty() { &usual[..] } else { &self.y };
        let drawn = y.iter().map(|name| drawn(&fleet, name)).collect::<Result<Vec<_>, _>>()?;
        let keys: Vec<&str> = varied.iter().map(|one| one.key.as_str()).collect();
        let more = format!("{} varied", keys.join(" and "));
        let subtitle = Subject::fitted(&file.boat, units).subtitle(&[&more]);
        let model = self.question.settings().model.name();
        let swept = Swept {
            subtitle: &subtitle,
            model,
            varied: &varied,
            columns: fleet.columns(),
            rows: &rows,
        };
        Ok(swept_charts(&swept, &drawn)?)
    }
}

/// The column of a number by its name without the unit.
fn drawn(fleet: &Fleet, name: &str) -> Result<Column, Failure> {
    let wanted = plain(name);
    let numbers = fleet.columns().iter().filter(|column| column.kind == ColumnKind::Number);
    let all: Vec<&Column> = numbers.collect();
    let found = all.iter().find(|column| column.key == wanted || column.name == wanted);
    found.map(|&column| column.clone()).ok_or_else(|| {
        let keys = by_likeness(&wanted, all.iter().map(|column| &*column.key));
        Failure::Fault(Fault {
            key: "run.y".to_owned(),
            problem: format!("the answers have no number `{}`", quoted(name)),
            remedy: format!("one of these, the likeliest first: {}", keys.join(", ")),
        })
    })
}
