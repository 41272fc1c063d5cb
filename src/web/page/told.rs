//! What the command line tells in blocks, as parts of a page.

use maud::{Markup, html};

use super::frame::drawing;
use crate::document::html::block;
use crate::document::{Block, Column, Table, spoken};

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
    match each {
        Block::Section(text) | Block::Alert(text) => html! { h3 { (spoken(text)) } },
        Block::Table(table) => wide(table),
        // Inside the page, whose policy lets in no pictures packed into addresses.
        Block::Pictures(pictures) => html! {
            @for picture in pictures {
                figure.chart.drawn tabindex="0" role="group" aria-label=(picture.description) {
                    (drawing(&picture.svg))
                    figcaption.small { (spoken(&picture.caption)) }
                }
            }
        },
        other => block(&other.spoken()),
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
