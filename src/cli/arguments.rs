//! Arguments that several commands take.

use std::path::{Path, PathBuf};

use clap::Args;
use uom::si::f64::{Acceleration, Angle, Length, Velocity};

use super::{Failure, unit_words};
use crate::boat::condition::{ALL, same_name};
use crate::boat::{Boat, Fault, Measure, bound_of};
use crate::doubt::{DRAWS, Drawn, FEWEST_DRAWS, SEED};
use crate::input::{BoatFile, read_boat};
use crate::schema::most;
use crate::units::{
    ForceUnit, LengthUnit, PowerUnit, SpeedUnit, UnitChoice, UnitSystem, parse_acceleration,
    parse_angle, parse_length, parse_speed,
};

/// The boat file, and the loading conditions in which the boat is wanted.
#[derive(Clone, Debug, Args)]
pub(super) struct BoatArguments {
    /// Boat file; `planewright new FILE` writes one to start from
    boat: PathBuf,
    /// Loading condition by its name in the boat file, or `all`; may be repeated
    #[arg(long, value_name = "NAME")]
    condition: Vec<String>,
    /// So many people more aboard, 85 kg each in the cockpit (usual values, no source): a loading of its own
    #[arg(long, value_name = "PEOPLE", value_parser = clap::value_parser!(u8).range(1..=50))]
    aboard: Option<u8>,
}

/// The boats nearly like the one described on which chances are counted.
#[derive(Clone, Copy, Debug, Args)]
pub(super) struct DrawArguments {
    /// Boats drawn
    #[arg(long, value_name = "NUMBER", default_value_t = DRAWS,
          value_parser = clap::value_parser!(u32).range(i64::from(FEWEST_DRAWS)..=i64::from(crate::schema::most::DRAWS)))]
    draws: u32,
    /// Seed of the random numbers
    #[arg(long, value_name = "NUMBER", default_value_t = SEED)]
    seed: u64,
}

impl DrawArguments {
    pub(super) const fn drawn(self) -> Drawn {
        Drawn { draws: self.draws, seed: self.seed }
    }
}

impl BoatArguments {
    /// The boat file.
    pub(super) fn path(&self) -> &Path {
        &self.boat
    }

    /// The file once for each condition asked for, with the boat in it, in the order of the file;
    /// once, with the boat as her loads are listed, when none is asked for.
    pub(super) fn read(&self) -> Result<Vec<BoatFile>, Failure> {
        let mut file = read_boat(&self.boat)?;
        let Some(people) = self.aboard else {
            return if self.condition.is_empty() { Ok(vec![file]) } else { self.asked(&file) };
        };
        let (boat, more) = file.boat.with_more_aboard(people)?;
        file.boat = boat;
        let mut files = if self.condition.is_empty() { Vec::new() } else { self.asked(&file)? };
        if files.iter().all(|file| file.boat.condition().name != more) {
            files.push(file.in_condition(&more)?);
        }
        Ok(files)
    }

    /// The boat in each condition that a size is to be suggested for: in those of the files that
    /// were read, or in every one of hers when none was asked for.
    pub(super) fn sized_for(&self, files: &[BoatFile]) -> Result<Vec<Boat>, Failure> {
        match (files, self.condition.is_empty()) {
            ([file], true) => Ok(file.boat.in_all_conditions()?),
            _ => Ok(files.iter().map(|file| file.boat.clone()).collect()),
        }
    }

    /// The files that were read: the boat file, and the stations that it names.
    pub(super) fn inputs(&self, file: &BoatFile) -> Vec<PathBuf> {
        inputs(&self.boat, file)
    }

    fn asked(&self, file: &BoatFile) -> Result<Vec<BoatFile>, Failure> {
        let unknown = |fault| Fault { key: "run.condition".to_owned(), ..fault };
        let is_all = |name: &String| same_name(name, ALL);
        for name in self.condition.iter().filter(|name| !is_all(name)) {
            file.in_condition(name).map_err(unknown)?;
        }
        let all = self.condition.iter().any(is_all);
        let is_asked =
            |name: &str| all || self.condition.iter().any(|asked| same_name(asked, name));
        let names = file.boat.conditions().iter().map(|condition| condition.name.as_str());
        names
            .filter(|name| is_asked(name))
            .map(|name| Ok(file.in_condition(name).map_err(unknown)?))
            .collect()
    }
}

/// A boat file, and the stations that it names beside it.
pub(super) fn inputs(path: &Path, file: &BoatFile) -> Vec<PathBuf> {
    let stations = file.boat.stations().map(|stations| path.with_file_name(stations.source()));
    std::iter::once(path.to_owned()).chain(stations).collect()
}

/// Units of the output.
#[derive(Clone, Copy, Debug, Args)]
#[command(next_help_heading = "Units of the output")]
pub(super) struct UnitArguments {
    /// Units for everything [default: marine, which is metric with speeds in knots]
    #[arg(long, value_name = "SYSTEM", value_parser = unit_words::system())]
    units: Option<UnitSystem>,
    /// Unit of speeds
    #[arg(long, value_name = "UNIT", value_parser = unit_words::speed())]
    speed_unit: Option<SpeedUnit>,
    /// Unit of forces
    #[arg(long, value_name = "UNIT", value_parser = unit_words::force())]
    force_unit: Option<ForceUnit>,
    /// Unit of powers
    #[arg(long, value_name = "UNIT", value_parser = unit_words::power())]
    power_unit: Option<PowerUnit>,
    /// Unit of the lengths of the boat
    #[arg(long, value_name = "UNIT", value_parser = unit_words::length())]
    length_unit: Option<LengthUnit>,
}

impl UnitArguments {
    /// The units asked for; what was not asked for comes from the system.
    pub(super) fn choice(self) -> UnitChoice {
        let system: UnitChoice = self.units.unwrap_or_default().into();
        UnitChoice {
            speed: self.speed_unit.unwrap_or(system.speed),
            force: self.force_unit.unwrap_or(system.force),
            power: self.power_unit.unwrap_or(system.power),
            length: self.length_unit.unwrap_or(system.length),
            ..system
        }
    }

    /// The units, where any was asked for: data are in SI otherwise.
    pub(super) fn asked(self) -> Option<UnitChoice> {
        let is_given = self.units.is_some()
            || self.speed_unit.is_some()
            || self.force_unit.is_some()
            || self.power_unit.is_some()
            || self.length_unit.is_some();
        is_given.then(|| self.choice())
    }
}

/// Refuses an option that is given more often than is taken.
pub(super) fn few<T>(option: &str, given: &[T]) -> Result<(), Failure> {
    match most::too_many(&format!("--{option}"), given.len()) {
        Some([problem, remedy]) => {
            Err(Fault { key: format!("run.{option}"), problem, remedy }.into())
        }
        None => Ok(()),
    }
}

/// Refuses a range where one value is wanted.
fn one_value(text: &str, how: &str) -> Result<(), String> {
    let is_range = text.contains("..") || text.contains(" to ");
    if is_range {
        Err(format!("one value is wanted, not a range; give several as {how}"))
    } else {
        Ok(())
    }
}

/// Reads `--speed`, for clap.
pub(super) fn speed(text: &str) -> Result<Velocity, String> {
    one_value(text, "--speed \"10 kn\" --speed \"20 kn\"; without it every speed is shown")?;
    let speed = parse_speed(text).map_err(|error| error.one_line())?;
    within_bounds("run.speed", Measure::Speed(speed))?;
    Ok(speed)
}

/// Reads `--deflection`, for clap.
pub(super) fn deflection(text: &str) -> Result<Angle, String> {
    one_value(text, "--deflection \"5 deg\" --deflection \"10 deg\"")?;
    let angle = parse_angle(text).map_err(|error| error.one_line())?;
    within_bounds("run.deflection", Measure::Angle(angle))?;
    Ok(angle)
}

/// Reads `--roughness`, for clap.
pub(super) fn roughness(text: &str) -> Result<f64, String> {
    let number: f64 = text.trim().parse().map_err(|_| {
        "a plain number is wanted, 0.0004 for a full-size boat and 0 for a model".to_owned()
    })?;
    within_bounds("run.roughness", Measure::Number(number))?;
    Ok(number)
}

/// Reads `--waves`, for clap.
pub(super) fn waves(text: &str) -> Result<Length, String> {
    let height = parse_length(text).map_err(|error| error.one_line())?;
    within_bounds("run.waves", Measure::Length(height))?;
    Ok(height)
}

/// Reads `--down-to`, for clap.
pub(super) fn down_to(text: &str) -> Result<Angle, String> {
    let trim = parse_angle(text).map_err(|error| error.one_line())?;
    within_bounds("run.down_to", Measure::Angle(trim))?;
    Ok(trim)
}

/// Reads `--drive-trim`, for clap.
pub(super) fn drive_trim(text: &str) -> Result<Angle, String> {
    let angle = parse_angle(text).map_err(|error| error.one_line())?;
    within_bounds("run.drive_trim", Measure::Angle(angle))?;
    Ok(angle)
}

/// Reads `--limit`, for clap.
pub(super) fn limit(text: &str) -> Result<Acceleration, String> {
    let limit = parse_acceleration(text).map_err(|error| error.one_line())?;
    within_bounds("run.limit", Measure::Number(crate::behaviour::seaway::in_g(limit)))?;
    Ok(limit)
}

pub(super) fn within_bounds(key: &str, measure: Measure) -> Result<(), String> {
    match bound_of(key).and_then(|bound| bound.refusal(measure)) {
        Some(refusal) => Err(refusal.join("; ")),
        None => Ok(()),
    }
}
