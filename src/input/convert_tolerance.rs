//! Tolerances of a boat file: which value, and how far off it may be.

use super::desk::Desk;
use crate::boat::{Measure, Source, Tolerance, Toleranced, Width};
use crate::units;

/// One tolerance, or nothing when it has a fault.
pub(super) fn tolerance(desk: &mut Desk<'_>, index: usize) -> Option<Tolerance> {
    let key = |name: &str| format!("tolerance[{index}].{name}");
    let of = desk.choice(&key("of"), Toleranced::WORDS);
    let of = desk.need(&key("of"), of).map(|place| Toleranced::ALL[place]);
    let has = |desk: &Desk<'_>, name: &str| desk.document.values.contains_key(&key(name));
    let (by, source) = (has(desk, "by"), has(desk, "source"));
    if by == source {
        let (place, problem) = if by {
            (key("source"), "this tolerance gives both by and source")
        } else {
            (
                format!("tolerance[{index}]"),
                "this tolerance does not say how far off the value may be",
            )
        };
        desk.fault_at(
            &place,
            problem.to_owned(),
            "give by = \"0.1 m\", or source = \"measured\"".to_owned(),
        );
        return None;
    }
    let width = if by {
        Width::By(half_width(desk, &key("by"), of?)?)
    } else {
        Width::Source(Source::ALL[desk.choice(&key("source"), Source::WORDS)?])
    };
    Some(Tolerance { of: of?, width })
}

/// A half-width as a share, or in the dimension of its value.
fn half_width(desk: &mut Desk<'_>, key: &str, of: Toleranced) -> Option<Measure> {
    let text = desk.text(key)?;
    if text.trim_end().ends_with('%') {
        return desk.share(key).map(Measure::Share);
    }
    match of {
        Toleranced::Mass => desk.mass(key).map(Measure::Mass),
        Toleranced::Deadrise | Toleranced::ThrustAngle => desk.angle(key).map(Measure::Angle),
        Toleranced::WaterTemperature => desk
            .quantity(key, units::parse_temperature, Measure::Temperature)
            .map(Measure::Temperature),
        Toleranced::PlaneEffectiveness | Toleranced::Roughness => {
            desk.number(key).map(Measure::Number)
        }
        Toleranced::AirArea | Toleranced::AppendageArea => desk.area(key).map(Measure::Area),
        _ => desk.length(key).map(Measure::Length),
    }
}

#[cfg(test)]
#[path = "tolerance_tests.rs"]
mod tests;
