//! Answers as data: one JSON object, or a table of it as comma-separated values.
//!
//! The tables are those of the JSON, found in it: whatever is written there has its rows here too,
//! under the same names.

pub(super) mod rows;
mod tables;

use std::io;

use clap::Args;
use serde::Serialize;
use serde_json::Value;

use super::Failure;
use super::screen::Screen;
use crate::answer::rounded;
use crate::boat::Fault;
use crate::spelling::by_likeness;
use crate::units::UnitChoice;
use tables::{Table, tables};

/// What stands for the names of all tables.
const LIST: &str = "list";

/// In which form the answer is wanted as data.
#[derive(Clone, Debug, Args)]
pub(super) struct DataArguments {
    /// Print one JSON object in SI units, angles in degrees, accelerations in g
    #[arg(long, conflicts_with = "csv")]
    pub json: bool,
    /// Print the main table as comma-separated values, units in its head; in SI units unless others are asked for
    #[arg(long)]
    pub csv: bool,
    /// Another table of the answer instead, by its name in the JSON; `list` prints the names
    #[arg(long, value_name = "NAME", requires = "csv")]
    pub table: Option<String>,
}

impl DataArguments {
    /// Whether the answer is wanted as data.
    pub(super) const fn wanted(&self) -> bool {
        self.json || self.csv
    }

    /// Prints the answer in the form asked for: as JSON, or the table asked for, else that of the name.
    ///
    /// What must be known before a table is believed goes to the error stream: what the answer
    /// lists as warnings, and these lines.
    pub(super) fn print(
        &self,
        answer: &impl Serialize,
        main: &str,
        units: Option<UnitChoice>,
        more: &[String],
    ) -> Result<(), Failure> {
        let screen = Screen::of_stdout();
        if self.json {
            return screen.print_json(answer);
        }
        let answer = rounded(answer).map_err(io::Error::from)?;
        warn(&answer, more);
        let wanted = self.table.as_deref().unwrap_or(main);
        let tables = tables(&answer);
        if wanted == LIST {
            let names: Vec<String> = tables.iter().map(|t| format!("{}\n", t.name)).collect();
            return screen.print(&names.concat());
        }
        match tables.iter().find(|table| table.name == wanted) {
            Some(table) => screen.print(&table.text(units)?),
            // What the command always has may be empty for this boat.
            None if wanted == main => {
                eprintln!("warning: nothing stands in the table `{main}` for this boat");
                Ok(())
            }
            None => Err(unknown(wanted, &tables)),
        }
    }
}

/// What the answer warns of, and more, on the error stream.
fn warn(answer: &Value, more: &[String]) {
    let lists = ["warnings", "log_warnings"].map(|key| answer[key].as_array());
    let own = lists.into_iter().flatten().flatten().filter_map(Value::as_str);
    for line in own.chain(more.iter().map(String::as_str)) {
        eprintln!("warning: {line}");
    }
}

fn unknown(wanted: &str, tables: &[Table]) -> Failure {
    let names = by_likeness(wanted, tables.iter().map(|table| table.name.as_str()));
    Failure::Fault(Fault {
        key: "run.table".to_owned(),
        problem: format!("this answer has no table `{}`", crate::units::quoted(wanted)),
        remedy: format!("its tables, the likeliest first: {}", names.join(", ")),
    })
}
