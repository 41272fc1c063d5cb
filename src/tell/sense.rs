//! What must be settled before an answer is believed: one block that stands first wherever a boat is spoken of.

use crate::behaviour::sense::{Sense, Silent};
use crate::boat::sense::Question;
use crate::document::{Block, Fact};
use crate::size::SeenTrims;
use crate::tell::reasons::{self, read_otherwise};
use crate::units::UnitChoice;

/// Title of the block.
pub const TITLE: &str = "To settle first";
const USUAL: &str =
    "What is usual is common practice, no source; the answer below is for the boat as described.";

/// Why nothing can be said, what the answer depends on in one line, and each question in full; nothing when all is clear.
#[must_use]
pub fn first(sense: &Sense, units: UnitChoice) -> Vec<Block> {
    let mut blocks = questions(sense, units, full);
    if !sense.questions.is_empty() {
        blocks.push(Block::Paragraph(USUAL.to_owned()));
    }
    blocks
}

/// The same in short: why nothing can be said, what the answer depends on, and what to write of each.
#[must_use]
pub fn in_short(sense: &Sense, units: UnitChoice) -> Vec<Block> {
    questions(sense, units, |question| {
        format!("{} is usual. Instead: {}.", question.usual_text(), question.cure)
    })
}

/// What stands first, each question with what is said of it; nothing when all is clear.
fn questions(sense: &Sense, units: UnitChoice, said: fn(&Question) -> String) -> Vec<Block> {
    if sense.is_clear() {
        return Vec::new();
    }
    let mut blocks = vec![Block::Alert(TITLE.to_owned())];
    blocks.extend(sense.silences.iter().map(|silent| Block::Lead(silence(silent, units))));
    if !sense.questions.is_empty() {
        blocks.push(Block::Lead(depends_on(&sense.questions)));
        let fact = |question: &Question| Fact::new(question.key.as_str(), said(question));
        blocks.push(Block::Terms(sense.questions.iter().map(fact).collect()));
    }
    blocks
}

/// The same as single lines, for where there is no room for blocks.
#[must_use]
pub fn lines(sense: &Sense, units: UnitChoice) -> Vec<String> {
    let silences = sense.silences.iter().map(|silent| silence(silent, units));
    let questions = &sense.questions;
    let depends_on = (!questions.is_empty()).then(|| depends_on(questions));
    let questions =
        questions.iter().map(|question| format!("{}: {}", question.key, full(question)));
    silences.chain(depends_on).chain(questions).collect()
}

/// Where trims were read that she cannot be brought to, that what is told is not hers; none where none was.
#[must_use]
pub fn seen_otherwise(seen: &SeenTrims, units: UnitChoice) -> Option<String> {
    read_otherwise(seen.otherwise(), units).map(|read| read.to_string())
}

/// Where trims were read, that all that is told is brought to them; none where none was or it could not be.
#[must_use]
pub fn brought_to(seen: &SeenTrims, units: UnitChoice) -> Option<String> {
    reasons::brought_to(seen, units).map(|said| said.to_string())
}

/// Why nothing can be said about planes, and what to do about it.
#[must_use]
pub fn silence(silent: &Silent, units: UnitChoice) -> String {
    let silence = silent.silence;
    let loaded = loaded(silent.condition.as_deref());
    format!("{loaded}{} {}", silence.sentence(units), silence.cure())
}

/// What the answer depends on, in one line.
fn depends_on(questions: &[Question]) -> String {
    let named = |question: &Question| format!("{}, {}", question.about, question.value_text());
    let names: Vec<String> = questions.iter().map(named).collect();
    let (names, verb) = match names.split_last() {
        Some((last, [])) => (last.clone(), "it is"),
        Some((last, others)) => (format!("{}, and on {last}", others.join(", on ")), "they are"),
        None => return String::new(),
    };
    format!("The answer depends on {names}: {verb} not usual for a boat like her.")
}

/// One question in full.
fn full(question: &Question) -> String {
    let loaded = loaded(question.condition.as_deref());
    format!(
        "{loaded}{} where {} is usual ({}). Likely cause: {}. Instead: {}.",
        question.value_text(),
        question.usual_text(),
        question.rule,
        question.cause,
        question.cure
    )
}

fn loaded(condition: Option<&str>) -> String {
    condition.map_or_else(String::new, |name| format!("In the loading `{name}`: "))
}
