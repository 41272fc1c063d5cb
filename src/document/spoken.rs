//! Sentences of the command line as they stand on a page.

use super::block::{Block, Fact, KeyNumber, Table};

/// A sentence of the command line as it stands on a page: names in quotation marks, `6.5°` for `6.5 deg`, `m²` for `m^2`, `3 to 7` for `3..7`.
pub fn spoken(text: &str) -> String {
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
            '^' => rest.strip_prefix("^2").filter(|after| !goes_on(after)).map(|_| (2, "²")),
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

/// Whether a number goes on: `.5` or another digit.
fn goes_on(after: &str) -> bool {
    after.trim_start_matches('.').starts_with(|c: char| c.is_ascii_digit())
}

impl Block {
    /// The same as it stands on a page; sentences of pieces, what is to be copied as it stands, and pictures are left alone.
    #[must_use]
    pub fn spoken(&self) -> Self {
        let all = |texts: &[String]| texts.iter().map(|text| spoken(text)).collect();
        let facts = |facts: &[Fact]| facts.iter().map(fact).collect();
        match self {
            Self::Section(text) => Self::Section(spoken(text)),
            Self::Alert(text) => Self::Alert(spoken(text)),
            Self::Heading(text) => Self::Heading(spoken(text)),
            Self::Lead(text) => Self::Lead(spoken(text)),
            Self::Paragraph(text) => Self::Paragraph(spoken(text)),
            Self::Points(texts) => Self::Points(all(texts)),
            Self::Facts(all) => Self::Facts(facts(all)),
            Self::Terms(all) => Self::Terms(facts(all)),
            Self::Warnings(texts) => Self::Warnings(all(texts)),
            Self::KeyNumbers(numbers) => Self::KeyNumbers(numbers.iter().map(number).collect()),
            Self::Table(of) => Self::Table(table(of)),
            Self::Caution { title, points } => {
                Self::Caution { title: spoken(title), points: all(points) }
            }
            Self::Said(_)
            | Self::Pictures(_)
            | Self::Verbatim(_)
            | Self::WriteOn(_)
            | Self::NewPage => self.clone(),
        }
    }
}

fn fact(fact: &Fact) -> Fact {
    Fact::new(spoken(&fact.name), spoken(&fact.value)).noted(spoken(&fact.note))
}

fn number(number: &KeyNumber) -> KeyNumber {
    let KeyNumber { name, value, likely, meaning } = number;
    let [name, value, likely, meaning] = [name, value, likely, meaning].map(|text| spoken(text));
    KeyNumber { name, value, likely, meaning }
}

fn table(table: &Table) -> Table {
    let mut table = table.clone();
    table.title = spoken(&table.title);
    for column in &mut table.columns {
        column.name = spoken(&column.name);
        for cell in &mut column.cells {
            *cell = spoken(cell);
        }
    }
    for note in &mut table.notes {
        *note = spoken(note);
    }
    table
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
            ("0.426 m^2.", "0.426 m²."),
            ("0.0055 λ^2.5/Cv²", "0.0055 λ^2.5/Cv²"),
            ("a ` alone, 5 degrees, 0.2 deg/s.", "a ` alone, 5 degrees, 0.2 deg/s."),
            ("up...", "up..."),
            ("from 10 kn to 18 kn ü", "from 10 kn to 18 kn ü"),
        ] {
            assert_eq!(spoken(told), wanted);
        }
    }
}
