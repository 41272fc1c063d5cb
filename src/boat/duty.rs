//! What is asked of the planes of a boat: each kind of duty, its keys in a boat file, how it is made
//! of what they hold and written back, what cannot hold together, and what it asks at which speeds.
//!
//! Whoever uses a duty asks for its [`Aim`] and its [`Speeds`]; no kind of duty is known elsewhere
//! but in [`crate::sentence::duty`], where its words stand.

mod aim;
mod values;

use uom::si::f64::{Angle, Ratio, Velocity};

pub use aim::{Aim, ListCause, Speeds};
pub(crate) use values::{DutyKind, DutyValues};

use super::condition::same_name;
use super::keys::{quantity, text};
use super::measure::Named;
use super::{Fault, Hull, Measure};
use crate::schema::Kind::{Choice, Names, Quantity};
use crate::schema::Need::{Always, Else};
use crate::schema::{Kind, Row};
use crate::units::Dimension;

/// What must hold at a condition: the reason for fitting planes at all.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Duty {
    /// So many degrees taken off the running trim with planes up, with all usable deflection.
    Relief {
        /// Least that is taken off.
        at_least: Angle,
        /// The speeds over which it holds, slower end first; at the hump when absent.
        over: Option<[Velocity; 2]>,
    },
    /// Running trim at most `at_most` from speed `from` to speed `to`.
    HumpTrim {
        /// Largest running trim.
        at_most: Angle,
        /// Slowest speed it must hold at.
        from: Velocity,
        /// Fastest speed it must hold at.
        to: Velocity,
    },
    /// Resistance within a share of the least that any admissible pair reaches at a speed.
    LeastResistance {
        /// Allowed excess over the least.
        within: Ratio,
        /// The speed.
        speed: Velocity,
    },
    /// Trim below the porpoising limit by a margin, up to a speed.
    PorpoisingMargin {
        /// Margin under the lower of the published limits.
        margin: Angle,
        /// Fastest speed it must hold at.
        up_to: Velocity,
    },
    /// A heeling moment levelled at a speed.
    List {
        /// What heels the boat.
        cause: ListCause,
        /// The speed.
        speed: Velocity,
    },
}

/// A duty, and where it holds.
#[derive(Clone, Debug, PartialEq)]
pub struct DutyInput {
    /// What must hold.
    pub duty: Duty,
    /// Names of the loading conditions in which it must; in all of them when empty.
    pub conditions: Vec<String>,
}

impl DutyInput {
    /// Whether it holds in the condition of that name.
    #[must_use]
    pub fn holds_in(&self, condition: &str) -> bool {
        self.conditions.is_empty() || self.conditions.iter().any(|name| same_name(name, condition))
    }
}

impl From<Duty> for DutyInput {
    fn from(duty: Duty) -> Self {
        Self { duty, conditions: Vec::new() }
    }
}

/// All kinds of duty.
pub(crate) const KINDS: &[&DutyKind] =
    &[&RELIEF, &HUMP_TRIM, &LEAST_RESISTANCE, &PORPOISING_MARGIN, &LIST];

/// Their words, in the same order.
const WORDS: [&str; KINDS.len()] = {
    let mut words = [""; KINDS.len()];
    let mut index = 0;
    while index < KINDS.len() {
        words[index] = KINDS[index].word;
        index += 1;
    }
    words
};

const SPEED: Kind = Quantity(Dimension::Speed);
const ANGLE: Kind = Quantity(Dimension::Angle);

/// The keys of the table `duty`.
#[rustfmt::skip]
pub(super) const KEYS: &[Row] = &[
    text("kind", Choice(&WORDS), Always, "relief", "what must hold"),
    quantity("at_least", ANGLE, Else("needed by relief"), (0.1, 8.0), (0.5, 4.0), "2 deg", "trim taken off"),
    quantity("at_most", ANGLE, Else("needed by hump-trim"), (2.0, 15.0), (3.0, 8.0), "5 deg", "largest running trim"),
    quantity("from", SPEED, Else("needed by hump-trim; with to, relief holds over that range and not at the hump alone"), (0.1, 60.0), (3.0, 20.0), "10 kn", "slowest speed of the duty"),
    quantity("to", SPEED, Else("needed by hump-trim, and by relief that gives from"), (0.1, 60.0), (3.0, 30.0), "18 kn", "fastest speed of the duty"),
    quantity("within", Quantity(Dimension::Fraction), Else("needed by least-resistance"), (0.0, 100.0), (0.5, 20.0), "3 %", "allowed excess over the least resistance"),
    quantity("speed", SPEED, Else("needed by least-resistance and list"), (0.1, 60.0), (3.0, 30.0), "22 kn", "speed of the duty"),
    quantity("margin", ANGLE, Else("needed by porpoising-margin"), (0.0, 5.0), (0.0, 2.0), "1 deg", "margin under the porpoising limit"),
    quantity("up_to", SPEED, Else("needed by porpoising-margin"), (0.1, 60.0), (3.0, 30.0), "30 kn", "fastest speed of the duty"),
    quantity("moment", Quantity(Dimension::Torque), Else("needed by list, or else mass and distance"), (-1.0e6, 1.0e6), (-20_000.0, 20_000.0), "700 N m", "heeling moment, positive when starboard goes down"),
    quantity("mass", Quantity(Dimension::Mass), Else("needed by list, with distance, or else moment"), (0.0, 50_000.0), (20.0, 1000.0), "90 kg", "mass off the centreline"),
    quantity("distance", Quantity(Dimension::Length), Else("needed by list, with mass, or else moment"), (-6.0, 6.0), (-2.5, 2.5), "0.8 m", "its distance to starboard; negative to port"),
    text("condition", Names, Else("it holds in every loading condition"), "six aboard", "the loading condition, or a list of those, in which it must hold"),
];

const RELIEF: DutyKind = DutyKind {
    word: "relief",
    keys: &["at_least", "from", "to"],
    instead: &[],
    read: |given| {
        let at_least = given.needed("at_least");
        let over = if given.gives("from") || given.gives("to") {
            let [from, to] = ["from", "to"].map(|key| given.needed(key));
            Some([from?, to?])
        } else {
            None
        };
        Some(Duty::Relief { at_least: at_least?, over })
    },
};

const HUMP_TRIM: DutyKind = DutyKind {
    word: "hump-trim",
    keys: &["at_most", "from", "to"],
    instead: &[],
    read: |given| {
        let at_most = given.needed("at_most");
        let [from, to] = ["from", "to"].map(|key| given.needed(key));
        Some(Duty::HumpTrim { at_most: at_most?, from: from?, to: to? })
    },
};

const LEAST_RESISTANCE: DutyKind = DutyKind {
    word: "least-resistance",
    keys: &["within", "speed"],
    instead: &[],
    read: |given| {
        let within = given.needed("within");
        let speed = given.needed("speed");
        Some(Duty::LeastResistance { within: within?, speed: speed? })
    },
};

const PORPOISING_MARGIN: DutyKind = DutyKind {
    word: "porpoising-margin",
    keys: &["margin", "up_to"],
    instead: &[],
    read: |given| {
        let margin = given.needed("margin");
        let up_to = given.needed("up_to");
        Some(Duty::PorpoisingMargin { margin: margin?, up_to: up_to? })
    },
};

const LIST: DutyKind = DutyKind {
    word: "list",
    keys: &["speed", "moment", "mass", "distance"],
    instead: &["mass", "distance"],
    read: |given| {
        let speed = given.needed("speed");
        let cause = list_cause(given);
        Some(Duty::List { cause: cause?, speed: speed? })
    },
};

/// What heels the boat: a moment, or a mass off the centreline.
fn list_cause(given: &mut dyn DutyValues) -> Option<ListCause> {
    let by_moment = given.gives("moment");
    let by_mass = given.gives("mass") || given.gives("distance");
    if by_moment == by_mass {
        let (key, problem) = match by_moment {
            true => (Some("moment"), "this duty gives both a moment and a mass off the centreline"),
            false => (None, "this duty does not say what heels the boat"),
        };
        let remedy = "give moment = \"700 N m\", or mass = \"90 kg\" with distance = \"0.8 m\"";
        given.fault(key, problem, remedy);
        return None;
    }
    if by_moment {
        return given.value("moment")?.try_into().ok().map(ListCause::Moment);
    }
    let mass = given.needed("mass");
    let distance = given.needed("distance")?;
    Some(ListCause::OffCentre { mass: mass?, distance })
}

impl Duty {
    /// Its kind.
    const fn kind(&self) -> &'static DutyKind {
        match self {
            Self::Relief { .. } => &RELIEF,
            Self::HumpTrim { .. } => &HUMP_TRIM,
            Self::LeastResistance { .. } => &LEAST_RESISTANCE,
            Self::PorpoisingMargin { .. } => &PORPOISING_MARGIN,
            Self::List { .. } => &LIST,
        }
    }

    /// The word that names this duty in a boat file and in every output.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        self.kind().word
    }

    /// What it asks for.
    #[must_use]
    pub const fn aim(&self) -> Aim {
        match *self {
            Self::Relief { at_least, .. } => Aim::Relief(at_least),
            Self::HumpTrim { at_most, .. } => Aim::Trim(at_most),
            Self::LeastResistance { within, .. } => Aim::Resistance(within),
            Self::PorpoisingMargin { margin, .. } => Aim::Margin(margin),
            Self::List { cause, .. } => Aim::List(cause),
        }
    }

    /// At which speeds.
    #[must_use]
    pub const fn speeds(&self) -> Speeds {
        match *self {
            Self::Relief { over: None, .. } => Speeds::AtHump,
            Self::Relief { over: Some(ends), .. } => Speeds::Between(ends),
            Self::HumpTrim { from, to, .. } => Speeds::Between([from, to]),
            Self::LeastResistance { speed, .. } | Self::List { speed, .. } => Speeds::At(speed),
            Self::PorpoisingMargin { up_to, .. } => Speeds::UpTo(up_to),
        }
    }

    /// What heels the boat, where the duty is to level it.
    #[must_use]
    pub const fn list_cause(&self) -> Option<ListCause> {
        match self.aim() {
            Aim::List(cause) => Some(cause),
            _ => None,
        }
    }

    /// What it says in a boat file beside `kind`, by key.
    pub(crate) fn values(&self) -> Named {
        use Measure::{Angle, Length, Mass, Moment, Share, Speed};
        let ends = |[from, to]: [Velocity; 2]| [("from", Speed(from)), ("to", Speed(to))];
        match *self {
            Self::Relief { at_least, over } => {
                let over = over.map(ends).into_iter().flatten();
                std::iter::once(("at_least", Angle(at_least))).chain(over).collect()
            }
            Self::HumpTrim { at_most, from, to } => {
                std::iter::once(("at_most", Angle(at_most))).chain(ends([from, to])).collect()
            }
            Self::LeastResistance { within, speed } => {
                vec![("within", Share(within)), ("speed", Speed(speed))]
            }
            Self::PorpoisingMargin { margin, up_to } => {
                vec![("margin", Angle(margin)), ("up_to", Speed(up_to))]
            }
            Self::List { cause: ListCause::Moment(moment), speed } => {
                vec![("speed", Speed(speed)), ("moment", Moment(moment))]
            }
            Self::List { cause: ListCause::OffCentre { mass, distance }, speed } => {
                vec![("speed", Speed(speed)), ("mass", Mass(mass)), ("distance", Length(distance))]
            }
        }
    }

    /// What cannot hold together of values that are each allowed; `path` is where the duty stands in the file.
    pub(super) fn at_odds(&self, path: &str, hull: &Hull) -> Option<Fault> {
        if let Speeds::Between([from, to]) = self.speeds()
            && from > to
        {
            return Some(Fault {
                key: format!("{path}.from"),
                problem: format!(
                    "{} is faster than to, {}",
                    Measure::Speed(from),
                    Measure::Speed(to)
                ),
                remedy: "from is the slower end of the range".to_owned(),
            });
        }
        match self.list_cause()? {
            ListCause::OffCentre { distance, .. } if distance.abs() > hull.chine_beam => {
                Some(Fault {
                    key: format!("{path}.distance"),
                    problem: format!(
                        "{} off the centreline is outside the boat",
                        Measure::Length(distance)
                    ),
                    remedy: "give the distance to starboard, negative to port, within the boat"
                        .to_owned(),
                })
            }
            _ => None,
        }
    }
}
