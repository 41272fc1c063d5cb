//! What any setting of the two planes does: heeling moment, heel and trim.

use uom::si::f64::{Angle, Torque, Velocity};
use uom::si::{angle::degree, torque::newton_meter};

use super::{Heel, ListStudy, RunSafety, moment};
use crate::balance::Point;
use crate::boat::Fault;
use crate::field::{InSi, written};
use crate::flag::Flags;

/// The boat with her planes at given deflections.
#[derive(Clone, Debug, PartialEq)]
pub struct SettingPoint {
    /// Deflections, port first.
    pub setting: [Angle; 2],
    /// The boat in pitch.
    pub point: Point,
    /// Whether the run is one to be had.
    pub safety: RunSafety,
    /// Moment of the two planes together, least and most of it, positive when they press starboard down.
    pub planes: [Torque; 2],
    /// Moment of all together, between these, positive when starboard goes down.
    pub moment: [Torque; 2],
    /// Rough heel.
    pub heel: Heel,
}

impl SettingPoint {
    /// What to know before trusting the numbers.
    #[must_use]
    pub fn flags(&self) -> Flags {
        self.point.flags.union(self.heel.flags())
    }
}

written! {
    SettingPoint as set {
        "speed_m_s": set.point.speed.in_si(),
        "port_deg": set.setting[0].in_si(),
        "starboard_deg": set.setting[1].in_si(),
        "outcome": set.point.outcome,
        "trim_deg": set.point.trim().in_si(),
        "run": set.safety,
        "moment_of_planes_n_m": set.planes.in_si(),
        "moment_n_m": set.moment.in_si(),
        "heel": set.heel,
        .. flags: set.flags()
    }
}

impl ListStudy<'_> {
    /// What the boat does at a speed with her planes at given deflections, port first.
    ///
    /// None without planes.
    ///
    /// # Errors
    /// As [`crate::balance::Balance::point_with`].
    pub fn with_setting(
        &self,
        speed: Velocity,
        setting: [Angle; 2],
    ) -> Result<Option<SettingPoint>, Fault> {
        let bare = self.balance.point(speed, Angle::default())?;
        let moment = moment::sum(&self.contributions(&bare));
        let Some(corners) = self.corners(speed, moment) else { return Ok(None) };
        let setting_deg = setting.map(|deflection| deflection.get::<degree>());
        let point = self.point(speed, setting_deg)?;
        let left_n_m = corners.map(|corner| corner.left_n_m(setting_deg));
        let by_planes_n_m = corners.map(|corner| corner.left_n_m(setting_deg) - corner.moment_n_m);
        let torque = Torque::new::<newton_meter>;
        let by_height = [[left_n_m[0], left_n_m[1]], [left_n_m[2], left_n_m[3]]];
        Ok(Some(SettingPoint {
            setting,
            safety: RunSafety::of(&point),
            planes: span(&by_planes_n_m).map(torque),
            moment: span(&left_n_m).map(torque),
            heel: self.heel(&point, by_height.map(|pair| pair.map(torque))),
            point,
        }))
    }
}

/// The least and the largest.
fn span(values: &[f64]) -> [f64; 2] {
    let least = values.iter().copied().fold(f64::INFINITY, f64::min);
    let largest = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    [least, largest]
}
