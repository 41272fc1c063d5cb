//! The one table of unit spellings and factors that the reader uses.

use super::factor::*;
use crate::physical::STANDARD_GRAVITY_M_S2;

/// The kind of a quantity as it is written in a boat file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Dimension {
    /// Length, read into metres.
    Length,
    /// Speed, read into metres per second.
    Speed,
    /// Mass, read into kilograms.
    Mass,
    /// Force, read into newtons.
    Force,
    /// Power, read into watts.
    Power,
    /// Plane angle, read into radians.
    Angle,
    /// Temperature, read into kelvins.
    Temperature,
    /// Mass density, read into kilograms per cubic metre.
    Density,
    /// Kinematic viscosity, read into square metres per second.
    KinematicViscosity,
    /// Torque or moment, read into newton metres.
    Torque,
    /// Area, read into square metres.
    Area,
    /// Pressure or stress, read into pascals.
    Pressure,
    /// Volume flow, read into cubic metres per second.
    VolumeRate,
    /// Fuel burnt for each unit of work, read into kilograms per joule.
    SpecificConsumption,
    /// Time, read into seconds.
    Time,
    /// Speed of rotation, read into radians per second.
    RotationSpeed,
    /// Acceleration, read into metres per second squared.
    Acceleration,
    /// Dimensionless share, `0.03` or `3 %`.
    Fraction,
}

impl Dimension {
    /// The kind with its article, for a sentence: `a length`.
    #[must_use]
    pub fn with_article(self) -> &'static str {
        match self {
            Self::Length => "a length",
            Self::Speed => "a speed",
            Self::Mass => "a mass",
            Self::Force => "a force",
            Self::Power => "a power",
            Self::Angle => "an angle",
            Self::Temperature => "a temperature",
            Self::Density => "a density",
            Self::KinematicViscosity => "a kinematic viscosity",
            Self::Torque => "a torque",
            Self::Area => "an area",
            Self::Pressure => "a pressure",
            Self::VolumeRate => "a volume flow",
            Self::SpecificConsumption => "a specific consumption",
            Self::Time => "a time",
            Self::RotationSpeed => "a speed of rotation",
            Self::Acceleration => "an acceleration",
            Self::Fraction => "a share",
        }
    }

    /// The kind alone: `length`.
    #[must_use]
    pub fn noun(self) -> &'static str {
        let phrase = self.with_article();
        phrase.split_once(' ').map_or(phrase, |(_, noun)| noun)
    }

    /// The preferred spelling of every unit of this kind, the first being the one examples use.
    #[must_use]
    pub fn unit_symbols(self) -> Vec<&'static str> {
        UNITS.iter().filter(|unit| unit.dimension == self).map(|unit| unit.spellings[0]).collect()
    }

    /// The unit of an example, `mm` of `12 mm`; the usual one where it has none.
    #[must_use]
    pub fn unit_of_example(self, example: &str) -> &'static str {
        let written = example.rsplit(' ').next().unwrap_or_default();
        let symbols = self.unit_symbols();
        symbols.iter().copied().find(|symbol| *symbol == written).unwrap_or(symbols[0])
    }

    /// The unit in which limits and messages give it: the one examples use, but m/s for a speed.
    #[must_use]
    pub fn unit_of_limits(self) -> &'static str {
        match self {
            Self::Speed => "m/s",
            other => UNITS
                .iter()
                .find(|unit| unit.dimension == other)
                .map_or("", |unit| unit.spellings[0]),
        }
    }

    /// The units of this kind as a sentence part: `m, cm, mm, ft or in`.
    #[must_use]
    pub fn allowed_units(self) -> String {
        let symbols = self.unit_symbols();
        let listed = match symbols.split_last() {
            Some((last, [])) => (*last).to_string(),
            Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
            None => String::new(),
        };
        match self {
            Self::Fraction => format!("{listed} or a plain number"),
            _ => listed,
        }
    }
}

/// One unit: its kind, how it may be spelt, and `SI value = (number + offset) * factor`.
#[derive(Debug)]
pub(super) struct Unit {
    pub(super) dimension: Dimension,
    /// Spellings after [`normal_spelling`]; the first is the preferred one.
    pub(super) spellings: &'static [&'static str],
    pub(super) factor: f64,
    pub(super) offset: f64,
}

const fn unit(dimension: Dimension, spellings: &'static [&'static str], factor: f64) -> Unit {
    Unit { dimension, spellings, factor, offset: 0.0 }
}

const fn scale(spellings: &'static [&'static str], factor: f64, offset: f64) -> Unit {
    Unit { dimension: Dimension::Temperature, spellings, factor, offset }
}

/// Spellings of the foot, the only unit that another (the inch) may follow.
pub(super) const FOOT: &[&str] = &["ft", "foot", "feet", "'", "\u{2032}"];
/// Spellings of the inch.
pub(super) const INCH: &[&str] = &["in", "inch", "inches", "\"", "\u{2033}"];

use Dimension as D;

/// Every unit that may be written in a boat file or on the command line.
pub(super) const UNITS: &[Unit] = &[
    unit(D::Length, &["m", "metre", "metres", "meter", "meters"], 1.0),
    unit(D::Length, &["cm"], 0.01),
    unit(D::Length, &["mm"], 0.001),
    unit(D::Length, FOOT, M_PER_FOOT),
    unit(D::Length, INCH, M_PER_INCH),
    unit(D::Speed, &["kn", "knot", "knots"], M_S_PER_KNOT),
    unit(D::Speed, &["km/h"], M_S_PER_KILOMETRE_PER_HOUR),
    unit(D::Speed, &["mph", "mi/h", "mile/h"], M_S_PER_MILE_PER_HOUR),
    unit(D::Speed, &["m/s"], 1.0),
    unit(D::Speed, &["ft/s"], M_PER_FOOT),
    unit(D::Mass, &["kg"], 1.0),
    unit(D::Mass, &["t", "tonne", "tonnes"], 1000.0),
    unit(D::Mass, &["lb", "lbs", "pound", "pounds"], KG_PER_POUND),
    unit(D::Mass, &["g"], 0.001),
    unit(D::Force, &["N"], 1.0),
    unit(D::Force, &["kN"], 1000.0),
    unit(D::Force, &["lbf"], N_PER_POUND_FORCE),
    unit(D::Power, &["kW"], 1000.0),
    unit(D::Power, &["W"], 1.0),
    unit(D::Power, &["hp"], W_PER_HORSEPOWER),
    unit(D::Angle, &["deg", "degree", "degrees"], RAD_PER_DEGREE),
    unit(D::Angle, &["rad", "radian", "radians"], 1.0),
    scale(&["degC", "deg C"], 1.0, KELVIN_AT_ZERO_CELSIUS),
    scale(&["degF", "deg F"], KELVIN_PER_RANKINE, RANKINE_AT_ZERO_FAHRENHEIT),
    scale(&["K"], 1.0, 0.0),
    unit(D::Density, &["kg/m^3", "kg/m3"], 1.0),
    unit(D::KinematicViscosity, &["m^2/s", "m2/s"], 1.0),
    unit(D::KinematicViscosity, &["mm^2/s", "mm2/s"], 1.0e-6),
    unit(D::Torque, &["N m", "Nm"], 1.0),
    unit(D::Torque, &["kN m", "kNm"], 1000.0),
    unit(D::Torque, &["lbf ft", "ft lbf"], N_M_PER_POUND_FORCE_FOOT),
    unit(D::Area, &["m^2", "m2"], 1.0),
    unit(D::Area, &["cm^2", "cm2"], 1.0e-4),
    unit(D::Area, &["ft^2", "ft2", "sq ft"], M2_PER_SQUARE_FOOT),
    unit(D::Area, &["in^2", "in2", "sq in"], M2_PER_SQUARE_INCH),
    unit(D::Pressure, &["bar"], PA_PER_BAR),
    unit(D::Pressure, &["Pa"], 1.0),
    unit(D::Pressure, &["kPa"], 1.0e3),
    unit(D::Pressure, &["MPa", "N/mm^2", "N/mm2"], 1.0e6),
    unit(D::Pressure, &["GPa"], 1.0e9),
    unit(D::Pressure, &["psi"], PA_PER_PSI),
    unit(D::VolumeRate, &["L/min", "l/min"], M3_S_PER_LITRE_PER_MINUTE),
    unit(D::VolumeRate, &["m^3/s", "m3/s"], 1.0),
    unit(D::VolumeRate, &["L/h", "l/h"], M3_S_PER_LITRE_PER_MINUTE * S_PER_MINUTE / S_PER_HOUR),
    unit(
        D::SpecificConsumption,
        &["g/kWh", "g/(kW h)", "g/kW h"],
        KG_PER_JOULE_IN_GRAM_PER_KILOWATT_HOUR,
    ),
    unit(
        D::SpecificConsumption,
        &["lb/(hp h)", "lb/hp h", "lb/hph"],
        KG_PER_JOULE_IN_POUND_PER_HORSEPOWER_HOUR,
    ),
    unit(D::Time, &["s"], 1.0),
    unit(D::Time, &["min"], S_PER_MINUTE),
    unit(D::Time, &["h"], S_PER_HOUR),
    unit(D::RotationSpeed, &["rpm", "r/min"], RAD_S_PER_REVOLUTION_PER_MINUTE),
    unit(D::RotationSpeed, &["rad/s"], 1.0),
    unit(D::Acceleration, &["g"], STANDARD_GRAVITY_M_S2),
    unit(D::Acceleration, &["m/s^2", "m/s2"], 1.0),
    unit(D::Fraction, &["%"], 0.01),
];

/// Spellings that are refused because they mean something else, or several things, with the
/// unit to write instead.
pub(super) const REFUSED: &[(&str, &str)] = &[
    ("kt", "write `kn` for knots (`kt` is a kilotonne)"),
    ("kts", "write `kn` for knots"),
    ("kmh", "write `km/h`"),
    ("kph", "write `km/h`"),
    ("kmph", "write `km/h`"),
    ("ton", "write `t` for 1000 kg, or pounds for a short (2000 lb) or long (2240 lb) ton"),
    ("tons", "write `t` for 1000 kg, or pounds for short (2000 lb) or long (2240 lb) tons"),
    ("kgf", "write newtons: 1 kgf is 9.80665 N"),
    ("lb ft", "write `lbf ft`"),
    ("ft lb", "write `lbf ft`"),
    ("PS", "write `kW`: the metric horsepower is 0.73549875 kW, `hp` is 0.7457 kW"),
    ("cv", "write `kW`: the metric horsepower is 0.73549875 kW, `hp` is 0.7457 kW"),
    ("bhp", "write `hp`"),
    ("C", "write `degC`"),
    ("F", "write `degF`"),
    ("cSt", "write `mm^2/s`"),
    ("gal/h", "write `L/h`: the US gallon is 3.785 L, the imperial one 4.546 L"),
    ("gal/min", "write `L/min`: the US gallon is 3.785 L, the imperial one 4.546 L"),
];

/// One spelling for the many ways of typing a product, a power, a degree sign or a space.
pub(super) fn normal_spelling(text: &str) -> String {
    let is_plain = |byte: u8| byte.is_ascii_alphanumeric() || b"/^%".contains(&byte);
    if text.trim().bytes().all(is_plain) {
        return text.trim().to_owned();
    }
    let mut plain = String::with_capacity(text.len());
    for character in text.trim().chars() {
        match character {
            '\u{b7}' | '\u{22c5}' | '*' | '-' => plain.push(' '),
            '\u{b2}' => plain.push_str("^2"),
            '\u{b3}' => plain.push_str("^3"),
            '\u{b0}' | '\u{ba}' => plain.push_str("deg"),
            space if space.is_whitespace() => plain.push(' '),
            other => plain.push(other),
        }
    }
    let spaced = plain.split_whitespace().collect::<Vec<_>>().join(" ");
    spaced.replace(" / ", "/").replace("deg deg", "deg")
}

/// The unit so spelt (after [`normal_spelling`]), of the kind wanted if there is one.
pub(super) fn find_unit(spelling: &str, wanted: Dimension) -> Option<&'static Unit> {
    let spelt = |unit: &&Unit| unit.spellings.contains(&spelling);
    UNITS
        .iter()
        .filter(|unit| unit.dimension == wanted)
        .find(spelt)
        .or_else(|| UNITS.iter().find(spelt))
}

/// How many SI units one of a unit is, by its preferred spelling; for units in which quantities are shown, so that a spelling that is not in the table does not compile.
pub(super) const fn factor_of(spelling: &str, dimension: Dimension) -> f64 {
    let mut index = 0;
    while index < UNITS.len() {
        let unit = &UNITS[index];
        if unit.dimension as u8 == dimension as u8 && is_same(unit.spellings[0], spelling) {
            assert!(unit.offset == 0.0, "a scale is not shown by its factor");
            return unit.factor;
        }
        index += 1;
    }
    panic!("no unit of that kind is spelt so")
}

const fn is_same(one: &str, other: &str) -> bool {
    let (one, other) = (one.as_bytes(), other.as_bytes());
    let mut index = 0;
    while index < one.len() && index < other.len() && one[index] == other[index] {
        index += 1;
    }
    index == one.len() && index == other.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_no_spelling_stands_for_two_units() {
        let mut seen = std::collections::HashSet::new();
        for spelling in UNITS.iter().flat_map(|unit| unit.spellings) {
            // The gram and the acceleration of free fall: what is wanted tells them apart.
            assert!(seen.insert(spelling) || *spelling == "g", "{spelling} is in the table twice");
            assert_eq!(&normal_spelling(spelling), spelling);
        }
        for (refused, _) in REFUSED {
            assert!(!seen.contains(refused), "{refused} is refused and allowed");
        }
    }

    #[test]
    fn regression_allowed_units_read_as_a_sentence() {
        assert_eq!(Dimension::Length.allowed_units(), "m, cm, mm, ft or in");
        assert_eq!(Dimension::Density.allowed_units(), "kg/m^3");
        assert_eq!(Dimension::Fraction.allowed_units(), "% or a plain number");
        assert_eq!(Dimension::Angle.noun(), "angle");
    }
}
