//! A boat of which nothing can be said about planes, and why: the same words wherever she is asked about.

use uom::si::f64::Velocity;
use uom::si::velocity::meter_per_second;

use super::generate::{fastest_m_s, generated};
use super::loaded::Loaded;
use crate::balance::sweep::{planing_start, speeds, sweep, usual_step};
use crate::balance::{Balance, Outcome, Settings};
use crate::boat::{Boat, Fault};
use crate::units::{SpeedUnit, UnitChoice, UnitSystem, number_with_decimals};

/// Why nothing can be said about planes for a boat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Silence {
    /// Her top speed lies below the planing range, or ends where it begins.
    BelowPlaning {
        /// Where planing starts.
        start: Velocity,
        /// Her top speed.
        top: Velocity,
    },
    /// With planes up she is in balance at no speed up to her top speed, and no duty is given.
    NoBalance {
        /// Where planing starts.
        start: Velocity,
        /// Her top speed.
        top: Velocity,
        /// What happens at most of the speeds in place of running.
        outcome: Outcome,
    },
    /// She runs at some speeds, no duty is given, and none can be found that planes of usual size do.
    NoDuty {
        /// The slowest speed at which she runs.
        from: Velocity,
        /// The fastest.
        to: Velocity,
    },
}

impl Silence {
    /// Why nothing can be said about planes for a boat in the loading condition that she is in; none where something can.
    #[must_use]
    pub fn of(boat: &Boat, settings: &Settings) -> Option<Self> {
        let (start, top) = (planing_start(boat), boat.drive().top_speed);
        if fastest_m_s(boat) <= start.get::<meter_per_second>() {
            return Some(Self::BelowPlaning { start, top });
        }
        if boat.gives_duties() || !settings.method.is_full_balance() {
            return None;
        }
        let loaded = Loaded::all(std::slice::from_ref(boat), settings);
        if !generated(&loaded[0]).is_empty() {
            return None;
        }
        let balance = Balance::of(boat, settings);
        let all = speeds(boat, usual_step(SpeedUnit::Knot));
        let points = sweep(&balance, &all, uom::si::f64::Angle::default()).unwrap_or_default();
        let runs = |speeds: &[Velocity]| match speeds {
            [] => None,
            [first, .., last] => Some((*first, *last)),
            [only] => Some((*only, *only)),
        };
        let running = points.iter().filter(|point| point.running.is_some());
        let running: Vec<Velocity> = running.map(|point| point.speed).collect();
        Some(match runs(&running) {
            Some((from, to)) => Self::NoDuty { from, to },
            None => {
                let bow_up = |o: Outcome| o == Outcome::NoBalanceBowUp;
                let up = points.iter().filter(|point| bow_up(point.outcome)).count();
                let outcome = if 2 * up >= points.len() {
                    Outcome::NoBalanceBowUp
                } else {
                    Outcome::BowUnder
                };
                Self::NoBalance { start, top, outcome }
            }
        })
    }

    /// The stable word.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::BelowPlaning { .. } => "top-speed-below-planing",
            Self::NoBalance { .. } => "no-balance-at-any-speed",
            Self::NoDuty { .. } => "no-duty-to-ask",
        }
    }

    /// That nothing can be said, and why: one sentence.
    #[must_use]
    pub fn sentence(&self, units: UnitChoice) -> String {
        let text = |speed: Velocity| {
            let unit = units.speed;
            format!("{} {}", number_with_decimals(unit.value(speed), 1), unit.symbol())
        };
        let why = match self {
            Self::BelowPlaning { start, top } if top > start => format!(
                "her top speed, {}, hardly reaches the planing range, which begins at {} for her beam",
                text(*top),
                text(*start)
            ),
            Self::BelowPlaning { start, top } => format!(
                "her top speed, {}, lies below the planing range, which begins at {} for her beam",
                text(*top),
                text(*start)
            ),
            Self::NoBalance { start, top, outcome } => format!(
                "from the start of planing, {}, to her top speed, {}, she is in balance at no speed, since {}",
                text(*start),
                text(*top),
                match outcome {
                    Outcome::NoBalanceBowUp => "her stern is too heavy",
                    _ => "her bow is driven under",
                }
            ),
            Self::NoDuty { from, to } => format!(
                "with planes up she is in balance only from {} to {}, and planes of usual size can be asked for nothing there",
                text(*from),
                text(*to)
            ),
        };
        format!("Nothing can be said about planes for her: {why}.")
    }

    /// The same where a command cannot go on without planes.
    #[must_use]
    pub fn fault(&self) -> Fault {
        Fault {
            key: "planes".to_owned(),
            problem: self.sentence(UnitSystem::Marine.into()),
            remedy: self.cure().to_owned(),
        }
    }

    /// What to do about it.
    #[must_use]
    pub const fn cure(&self) -> &'static str {
        match self {
            Self::BelowPlaning { .. } => {
                "Check drive.top_speed with its unit, and hull.chine_beam; for a boat that is not made to plane no equation here holds."
            }
            Self::NoBalance { .. } => {
                "Check how far her centre of gravity lies forward of the transom, her mass, her top speed and the thrust line."
            }
            Self::NoDuty { .. } => {
                "Check how far her centre of gravity lies forward of the transom, her mass and her top speed; or give duties in the boat file."
            }
        }
    }
}
