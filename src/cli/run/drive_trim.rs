//! What trimming the drive does with planes up, in JSON.

use super::RunOutput;
use crate::balance::Point;
use crate::behaviour::drive_trim::DriveTrimmed;
use crate::field::{InSi, written};

/// The drive at one of its trims.
pub(super) struct OneTrim<'a> {
    run: &'a RunOutput,
    trimmed: &'a DriveTrimmed,
    per_degree: &'a [Option<f64>],
    as_set: bool,
}

/// What she does so, and degrees of running trim for one degree of drive trim, about the trim that is set.
struct DrivePoint<'a>(&'a Point, Option<f64>);

impl OneTrim<'_> {
    fn points(&self) -> Vec<DrivePoint<'_>> {
        let points = self.trimmed.points.iter().zip(self.per_degree);
        points.map(|(point, &per_degree)| DrivePoint(point, per_degree)).collect()
    }
}

written! {
    OneTrim<'_> as one {
        "condition": one.run.boat().condition().name,
        "drive_trim_deg": one.trimmed.drive_trim.in_si(),
        "thrust_angle_deg": (-one.trimmed.drive_trim).in_si(),
        "as_set": one.as_set,
        "points": one.points(),
    }
    DrivePoint<'_> as at {
        "speed_m_s": at.0.speed.in_si(),
        "outcome": at.0.outcome,
        "trim_deg": at.0.trim().in_si(),
        "resistance_n": at.0.resistance().in_si(),
        "trim_per_degree": at.1,
        .. flags: at.0.flags
    }
}

/// The drive as it is set, and at each trim asked for; empty when none was.
pub(super) fn all(run: &RunOutput) -> Vec<OneTrim<'_>> {
    let Some(trims) = &run.drive_trims else { return Vec::new() };
    let one = |trimmed, as_set| OneTrim { run, trimmed, per_degree: &trims.per_degree, as_set };
    let asked = trims.asked.iter().map(|trimmed| one(trimmed, false));
    std::iter::once(one(&trims.as_set, true)).chain(asked).collect()
}
