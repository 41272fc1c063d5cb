//! Slips of the pen: the number in another unit, or with its point in the wrong place.

use super::in_unit;
use crate::boat::Measure;
use crate::boat::measure::plain_number;

/// Masses that are mistaken for each other.
pub(crate) const MASSES: &[&str] = &["kg", "lb"];
/// Speeds that are mistaken for each other.
pub(crate) const SPEEDS: &[&str] = &["kn", "mph", "km/h", "m/s"];
/// Powers that are mistaken for each other.
pub(crate) const POWERS: &[&str] = &["kW", "hp"];
/// Lengths of boats that are mistaken for each other.
pub(crate) const LENGTHS: &[&str] = &["m", "ft"];
/// Lengths of planes that are mistaken for each other.
pub(crate) const SMALL_LENGTHS: &[&str] = &["mm", "cm", "in"];

/// One slip that may be behind a value.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Slip {
    /// What was meant over what is written.
    pub factor: f64,
    /// What happened.
    pub cause: String,
    /// The value to write instead.
    pub write: String,
    /// The unit that was meant; none where the decimal point slipped.
    pub unit: Option<&'static str>,
}

/// The slips that may be behind a value written in a unit: first one unit for another, then the decimal point.
pub(crate) fn slips(value: Measure, unit: &'static str, mistaken: &[&'static str]) -> Vec<Slip> {
    let number = value.number_in(unit);
    let others = mistaken.iter().filter(|&&other| other != unit && mistaken.contains(&unit));
    let mut all: Vec<Slip> = others
        .map(|other| {
            let factor = number / value.number_in(other);
            Slip {
                factor,
                cause: format!(
                    "{other} typed as {unit} ({} {other} is {})",
                    plain_number(number),
                    in_unit(value.times(factor), unit)
                ),
                write: format!("{} {other}", plain_number(number)),
                unit: Some(*other),
            }
        })
        .collect();
    let points = [0.1, 10.0].into_iter().map(|factor| Slip {
        factor,
        cause: "a decimal point in the wrong place".to_owned(),
        write: in_unit(value.times(factor), unit),
        unit: None,
    });
    // Millimetres for centimetres are ten times off too, and told already.
    let is_new = |slip: &Slip, all: &[Slip]| {
        all.iter().all(|known| (known.factor / slip.factor - 1.0).abs() > 1e-9)
    };
    let points: Vec<Slip> = points.filter(|slip| is_new(slip, &all)).collect();
    all.extend(points);
    all
}
