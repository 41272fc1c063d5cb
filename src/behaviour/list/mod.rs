//! List: what heels the boat, the deflections that level her, and how sure that is.
//!
//! A moment that presses starboard down is positive. It is taken about the
//! fore-and-aft line on the centreline at the height of the sideways reaction:
//! in straight running the sideways forces sum to zero, and where the one that
//! the water gives back acts is not known. Everything is therefore computed for
//! a reaction at the bottom and at the height of the centre of gravity, and for
//! the whole lift of a plane at mid-span and part of it spread over the bottom:
//! four corners, between which the answer is expected. Deflections are
//! in pairs, port first.
//!
//! The deflections that level her need no roll stiffness of the hull. A heel
//! angle does, and is a rough estimate ([`heel`]).

mod corner;
pub mod heel;
mod levelled;
mod levelling;
mod moment;
mod setting;
mod stuck;
#[cfg(test)]
mod tests;

use uom::si::f64::{Angle, Force, Torque, Velocity};
use uom::si::torque::newton_meter;

pub use heel::{Heel, HeelAngle};
pub use levelled::{Levelled, ListRequest, StuckAnswer};
pub use levelling::{LevelEnd, LevelLimit, Levelling, RunSafety, Verdict};
pub use moment::{Cause, Contribution};
pub use setting::SettingPoint;
pub use stuck::{Stuck, StuckPoint, side_word};

use crate::balance::sweep::planing_start;
use crate::balance::{Balance, Outcome, Point, Settings};
use crate::boat::{Boat, Fault, ListCause, PlanePair, degrees};
use crate::field::{InSi, written};
use crate::flag::Flags;
use crate::plane::effect;
use corner::Corner;

/// Steps through the planing range while the speeds are looked for at which something holds.
const SPEED_STEPS: i32 = 96;
/// Halvings that place the end of such a range.
const HALVINGS: u32 = 40;

/// A boat with what heels her and her planes, ready to be asked.
#[derive(Clone, Debug)]
pub struct ListStudy<'a> {
    boat: &'a Boat,
    settings: Settings,
    /// The boat with planes up.
    balance: Balance,
    asked: Vec<ListCause>,
    planes: Option<[PlanePair; 2]>,
    mean: Angle,
    /// Thrust at top speed, by which the torque of the propellers is scaled.
    top_thrust: Option<Force>,
}

/// What a list does at one speed.
#[derive(Clone, Debug, PartialEq)]
pub struct ListPoint {
    /// The boat with planes up.
    pub bare: Point,
    /// What heels her.
    pub contributions: Vec<Contribution>,
    /// The sum, with the sideways force reacted at the bottom and at the height of the centre of gravity.
    pub moment: [Torque; 2],
    /// Rough heel with planes up.
    pub heel: Heel,
    /// How the planes level her; none without planes and below the planing range.
    pub levelling: Option<Levelling>,
}

impl ListPoint {
    /// What to know before trusting the numbers: of the boat with planes up, as set, and of the heel.
    #[must_use]
    pub fn flags(&self) -> Flags {
        let set = self.levelling.iter().flat_map(|levelling| &levelling.ends);
        set.map(|end| end.point.flags).fold(self.bare.flags.union(self.heel.flags()), Flags::union)
    }
}

impl ListPoint {
    /// How the planes level her where least difference is needed, and where most is.
    fn ends(&self) -> [Option<&LevelEnd>; 2] {
        [0, 1].map(|end| self.levelling.as_ref().map(|levelling| &levelling.ends[end]))
    }
}

written! {
    ListPoint as point {
        "speed_m_s": point.bare.speed.in_si(),
        "outcome": point.bare.outcome,
        "trim_planes_up_deg": point.bare.trim().in_si(),
        "causes": point.contributions,
        "moment_bottom_n_m": point.moment[0].in_si(),
        "moment_centre_of_gravity_n_m": point.moment[1].in_si(),
        "verdict": point.levelling.as_ref().map(|levelling| levelling.verdict),
        "least": point.ends()[0],
        "largest": point.ends()[1],
        "heel_planes_up": point.heel,
        .. flags: point.flags()
    }
}

impl<'a> ListStudy<'a> {
    /// A boat with everything in her file that heels her, more that is asked for, and the planes she has.
    ///
    /// # Errors
    /// As [`Balance::point`], at top speed.
    pub fn new(boat: &'a Boat, settings: &Settings, asked: &[ListCause]) -> Result<Self, Fault> {
        let balance = Balance::of(boat, settings).with_planes(None);
        let top = balance.point(boat.drive().top_speed, Angle::default())?;
        Ok(Self {
            boat,
            settings: *settings,
            balance,
            asked: asked.to_vec(),
            planes: boat.planes().map(|pair| [pair; 2]),
            mean: Angle::default(),
            top_thrust: top.running.map(|running| running.thrust),
        })
    }

    /// The same with other planes, port first; they need not be alike.
    #[must_use]
    pub fn with_planes(mut self, planes: [PlanePair; 2]) -> Self {
        self.planes = Some(planes);
        self
    }

    /// The same with a mean deflection that the planes are to be kept at as far as levelling allows; the least when not asked for.
    #[must_use]
    pub fn with_mean(mut self, mean: Angle) -> Self {
        self.mean = mean;
        self
    }

    /// The planes, port first.
    #[must_use]
    pub const fn planes(&self) -> Option<[PlanePair; 2]> {
        self.planes
    }

    /// What a list does at a speed, and how the planes level it.
    ///
    /// # Errors
    /// As [`Balance::point`].
    pub fn at(&self, speed: Velocity) -> Result<ListPoint, Fault> {
        let bare = self.balance.point(speed, Angle::default())?;
        let contributions = self.contributions(&bare);
        let moment = moment::sum(&contributions);
        let heel = self.heel(&bare, moment.map(|moment| [moment; 2]));
        let levelling = match self.corners(speed, moment) {
            Some(corners) if bare.outcome != Outcome::BelowPlaningRange => {
                Some(self.levelling(&bare, &corners)?)
            }
            _ => None,
        };
        Ok(ListPoint { bare, contributions, moment, heel, levelling })
    }

    /// The moment and the rolling of the planes at the four corners; none without planes.
    fn corners(&self, speed: Velocity, moment: [Torque; 2]) -> Option<[Corner; 4]> {
        let planes = self.planes?;
        let per_degree = planes.map(|size| self.roll_per_degree_n_m(size, speed));
        let height = self.boat.transom().hinge_height;
        let dead_deg = planes.map(|size| degrees(effect::dead_band(height, size.chord)));
        let corner = |height: usize, share: usize| Corner {
            moment_n_m: moment[height].get::<newton_meter>(),
            roll_n_m: per_degree.map(|roll_n_m| roll_n_m[height][share]),
            dead_deg,
        };
        Some([corner(0, 0), corner(0, 1), corner(1, 0), corner(1, 1)])
    }

    /// The slowest and the fastest speed from the start of planing to top speed at which something holds.
    ///
    /// # Errors
    /// As `holds`.
    fn speeds_at_which(
        &self,
        holds: impl Fn(Velocity) -> Result<bool, Fault>,
    ) -> Result<Option<[Velocity; 2]>, Fault> {
        let start = planing_start(self.boat);
        let top = self.boat.drive().top_speed.max(start);
        let at = |step: i32| start + (top - start) * (f64::from(step) / f64::from(SPEED_STEPS));
        let mut first = None;
        let mut last = None;
        for step in 0..=SPEED_STEPS {
            if holds(at(step))? {
                first = first.or(Some(step));
                last = Some(step);
            }
        }
        let (Some(first), Some(last)) = (first, last) else { return Ok(None) };
        let slowest = self.edge(at(first), (first > 0).then(|| at(first - 1)), &holds)?;
        let fastest = self.edge(at(last), (last < SPEED_STEPS).then(|| at(last + 1)), &holds)?;
        Ok(Some([slowest, fastest]))
    }

    /// The end of a range between a speed inside it and one outside.
    fn edge(
        &self,
        mut inside: Velocity,
        outside: Option<Velocity>,
        holds: impl Fn(Velocity) -> Result<bool, Fault>,
    ) -> Result<Velocity, Fault> {
        let Some(mut outside) = outside else { return Ok(inside) };
        for _ in 0..HALVINGS {
            let middle = 0.5 * (inside + outside);
            if holds(middle)? {
                inside = middle;
            } else {
                outside = middle;
            }
        }
        Ok(inside)
    }
}
