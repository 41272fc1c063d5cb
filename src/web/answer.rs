//! What the library says to a request.

mod paper;
mod run;
mod shelf;

use crate::balance::Settings;
use crate::behaviour::sense::Sense;
use crate::boat::{Boat, Fault, PlanePair};
use crate::doubt::{advise_with, effects_for};
use crate::error::FileFaults;
use crate::input::BoatFile;
use crate::size::{Answer, Effect, Suggestion};
use crate::tell::sizing::{Sizing, in_steps_of};
use crate::units::UnitChoice;

use super::ask::{Ask, Planes, pair_word};
pub(super) use paper::{NoPaper, PaperName, gathered, paper};
pub(super) use run::{Run, Settled, Slider};
pub(super) use shelf::{ShelfAnswer, shelf};

/// Duties that a boat at the desk may have: each costs time that other visitors wait for.
const MOST_DUTIES: usize = 40;
/// Loading conditions that she may have, for the same reason.
const MOST_CONDITIONS: usize = 12;
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
    /// The boat in each of her loading conditions; the size is one for all of them.
    pub boats: Vec<Boat>,
    pub units: UnitChoice,
    /// What must be settled first.
    pub sense: Sense,
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

/// The boat of a request in each of her loading conditions, with sizes in whole steps of the units she is shown in.
fn boat_file(ask: &Ask) -> Result<(BoatFile, Vec<Boat>), Refused> {
    let file = ask.boat_file().map_err(Refused::Faults)?;
    let input = file.boat.input();
    within("duty", "duties", input.duties.len(), MOST_DUTIES)?;
    within("condition", "loading conditions", file.boat.conditions().len(), MOST_CONDITIONS)?;
    let boats = file.boat.in_all_conditions().map_err(Refused::Fault)?.into_iter();
    let boats = boats.map(|boat| in_steps_of(boat, ask.system.into())).collect::<Result<_, _>>();
    Ok((file, boats.map_err(|faults| Refused::Fault(faults.into()))?))
}

/// Refuses more of something than this page takes.
fn within(key: &str, what: &str, count: usize, most: usize) -> Result<(), Refused> {
    if count <= most {
        return Ok(());
    }
    Err(Refused::Fault(Fault {
        key: key.to_owned(),
        problem: format!("{count} {what} are more than the {most} that this page takes"),
        remedy: "leave out those that do not set the size, or use the command line".to_owned(),
    }))
}

/// How everything here is computed.
pub(super) fn settings() -> Settings {
    Settings::default()
}

impl Desk {
    /// Everything for the page of a boat.
    pub fn of(ask: Ask) -> Result<Self, Refused> {
        let (file, boats) = boat_file(&ask)?;
        let units: UnitChoice = ask.system.into();
        let sense = Sense::of(&boats, &settings());
        let suggestion = advise_with(&boats, &settings(), ask.drawn(), &|_| ());
        let effects = suggestion
            .as_ref()
            .map_or_else(|_| Vec::new(), |told| effects_for(&boats, &settings(), told));
        let shelf = shelf(&ask, &boats);
        let run = Run::of(&ask, &boats, units, suggestion.as_ref().ok());
        let choices = Vec::new();
        let mut desk =
            Self { ask, file, boats, units, sense, suggestion, effects, shelf, choices, run };
        desk.choices = desk.planes_to_try();
        Ok(desk)
    }

    /// The sizing, to be told as the command line tells it.
    pub fn told<'a>(&'a self, suggestion: &'a Suggestion, settings: &'a Settings) -> Sizing<'a> {
        let (boats, effects, units) = (&self.boats, &self.effects, self.units);
        Sizing { boats, suggestion, effects, settings, units }
    }

    /// The pair suggested, if one does all duties.
    pub fn pair(&self) -> Option<PlanePair> {
        match self.suggestion.as_ref().ok()?.answer {
            Answer::Pair(pair) => Some(pair),
            _ => None,
        }
    }

    fn planes_to_try(&self) -> Vec<Choice> {
        let text = |pair: PlanePair| pair.text(self.units);
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

/// Only what depends on the sliders: the answer to a drag.
pub(super) fn run_only(ask: &Ask) -> Result<(Run, UnitChoice), Refused> {
    let (_, boats) = boat_file(ask)?;
    let units: UnitChoice = ask.system.into();
    Ok((Run::of(ask, &boats, units, None), units))
}
