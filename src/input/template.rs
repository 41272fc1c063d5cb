//! The commented starter file: runs as it is, and explains every key.

use crate::boat::duty::KINDS;
use crate::boat::keys::{TABLES, Table, example_line};
use crate::boat::{Wish, bound_of};
use crate::schema::{Kind, Row};
use crate::sentence::glossary;

/// Width of the comments, in columns.
const WIDTH: usize = 78;

/// The key of what a person wishes.
const WISHES: &str = "for";

/// What a starter file begins with.
pub(super) const FIRST_LINE: &str = "# A boat file. Every quantity is text with its unit";

/// Head of the starter file.
const HEAD: &str = "\
# A boat file. Every quantity is text with its unit, for example \"7.4 m\",
# \"24 ft 3 in\", \"7 1/2 in\", \"23 kn\", \"6200 lb\", \"18 deg\", \"15 degC\".
# Decimals have a point, thousands have no mark. Lines that begin with # are
# comments: take the # away to use them. What is left out is estimated by a
# stated rule where that is possible, and every result then says so.
# The values below belong to no real boat: put your own in their place, and
# a # before every one that you do not know. Left as they stand they count as
# yours, above all lcg, vcg, thrust_angle, thrust_offset, bottom_length and
# deadrise.
";

/// The text of a starter file: a boat that runs as it is, with every key explained.
#[must_use]
pub fn starter_file() -> String {
    starter_file_for(&[])
}

/// The path of each quantity that the starter file gives a value, and that value.
pub(super) fn values_shown() -> impl Iterator<Item = (String, &'static str)> {
    let shown = |table: &'static Table| {
        let is_quantity = |key: &Row| matches!(key.kind, Kind::Quantity(_) | Kind::QuantityOr(..));
        let keys = table.keys.iter().filter(move |key| is_quantity(key) && table.shows(key));
        keys.map(|key| (table.path_of(key), key.example))
    };
    let of_the_boat = |table: &&'static Table| table.starter && table.name != "water";
    TABLES.iter().filter(of_the_boat).flat_map(shown)
}

/// The same with what a person wishes of the planes.
#[must_use]
pub fn starter_file_for(wishes: &[Wish]) -> String {
    starter(HEAD, TABLES, wishes)
}

/// A starter file of some tables below its head.
#[cfg(feature = "program")]
pub(crate) fn starter_of(head: &str, tables: &[Table]) -> String {
    starter(head, tables, &[])
}

fn starter(head: &str, tables: &[Table], wishes: &[Wish]) -> String {
    let mut text = head.to_owned();
    let mut met = Vec::new();
    for table in tables {
        text.push('\n');
        if table.name == "duty" {
            push_duties(&mut text, table, &mut met);
            continue;
        }
        if !table.name.is_empty() {
            text.push_str(&comment(table.about));
            push_line(&mut text, table.starter, &table.header());
        }
        for key in table.keys {
            let mut meaning = explanation(table, key);
            if key.name == WISHES && table.name.is_empty() {
                let each = Wish::ALL.map(|wish| format!(" {}: {}.", wish.word(), wish.complaint()));
                meaning.push_str(&each.concat());
            }
            text.push_str(&comment(&with_words(meaning, &mut met)));
            if key.name == WISHES && table.name.is_empty() && !wishes.is_empty() {
                let words: Vec<_> =
                    wishes.iter().map(|wish| format!("\"{}\"", wish.word())).collect();
                push_line(&mut text, true, &format!("{WISHES} = [{}]", words.join(", ")));
                continue;
            }
            push_line(&mut text, table.starter && table.shows(key), &example_line(key));
        }
    }
    text
}

/// The keys of a duty explained, and one example of each kind, as comments.
fn push_duties(text: &mut String, table: &Table, met: &mut Vec<&'static str>) {
    text.push_str(&comment(&with_words(table.about.to_owned(), met)));
    for key in table.keys {
        let meaning = format!("{}: {}", key.name, explanation(table, key));
        text.push_str(&comment(&with_words(meaning, met)));
    }
    for kind in KINDS {
        text.push_str(&format!("\n#[[duty]]\n#kind = \"{}\"\n", kind.word));
        let shown = |key: &str| kind.keys.contains(&key) && !kind.instead.contains(&key);
        for key in table.keys.iter().filter(|key| shown(key.name)) {
            push_line(text, false, &example_line(key));
        }
    }
}

/// A text with those words of the trade explained that were not met before.
fn with_words(text: String, met: &mut Vec<&'static str>) -> String {
    match glossary::explained_once(&text, met) {
        Some(words) => format!("{text} ({})", words.trim_end_matches('.')),
        None => text,
    }
}

fn push_line(text: &mut String, active: bool, line: &str) {
    if !active {
        text.push('#');
    }
    text.push_str(line);
    text.push('\n');
}

/// What a key means, what is allowed, and what happens when it is left out.
fn explanation(table: &Table, key: &Row) -> String {
    let mut text = capitalised(key.meaning);
    if let Kind::Choice(words) | Kind::Words(words) = key.kind {
        text.push_str(&format!(": {}", words.join(", ")));
    }
    if let Kind::QuantityOr(_, words) = key.kind {
        text.push_str(&format!("; where nobody measured it, in words: {}", words.join(", ")));
    }
    if let Some(bound) = bound_of(&table.path_of(key)) {
        text.push_str(&format!(". Allowed {}, usual {}", bound.allowed(), bound.usual_text()));
    }
    let absent = key.absent();
    if key.is_needed() {
        text.push_str(". Needed.");
    } else if absent.starts_with("needed") {
        text.push_str(&format!(". {}.", capitalised(&absent)));
    } else {
        text.push_str(&format!(". Left out: {absent}."));
    }
    text
}

fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The text as comment lines.
fn comment(text: &str) -> String {
    let mut lines = String::new();
    let mut line = String::from("#");
    for word in text.split_whitespace() {
        if line.chars().count() + 1 + word.chars().count() > WIDTH {
            lines.push_str(&line);
            lines.push('\n');
            line = String::from("#");
        }
        line.push(' ');
        line.push_str(word);
    }
    lines.push_str(&line);
    lines.push('\n');
    lines
}

#[cfg(test)]
#[path = "template_tests.rs"]
mod tests;
