//! How text looks where it is printed, and printing it.

use std::io::{self, IsTerminal, Write};

use super::Failure;
use super::table::table;
use crate::document::{Block, Fact};
use crate::error::Appearance;
pub(super) use crate::flag::CAUTION;

/// Width of printed text, in columns.
pub(super) const WIDTH: usize = 100;

/// The stream that results go to, and what it can show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Screen {
    appearance: Appearance,
}

impl Screen {
    /// The standard output of this run.
    pub(super) fn of_stdout() -> Self {
        let no_color = std::env::var_os("NO_COLOR");
        Self { appearance: Appearance::choose(io::stdout().is_terminal(), no_color.as_deref()) }
    }

    /// A file that anything can read.
    pub(super) const fn plain() -> Self {
        Self { appearance: Appearance::Ascii }
    }

    /// Whether line-drawing characters may be used.
    pub(super) fn draws_lines(self) -> bool {
        self.appearance != Appearance::Ascii
    }

    /// A heading.
    pub(super) fn heading(self, text: &str) -> String {
        self.painted(text, "1")
    }

    /// Something not to be overlooked.
    pub(super) fn warning(self, text: &str) -> String {
        self.painted(text, "33")
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
            lines.iter().map(|line| paragraph(first, line)).collect()
        };
        match block {
            Block::Letterhead(head) => {
                format!(
                    "{}\n{}",
                    lines("  ", std::slice::from_ref(&head.name)),
                    facts_text(&head.facts)
                )
            }
            Block::Section(title) => format!("\n{}\n", self.heading(title)),
            Block::Alert(title) => format!("\n{}\n", self.warning(title)),
            Block::Heading(title) => format!("\n  {}\n", self.heading(title)),
            Block::Lead(text) | Block::Paragraph(text) => paragraph("  ", text),
            Block::Said(sentence) => paragraph("  ", &sentence.to_string()),
            Block::Points(points) => lines("  - ", points),
            Block::Facts(facts) | Block::Terms(facts) => facts_text(facts),
            Block::Warnings(points) => {
                points.iter().map(|point| paragraph("  ! ", &self.warning(point))).collect()
            }
            Block::KeyNumbers(numbers) => numbers
                .iter()
                .map(|n| {
                    paragraph(
                        "  ",
                        &format!("{}: {}, {}. {}", n.name, n.value, n.likely, n.meaning),
                    )
                })
                .collect(),
            Block::Table(shown) => {
                let title = match shown.title.as_str() {
                    "" => String::new(),
                    title => format!("\n  {title}\n"),
                };
                format!("{title}{}{}", table(&shown.columns, self), lines("  ", &shown.notes))
            }
            Block::Pictures(pictures) => {
                pictures.iter().map(|picture| paragraph("  ", &picture.description)).collect()
            }
            Block::Caution { title, points } => {
                format!("\n{}\n{}", self.warning(title), lines("  ! ", points))
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
    let mut text = serde_json::to_string_pretty(object).map_err(io::Error::from)?;
    text.push('\n');
    Ok(text)
}

/// Names with their values, the values below each other.
fn facts_text(facts: &[Fact]) -> String {
    let longest = facts.iter().map(|fact| fact.name.chars().count()).max().unwrap_or(0);
    let line = |fact: &Fact| {
        let note = if fact.note.is_empty() { String::new() } else { format!(" ({})", fact.note) };
        paragraph(&format!("  {:<longest$}  ", fact.name), &format!("{}{note}", fact.value))
    };
    facts.iter().map(line).collect()
}

/// The text broken into lines: the first after `first`, the others after as many spaces.
pub(super) fn paragraph(first: &str, text: &str) -> String {
    let indent = " ".repeat(first.chars().count());
    let mut lines = String::new();
    let mut line = first.to_owned();
    let mut is_empty = true;
    for word in text.split_whitespace() {
        if !is_empty && line.chars().count() + 1 + word.chars().count() > WIDTH {
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_paragraphs_hang_and_keep_within_the_width() {
        let text = paragraph("  - ", &"lightly loaded ".repeat(20));
        assert!(text.lines().all(|line| line.len() <= WIDTH));
        assert!(text.starts_with("  - lightly"));
        assert!(text.lines().skip(1).all(|line| line.starts_with("    l")));
        assert_eq!(paragraph("  ", ""), "\n");
    }

    #[test]
    fn regression_colour_only_where_it_is_wanted() {
        let screen = |appearance| Screen { appearance };
        assert_eq!(screen(Appearance::Ascii).warning("high"), "high");
        assert_eq!(screen(Appearance::Lines).heading("Boat"), "Boat");
        assert!(screen(Appearance::Colour).heading("Boat").contains('\u{1b}'));
    }
}
