//! What the library says to a request.

mod run;
mod shelf;

use crate::balance::Settings;
use crate::boat::Fault;
use crate::error::FileFaults;
use crate::input::BoatFile;
use crate::size::{Answer, Effect, Suggestion, effects, in_steps_of, suggest};
use crate::units::UnitChoice;

use super::ask::{Ask, Planes, pair_word};
pub(super) use run::{Run, Settled, Slider};
pub(super) use shelf::{ShelfAnswer, shelf};

/// Duties that a boat at the desk may have: each costs time that other visitors wait for.
const MOST_DUTIES: usize = 40;
/// Parts of the shelf that are offered to try on the boat.
const RUNNERS_UP: usize = 3;

/// Why there is no boat at the desk.
#[derive(Debug)]
pub(super) enum Refused {
    /// The boat file has faults.
    Faults(FileFaults),
    /// The boat asks for something that this page, or no boat, can do.
    Fault(Fault),
}

/// The boat at the desk, with everything the page shows.
pub(super) struct Desk {
    pub ask: Ask,
    pub file: BoatFile,
    pub units: UnitChoice,
    pub suggestion: Result<Suggestion, Fault>,
    pub effects: Vec<Effect>,
    pub shelf: Option<ShelfAnswer>,
    pub choices: Vec<Choice>,
    pub run: Run,
}

/// Planes that may be tried on the boat.
pub(super) struct Choice {
    /// Value of the choice.
    pub word: String,
    /// What it is called.
    pub label: String,
}

/// The boat of a request, with sizes in whole steps of the units it is shown in.
fn boat_file(ask: &Ask) -> Result<BoatFile, Refused> {
    let mut file = ask.boat_file().map_err(Refused::Faults)?;
    let count = file.boat.duties().len();
    if count > MOST_DUTIES {
        return Err(Refused::Fault(Fault {
            key: "duty".to_owned(),
            problem: format!("{count} duties are more than the {MOST_DUTIES} that this page takes"),
            remedy: "leave out those that do not set the size, or use the command line".to_owned(),
        }));
    }
    file.boat = in_steps_of(file.boat, ask.system.into()).map_err(first)?;
    Ok(file)
}

fn first(faults: Vec<Fault>) -> Refused {
    let unknown = || Fault {
        key: "boat".to_owned(),
        problem: "it cannot be built".to_owned(),
        remedy: "check the boat file".to_owned(),
    };
    Refused::Fault(faults.into_iter().next().unwrap_or_else(unknown))
}

/// How everything here is computed.
pub(super) fn settings() -> Settings {
    Settings::default()
}

impl Desk {
    /// Everything for the page of a boat.
    pub fn of(ask: Ask) -> Result<Self, Refused> {
        let file = boat_file(&ask)?;
        let units: UnitChoice = ask.system.into();
        let suggestion = suggest(&file.boat, &settings());
        let effects = effects(&file.boat, &settings());
        let shelf = shelf(&ask, &file.boat);
        let run = Run::of(&ask, &file.boat, units, suggestion.as_ref().ok());
        let mut desk =
            Self { ask, file, units, suggestion, effects, shelf, choices: Vec::new(), run };
        desk.choices = desk.planes_to_try();
        Ok(desk)
    }

    /// The pair suggested, if one does all duties.
    pub fn pair(&self) -> Option<crate::boat::PlanePair> {
        match self.suggestion.as_ref().ok()?.answer {
            Answer::Pair(pair) => Some(pair),
            _ => None,
        }
    }

    fn planes_to_try(&self) -> Vec<Choice> {
        let text = |pair| crate::size::explain::pair_text(pair, self.units);
        let mut choices: Vec<Choice> = Vec::new();
        let mut add = |word: String, label: String| {
            if choices.iter().all(|choice| choice.word != word) {
                choices.push(Choice { word, label });
            }
        };
        if let Some(pair) = self.pair() {
            add(pair_word(pair), format!("suggested, {}", text(pair)));
        }
        if let Some(pair) = self.file.boat.planes() {
            add("fitted".to_owned(), format!("fitted now, {}", text(pair)));
        }
        if let Some(shelf) = &self.shelf {
            for ranked in shelf.first(RUNNERS_UP) {
                add(pair_word(ranked.part.pair()), format!("from the shelf, {}", ranked.part.name));
            }
        }
        if let Planes::Pair(pair) = self.run.planes {
            add(pair_word(pair), text(pair));
        }
        add("none".to_owned(), "no planes".to_owned());
        choices
    }
}

/// Only what hangs on the sliders: the answer to a drag.
pub(super) fn run_only(ask: &Ask) -> Result<(Run, UnitChoice), Refused> {
    let file = boat_file(ask)?;
    let units: UnitChoice = ask.system.into();
    Ok((Run::of(ask, &file.boat, units, None), units))
}
