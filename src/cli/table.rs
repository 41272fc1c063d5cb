//! Tables of numbers as text.

use comfy_table::{CellAlignment, ContentArrangement, Table};

use super::screen::Screen;
use crate::document::Column;

/// Lines under the head of a table and nowhere else: comfy-table's order of parts is left, right,
/// top and bottom border, then the line under the head, then the rest.
const ASCII: &str = "     --            ";
/// The same with line-drawing characters.
const LINES: &str = "     ──            ";

/// The columns side by side, two spaces in.
pub(super) fn table(columns: &[Column], screen: Screen) -> String {
    let mut table = Table::new();
    table.load_preset(if screen.draws_lines() { LINES } else { ASCII });
    table.set_content_arrangement(ContentArrangement::Dynamic);
    table.set_width(u16::try_from(screen.width()).unwrap_or(u16::MAX).saturating_sub(1));
    table.set_header(columns.iter().map(head));
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

/// The name, and the unit below it; words have none, numbers always the line for it.
fn head(column: &Column) -> String {
    if column.is_text && column.unit.is_empty() {
        return column.name.clone();
    }
    format!("{}\n{}", column.name, column.unit)
}
