//! How text looks where it is printed, and printing it.

use std::io::{self, IsTerminal, Write};

use super::Failure;
use super::table::table;
use crate::answer::rounded;
use crate::document::{Block, Fact};
use crate::error::Appearance;
pub(super) use crate::flag::CAUTION;

/// Width of printed text where there is no terminal, in columns.
const WIDTH: usize = 100;
/// Least and largest width of text on a terminal: a narrower one breaks its lines itself, and wider lines are hard to read.
const WIDTHS: [usize; 2] = [60, 120];
/// Codes of a terminal for bold and for yellow letters.
const BOLD: &str = "1";
const YELLOW: &str = "33";
/// Width under which names stand before their text instead of beside it.
const SIDE_BY_SIDE: usize = 80;

/// The stream that results go to, and what it can show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Screen {
    appearance: Appearance,
    width: usize,
}

impl Screen {
    /// The standard output of this run.
    pub(super) fn of_stdout() -> Self {
        Self { appearance: Appearance::of(io::stdout().is_terminal()), width: width() }
    }

    /// A file that anything can read.
    pub(super) const fn plain() -> Self {
        Self { appearance: Appearance::Ascii, width: WIDTH }
    }

    /// Width of its text, in columns.
    pub(super) fn width(self) -> usize {
        self.width
    }

    /// Whether line-drawing characters may be used.
    pub(super) fn draws_lines(self) -> bool {
        self.appearance != Appearance::Ascii
    }

    /// A heading, broken like a paragraph.
    pub(super) fn heading(self, text: &str) -> String {
        self.painted_paragraph("", text, BOLD).trim_end().to_owned()
    }

    /// Something not to be overlooked.
    pub(super) fn warning(self, text: &str) -> String {
        self.painted(text, YELLOW)
    }

    fn painted(self, text: &str, code: &str) -> String {
        match self.appearance {
            Appearance::Colour => format!("\u{1b}[{code}m{text}\u{1b}[0m"),
            Appearance::Ascii | Appearance::Lines => text.to_owned(),
        }
    }

    /// Blocks as text, in order.
    pub(super) fn blocks(self, blocks: &[Block]) -> String {
        blocks.iter().map(|block| self.block(block)).collect()
    }

    fn block(self, block: &Block) -> String {
        let lines = |first: &str, lines: &[String]| -> String {
            lines.iter().map(|line| self.paragraph(first, line)).collect()
        };
        match block {
            Block::Letterhead(head) => {
                format!(
                    "{}\n{}",
                    lines("  ", std::slice::from_ref(&head.name)),
                    self.facts(&head.facts)
                )
            }
            Block::Section(title) => format!("\n{}\n", self.heading(title)),
            Block::Alert(title) => format!("\n{}", self.painted_paragraph("", title, YELLOW)),
            Block::Heading(title) => format!("\n{}", self.painted_paragraph("  ", title, BOLD)),
            Block::Lead(text) | Block::Paragraph(text) => self.paragraph("  ", text),
            Block::Said(sentence) => self.paragraph("  ", &sentence.to_string()),
            Block::Points(points) => lines("  - ", points),
            Block::Facts(facts) | Block::Terms(facts) => self.facts(facts),
            Block::Warnings(points) => {
                points.iter().map(|point| self.painted_paragraph("  ! ", point, YELLOW)).collect()
            }
            Block::KeyNumbers(numbers) => numbers
                .iter()
                .map(|n| {
                    self.paragraph(
                        "  ",
                        &format!("{}: {}, {}. {}", n.name, n.value, n.likely, n.meaning),
                    )
                })
                .collect(),
            Block::Table(shown) => {
                let title = match shown.title.as_str() {
                    "" => String::new(),
                    title => format!("\n{}", self.paragraph("  ", title)),
                };
                format!("{title}{}{}", table(&shown.columns, self), lines("  ", &shown.notes))
            }
            Block::Pictures(pictures) => {
                pictures.iter().map(|picture| self.paragraph("  ", &picture.description)).collect()
            }
            Block::Caution { title, points } => {
                format!("\n{}\n{}", self.warning(title), lines("  ! ", points))
            }
            Block::CutOut(card) => {
                let rows = table(&card.columns, self);
                format!(
                    "\n{}\n{rows}{}{}",
                    self.heading(&card.title),
                    lines("  ", &card.notes),
                    lines("  ! ", std::slice::from_ref(&card.caution))
                )
            }
            Block::Verbatim(text) => {
                let indented = |line: &str| {
                    if line.is_empty() { "\n".to_owned() } else { format!("    {line}\n") }
                };
                std::iter::once("\n".to_owned()).chain(text.lines().map(indented)).collect()
            }
            Block::WriteOn(_) | Block::NewPage => String::new(),
        }
    }

    /// Names with their values, the values below each other; on a narrow screen each name before its value.
    fn facts(self, facts: &[Fact]) -> String {
        let longest = facts.iter().map(|fact| fact.name.chars().count()).max().unwrap_or(0);
        let line = |fact: &Fact| {
            let note =
                if fact.note.is_empty() { String::new() } else { format!(" ({})", fact.note) };
            let text = format!("{}{note}", fact.value);
            if self.width < SIDE_BY_SIDE {
                return self.hanging(&format!("  {}: ", fact.name), 4, &text);
            }
            self.paragraph(&format!("  {:<longest$}  ", fact.name), &text)
        };
        facts.iter().map(line).collect()
    }

    /// The text broken into lines: the first after `first`, the others after as many spaces.
    pub(super) fn paragraph(self, first: &str, text: &str) -> String {
        self.hanging(first, first.chars().count(), text)
    }

    /// The same with the text painted; the codes take no room.
    fn painted_paragraph(self, first: &str, text: &str, code: &str) -> String {
        let plain = self.paragraph(first, text);
        let text = plain.strip_prefix(first).unwrap_or(&plain);
        format!("{first}{}\n", self.painted(text.trim_end(), code))
    }

    /// The same with the others after so many spaces.
    fn hanging(self, first: &str, indent: usize, text: &str) -> String {
        let indent = " ".repeat(indent);
        let mut lines = String::new();
        let mut line = first.to_owned();
        let mut is_empty = true;
        for word in text.split_whitespace() {
            if !is_empty && line.chars().count() + 1 + word.chars().count() > self.width {
                lines.push_str(line.trim_end());
                lines.push('\n');
                line.clone_from(&indent);
                is_empty = true;
            }
            if !is_empty {
                line.push(' ');
            }
            line.push_str(word);
            is_empty = false;
        }
        lines.push_str(line.trim_end());
        lines.push('\n');
        lines
    }

    /// Prints one JSON object.
    pub(super) fn print_json(self, object: &impl serde::Serialize) -> Result<(), Failure> {
        self.print(&json_text(object)?)
    }

    /// Prints the text.
    pub(super) fn print(self, text: &str) -> Result<(), Failure> {
        let mut out = io::stdout().lock();
        out.write_all(text.as_bytes())?;
        out.flush()?;
        Ok(())
    }
}

/// One JSON object as every output writes it.
pub(super) fn json_text(object: &impl serde::Serialize) -> Result<String, Failure> {
    let object = rounded(object).map_err(io::Error::from)?;
    let mut text = serde_json::to_string_pretty(&object).map_err(io::Error::from)?;
    text.push('\n');
    Ok(text)
}

/// Columns of the terminal; without one what `COLUMNS` says, as for the help, or else the usual width.
fn width() -> usize {
    let terminal = terminal_size::terminal_size().map(|(width, _)| usize::from(width.0));
    let told = || std::env::var("COLUMNS").ok()?.parse().ok();
    terminal.or_else(told).map_or(WIDTH, |width| width.clamp(WIDTHS[0], WIDTHS[1]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_paragraphs_hang_and_keep_within_the_width() {
        let paragraph = |first, text: &str| Screen::plain().paragraph(first, text);
        let text = paragraph("  - ", &"lightly loaded ".repeat(20));
        assert!(text.lines().all(|line| line.len() <= WIDTH));
        assert!(text.starts_with("  - lightly"));
        assert!(text.lines().skip(1).all(|line| line.starts_with("    l")));
        assert_eq!(paragraph("  ", ""), "\n");
    }

    #[test]
    fn regression_a_narrow_screen_sets_names_before_their_text() {
        let screen = Screen { appearance: Appearance::Ascii, width: 60 };
        let facts = vec![Fact::new("How sure", "as sure as can be, ".repeat(6))];
        let text = screen.blocks(&[Block::Terms(facts)]);
        assert!(text.starts_with("  How sure: as sure"), "{text}");
        assert!(text.lines().all(|line| line.len() <= 60), "{text}");
        assert!(text.lines().skip(1).all(|line| line.starts_with("    ")), "{text}");
    }

    #[test]
    fn regression_headings_break_where_plain_text_does() {
        let screen = Screen { appearance: Appearance::Colour, width: 60 };
        let title = "as long as can be, ".repeat(5);
        let coloured = screen.blocks(&[Block::Section(title.clone()), Block::Alert(title.clone())]);
        let plain = Screen { appearance: Appearance::Ascii, ..screen };
        let plain = plain.blocks(&[Block::Section(title.clone()), Block::Alert(title)]);
        assert!(plain.lines().all(|line| line.len() <= 60), "{plain}");
        let bare = coloured.replace("\u{1b}[1m", "").replace("\u{1b}[33m", "");
        assert_eq!(bare.replace("\u{1b}[0m", ""), plain);
    }

    #[test]
    fn regression_colour_only_where_it_is_wanted() {
        let screen = |appearance| Screen { appearance, width: WIDTH };
        assert_eq!(screen(Appearance::Ascii).warning("high"), "high");
        assert_eq!(screen(Appearance::Lines).heading("Boat"), "Boat");
        assert!(screen(Appearance::Colour).heading("Boat").contains('\u{1b}'));
    }
}
