//! How balances are computed, and quantities, as they come from Python.

use planewright::balance::{LiftModel, Method, Settings};
use planewright::hydro::friction::FrictionLine;
use planewright::units::{QuantityError, parse_angle, parse_speed};
use planewright::{Angle, Velocity};
use pyo3::prelude::*;

use crate::error::said;

/// One of some things by its word.
fn by_word<T: Copy>(py: Python<'_>, of: &str, word: &str, all: &[(&str, T)]) -> PyResult<T> {
    let found = all.iter().find(|(known, _)| *known == word);
    found.map(|&(_, value)| value).ok_or_else(|| {
        let words: Vec<&str> = all.iter().map(|(known, _)| *known).collect();
        said(py, format!("{of}: there is no `{word}`"), format!("one of {}", words.join(", ")))
    })
}

/// The settings by their words; the usual ones where none are given.
pub fn settings(
    py: Python<'_>,
    method: Option<&str>,
    model: Option<&str>,
    friction: Option<&str>,
    roughness: Option<f64>,
) -> PyResult<Settings> {
    let mut settings = Settings::default();
    let methods = [Method::BestEstimate, Method::Full, Method::General1964, Method::Concurrent1964];
    if let Some(word) = method {
        settings.method = by_word(py, "method", word, &methods.map(|one| (one.word(), one)))?;
        settings.hump_factor = settings.method.is_full_balance();
    }
    let models = [LiftModel::Savitsky1964, LiftModel::Shuford1958];
    if let Some(word) = model {
        settings.model = by_word(py, "model", word, &models.map(|one| (one.word(), one)))?;
    }
    let lines = [FrictionLine::Schoenherr, FrictionLine::Ittc1957];
    if let Some(word) = friction {
        settings.friction_line =
            by_word(py, "friction", word, &lines.map(|one| (one.word(), one)))?;
    }
    settings.correlation_allowance = roughness;
    Ok(settings)
}

/// One text or several.
#[derive(FromPyObject)]
pub enum OneOrMore {
    One(String),
    More(Vec<String>),
}

impl OneOrMore {
    pub fn all(self) -> Vec<String> {
        match self {
            Self::One(text) => vec![text],
            Self::More(texts) => texts,
        }
    }
}

fn quantities<Q>(
    py: Python<'_>,
    texts: OneOrMore,
    parse: impl Fn(&str) -> Result<Q, QuantityError>,
) -> PyResult<Vec<Q>> {
    let read =
        |text: String| parse(&text).map_err(|error| said(py, error.to_string(), error.help()));
    texts.all().into_iter().map(read).collect()
}

pub fn speeds(py: Python<'_>, texts: OneOrMore) -> PyResult<Vec<Velocity>> {
    quantities(py, texts, parse_speed)
}

pub fn angles(py: Python<'_>, texts: OneOrMore) -> PyResult<Vec<Angle>> {
    quantities(py, texts, parse_angle)
}
