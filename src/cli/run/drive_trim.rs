//! What trimming the drive does with planes up: the free alternative.

use serde::Serialize;
use uom::si::f64::{Angle, Velocity};
use uom::si::{force::newton, velocity::meter_per_second};

use super::Run;
use crate::balance::{Point, Settings};
use crate::behaviour::drive_trim::{DriveTrimmed, drive_trim_of, trim_per_degree, with_drive_at};
use crate::boat::{Boat, Fault, Measure, degrees};
use crate::cli::screen::{Screen, paragraph};
use crate::cli::table::{Column, fixed, table};

const EXPLANATION: &str = "Planes up. Drive trim is the angle of the propeller shaft to the keel, negative when trimmed in; the thrust turns about \
the point where it passes the transom. 'per degree' is running trim for one degree that the drive is trimmed out. Only the turned \
thrust is counted: leg and propeller in a slanting flow lift too, so that a drive does more than this; try it before drilling. Trimmed \
far in at speed it makes the bow steer; never run under 2 deg.";

/// The boat with her drive as it is set, and at each trim asked for.
pub(super) struct DriveTrims {
    pub(super) as_set: DriveTrimmed,
    pub(super) asked: Vec<DriveTrimmed>,
    /// Degrees of running trim for one degree of drive trim, at each speed.
    pub(super) per_degree: Vec<Option<f64>>,
}

impl DriveTrims {
    pub(super) fn of(
        boat: &Boat,
        settings: &Settings,
        asked: &[Angle],
        speeds: &[Velocity],
    ) -> Result<Self, Fault> {
        let at = |&trim: &Angle| with_drive_at(boat, settings, trim, speeds);
        Ok(Self {
            as_set: at(&drive_trim_of(boat))?,
            asked: asked.iter().map(at).collect::<Result<_, _>>()?,
            per_degree: speeds
                .iter()
                .map(|&speed| trim_per_degree(boat, settings, speed))
                .collect::<Result<_, _>>()?,
        })
    }
}

/// The table of drive trims; nothing when none were asked for.
pub(super) fn section(run: &Run, screen: Screen) -> String {
    let Some(trims) = &run.drive_trims else { return String::new() };
    let unit = run.units.speed;
    let speeds: Vec<_> =
        trims.as_set.points.iter().map(|point| Some(unit.value(point.speed))).collect();
    let name = |trimmed: &DriveTrimmed| Measure::Angle(trimmed.drive_trim).to_string();
    let mut columns = vec![
        Column::numbers("speed", unit.symbol(), fixed(&speeds, 1)),
        Column::numbers(
            &format!("as set, {}", name(&trims.as_set)),
            "trim, deg",
            trim_cells(&trims.as_set.points),
        ),
    ];
    for trimmed in &trims.asked {
        let change = trimmed.points.iter().zip(&trims.as_set.points).map(resistance_change);
        columns.push(Column::numbers(&name(trimmed), "trim, deg", trim_cells(&trimmed.points)));
        let change: Vec<_> = change.map(|share| share.map(|share| 100.0 * share)).collect();
        columns.push(Column::numbers("resistance", "change %", fixed(&change, 1)));
    }
    columns.push(Column::numbers("per degree", "deg", fixed(&trims.per_degree, 2)));
    format!(
        "\n{}\n{}{}",
        screen.heading("Drive trimmed instead of planes"),
        table(&columns, screen),
        paragraph("  ", EXPLANATION)
    )
}

fn trim_cells(points: &[Point]) -> Vec<String> {
    let cell = |point: &Point| match &point.running {
        Some(running) => fixed(&[Some(degrees(running.trim))], 2).concat(),
        None => point.outcome.word().to_owned(),
    };
    points.iter().map(cell).collect()
}

fn resistance_change((trimmed, as_set): (&Point, &Point)) -> Option<f64> {
    Some((trimmed.running?.resistance / as_set.running?.resistance).value - 1.0)
}

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
    flags: Vec<&'static str>,
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
                    flags: point.flags.words(),
                })
                .collect(),
        }
    };
    std::iter::once(record(&trims.as_set, true))
        .chain(trims.asked.iter().map(|trimmed| record(trimmed, false)))
        .collect()
}
