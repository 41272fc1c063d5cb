//! The limits of a number of the boat file, and the sentences for one that lies outside them.

use super::keys::row_of;
use super::measure::Measure;
use crate::schema::{Limits, range_text};

/// Cv from which the boat counts as planing; below, the equations of balance do not apply.
pub const PLANING_SPEED_COEFFICIENT: f64 = 1.0;

/// Kilograms in a tonne.
const KG_PER_TONNE: f64 = 1e3;

/// What one key may hold, as its row says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bound {
    /// Unit of the limits, spelt as the boat file spells it; empty for a plain number.
    pub unit: &'static str,
    /// Smallest and largest value accepted.
    pub hard: (f64, f64),
    /// What is usual; outside it the value is taken with a warning.
    pub usual: (f64, f64),
    /// What it is, and why the limits are there.
    pub why: &'static str,
    /// A value as it might be typed.
    pub example: &'static str,
}

/// The bound of a key; list positions such as `load[2].mass` are looked up as `load.mass`.
#[must_use]
pub fn bound_of(key: &str) -> Option<Bound> {
    let row = row_of(key)?;
    let Limits::Range { hard, usual } = row.limits else { return None };
    Some(Bound { unit: row.kind.unit(), hard, usual, why: row.meaning, example: row.example })
}

/// A key without its list positions: `load[2].mass` becomes `load.mass`.
#[must_use]
pub fn without_positions(key: &str) -> String {
    if !key.contains('[') {
        return key.to_owned();
    }
    let mut plain = String::with_capacity(key.len());
    let mut inside_brackets = false;
    for character in key.chars() {
        match character {
            '[' => inside_brackets = true,
            ']' => inside_brackets = false,
            _ if !inside_brackets => plain.push(character),
            _ => {}
        }
    }
    plain
}

impl Bound {
    /// The hard limits as text: `0 to 40 deg`.
    #[must_use]
    pub fn allowed(&self) -> String {
        range_text(self.hard, self.unit)
    }

    /// The usual range as text.
    #[must_use]
    pub fn usual_text(&self) -> String {
        range_text(self.usual, self.unit)
    }

    /// What is wrong with a value outside the hard limits, and what to write instead.
    #[must_use]
    pub fn refusal(&self, measure: Measure) -> Option<[String; 2]> {
        (!self.admits(measure)).then(|| {
            let meant = self.meant(measure).unwrap_or_default();
            [
                format!("{measure} is outside {}", self.allowed()),
                format!("{meant}{}; for example \"{}\"", self.why, self.example),
            ]
        })
    }

    /// What was likely meant: kilograms, where as many tonnes are refused.
    fn meant(&self, measure: Measure) -> Option<String> {
        let Measure::Mass(mass) = measure else { return None };
        let kilograms = Measure::Mass(mass / KG_PER_TONNE);
        self.is_usual(kilograms).then(|| format!("write \"{kilograms}\" where kg was meant; "))
    }

    /// Whether a value lies within the hard limits; never for a value that is not finite.
    #[must_use]
    pub fn admits(&self, measure: Measure) -> bool {
        within(self.hard, measure.value())
    }

    /// Whether a value is usual.
    #[must_use]
    pub fn is_usual(&self, measure: Measure) -> bool {
        within(self.usual, measure.value())
    }
}

/// Limits met to within the rounding of a unit conversion.
fn within((low, high): (f64, f64), value: f64) -> bool {
    let slack = 1e-12 * low.abs().max(high.abs());
    value.is_finite() && value >= low - slack && value <= high + slack
}
