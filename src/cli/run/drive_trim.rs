//! What trimming the drive does with planes up, in JSON.

use serde::Serialize;
use uom::si::{force::newton, velocity::meter_per_second};

use super::Run;
use crate::behaviour::drive_trim::DriveTrimmed;
use crate::boat::degrees;
use crate::flag::Flags;

/// One trim of the drive in JSON.
#[derive(Serialize)]
pub(super) struct DriveTrimRecord {
    condition: String,
    drive_trim_deg: f64,
    thrust_angle_deg: f64,
    as_set: bool,
    points: Vec<DrivePointRecord>,
}

#[derive(Serialize)]
struct DrivePointRecord {
    speed_m_s: f64,
    outcome: &'static str,
    trim_deg: Option<f64>,
    resistance_n: Option<f64>,
    /// Degrees of running trim for one degree of drive trim, about the trim that is set.
    trim_per_degree: Option<f64>,
    #[serde(flatten)]
    flags: Flags,
}

/// The drive as it is set, and at each trim asked for; empty when none was.
pub(super) fn records(run: &Run) -> Vec<DriveTrimRecord> {
    let Some(trims) = &run.drive_trims else { return Vec::new() };
    let record = |trimmed: &DriveTrimmed, as_set: bool| {
        let points = trimmed.points.iter().zip(&trims.per_degree);
        DriveTrimRecord {
            condition: run.boat().condition().name.clone(),
            drive_trim_deg: degrees(trimmed.drive_trim),
            thrust_angle_deg: degrees(-trimmed.drive_trim),
            as_set,
            points: points
                .map(|(point, &trim_per_degree)| DrivePointRecord {
                    speed_m_s: point.speed.get::<meter_per_second>(),
                    outcome: point.outcome.word(),
                    trim_deg: point.running.map(|running| degrees(running.trim)),
                    resistance_n: point.running.map(|running| running.resistance.get::<newton>()),
                    trim_per_degree,
                    flags: point.flags,
                })
                .collect(),
        }
    };
    std::iter::once(record(&trims.as_set, true))
        .chain(trims.asked.iter().map(|trimmed| record(trimmed, false)))
        .collect()
}
