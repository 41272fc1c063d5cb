//! How far she heels: a rough estimate, since nothing else here needs the hull's roll stiffness.
//!
//! The water's righting moment is that of [`crate::hydro::heel`] at the trim and
//! keel wetting she runs at, buoyancy and dynamic lift; the weight's, Δ VCG sin φ,
//! works against it. Both are large and much of them cancels, and the height at
//! which the sideways force of the dynamic part is reacted matters: the angle is a
//! range, and may still be half or twice that.

use uom::si::f64::{Angle, Torque};
use uom::si::{
    angle::degree, force::newton, length::meter, mass_density::kilogram_per_cubic_meter,
    torque::newton_meter, velocity::meter_per_second,
};

use super::ListStudy;
use crate::balance::{Point, Running};
use crate::boat::degrees;
use crate::field::{InSi, by_word, written};
use crate::flag::{Flag, Flags};
use crate::hydro::heel::HeeledBottom;
use crate::numeric::root_between;

/// Largest heel that is estimated, degrees; beyond it the keel wetting cannot stay the same.
pub const LARGEST_HEEL_DEG: f64 = 12.0;
/// Steps to it while the first heel that balances is looked for.
const STEPS: i32 = 48;
/// Heel at which the stiffness is taken, degrees.
const SMALL_DEG: f64 = 0.01;

/// The heel that balances a moment, as far as it can be said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HeelAngle {
    /// Between these, positive when starboard is down.
    Between([Angle; 2]),
    /// At least this, with the sign of the side that is down; how much more cannot be said, since the bottom may have no stiffness or the heel go beyond the estimate.
    AtLeast(Angle),
    /// The bottom has no stiffness by this estimate, so that it gives no answer.
    NotStiff,
    /// More than [`LARGEST_HEEL_DEG`] or than the deadrise, where this estimate ends.
    Beyond,
    /// She does not run there.
    NotRunning,
}

impl HeelAngle {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Between(_) => "estimated",
            Self::AtLeast(_) => "at-least",
            Self::NotStiff => "no-stiffness",
            Self::Beyond => "beyond-estimate",
            Self::NotRunning => "not-running",
        }
    }

    /// One sentence for a person; nothing for an answer.
    #[must_use]
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Between(_) => "",
            Self::AtLeast(_) => {
                "How much more cannot be said: taken up at the bottom the sideways force leaves her too little stiffness for this rough estimate."
            }
            Self::NotStiff => {
                "By this rough estimate the bottom has no stiffness in roll there: it gives no answer, and she is tender at best."
            }
            Self::Beyond => {
                "She heels further than this rough estimate reaches (12 deg, or her deadrise)."
            }
            Self::NotRunning => "She does not run there, so that no heel is estimated.",
        }
    }
}

by_word!(HeelAngle);

impl Heel {
    /// The flag that a rough heel carries.
    #[must_use]
    pub const fn flags(self) -> Flags {
        let mut flags = Flags::NONE;
        flags.insert_if(
            matches!(self.angle, HeelAngle::Between(_) | HeelAngle::AtLeast(_)),
            Flag::HeelRoughlyEstimated,
        );
        flags
    }
}

/// A rough heel with the stiffness behind it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heel {
    /// Righting moment for each degree near upright, with the sideways force reacted at the bottom and at the height of the centre of gravity; none where she does not run or the bottom is flat.
    pub stiffness_per_degree: [Option<Torque>; 2],
    /// The heel.
    pub angle: HeelAngle,
}

impl HeelAngle {
    /// The ends between which it lies, as far as they are known.
    fn ends(self) -> [Option<Angle>; 2] {
        match self {
            Self::Between(range) => range.map(Some),
            Self::AtLeast(least) => [Some(least), None],
            Self::NotStiff | Self::Beyond | Self::NotRunning => [None; 2],
        }
    }
}

written! {
    Heel as heel {
        "answer": heel.angle,
        "from_deg": heel.angle.ends()[0].in_si(),
        "to_deg": heel.angle.ends()[1].in_si(),
        "stiffness_bottom_n_m_per_deg": heel.stiffness_per_degree[0].in_si(),
        "stiffness_centre_of_gravity_n_m_per_deg": heel.stiffness_per_degree[1].in_si(),
        "rough": true,
    }
}

impl ListStudy<'_> {
    /// The heel that balances the moments at both heights of the reaction, between the least and the largest of each.
    pub(super) fn heel(&self, point: &Point, moments: [[Torque; 2]; 2]) -> Heel {
        let Some(running) = point.running else {
            return Heel { stiffness_per_degree: [None; 2], angle: HeelAngle::NotRunning };
        };
        let hull = self.heeled(point, &running);
        let heights_m = self.heights().map(|height| height.get::<meter>());
        let stiffness_per_degree = heights_m.map(|height_m| {
            let righting_n_m = hull.righting_n_m(SMALL_DEG, height_m)?;
            Some(Torque::new::<newton_meter>(righting_n_m / SMALL_DEG))
        });
        let corners = heights_m.into_iter().zip(moments).flat_map(|(height_m, moments)| {
            moments.map(|moment| hull.heel_deg(moment.get::<newton_meter>(), height_m))
        });
        Heel { stiffness_per_degree, angle: together(&corners.collect::<Vec<_>>()) }
    }

    fn heeled(&self, point: &Point, running: &Running) -> HeeledHull {
        let hull = self.boat.hull();
        let weight = self.boat.weight();
        let beam_m = hull.chine_beam.get::<meter>();
        let speed_m_s = point.speed.get::<meter_per_second>();
        let density = self.boat.water().density.get::<kilogram_per_cubic_meter>();
        HeeledHull {
            bottom: HeeledBottom {
                trim_deg: degrees(running.trim),
                speed_coefficient: point.speed_coefficient,
                deadrise_deg: degrees(hull.deadrise),
                wetted_keel_beams: running.wetted_keel.get::<meter>() / beam_m,
            },
            beam_m,
            scale_n_m: 0.5 * density * speed_m_s * speed_m_s * beam_m.powi(3),
            weight_moment_n_m: weight.force().get::<newton>() * weight.vcg.get::<meter>(),
        }
    }
}

/// The heels of all corners as one answer.
fn together(corners: &[Result<f64, HeelAngle>]) -> HeelAngle {
    let found: Vec<f64> = corners.iter().filter_map(|heel| heel.ok()).collect();
    // Stiff at one corner and beyond the estimate there, she heels at least so far.
    let errors = || corners.iter().filter_map(|heel| heel.err());
    let beyond = errors().find(|why| matches!(why, HeelAngle::Beyond));
    let missing = beyond.or_else(|| errors().next());
    let least = found.iter().copied().fold(f64::INFINITY, f64::min);
    let largest = found.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    match missing {
        None => HeelAngle::Between([least, largest].map(Angle::new::<degree>)),
        Some(why) if found.is_empty() || least * largest <= 0.0 => why,
        Some(_) => {
            let nearest = if least.abs() < largest.abs() { least } else { largest };
            HeelAngle::AtLeast(Angle::new::<degree>(nearest))
        }
    }
}

/// A running hull as it is heeled.
struct HeeledHull {
    bottom: HeeledBottom,
    beam_m: f64,
    /// q b³.
    scale_n_m: f64,
    /// Δ VCG.
    weight_moment_n_m: f64,
}

impl HeeledHull {
    /// Righting moment of water and weight at a heel to either side.
    fn righting_n_m(&self, heel_deg: f64, reaction_height_m: f64) -> Option<f64> {
        let water = self.bottom.righting(heel_deg, reaction_height_m / self.beam_m)?;
        Some(self.scale_n_m * water - self.weight_moment_n_m * heel_deg.to_radians().sin())
    }

    /// The first heel at which a moment is balanced, with its sign.
    fn heel_deg(&self, moment_n_m: f64, reaction_height_m: f64) -> Result<f64, HeelAngle> {
        let size_n_m = moment_n_m.abs();
        if size_n_m == 0.0 {
            return Ok(0.0);
        }
        let excess = |heel_deg: f64| {
            self.righting_n_m(heel_deg, reaction_height_m).map(|righting| righting - size_n_m)
        };
        let stiff = self.righting_n_m(SMALL_DEG, reaction_height_m).is_some_and(|r| r > 0.0);
        if !stiff {
            return Err(HeelAngle::NotStiff);
        }
        let mut below = [0.0, -size_n_m];
        for step in 1..=STEPS {
            let heel_deg = LARGEST_HEEL_DEG * f64::from(step) / f64::from(STEPS);
            let Some(value) = excess(heel_deg) else { break };
            let above = [heel_deg, value];
            if value >= 0.0 {
                let close = 1e-9 * size_n_m;
                let at =
                    root_between(below, above, close, |deg| excess(deg).unwrap_or(f64::INFINITY));
                return at.map(|deg| deg.copysign(moment_n_m)).ok_or(HeelAngle::Beyond);
            }
            below = above;
        }
        Err(HeelAngle::Beyond)
    }
}
