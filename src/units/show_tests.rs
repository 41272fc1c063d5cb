use proptest::prelude::*;

use super::super::{
    UnitChoice, UnitSystem, parse_angle, parse_area, parse_force, parse_length, parse_mass,
    parse_power, parse_speed, parse_temperature, parse_torque,
};
use super::*;

fn inches(value: f64) -> Length {
    Length::new::<meter>(value * 0.0254)
}

#[test]
fn regression_shortest_text() {
    let length = Length::new::<meter>(2.2352);
    assert_eq!(format_length(length, LengthUnit::Metre), "2.2352 m");
    assert_eq!(format_length(length, LengthUnit::Inch), "88 in");
    assert_eq!(format_length(length, LengthUnit::Millimetre), "2235.2 mm");
    let speed = Velocity::new::<meter_per_second>(23.0 * 1852.0 / 3600.0);
    assert_eq!(format_speed(speed, SpeedUnit::Knot), "23 kn");
    assert_eq!(format_mass(Mass::new::<kilogram>(0.45359237), MassUnit::Pound), "1 lb");
    assert_eq!(format_angle(Angle::new::<radian>(std::f64::consts::PI / 10.0)), "18 deg");
    assert_eq!(format_temperature(ThermodynamicTemperature::new::<kelvin>(288.15)), "15 degC");
    assert_eq!(format_length(Length::new::<meter>(-0.0), LengthUnit::Foot), "0 ft");
}

#[test]
fn regression_no_minus_before_zero() {
    assert_eq!(number_with_decimals(-0.04, 1), "0.0");
    assert_eq!(number_with_decimals(-0.06, 1), "-0.1");
    assert_eq!(number_with_decimals(12.345, 2), "12.35");
}

#[test]
fn regression_numbers_read_as_written() {
    assert_eq!(plain_number(2.25), "2.25");
    assert_eq!(plain_number(0.0), "0");
    assert_eq!(plain_number(-18.0), "-18");
    assert_eq!(plain_number(12_345.6), "12346");
    assert_eq!(plain_number(1.19e-6), "1.190e-6");
    assert_eq!(plain_number(0.33333), "0.3333");
}

#[test]
fn practice_inches_as_on_a_rule() {
    for (value, rule, feet) in [
        (0.0, "0 in", "0 in"),
        (0.5, "1/2 in", "1/2 in"),
        (7.5, "7 1/2 in", "7 1/2 in"),
        (9.0, "9 in", "9 in"),
        (0.06, "1/16 in", "1/16 in"),
        (11.99, "12 in", "1 ft"),
        (88.3125, "88 5/16 in", "7 ft 4 5/16 in"),
        (-0.25, "-1/4 in", "-1/4 in"),
        (-0.01, "0 in", "0 in"),
    ] {
        assert_eq!(fraction_of_inch(inches(value)), rule);
        assert_eq!(feet_and_inches(inches(value)), feet);
    }
}

#[test]
fn regression_one_of_a_unit_reads_as_its_factor() {
    for unit in SpeedUnit::ALL {
        let read = parse_speed(&format!("1 {}", unit.symbol())).unwrap();
        assert_eq!((read.value, unit.value(read)), (unit.factor(), 1.0));
    }
    for unit in MomentUnit::ALL {
        let read = parse_torque(&format!("1 {}", unit.symbol())).unwrap();
        assert_eq!((read.value, unit.value(read)), (unit.factor(), 1.0));
    }
}

fn close(read: f64, written: f64) -> bool {
    (read - written).abs() <= READ_BACK_TOLERANCE * written.abs()
}

proptest! {
    #[test]
    fn regression_written_quantities_read_back(
        mantissa in -1.0..1.0_f64,
        exponent in -9..9_i32,
        metric: bool,
    ) {
        let number = mantissa * 10.0_f64.powi(exponent);
        let system = if metric { UnitSystem::Metric } else { UnitSystem::Imperial };
        let units = UnitChoice::from(system);
        let length = Length::new::<meter>(number);
        for unit in [units.length, units.small_length] {
            prop_assert!(close(parse_length(&format_length(length, unit)).unwrap().value, number));
        }
        for unit in SpeedUnit::ALL {
            let speed = Velocity::new::<meter_per_second>(number);
            prop_assert!(close(parse_speed(&format_speed(speed, *unit)).unwrap().value, number));
        }
        let mass = format_mass(Mass::new::<kilogram>(number), units.mass);
        prop_assert!(close(parse_mass(&mass).unwrap().value, number));
        let force = format_force(Force::new::<newton>(number), units.force);
        prop_assert!(close(parse_force(&force).unwrap().value, number));
        let power = format_power(Power::new::<watt>(number), units.power);
        prop_assert!(close(parse_power(&power).unwrap().value, number));
        let moment = format_moment(Torque::new::<newton_meter>(number), units.moment);
        prop_assert!(close(parse_torque(&moment).unwrap().value, number));
        let area = format_area(Area::new::<square_meter>(number), units.area);
        prop_assert!(close(parse_area(&area).unwrap().value, number));
        let angle = format_angle(Angle::new::<radian>(number));
        prop_assert!(close(parse_angle(&angle).unwrap().value, number));
    }

    #[test]
    fn regression_rule_inches_are_within_a_thirty_second(value in -500.0..500.0_f64) {
        let length = inches(value);
        for text in [fraction_of_inch(length), feet_and_inches(length)] {
            let read = parse_length(&text).unwrap();
            prop_assert!((read - length).value.abs() <= 0.0254 / 32.0 * 1.000_001);
        }
    }

    #[test]
    fn regression_temperatures_read_back_to_a_thousandth(celsius in -60.0..120.0_f64) {
        let temperature = ThermodynamicTemperature::new::<kelvin>(celsius + 273.15);
        let read = parse_temperature(&format_temperature(temperature)).unwrap();
        prop_assert!((read.value - temperature.value).abs() <= 5.1e-4);
    }
}
