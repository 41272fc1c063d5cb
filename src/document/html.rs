//! A document as one HTML file with everything in it, for a screen and for A4 or Letter paper.

use std::fmt::Write as _;

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::block::{
    Block, CutOut, Document, Fact, Form, KeyNumber, Letterhead, Picture, Sheet, Table,
};
use super::colours;
use super::column::Column;
use super::unbroken::kept_together;

/// The look of the page.
const STYLE: &str = include_str!("page.css");

/// The whole file, for whatever paper it is printed on.
#[must_use]
pub fn page(document: &Document) -> String {
    page_on(document, None)
}

/// The whole file, for a size of paper.
#[must_use]
pub fn page_on(document: &Document, sheet: Option<Sheet>) -> String {
    page_around(document, sheet, &html! {}, (0, &html! {}))
}

/// The same to work from with a tape in hand: every quantity stays on one line.
#[must_use]
pub fn page_to_work_from(document: &Document, sheet: Option<Sheet>) -> String {
    kept_together(&page_on(document, sheet))
}

/// The whole file with something of its own in the head, and between the blocks: before the block of that number.
#[must_use]
pub fn page_around(
    document: &Document,
    sheet: Option<Sheet>,
    head: &Markup,
    (place, inset): (usize, &Markup),
) -> String {
    let (above, below) = document.blocks.split_at(place.min(document.blocks.len()));
    let form = match document.form {
        Form::Record => "record",
        Form::Sheet => "sheet",
        Form::Letter => "letter",
    };
    let markup = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (document.title) " – " (document.subject) }
                style { (PreEscaped(colours::as_css())) (PreEscaped(STYLE)) (PreEscaped(sheet.map_or("", size))) }
                (head)
            }
            body class=(form) {
                main {
                    header {
                        h1 { (document.title) }
                        p.subject { (document.subject) }
                    }
                    @if document.form == Form::Record { (contents(&document.blocks)) }
                    @for block in above { (self::block(block)) }
                    (inset)
                    @for block in below { (self::block(block)) }
                }
                footer { (facts(&document.origin)) }
            }
        }
    };
    markup.into_string()
}

/// The sections, each a link to where it stands.
fn contents(blocks: &[Block]) -> Markup {
    let sections = blocks.iter().filter_map(|block| match block {
        Block::Section(text) => Some(text),
        _ => None,
    });
    html! {
        nav.contents {
            h3 { "Contents" }
            ol { @for text in sections { li { a href={ "#" (anchor(text)) } { (text) } } } }
        }
    }
}

/// What a heading is called in an address: its letters and digits.
fn anchor(heading: &str) -> String {
    let lower = heading.to_lowercase();
    let words = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.collect::<Vec<_>>().join("-")
}

/// Says to a printer which paper is meant.
const fn size(sheet: Sheet) -> &'static str {
    match sheet {
        Sheet::A4 => "@page { size: A4; }",
        Sheet::Letter => "@page { size: letter; }",
    }
}

/// One block as HTML, for pages that hold more than a document.
#[must_use]
pub fn block(block: &Block) -> Markup {
    match block {
        Block::Letterhead(head) => letterhead(head),
        Block::Section(text) => html! { h2 id=(anchor(text)) { (text) } },
        Block::Alert(text) => html! { h2.alert { (text) } },
        Block::Heading(text) => html! { h3 { (text) } },
        Block::Lead(text) => html! { p.lead { (text) } },
        Block::Paragraph(text) => html! { p { (text) } },
        Block::Said(sentence) => html! { p { (sentence.on_page()) } },
        Block::Points(points) => html! { ul { @for point in points { li { (point) } } } },
        Block::Facts(all) => facts(all),
        Block::Terms(all) => terms(all),
        Block::Warnings(points) => html! {
            ul.warnings { @for point in points { li { (point) } } }
        },
        Block::KeyNumbers(numbers) => key_numbers(numbers),
        Block::Table(table) => self::table(table),
        Block::Pictures(pictures) => self::pictures(pictures),
        Block::Caution { title, points } => html! {
            section.caution {
                h3 { (title) }
                ul { @for point in points { li { (point) } } }
            }
        },
        Block::CutOut(card) => cut_out(card),
        Block::Verbatim(text) => html! { pre { (text) } },
        Block::WriteOn(lines) => html! {
            div.write-on { @for line in lines { p { span.line {} span.label { (line) } } } }
        },
        Block::NewPage => html! { div.new-page {} },
    }
}

fn cut_out(card: &CutOut) -> Markup {
    let rows = card.columns.iter().map(|column| column.cells.len()).max().unwrap_or(0);
    html! {
        section.cut-out {
            h3 { (card.title) }
            table {
                thead { tr { @for column in &card.columns { (head(column)) } } }
                tbody {
                    @for row in 0..rows {
                        tr {
                            @for column in &card.columns {
                                td class=[column.is_text.then_some("words")] {
                                    (column.cells.get(row).map_or("", String::as_str))
                                }
                            }
                        }
                    }
                }
            }
            @for note in &card.notes { p.note { (note) } }
            p.beware { (card.caution) }
        }
    }
}

fn letterhead(head: &Letterhead) -> Markup {
    html! {
        section.letterhead {
            @if let Some(logo) = &head.logo { img src=(address(&logo.svg)) alt=(logo.description); }
            div.from {
                strong { (head.name) }
                @for line in &head.lines { br; (line) }
            }
            dl {
                @for fact in &head.facts { div { dt { (fact.name) } dd { (fact.value) } } }
            }
        }
    }
}

fn facts(facts: &[Fact]) -> Markup {
    html! {
        dl.facts {
            @for fact in facts {
                div {
                    dt { (fact.name) }
                    dd { (fact.value) @if !fact.note.is_empty() { " " small { (fact.note) } } }
                }
            }
        }
    }
}

fn terms(terms: &[Fact]) -> Markup {
    html! {
        dl.terms {
            @for term in terms {
                dt { (term.name) }
                dd { (term.value) @if !term.note.is_empty() { " " small { (term.note) } } }
            }
        }
    }
}

fn key_numbers(numbers: &[KeyNumber]) -> Markup {
    html! {
        div.key-numbers {
            @for number in numbers {
                section {
                    h3 { (number.name) }
                    p.value { (number.value) }
                    @if !number.likely.is_empty() { p.likely { (number.likely) } }
                    p.meaning { (number.meaning) }
                }
            }
        }
    }
}

fn table(table: &Table) -> Markup {
    html! {
        figure.table {
            @if !table.title.is_empty() { figcaption { (table.title) } }
            div.scroll {
                table {
                    thead { tr { @for column in &table.columns { (head(column)) } } }
                    tbody {
                        @for row in 0..table.rows() {
                            tr class=[(table.strong == Some(row)).then_some("strong")] {
                                @for (place, column) in table.columns.iter().enumerate() {
                                    td class=[column.is_text.then_some("words")] {
                                        (table.cell(place, row))
                                    }
                                }
                            }
                        }
                    }
                }
            }
            @for note in &table.notes { p.note { (note) } }
        }
    }
}

fn head(column: &Column) -> Markup {
    html! {
        th scope="col" class=[column.is_text.then_some("words")] {
            (column.name)
            @if !column.unit.is_empty() { br; small { (column.unit) } }
        }
    }
}

/// Pictures are embedded as images, so that names inside one cannot clash with those of another.
fn pictures(pictures: &[Picture]) -> Markup {
    html! {
        div.pictures {
            @for picture in pictures {
                figure {
                    img src=(address(&picture.svg)) alt=(picture.description);
                    @if !picture.caption.is_empty() { figcaption { (picture.caption) } }
                }
            }
        }
    }
}

/// A picture as the address of an image: only what an address cannot hold is escaped.
fn address(svg: &str) -> String {
    let mut text = "data:image/svg+xml,".to_owned();
    for byte in svg.bytes() {
        match byte {
            b'"' => text.push('\''),
            b'\'' | b'%' | b'#' | b'<' | b'>' | b'&' | 0..32 | 127.. => {
                let _ = write!(text, "%{byte:02X}");
            }
            _ => text.push(char::from(byte)),
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    fn document(blocks: Vec<Block>) -> Document {
        Document {
            title: "A <title>".to_owned(),
            subject: "Heron & friends".to_owned(),
            origin: vec![Fact::new("program", "planewright")],
            form: Form::Sheet,
            blocks,
        }
    }

    #[test]
    fn regression_text_cannot_become_markup() {
        let page = page(&document(vec![Block::Paragraph("<script>alert(1)</script>".to_owned())]));
        assert!(!page.contains("<script>"));
        assert!(page.contains("&lt;script&gt;"));
        assert!(page.contains("A &lt;title&gt; – Heron &amp; friends"));
    }

    #[test]
    fn regression_a_page_needs_nothing_from_elsewhere() {
        let picture = Picture {
            svg: "<svg xmlns=\"http://www.w3.org/2000/svg\"/>".to_owned(),
            caption: "A boat".to_owned(),
            description: "A boat seen from the side".to_owned(),
        };
        let page = page(&document(vec![Block::Pictures(vec![picture])]));
        for fetched in ["src=\"http", "href=", "@import", "url("] {
            assert!(!page.contains(fetched), "{fetched}");
        }
        assert!(page.contains("alt=\"A boat seen from the side\""));
    }

    #[test]
    fn regression_terms_and_warnings_say_all_and_cannot_become_markup() {
        let term = Fact::new("a < b", "what it means").noted("and why");
        let text = super::block(&Block::Terms(vec![term])).into_string();
        assert!(text.contains("<dt>a &lt; b</dt><dd>what it means <small>and why</small></dd>"));
        let text = super::block(&Block::Warnings(vec!["deadrise & more".to_owned()])).into_string();
        assert_eq!(text, "<ul class=\"warnings\"><li>deadrise &amp; more</li></ul>");
    }

    #[test]
    fn regression_a_table_shows_every_cell_under_its_head() {
        let table = Table {
            title: "Speeds".to_owned(),
            columns: vec![
                Column::numbers("speed", "kn", vec!["12".to_owned(), "13".to_owned()]),
                Column::words("done", vec!["yes".to_owned()]),
            ],
            strong: Some(1),
            notes: Vec::new(),
        };
        let text = super::table(&table).into_string();
        assert_eq!(text.matches("<td").count(), 4);
        assert!(text.contains("speed<br><small>kn</small>"));
        assert!(text.contains("<tr class=\"strong\"><td>13</td><td class=\"words\"></td></tr>"));
    }

    #[test]
    fn regression_no_picture_breaks_out_of_its_attribute() {
        let found = address("<text a=\"1\">it's “5 %” & more #2\n</text>");
        assert!(found.starts_with("data:image/svg+xml,%3Ctext a='1'%3Eit%27s "));
        assert!(found.is_ascii() && !found.contains(['"', '<', '>', '#', '&', '\n']));
        assert!(found.contains("5 %25%E2%80%9D %26 more %232%0A"));
    }
}
