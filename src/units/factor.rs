//! Exact conversion factors to SI, NIST SP 811 (2008) appendix B and its footnotes.
//!
//! Each constant says how many SI units one of the named unit is. All are exact by definition;
//! those that are products of others are written as such.

/// Metres in one foot (international foot, 1959).
pub const M_PER_FOOT: f64 = 0.3048;
/// Metres in one inch.
pub const M_PER_INCH: f64 = 0.0254;
/// Metres in one statute mile.
pub const M_PER_MILE: f64 = 1609.344;
/// Metres in one nautical mile.
pub const M_PER_NAUTICAL_MILE: f64 = 1852.0;
/// Seconds in one hour.
pub const S_PER_HOUR: f64 = 3600.0;
/// Seconds in one minute.
pub const S_PER_MINUTE: f64 = 60.0;
/// Metres per second in one knot.
pub const M_S_PER_KNOT: f64 = M_PER_NAUTICAL_MILE / S_PER_HOUR;
/// Metres per second in one statute mile per hour.
pub const M_S_PER_MILE_PER_HOUR: f64 = 0.447_04;
/// Metres per second in one kilometre per hour.
pub const M_S_PER_KILOMETRE_PER_HOUR: f64 = 1000.0 / S_PER_HOUR;
/// Kilograms in one avoirdupois pound.
pub const KG_PER_POUND: f64 = 0.453_592_37;
/// Kilograms in one long ton of 2240 pounds.
pub const KG_PER_LONG_TON: f64 = 2240.0 * KG_PER_POUND;
/// Newtons in one pound-force: the weight of a pound at standard gravity.
pub const N_PER_POUND_FORCE: f64 = 4.448_221_615_260_5;
/// Newton metres in one pound-force foot.
pub const N_M_PER_POUND_FORCE_FOOT: f64 = N_PER_POUND_FORCE * M_PER_FOOT;
/// Newton metres in one pound-force inch.
pub const N_M_PER_POUND_FORCE_INCH: f64 = N_PER_POUND_FORCE * M_PER_INCH;
/// Watts in one mechanical horsepower, 550 foot pounds-force per second.
pub const W_PER_HORSEPOWER: f64 = 550.0 * N_M_PER_POUND_FORCE_FOOT;
/// Pascals in one pound-force per square inch.
pub const PA_PER_PSI: f64 = N_PER_POUND_FORCE / (M_PER_INCH * M_PER_INCH);
/// Pascals in one bar.
pub const PA_PER_BAR: f64 = 1.0e5;
/// Square metres in one square foot.
pub const M2_PER_SQUARE_FOOT: f64 = 0.092_903_04;
/// Square metres in one square inch.
pub const M2_PER_SQUARE_INCH: f64 = 6.4516e-4;
/// Kilograms in one slug, the mass that one pound-force accelerates at 1 ft/s².
pub const KG_PER_SLUG: f64 = N_PER_POUND_FORCE / M_PER_FOOT;
/// Kilograms per cubic metre in one slug per cubic foot.
pub const KG_M3_PER_SLUG_PER_CUBIC_FOOT: f64 = KG_PER_SLUG / (M2_PER_SQUARE_FOOT * M_PER_FOOT);
/// Square metres per second in one square foot per second.
pub const M2_S_PER_SQUARE_FOOT_PER_SECOND: f64 = M2_PER_SQUARE_FOOT;
/// Cubic metres per second in one litre per minute.
pub const M3_S_PER_LITRE_PER_MINUTE: f64 = 1.0e-3 / S_PER_MINUTE;
/// Cubic metres in one litre.
pub const M3_PER_LITRE: f64 = 1.0e-3;
/// Cubic metres in one US gallon, 231 cubic inches.
pub const M3_PER_US_GALLON: f64 = 231.0 * M2_PER_SQUARE_INCH * M_PER_INCH;
/// Kilograms per joule in one gram per kilowatt hour.
pub const KG_PER_JOULE_IN_GRAM_PER_KILOWATT_HOUR: f64 = 1.0e-3 / (1000.0 * S_PER_HOUR);
/// Kilograms per joule in one pound per horsepower hour.
pub const KG_PER_JOULE_IN_POUND_PER_HORSEPOWER_HOUR: f64 =
    KG_PER_POUND / (W_PER_HORSEPOWER * S_PER_HOUR);
/// Radians in one degree.
pub const RAD_PER_DEGREE: f64 = std::f64::consts::PI / 180.0;
/// Radians per second in one revolution per minute.
pub const RAD_S_PER_REVOLUTION_PER_MINUTE: f64 = 2.0 * std::f64::consts::PI / S_PER_MINUTE;
/// Kelvins at 0 degrees Celsius.
pub const KELVIN_AT_ZERO_CELSIUS: f64 = 273.15;
/// Degrees Fahrenheit from absolute zero to 0 degrees Fahrenheit.
pub const RANKINE_AT_ZERO_FAHRENHEIT: f64 = 459.67;
/// Kelvins in one degree of the Fahrenheit scale.
pub const KELVIN_PER_RANKINE: f64 = 5.0 / 9.0;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physical::STANDARD_GRAVITY_M_S2;
    use approx::assert_relative_eq;

    /// NIST SP 811 (2008), appendix B.8, seven printed digits (from memory): tolerance half of the last one.
    #[test]
    fn published_sp811_table_b8() {
        for (ours, printed) in [
            (M_PER_FOOT, 3.048e-1),
            (M_PER_INCH, 2.54e-2),
            (M_PER_MILE, 1.609_344e3),
            (M_PER_NAUTICAL_MILE, 1.852e3),
            (M_S_PER_KNOT, 5.144_444e-1),
            (M_S_PER_MILE_PER_HOUR, 4.4704e-1),
            (M_S_PER_KILOMETRE_PER_HOUR, 2.777_778e-1),
            (STANDARD_GRAVITY_M_S2, 9.806_65),
            (KG_PER_POUND, 4.535_924e-1),
            (N_PER_POUND_FORCE, 4.448_222),
            (N_M_PER_POUND_FORCE_FOOT, 1.355_818),
            (N_M_PER_POUND_FORCE_INCH, 1.129_848e-1),
            (W_PER_HORSEPOWER, 7.456_999e2),
            (PA_PER_PSI, 6.894_757e3),
            (M2_PER_SQUARE_FOOT, 9.290_304e-2),
            (M2_PER_SQUARE_INCH, 6.4516e-4),
            (KG_PER_SLUG, 1.459_390e1),
            (KG_M3_PER_SLUG_PER_CUBIC_FOOT, 5.153_788e2),
            (M3_S_PER_LITRE_PER_MINUTE, 1.666_667e-5),
            (M3_PER_US_GALLON, 3.785_412e-3),
            (RAD_PER_DEGREE, 1.745_329e-2),
        ] {
            assert_relative_eq!(ours, printed, max_relative = 5.0e-7);
        }
    }

    /// SP 811 gives the pound and the pound-force exactly, linked by standard gravity (from memory).
    #[test]
    fn published_sp811_exact_pound_and_pound_force() {
        assert_eq!(KG_PER_POUND.to_string(), "0.45359237");
        assert_eq!(N_PER_POUND_FORCE.to_string(), "4.4482216152605");
        assert_relative_eq!(
            N_PER_POUND_FORCE,
            KG_PER_POUND * STANDARD_GRAVITY_M_S2,
            max_relative = 1.0e-15
        );
    }

    /// The same factors as an independent library holds them, where it holds them unrounded.
    #[test]
    fn published_factors_agree_with_an_independent_library() {
        use uom::si::f64::{Area, Length, Velocity};
        use uom::si::{area, length, velocity};
        let foot = Length::new::<length::foot>(1.0);
        let mile_per_hour = Velocity::new::<velocity::mile_per_hour>(1.0);
        let square_inch = Area::new::<area::square_inch>(1.0);
        assert_relative_eq!(M_PER_FOOT, foot.value, max_relative = 1.0e-15);
        assert_relative_eq!(M_S_PER_MILE_PER_HOUR, mile_per_hour.value, max_relative = 1.0e-12);
        assert_relative_eq!(M2_PER_SQUARE_INCH, square_inch.value, max_relative = 1.0e-15);
    }
}
