//! What a trial may find out, and how well it was known before.

use crate::balance::Settings;
use crate::boat::{Boat, Measure, Toleranced, WeightInput, Width};
use crate::doubt::deviation_by;
use crate::field::by_word;
use crate::numeric::LIKELY_DEVIATIONS;
use crate::plane::effect::EFFECTIVENESS_LOG_SPREAD;
use uom::si::length::meter;

/// Something about boat or trial that a log may tell.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unknown {
    /// Where the centre of gravity acts along the keel.
    CentreOfGravity,
    /// Factor on the published lift of the planes.
    PlaneEffectiveness,
    /// Correlation allowance ΔCf of the bottom.
    Roughness,
    /// What the inclinometer shows on a level keel.
    InclinometerZero,
}

impl Unknown {
    /// All of them, those about the boat first.
    pub const ALL: [Self; 4] =
        [Self::CentreOfGravity, Self::PlaneEffectiveness, Self::Roughness, Self::InclinometerZero];

    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::CentreOfGravity => "lcg",
            Self::PlaneEffectiveness => "plane-effectiveness",
            Self::Roughness => "roughness",
            Self::InclinometerZero => "inclinometer-zero",
        }
    }

    /// Its name for a person.
    #[must_use]
    pub const fn spoken(self) -> &'static str {
        match self {
            Self::CentreOfGravity => "centre of gravity forward of the transom",
            Self::PlaneEffectiveness => "how strongly the planes act",
            Self::Roughness => "roughness allowance of the bottom",
            Self::InclinometerZero => "zero of the inclinometer",
        }
    }

    /// Its name for a table.
    #[must_use]
    pub const fn short(self) -> &'static str {
        match self {
            Self::CentreOfGravity => "centre of gravity",
            Self::PlaneEffectiveness => "planes, strength",
            Self::Roughness => "roughness",
            Self::InclinometerZero => "inclinometer zero",
        }
    }

    /// Whether it is about the boat and goes into her file.
    #[must_use]
    pub const fn is_of_the_boat(self) -> bool {
        !matches!(self, Self::InclinometerZero)
    }

    pub(super) const fn index(self) -> usize {
        self as usize
    }
}

by_word!(Unknown);

/// Number of columns of [`Prior`]: the unknowns, then what is only reckoned with.
pub(super) const COLUMNS: usize = 7;
/// Column of the propulsive efficiency, which is never fitted: roughness would hide in it.
pub(super) const EFFICIENCY: usize = 4;
/// Column of an error of the equations like the difference to the other lift model.
pub(super) const FORM_OPINION: usize = 5;
/// Column of an error of the equations that goes with the speed.
pub(super) const FORM_SLOPE: usize = 6;

/// One standard deviation of the centre of gravity of a boat whose weights are listed, or whose
/// LCG is given, as a share of the bottom length. Common practice, no source.
const LISTED_LCG_SHARE: f64 = 0.025;
/// One standard deviation of the roughness allowance: clean at one end, a season's growth at the
/// other. Common practice, no source.
const ROUGHNESS_SPREAD: f64 = 0.0005;
/// One standard deviation of the zero of an inclinometer set on the keel line, degrees. Common
/// practice, no source.
pub(super) const ZERO_SPREAD_DEG: f64 = 0.2;
/// Limits of a fit, in prior standard deviations for the centre of gravity, else absolute.
const LCG_LIMIT: f64 = 6.0;

/// What was known before the trial: values and their spread, one standard deviation each.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Prior {
    pub lcg_m: f64,
    pub effectiveness: f64,
    pub roughness: f64,
    /// m, log, ΔCf, degrees, log, a share, degrees.
    pub spread: [f64; COLUMNS],
    /// Least and largest of each unknown, in spreads from the value before.
    pub limits: [(f64, f64); 4],
}

impl Prior {
    pub fn of(boat: &Boat, settings: &Settings, efficiency_spread: f64) -> Self {
        let bottom_m = boat.hull().bottom_length.get::<meter>();
        let lcg_m = boat.weight().lcg.get::<meter>();
        let estimate = boat.estimates().iter().find(|estimate| estimate.key == "weight.lcg");
        let lcg_spread = match (stated(boat, Toleranced::Lcg), estimate) {
            (Some(stated), _) => stated,
            (None, Some(estimate)) => {
                0.5 * (estimate.high.value() - estimate.low.value()) / LIKELY_DEVIATIONS
            }
            (None, None) => LISTED_LCG_SHARE * bottom_m,
        };
        let log_spread =
            stated(boat, Toleranced::PlaneEffectiveness).unwrap_or(EFFECTIVENESS_LOG_SPREAD);
        let rough_spread = stated(boat, Toleranced::Roughness).unwrap_or(ROUGHNESS_SPREAD);
        let effectiveness = boat.plane_effectiveness() * settings.effectiveness;
        let roughness = settings.allowance_for(boat);
        let spread = [
            lcg_spread,
            log_spread,
            rough_spread,
            ZERO_SPREAD_DEG,
            efficiency_spread,
            super::noise::FORM_OPINION_SHARE,
            super::noise::FORM_SLOPE_DEG,
        ];
        let inside = |low_m: f64, high_m: f64| {
            let least = ((low_m - lcg_m) / lcg_spread).max(-LCG_LIMIT);
            (least, ((high_m - lcg_m) / lcg_spread).min(LCG_LIMIT))
        };
        let log = |factor: f64| (factor / effectiveness).ln() / log_spread;
        let limits = [
            inside(0.02 * bottom_m, 0.98 * bottom_m),
            (log(0.25), log(2.8)),
            (-roughness / rough_spread, (0.008 - roughness) / rough_spread),
            (-2.0 / ZERO_SPREAD_DEG, 2.0 / ZERO_SPREAD_DEG),
        ];
        Self { lcg_m, effectiveness, roughness, spread, limits }
    }

    /// The value that a place in spreads from the value before stands for.
    pub fn value(&self, unknown: Unknown, at: f64) -> f64 {
        let step = at * self.spread[unknown.index()];
        match unknown {
            Unknown::CentreOfGravity => self.lcg_m + step,
            Unknown::PlaneEffectiveness => self.effectiveness * step.exp(),
            Unknown::Roughness => (self.roughness + step).max(0.0),
            Unknown::InclinometerZero => step,
        }
    }

    /// The same as a quantity.
    pub fn measure(&self, unknown: Unknown, at: f64) -> Measure {
        let value = self.value(unknown, at);
        match unknown {
            Unknown::CentreOfGravity => Measure::Length(uom::si::f64::Length::new::<meter>(value)),
            Unknown::PlaneEffectiveness | Unknown::Roughness => Measure::Number(value),
            Unknown::InclinometerZero => {
                Measure::Angle(uom::si::f64::Angle::new::<uom::si::angle::degree>(value))
            }
        }
    }
}

/// One standard deviation that the boat file states of a value; none when it states nothing, is exact, or has it from an earlier trial.
fn stated(boat: &Boat, value: Toleranced) -> Option<f64> {
    let width = width_without_trial(boat, value)?;
    deviation_by(boat, value, Some(width)).filter(|deviation| *deviation > 0.0)
}

/// What the boat file states of a value, but for a width that an earlier trial gave.
///
/// The bottom may have been cleaned since that trial, so that a new log is read by itself. Of the
/// centre of gravity and of the planes a trial leaves the width that there was before it.
fn width_without_trial(boat: &Boat, value: Toleranced) -> Option<Width> {
    let is_by_trial = value == Toleranced::Roughness && boat.input().trial.is_some();
    boat.tolerance_of(value).filter(|_| !is_by_trial)
}

/// Half of the range that nine values in ten lay in before any trial: a step, or that of the logarithm for the planes; never more than `doubt` takes.
pub(super) fn known_before(boat: &Boat, unknown: Unknown) -> f64 {
    let deviation = match unknown {
        Unknown::CentreOfGravity => {
            let width = width_without_trial(boat, Toleranced::Lcg);
            deviation_by(boat, Toleranced::Lcg, width).unwrap_or(f64::INFINITY)
        }
        Unknown::PlaneEffectiveness => {
            stated(boat, Toleranced::PlaneEffectiveness).unwrap_or(EFFECTIVENESS_LOG_SPREAD)
        }
        Unknown::Roughness => stated(boat, Toleranced::Roughness).unwrap_or(ROUGHNESS_SPREAD),
        Unknown::InclinometerZero => ZERO_SPREAD_DEG,
    };
    LIKELY_DEVIATIONS * deviation
}

/// Whether the centre of gravity comes from a list of loads.
pub(super) fn from_loads(boat: &Boat) -> bool {
    matches!(boat.input().weight, WeightInput::Loads(_))
}
