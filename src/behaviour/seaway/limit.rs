//! The speed that keeps an acceleration within a limit.

use serde::Serialize;
use uom::si::f64::{Acceleration, Length, Velocity};
use uom::si::velocity::meter_per_second;

use super::{Ranged, Ride, Seaway, Stance, in_g};
use crate::balance::Point;
use crate::balance::sweep::planing_start;
use crate::boat::Fault;
use crate::field::{InSi, by_word, written};
use crate::hydro::seaway::highest_over_mean;

/// Speeds looked at between the start of planing and top speed.
const LOOKS: u32 = 60;
/// Halvings of the interval in which the limit is reached.
const HALVINGS: u32 = 30;

/// Which peaks are averaged.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Peaks {
    /// All.
    #[default]
    All,
    /// The highest third.
    Third,
    /// The highest tenth.
    Tenth,
}

by_word!(Peaks, Place);

impl Peaks {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::All => "all",
            Self::Third => "third",
            Self::Tenth => "tenth",
        }
    }

    /// Their mean over the mean of all peaks.
    #[must_use]
    pub fn factor(self) -> f64 {
        match self {
            Self::All => 1.0,
            Self::Third => highest_over_mean(3.0),
            Self::Tenth => highest_over_mean(10.0),
        }
    }
}

/// Where an acceleration is felt.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Place {
    /// At the centre of gravity.
    #[default]
    Centre,
    /// At the bow.
    Bow,
}

impl Place {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Centre => "centre",
            Self::Bow => "bow",
        }
    }
}

/// An acceleration not to be exceeded.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// The most allowed.
    pub most: Acceleration,
    /// Which peaks are averaged.
    pub peaks: Peaks,
    /// Where.
    pub place: Place,
}

/// Up to which speed a limit is kept, from the start of planing on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Keeps {
    /// At all speeds at which she runs, to top speed.
    Throughout,
    /// Up to a speed, where it is reached or she ceases to run.
    UpTo(Velocity),
    /// It is exceeded as soon as she planes.
    Nowhere,
    /// She runs in balance at no speed.
    NeverRuns,
}

/// Up to which speed a limit is kept, by what the equations give and by the upper end of its range.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Kept {
    /// By the value itself: beyond it about as often as not.
    pub expected: Keeps,
    /// By the upper end of the range, which one tank run in twenty exceeds.
    pub surely: Keeps,
}

/// The fastest that keeps a limit in waves of one height.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Fastest {
    /// Significant wave height.
    #[serde(skip)]
    pub wave_height: Length,
    /// Planes up.
    #[serde(rename = "planes_up")]
    pub up: Kept,
    /// Planes down; none without planes.
    #[serde(rename = "planes_down")]
    pub down: Option<Kept>,
}

impl Keeps {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Throughout => "throughout",
            Self::UpTo(_) => "up-to",
            Self::Nowhere => "nowhere",
            Self::NeverRuns => "never-runs",
        }
    }

    /// The speed up to which it is kept, where that is one below top speed.
    #[must_use]
    pub const fn up_to(self) -> Option<Velocity> {
        match self {
            Self::UpTo(speed) => Some(speed),
            _ => None,
        }
    }
}

written! {
    Limit as limit {
        "most_g": in_g(limit.most),
        "peaks": limit.peaks,
        "place": limit.place,
    }
    Keeps as keeps {
        "kept": keeps.word(),
        "up_to_m_s": keeps.up_to().in_si(),
    }
}

/// The fastest speeds that keep a limit in waves of a height.
///
/// # Errors
/// As [`crate::balance::Balance::point`].
pub fn fastest(sea: &Seaway<'_>, wave_height: Length, limit: &Limit) -> Result<Fastest, Fault> {
    Looks::of(sea)?.fastest(wave_height, limit)
}

/// How she runs in calm water at many speeds between the start of planing and top speed.
pub(super) struct Looks<'a> {
    sea: &'a Seaway<'a>,
    stances: Vec<Stance>,
}

/// The run that is asked about.
type Pick = fn(&Stance) -> Option<&Point>;

/// Which end of the range is held against the limit.
type End = fn(Ranged<Acceleration>) -> Acceleration;

impl<'a> Looks<'a> {
    /// Looks at every speed.
    ///
    /// # Errors
    /// As [`crate::balance::Balance::point`].
    pub fn of(sea: &'a Seaway<'a>) -> Result<Self, Fault> {
        let start = planing_start(sea.boat());
        let room = sea.boat().drive().top_speed - start;
        let steps = if room.get::<meter_per_second>() > 0.0 { LOOKS } else { 0 };
        let at = |look: u32| sea.stance(start + room * (f64::from(look) / f64::from(LOOKS)));
        Ok(Self { sea, stances: (0..=steps).map(at).collect::<Result<_, _>>()? })
    }

    /// The fastest speeds that keep a limit in waves of a height.
    pub fn fastest(&self, wave_height: Length, limit: &Limit) -> Result<Fastest, Fault> {
        let kept = |pick: Pick| -> Result<Kept, Fault> {
            let by = |end: End| {
                self.keeps(pick, |point| excess(self.sea, point, wave_height, limit, end))
            };
            Ok(Kept { expected: by(|peak| peak.value)?, surely: by(|peak| peak.high)? })
        };
        let has_planes = self.sea.boat().planes().is_some();
        Ok(Fastest {
            wave_height,
            up: kept(|stance| Some(&stance.up))?,
            down: has_planes.then(|| kept(|stance| stance.down.as_ref())).transpose()?,
        })
    }

    fn keeps(&self, pick: Pick, excess: impl Fn(&Point) -> Option<f64>) -> Result<Keeps, Fault> {
        // How far over the limit she is; none where she does not run.
        let over = |stance: &Stance| pick(stance).and_then(&excess);
        let mut last_kept = None;
        for stance in &self.stances {
            let speed = stance.up.speed;
            match (over(stance), last_kept) {
                (Some(excess), _) if excess <= 0.0 => last_kept = Some(speed),
                // Not up to speed yet: she does not run so slow.
                (None, None) => {}
                (_, None) => return Ok(Keeps::Nowhere),
                (_, Some(kept)) => return Ok(Keeps::UpTo(self.edge(kept, speed, over)?)),
            }
        }
        Ok(if last_kept.is_some() { Keeps::Throughout } else { Keeps::NeverRuns })
    }

    /// The last speed that keeps the limit, between one that does and one that does not.
    fn edge(
        &self,
        mut kept: Velocity,
        mut exceeded: Velocity,
        over: impl Fn(&Stance) -> Option<f64>,
    ) -> Result<Velocity, Fault> {
        for _ in 0..HALVINGS {
            let middle = (kept + exceeded) * 0.5;
            if over(&self.sea.stance(middle)?).is_some_and(|excess| excess <= 0.0) {
                kept = middle;
            } else {
                exceeded = middle;
            }
        }
        Ok(kept)
    }
}

/// The acceleration over the limit, less 1.
fn excess(
    sea: &Seaway<'_>,
    point: &Point,
    wave_height: Length,
    limit: &Limit,
    end: End,
) -> Option<f64> {
    let Ride { centre, bow, .. } = sea.ride(point, wave_height)?;
    let mean = end(match limit.place {
        Place::Centre => centre,
        Place::Bow => bow,
    });
    Some((mean / limit.most).value * limit.peaks.factor() - 1.0)
}
