//! A boat in waves: every speed and wave height that is asked for, and the limit that is to be kept.

use uom::si::f64::{Angle, Length, Velocity};

use super::limit::Looks;
use super::{Fastest, Limit, Seaway, Stance, usual_wave_heights};
use crate::balance::Settings;
use crate::boat::{Boat, Fault};

/// What is asked about a head sea.
#[derive(Clone, Debug, PartialEq)]
pub struct SeawayRequest {
    /// Significant wave heights; the usual ones for her beam when empty.
    pub waves: Vec<Length>,
    /// Speeds.
    pub speeds: Vec<Velocity>,
    /// Trim to which the planes bring her down.
    pub down_to: Angle,
    /// Acceleration not to be exceeded.
    pub limit: Option<Limit>,
}

/// The answer.
#[derive(Clone, Debug)]
pub struct Seen {
    /// The boat with the planes used.
    pub boat: Boat,
    /// Trim to which the planes bring her down.
    pub down_to: Angle,
    /// Significant wave heights.
    pub waves: Vec<Length>,
    /// How she runs at each speed.
    pub stances: Vec<Stance>,
    /// Acceleration not to be exceeded.
    pub limit: Option<Limit>,
    /// The fastest that keeps it at each wave height; empty without a limit.
    pub fastest: Vec<Fastest>,
    settings: Settings,
}

impl Seen {
    /// A boat with the planes she has, as asked.
    ///
    /// # Errors
    /// As [`Seaway::stance`].
    pub fn of(boat: Boat, settings: &Settings, asked: &SeawayRequest) -> Result<Self, Fault> {
        let waves = match asked.waves.as_slice() {
            [] => usual_wave_heights(&boat).to_vec(),
            given => given.to_vec(),
        };
        let (down_to, limit) = (asked.down_to, asked.limit);
        let sea = Seaway::of(&boat, settings, down_to);
        let stances =
            asked.speeds.iter().map(|&speed| sea.stance(speed)).collect::<Result<_, _>>()?;
        let fastest = match &limit {
            Some(limit) => {
                let looks = Looks::of(&sea)?;
                let at = |&height| looks.fastest(height, limit);
                waves.iter().map(at).collect::<Result<_, _>>()?
            }
            None => Vec::new(),
        };
        Ok(Self { boat, down_to, waves, stances, limit, fastest, settings: *settings })
    }

    /// The boat ready to be asked for more.
    #[must_use]
    pub fn sea(&self) -> Seaway<'_> {
        Seaway::of(&self.boat, &self.settings, self.down_to)
    }

    /// The row that stands for all in a sentence: the middle one of those at which she runs.
    #[must_use]
    pub fn usual_stance(&self) -> Option<&Stance> {
        let running: Vec<_> = self.stances.iter().filter(|s| s.up.running.is_some()).collect();
        running.get(running.len() / 2).copied()
    }

    /// The wave height that stands for all.
    #[must_use]
    pub fn usual_wave_height(&self) -> Length {
        self.waves[self.waves.len() / 2]
    }
}
