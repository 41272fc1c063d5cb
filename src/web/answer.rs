//! What the library says to a request.

mod mark;
mod paper;
mod run;
mod shelf;

use std::sync::Arc;

use crate::answer::SizeAnswer;
use crate::balance::Settings;
use crate::behaviour::sense::Sense;
use crate::boat::{Boat, Fault, PlanePair};
use crate::doubt::Progress;
use crate::error::FileFaults;
use crate::input::BoatFile;
use crate::size::{Answer, Suggestion};
use crate::tell::sizing::{Sizing, in_steps_of};
use crate::units::UnitChoice;

use super::ask::{Ask, Planes, pair_word};
use super::kept::{Kept, Key};
pub(super) use mark::{Marked, marked};
pub(super) use paper::{NoPaper, PaperName, gathered, paper};
pub(super) use run::{Run, Settled, Slider};
pub(super) use shelf::ShelfAnswer;
use shelf::shelf;

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

/// A boat with the size advised and the shelf ranked for her: the answer that page and papers share.
#[derive(Debug)]
pub(super) struct Sized {
    pub file: BoatFile,
    /// The boat in each of her loading conditions; the size is one for all of them.
    pub boats: Vec<Boat>,
    /// What must be settled first.
    pub sense: Sense,
    pub answer: Result<SizeAnswer, Fault>,
    pub shelf: Option<ShelfAnswer>,
}

/// The boat at the desk, with everything the page shows.
pub(super) struct Desk {
    pub ask: Ask,
    pub sized: Arc<Sized>,
    pub units: UnitChoice,
    pub choices: Vec<Choice>,
    pub run: Run,
    /// Where the planes tried stand on the transom.
    pub marked: Marked,
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
    let boats = boats.map(|boat| in_steps_of(boat, ask.steps.into())).collect::<Result<_, _>>();
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

impl Sized {
    /// The answer to what is asked, computed unless it is kept.
    pub fn of(ask: &Ask, kept: &Kept, progress: Progress<'_>) -> Result<Arc<Self>, Refused> {
        let key = key(ask);
        if let Some(known) = kept.sized.get(&key) {
            return Ok(known);
        }
        let (file, boats) = boat_file(ask)?;
        let sense = Sense::of(&boats, &settings());
        let (units, drawn) = (ask.system.into(), ask.drawn());
        let answer =
            SizeAnswer::alone(file.clone(), boats.clone(), units, settings(), drawn, progress)
                .map(|answer| answer.with_beside(drawn.seed));
        let shelf = shelf(ask, &boats, progress);
        Ok(kept.sized.put(key, Self { file, boats, sense, answer, shelf }))
    }

    /// The pair and why; the fault where there is none.
    pub fn suggestion(&self) -> Result<&Suggestion, &Fault> {
        self.answer.as_ref().map(|answer| &answer.suggestion)
    }
}

/// All that the answer depends on.
fn key(ask: &Ask) -> Key {
    let (name, text) = ask.file();
    Key { boat: (name, text.to_owned()), list: shelf::named(ask), steps: ask.steps }
}

impl Desk {
    /// Everything for the page of a boat.
    pub fn of(ask: Ask, kept: &Kept, progress: Progress<'_>) -> Result<Self, Refused> {
        let sized = Sized::of(&ask, kept, progress)?;
        let units: UnitChoice = ask.system.into();
        let run = Run::of(&ask, &sized.boats, units, sized.suggestion().ok());
        let marked = marked(&sized, run.used(), &ask);
        let choices = Vec::new();
        let mut desk = Self { ask, sized, units, choices, run, marked };
        desk.choices = desk.planes_to_try();
        Ok(desk)
    }

    /// The boat file.
    pub fn file(&self) -> &BoatFile {
        &self.sized.file
    }

    /// The boat in each of her loading conditions.
    pub fn boats(&self) -> &[Boat] {
        &self.sized.boats
    }

    /// The stock list ranked for her, or why it is not.
    pub fn shelf(&self) -> Option<&ShelfAnswer> {
        self.sized.shelf.as_ref()
    }

    /// The sizing, to be told as the command line tells it.
    pub fn told<'a>(&'a self, answer: &'a SizeAnswer) -> Sizing<'a> {
        Sizing { units: self.units, ..answer.told() }
    }

    /// The pair suggested, if one does all duties.
    pub fn pair(&self) -> Option<PlanePair> {
        match self.sized.suggestion().ok()?.answer {
            Answer::Pair(pair) => Some(pair),
            _ => None,
        }
    }

    /// Whether she was seen to run otherwise than she is described, so that nothing is to be bought yet.
    pub fn is_seen_otherwise(&self) -> bool {
        self.sized.suggestion().is_ok_and(Suggestion::is_seen_otherwise)
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
        if let Some(pair) = self.file().boat.planes() {
            add("fitted".to_owned(), format!("fitted now, {}", text(pair)));
        }
        if let Some(shelf) = self.shelf() {
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

/// The same where the request leaves something open, which the answer then decides.
pub(super) fn run_advised(
    ask: &Ask,
    kept: &Kept,
    progress: Progress<'_>,
) -> Result<(Run, UnitChoice), Refused> {
    let sized = Sized::of(ask, kept, progress)?;
    let units: UnitChoice = ask.system.into();
    Ok((Run::of(ask, &sized.boats, units, sized.suggestion().ok()), units))
}
