use approx::assert_relative_eq;
use proptest::prelude::*;

use super::super::table::Dimension as D;
use super::*;

fn si(text: &str, wanted: D) -> f64 {
    parse_si(text, wanted).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn fault(text: &str, wanted: D) -> (String, String, String) {
    match parse_si(text, wanted) {
        Ok(value) => panic!("{text} was read as {value}"),
        Err(error) => (
            error.to_string(),
            error.remedy.clone().unwrap_or_default(),
            text[error.span].to_string(),
        ),
    }
}

fn parts(problem: &str, remedy: &str, place: &str) -> (String, String, String) {
    (problem.into(), remedy.into(), place.into())
}

/// Values in NIST SP 811 (2008), appendix B.8, for one of each unit (digits from memory).
#[test]
fn published_sp811_one_of_each_unit() {
    for (text, wanted, printed) in [
        ("1 ft", D::Length, 3.048e-1),
        ("1 in", D::Length, 2.54e-2),
        ("1 kn", D::Speed, 5.144_444e-1),
        ("1 mph", D::Speed, 4.4704e-1),
        ("1 km/h", D::Speed, 2.777_778e-1),
        ("1 lb", D::Mass, 4.535_924e-1),
        ("1 t", D::Mass, 1.0e3),
        ("1 lbf", D::Force, 4.448_222),
        ("1 hp", D::Power, 7.456_999e2),
        ("1 deg", D::Angle, 1.745_329e-2),
        ("1 lbf ft", D::Torque, 1.355_818),
        ("1 psi", D::Pressure, 6.894_757e3),
        ("1 bar", D::Pressure, 1.0e5),
        ("1 ft^2", D::Area, 9.290_304e-2),
        ("1 in^2", D::Area, 6.4516e-4),
        ("1 L/min", D::VolumeRate, 1.666_667e-5),
    ] {
        assert_relative_eq!(si(text, wanted), printed, max_relative = 5.0e-7);
    }
}

/// The fixed points of the scales: water freezes at 32 degF = 0 degC = 273.15 K, and the two
/// scales meet at -40 (NIST SP 811, appendix B.8, temperature; from memory).
#[test]
fn published_temperature_scales() {
    for (text, kelvins) in [
        ("0 degC", 273.15),
        ("32 degF", 273.15),
        ("212 degF", 373.15),
        ("-40 degF", 233.15),
        ("-40 degC", 233.15),
        ("15\u{b0}C", 288.15),
        ("59 \u{b0}F", 288.15),
        ("288.15 K", 288.15),
    ] {
        assert_relative_eq!(si(text, D::Temperature), kelvins, max_relative = 1.0e-14);
    }
}

#[test]
fn regression_numbers_in_every_form() {
    for (text, metres) in [
        ("7.4 m", 7.4),
        ("7.4m", 7.4),
        ("  +7.4   m ", 7.4),
        (".5 m", 0.5),
        ("5. m", 5.0),
        ("74e-1 m", 7.4),
        ("7.4E0m", 7.4),
        ("-7.4 m", -7.4),
        ("\u{2212}7.4\u{a0}m", -7.4),
        ("740 cm", 7.4),
        ("1/2 in", 0.0127),
        ("3/4in", 0.01905),
        ("7 1/2 in", 0.1905),
        ("7-1/2 in", 0.1905),
        ("7 ft 4 in", 88.0 * 0.0254),
        ("7ft4in", 88.0 * 0.0254),
        ("7' 4\"", 88.0 * 0.0254),
        ("7 feet 4 1/2 inches", 88.5 * 0.0254),
        ("-7 ft 4 in", -88.0 * 0.0254),
        ("7ft2 in", 86.0 * 0.0254),
    ] {
        assert_relative_eq!(si(text, D::Length), metres, max_relative = 1.0e-15);
    }
}

#[test]
fn regression_units_in_every_spelling() {
    for (text, wanted, value) in [
        ("1.19e-6 m^2/s", D::KinematicViscosity, 1.19e-6),
        ("1.19 mm\u{b2}/s", D::KinematicViscosity, 1.19e-6),
        ("1025.9 kg/m^3", D::Density, 1025.9),
        ("1025.9 kg / m\u{b3}", D::Density, 1025.9),
        ("2 kN\u{b7}m", D::Torque, 2000.0),
        ("2 kN m", D::Torque, 2000.0),
        ("2 Nm", D::Torque, 2.0),
        ("2 N*m", D::Torque, 2.0),
        ("3 %", D::Fraction, 0.03),
        ("3%", D::Fraction, 0.03),
        ("0.03", D::Fraction, 0.03),
        ("180\u{b0}", D::Angle, std::f64::consts::PI),
    ] {
        assert_relative_eq!(si(text, wanted), value, max_relative = 1.0e-15);
    }
}

#[test]
fn error_decimal_comma_and_thousands() {
    assert_eq!(
        fault("7,4 m", D::Length),
        parts("`7,4` has a decimal comma", "write `7.4 m`", "7,4")
    );
    assert_eq!(fault("7,4", D::Length), parts("`7,4` has a decimal comma", "write `7.4 m`", "7,4"));
    assert_eq!(
        fault("2,800 kg", D::Mass),
        parts("`2,800` can be read in two ways", "write `2800 kg` or `2.800 kg`", "2,800")
    );
    for (text, place, plain) in [
        ("12,345.6 kg", "12,345.6", "12345.6 kg"),
        ("12.345,6 kg", "12.345,6", "12345.6 kg"),
        ("1,234,567 kg", "1,234,567", "1234567 kg"),
        ("1.234.567 kg", "1.234.567", "1234567 kg"),
        ("12_345 kg", "12_345", "12345 kg"),
        ("12 345 kg", "12 345", "12345 kg"),
        ("1 234 567 kg", "1 234 567", "1234567 kg"),
        ("12 345", "12 345", "12345 kg"),
    ] {
        let problem = format!("`{place}` has a thousands separator");
        let remedy = format!("write `{plain}`");
        assert_eq!(fault(text, D::Mass), parts(&problem, &remedy, place));
    }
}

#[test]
fn error_units_missing_unknown_or_of_another_kind() {
    assert_eq!(
        fault("7.4", D::Length),
        parts("`7.4` has no unit", "write for example `7.4 m`", "7.4")
    );
    assert_eq!(fault("7 ft 4", D::Length), parts("`4` has no unit", "write `7 ft 4 in`", "4"));
    assert_eq!(
        fault("23 kts", D::Speed),
        parts("`kts` is not a unit of speed", "write `kn` for knots", "kts")
    );
    assert_eq!(
        fault("23 kt", D::Speed),
        parts("`kt` is not a unit of speed", "write `kn` for knots (`kt` is a kilotonne)", "kt")
    );
    assert_eq!(fault("2.8 T", D::Mass), parts("`T` is not a unit of mass", "write `t`", "T"));
    assert_eq!(
        fault("2.8 kg", D::Length),
        parts(
            "`kg` is a unit of mass, and a length is wanted here",
            "write for example `5 m`",
            "kg"
        )
    );
    assert_eq!(
        fault("5 N m", D::Force),
        parts(
            "`N m` is a unit of torque, and a force is wanted here",
            "write for example `5 N`",
            "N m"
        )
    );
    assert_eq!(
        fault("7 wolves", D::Length),
        parts("`wolves` is not a unit of length", "", "wolves")
    );
}

#[test]
fn error_not_one_finite_number() {
    assert_eq!(
        fault("", D::Length),
        parts("nothing is written here", "write for example `5 m`", "")
    );
    assert_eq!(fault("about 7 m", D::Length).0, "`about 7 m` does not begin with a number");
    assert_eq!(fault(". m", D::Length).0, "`. m` does not begin with a number");
    assert_eq!(fault("inf m", D::Length).0, "`inf m` is not a finite number");
    assert_eq!(fault("-NaN m", D::Length).0, "`-NaN m` is not a finite number");
    assert_eq!(fault("1e999 m", D::Length).0, "`1e999` is not a finite number");
    assert_eq!(fault("1/0 in", D::Length).0, "`1/0` divides by zero");
    assert_eq!(fault("1e308 kN", D::Force).0, "`1e308 kN` is not a finite number");
    assert_eq!(
        fault("7 ft 4 cm", D::Length),
        parts(
            "`7 ft 4 cm` is more than one quantity",
            "after feet write inches, as in `7 ft 4 in`",
            "cm"
        )
    );
    assert_eq!(fault("4 in 7 ft", D::Length).0, "`4 in 7 ft` is more than one quantity");
}

#[test]
fn error_help_says_what_is_allowed() {
    let error = parse_si("7.4", D::Length).unwrap_err();
    assert_eq!(
        error.help(),
        "write for example `7.4 m`; a length is a number with m, cm, mm, ft or in"
    );
}

const ALL: [D; 15] = [
    D::Length,
    D::Speed,
    D::Mass,
    D::Force,
    D::Power,
    D::Angle,
    D::Temperature,
    D::Density,
    D::KinematicViscosity,
    D::Torque,
    D::Area,
    D::Pressure,
    D::VolumeRate,
    D::Time,
    D::Fraction,
];

fn check_no_panic(text: &str) {
    for wanted in ALL {
        match parse_si(text, wanted) {
            Ok(value) => assert!(value.is_finite()),
            Err(error) => {
                assert!(text.get(error.span.clone()).is_some());
                assert!(!error.to_string().is_empty() && !error.help().is_empty());
            }
        }
    }
}

proptest! {
    #[test]
    fn regression_any_text_is_read_or_refused(text in any::<String>()) {
        check_no_panic(&text);
    }

    #[test]
    fn regression_near_quantities_are_read_or_refused(
        text in "[-+\u{2212}]?[0-9.,_/ e'-]{0,9}[ \u{a0}]?(ft|in|m|kg|kn|\u{b0}C|N\u{b7}m|%|'|\")?[ 0-9./,]{0,6}(in|\")?"
    ) {
        check_no_panic(&text);
    }

    /// A number with its unit reads as that number times the factor.
    #[test]
    fn regression_every_unit_reads_what_was_written(
        value in -1.0e6..1.0e6_f64,
        unit in 0..UNITS.len(),
        spelling in 0..5_usize,
        gap in "[ ]{0,2}",
    ) {
        let unit = &UNITS[unit];
        let symbol = unit.spellings[spelling % unit.spellings.len()];
        let text = format!("{value}{gap}{symbol}");
        let expected = (value + unit.offset) * unit.factor;
        prop_assert_eq!(parse_si(&text, unit.dimension), Ok(expected));
    }
}

/// One revolution is 2π, one minute 60 s; by hand.
#[test]
fn physics_speeds_of_rotation_are_read() {
    for (text, rad_s) in
        [("4800 rpm", 502.654_824_6), ("600 r/min", 62.831_853_07), ("2 rad/s", 2.0)]
    {
        let read = parse_si(text, Dimension::RotationSpeed).unwrap();
        assert!((read / rad_s - 1.0).abs() < 1e-9, "{text}: {read}");
    }
}
