//! One boat and its answers as dictionaries, under the names that the program's JSON has.

use std::collections::BTreeMap;
use std::path::PathBuf;

use planewright::balance::sweep::{speeds as usual_speeds, usual_step};
use planewright::balance::{Balance, Settings};
use planewright::doubt::{
    DRAWS, Drawn, FEWEST_DRAWS, RUN_DRAWS, Request, SEED, advise_with, other_model, running,
};
use planewright::flag::Flag;
use planewright::input::{BoatFile, parse_boat, read_boat};
use planewright::schema::most;
use planewright::units::SpeedUnit;
use planewright::{Angle, field::as_data};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use pythonize::{depythonize, pythonize};
use serde::Serialize;
use serde_json::{Number, Value};

use crate::error::{of_fault, of_faults, of_file, said};
use crate::pool::on_all_cores;
use crate::settings::{OneOrMore, angles, settings, speeds};

/// A checked boat, from the tables of a boat file as keywords.
///
/// ``Boat(hull={"bottom_length": "6.5 m", ...}, weight={"mass": "2800 kg"})``. Quantities are texts
/// with their units; what is left out is estimated by stated rules. Raises ``BoatError`` with every
/// fault.
#[pyclass(module = "planewright", frozen)]
pub struct Boat {
    file: BoatFile,
}

/// A result as Python objects, numbers with as many digits as data have.
fn written(py: Python<'_>, result: &impl Serialize) -> PyResult<Py<PyAny>> {
    let mut value =
        serde_json::to_value(result).map_err(|error| said(py, error.to_string(), String::new()))?;
    round(&mut value);
    Ok(pythonize(py, &value)?.unbind())
}

fn round(value: &mut Value) {
    match value {
        Value::Number(number) if number.is_f64() => {
            if let Some(rounded) = number.as_f64().map(as_data).and_then(Number::from_f64) {
                *number = rounded;
            }
        }
        Value::Array(values) => values.iter_mut().for_each(round),
        Value::Object(fields) => fields.values_mut().for_each(round),
        _ => {}
    }
}

#[pymethods]
impl Boat {
    #[new]
    #[pyo3(signature = (**tables))]
    fn new(py: Python<'_>, tables: Option<&Bound<'_, PyDict>>) -> PyResult<Self> {
        let table: toml::Table = match tables {
            Some(tables) => depythonize(tables).map_err(|error| {
                let cure = "give tables as dictionaries, quantities as texts with their units";
                said(py, format!("this is no boat: {error}"), cure.to_owned())
            })?,
            None => toml::Table::new(),
        };
        let text =
            toml::to_string(&table).map_err(|error| said(py, error.to_string(), String::new()))?;
        let file = parse_boat("boat", &text).map_err(|faults| of_faults(py, &faults))?;
        Ok(Self { file })
    }

    /// Reads a boat file of at most 1 MiB, and the stations that it names beside it.
    #[staticmethod]
    fn read(py: Python<'_>, path: PathBuf) -> PyResult<Self> {
        Ok(Self { file: read_boat(&path).map_err(|error| of_file(py, error))? })
    }

    /// Reads the text of a boat file, which names no other file.
    #[staticmethod]
    fn parse(py: Python<'_>, text: &str) -> PyResult<Self> {
        let file = parse_boat("boat", text).map_err(|faults| of_faults(py, &faults))?;
        Ok(Self { file })
    }

    /// What heads every answer.
    #[getter]
    fn name(&self) -> &str {
        self.file.boat.name()
    }

    /// The boat file as text.
    #[getter]
    fn text(&self) -> &str {
        &self.file.text
    }

    /// Values that were taken and look unusual, each with its line.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.file.warnings.iter().map(ToString::to_string).collect()
    }

    /// The loading condition that she is in.
    #[getter]
    fn condition(&self) -> String {
        self.file.boat.condition().name.clone()
    }

    /// All her loading conditions.
    #[getter]
    fn conditions(&self) -> Vec<String> {
        self.file.boat.conditions().iter().map(|condition| condition.name.clone()).collect()
    }

    /// The same boat in another of her loading conditions.
    fn in_condition(&self, py: Python<'_>, name: &str) -> PyResult<Self> {
        let file = self.file.in_condition(name).map_err(|fault| of_fault(py, fault))?;
        Ok(Self { file })
    }

    /// How she runs: a dictionary for every deflection and speed, in SI units with angles in degrees.
    ///
    /// ``speeds`` and ``deflections`` are quantities with units, ``"20 kn"`` or ``["18 kn", "10 m/s"]``;
    /// without ``speeds`` every knot from the start of planing to her top speed, without
    /// ``deflections`` planes up. Not running is an answer: see ``outcome``, and ``flags`` for what
    /// to know before trusting the numbers.
    #[pyo3(signature = (speeds=None, deflections=None, *, method=None, model=None, friction=None, roughness=None))]
    #[allow(clippy::too_many_arguments)]
    fn run(
        &self,
        py: Python<'_>,
        speeds: Option<OneOrMore>,
        deflections: Option<OneOrMore>,
        method: Option<&str>,
        model: Option<&str>,
        friction: Option<&str>,
        roughness: Option<f64>,
    ) -> PyResult<Py<PyAny>> {
        let settings = settings(py, method, model, friction, roughness)?;
        let boat = &self.file.boat;
        let speeds = match speeds {
            Some(texts) => self::speeds(py, texts)?,
            None => usual_speeds(boat, usual_step(SpeedUnit::Knot)),
        };
        let deflections = match deflections {
            Some(texts) => angles(py, texts)?,
            None => vec![Angle::default()],
        };
        let balance = Balance::of(boat, &settings);
        let mut points = Vec::new();
        for &deflection in &deflections {
            for &speed in &speeds {
                points.push(balance.point(speed, deflection).map_err(|f| of_fault(py, f))?);
            }
        }
        written(py, &points)
    }

    /// Which planes she needs, over all her loading conditions: spans and chords in m, speeds in m/s,
    /// deflections in degrees, ``chance`` as a share of ``draws`` boats nearly like her;
    /// ``DRAWS`` of the package where none are named.
    #[pyo3(signature = (*, draws=DRAWS, seed=SEED, model=None))]
    fn size(
        &self,
        py: Python<'_>,
        draws: u32,
        seed: u64,
        model: Option<&str>,
    ) -> PyResult<Py<PyAny>> {
        let settings = settings(py, None, model, None, None)?;
        let drawn = Drawn { draws: checked(py, draws)?, seed };
        let boats = self.file.boat.in_all_conditions().map_err(|fault| of_fault(py, fault))?;
        let advised = || on_all_cores(|| advise_with(&boats, &settings, drawn, &|_| ()));
        let mut suggestion = py.detach(advised).map_err(|fault| of_fault(py, fault))?;
        suggestion.other_model =
            py.detach(|| on_all_cores(|| other_model(&boats, &settings, seed)));
        written(py, &suggestion)
    }

    /// How sure trim (degrees) and resistance (N) are at each speed (m/s), and what they follow:
    /// the range that holds nine in ten of so many boats nearly like her.
    #[pyo3(signature = (deflection=None, *, draws=RUN_DRAWS, seed=SEED))]
    fn doubt(
        &self,
        py: Python<'_>,
        deflection: Option<String>,
        draws: u32,
        seed: u64,
    ) -> PyResult<Py<PyAny>> {
        let deflection = match deflection {
            Some(text) => angles(py, OneOrMore::One(text))?[0],
            None => Angle::default(),
        };
        let request = Request { draws: checked(py, draws)?, seed, deflection };
        let (boat, settings) = (&self.file.boat, Settings::default());
        let doubted = || on_all_cores(|| running(boat, &settings, &request, &|_| ()));
        let doubt = py.detach(doubted).map_err(|fault| of_fault(py, fault))?;
        written(py, &doubt)
    }

    fn __repr__(&self) -> String {
        format!("<Boat {:?}>", self.file.boat.full_name())
    }
}

impl Boat {
    pub fn file(&self) -> &BoatFile {
        &self.file
    }
}

/// Boats to draw, within what is taken.
pub fn checked(py: Python<'_>, draws: u32) -> PyResult<u32> {
    if (FEWEST_DRAWS..=most::DRAWS).contains(&draws) {
        return Ok(draws);
    }
    let problem = format!("draws: {draws} is outside {FEWEST_DRAWS} to {}", most::DRAWS);
    Err(said(py, problem, format!("{DRAWS} is usual")))
}

/// What each flag means, by its word.
#[pyfunction]
pub fn flag_meanings() -> BTreeMap<&'static str, &'static str> {
    Flag::ALL.iter().map(|flag| (flag.word(), flag.meaning())).collect()
}
