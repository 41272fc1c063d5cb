//! Numbers and names of data: how many digits a number has, and which unit a name ends with.

use super::Quantity;

/// Significant digits of the numbers of JSON and CSV: more than any equation here is good for,
/// fewer than a machine keeps, so that 0.3 comes back as 0.3.
pub const DATA_DIGITS: usize = 9;
/// What is less than this is the last digit of a machine in every quantity of SI that is written.
const NOTHING: f64 = 1e-12;

/// A number as data are written: with [`DATA_DIGITS`] significant digits, a nought without a sign.
#[must_use]
pub fn as_data(value: f64) -> f64 {
    if value.abs() < NOTHING {
        return 0.0;
    }
    let digits = DATA_DIGITS - 1;
    // What was just written as a number is one.
    format!("{value:.digits$e}").parse().unwrap_or(value)
}

/// Words of which the units at the end of a name in data are made.
const UNIT_WORDS: [&str; 16] =
    ["m", "m2", "m3", "s", "n", "w", "pa", "deg", "kg", "g", "j", "k", "l", "rad", "per", "kwh"];

/// A name in data as it stands before its unit, and what it is a quantity of; none where its unit is the same in every choice of units.
#[must_use]
pub fn unit_ending(name: &str) -> Option<(&str, Quantity)> {
    let is_unit = |word: &&str| UNIT_WORDS.contains(word);
    let length: usize = name.rsplit('_').take_while(is_unit).map(|word| word.len() + 1).sum();
    let (before, ending) = name.split_at(name.len().checked_sub(length)?);
    use Quantity::{Force, Length, Power, Pressure, Speed};
    let all = [Speed, Length, Force, Power, Pressure];
    let found = all.into_iter().find(|quantity| quantity.si_ending() == ending);
    found.map(|quantity| (before, quantity))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_numbers_of_data_come_back_as_they_were_typed() {
        for (computed, typed) in [
            (0.1 + 0.2, "0.3"),
            (0.609_599_999_999_999_9, "0.6096"),
            (14.999_999_999_999_998, "15"),
            (-0.0, "0"),
            (4.4e-16, "0"),
            (1.19e-6, "0.00000119"),
            (6_118.123_456_789, "6118.12346"),
        ] {
            assert_eq!(as_data(computed).to_string(), typed);
        }
        assert!(as_data(f64::NAN).is_nan() && as_data(f64::INFINITY).is_infinite());
    }

    proptest::proptest! {
        #[test]
        fn physics_data_keep_a_millionth_of_a_number(x in -1e9_f64..1e9, tenths in -9_i32..9) {
            let value = x * 10.0_f64.powi(tenths);
            proptest::prop_assume!(value.abs() > 1e-9);
            let written = as_data(value);
            proptest::prop_assert!((written / value - 1.0).abs() < 1e-8);
            proptest::prop_assert_eq!(as_data(written), written);
        }
    }

    #[test]
    fn regression_units_are_found_at_the_end_of_a_name() {
        for (name, found) in [
            ("speed_m_s", Some(("speed", Quantity::Speed))),
            ("wetted_keel_m", Some(("wetted_keel", Quantity::Length))),
            ("resistance_n", Some(("resistance", Quantity::Force))),
            ("shaft_power_w", Some(("shaft_power", Quantity::Power))),
            ("dynamic_pressure_pa", Some(("dynamic_pressure", Quantity::Pressure))),
            ("moment_n_m", None),
            ("fuel_m3_per_m", None),
            ("area_m2", None),
            ("time_s", None),
            ("trim_deg", None),
            ("name", None),
            ("m", None),
        ] {
            assert_eq!(unit_ending(name), found, "{name}");
        }
    }
}
