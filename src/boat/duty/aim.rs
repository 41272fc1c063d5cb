//! What duties ask for, and at which speeds: the same few things, whatever the kind of duty.

use uom::si::f64::{Angle, Length, Mass, Ratio, Torque, Velocity};
use uom::si::{length::meter, mass::kilogram, torque::newton_meter};

use crate::physical::STANDARD_GRAVITY_M_S2;

/// What a duty asks for, at whatever speeds.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Aim {
    /// At least so much off the running trim with planes up.
    Relief(Angle),
    /// Running trim at most this.
    Trim(Angle),
    /// Trim at least this far under the lower of the published porpoising limits.
    Margin(Angle),
    /// Resistance at most this share above the least that any admissible pair reaches.
    Resistance(Ratio),
    /// What heels the boat levelled.
    List(ListCause),
}

/// The speeds at which a duty holds.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Speeds {
    /// At the hump, wherever that is.
    AtHump,
    /// At one speed.
    At(Velocity),
    /// From the first to the second, which is not slower.
    Between([Velocity; 2]),
    /// From the start of planing on.
    UpTo(Velocity),
}

impl Speeds {
    /// The slowest of the speeds that a boat file gives, with its key; none where it gives none.
    #[must_use]
    pub const fn slowest_given(self) -> Option<(&'static str, Velocity)> {
        match self {
            Self::AtHump => None,
            Self::At(speed) => Some(("speed", speed)),
            Self::Between([from, _]) => Some(("from", from)),
            Self::UpTo(up_to) => Some(("up_to", up_to)),
        }
    }

    /// The slowest and the fastest speed, on a boat that begins to plane at `start`; `hump` is asked for the speed of its hump where that matters.
    #[must_use]
    pub fn ends(self, start: Velocity, hump: impl FnOnce() -> Velocity) -> [Velocity; 2] {
        match self {
            Self::AtHump => [hump(); 2],
            Self::At(speed) => [speed; 2],
            Self::Between(ends) => ends,
            Self::UpTo(up_to) => [start, up_to],
        }
    }

    /// Whether the hump, a speed in the planing range, is among them.
    #[must_use]
    pub fn hold_at_hump(self, hump: Velocity) -> bool {
        match self {
            Self::AtHump => true,
            Self::At(speed) => speed == hump,
            Self::Between([from, to]) => (from..=to).contains(&hump),
            Self::UpTo(up_to) => hump <= up_to,
        }
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

impl ListCause {
    /// Its heeling moment, positive when starboard goes down.
    #[must_use]
    pub fn moment_n_m(self) -> f64 {
        match self {
            Self::Moment(moment) => moment.get::<newton_meter>(),
            Self::OffCentre { mass, distance } => {
                mass.get::<kilogram>() * STANDARD_GRAVITY_M_S2 * distance.get::<meter>()
            }
        }
    }
}
