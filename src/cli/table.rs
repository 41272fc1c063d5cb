//! Tables of numbers as text.

use comfy_table::{CellAlignment, ColumnConstraint, ContentArrangement, Table, Width};

use super::screen::Screen;
use crate::document::Column;

/// Lines under the head of a table and nowhere else: comfy-table's order of parts is left, right,
/// top and bottom border, then the line under the head, then the rest.
const ASCII: &str = "     --            ";
/// The same with line-drawing characters.
const LINES: &str = "     ──            ";

/// Blanks beside a cell.
const PADDING: usize = 2;
/// Blanks between two columns.
const BETWEEN: usize = 1;

/// The columns side by side, two spaces in; those that find no room with their words whole stand
/// in a further part below, behind the columns that name the rows.
pub(super) fn table(columns: &[Column], screen: Screen) -> String {
    let parts = parts(columns, screen.width().saturating_sub(1));
    let parts = parts.iter().map(|part| {
        let part: Vec<&Column> = part.iter().map(|&index| &columns[index]).collect();
        one_part(&part, screen)
    });
    parts.collect::<Vec<_>>().join("\n")
}

/// Indices of the columns of each part.
fn parts(columns: &[Column], width: usize) -> Vec<Vec<usize>> {
    let taken = |column: &Column| least_width(column) + PADDING + BETWEEN;
    let least: Vec<usize> = columns.iter().map(taken).collect();
    // The columns that name a row: up to the first of words where that is one of the first two.
    let names = columns.iter().take(2).position(|column| column.is_text).map_or(1, |at| at + 1);
    let mut parts: Vec<Vec<usize>> = vec![Vec::new()];
    let mut used = 0;
    for (index, &own) in least.iter().enumerate() {
        let part = parts.last().map_or(0, Vec::len);
        if used + own > width && part > names {
            parts.push((0..names).collect());
            used = least[..names].iter().sum();
        }
        parts.last_mut().expect("there is one").push(index);
        used += own;
    }
    parts
}

fn width(text: &str) -> usize {
    text.chars().count()
}

/// Width of the longest word of a column of words or of a heading, of the longest line of numbers.
fn least_width(column: &Column) -> usize {
    let longest_word = |text: &str| text.split_whitespace().map(width).max().unwrap_or(0);
    let in_cell = |cell: &str| match column.is_text {
        true => longest_word(cell),
        false => cell.lines().map(width).max().unwrap_or(0),
    };
    let head = [longest_word(&column.name), longest_word(&column.unit)];
    column.cells.iter().map(|cell| in_cell(cell)).chain(head).max().unwrap_or(0)
}

fn one_part(columns: &[&Column], screen: Screen) -> String {
    let mut table = Table::new();
    table.load_preset(if screen.draws_lines() { LINES } else { ASCII });
    table.set_content_arrangement(ContentArrangement::Dynamic);
    table.set_width(u16::try_from(screen.width()).unwrap_or(u16::MAX).saturating_sub(1));
    table.set_header(columns.iter().map(|column| head(column)));
    let rows = columns.iter().map(|column| column.cells.len()).max().unwrap_or(0);
    for row in 0..rows {
        table.add_row(columns.iter().map(|c| c.cells.get(row).map_or("", String::as_str)));
    }
    for (index, column) in columns.iter().enumerate() {
        if let Some(set) = table.column_mut(index) {
            let left = column.is_text;
            set.set_cell_alignment(if left { CellAlignment::Left } else { CellAlignment::Right });
            let least = u16::try_from(least_width(column) + PADDING).unwrap_or(u16::MAX);
            set.set_constraint(ColumnConstraint::LowerBoundary(Width::Fixed(least)));
        }
    }
    let lines = table.lines();
    lines.map(|line| format!(" {}\n", line.trim_end())).collect()
}

/// The name, and the unit below it; words have none, numbers always the line for it.
fn head(column: &Column) -> String {
    if column.is_text && column.unit.is_empty() {
        return column.name.clone();
    }
    format!("{}\n{}", column.name, column.unit)
}
