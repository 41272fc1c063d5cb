//! Tables of boats, taken and given through the Arrow C stream interface, without a copy of what is read.

use arrow_array::RecordBatchReader;
use planewright::Angle;
use planewright::boat::Fault;
use planewright::doubt::{DRAWS, Drawn, SEED};
use planewright::fleet::{Fleet, Question, RunQuestion, SizeQuestion, run_field, size_field};
use pyo3::prelude::*;
use pyo3_arrow::PyTable;
use pyo3_arrow::input::AnyRecordBatch;

use crate::boat::{Boat, checked};
use crate::error::{of_fault, said};
use crate::pool::on_all_cores;
use crate::settings::{OneOrMore, angles, settings, speeds};

/// How each boat of a table runs.
#[pyfunction]
#[pyo3(signature = (table, speeds=None, deflections=None, *, boat=None, keep=None, fields=None, first_row=1, method=None, model=None, friction=None, roughness=None))]
#[allow(clippy::too_many_arguments)]
pub fn run_table(
    py: Python<'_>,
    table: AnyRecordBatch,
    speeds: Option<OneOrMore>,
    deflections: Option<OneOrMore>,
    boat: Option<PyRef<'_, Boat>>,
    keep: Option<OneOrMore>,
    fields: Option<OneOrMore>,
    first_row: u64,
    method: Option<&str>,
    model: Option<&str>,
    friction: Option<&str>,
    roughness: Option<f64>,
) -> PyResult<PyTable> {
    let speeds = speeds.map_or(Ok(Vec::new()), |texts| self::speeds(py, texts))?;
    let settings = settings(py, method, model, friction, roughness)?;
    let mut question = RunQuestion { settings, ..RunQuestion::at(speeds) };
    question.deflections = match deflections {
        Some(texts) => angles(py, texts)?,
        None => vec![Angle::default()],
    };
    if let Some(names) = fields {
        question.fields = named(py, names, run_field)?;
    }
    answered(py, table, boat, keep, first_row, Question::Run(question))
}

/// Which planes each boat of a table needs.
#[pyfunction]
#[pyo3(signature = (table, *, boat=None, keep=None, fields=None, first_row=1, draws=DRAWS, seed=SEED, model=None))]
#[allow(clippy::too_many_arguments)]
pub fn size_table(
    py: Python<'_>,
    table: AnyRecordBatch,
    boat: Option<PyRef<'_, Boat>>,
    keep: Option<OneOrMore>,
    fields: Option<OneOrMore>,
    first_row: u64,
    draws: u32,
    seed: u64,
    model: Option<&str>,
) -> PyResult<PyTable> {
    let mut question = SizeQuestion {
        settings: settings(py, None, model, None, None)?,
        drawn: Drawn { draws: checked(py, draws)?, seed },
        ..SizeQuestion::default()
    };
    if let Some(names) = fields {
        question.fields = named(py, names, size_field)?;
    }
    answered(py, table, boat, keep, first_row, Question::Size(question))
}

fn named<F>(
    py: Python<'_>,
    names: OneOrMore,
    field: fn(&str) -> Result<F, Fault>,
) -> PyResult<Vec<F>> {
    let fields = names.all().into_iter().map(|name| field(&name));
    fields.collect::<Result<_, _>>().map_err(|fault| of_fault(py, fault))
}

fn answered(
    py: Python<'_>,
    table: AnyRecordBatch,
    boat: Option<PyRef<'_, Boat>>,
    keep: Option<OneOrMore>,
    first_row: u64,
    question: Question,
) -> PyResult<PyTable> {
    let reader = table.into_reader()?;
    let headings: Vec<String> =
        reader.schema().fields().iter().map(|field| field.name().clone()).collect();
    let keep = keep.map_or_else(Vec::new, OneOrMore::all);
    let base = boat.as_ref().map(|boat| boat.file());
    let fleet = Fleet::of(&headings, &keep, base, question).map_err(|f| of_fault(py, f))?;
    let schema = fleet.schema(&reader.schema());
    let batches = py.detach(|| all(&fleet, reader, first_row));
    let batches = batches.map_err(|wrong| match wrong {
        Wrong::Fault(fault) => of_fault(py, fault),
        Wrong::Stream(problem) => {
            said(py, format!("the table cannot be read: {problem}"), String::new())
        }
    })?;
    PyTable::try_new(batches, schema)
}

enum Wrong {
    Fault(Fault),
    Stream(String),
}

fn all(
    fleet: &Fleet,
    reader: Box<dyn RecordBatchReader + Send>,
    first_row: u64,
) -> Result<Vec<arrow_array::RecordBatch>, Wrong> {
    let (mut done, mut row) = (Vec::new(), first_row);
    for batch in reader {
        let batch = batch.map_err(|error| Wrong::Stream(error.to_string()))?;
        let answers = on_all_cores(|| fleet.batches(row, &batch)).map_err(Wrong::Fault)?;
        row += batch.num_rows() as u64;
        done.extend(answers);
    }
    Ok(done)
}
