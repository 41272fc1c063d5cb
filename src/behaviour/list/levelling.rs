//! How the planes level a list: the difference as a range, what is left for trim, and what she runs at.

use uom::si::f64::{Angle, Torque, Velocity};
use uom::si::{angle::degree, torque::newton_meter};

use super::corner::Corner;
use super::{HALVINGS, ListStudy, moment};
use crate::balance::{Outcome, Point, SetPlane, TRIM_FLOOR_DEG};
use crate::boat::{Fault, degrees};
use crate::field::{InSi, by_word, written};
use crate::flag::Flag;
use crate::plane::effect;

/// Whether the planes level the list at a speed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// There is none.
    NoList,
    /// Even where most difference is needed.
    Levels,
    /// Only where least difference is needed.
    Perhaps,
    /// Not even there.
    TooLittle,
}

impl Verdict {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::NoList => "no-list",
            Self::Levels => "levels",
            Self::Perhaps => "perhaps",
            Self::TooLittle => "too-little",
        }
    }
}

by_word!(LevelLimit, RunSafety, Verdict);

/// What keeps the planes from levelling a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LevelLimit {
    /// The largest deflection of the deeper plane.
    Deflection,
    /// The run is not safe so far down: trim under 2°, or bow driven under.
    SafeRun,
    /// A plane does not raise its own side: its force leans inward past the reaction.
    NoArm,
}

impl LevelLimit {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Deflection => "deflection",
            Self::SafeRun => "safe-run",
            Self::NoArm => "no-arm",
        }
    }
}

/// Whether a run with planes down is one to be had.
///
/// Only what is dangerous keeps it from being one; what nobody tested is flagged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RunSafety {
    /// It is.
    Safe,
    /// Under 2° of trim the bow digs and steers.
    TrimUnderTwo,
    /// She does not run: the bow is driven under, or nothing holds it down.
    NotRunning,
    /// The only balance is unstable in pitch.
    PitchUnstable,
}

impl RunSafety {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Safe => "safe",
            Self::TrimUnderTwo => "trim-under-two",
            Self::NotRunning => "not-running",
            Self::PitchUnstable => "pitch-unstable",
        }
    }
}

/// Levelling at one end of what is expected.
#[derive(Clone, Debug, PartialEq)]
pub struct LevelEnd {
    /// Difference needed, starboard deeper positive; for planes that are not alike, how far past its dead band one levels her with the other up. None where no difference levels.
    pub difference: Option<Angle>,
    /// What keeps it from being done; none when it is.
    pub limit: Option<LevelLimit>,
    /// Least and largest mean deflection with which it is done: between them the planes are free for trim.
    pub mean: Option<[Angle; 2]>,
    /// Deflections to set, port first: those that level, or those that come nearest.
    pub setting: [Angle; 2],
    /// The boat at that setting.
    pub point: Point,
    /// Moment that is left there, positive when starboard goes down.
    pub left: Torque,
}

/// How the planes level a list at a speed.
#[derive(Clone, Debug, PartialEq)]
pub struct Levelling {
    /// Whether they do.
    pub verdict: Verdict,
    /// Where the least difference is needed, and where the largest is.
    pub ends: [LevelEnd; 2],
}

written! {
    LevelEnd as end {
        "difference_deg": end.difference.in_si(),
        "limited_by": end.limit,
        "mean_from_deg": end.mean.map(|[least, _]| least).in_si(),
        "mean_to_deg": end.mean.map(|[_, largest]| largest).in_si(),
        "port_deg": end.setting[0].in_si(),
        "starboard_deg": end.setting[1].in_si(),
        "outcome": end.point.outcome,
        "trim_deg": end.point.trim().in_si(),
        "moment_left_n_m": end.left.in_si(),
    }
}

impl ListStudy<'_> {
    /// How the planes level the list of a point, at the corners that need least and most.
    pub(super) fn levelling(
        &self,
        bare: &Point,
        corners: &[Corner; 4],
    ) -> Result<Levelling, Fault> {
        let ends = self.ends(corners).map(|corner| self.end(bare, corner));
        let [least, largest] = ends;
        let ends = [least?, largest?];
        let verdict = if corners.iter().all(|corner| corner.moment_n_m == 0.0) {
            Verdict::NoList
        } else {
            match ends.each_ref().map(|end| end.limit) {
                [None, None] => Verdict::Levels,
                [None, Some(_)] => Verdict::Perhaps,
                _ => Verdict::TooLittle,
            }
        };
        Ok(Levelling { verdict, ends })
    }

    /// The corners at which least and most difference is needed.
    ///
    /// Where the moment may go either way, none may be needed at all.
    fn ends(&self, corners: &[Corner; 4]) -> [Corner; 2] {
        let size = |corner: &Corner| corner.alone_deg().map_or(f64::INFINITY, f64::abs);
        let pick = |a: Corner, b: Corner, larger: bool| {
            if (size(&b) > size(&a)) == larger { b } else { a }
        };
        let mut ends = [corners[0]; 2];
        for corner in corners {
            ends = [pick(ends[0], *corner, false), pick(ends[1], *corner, true)];
        }
        let either_way = corners.iter().any(|corner| corner.moment_n_m > 0.0)
            && corners.iter().any(|corner| corner.moment_n_m < 0.0);
        if either_way {
            ends[0].moment_n_m = 0.0;
        }
        ends
    }

    fn end(&self, bare: &Point, corner: Corner) -> Result<LevelEnd, Fault> {
        let limit_deg = degrees(self.boat.sizing().largest_deflection);
        let Some(alone_deg) = corner.alone_deg() else {
            return self.as_far(bare, corner, None, LevelLimit::NoArm);
        };
        if corner.deepest_deg().is_none_or(|deepest_deg| deepest_deg > limit_deg * (1.0 + 1e-9)) {
            return self.as_far(bare, corner, Some(alone_deg), LevelLimit::Deflection);
        }
        let least_deg = corner.least_mean_deg().unwrap_or_default();
        if !self.is_safe(bare, corner.setting_deg(least_deg))? {
            return self.as_far(bare, corner, Some(alone_deg), LevelLimit::SafeRun);
        }
        let most_deg = corner.largest_mean_deg(limit_deg).max(least_deg);
        let end_deg = self.safe_share(bare, |share| {
            corner.setting_deg(least_deg + share * (most_deg - least_deg))
        })? * (most_deg - least_deg)
            + least_deg;
        let mean_deg = degrees(self.mean).clamp(least_deg, end_deg);
        let setting_deg = corner.setting_deg(mean_deg).map(|deflection| deflection.max(0.0));
        Ok(LevelEnd {
            difference: Some(Angle::new::<degree>(alone_deg)),
            limit: None,
            mean: Some([least_deg, end_deg].map(Angle::new::<degree>)),
            setting: setting_deg.map(Angle::new::<degree>),
            point: self.point(bare.speed, setting_deg)?,
            left: Torque::new::<newton_meter>(0.0),
        })
    }

    /// One plane as far down as hardware and a safe run allow, the other up.
    fn as_far(
        &self,
        bare: &Point,
        corner: Corner,
        alone_deg: Option<f64>,
        limit: LevelLimit,
    ) -> Result<LevelEnd, Fault> {
        let limit_deg = degrees(self.boat.sizing().largest_deflection);
        let most_deg = corner.deepest_deg().map_or(0.0, |deepest_deg| limit_deg.min(deepest_deg));
        let one_down = |deflection_deg: f64| {
            if corner.moment_n_m > 0.0 { [0.0, deflection_deg] } else { [deflection_deg, 0.0] }
        };
        let share = self.safe_share(bare, |share| one_down(share * most_deg))?;
        let setting_deg = one_down(share * most_deg);
        let limit = if share < 1.0 { LevelLimit::SafeRun } else { limit };
        Ok(LevelEnd {
            difference: alone_deg.map(Angle::new::<degree>),
            limit: Some(limit),
            mean: None,
            setting: setting_deg.map(Angle::new::<degree>),
            point: self.point(bare.speed, setting_deg)?,
            left: Torque::new::<newton_meter>(corner.left_n_m(setting_deg)),
        })
    }

    /// The largest share, up to all, of a way down that is a safe run; none of it where not even its beginning is.
    fn safe_share(
        &self,
        bare: &Point,
        setting_deg: impl Fn(f64) -> [f64; 2],
    ) -> Result<f64, Fault> {
        if self.is_safe(bare, setting_deg(1.0))? {
            return Ok(1.0);
        }
        let (mut inside, mut outside) = (0.0, 1.0);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (inside + outside);
            if self.is_safe(bare, setting_deg(middle))? {
                inside = middle;
            } else {
                outside = middle;
            }
        }
        Ok(inside)
    }

    /// Whether the run with some deflections is safe.
    fn is_safe(&self, bare: &Point, setting_deg: [f64; 2]) -> Result<bool, Fault> {
        let point = self.point(bare.speed, setting_deg)?;
        Ok(RunSafety::of(&point) == RunSafety::Safe)
    }

    /// The boat with her planes at some deflections, port first.
    pub(super) fn point(&self, speed: Velocity, setting_deg: [f64; 2]) -> Result<Point, Fault> {
        let Some([port, starboard]) = self.planes else {
            return self.balance.point(speed, Angle::default());
        };
        let set = |size, deflection_deg: f64| SetPlane {
            size,
            // A hair under zero is rounding.
            deflection: Angle::new::<degree>(deflection_deg.max(0.0)),
        };
        let planes = [set(port, setting_deg[0]), set(starboard, setting_deg[1])];
        self.balance.point_with(speed, planes)
    }

    /// The largest difference that the planes can be set to with a safe run: one down as far as it may, past its dead band, the other up. None without planes and below the planing range.
    ///
    /// # Errors
    /// As [`crate::balance::Balance::point_with`].
    pub fn largest_difference(&self, speed: Velocity) -> Result<Option<Angle>, Fault> {
        let bare = self.balance.point(speed, Angle::default())?;
        let Some([_, starboard]) = self.planes else { return Ok(None) };
        if bare.outcome == Outcome::BelowPlaningRange {
            return Ok(None);
        }
        let dead = effect::dead_band(self.boat.transom().hinge_height, starboard.chord);
        let limit_deg = degrees(self.boat.sizing().largest_deflection);
        let share = self.safe_share(&bare, |share| [0.0, share * limit_deg])?;
        Ok(Some((Angle::new::<degree>(share * limit_deg) - dead).max(Angle::default())))
    }

    /// The slowest and the fastest speed, from the start of planing to top speed, at which the planes level the list: where least difference is needed, and where most is.
    ///
    /// # Errors
    /// As [`crate::balance::Balance::point`].
    pub fn levelled_speeds(&self) -> Result<[Option<[Velocity; 2]>; 2], Fault> {
        let holds = |end: usize| {
            self.speeds_at_which(|speed| {
                let bare = self.balance.point(speed, Angle::default())?;
                let moment = moment::sum(&self.contributions(&bare));
                let Some(corners) = self.corners(speed, moment) else { return Ok(false) };
                let corner = self.ends(&corners)[end];
                let limit_deg = degrees(self.boat.sizing().largest_deflection);
                let is_deep_enough = corner.deepest_deg().is_some_and(|deg| deg <= limit_deg);
                match corner.least_mean_deg().filter(|_| is_deep_enough) {
                    Some(mean_deg) => self.is_safe(&bare, corner.setting_deg(mean_deg)),
                    None => Ok(false),
                }
            })
        };
        Ok([holds(0)?, holds(1)?])
    }
}

impl RunSafety {
    /// What a run with planes down is.
    pub(super) fn of(point: &Point) -> Self {
        let Some(running) = point.running.filter(|_| point.outcome == Outcome::Running) else {
            return Self::NotRunning;
        };
        if running.trim.get::<degree>() < TRIM_FLOOR_DEG {
            Self::TrimUnderTwo
        } else if point.flags.contains(Flag::PitchUnstable) {
            Self::PitchUnstable
        } else {
            Self::Safe
        }
    }
}
