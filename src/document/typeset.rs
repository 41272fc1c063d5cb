//! A document typeset as PDF.
//!
//! Only with the feature `pdf`: the typesetter takes several minutes to build.

use std::fmt::Write as _;
use std::sync::OnceLock;

use thiserror::Error;
use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};
use typst_layout::PagedDocument;
use typst_pdf::PdfOptions;

use super::block::{Block, Document, Form, Sheet, Table};
use super::colours;

/// How each block is set.
const STYLE: &str = include_str!("page.typ");

/// The typesetter refused a document: a fault of this program.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("the report could not be typeset: {0}")]
pub struct TypesetError(String);

/// The document as a PDF file, with its number of pages. The same document gives the same bytes.
///
/// # Errors
/// When the typesetter refuses it.
pub fn pdf(document: &Document, sheet: Sheet) -> Result<(Vec<u8>, usize), TypesetError> {
    let sources = Sources::new(document, sheet)?;
    let paged =
        typst::compile::<PagedDocument>(&sources).output.map_err(|faults| first(&faults))?;
    let options = PdfOptions {
        // Tags for screen readers treble a record of thousands of cells; who needs them has the HTML.
        tagged: document.form != Form::Record,
        creator: Smart::Custom(Some(concat!("planewright ", env!("CARGO_PKG_VERSION")).to_owned())),
        ..PdfOptions::default()
    };
    let bytes = typst_pdf::pdf(&paged, &options).map_err(|faults| first(&faults))?;
    Ok((bytes, paged.pages().len()))
}

fn first(faults: &[typst::diag::SourceDiagnostic]) -> TypesetError {
    TypesetError(faults.first().map_or_else(String::new, |fault| fault.message.to_string()))
}

/// What the typesetter may see: the document's source, its pictures and the embedded letters.
struct Sources {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    source: Source,
    pictures: Vec<(FileId, Bytes)>,
}

impl Sources {
    fn new(document: &Document, sheet: Sheet) -> Result<Self, TypesetError> {
        let source = Source::new(file("report.typ")?, source(document, sheet));
        let pictures = document
            .pictures()
            .enumerate()
            .map(|(place, picture)| {
                Ok((file(&picture_name(place))?, Bytes::from_string(picture.svg.clone())))
            })
            .collect::<Result<_, TypesetError>>()?;
        Ok(Self {
            library: LazyHash::new(Library::default()),
            book: LazyHash::new(FontBook::from_fonts(fonts())),
            source,
            pictures,
        })
    }
}

impl World for Sources {
    fn library(&self) -> &LazyHash<Library> {
        &self.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.book
    }

    fn main(&self) -> FileId {
        self.source.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.source.id() { Ok(self.source.clone()) } else { Err(FileError::AccessDenied) }
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let found = self.pictures.iter().find(|(name, _)| *name == id);
        found.map(|(_, bytes)| bytes.clone()).ok_or(FileError::AccessDenied)
    }

    fn font(&self, index: usize) -> Option<Font> {
        fonts().get(index).cloned()
    }

    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}

/// The embedded letters.
fn fonts() -> &'static [Font] {
    static FONTS: OnceLock<Vec<Font>> = OnceLock::new();
    FONTS.get_or_init(|| {
        let files = [
            dejavu::sans::regular(),
            dejavu::sans::bold(),
            dejavu::serif::regular(),
            dejavu::serif::bold(),
            dejavu::sans_mono::regular(),
        ];
        files.into_iter().filter_map(|data| Font::new(Bytes::new(data), 0)).collect()
    })
}

fn file(name: &str) -> Result<FileId, TypesetError> {
    let path = VirtualPath::new(name).map_err(|fault| TypesetError(format!("{fault:?}")))?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

fn picture_name(place: usize) -> String {
    format!("picture-{place}.svg")
}

/// The document in the typesetter's language.
fn source(document: &Document, sheet: Sheet) -> String {
    let paper = match sheet {
        Sheet::A4 => "a4",
        Sheet::Letter => "us-letter",
    };
    let (size, margin) = match document.form {
        Form::Record => ("8.6pt", "(x: 15mm, top: 14mm, bottom: 16mm)"),
        Form::Sheet => ("8pt", "(x: 15mm, top: 9mm, bottom: 12mm)"),
        Form::Letter => ("9.5pt", "(x: 19mm, top: 15mm, bottom: 16mm)"),
    };
    let origin: Vec<String> =
        document.origin.iter().map(|fact| format!("{} {}", fact.name, fact.value)).collect();
    let mut text = format!(
        "{}{}{STYLE}\n#show: body => sheet({}, {}, {}, \"{paper}\", {size}, {margin}, body)\n",
        colours::as_definitions(),
        measures(document.form),
        quoted(&document.title),
        quoted(&document.subject),
        quoted(&origin.join("  ·  "))
    );
    if document.form == Form::Record {
        text.push_str("#contents\n");
    }
    let mut pictures = 0;
    for block in &document.blocks {
        text.push_str(&call(block, &mut pictures));
        text.push('\n');
    }
    text
}

/// What is set tighter in one form than in another. No letters are smaller than 6.5 points.
const fn measures(form: Form) -> &'static str {
    match form {
        Form::Record => {
            "#let small = 6.9pt\n#let fact-columns = 2\n#let full-width = false\n#let paragraph-space = 0.8em\n#let write-on-space = 1.6em\n#let picture-width = 100%\n"
        }
        Form::Sheet => {
            "#let small = 7pt\n#let fact-columns = 3\n#let full-width = true\n#let paragraph-space = 0.62em\n#let write-on-space = 1fr\n#let picture-width = 66%\n"
        }
        Form::Letter => {
            "#let small = 8pt\n#let fact-columns = 2\n#let full-width = true\n#let paragraph-space = 0.85em\n#let write-on-space = 1.6em\n#let picture-width = 100%\n"
        }
    }
}

/// One block as a call of its function.
fn call(block: &Block, pictures: &mut usize) -> String {
    match block {
        Block::Letterhead(head) => {
            let logo = head.logo.as_ref().map_or("none".to_owned(), |_| {
                let name = picture_name(*pictures);
                *pictures += 1;
                quoted(&name)
            });
            format!(
                "#letterhead({logo}, {}, {}, {})",
                quoted(&head.name),
                list(head.lines.iter().map(|line| quoted(line))),
                list(head.facts.iter().map(|f| list([&f.name, &f.value].map(|t| quoted(t)))))
            )
        }
        Block::Section(text) => format!("#section({})", quoted(text)),
        Block::Alert(text) => format!("#alert({})", quoted(text)),
        Block::Heading(text) => format!("#subsection({})", quoted(text)),
        Block::Lead(text) => format!("#lead({})", quoted(text)),
        Block::Paragraph(text) => format!("#para({})", quoted(text)),
        Block::Said(sentence) => format!("#para({})", quoted(&sentence.on_page())),
        Block::Points(points) => format!("#points({})", list(points.iter().map(|p| quoted(p)))),
        Block::Facts(facts) => format!(
            "#facts({})",
            list(facts.iter().map(|f| list([&f.name, &f.value, &f.note].map(|t| quoted(t)))))
        ),
        Block::Terms(terms) => format!(
            "#terms({})",
            list(terms.iter().map(|t| list([&t.name, &t.value, &t.note].map(|t| quoted(t)))))
        ),
        Block::Warnings(points) => {
            format!("#warnings({})", list(points.iter().map(|p| quoted(p))))
        }
        Block::KeyNumbers(numbers) => format!(
            "#key-numbers({})",
            list(numbers.iter().map(|n| {
                list([&n.name, &n.value, &n.likely, &n.meaning].map(|text| quoted(text)))
            }))
        ),
        Block::Table(table) => self::table(table),
        Block::Pictures(all) => format!(
            "#pics({})",
            list(all.iter().map(|picture| {
                let name = picture_name(*pictures);
                *pictures += 1;
                list([&name, &picture.caption, &picture.description].map(|text| quoted(text)))
            }))
        ),
        Block::Caution { title, points } => format!(
            "#caution({}, {})",
            quoted(title),
            list(points.iter().map(|point| quoted(point)))
        ),
        Block::CutOut(card) => format!(
            "#cut-out({}, {}, {}, {}, {})",
            quoted(&card.title),
            list(
                card.columns
                    .iter()
                    .map(|column| list([quoted(&column.name), quoted(&column.unit)]))
            ),
            list(
                card.columns
                    .iter()
                    .map(|column| list(column.cells.iter().map(|cell| quoted(cell))))
            ),
            list(card.notes.iter().map(|note| quoted(note))),
            quoted(&card.caution)
        ),
        Block::Verbatim(text) => format!("#verbatim({})", quoted(text)),
        Block::WriteOn(lines) => format!("#write-on({})", list(lines.iter().map(|l| quoted(l)))),
        Block::NewPage => "#pagebreak(weak: true)".to_owned(),
    }
}

fn table(table: &Table) -> String {
    let heads = table.columns.iter().map(|column| {
        list([quoted(&column.name), quoted(&column.unit), column.is_text.to_string()])
    });
    let rows = (0..table.rows())
        .map(|row| list((0..table.columns.len()).map(|column| quoted(table.cell(column, row)))));
    let strong = table.strong.map_or("none".to_owned(), |row| row.to_string());
    format!(
        "#tab({}, {}, {}, {strong}, {})",
        quoted(&table.title),
        list(heads),
        list(rows),
        list(table.notes.iter().map(|note| quoted(note)))
    )
}

/// A list in the typesetter's language; the last comma makes a list of one.
fn list(items: impl IntoIterator<Item = String>) -> String {
    let mut text = "(".to_owned();
    for item in items {
        let _ = write!(text, "{item},");
    }
    text.push(')');
    text
}

/// Letters in a row after which a word may be broken: no line of a page is so narrow.
const LONGEST_WORD: usize = 30;

/// Text that the typesetter takes as it stands. Very long words may be broken anywhere, so that
/// no name runs off the paper.
fn quoted(text: &str) -> String {
    let mut quoted = "\"".to_owned();
    let mut run = 0;
    for letter in text.chars() {
        run = if letter.is_whitespace() { 0 } else { run + 1 };
        if run > LONGEST_WORD {
            quoted.push('\u{200B}');
        }
        if matches!(letter, '\\' | '"') {
            quoted.push('\\');
        }
        quoted.push(letter);
    }
    quoted.push('"');
    quoted
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::{Column, CutOut, Fact, KeyNumber, Letterhead, Picture};

    fn every_block() -> Vec<Block> {
        let picture = Picture {
            svg: "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9\" height=\"9\"/>".to_owned(),
            caption: "A boat".to_owned(),
            description: "A boat from the side".to_owned(),
        };
        let number = KeyNumber {
            name: "Trim".to_owned(),
            value: "4.2 deg".to_owned(),
            likely: "3.8 to 4.9".to_owned(),
            meaning: "less bow".to_owned(),
        };
        let hard = "\"quotes\", back\\slash, #hash, $math$, *stars*, <tag> @name".to_owned();
        vec![
            Block::Letterhead(Letterhead {
                logo: Some(Picture { caption: String::new(), ..picture.clone() }),
                name: hard.clone(),
                lines: vec!["2 Quay Street".to_owned()],
                facts: vec![Fact::new("For", "A. Buyer")],
            }),
            Block::Section("Section".to_owned()),
            Block::Alert("Alert".to_owned()),
            Block::Heading("Heading".to_owned()),
            Block::Lead("Lead".to_owned()),
            Block::Paragraph(hard.clone()),
            Block::Points(vec![hard.clone()]),
            Block::Facts(vec![Fact::new("name", "value").noted("note")]),
            Block::Terms(vec![Fact::new("name", hard.clone())]),
            Block::Warnings(vec![hard.clone()]),
            Block::KeyNumbers(vec![number]),
            Block::Table(Table {
                title: "Table".to_owned(),
                columns: vec![Column::numbers("speed", "kn", vec!["12".to_owned()])],
                strong: Some(0),
                notes: vec!["note".to_owned()],
            }),
            Block::Pictures(vec![picture.clone(), picture]),
            Block::Caution { title: "Care".to_owned(), points: vec![hard.clone()] },
            Block::CutOut(CutOut {
                title: hard.clone(),
                columns: vec![Column::words("speed", vec!["12 to 14".to_owned()]).in_unit("kn")],
                notes: vec![hard.clone()],
                caution: hard.clone(),
            }),
            Block::Verbatim("[[duty]]\nkind = \"list\"\n".to_owned()),
            Block::WriteOn(vec!["name".to_owned(), "date".to_owned()]),
            Block::NewPage,
            Block::Paragraph("end".to_owned()),
        ]
    }

    fn document(form: Form) -> Document {
        Document {
            title: "A report".to_owned(),
            subject: "Heron".to_owned(),
            origin: vec![Fact::new("program", "planewright")],
            form,
            blocks: every_block(),
        }
    }

    #[test]
    fn regression_every_block_is_typeset_in_every_form_and_on_either_paper() {
        for form in [Form::Record, Form::Sheet, Form::Letter] {
            for sheet in [Sheet::A4, Sheet::Letter] {
                let (bytes, pages) = pdf(&document(form), sheet).unwrap();
                assert!(bytes.starts_with(b"%PDF"));
                // What stands behind a new page is on a page of its own.
                let mut before = document(form);
                before.blocks.truncate(before.blocks.len() - 2);
                assert_eq!(pages, pdf(&before, sheet).unwrap().1 + 1);
            }
        }
    }

    #[test]
    fn regression_the_same_document_gives_the_same_bytes() {
        let once = || pdf(&document(Form::Record), Sheet::A4).unwrap().0;
        assert_eq!(once(), once());
    }
}
