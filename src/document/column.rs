//! Columns of words and of numbers.

use crate::field::{Digits, Field, decimals_for};
use crate::units::UnitChoice;

/// A column of a table: its head, one line for the name and one for the unit, and its cells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// Name of the column.
    pub name: String,
    /// Unit of its numbers; empty for words.
    pub unit: String,
    /// Its cells from top to bottom.
    pub cells: Vec<String>,
    /// Whether it holds words, set to the left; numbers are set to the right.
    pub is_text: bool,
}

impl Column {
    /// A column of numbers, set to the right.
    #[must_use]
    pub fn numbers(name: &str, unit: &str, cells: Vec<String>) -> Self {
        Self { name: name.to_owned(), unit: unit.to_owned(), cells, is_text: false }
    }

    /// A column of words, set to the left.
    #[must_use]
    pub fn words(name: &str, cells: Vec<String>) -> Self {
        Self { name: name.to_owned(), unit: String::new(), cells, is_text: true }
    }

    /// A field of each of some results, under its own name and in the unit shown.
    #[must_use]
    pub fn field<'a, T: 'a>(
        field: &Field<T>,
        results: impl IntoIterator<Item = &'a T>,
        units: UnitChoice,
    ) -> Self {
        let values: Vec<_> = results.into_iter().map(|of| field.shown(of, units)).collect();
        let cells = match field.digits {
            Digits::Decimals(decimals) => fixed(&values, decimals),
            Digits::Significant(digits) => aligned(&values, digits),
        };
        Self::numbers(field.label, &field.quantity.symbol(units), cells)
    }

    /// The same under another name.
    #[must_use]
    pub fn named(mut self, name: &str) -> Self {
        name.clone_into(&mut self.name);
        self
    }

    /// The same with a unit below its name.
    #[must_use]
    pub fn in_unit(mut self, unit: &str) -> Self {
        unit.clone_into(&mut self.unit);
        self
    }

    /// Whether it has nothing to say.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        self.cells.iter().all(String::is_empty)
    }
}

/// Numbers of one column with the decimals that give the largest of them so many significant digits; `-` where there is none.
#[must_use]
pub fn aligned(values: &[Option<f64>], significant: usize) -> Vec<String> {
    let largest = values.iter().flatten().fold(0.0_f64, |most, value| most.max(value.abs()));
    let decimals = decimals_for(largest, significant);
    fixed(values, decimals)
}

/// Numbers of one column with so many decimals; `-` where there is none.
#[must_use]
pub fn fixed(values: &[Option<f64>], decimals: usize) -> Vec<String> {
    let text = |value: &Option<f64>| {
        value.map_or("-".to_owned(), |x| crate::units::number_with_decimals(x, decimals))
    };
    values.iter().map(text).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_decimals_follow_the_largest_number() {
        let texts = |values: &[f64]| {
            let values: Vec<_> = values.iter().map(|&x| Some(x)).collect();
            aligned(&values, 4)
        };
        assert_eq!(texts(&[6123.4, -2.0]), ["6123", "-2"]);
        assert_eq!(texts(&[0.0]), ["0"]);
        assert_eq!(texts(&[8.123, 0.5]), ["8.123", "0.500"]);
        assert_eq!(texts(&[12345.6]), ["12346"]);
        assert_eq!(aligned(&[None, Some(0.5)], 3), ["-", "0.50"]);
    }
}
