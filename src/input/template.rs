//! The commented starter file: runs as it is, and explains every key.

use crate::boat::bound_of;
use crate::boat::duty::KINDS;
use crate::boat::keys::{TABLES, Table, example_line};
use crate::schema::{Kind, Row};

/// Width of the comments, in columns.
const WIDTH: usize = 78;

/// Head of the starter file.
const HEAD: &str = "\
# A boat file. Every quantity is text with its unit, for example \"7.4 m\",
# \"24 ft 3 in\", \"7 1/2 in\", \"23 kn\", \"6200 lb\", \"18 deg\", \"15 degC\".
# Decimals have a point, thousands have no mark. Lines that begin with # are
# comments: take the # away to use them. What is left out is estimated by a
# stated rule where that is possible, and every result then says so.
# The values below belong to no real boat: put your own in their place, and
# a # before every one that you do not know. Left as they stand they count as
# yours, above all lcg, vcg, thrust_angle, thrust_offset and bottom_length.
";

/// The text of a starter file: a boat that runs as it is, with every key explained.
#[must_use]
pub fn starter_file() -> String {
    starter_of(HEAD, TABLES)
}

/// A starter file of some tables below its head.
pub(crate) fn starter_of(head: &str, tables: &[Table]) -> String {
    let mut text = head.to_owned();
    for table in tables {
        text.push('\n');
        if table.name == "duty" {
            push_duties(&mut text, table);
            continue;
        }
        if !table.name.is_empty() {
            text.push_str(&comment(table.about));
            push_line(&mut text, table.starter, &table.header());
        }
        for key in table.keys {
            text.push_str(&comment(&explanation(table, key)));
            push_line(&mut text, table.starter && table.shows(key), &example_line(key));
        }
    }
    text
}

/// The keys of a duty explained, and one example of each kind, as comments.
fn push_duties(text: &mut String, table: &Table) {
    text.push_str(&comment(table.about));
    for key in table.keys {
        text.push_str(&comment(&format!("{}: {}", key.name, explanation(table, key))));
    }
    for kind in KINDS {
        text.push_str(&format!("\n#[[duty]]\n#kind = \"{}\"\n", kind.word));
        let shown = |key: &str| kind.keys.contains(&key) && !kind.instead.contains(&key);
        for key in table.keys.iter().filter(|key| shown(key.name)) {
            push_line(text, false, &example_line(key));
        }
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
