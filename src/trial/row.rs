//! One line of a trial log: reads its cells and gathers what is wrong with them.

use std::collections::BTreeMap;

use uom::si::f64::{Angle, Power, Velocity, VolumeRate};
use uom::si::{
    angle::radian, power::watt, velocity::meter_per_second, volume_rate::cubic_meter_per_second,
};

use super::columns::{Column, DIRECTIONS, Kind, column_of};
use crate::units::{Dimension, parse_si, quoted};

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

/// What is wrong with a line, and what to write instead.
pub(super) type Trouble = (String, String);

/// A line being read.
pub(super) struct Cells<'a> {
    pub line: u64,
    /// Cells by column.
    pub texts: &'a BTreeMap<&'static str, String>,
    /// Units that stand in the headings.
    pub units: &'a BTreeMap<&'static str, String>,
    pub troubles: Vec<Trouble>,
}

impl Cells<'_> {
    /// The run in this line; `None` when it has faults, which are gathered.
    pub fn row(&mut self) -> Option<LogRow> {
        let speed = self.need("speed").map(Velocity::new::<meter_per_second>);
        let trim = self.need("trim").map(Angle::new::<radian>);
        let deflection = self.deflection();
        let power = self.value("power").map(Power::new::<watt>);
        let fuel = self.value("fuel").map(VolumeRate::new::<cubic_meter_per_second>);
        let rpm = self.value("rpm");
        let pair = self.pair();
        let note = self.text("note").map(str::to_owned);
        if !self.troubles.is_empty() {
            return None;
        }
        let (speed, trim) = (speed?, trim?);
        Some(LogRow { line: self.line, speed, trim, deflection, power, fuel, rpm, pair, note })
    }

    fn text(&self, name: &str) -> Option<&str> {
        self.texts.get(name).map(|cell| cell.trim()).filter(|cell| !cell.is_empty())
    }

    fn trouble(&mut self, problem: String, remedy: String) {
        self.troubles.push((problem, remedy));
    }

    fn need(&mut self, name: &'static str) -> Option<f64> {
        if self.text(name).is_none() {
            if let Some(column) = column_of(name).filter(|_| self.texts.contains_key(name)) {
                self.trouble(format!("{name}: nothing is written here"), example(column));
            }
            return None;
        }
        self.value(name)
    }

    /// A value in SI or as the plain number, if the cell is filled in and right.
    fn value(&mut self, name: &'static str) -> Option<f64> {
        let column = column_of(name)?;
        let text = self.text(name)?.to_owned();
        let read = match column.kind {
            Kind::Quantity(dimension) => self.quantity(name, &text, dimension),
            _ => plain(&text).ok_or_else(|| {
                (format!("`{}` is not a plain number", quoted(&text)), example(column))
            }),
        };
        match read {
            Err((problem, remedy)) => {
                self.trouble(format!("{name}: {problem}"), remedy);
                None
            }
            Ok(value) if !column.admits(value) => {
                let allowed = column.allowed();
                self.trouble(
                    format!("{name}: `{}` is outside {allowed}", quoted(&text)),
                    example(column),
                );
                None
            }
            Ok(value) => Some(value),
        }
    }

    /// A quantity with its unit in the cell, or else in the heading.
    fn quantity(&self, name: &str, text: &str, dimension: Dimension) -> Result<f64, Trouble> {
        let with_unit = match self.units.get(name) {
            Some(unit) if plain(text).is_some() => format!("{text} {unit}"),
            _ => text.to_owned(),
        };
        parse_si(&with_unit, dimension).map_err(|error| (error.to_string(), error.help()))
    }

    /// The mean deflection, from one column or from both sides.
    fn deflection(&mut self) -> Angle {
        let given = |cells: &Self, name| cells.text(name).is_some();
        let mean = given(self, "deflection");
        let sides = [given(self, "deflection_port"), given(self, "deflection_starboard")];
        if mean && sides.contains(&true) {
            self.trouble(
                "deflection and that of one side are both given".to_owned(),
                "empty deflection, or both of deflection_port and deflection_starboard".to_owned(),
            );
        } else if sides[0] != sides[1] {
            let missing = if sides[0] { "deflection_starboard" } else { "deflection_port" };
            self.trouble(
                format!("{missing}: nothing is written here, and the other side is given"),
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
        let word = self.text("direction").map(str::to_owned);
        let direction = word.as_ref().and_then(|word| {
            let place = DIRECTIONS.iter().position(|known| known.eq_ignore_ascii_case(word))?;
            Some([Direction::Out, Direction::Back][place])
        });
        match (pair, word, direction) {
            (_, Some(word), None) => {
                self.trouble(
                    format!("direction: `{}` is not one of its words", quoted(&word)),
                    "write out or back".to_owned(),
                );
                None
            }
            (Some(pair), _, Some(direction)) => Some((pair, direction)),
            (Some(pair), None, None) => {
                self.trouble(
                    format!(
                        "direction: nothing is written here, and the run is of pair {}",
                        quoted(&pair)
                    ),
                    "write out or back".to_owned(),
                );
                None
            }
            (None, _, _) => None,
        }
    }
}

fn example(column: &Column) -> String {
    format!("write for example {} ({})", column.example, column.meaning)
}

fn plain(text: &str) -> Option<f64> {
    text.trim().parse::<f64>().ok().filter(|number| number.is_finite())
}
