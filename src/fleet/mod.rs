//! Many boats in one table: a boat a row, its answer or what is wrong with it on rows of its own.
//!
//! Columns are the keys of the boat file, `hull.chine_beam [m]`. A [`Fleet`] is a question made
//! ready for a table's headings: [`Fleet::answers`] computes some rows on all cores and gives them
//! back in their order; what is wrong with a boat is a column of its row, never an error of the
//! table. [`source`] gives the rows of a file or of a sweep a few at a time, and [`whole`] carries
//! them into a file that a killed process can go on with.
//!
//! ```
//! use planewright::fleet::{Cell, Fleet, Question, RunQuestion, Value};
//! use planewright::{Velocity, knot};
//!
//! let headings = ["hull.bottom_length [m]", "hull.chine_beam [m]", "hull.deadrise [deg]", "weight.mass [kg]", "weight.lcg [m]"];
//! let question = Question::Run(RunQuestion::at(vec![Velocity::new::<knot>(20.0)]));
//! let fleet = Fleet::of(&headings.map(str::to_owned), &[], None, question)?;
//! let row = [6.5, 2.25, 18.0, 2800.0, 2.45].map(Value::Number).to_vec();
//! let rows = fleet.answers(1, &[Ok(row)]);
//! let trim = fleet.columns().iter().position(|column| column.name == "trim_deg").unwrap();
//! assert!(matches!(rows[0][trim], Cell::Number(trim_deg) if trim_deg > 2.0));
//! # Ok::<(), planewright::boat::Fault>(())
//! ```

#[cfg(feature = "arrow")]
pub mod arrow;
mod cell;
mod columns;
mod csv_out;
mod csv_table;
#[cfg(feature = "parquet")]
mod parquet;
mod question;
mod run;
mod size;
pub mod source;
pub mod vary;
pub mod whole;

use rayon::prelude::*;

pub use cell::{Cell, Column, ColumnKind, Value};
pub use question::{Question, RunQuestion, SizeQuestion, Steady};
pub use run::run_field;
pub use size::{SizeField, size_field};

use crate::boat::Fault;
use crate::input::{BoatFile, Overlay};
use columns::{Heading, Use};

/// One row of a table as it was read: a value for each heading, or what is wrong with the row as a whole.
pub type Line = Result<Vec<Value>, Wrong>;

/// What is wrong with a row, and what to write instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wrong {
    /// What is wrong, with key and value.
    pub fault: String,
    /// What to do.
    pub cure: String,
}

/// A question made ready for the rows of a table.
#[derive(Debug)]
pub struct Fleet {
    headings: Vec<Heading>,
    base: Overlay,
    question: Question,
    columns: Vec<Column>,
}

impl Fleet {
    /// A question about the rows under these headings; what a row leaves out is that of the boat
    /// file, where one is given. The columns named in `keep` are copied beside the answers, and
    /// may then be called as one likes.
    ///
    /// # Errors
    /// When a heading is no key of a boat file, is there twice or has a unit of another kind; when
    /// nothing says at which speed the boats are to run.
    pub fn of(
        headings: &[String],
        keep: &[String],
        base: Option<&BoatFile>,
        question: Question,
    ) -> Result<Self, Fault> {
        let headings = columns::headings(headings, keep)?;
        question.check(&headings)?;
        // The file was read before, and so has no faults.
        let base = base.map(Overlay::of).transpose().ok().flatten().unwrap_or_default();
        let kept = headings.iter().filter(|heading| heading.is_kept);
        let row = Column::plain("row", ColumnKind::Whole);
        let kept = kept.map(Heading::column);
        let said = ["fault", "cure"].map(Column::text);
        let columns = std::iter::once(row).chain(kept).chain(question.columns()).chain(said);
        Ok(Self { columns: columns.collect(), headings, base, question })
    }

    /// The columns of the answers: the number of the row, what is kept of it, the answer, `fault` and `cure`.
    #[must_use]
    pub fn columns(&self) -> &[Column] {
        &self.columns
    }

    /// What is asked and of what, in a text that is another where any answer may be another.
    #[must_use]
    pub fn description(&self) -> String {
        let question = self.question.description();
        format!("{:?} {:?} {question} {:?}", self.headings, self.base, self.columns)
    }

    /// The answers of some rows, the first of which has this number, each with as many rows as it
    /// has points; computed on all cores of the pool that it is called in.
    #[must_use]
    pub fn answers(&self, first: u64, lines: &[Line]) -> Vec<Vec<Cell>> {
        let numbered = (first..).zip(lines).collect::<Vec<_>>();
        let each = numbered.par_iter().map(|&(number, line)| self.answer(number, line));
        each.collect::<Vec<_>>().into_iter().flatten().collect()
    }

    /// The rows of one boat.
    fn answer(&self, number: u64, line: &Line) -> Vec<Vec<Cell>> {
        let kept = |line: &[Value]| {
            let all = self.headings.iter().zip(line).filter(|(heading, _)| heading.is_kept);
            all.map(|(heading, value)| heading.kept(value)).collect::<Vec<_>>()
        };
        let begun = |kept: Vec<Cell>| {
            let mut row = Vec::with_capacity(self.columns.len());
            row.push(Cell::Whole(number));
            row.extend(kept);
            row
        };
        let told = line.as_ref().map_err(Clone::clone).and_then(|line| self.told(line));
        let values = line.as_ref().map_or(&[][..], Vec::as_slice);
        match told {
            Ok(rows) => {
                let kept = kept(values);
                let whole = |cells: Vec<Cell>| {
                    let mut row = begun(kept.clone());
                    row.extend(cells);
                    row.extend([Cell::Empty, Cell::Empty]);
                    row
                };
                rows.into_iter().map(whole).collect()
            }
            Err(wrong) => {
                let mut row = begun(kept(values));
                row.resize(self.columns.len() - 2, Cell::Empty);
                row.extend([wrong.fault, wrong.cure].map(|text| Cell::Text(text.into())));
                vec![row]
            }
        }
    }

    /// What is answered about one boat.
    fn told(&self, values: &[Value]) -> Result<Vec<Vec<Cell>>, Wrong> {
        let mut steady = Steady::default();
        let mut set = Vec::new();
        for (heading, value) in self.headings.iter().zip(values) {
            let Some(text) = heading.written(value) else { continue };
            match &heading.used {
                Use::Key { key, row } => set.push(crate::input::Set { key, row, text }),
                Use::Speed => steady.speed = Some(heading.asked(&text)?),
                Use::Deflection => steady.deflection = Some(heading.asked(&text)?),
                Use::Nothing => {}
            }
        }
        let boat = self.base.boat(set).map_err(Wrong::of_all)?;
        self.question.answer(&boat, &steady).map_err(Wrong::from)
    }
}

impl Wrong {
    fn of_all(faults: Vec<crate::error::FileFault>) -> Self {
        let one_line = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        let all = |text: fn(&crate::error::FileFault) -> &String| {
            let mut all: Vec<String> = faults.iter().map(|fault| one_line(text(fault))).collect();
            all.dedup();
            all.join("; ")
        };
        Self { fault: all(|fault| &fault.problem), cure: all(|fault| &fault.help) }
    }
}

impl From<Fault> for Wrong {
    fn from(fault: Fault) -> Self {
        Self { fault: format!("{}: {}", fault.key, fault.problem), cure: fault.remedy }
    }
}

#[cfg(test)]
mod tests;
