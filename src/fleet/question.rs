//! What is asked of every boat of a table.

use uom::si::f64::{Angle, Velocity};

use super::cell::{Cell, Column};
use super::columns::{DEFLECTION, Heading, SPEED, Use};
use super::run;
use super::size::{self, SizeField};
use crate::balance::{Point, Settings};
use crate::boat::{Boat, Fault};
use crate::doubt::Drawn;
use crate::field::Field;
use crate::units::UnitChoice;

/// What is asked of every boat.
#[derive(Clone, Debug)]
pub enum Question {
    /// How she runs, point by point.
    Run(RunQuestion),
    /// Which planes she needs.
    Size(SizeQuestion),
}

/// How boats run: speeds and deflections that a row has no column for.
#[derive(Clone, Debug)]
pub struct RunQuestion {
    /// How the balances are computed.
    pub settings: Settings,
    /// Speeds through the water.
    pub speeds: Vec<Velocity>,
    /// Mean deflections of the planes.
    pub deflections: Vec<Angle>,
    /// Which numbers of a point are told.
    pub fields: Vec<Field<Point>>,
    /// Their units; SI with angles in degrees where none are chosen.
    pub units: Option<UnitChoice>,
}

impl RunQuestion {
    /// The usual numbers at some speeds with planes up, as boats are balanced when nothing else is asked for.
    #[must_use]
    pub fn at(speeds: Vec<Velocity>) -> Self {
        Self {
            settings: Settings::default(),
            speeds,
            deflections: vec![Angle::default()],
            fields: run::USUAL.to_vec(),
            units: None,
        }
    }
}

/// Which planes boats need.
#[derive(Clone, Debug)]
pub struct SizeQuestion {
    /// How the balances are computed.
    pub settings: Settings,
    /// The boats drawn on which a chance is counted.
    pub drawn: Drawn,
    /// What of the answer is told.
    pub fields: Vec<SizeField>,
    /// Units; SI with angles in degrees where none are chosen.
    pub units: Option<UnitChoice>,
}

impl Default for SizeQuestion {
    /// All that is told of a size, in SI.
    fn default() -> Self {
        Self {
            settings: Settings::default(),
            drawn: Drawn::default(),
            fields: size::ALL.to_vec(),
            units: None,
        }
    }
}

/// At which speed and deflection a row itself asks.
#[derive(Clone, Copy, Debug, Default)]
pub struct Steady {
    /// The speed in its column.
    pub speed: Option<Velocity>,
    /// The deflection in its column.
    pub deflection: Option<Angle>,
}

impl Question {
    /// Refuses a table that says no speed where none is asked about otherwise, or one where none is wanted.
    pub(super) fn check(&self, headings: &[Heading]) -> Result<(), Fault> {
        let has = |wanted: fn(&Use) -> bool| headings.iter().any(|heading| wanted(&heading.used));
        let (speed, deflection) =
            (has(|used| matches!(used, Use::Speed)), has(|used| matches!(used, Use::Deflection)));
        let refused = |key: &str, problem: &str, remedy: &str| {
            Err(Fault { key: key.into(), problem: problem.into(), remedy: remedy.into() })
        };
        match self {
            Self::Run(run) if run.speeds.is_empty() && !speed => refused(
                SPEED,
                "nothing says at which speeds the boats run",
                "say at which with --speed \"20 kn\" (in Python speeds=\"20 kn\"), or in a column `run.speed [kn]`",
            ),
            Self::Size(_) if speed || deflection => refused(
                if speed { SPEED } else { DEFLECTION },
                "a size is not asked for at one speed or deflection",
                "take the column out, or ask for `run`; a duty says at which speeds it holds",
            ),
            _ => Ok(()),
        }
    }

    /// All that is asked but the fields, which the columns tell.
    pub(super) fn description(&self) -> String {
        match self {
            Self::Run(run) => {
                format!("run {:?} {:?} {:?}", run.settings, run.speeds, run.deflections)
            }
            Self::Size(size) => format!("size {:?} {:?}", size.settings, size.drawn),
        }
    }

    /// The columns of the answer.
    pub(super) fn columns(&self) -> Vec<Column> {
        match self {
            Self::Run(run) => run::columns(run),
            Self::Size(size) => size::columns(size),
        }
    }

    /// The rows of one boat.
    pub(super) fn answer(&self, boat: &Boat, steady: &Steady) -> Result<Vec<Vec<Cell>>, Fault> {
        match self {
            Self::Run(run) => run::answer(run, boat, steady),
            Self::Size(size) => Ok(vec![size::answer(size, boat)?]),
        }
    }
}

/// What is asked about a boat before she is believed, in the words of its kinds.
pub(super) fn doubts(words: impl Iterator<Item = &'static str>) -> Cell {
    Cell::words(&words.collect::<Vec<_>>())
}
