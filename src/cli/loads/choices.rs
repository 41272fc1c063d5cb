//! Safety factors and assumptions of the strength, as arguments.

use clap::{Args, ValueEnum};
use uom::si::f64::Length;
use uom::si::length::meter;

use crate::plane::hinge::{DEFAULT_LOAD_FACTOR, TrimLoad};
use crate::plane::strength::fastening::{
    DEFAULT_PLYWOOD_GRAVITY, DEFAULT_WITHDRAWAL_FACTOR, TransomMaterial, WET_SERVICE_FACTOR,
};
use crate::stock::assess::Settings;
use crate::units::parse_length;

/// Factors and assumptions.
#[derive(Clone, Copy, Debug, Args)]
#[command(next_help_heading = "Safety factors and assumptions")]
pub(super) struct StrengthArguments {
    /// Design load over the lift of the tank tests: the allowance for slamming
    #[arg(long, value_name = "X", default_value_t = DEFAULT_LOAD_FACTOR, value_parser = factor)]
    load_factor: f64,
    /// Safety factor of the plate [default: 2 on yield, 4 on ultimate]
    #[arg(long, value_name = "X", value_parser = factor)]
    plate_factor: Option<f64>,
    /// Safety factor of the screws against being pulled out of wood
    #[arg(long, value_name = "X", default_value_t = DEFAULT_WITHDRAWAL_FACTOR, value_parser = factor)]
    screw_factor: f64,
    /// Share that wood holds when it is wet in service, 0.1 to 1
    #[arg(long, value_name = "X", default_value_t = WET_SERVICE_FACTOR, value_parser = wet)]
    wet_factor: f64,
    /// What the screws bite into
    #[arg(long, value_enum, default_value_t = TransomChoice::Wood)]
    transom: TransomChoice,
    /// Specific gravity of that wood, 0.25 to 0.9
    #[arg(long, value_name = "X", default_value_t = DEFAULT_PLYWOOD_GRAVITY, value_parser = gravity)]
    wood_gravity: f64,
    /// How the boat's own trim is counted in the cross-check by thin-plate theory
    #[arg(long, value_enum, default_value_t = TrimLoadChoice::Finite)]
    trim_load: TrimLoadChoice,
    /// Cable from battery to actuator, one way
    #[arg(long, value_name = "LENGTH", default_value = "5 m", value_parser = cable)]
    pub(super) cable_length: Length,
}

/// Word for a [`TransomMaterial`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum TransomChoice {
    /// Solid wood or a sound plywood core
    Wood,
    /// Solid laminate without a core
    Laminate,
    /// Foam, honeycomb or poured core
    OtherCore,
    /// Aluminium or steel
    Metal,
}

/// Word for a [`TrimLoad`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum TrimLoadChoice {
    /// As on a bottom of finite width: small
    Finite,
    /// Not at all
    None,
    /// As if the bottom were infinitely wide: an upper bound
    TwoDimensional,
}

impl StrengthArguments {
    /// The settings that an assessment takes.
    pub(super) fn settings(&self) -> Settings {
        Settings {
            trim_load: match self.trim_load {
                TrimLoadChoice::Finite => TrimLoad::FinitePlate,
                TrimLoadChoice::None => TrimLoad::Neglected,
                TrimLoadChoice::TwoDimensional => TrimLoad::TwoDimensional,
            },
            load_factor: self.load_factor,
            plate_factor: self.plate_factor,
            transom_material: match self.transom {
                TransomChoice::Wood => {
                    TransomMaterial::WoodOrPlywood { specific_gravity: self.wood_gravity }
                }
                TransomChoice::Laminate => TransomMaterial::SolidLaminate,
                TransomChoice::OtherCore => TransomMaterial::OtherCore,
                TransomChoice::Metal => TransomMaterial::Metal,
            },
            withdrawal_factor: self.screw_factor,
            wet_factor: self.wet_factor,
            ..Settings::default()
        }
    }
}

fn within(text: &str, least: f64, most: f64) -> Result<f64, String> {
    match text.trim().parse::<f64>() {
        Ok(number) if (least..=most).contains(&number) => Ok(number),
        _ => Err(format!("a plain number from {least} to {most} is wanted")),
    }
}

fn factor(text: &str) -> Result<f64, String> {
    within(text, 1.0, 20.0)
}

fn wet(text: &str) -> Result<f64, String> {
    within(text, 0.1, 1.0)
}

fn gravity(text: &str) -> Result<f64, String> {
    within(text, 0.25, 0.9)
}

fn cable(text: &str) -> Result<Length, String> {
    let length = parse_length(text).map_err(|error| error.one_line())?;
    if (0.1..=60.0).contains(&length.get::<meter>()) {
        Ok(length)
    } else {
        Err("a length from 0.1 m to 60 m is wanted".to_owned())
    }
}
