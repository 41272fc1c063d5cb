//! Stated rules for what an owner cannot know, each with its likely range.
//!
//! All rules here are common practice, no source, unless they say otherwise.
//! Every value that comes from one is marked in every output, together with
//! how far the answer moves within the likely range.

use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};
use uom::si::angle::degree;
use uom::si::f64::{Angle, Length, Mass, Power, ThermodynamicTemperature, Velocity};
use uom::si::{
    length::meter, mass::kilogram, power::watt, thermodynamic_temperature::degree_celsius,
    velocity::meter_per_second,
};

use super::input::{BottomForm, DriveKind};
use super::keys::or_default;
use super::measure::Measure;
use crate::units::factor::{KG_PER_POUND, M_S_PER_KNOT, W_PER_HORSEPOWER};

/// A value that a rule supplied because the boat file does not give it.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// Key that would replace it in the boat file.
    pub key: &'static str,
    /// The value used.
    pub value: Measure,
    /// Lower end of the likely range.
    pub low: Measure,
    /// Upper end of the likely range.
    pub high: Measure,
    /// The rule, in words.
    pub rule: String,
}

/// Its numbers are in the unit that it names.
impl Serialize for Estimate {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(6))?;
        map.serialize_entry("key", self.key)?;
        map.serialize_entry("unit", self.value.unit())?;
        for (key, measure) in [("value", self.value), ("low", self.low), ("high", self.high)] {
            map.serialize_entry(key, &measure.value())?;
        }
        map.serialize_entry("rule", &self.rule)?;
        map.end()
    }
}

/// Bottom length from length over all: 0.85 of it, likely 0.78 to 0.92.
#[must_use]
pub fn bottom_length(overall: Length) -> Estimate {
    scaled_length("hull.bottom_length", overall, [0.78, 0.85, 0.92], "of the length over all")
}

/// Chine beam from the beam over all: 0.86 of it, likely 0.78 to 0.94. Judged: sides flare, and a rubbing strake counts.
#[must_use]
pub fn chine_beam(overall: Length) -> Estimate {
    scaled_length("hull.chine_beam", overall, [0.78, 0.86, 0.94], "of the beam over all")
}

/// How much steeper the mean of the wetted bottom is than the bottom at the transom: least, used, most, degrees. Judged.
const STEEPER_THAN_AT_TRANSOM_DEG: [f64; 3] = [0.0, 2.0, 5.0];

/// Deadrise from words for it, or from that at the transom; the mean over the wetted bottom. Judged: what these words are used for, no source.
#[must_use]
pub fn deadrise(form: Option<BottomForm>, at_transom: Option<Angle>) -> Estimate {
    let (ends, rule) = match (form, at_transom) {
        (Some(BottomForm::Flat), _) => ([3.0, 8.0, 13.0], "judged for a flat bottom".to_owned()),
        (Some(BottomForm::Moderate), _) => {
            ([12.0, 16.0, 20.0], "judged for a moderate V".to_owned())
        }
        (Some(BottomForm::DeepV), _) => ([19.0, 22.0, 25.0], "judged for a deep V".to_owned()),
        (None, Some(aft)) => (
            STEEPER_THAN_AT_TRANSOM_DEG.map(|more| more + aft.get::<degree>()),
            "judged 2 deg more than at the transom".to_owned(),
        ),
        (None, None) => (
            [8.0, 17.0, 24.0],
            "judged for planing boats of every kind; give it at least in words: flat, moderate or deep V"
                .to_owned(),
        ),
    };
    let [low, value, high] = ends.map(|deg| Measure::Angle(Angle::new::<degree>(deg)));
    Estimate { key: "hull.deadrise", value, low, high, rule }
}

/// LCG from the bottom length: 0.37 of it, likely 0.32 to 0.42.
#[must_use]
pub fn lcg(bottom_length: Length) -> Estimate {
    scaled_length("weight.lcg", bottom_length, [0.32, 0.37, 0.42], "of the bottom length")
}

/// VCG from the chine beam: 0.33 of it, likely 0.25 to 0.42.
#[must_use]
pub fn vcg(chine_beam: Length) -> Estimate {
    scaled_length("weight.vcg", chine_beam, [0.25, 0.33, 0.42], "of the chine beam")
}

/// Thrust angle by kind of drive.
#[must_use]
pub fn thrust_angle(kind: Option<DriveKind>) -> Estimate {
    let (low, value, high, rule) = match kind {
        Some(DriveKind::Outboard) => (-4.0, 0.0, 4.0, "an outboard trimmed level with the keel"),
        Some(DriveKind::Sterndrive) => (-4.0, 0.0, 4.0, "a leg trimmed level with the keel"),
        Some(DriveKind::Shaft) => (7.0, 10.0, 14.0, "an inclined shaft"),
        Some(DriveKind::Pod) => (-1.0, 0.0, 2.0, "a pod parallel to the keel"),
        Some(DriveKind::Jet) => (0.0, 3.0, 6.0, "a jet nozzle"),
        None => (-3.0, 2.0, 10.0, "drive.kind is not given: between a leg and a shaft"),
    };
    let angle = |x| Measure::Angle(Angle::new::<degree>(x));
    Estimate {
        key: "drive.thrust_angle",
        value: angle(value),
        low: angle(low),
        high: angle(high),
        rule: format!("usual for {rule}"),
    }
}

/// Height of the thrust line at the transom by kind of drive, as a share of the chine beam.
#[must_use]
pub fn thrust_height(kind: Option<DriveKind>, chine_beam: Length) -> Estimate {
    let shares = match kind {
        Some(DriveKind::Outboard | DriveKind::Sterndrive) => [-0.13, -0.08, -0.04],
        Some(DriveKind::Shaft | DriveKind::Pod) => [-0.22, -0.15, -0.08],
        Some(DriveKind::Jet) => [0.02, 0.08, 0.14],
        None => [-0.20, -0.10, 0.0],
    };
    let mut estimate =
        scaled_length("drive.thrust_height", chine_beam, shares, "of the chine beam");
    if kind.is_none() {
        estimate.rule.push_str("; drive.kind is not given");
    }
    estimate
}

/// Constant of Crouch's speed formula, in knots, for average runabouts and cruisers, and its likely range. From memory.
pub const CROUCH_CONSTANT: [f64; 3] = [130.0, 150.0, 175.0];

/// Top speed from power: Crouch's formula, V(kn) = C / √(lb per shaft horsepower).
///
/// The formula is printed in Gerr, D. (1989), *Propeller Handbook*, with C = 150 for
/// average runabouts and cruisers and 190 for fast runabouts; from memory.
#[must_use]
pub fn top_speed_from_power(mass: Mass, power: Power) -> Estimate {
    let pounds_per_horsepower =
        (mass.get::<kilogram>() / KG_PER_POUND) / (power.get::<watt>() / W_PER_HORSEPOWER);
    let speed = |constant: f64| {
        Measure::Speed(Velocity::new::<meter_per_second>(
            constant / pounds_per_horsepower.sqrt() * M_S_PER_KNOT,
        ))
    };
    let [low, value, high] = CROUCH_CONSTANT.map(speed);
    Estimate {
        key: "drive.top_speed",
        value,
        low,
        high,
        rule: "Crouch's formula with a constant of 150, in knots, for drive.power and the mass"
            .to_owned(),
    }
}

/// Top speed when not even the power is known: F∇ = 3.0, likely 2.3 to 4.0.
#[must_use]
pub fn top_speed_from_displacement(displaced_volume_m3: f64) -> Estimate {
    let reference = (crate::physical::STANDARD_GRAVITY_M_S2 * displaced_volume_m3.cbrt()).sqrt();
    let speed = |froude: f64| Measure::Speed(Velocity::new::<meter_per_second>(froude * reference));
    Estimate {
        key: "drive.top_speed",
        value: speed(3.0),
        low: speed(2.3),
        high: speed(4.0),
        rule: "volume Froude number 3.0; neither drive.top_speed nor drive.power is given"
            .to_owned(),
    }
}

/// Water temperature: 15 °C, likely 5 to 25 °C.
#[must_use]
pub fn water_temperature() -> Estimate {
    let temperature = |x| Measure::Temperature(ThermodynamicTemperature::new::<degree_celsius>(x));
    Estimate {
        key: "water.temperature",
        value: Measure::Temperature(or_default(None, "water.temperature")),
        low: temperature(5.0),
        high: temperature(25.0),
        rule: "the temperature that resistance is usually stated for".to_owned(),
    }
}

fn scaled_length(key: &'static str, base: Length, shares: [f64; 3], of: &str) -> Estimate {
    let [low, value, high] =
        shares.map(|share| Measure::Length(Length::new::<meter>(share * base.get::<meter>())));
    Estimate { key, value, low, high, rule: format!("{:.2} {of}", shares[1]) }
}
