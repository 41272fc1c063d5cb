//! The comparisons as text for a person.

use comfy_table::{
    CellAlignment, ContentArrangement, Table,
    presets::{ASCII_FULL_CONDENSED, UTF8_FULL_CONDENSED},
};

use super::{Comparison, Summary, Tolerance, Verdict};

/// Widest line, in columns.
const WIDTH: u16 = 100;
/// Significant digits shown.
const DIGITS: usize = 6;
const HEADING: [&str; 7] =
    ["Case", "Quantity", "Printed", "Computed", "Difference", "Tolerance", "Verdict"];

/// A table for each source with its notes beneath, and a last line that counts.
///
/// With box characters for a terminal, otherwise in ASCII; at most 100 columns.
#[must_use]
pub fn table(comparisons: &[Comparison], terminal: bool) -> String {
    let preset = if terminal { UTF8_FULL_CONDENSED } else { ASCII_FULL_CONDENSED };
    let mut text = String::new();
    for of_source in comparisons.chunk_by(|a, b| a.source == b.source) {
        let notes = notes(of_source);
        text += &format!("{}\n{}\n", of_source[0].source, rows(of_source, &notes, preset));
        for (index, note) in notes.iter().enumerate() {
            text += &wrapped(&format!("[{}] ", index + 1), note);
        }
        text.push('\n');
    }
    text + &format!("{}\n", Summary::of(comparisons))
}

/// The notes of a source, each once, in order.
fn notes(comparisons: &[Comparison]) -> Vec<&'static str> {
    let mut notes = Vec::new();
    for note in comparisons.iter().filter_map(|each| each.note) {
        if !notes.contains(&note) {
            notes.push(note);
        }
    }
    notes
}

fn rows(comparisons: &[Comparison], notes: &[&str], preset: &str) -> Table {
    let mut table = Table::new();
    table.load_preset(preset).set_content_arrangement(ContentArrangement::Dynamic);
    table.set_width(WIDTH).set_header(HEADING);
    for numbers in 2..=5 {
        if let Some(column) = table.column_mut(numbers) {
            column.set_cell_alignment(CellAlignment::Right);
        }
    }
    let mut last_case = "";
    for each in comparisons {
        let case = if each.case == last_case { "" } else { &each.case };
        last_case = &each.case;
        let place = each.note.and_then(|note| notes.iter().position(|&other| other == note));
        let mark = place.map_or_else(String::new, |place| format!(" [{}]", place + 1));
        table.add_row([
            case.to_owned(),
            quantity(each),
            significant(each.printed),
            significant(each.computed),
            difference(each),
            tolerance(each),
            format!("{}{mark}", verdict(each.verdict())),
        ]);
    }
    table
}

fn quantity(comparison: &Comparison) -> String {
    match comparison.unit {
        "" => comparison.quantity.to_owned(),
        unit => format!("{}, {unit}", comparison.quantity),
    }
}

fn difference(comparison: &Comparison) -> String {
    match comparison.tolerance {
        Tolerance::Relative(_) => format!("{:+.3} %", 100.0 * comparison.difference()),
        Tolerance::Absolute(_) => {
            let sign = if comparison.difference() < 0.0 { "" } else { "+" };
            format!("{sign}{}", rounded(comparison.difference(), 3))
        }
    }
}

fn tolerance(comparison: &Comparison) -> String {
    if !comparison.judged {
        return "-".to_owned();
    }
    match comparison.tolerance {
        Tolerance::Relative(share) => format!("{} %", rounded(100.0 * share, 3)),
        Tolerance::Absolute(allowed) => rounded(allowed, 3),
    }
}

const fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Met => "met",
        Verdict::Missed => "MISSED",
        Verdict::Shown => "shown",
    }
}

fn significant(value: f64) -> String {
    rounded(value, DIGITS)
}

/// A number to some significant digits, without trailing zeros; very large and small ones with an exponent.
fn rounded(value: f64, digits: usize) -> String {
    if value == 0.0 || !value.is_finite() {
        return value.to_string();
    }
    let scientific = format!("{value:.*e}", digits.saturating_sub(1));
    let (mantissa, exponent) = scientific.split_once('e').unwrap_or((&scientific, "0"));
    let exponent: i32 = exponent.parse().unwrap_or(0);
    if (-4..7).contains(&exponent) {
        let places = i32::try_from(digits).unwrap_or(0) - 1 - exponent;
        return trimmed(&format!("{value:.*}", usize::try_from(places).unwrap_or(0))).to_owned();
    }
    format!("{}e{exponent}", trimmed(mantissa))
}

fn trimmed(number: &str) -> &str {
    if number.contains('.') { number.trim_end_matches('0').trim_end_matches('.') } else { number }
}

/// A sentence in lines of at most the width, the first behind a mark, the others indented as far.
fn wrapped(mark: &str, sentence: &str) -> String {
    let mut lines = vec![mark.trim_end().to_owned()];
    for word in sentence.split_whitespace() {
        let line = lines.last_mut().expect("begun with one");
        if line.len() + 1 + word.len() <= usize::from(WIDTH) {
            line.push(' ');
            line.push_str(word);
        } else {
            lines.push(format!("{}{word}", " ".repeat(mark.len())));
        }
    }
    lines.join("\n") + "\n"
}

#[cfg(test)]
mod tests {
    use super::rounded;

    #[test]
    fn regression_numbers_keep_their_significant_digits() {
        for (value, digits, text) in [
            (3.85, 6, "3.85"),
            (1028.107, 6, "1028.11"),
            (-149_960.0, 6, "-149960"),
            (-131_192.665, 6, "-131193"),
            (3.61e8, 6, "3.61e8"),
            (1.791_412_3e-6, 6, "1.79141e-6"),
            (0.001_742_04, 6, "0.00174204"),
            (35_235.0, 3, "35235"),
            (0.005, 3, "0.005"),
            (9.999_999_9, 3, "10"),
            (0.0, 3, "0"),
            (f64::NAN, 3, "NaN"),
        ] {
            assert_eq!(rounded(value, digits), text);
        }
    }
}
