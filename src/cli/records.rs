//! What the JSON of several commands says alike.

use serde::Serialize;

use crate::behaviour::sense::Silent;
use crate::boat::sense::Question;
use crate::chart::ChartFiles;
use crate::input::BoatFile;
use crate::units::UnitChoice;

/// The boat file that an answer was computed from.
#[derive(Serialize)]
pub(super) struct InputRecord<'a> {
    file: &'a str,
    crc32: String,
}

impl<'a> InputRecord<'a> {
    pub(super) fn of(file: &'a BoatFile) -> Self {
        Self { file: &file.name, crc32: file.checksum() }
    }
}

/// Every file of some charts.
pub(super) fn chart_paths<'a>(charts: impl IntoIterator<Item = &'a ChartFiles>) -> Vec<String> {
    let files = charts.into_iter().flat_map(|chart| [&chart.svg, &chart.png]);
    files.map(|path| path.display().to_string()).collect()
}

/// A question about the boat; its numbers are in the unit that it names.
#[derive(Serialize)]
pub(super) struct QuestionRecord {
    word: &'static str,
    key: String,
    condition: Option<String>,
    unit: &'static str,
    value: f64,
    usual: [f64; 2],
    rule: String,
    cause: String,
    cure: String,
}

impl From<&Question> for QuestionRecord {
    fn from(question: &Question) -> Self {
        Self {
            word: question.word,
            key: question.key.clone(),
            condition: question.condition.clone(),
            unit: question.value.unit(),
            value: question.value.value(),
            usual: question.usual.map(|end| end.value()),
            rule: question.rule.clone(),
            cause: question.cause.clone(),
            cure: question.cure.clone(),
        }
    }
}

/// Why nothing can be said about planes, in one loading condition or in all.
#[derive(Serialize)]
pub(super) struct SilenceRecord {
    word: &'static str,
    condition: Option<String>,
    sentence: String,
    cure: &'static str,
}

impl SilenceRecord {
    pub(super) fn of(silent: &Silent, units: UnitChoice) -> Self {
        Self {
            word: silent.silence.word(),
            condition: silent.condition.clone(),
            sentence: silent.silence.sentence(units),
            cure: silent.silence.cure(),
        }
    }
}
