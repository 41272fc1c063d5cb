//! What is not known exactly about a boat: her particulars, the form of the model, her planes.

use uom::si::{length::meter, thermodynamic_temperature::degree_celsius};

use super::form::{CENTRE_OF_PRESSURE_DEVIATION, HULL_FORM, LIFT_DEVIATION, RESISTANCE_DEVIATION};
use super::seen::Seen;
use super::spread::{LIKELY_SHARES, Spread};
use super::usual::{self, Scale};
use crate::balance::Settings;
use crate::boat::{
    Boat, Estimate, Fault, Measure, Source, ThrustLine, Toleranced, WaterInput, Width, bound_of,
};
use crate::field::{by_word, written};
use crate::hydro::friction::FULL_SCALE_ALLOWANCE;
use crate::plane::effect::effectiveness_log_spread;

/// Something that is not known exactly.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum What {
    /// A value of the boat.
    Value(Toleranced),
    /// Lift of the bottom, over the equation's.
    Lift,
    /// Distance of the centre of pressure from the transom, over the equation's.
    CentreOfPressure,
    /// Resistance of the bare hull, over the equations'.
    Resistance,
    /// How far the centre of pressure of a hull with a bow lies near the hump from that of a prism.
    HullForm,
}

impl What {
    /// How many there are.
    pub(super) const COUNT: usize = Toleranced::ALL.len() + 4;

    /// Its index, from 0 on: each has a random number of its own in every draw.
    pub(super) const fn index(self) -> usize {
        /// Values that came before the equations, whose indices are their order.
        const EARLY: usize = Toleranced::PlaneEffectiveness as usize;
        match self {
            Self::Lift => EARLY,
            Self::CentreOfPressure => EARLY + 1,
            Self::Resistance => EARLY + 2,
            Self::Value(Toleranced::PlaneEffectiveness) => EARLY + 3,
            Self::HullForm => EARLY + 4,
            Self::Value(Toleranced::Roughness) => EARLY + 5,
            Self::Value(value) => value as usize,
        }
    }

    /// The stable word in JSON: the key in the boat file, or a word of its own.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Value(value) => value.key(),
            Self::Lift => "model.lift",
            Self::CentreOfPressure => "model.centre-of-pressure",
            Self::Resistance => "model.resistance",
            Self::HullForm => "model.hull-form",
        }
    }

    /// Whether it can be measured without a sea trial.
    #[must_use]
    pub const fn is_found_ashore(self) -> bool {
        matches!(self, Self::Value(value) if !value.is_by_trial_only())
    }

    /// What it is, for a person.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Value(value) => match value {
                Toleranced::ChineBeam => "chine beam",
                Toleranced::Deadrise => "deadrise",
                Toleranced::BottomLength => "bottom length",
                Toleranced::Mass => "mass",
                Toleranced::Lcg => "LCG",
                Toleranced::Vcg => "VCG",
                Toleranced::ThrustAngle => "thrust angle",
                Toleranced::ThrustHeight | Toleranced::ThrustOffset => "thrust line",
                Toleranced::WaterTemperature => "water temperature",
                Toleranced::AirArea => "air drag",
                Toleranced::AppendageArea => "appendage drag",
                Toleranced::PlaneEffectiveness => "how strongly planes act",
                Toleranced::Roughness => "roughness of the bottom",
            },
            Self::Lift => "equation of lift",
            Self::CentreOfPressure => "equation of the centre of pressure",
            Self::Resistance => "equations of resistance",
            Self::HullForm => "form of the hull near the hump",
        }
    }

    /// What to do about it.
    #[must_use]
    pub const fn remedy(self) -> &'static str {
        match self {
            Self::Value(value) => match value {
                Toleranced::ChineBeam => "measure the chine beam where it is largest",
                Toleranced::Deadrise => "measure the deadrise at half the length of the chine",
                Toleranced::BottomLength => {
                    "measure the keel line from the transom to where the bottom turns up"
                }
                Toleranced::Mass => "weigh the boat as she runs",
                Toleranced::Lcg => "weigh her on two scales, or find LCG from her trim at rest",
                Toleranced::Vcg => {
                    "work out the height of the centre of gravity from a list of items"
                }
                Toleranced::ThrustAngle => {
                    "measure the angle of shaft or leg to the keel as she runs"
                }
                Toleranced::ThrustHeight | Toleranced::ThrustOffset => {
                    "measure the height of the propeller's axis at the transom"
                }
                Toleranced::WaterTemperature => "state the water temperature",
                Toleranced::AirArea => "measure the frontal area from a photograph",
                Toleranced::AppendageArea => "work out the drag of each appendage",
                Toleranced::PlaneEffectiveness => TRY_PLANES,
                Toleranced::Roughness => {
                    "clean the bottom, or run a sea trial with a fuel-flow meter"
                }
            },
            Self::Lift | Self::CentreOfPressure | Self::HullForm => {
                "run a sea trial with an inclinometer (nothing measured ashore narrows the equations)"
            }
            Self::Resistance => {
                "run a sea trial with a fuel-flow meter (nothing measured ashore narrows the equations)"
            }
        }
    }
}

by_word!(Basis, What);

/// What shows how planes act.
const TRY_PLANES: &str =
    "run a sea trial with planes up and down, which shows what these planes do on this boat";

/// Where the width of a spread comes from.
#[derive(Clone, Debug, PartialEq)]
pub enum Basis {
    /// The boat file states it.
    Stated,
    /// The boat file says how the value was come by.
    Source(Source),
    /// The file says nothing: taken as from a brochure.
    TakenAsBrochure,
    /// The value is estimated; the likely range of its rule.
    Estimate,
    /// Held against published tests.
    Calibrated,
    /// The scatter of tank runs with planes.
    TankRuns,
}

impl Basis {
    /// The stable word in JSON.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match self {
            Self::Stated => "stated",
            Self::Source(source) => source.word(),
            Self::TakenAsBrochure => "taken-as-brochure",
            Self::Estimate => "estimated",
            Self::Calibrated => "calibrated",
            Self::TankRuns => "tank-runs",
        }
    }
}

/// Something not known exactly, with its spread.
#[derive(Clone, Debug, PartialEq)]
pub struct Input {
    /// What.
    pub what: What,
    /// How it spreads about the value used.
    pub spread: Spread,
    /// Where that comes from.
    pub basis: Basis,
    /// What is accepted of the value, in the unit of the bounds table.
    pub(super) limits: (f64, f64),
}

impl Input {
    /// Unit of its steps; nothing for factors and for pure numbers.
    fn unit(&self) -> &'static str {
        match (self.spread, self.what) {
            (Spread::Step { .. }, What::Value(of)) => bound_of(of.key()).map_or("", |b| b.unit),
            _ => "",
        }
    }
}

// Its likely range is about the value used: steps in the unit named, or factors.
written! {
    Input as input {
        "input": input.what,
        "name": input.what.name(),
        "spread": input.spread.word(),
        "unit": input.unit(),
        "low": input.spread.quantile(LIKELY_SHARES[0]),
        "high": input.spread.quantile(LIKELY_SHARES[1]),
        "known": input.basis,
    }
}

/// Everything not known exactly, for one boat.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Inputs {
    pub list: Vec<Input>,
    /// Temperature in °C and salinity of the water, where it is given by its kind.
    pub water: Option<[f64; 2]>,
    /// What was seen of the boat, if anything was and the draws are to show it.
    pub seen: Option<Seen>,
}

impl Inputs {
    /// What is not known exactly about a boat and the equations.
    pub fn of(boat: &Boat) -> Self {
        let water = water_of(boat);
        let has = |value: &Toleranced| match value {
            Toleranced::ThrustHeight => is_by_height(boat),
            Toleranced::ThrustOffset => !is_by_height(boat),
            Toleranced::AirArea => boat.air().is_some(),
            Toleranced::AppendageArea => boat.appendages().is_some(),
            Toleranced::WaterTemperature => water.is_some(),
            // These stand beside the equations, below.
            Toleranced::PlaneEffectiveness | Toleranced::Roughness => false,
            _ => true,
        };
        let values = Toleranced::ALL.into_iter().filter(has).map(|value| of_value(boat, value));
        let form = [
            (What::Lift, LIFT_DEVIATION, Basis::Calibrated),
            (What::CentreOfPressure, CENTRE_OF_PRESSURE_DEVIATION, Basis::Calibrated),
            (What::Resistance, RESISTANCE_DEVIATION, Basis::Calibrated),
        ]
        .map(|(what, deviation, basis)| unlimited(what, Spread::Factor { deviation }, basis));
        let hull_form = unlimited(What::HullForm, HULL_FORM, Basis::Calibrated);
        let list = values.chain(form).chain([effectiveness(boat), hull_form]);
        let rough = boat.tolerance_of(Toleranced::Roughness);
        let list = list.chain(rough.map(|_| of_value(boat, Toleranced::Roughness)));
        Self { list: list.filter(|input| !input.spread.is_none()).collect(), water, seen: None }
    }

    /// The same for boats that would have shown what was seen of this one.
    ///
    /// # Errors
    /// As [`Boat::in_condition`].
    pub fn with_seen(mut self, boat: &Boat, settings: &Settings) -> Result<Self, Fault> {
        self.seen = Seen::of(boat, settings, &self)?;
        Ok(self)
    }

    /// The same with some values known as well as measuring on the boat tells them; what is known better stays.
    pub fn measured(mut self, boat: &Boat, known: &[Toleranced]) -> Self {
        let is_worse = |basis: &Basis| {
            matches!(
                basis,
                Basis::Estimate
                    | Basis::TakenAsBrochure
                    | Basis::Source(Source::Brochure | Source::Guessed)
            )
        };
        for input in &mut self.list {
            let What::Value(of) = input.what else { continue };
            if known.contains(&of) && is_worse(&input.basis) {
                input.spread = usual_spread(boat, of, Source::Measured);
                input.basis = Basis::Source(Source::Measured);
            }
        }
        self
    }

    /// The same with some of it taken as known exactly.
    #[cfg(test)]
    pub fn without(mut self, known: impl Fn(What) -> bool) -> Self {
        self.list.retain(|input| !known(input.what));
        self
    }
}

/// The effectiveness of the planes: as a trial told, or as tank runs scatter.
fn effectiveness(boat: &Boat) -> Input {
    let of = Toleranced::PlaneEffectiveness;
    let basis = boat.tolerance_of(of).map_or(Basis::TankRuns, |_| Basis::Stated);
    unlimited(What::Value(of), Spread::Factor { deviation: effectiveness_log_spread(boat) }, basis)
}

fn unlimited(what: What, spread: Spread, basis: Basis) -> Input {
    Input { what, spread, basis, limits: (f64::NEG_INFINITY, f64::INFINITY) }
}

fn is_by_height(boat: &Boat) -> bool {
    matches!(boat.drive().thrust_line, ThrustLine::HeightAtTransom(_))
}

/// Temperature in °C and salinity of the water of a boat; none where it is given by its properties.
fn water_of(boat: &Boat) -> Option<[f64; 2]> {
    let estimated = || {
        let water = boat.estimates().iter().find(|e| e.key == "water.temperature")?;
        Some(water.value.value())
    };
    match boat.input().water {
        Some(WaterInput::Explicit { .. }) => None,
        Some(WaterInput::Kind { kind, temperature, salinity }) => {
            let given = temperature.map(|temperature| temperature.get::<degree_celsius>());
            Some([given.or_else(estimated)?, salinity.unwrap_or(kind.usual_salinity())])
        }
        None => Some([estimated()?, crate::water::SEA_SALINITY]),
    }
}

/// A value of the boat, as far as the file and its estimates tell.
fn of_value(boat: &Boat, value: Toleranced) -> Input {
    let (spread, basis) = spread_of(boat, value, boat.tolerance_of(value));
    let limits = bound_of(value.key()).map_or((f64::NEG_INFINITY, f64::INFINITY), |b| b.hard);
    Input { what: What::Value(value), spread, basis, limits }
}

/// The spread of a value: as stated, else by the likely range of its estimate, else as from a brochure.
fn spread_of(boat: &Boat, value: Toleranced, stated: Option<Width>) -> (Spread, Basis) {
    let estimate = boat.estimates().iter().find(|estimate| estimate.key == value.key());
    match (stated, estimate) {
        (Some(Width::By(width)), _) => (spread_by(boat, value, width), Basis::Stated),
        (Some(Width::Source(source)), _) => {
            (usual_spread(boat, value, source), Basis::Source(source))
        }
        (None, Some(Estimate { low, value, high, .. })) => {
            let ends = [low, value, high].map(Measure::value);
            (Spread::step(ends), Basis::Estimate)
        }
        // A list of stations was measured, or drawn as she was built.
        (None, None) if boat.stations_of(value.key()).is_some() => {
            (usual_spread(boat, value, Source::Measured), Basis::Source(Source::Measured))
        }
        (None, None) => (usual_spread(boat, value, Source::Brochure), Basis::TakenAsBrochure),
    }
}

/// One standard deviation of a value by a statement on it, or by what is taken without one, in the unit of the bounds table; of its logarithm for a size.
pub(crate) fn deviation_by(boat: &Boat, value: Toleranced, stated: Option<Width>) -> Option<f64> {
    match spread_of(boat, value, stated).0 {
        Spread::Step { below, above } => Some(0.5 * (below + above)),
        Spread::Factor { deviation } => Some(deviation),
    }
}

fn usual_spread(boat: &Boat, value: Toleranced, source: Source) -> Spread {
    let usual = usual::of(value);
    let half_width = usual.half_width(source, boat);
    match usual.scale {
        Scale::Own => Spread::factor_of(half_width),
        _ => Spread::step_of(half_width),
    }
}

/// A half-width that the file states. Of a size it is a share, so that the size never turns negative.
fn spread_by(boat: &Boat, value: Toleranced, width: Measure) -> Spread {
    let is_size = usual::scale_of(value) == Scale::Own;
    let of = value_of(boat, value);
    match (width, is_size) {
        (Measure::Share(_), true) => Spread::factor_of(width.value() / 100.0),
        (Measure::Share(_), false) => Spread::step_of(width.value() / 100.0 * of.abs()),
        (_, true) => Spread::factor_of(width.value() / of),
        (_, false) => Spread::step_of(width.value()),
    }
}

/// The value itself, in the unit of the bounds table.
fn value_of(boat: &Boat, value: Toleranced) -> f64 {
    let measure = match value {
        Toleranced::ChineBeam => Measure::Length(boat.hull().chine_beam),
        Toleranced::Deadrise => Measure::Angle(boat.hull().deadrise),
        Toleranced::BottomLength => Measure::Length(boat.hull().bottom_length),
        Toleranced::Mass => Measure::Mass(boat.weight().mass),
        Toleranced::Lcg => Measure::Length(boat.weight().lcg),
        Toleranced::Vcg => Measure::Length(boat.weight().vcg),
        Toleranced::ThrustAngle => Measure::Angle(boat.drive().thrust_angle),
        Toleranced::PlaneEffectiveness => return boat.plane_effectiveness(),
        Toleranced::Roughness => return boat.roughness().unwrap_or(FULL_SCALE_ALLOWANCE),
        Toleranced::ThrustHeight | Toleranced::ThrustOffset => match boat.drive().thrust_line {
            ThrustLine::BelowCentreOfGravity(length) | ThrustLine::HeightAtTransom(length) => {
                return length.get::<meter>();
            }
        },
        Toleranced::WaterTemperature => {
            return water_of(boat).map_or(f64::NAN, |[temperature_c, _]| temperature_c);
        }
        Toleranced::AirArea => {
            return boat
                .input()
                .air
                .map_or(f64::NAN, |air| air.frontal_area.get::<uom::si::area::square_meter>());
        }
        Toleranced::AppendageArea => {
            return boat.input().appendages.map_or(f64::NAN, |appendages| {
                appendages.drag_area.get::<uom::si::area::square_meter>()
            });
        }
    };
    measure.value()
}

#[cfg(test)]
#[path = "inputs_tests.rs"]
mod tests;
