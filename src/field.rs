//! The fields of a result: what each number is called, what it is a quantity of, and where it comes from.
//!
//! A result lists its fields once. JSON, CSV, the tables on the screen and in the papers, and the
//! page ask that list; each shows a field in its own way, none names it again. What has no table is
//! written by deriving `Serialize`, its quantities with `si`; or with `written`, where it has
//! values that it computes.

mod data;

use serde::{Serialize, Serializer};
use uom::si::f64::{
    Angle, Area, Force, KinematicViscosity, Length, Mass, MassDensity, Power, Pressure, Ratio,
    Time, Torque, Velocity, Volume, VolumeRate,
};
use uom::si::{
    angle::degree, area::square_meter, force::newton, kinematic_viscosity::square_meter_per_second,
    length::meter, mass::kilogram, mass_density::kilogram_per_cubic_meter, power::watt,
    pressure::pascal, ratio::ratio, time::second, torque::newton_meter, velocity::meter_per_second,
    volume::cubic_meter, volume_rate::cubic_meter_per_second,
};

use crate::units::UnitChoice;
pub use data::{DATA_DIGITS, as_data, unit_ending};

/// What a number is a quantity of, and so in which units it is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// A speed; m/s in SI.
    Speed,
    /// An angle; degrees everywhere.
    Angle,
    /// A length of the boat; m in SI.
    Length,
    /// A force; N in SI.
    Force,
    /// A force for each degree of deflection; N in SI.
    ForcePerDegree,
    /// A power; W in SI.
    Power,
    /// A pressure; Pa in SI, else the force over the length squared.
    Pressure,
    /// A pure number.
    Number,
    /// A pure number with a name of its own for what it counts, which no choice of units changes.
    Counted(&'static str),
}

/// With how many digits a number is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Digits {
    /// So many decimals.
    Decimals(usize),
    /// So many digits of the largest number beside it.
    Significant(usize),
}

/// A field of a result.
#[derive(Debug)]
pub struct Field<T> {
    /// Its stable name without the unit.
    pub key: &'static str,
    /// What it is called in tables.
    pub label: &'static str,
    /// What it is a quantity of.
    pub quantity: Quantity,
    /// With how many digits it is shown.
    pub digits: Digits,
    /// Its value in SI, angles in degrees; none where it does not exist.
    pub value: fn(&T) -> Option<f64>,
}

impl Quantity {
    /// What is put after the key where values are in SI with angles in degrees.
    #[must_use]
    pub const fn si_ending(self) -> &'static str {
        match self {
            Self::Speed => "_m_s",
            Self::Angle => "_deg",
            Self::Length => "_m",
            Self::Force | Self::ForcePerDegree => "_n",
            Self::Power => "_w",
            Self::Pressure => "_pa",
            Self::Number | Self::Counted(_) => "",
        }
    }

    /// The unit as it stands at the end of a name: `km_h`, `lbf`, `lbf_ft2`.
    #[must_use]
    pub fn name_ending(self, units: UnitChoice) -> String {
        let quantity = if self == Self::ForcePerDegree { Self::Force } else { self };
        quantity.symbol(units).replace('/', "_").replace('^', "")
    }

    /// The unit as written beside a number.
    #[must_use]
    pub fn symbol(self, units: UnitChoice) -> String {
        match self {
            Self::Speed => units.speed.symbol().to_owned(),
            Self::Angle => "deg".to_owned(),
            Self::Length => units.length.symbol().to_owned(),
            Self::Force => units.force.symbol().to_owned(),
            Self::ForcePerDegree => format!("{} per deg", units.force.symbol()),
            Self::Power => units.power.symbol().to_owned(),
            Self::Pressure => format!("{}/{}^2", units.force.symbol(), units.length.symbol()),
            Self::Number => String::new(),
            Self::Counted(name) => name.to_owned(),
        }
    }

    /// A value in SI, angles in degrees, as a number of the unit shown.
    #[must_use]
    pub fn shown(self, si: f64, units: UnitChoice) -> f64 {
        match self {
            Self::Speed => units.speed.value(Velocity::new::<meter_per_second>(si)),
            Self::Length => units.length.value(Length::new::<meter>(si)),
            Self::Force | Self::ForcePerDegree => units.force.value(Force::new::<newton>(si)),
            Self::Power => units.power.value(Power::new::<watt>(si)),
            Self::Pressure => {
                let one = units.length.value(Length::new::<meter>(1.0));
                units.force.value(Force::new::<newton>(si)) / (one * one)
            }
            Self::Angle | Self::Number | Self::Counted(_) => si,
        }
    }
}

/// Decimals that show so many digits of the largest of some numbers; four at the most.
#[must_use]
pub fn decimals_for(largest: f64, digits: usize) -> usize {
    let largest = largest.abs();
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let whole_digits = if largest >= 1.0 { largest.log10().floor() as usize + 1 } else { 1 };
    if largest == 0.0 { 0 } else { digits.saturating_sub(whole_digits).min(4) }
}

impl<T> Clone for Field<T> {
    fn clone(&self) -> Self {
        *self
    }
}

// Whatever the result is, only a function that reads it is copied.
impl<T> Copy for Field<T> {}

impl<T> Field<T> {
    /// Its name with the unit, in SI with angles in degrees.
    #[must_use]
    pub fn si_name(&self) -> String {
        format!("{}{}", self.key, self.quantity.si_ending())
    }

    /// Its value in SI with angles in degrees; none where it does not exist.
    #[must_use]
    pub fn si(&self, of: &T) -> Option<f64> {
        (self.value)(of).filter(|value| value.is_finite())
    }

    /// Its name with the unit shown.
    #[must_use]
    pub fn name_in(&self, units: UnitChoice) -> String {
        match self.quantity {
            Quantity::Number | Quantity::Counted(_) => self.key.to_owned(),
            quantity => format!("{}_{}", self.key, quantity.name_ending(units)),
        }
    }

    /// Decimals with which a number of it is shown by itself.
    #[must_use]
    pub fn decimals_of(&self, shown: f64) -> usize {
        match self.digits {
            Digits::Decimals(decimals) => decimals,
            Digits::Significant(digits) => decimals_for(shown, digits),
        }
    }

    /// Its value in the unit shown; none where it does not exist.
    #[must_use]
    pub fn shown(&self, of: &T, units: UnitChoice) -> Option<f64> {
        self.si(of).map(|si| self.quantity.shown(si, units))
    }
}

/// Lists the fields of a result: a constant for each, and `ALL` of them in order.
///
/// `name: "key", "label", quantity, digits, getter;`
macro_rules! fields {
    ($of:ty; $($(#[$meta:meta])* $name:ident: $key:literal, $label:literal, $quantity:expr, $digits:expr, $value:expr;)+) => {
        $(
            $(#[$meta])*
            pub const $name: $crate::field::Field<$of> = $crate::field::Field {
                key: $key,
                label: $label,
                quantity: $quantity,
                digits: $digits,
                value: $value,
            };
        )+
        /// All of them, in the order in which they are written.
        pub const ALL: &[$crate::field::Field<$of>] = &[$($name),+];
    };
}
pub(crate) use fields;

/// A quantity, or several or none, as plain numbers of SI with angles in degrees; a nought has no sign.
pub(crate) trait InSi {
    /// The numbers.
    type Plain: Serialize;
    fn in_si(&self) -> Self::Plain;
}

macro_rules! in_si {
    ($($quantity:ty, $unit:ty;)+) => {
        $(impl InSi for $quantity {
            type Plain = f64;
            fn in_si(&self) -> f64 {
                self.get::<$unit>() + 0.0
            }
        })+
    };
}

in_si! {
    Angle, degree;
    Area, square_meter;
    Force, newton;
    KinematicViscosity, square_meter_per_second;
    Length, meter;
    Mass, kilogram;
    MassDensity, kilogram_per_cubic_meter;
    Power, watt;
    Pressure, pascal;
    Ratio, ratio;
    Time, second;
    Torque, newton_meter;
    Velocity, meter_per_second;
    Volume, cubic_meter;
    VolumeRate, cubic_meter_per_second;
}

impl<T: InSi> InSi for Option<T> {
    type Plain = Option<T::Plain>;
    fn in_si(&self) -> Self::Plain {
        self.as_ref().map(InSi::in_si)
    }
}

impl<T: InSi> InSi for [T; 2] {
    type Plain = [T::Plain; 2];
    fn in_si(&self) -> Self::Plain {
        self.each_ref().map(InSi::in_si)
    }
}

/// Writes quantities as plain numbers of SI, angles in degrees; for `serialize_with`.
pub(crate) fn si<T: InSi, S: Serializer>(quantity: &T, serializer: S) -> Result<S::Ok, S::Error> {
    quantity.in_si().serialize(serializer)
}

/// Lets results write themselves as objects: a name and a value for each line, and then the flags. JSON has null for a number without end.
///
/// `Result as one { "key": value, .. flags: set }`
macro_rules! written {
    ($($of:ty as $one:ident { $($key:literal: $value:expr,)+ $(.. flags: $flags:expr)? })+) => {$(
        impl serde::Serialize for $of {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                use serde::ser::SerializeMap;
                let $one = self;
                let mut map = serializer.serialize_map(None)?;
                $(map.serialize_entry($key, &$value)?;)+
                $($flags.entries(&mut map)?;)?
                map.end()
            }
        }
    )+};
}
pub(crate) use written;

/// Lets enums write themselves by their stable words.
macro_rules! by_word {
    ($($of:ty),+ $(,)?) => {$(
        impl serde::Serialize for $of {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(self.word())
            }
        }
    )+};
}
pub(crate) use by_word;

#[cfg(all(test, feature = "program"))]
mod tests {
    use super::*;
    use crate::flag::{Flag, Flags};
    use serde_json::json;
    use uom::si::velocity::kilometer_per_hour;

    #[derive(Clone, Copy)]
    enum Word {
        This,
    }

    impl Word {
        const fn word(self) -> &'static str {
            match self {
                Self::This => "this-one",
            }
        }
    }

    struct Answer {
        speed: Velocity,
        ends: Option<[Angle; 2]>,
        moment: Torque,
        push: f64,
        flags: Flags,
    }

    by_word!(Word);
    written! {
        Answer as answer {
            "word": Word::This,
            "speed_m_s": answer.speed.in_si(),
            "ends_deg": answer.ends.in_si(),
            "moment_n_m": answer.moment.in_si(),
            "push": answer.push,
            .. flags: answer.flags
        }
    }

    #[test]
    fn regression_a_result_writes_names_quantities_of_si_and_flags() {
        let answer = Answer {
            speed: Velocity::new::<kilometer_per_hour>(36.0),
            ends: Some([0.5, -2.0].map(Angle::new::<degree>)),
            moment: Torque::new::<newton_meter>(-0.0),
            push: f64::INFINITY,
            flags: [Flag::TrimUnderTwo, Flag::ChineDry].into_iter().collect(),
        };
        let text = serde_json::to_string(&answer).unwrap();
        assert!(text.contains("\"moment_n_m\":0.0"), "{text}");
        let expected = json!({
            "word": "this-one",
            "speed_m_s": 10.0,
            "ends_deg": [0.5, -2.0],
            "moment_n_m": 0.0,
            "push": null,
            "flags": ["trim-under-two", "chine-dry"],
            "danger": ["trim-under-two"],
            "untested": [],
        });
        let mut written = serde_json::to_value(&answer).unwrap();
        let ends = written["ends_deg"].as_array_mut().unwrap();
        assert!(
            ends.iter()
                .zip([0.5, -2.0])
                .all(|(end, deg)| (end.as_f64().unwrap() - deg).abs() < 1e-14)
        );
        written["ends_deg"] = json!([0.5, -2.0]);
        assert_eq!(written, expected);
        let none = serde_json::to_value(Answer { ends: None, ..answer }).unwrap();
        assert!(none["ends_deg"].is_null());
    }
}
