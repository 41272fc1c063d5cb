//! One plane out of action: what she does with the other up, and with the other beside it.

use serde::{Serialize, Serializer};
use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};

use super::{ListStudy, RunSafety, SettingPoint, moment};
use crate::boat::{Fault, Side, degrees};
use crate::field::si;

/// A plane that does not move.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Stuck {
    /// On which side; port for [`Side::Both`], which no single plane is.
    #[serde(serialize_with = "side")]
    pub side: Side,
    /// Where it stands.
    #[serde(rename = "deflection_deg", serialize_with = "si")]
    pub deflection: Angle,
}

/// What she does at a speed with a plane stuck.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StuckPoint {
    /// With the other plane up.
    pub other_up: SettingPoint,
    /// With the other plane where the stuck one is.
    #[serde(rename = "other_beside_it")]
    pub matched: SettingPoint,
    /// Deflection of the other plane that levels her, between these; none where it would have to be lifted above zero or pressed beyond its largest deflection.
    #[serde(rename = "other_levels_deg", serialize_with = "si")]
    pub levelling: Option<[Angle; 2]>,
}

/// Port or starboard; port for both, which no single plane is.
#[must_use]
pub const fn side_word(side: Side) -> &'static str {
    match side {
        Side::Starboard => "starboard",
        Side::Port | Side::Both => "port",
    }
}

/// Writes the word of a side; for `serialize_with`.
fn side<S: Serializer>(side: &Side, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(side_word(*side))
}

impl Stuck {
    /// The setting with the other plane at a deflection, port first.
    #[must_use]
    pub const fn setting(&self, other: Angle) -> [Angle; 2] {
        match self.side {
            Side::Starboard => [other, self.deflection],
            Side::Port | Side::Both => [self.deflection, other],
        }
    }
}

impl ListStudy<'_> {
    /// What she does at a speed with a plane stuck, the other up and the other beside it.
    ///
    /// None without planes.
    ///
    /// # Errors
    /// As [`crate::balance::Balance::point_with`].
    pub fn with_stuck(&self, speed: Velocity, stuck: Stuck) -> Result<Option<StuckPoint>, Fault> {
        let other_up = self.with_setting(speed, stuck.setting(Angle::default()))?;
        let matched = self.with_setting(speed, stuck.setting(stuck.deflection))?;
        let levelling = self.levelling_deg(speed, stuck)?;
        Ok(other_up.zip(matched).map(|(other_up, matched)| StuckPoint {
            other_up,
            matched,
            levelling: levelling.map(|range| range.map(Angle::new::<degree>)),
        }))
    }

    /// Deflections of the other plane that level her, at the corners that need least and most.
    fn levelling_deg(&self, speed: Velocity, stuck: Stuck) -> Result<Option<[f64; 2]>, Fault> {
        let bare = self.balance.point(speed, Angle::default())?;
        let moment = moment::sum(&self.contributions(&bare));
        let Some(corners) = self.corners(speed, moment) else { return Ok(None) };
        let limit_deg = degrees(self.boat.sizing().largest_deflection);
        let mut range = [f64::INFINITY, f64::NEG_INFINITY];
        for corner in corners {
            let left_n_m = corner.left_n_m(stuck.setting(Angle::default()).map(degrees));
            // What is left must be taken by the other plane, raising its own side.
            let (past_deg, dead_deg) = match stuck.side {
                Side::Starboard => (-left_n_m / corner.roll_n_m[0], corner.dead_deg[0]),
                Side::Port | Side::Both => (left_n_m / corner.roll_n_m[1], corner.dead_deg[1]),
            };
            let needed_deg = if past_deg > 1e-9 { past_deg + dead_deg } else { past_deg };
            range = [range[0].min(needed_deg), range[1].max(needed_deg)];
        }
        let usable = -1e-9..=limit_deg + 1e-9;
        let inside = range.iter().all(|needed_deg| usable.contains(needed_deg));
        Ok(inside.then(|| range.map(|deg| deg.clamp(0.0, limit_deg))))
    }

    /// The slowest and the fastest speed, from the start of planing to top speed, at which the other plane can stand beside the stuck one with a safe run, so that the planes do not heel her.
    ///
    /// # Errors
    /// As [`crate::balance::Balance::point_with`].
    pub fn matched_speeds(&self, stuck: Stuck) -> Result<Option<[Velocity; 2]>, Fault> {
        let setting = stuck.setting(stuck.deflection).map(degrees);
        self.speeds_at_which(|speed| {
            Ok(RunSafety::of(&self.point(speed, setting)?) == RunSafety::Safe)
        })
    }

    /// The slowest and the fastest speed, from the start of planing to top speed, at which the other plane balances the stuck one and the list with a safe run.
    ///
    /// # Errors
    /// As [`crate::balance::Balance::point_with`].
    pub fn balanced_speeds(&self, stuck: Stuck) -> Result<Option<[Velocity; 2]>, Fault> {
        self.speeds_at_which(|speed| {
            let Some(range) = self.levelling_deg(speed, stuck)? else { return Ok(false) };
            for needed_deg in range {
                let setting = stuck.setting(Angle::new::<degree>(needed_deg)).map(degrees);
                let point = self.point(speed, setting)?;
                if RunSafety::of(&point) != RunSafety::Safe {
                    return Ok(false);
                }
            }
            Ok(true)
        })
    }
}
