//! One line of a trial log: reads its cells and gathers what is wrong with them.

use uom::si::f64::{Angle, Power, Velocity, VolumeRate};
use uom::si::{
    angle::radian, power::watt, velocity::meter_per_second, volume_rate::cubic_meter_per_second,
};

use super::columns::DIRECTIONS;
use crate::listing::Cells;
use crate::units::quoted;

/// Which way a run of a pair went.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Direction {
    /// The one way.
    Out,
    /// The other way, over the same water.
    Back,
}

/// One run of a log.
#[derive(Clone, Debug, PartialEq)]
pub struct LogRow {
    /// Line of the file, counted from 1.
    pub line: u64,
    /// Speed.
    pub speed: Velocity,
    /// Running trim as read.
    pub trim: Angle,
    /// Mean deflection of the planes.
    pub deflection: Angle,
    /// Shaft power of all engines.
    pub power: Option<Power>,
    /// Fuel flow of all engines.
    pub fuel: Option<VolumeRate>,
    /// Engine speed, per minute.
    pub rpm: Option<f64>,
    /// Name of the pair it belongs to, with its direction.
    pub pair: Option<(String, Direction)>,
    /// Whatever was written beside it.
    pub note: Option<String>,
}

impl Cells<'_> {
    /// The run in this line; `None` when it has faults, which are gathered.
    pub(super) fn run(&mut self, line: u64) -> Option<LogRow> {
        let speed = self.need("speed").map(Velocity::new::<meter_per_second>);
        let trim = self.need("trim").map(Angle::new::<radian>);
        let deflection = self.deflection();
        let power = self.value("power").map(Power::new::<watt>);
        let fuel = self.value("fuel").map(VolumeRate::new::<cubic_meter_per_second>);
        let rpm = self.value("rpm");
        let pair = self.pair();
        let note = self.text("note").map(str::to_owned);
        if !self.faults.is_empty() {
            return None;
        }
        let (speed, trim) = (speed?, trim?);
        Some(LogRow { line, speed, trim, deflection, power, fuel, rpm, pair, note })
    }

    /// The mean deflection, from one column or from both sides.
    fn deflection(&mut self) -> Angle {
        let given = |cells: &Self, name| cells.text(name).is_some();
        let mean = given(self, "deflection");
        let sides = [given(self, "deflection_port"), given(self, "deflection_starboard")];
        if mean && sides.contains(&true) {
            self.fault(
                None,
                "deflection and that of one side are both given".to_owned(),
                "empty deflection, or both of deflection_port and deflection_starboard".to_owned(),
            );
        } else if sides[0] != sides[1] {
            let missing = if sides[0] { "deflection_starboard" } else { "deflection_port" };
            self.fault(
                Some(missing),
                "nothing is written here, and the other side is given".to_owned(),
                "write both sides, 0 deg for a plane that is up".to_owned(),
            );
        }
        let mut value = |name| self.value(name).unwrap_or(0.0);
        let mean_rad = if mean {
            value("deflection")
        } else {
            0.5 * (value("deflection_port") + value("deflection_starboard"))
        };
        Angle::new::<radian>(mean_rad)
    }

    fn pair(&mut self) -> Option<(String, Direction)> {
        let pair = self.text("pair").map(str::to_owned);
        let is_directed = self.text("direction").is_some();
        let direction = self.choice("direction").map(|at| [Direction::Out, Direction::Back][at]);
        let pair = pair?;
        if !is_directed {
            let problem =
                format!("nothing is written here, and the run is of pair {}", quoted(&pair));
            self.fault(Some("direction"), problem, format!("write {}", DIRECTIONS.join(" or ")));
        }
        Some((pair, direction?))
    }
}
