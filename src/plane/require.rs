//! Checks on single input values, shared by the hardware of a plane.
//!
//! Every check returns the value it was given, or a [`BadInput`] that names the input,
//! shows what was given and states the rule it broke.

/// An input value that no plane, linkage or actuator can have.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{name} is {value} {unit}; {rule}")]
pub struct BadInput {
    /// What the value stands for, in words.
    pub name: &'static str,
    /// The value given, in `unit`.
    pub value: f64,
    /// Unit of `value`; empty for a plain number.
    pub unit: &'static str,
    /// The rule that was broken, with the remedy.
    pub rule: String,
}

/// A value that must be finite and above zero.
///
/// # Errors
/// [`BadInput`] for zero, negative, infinite or not-a-number values.
pub fn positive(name: &'static str, value: f64, unit: &'static str) -> Result<f64, BadInput> {
    if value.is_finite() && value > 0.0 {
        return Ok(value);
    }
    let rule = "give a finite value above zero".to_string();
    Err(BadInput { name, value, unit, rule })
}

/// A value that must lie between two limits, both allowed.
///
/// # Errors
/// [`BadInput`] for values outside `lowest..=highest` and for not-a-number.
pub fn between(
    name: &'static str,
    value: f64,
    unit: &'static str,
    lowest: f64,
    highest: f64,
) -> Result<f64, BadInput> {
    if value >= lowest && value <= highest {
        return Ok(value);
    }
    let rule = format!("give a value from {lowest} to {highest}");
    Err(BadInput { name, value, unit, rule })
}

/// A value that must be finite and not below `lowest`.
///
/// # Errors
/// [`BadInput`] for smaller, infinite or not-a-number values.
pub fn at_least(
    name: &'static str,
    value: f64,
    unit: &'static str,
    lowest: f64,
) -> Result<f64, BadInput> {
    if value.is_finite() && value >= lowest {
        return Ok(value);
    }
    let rule = format!("give a finite value of {lowest} or more");
    Err(BadInput { name, value, unit, rule })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn error_texts_name_the_input_the_value_and_the_rule() {
        assert_eq!(
            positive("the chord", -0.2, "m").unwrap_err().to_string(),
            "the chord is -0.2 m; give a finite value above zero"
        );
        assert_eq!(
            between("the efficiency", 1.2, "", 0.0, 1.0).unwrap_err().rule,
            "give a value from 0 to 1"
        );
        assert_eq!(
            at_least("the load factor", 0.5, "", 1.0).unwrap_err().rule,
            "give a finite value of 1 or more"
        );
    }

    #[test]
    fn error_not_a_number_and_infinity_are_refused() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert!(positive("x", value, "m").is_err());
            assert!(between("x", value, "m", -1.0, 1.0).is_err());
            assert!(at_least("x", value, "m", -1.0).is_err());
        }
    }
}
