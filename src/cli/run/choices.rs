//! Words of the command line for the settings of a balance.

use clap::ValueEnum;

use crate::balance::{LiftModel, Method, Point, fields};
use crate::field::Field;
use crate::hydro::friction::FrictionLine;
use crate::spelling::{by_likeness, plain};

/// Word for a [`Method`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum MethodChoice {
    /// The full balance with the one correction that brings it to the tank tests
    #[value(name = "best-estimate")]
    BestEstimate,
    /// All forces and moments, planes included, by the equations as printed
    Full,
    /// Savitsky 1964, general case; bare hull
    #[value(name = "general-1964")]
    General1964,
    /// Savitsky 1964, all forces through the centre of gravity; bare hull
    #[value(name = "concurrent-1964")]
    Concurrent1964,
}

impl From<MethodChoice> for Method {
    fn from(choice: MethodChoice) -> Self {
        match choice {
            MethodChoice::BestEstimate => Self::BestEstimate,
            MethodChoice::Full => Self::Full,
            MethodChoice::General1964 => Self::General1964,
            MethodChoice::Concurrent1964 => Self::Concurrent1964,
        }
    }
}

/// Word for a [`LiftModel`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum ModelChoice {
    /// Savitsky 1964
    #[value(name = "savitsky-1964")]
    Savitsky1964,
    /// Shuford 1958 with a static term after Brown 1971, from memory
    #[value(name = "shuford-1958")]
    Shuford1958,
}

impl From<ModelChoice> for LiftModel {
    fn from(choice: ModelChoice) -> Self {
        match choice {
            ModelChoice::Savitsky1964 => Self::Savitsky1964,
            ModelChoice::Shuford1958 => Self::Shuford1958,
        }
    }
}

/// Which lift models are shown side by side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum ModelsChoice {
    /// Every one there is, and how far they lie apart
    All,
}

/// Word for a [`FrictionLine`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum FrictionChoice {
    /// ITTC 1957
    #[value(name = "ittc-1957")]
    Ittc1957,
    /// Schoenherr, as in the papers of the 1960s
    Schoenherr,
}

impl From<FrictionChoice> for FrictionLine {
    fn from(choice: FrictionChoice) -> Self {
        match choice {
            FrictionChoice::Ittc1957 => Self::Ittc1957,
            FrictionChoice::Schoenherr => Self::Schoenherr,
        }
    }
}

/// Reads `--x` and `--y`, for clap: a field of a point by its name without the unit.
pub(super) fn field(text: &str) -> Result<Field<Point>, String> {
    let wanted = plain(text);
    let found = fields::ALL.iter().find(|field| field.key == wanted);
    found.copied().ok_or_else(|| {
        let names = by_likeness(&wanted, fields::ALL.iter().map(|field| field.key));
        format!(
            "no number of a point has this name; these have, the likeliest first: {}",
            names.join(", ")
        )
    })
}

// Its words explain themselves: no help text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Switch {
    On,
    Off,
}

impl From<Switch> for bool {
    fn from(switch: Switch) -> Self {
        switch == Switch::On
    }
}
