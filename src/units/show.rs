//! Writes quantities in the unit a person asked for.

use uom::si::f64::{
    Angle, Area, Force, Length, Mass, Power, Ratio, ThermodynamicTemperature, Torque, Velocity,
};
use uom::si::{
    angle::radian, area::square_meter, force::newton, length::meter, mass::kilogram, power::watt,
    ratio::ratio, thermodynamic_temperature::kelvin, torque::newton_meter,
    velocity::meter_per_second,
};

use super::factor::{KELVIN_AT_ZERO_CELSIUS, M_S_PER_KNOT, RAD_PER_DEGREE};
use super::output_unit::{
    AreaUnit, ForceUnit, LengthUnit, MassUnit, MomentUnit, PowerUnit, SpeedUnit,
};

/// Largest relative difference between a quantity and what its shortest text reads back as.
const READ_BACK_TOLERANCE: f64 = 4.0 * f64::EPSILON;
/// Significant digits that hold any double exactly.
const MOST_DIGITS: usize = 17;
/// Parts of an inch on a usual rule.
const INCH_PARTS: i64 = 16;
/// Whole inches in a foot.
const INCHES_PER_FOOT: i64 = 12;

/// The length with the fewest digits that read back as the same length.
#[must_use]
pub fn format_length(length: Length, unit: LengthUnit) -> String {
    shortest(length.get::<meter>(), unit.factor(), unit.symbol())
}

/// The speed with the fewest digits that read back as the same speed.
#[must_use]
pub fn format_speed(speed: Velocity, unit: SpeedUnit) -> String {
    shortest(speed.get::<meter_per_second>(), unit.factor(), unit.symbol())
}

/// The mass with the fewest digits that read back as the same mass.
#[must_use]
pub fn format_mass(mass: Mass, unit: MassUnit) -> String {
    shortest(mass.get::<kilogram>(), unit.factor(), unit.symbol())
}

/// The force with the fewest digits that read back as the same force.
#[must_use]
pub fn format_force(force: Force, unit: ForceUnit) -> String {
    shortest(force.get::<newton>(), unit.factor(), unit.symbol())
}

/// The power with the fewest digits that read back as the same power.
#[must_use]
pub fn format_power(power: Power, unit: PowerUnit) -> String {
    shortest(power.get::<watt>(), unit.factor(), unit.symbol())
}

/// The moment with the fewest digits that read back as the same moment.
#[must_use]
pub fn format_moment(moment: Torque, unit: MomentUnit) -> String {
    shortest(moment.get::<newton_meter>(), unit.factor(), unit.symbol())
}

/// The area with the fewest digits that read back as the same area.
#[must_use]
pub fn format_area(area: Area, unit: AreaUnit) -> String {
    shortest(area.get::<square_meter>(), unit.factor(), unit.symbol())
}

/// The angle in degrees with the fewest digits that read back as the same angle.
#[must_use]
pub fn format_angle(angle: Angle) -> String {
    shortest(angle.get::<radian>(), RAD_PER_DEGREE, "deg")
}

/// The share in per cent with the fewest digits that read back as the same share.
#[must_use]
pub fn format_share(share: Ratio) -> String {
    shortest(share.get::<ratio>(), 0.01, "%")
}

/// The temperature in degrees Celsius, to a thousandth of a degree.
#[must_use]
pub fn format_temperature(temperature: ThermodynamicTemperature) -> String {
    let celsius = temperature.get::<kelvin>() - KELVIN_AT_ZERO_CELSIUS;
    let thousandths = number_with_decimals(celsius, 3);
    let short = thousandths.trim_end_matches('0').trim_end_matches('.');
    format!("{short} degC")
}

/// A number with a fixed count of decimals and no minus sign before zero.
#[must_use]
pub fn number_with_decimals(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(zero) if zero.chars().all(|c| c == '0' || c == '.') => zero.to_string(),
        _ => text,
    }
}

/// A number as a person writes it: four significant digits, no trailing zeros.
#[must_use]
pub fn plain_number(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{value}");
    }
    let magnitude = value.abs().log10().floor();
    if !(-4.0..6.0).contains(&magnitude) {
        return format!("{value:.3e}");
    }
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let decimals = (3.0 - magnitude).max(0.0) as usize;
    let text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// The fewest significant digits of `si / factor` that give `si` back when read.
fn shortest(si: f64, factor: f64, symbol: &str) -> String {
    let value = si / factor;
    let reads_back =
        |candidate: f64| (candidate * factor - si).abs() <= READ_BACK_TOLERANCE * si.abs();
    let short = (0..MOST_DIGITS)
        .filter_map(|digits| format!("{value:.digits$e}").parse::<f64>().ok())
        .find(|&candidate| reads_back(candidate))
        .unwrap_or(value);
    let short = if short == 0.0 { 0.0 } else { short };
    if short != 0.0 && !(1.0e-4..1.0e9).contains(&short.abs()) {
        format!("{short:e} {symbol}")
    } else {
        format!("{short} {symbol}")
    }
}

/// A length in inches to the nearest sixteenth, as on a rule: `7 1/2 in`.
#[must_use]
pub fn fraction_of_inch(length: Length) -> String {
    let sixteenths = sixteenths_of_inch(length);
    let sign = if sixteenths < 0 { "-" } else { "" };
    format!("{sign}{} in", whole_and_fraction(sixteenths.abs()))
}

/// A speed in whole half knots, as a person would write it, rounded one way.
pub(crate) fn half_knots(speed: Velocity, round: fn(f64) -> f64) -> Velocity {
    let half_knot_m_s = 0.5 * M_S_PER_KNOT;
    let halves = round(speed.get::<meter_per_second>() / half_knot_m_s);
    Velocity::new::<meter_per_second>(halves * half_knot_m_s)
}

/// A length in feet and inches to the nearest sixteenth of an inch: `7 ft 4 1/2 in`.
#[must_use]
pub fn feet_and_inches(length: Length) -> String {
    let sixteenths = sixteenths_of_inch(length);
    let sign = if sixteenths < 0 { "-" } else { "" };
    let per_foot = INCHES_PER_FOOT * INCH_PARTS;
    let (feet, rest) = (sixteenths.abs() / per_foot, sixteenths.abs() % per_foot);
    match (feet, rest) {
        (0, _) => format!("{sign}{} in", whole_and_fraction(rest)),
        (_, 0) => format!("{sign}{feet} ft"),
        _ => format!("{sign}{feet} ft {} in", whole_and_fraction(rest)),
    }
}

fn sixteenths_of_inch(length: Length) -> i64 {
    (LengthUnit::Inch.value(length) * INCH_PARTS as f64).round() as i64
}

/// `120` sixteenths as `7 1/2`.
fn whole_and_fraction(sixteenths: i64) -> String {
    let (whole, mut part, mut parts) =
        (sixteenths / INCH_PARTS, sixteenths % INCH_PARTS, INCH_PARTS);
    while part != 0 && part % 2 == 0 {
        (part, parts) = (part / 2, parts / 2);
    }
    match (whole, part) {
        (_, 0) => whole.to_string(),
        (0, _) => format!("{part}/{parts}"),
        _ => format!("{whole} {part}/{parts}"),
    }
}

#[cfg(test)]
#[path = "show_tests.rs"]
mod tests;
