//! How balances are computed, as it is asked for on the command line.

use clap::Args;

use super::choices::{FrictionChoice, MethodChoice, ModelChoice, Switch};
use crate::balance::{Method, Settings};
use crate::cli::arguments;

/// How balances are computed.
#[derive(Clone, Copy, Debug, Args)]
pub(in crate::cli) struct SettingsArguments {
    /// Which balance of forces: the full one, or a case of Savitsky's 1964 paper (bare hull)
    #[arg(long, value_enum, default_value_t = MethodChoice::BestEstimate)]
    pub(super) method: MethodChoice,
    /// Whose lift of the bottom; the 1964 cases know only their own
    #[arg(long, value_enum, default_value_t = ModelChoice::Savitsky1964)]
    model: ModelChoice,
    /// Friction line
    #[arg(long, value_enum, default_value_t = FrictionChoice::Schoenherr)]
    friction: FrictionChoice,
    /// Roughness allowance added to the friction coefficient [default: that of the boat file, or 0.0004; 0 for models]
    #[arg(long, value_name = "NUMBER", value_parser = arguments::roughness)]
    roughness: Option<f64>,
    /// Raise the bare hull's resistance near the hump (Blount & Fox 1976, from memory) [default: on, off for 1964 cases]
    #[arg(long, value_enum)]
    hump: Option<Switch>,
    /// Count the drag of whisker spray
    #[arg(long, value_enum, default_value_t = Switch::Off)]
    spray: Switch,
}

impl SettingsArguments {
    pub(in crate::cli) fn settings(&self) -> Settings {
        let default = Settings::default();
        let method = Method::from(self.method);
        Settings {
            method,
            model: self.model.into(),
            friction_line: self.friction.into(),
            correlation_allowance: self.roughness,
            hump_factor: self.hump.map_or(method.is_full_balance(), bool::from),
            whisker_spray: self.spray.into(),
            ..default
        }
    }
}
