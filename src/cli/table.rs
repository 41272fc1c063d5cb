//! Tables of numbers as text.

use comfy_table::{CellAlignment, Table};

use super::screen::Screen;

/// Lines under the head of a table and nowhere else: comfy-table's order of parts is left, right,
/// top and bottom border, then the line under the head, then the rest.
const ASCII: &str = "     --            ";
/// The same with line-drawing characters.
const LINES: &str = "     ──            ";

/// A column under construction: its head, one line for name and one for the unit, and its cells.
pub(super) struct Column {
    head: String,
    cells: Vec<String>,
    is_text: bool,
}

impl Column {
    /// A column of numbers, set to the right.
    pub(super) fn numbers(name: &str, unit: &str, cells: Vec<String>) -> Self {
        Self { head: format!("{name}\n{unit}"), cells, is_text: false }
    }

    /// A column of words, set to the left.
    pub(super) fn words(name: &str, cells: Vec<String>) -> Self {
        Self { head: name.to_owned(), cells, is_text: true }
    }

    /// Whether it has nothing to say.
    pub(super) fn is_blank(&self) -> bool {
        self.cells.iter().all(String::is_empty)
    }
}

/// The columns side by side, two spaces in.
pub(super) fn table(columns: &[Column], screen: Screen) -> String {
    let mut table = Table::new();
    table.load_preset(if screen.draws_lines() { LINES } else { ASCII });
    table.set_header(columns.iter().map(|column| column.head.as_str()));
    let rows = columns.iter().map(|column| column.cells.len()).max().unwrap_or(0);
    for row in 0..rows {
        table.add_row(columns.iter().map(|c| c.cells.get(row).map_or("", String::as_str)));
    }
    for (index, column) in columns.iter().enumerate() {
        if let Some(set) = table.column_mut(index) {
            let left = column.is_text;
            set.set_cell_alignment(if left { CellAlignment::Left } else { CellAlignment::Right });
        }
    }
    let lines = table.lines();
    lines.map(|line| format!(" {}\n", line.trim_end())).collect()
}

/// Numbers of one column with the decimals that give the largest of them so many significant digits; `-` where there is none.
pub(super) fn aligned(values: &[Option<f64>], significant: usize) -> Vec<String> {
    let largest = values.iter().flatten().fold(0.0_f64, |most, value| most.max(value.abs()));
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let whole_digits = if largest >= 1.0 { largest.log10().floor() as usize + 1 } else { 1 };
    let decimals = if largest == 0.0 { 0 } else { significant.saturating_sub(whole_digits).min(4) };
    fixed(values, decimals)
}

/// Numbers of one column with so many decimals; `-` where there is none.
pub(super) fn fixed(values: &[Option<f64>], decimals: usize) -> Vec<String> {
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
