//! Tolerances of a boat file: which value, and how far off it may be.

use super::values::Values;
use crate::boat::{Measure, Source, Tolerance, Toleranced, Width, row_of};
use crate::schema::Kind;
use crate::units::Dimension;

/// One tolerance, or nothing when it has a fault.
pub(super) fn tolerance(values: &mut Values<'_>, index: usize) -> Option<Tolerance> {
    let key = |name: &str| format!("tolerance[{index}].{name}");
    let of = values.choice(&key("of"));
    let of = values.need(&key("of"), of).map(|index| Toleranced::ALL[index]);
    let has = |values: &Values<'_>, name: &str| values.document.values.contains_key(&key(name));
    let (by, source) = (has(values, "by"), has(values, "source"));
    if by == source {
        let (place, problem) = if by {
            (key("source"), "this tolerance gives both by and source")
        } else {
            (
                format!("tolerance[{index}]"),
                "this tolerance does not say how far off the value may be",
            )
        };
        values.fault_at(
            &place,
            problem.to_owned(),
            "give by = \"0.1 m\", or source = \"measured\"".to_owned(),
        );
        return None;
    }
    let width = if by {
        Width::By(half_width(values, &key("by"), of?)?)
    } else {
        Width::Source(Source::ALL[values.choice(&key("source"))?])
    };
    Some(Tolerance { of: of?, width })
}

/// A half-width as a share, or in the dimension of its value.
fn half_width(values: &mut Values<'_>, key: &str, of: Toleranced) -> Option<Measure> {
    let is_share = values.text(key)?.trim_end().ends_with('%');
    let own = row_of(of.key())?.kind;
    values.measured(key, if is_share { Kind::Quantity(Dimension::Fraction) } else { own })
}

#[cfg(test)]
#[path = "tolerance_tests.rs"]
mod tests;
