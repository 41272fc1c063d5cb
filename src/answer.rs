//! An answer as one JSON object: the same envelope around what every question is answered with.
//!
//! SI units, angles in degrees, null for what does not exist; numbers with the digits of
//! [`crate::field::as_data`].

use std::collections::BTreeMap;

use serde::ser::Error;
use serde::{Serialize, Serializer};
use serde_json::{Number, Value};

use crate::balance::Settings;
use crate::behaviour::sense::{Sense, Silent};
use crate::boat::sense::Question;
use crate::boat::{Boat, Fault, Stations};
use crate::doubt::{Drawn, Progress, advise_with, effects_for, other_model};
use crate::field::as_data;
use crate::flag::{CAUTION, Flags};
use crate::input::BoatFile;
use crate::size::{Effect, PairUsed, Suggestion};
use crate::tell::drive::{self, WithDrive};
use crate::tell::sizing::Sizing;
use crate::units::{UnitChoice, UnitSystem};

/// What an answer is about, whatever was asked.
#[derive(Clone, Debug)]
pub struct About<'a> {
    /// The boat file, with the boat in the first of the conditions asked about.
    pub file: &'a BoatFile,
    /// The planes that it is about.
    pub planes: PairUsed,
    /// Flags of everything in the answer.
    pub flags: Flags,
    /// What must be settled before it is believed.
    pub sense: &'a Sense,
    /// Files that were written beside it.
    pub files: Vec<String>,
    /// Units of sentences; numbers are in SI.
    pub units: UnitChoice,
}

/// An answer in its envelope.
#[derive(Serialize)]
pub struct Enveloped<'a, T> {
    program: &'static str,
    version: &'static str,
    name: &'a str,
    scenario: Option<&'a str>,
    input: Input<'a>,
    condition: &'a str,
    planes: Planes,
    #[serde(flatten)]
    answer: T,
    flag_meanings: BTreeMap<&'static str, &'static str>,
    questions: Vec<QuestionWritten<'a>>,
    silences: Vec<SilenceWritten<'a>>,
    warnings: Vec<String>,
    files: Vec<String>,
    caution: &'static str,
}

/// An answer with the flags of everything in it.
#[derive(Serialize)]
pub struct Flagged<T> {
    #[serde(flatten)]
    answer: T,
    #[serde(flatten)]
    flags: Flags,
}

/// The boat file that an answer was computed from.
#[derive(Serialize)]
struct Input<'a> {
    file: &'a str,
    crc32: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    stations: Option<StationsFile<'a>>,
}

/// The list of stations that the boat file names.
#[derive(Serialize)]
struct StationsFile<'a> {
    file: &'a str,
    crc32: &'a str,
}

impl<'a> StationsFile<'a> {
    fn of(stations: &'a Stations) -> Self {
        Self { file: stations.source(), crc32: stations.checksum() }
    }
}

/// The planes that an answer is about, and where they come from.
#[derive(Serialize)]
struct Planes {
    source: &'static str,
    span_m: Option<f64>,
    chord_m: Option<f64>,
}

impl<'a> About<'a> {
    /// Puts an answer into its envelope that does not list its flags itself.
    pub fn around_flagged<T: Serialize>(self, answer: T) -> Enveloped<'a, Flagged<T>> {
        let flags = self.flags;
        self.around(Flagged { answer, flags })
    }

    /// Puts an answer into its envelope.
    pub fn around<T: Serialize>(self, answer: T) -> Enveloped<'a, T> {
        let boat = &self.file.boat;
        let size = self.planes.pair.map(|pair| pair.in_metres());
        let silences = self.sense.silences.iter();
        Enveloped {
            program: env!("CARGO_PKG_NAME"),
            version: env!("CARGO_PKG_VERSION"),
            name: boat.name(),
            scenario: boat.input().scenario.as_deref(),
            input: Input {
                file: &self.file.name,
                crc32: self.file.checksum(),
                stations: boat.stations().map(StationsFile::of),
            },
            condition: &boat.condition().name,
            planes: Planes {
                source: self.planes.word(),
                span_m: size.map(|[span_m, _]| span_m),
                chord_m: size.map(|[_, chord_m]| chord_m),
            },
            answer,
            flag_meanings: self.flags.iter().map(|flag| (flag.word(), flag.meaning())).collect(),
            questions: self.sense.questions.iter().map(QuestionWritten::of).collect(),
            silences: silences.map(|silent| SilenceWritten::of(silent, self.units)).collect(),
            warnings: self.file.warnings.iter().map(ToString::to_string).collect(),
            files: self.files,
            caution: CAUTION,
        }
    }
}

/// A question about the boat; its numbers are in the unit that it names.
#[derive(Serialize)]
struct QuestionWritten<'a> {
    word: &'static str,
    key: &'a str,
    condition: Option<&'a str>,
    unit: &'static str,
    value: f64,
    usual: [f64; 2],
    rule: &'a str,
    cause: &'a str,
    cure: &'a str,
}

impl<'a> QuestionWritten<'a> {
    fn of(question: &'a Question) -> Self {
        Self {
            word: question.word,
            key: &question.key,
            condition: question.condition.as_deref(),
            unit: question.value.unit(),
            value: question.value.value(),
            usual: question.usual.map(|end| end.value()),
            rule: &question.rule,
            cause: &question.cause,
            cure: &question.cure,
        }
    }
}

/// Why nothing can be said about planes, in one loading condition or in all.
#[derive(Serialize)]
struct SilenceWritten<'a> {
    word: &'static str,
    condition: Option<&'a str>,
    sentence: String,
    cure: &'static str,
}

impl<'a> SilenceWritten<'a> {
    fn of(silent: &'a Silent, units: UnitChoice) -> Self {
        Self {
            word: silent.silence.word(),
            condition: silent.condition.as_deref(),
            sentence: silent.silence.sentence(units),
            cure: silent.silence.cure(),
        }
    }
}

/// What `size` answers: computed once, for whoever shows it.
///
/// ```
/// let file = planewright::read_boat("data/boats/wren.toml".as_ref())?;
/// let answer = planewright::SizeAnswer::of(file)?;
/// let json = serde_json::to_value(&answer)?; // as `planewright size --json`
/// assert_eq!(json["answer"], "pair");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug)]
pub struct SizeAnswer {
    /// The boat file, with the boat in the first of the conditions.
    pub file: BoatFile,
    /// The boat in each loading condition asked about.
    pub boats: Vec<Boat>,
    /// How the balances were computed.
    pub settings: Settings,
    /// Units of texts; numbers are in SI.
    pub units: UnitChoice,
    /// The pair, and why.
    pub suggestion: Suggestion,
    /// Effect of the estimates on it.
    pub effects: Vec<Effect>,
}

/// What a sizing writes.
#[derive(Serialize)]
pub(crate) struct Written<'a, Shelf> {
    #[serde(flatten)]
    suggestion: &'a Suggestion,
    drive_trimmed_in: Vec<WithDrive>,
    estimates: &'a [Effect],
    #[serde(flatten)]
    shelf: Option<Shelf>,
}

impl SizeAnswer {
    /// The answer for a boat file in all its loading conditions, when nothing else is asked for.
    ///
    /// # Errors
    /// As [`crate::size::suggest_for`].
    pub fn of(file: BoatFile) -> Result<Self, Fault> {
        let boats = file.boat.in_all_conditions()?;
        let (units, settings) = (UnitSystem::default().into(), Settings::default());
        let drawn = Drawn::default();
        let answer = Self::alone(file, boats, units, settings, drawn, &|_| ())?;
        Ok(answer.with_beside(drawn.seed))
    }

    /// The answer for a boat of a file in some loading conditions, with so many boats drawn.
    ///
    /// What stands [beside](Self::with_beside) it is left out.
    ///
    /// # Errors
    /// As [`crate::size::suggest_for`].
    pub fn alone(
        file: BoatFile,
        boats: Vec<Boat>,
        units: UnitChoice,
        settings: Settings,
        drawn: Drawn,
        progress: Progress<'_>,
    ) -> Result<Self, Fault> {
        let suggestion = advise_with(&boats, &settings, drawn, progress)?;
        let file = BoatFile { boat: boats[0].clone(), ..file };
        Ok(Self { file, boats, settings, units, suggestion, effects: Vec::new() })
    }

    /// The same with what the estimates do to it, and with what another theory would lead to on boats
    /// drawn from a seed.
    #[must_use]
    pub fn with_beside(mut self, seed: u64) -> Self {
        let (boats, settings) = (&self.boats, &self.settings);
        (self.effects, self.suggestion.other_model) = rayon::join(
            || effects_for(boats, settings, &self.suggestion),
            || other_model(boats, settings, seed),
        );
        self
    }

    /// The boat in the first of the conditions.
    #[must_use]
    pub const fn boat(&self) -> &Boat {
        &self.file.boat
    }

    /// The same as it is told.
    #[must_use]
    pub fn told(&self) -> Sizing<'_> {
        Sizing {
            boats: &self.boats,
            suggestion: &self.suggestion,
            effects: &self.effects,
            settings: &self.settings,
            units: self.units,
        }
    }

    /// What must be settled before it is believed.
    #[must_use]
    pub fn sense(&self) -> Sense {
        Sense::of(&self.boats, &self.settings)
    }

    /// As JSON, with the files written beside it and what a stock list adds.
    pub(crate) fn enveloped<'a, Shelf: Serialize>(
        &'a self,
        sense: &'a Sense,
        files: Vec<String>,
        shelf: Option<Shelf>,
    ) -> Enveloped<'a, Written<'a, Shelf>> {
        let about = About {
            file: &self.file,
            planes: self.suggestion.used(),
            flags: self.suggestion.flags,
            sense,
            files,
            units: self.units,
        };
        about.around(Written {
            suggestion: &self.suggestion,
            drive_trimmed_in: drive::duties(&self.told()),
            estimates: &self.effects,
            shelf,
        })
    }
}

/// The object that `size --json` prints.
impl Serialize for SizeAnswer {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let written = rounded(&self.enveloped(&self.sense(), Vec::new(), None::<()>));
        written.map_err(S::Error::custom)?.serialize(serializer)
    }
}

/// An answer as data: every number with as many digits as it means.
///
/// A result of the library that is written by itself keeps all its digits.
pub(crate) fn rounded(answer: &impl Serialize) -> Result<Value, serde_json::Error> {
    let mut value = serde_json::to_value(answer)?;
    round(&mut value);
    Ok(value)
}

/// Whole numbers, such as counts, stay as they are.
fn round(value: &mut Value) {
    match value {
        Value::Number(number) if number.is_f64() => {
            let rounded = number.as_f64().map(as_data).and_then(Number::from_f64);
            if let Some(rounded) = rounded {
                *number = rounded;
            }
        }
        Value::Array(values) => values.iter_mut().for_each(round),
        Value::Object(fields) => fields.values_mut().for_each(round),
        Value::Null | Value::Bool(_) | Value::Number(_) | Value::String(_) => {}
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn regression_numbers_are_rounded_wherever_they_stand_and_order_is_kept() {
        #[derive(Serialize)]
        struct Answer {
            speed_m_s: f64,
            count: u64,
            ends: [Option<f64>; 2],
            name: &'static str,
        }
        let answer = Answer {
            speed_m_s: 0.1 + 0.2,
            count: 12_345_678_901,
            ends: [Some(14.999_999_999_999_998), None],
            name: "0.30000000000000004",
        };
        let written = rounded(&json!({ "rows": [answer] })).unwrap();
        assert_eq!(
            written.to_string(),
            r#"{"rows":[{"speed_m_s":0.3,"count":12345678901,"ends":[15.0,null],"name":"0.30000000000000004"}]}"#
        );
    }
}
