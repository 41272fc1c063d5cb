//! What is asked of the planes of a boat.

use uom::si::f64::{Angle, Length, Mass, Ratio, Torque, Velocity};

use crate::boat::condition::same_name;

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

/// What a person wishes of the planes, in his own words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wish {
    /// The bow stands too high.
    BowHigh,
    /// She is slow to come onto the plane.
    SlowToPlane,
    /// She nods by herself at speed.
    Porpoises,
    /// She leans to one side.
    Leans,
    /// She pounds in a head sea.
    Pounds,
}

impl Wish {
    /// All of them.
    pub const ALL: [Self; 5] =
        [Self::BowHigh, Self::SlowToPlane, Self::Porpoises, Self::Leans, Self::Pounds];
    /// Their words in a boat file and on the command line, in the order of [`Self::ALL`].
    pub const WORDS: &[&str] = &["bow-high", "slow-to-plane", "porpoises", "leans", "pounds"];

    /// Its word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        Self::WORDS[self as usize]
    }
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

/// What heels the boat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ListCause {
    /// A moment about the fore-and-aft axis through the centre of gravity, positive when starboard goes down.
    Moment(Torque),
    /// Somebody or something off the centreline.
    OffCentre {
        /// Mass.
        mass: Mass,
        /// Distance to starboard of the centreline.
        distance: Length,
    },
}

impl Duty {
    /// The word that names this duty in a boat file and in every output.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Relief { .. } => "relief",
            Self::HumpTrim { .. } => "hump-trim",
            Self::LeastResistance { .. } => "least-resistance",
            Self::PorpoisingMargin { .. } => "porpoising-margin",
            Self::List { .. } => "list",
        }
    }
}
