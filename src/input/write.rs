//! Writes duties as text for a boat file, so that generated ones can be shown and edited.

use crate::boat::{Duty, ListCause};
use crate::units::{
    LengthUnit, MassUnit, MomentUnit, SpeedUnit, format_angle, format_length, format_mass,
    format_moment, format_share, format_speed,
};

/// The duties as `[[duty]]` tables; reading them back gives the same duties.
#[must_use]
pub fn duties_as_toml(duties: &[Duty]) -> String {
    let tables: Vec<String> = duties.iter().map(duty_as_toml).collect();
    tables.join("\n")
}

fn duty_as_toml(duty: &Duty) -> String {
    let knots = |speed| format_speed(speed, SpeedUnit::Knot);
    let mut lines = vec![("kind", duty.name().to_owned())];
    match *duty {
        Duty::HumpTrim { at_most, from, to } => lines.extend([
            ("at_most", format_angle(at_most)),
            ("from", knots(from)),
            ("to", knots(to)),
        ]),
        Duty::LeastResistance { within, speed } => {
            lines.extend([("within", format_share(within)), ("speed", knots(speed))]);
        }
        Duty::PorpoisingMargin { margin, up_to } => {
            lines.extend([("margin", format_angle(margin)), ("up_to", knots(up_to))]);
        }
        Duty::List { cause, speed } => {
            lines.push(("speed", knots(speed)));
            match cause {
                ListCause::Moment(moment) => {
                    lines.push(("moment", format_moment(moment, MomentUnit::NewtonMetre)));
                }
                ListCause::OffCentre { mass, distance } => lines.extend([
                    ("mass", format_mass(mass, MassUnit::Kilogram)),
                    ("distance", format_length(distance, LengthUnit::Metre)),
                ]),
            }
        }
    }
    let body: String = lines.iter().map(|(key, value)| format!("{key} = \"{value}\"\n")).collect();
    format!("[[duty]]\n{body}")
}
