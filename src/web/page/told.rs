//! What the command line tells in blocks, as parts of a page.

use maud::{Markup, html};

use crate::document::html::block;
use crate::document::{Block, Column, Fact, Table};

/// Blocks in order; a section of theirs is a heading below that of the sheet they stand on.
pub(super) fn told(blocks: &[Block]) -> Markup {
    html! { @for each in blocks { (one(each)) } }
}

/// Sections side by side where the screen is wide enough.
pub(super) fn in_columns(blocks: &[Block]) -> Markup {
    let begins = |block: &Block| matches!(block, Block::Section(_) | Block::Alert(_));
    let columns = blocks.chunk_by(|_, next| !begins(next));
    html! { div.columns { @for column in columns { div { (told(column)) } } } }
}

fn one(each: &Block) -> Markup {
    let all = |texts: &[String]| texts.iter().map(|text| spoken(text)).collect();
    match each {
        Block::Section(text) | Block::Alert(text) => html! { h3 { (spoken(text)) } },
        Block::Table(table) => wide(table),
        Block::Lead(text) => block(&Block::Lead(spoken(text))),
        Block::Paragraph(text) => block(&Block::Paragraph(spoken(text))),
        Block::Points(texts) => block(&Block::Points(all(texts))),
        Block::Warnings(texts) => block(&Block::Warnings(all(texts))),
        Block::Terms(terms) => {
            let term =
                |term: &Fact| Fact::new(&term.name, spoken(&term.value)).noted(spoken(&term.note));
            block(&Block::Terms(terms.iter().map(term).collect()))
        }
        other => block(other),
    }
}

/// A table that can be moved sideways with the keys where the screen is narrow.
fn wide(table: &Table) -> Markup {
    let name = table.columns.iter().map(|column| column.name.as_str()).collect::<Vec<_>>();
    html! {
        div.wide tabindex="0" role="region" aria-label={ "Table of " (name.join(", ")) } {
            table {
                thead { tr { @for column in &table.columns {
                    th.number[!column.is_text] scope="col" { (head(column)) }
                } } }
                tbody { @for row in 0..table.rows() { tr {
                    @for (place, column) in table.columns.iter().enumerate() {
                        td.number[!column.is_text] { (spoken(table.cell(place, row))) }
                    }
                } } }
            }
        }
        @for note in &table.notes { p.small { (spoken(note)) } }
    }
}

fn head(column: &Column) -> Markup {
    html! { (spoken(&column.name)) @if !column.unit.is_empty() { " " small { (column.unit) } } }
}

/// A sentence of the command line as it stands on a page: names in quotation marks, `6.5°` for `6.5 deg`, `m²` for `m^2`, `3 to 7` for `3..7`.
pub(super) fn spoken(text: &str) -> String {
    let mut spoken = String::with_capacity(text.len());
    let is_paired = text.matches('`').count().is_multiple_of(2);
    let mut is_open = false;
    let mut rest = text;
    while let Some(letter) = rest.chars().next() {
        let after_digit = spoken.ends_with(|c: char| c.is_ascii_digit());
        let short = match letter {
            '`' if is_paired => {
                is_open = !is_open;
                Some((1, if is_open { "\u{201c}" } else { "\u{201d}" }))
            }
            ' ' if after_digit => rest
                .strip_prefix(" deg")
                .filter(|after| !after.starts_with(|c: char| c.is_alphanumeric() || c == '/'))
                .map(|_| (4, "°")),
            '.' if after_digit => rest
                .strip_prefix("..")
                .filter(|after| after.starts_with(|c: char| c.is_ascii_digit() || c == '-'))
                .map(|_| (2, " to ")),
            '^' => rest.strip_prefix("^2").map(|_| (2, "²")),
            _ => None,
        };
        match short {
            Some((long, instead)) => {
                spoken.push_str(instead);
                rest = &rest[long..];
            }
            None => {
                spoken.push(letter);
                rest = &rest[letter.len_utf8()..];
            }
        }
    }
    spoken
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_sentences_are_spoken_as_people_write_them() {
        for (told, wanted) in [
            ("in `light`, at 6.5 deg", "in “light”, at 6.5°"),
            ("3.4..6.8 deg under", "3.4 to 6.8° under"),
            ("0.426 m^2 together", "0.426 m² together"),
            ("a ` alone, 5 degrees, 0.2 deg/s.", "a ` alone, 5 degrees, 0.2 deg/s."),
            ("up...", "up..."),
            ("from 10 kn to 18 kn ü", "from 10 kn to 18 kn ü"),
        ] {
            assert_eq!(spoken(told), wanted);
        }
    }
}
