//! Writes duties and tolerances as text for a boat file, so that they can be shown and edited.

use crate::boat::{DutyInput, Measure, Tolerance, Width};
use crate::units::{
    AreaUnit, LengthUnit, MassUnit, MomentUnit, SpeedUnit, format_angle, format_area,
    format_length, format_mass, format_moment, format_share, format_speed, format_temperature,
};

/// The duties as `[[duty]]` tables; reading them back gives the same duties.
#[must_use]
pub fn duties_as_toml(duties: &[DutyInput]) -> String {
    let tables: Vec<String> = duties.iter().map(duty_as_toml).collect();
    tables.join("\n")
}

fn duty_as_toml(asked: &DutyInput) -> String {
    let kind = format!("kind = \"{}\"\n", asked.duty.name());
    let values = asked.duty.values().into_iter();
    let values: String =
        values.map(|(key, value)| format!("{key} = \"{}\"\n", written(value))).collect();
    let conditions: Vec<String> = asked.conditions.iter().map(|name| quoted(name)).collect();
    let condition = match conditions.as_slice() {
        [] => String::new(),
        names => format!("condition = [{}]\n", names.join(", ")),
    };
    format!("[[duty]]\n{kind}{values}{condition}")
}

/// Any text as TOML writes it.
fn quoted(text: &str) -> String {
    toml::Value::from(text).to_string()
}

/// The tolerances as `[[tolerance]]` tables; reading them back gives the same tolerances.
#[must_use]
pub fn tolerances_as_toml(tolerances: &[Tolerance]) -> String {
    let table = |tolerance: &Tolerance| {
        let width = match tolerance.width {
            Width::Source(source) => format!("source = \"{}\"", source.word()),
            Width::By(measure) => format!("by = \"{}\"", written(measure)),
        };
        format!("[[tolerance]]\nof = \"{}\"\n{width}\n", tolerance.of.key())
    };
    tolerances.iter().map(table).collect::<Vec<_>>().join("\n")
}

/// A value with its unit, as a person would write it.
fn written(measure: Measure) -> String {
    match measure {
        Measure::Length(length) => format_length(length, LengthUnit::Metre),
        Measure::Mass(mass) => format_mass(mass, MassUnit::Kilogram),
        Measure::Angle(angle) => format_angle(angle),
        Measure::Share(share) => format_share(share),
        Measure::Temperature(temperature) => format_temperature(temperature),
        Measure::Speed(speed) => format_speed(speed, SpeedUnit::Knot),
        Measure::Moment(moment) => format_moment(moment, MomentUnit::NewtonMetre),
        Measure::Area(area) => format_area(area, AreaUnit::SquareMetre),
        other => format!("{} {}", other.value(), other.unit()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::boat::{Duty, ListCause};
    use crate::input::parse_boat;
    use uom::si::f64::{Angle, Length, Mass, Ratio, Torque, Velocity};
    use uom::si::{
        angle::degree, length::meter, mass::kilogram, ratio::percent, torque::newton_meter,
        velocity::meter_per_second,
    };

    const BOAT: &str = "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\n\
                        deadrise = \"18 deg\"\n[weight]\nmass = \"2800 kg\"\n";

    const CONDITIONS: &str = "[[condition]]\nname = \"light\"\n[[condition.load]]\nitem = \"gear\"\n\
        mass = \"50 kg\"\nforward = \"2 m\"\nup = \"1 m\"\n[[condition]]\nname = 'six \"aboard\"'\n\
        [[condition.load]]\nitem = \"crew\"\nmass = \"500 kg\"\nforward = \"2 m\"\nup = \"1 m\"\n";

    fn duties() -> Vec<DutyInput> {
        let knots = |number: f64| Velocity::new::<meter_per_second>(number * 1852.0 / 3600.0);
        let degrees = Angle::new::<degree>;
        let mut all: Vec<DutyInput> = [
            Duty::HumpTrim { at_most: degrees(5.0), from: knots(10.0), to: knots(18.0) },
            Duty::LeastResistance { within: Ratio::new::<percent>(3.0), speed: knots(22.0) },
            Duty::PorpoisingMargin { margin: degrees(1.0), up_to: knots(30.0) },
            Duty::List {
                cause: ListCause::Moment(Torque::new::<newton_meter>(-700.0)),
                speed: knots(22.0),
            },
            Duty::List {
                cause: ListCause::OffCentre {
                    mass: Mass::new::<kilogram>(90.0),
                    distance: Length::new::<meter>(0.8),
                },
                speed: knots(22.0),
            },
        ]
        .map(DutyInput::from)
        .to_vec();
        all[3].conditions = vec!["light".to_owned(), "six \"aboard\"".to_owned()];
        all
    }

    #[test]
    fn regression_duties_are_written_as_a_person_would() {
        assert_eq!(
            duties_as_toml(&duties()[1..3]),
            "[[duty]]\nkind = \"least-resistance\"\nwithin = \"3 %\"\nspeed = \"22 kn\"\n\n\
             [[duty]]\nkind = \"porpoising-margin\"\nmargin = \"1 deg\"\nup_to = \"30 kn\"\n"
        );
    }

    #[test]
    fn regression_duties_read_back_as_written() {
        let text = duties_as_toml(&duties());
        assert!(text.contains("condition = [\"light\", 'six \"aboard\"']\n"), "{text}");
        let read = parse_boat("b.toml", &format!("{BOAT}{text}{CONDITIONS}")).unwrap();
        assert_eq!(duties_as_toml(&read.boat.input().duties), text);
        assert_eq!(read.boat.duties().len(), duties().len() - 1);
        let light = read.boat.in_condition("light").unwrap();
        assert_eq!(light.duties().len(), duties().len());
    }

    #[test]
    fn regression_tolerances_read_back_as_written() {
        let text = "[[tolerance]]\nof = \"weight.lcg\"\nby = \"0.1 m\"\n\n\
             [[tolerance]]\nof = \"weight.mass\"\nsource = \"weighed\"\n\n\
             [[tolerance]]\nof = \"hull.chine_beam\"\nby = \"3 %\"\n\n\
             [[tolerance]]\nof = \"hull.deadrise\"\nby = \"1.5 deg\"\n\n\
             [[tolerance]]\nof = \"water.temperature\"\nby = \"3 degC\"\n";
        let read = parse_boat("b.toml", &format!("{BOAT}{text}")).unwrap();
        assert_eq!(read.boat.tolerances().len(), 5);
        assert_eq!(tolerances_as_toml(read.boat.tolerances()), text);
    }
}
