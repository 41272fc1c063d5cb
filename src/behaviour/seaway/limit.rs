//! The speed that keeps an acceleration within a limit.

use uom::si::f64::{Acceleration, Length, Velocity};
use uom::si::velocity::meter_per_second;

use super::{Seaway, Stance};
use crate::balance::Point;
use crate::balance::sweep::planing_start;
use crate::boat::Fault;
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

impl Peaks {
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

/// The fastest that keeps a limit in waves of one height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fastest {
    /// Significant wave height.
    pub wave_height: Length,
    /// Planes up.
    pub up: Keeps,
    /// Planes down; none without planes.
    pub down: Option<Keeps>,
}

/// The fastest speeds that keep a limit in waves of a height.
///
/// # Errors
/// As [`crate::balance::Balance::point`].
pub fn fastest(sea: &Seaway<'_>, wave_height: Length, limit: &Limit) -> Result<Fastest, Fault> {
    let keeps = |pick: &dyn Fn(&Stance) -> Option<Point>| {
        // How far over the limit she is; none where she does not run.
        let over = |speed: Velocity| -> Result<Option<f64>, Fault> {
            let stance = sea.stance(speed)?;
            Ok(pick(&stance).and_then(|point| over(sea, &point, wave_height, limit)))
        };
        keeps(sea, over)
    };
    let up = keeps(&|stance| Some(stance.up.clone()))?;
    let has_planes = sea.boat().planes().is_some();
    let down = has_planes.then(|| keeps(&|stance| stance.down.clone())).transpose()?;
    Ok(Fastest { wave_height, up, down })
}

/// The acceleration over the limit, less 1.
fn over(sea: &Seaway<'_>, point: &Point, wave_height: Length, limit: &Limit) -> Option<f64> {
    let ride = sea.ride(point, wave_height)?;
    let mean = match limit.place {
        Place::Centre => ride.centre,
        Place::Bow => ride.bow,
    };
    Some((mean / limit.most).value * limit.peaks.factor() - 1.0)
}

fn keeps(
    sea: &Seaway<'_>,
    over: impl Fn(Velocity) -> Result<Option<f64>, Fault>,
) -> Result<Keeps, Fault> {
    let start = planing_start(sea.boat());
    let step = (sea.boat().drive().top_speed - start).max(Velocity::default()) / f64::from(LOOKS);
    let mut last_kept = None;
    for look in 0..=LOOKS {
        let speed = start + step * f64::from(look);
        match (over(speed)?, last_kept) {
            (Some(excess), _) if excess <= 0.0 => last_kept = Some(speed),
            // Not up to speed yet: she does not run so slow.
            (None, None) => {}
            (_, None) => return Ok(Keeps::Nowhere),
            (_, Some(kept)) => return Ok(Keeps::UpTo(edge(kept, speed, over)?)),
        }
        if step.get::<meter_per_second>() <= 0.0 {
            break;
        }
    }
    Ok(if last_kept.is_some() { Keeps::Throughout } else { Keeps::NeverRuns })
}

/// The last speed that keeps the limit, between one that does and one that does not.
fn edge(
    mut kept: Velocity,
    mut exceeded: Velocity,
    over: impl Fn(Velocity) -> Result<Option<f64>, Fault>,
) -> Result<Velocity, Fault> {
    for _ in 0..HALVINGS {
        let middle = (kept + exceeded) * 0.5;
        if over(middle)?.is_some_and(|excess| excess <= 0.0) {
            kept = middle;
        } else {
            exceeded = middle;
        }
    }
    Ok(kept)
}
