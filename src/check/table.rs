//! The comparisons as text for a person.

use comfy_table::{
    CellAlignment, ContentArrangement, Table,
    presets::{ASCII_FULL_CONDENSED, UTF8_FULL_CONDENSED},
};

use super::{Comparison, Summary, Tolerance, Verdict};

/// Widest line, in columns.
const WIDTH: u16 = 100;
/// Digits that a printed value has at most.
const MOST_PRINTED: usize = 12;
/// Significant digits that a computed value is shown to, unless the printed one has more.
const MOST_DIGITS: usize = 6;
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
    text += &wrapped("", NOT_CHECKED);
    format!("{text}{}\n", Summary::of(comparisons))
}

/// What no printed example was at hand for.
const NOT_CHECKED: &str = "Not checked here, for want of a printed example: Celano's porpoising limit, the hump factor, list, and the loads that water puts on planes. These are tested against theory and against themselves.";

/// The notes of a source, each once, in order.
fn notes(comparisons: &[Comparison]) -> Vec<&str> {
    let mut notes = Vec::new();
    for note in comparisons.iter().filter_map(|each| each.note.as_deref()) {
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
        let place =
            each.note.as_deref().and_then(|note| notes.iter().position(|&other| other == note));
        let mark = place.map_or_else(String::new, |place| format!(" [{}]", place + 1));
        let [printed_digits, computed_digits] = digits(each.printed);
        table.add_row([
            case.to_owned(),
            quantity(each),
            rounded(each.printed, printed_digits),
            rounded(each.computed, computed_digits),
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

/// With two digits more than the tolerance needs.
fn difference(comparison: &Comparison) -> String {
    let (scale, unit, allowed) = scaled(comparison.tolerance);
    let difference = scale * comparison.difference();
    let places = (2.0 - (scale * allowed).log10().floor()).clamp(0.0, 9.0);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let text = format!("{difference:+.*}", places as usize);
    let is_zero = !text.contains(|c: char| ('1'..='9').contains(&c)) && difference.is_finite();
    format!("{}{unit}", if is_zero { &text[1..] } else { &text })
}

fn tolerance(comparison: &Comparison) -> String {
    if !comparison.judged {
        return "-".to_owned();
    }
    let (scale, unit, allowed) = scaled(comparison.tolerance);
    format!("{}{unit}", rounded(scale * allowed, 3))
}

/// Shares are shown in per cent, the others in the unit of the quantity.
const fn scaled(tolerance: Tolerance) -> (f64, &'static str, f64) {
    match tolerance {
        Tolerance::Relative(share) => (100.0, " %", share),
        Tolerance::Absolute(allowed) => (1.0, "", allowed),
    }
}

const fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Met => "met",
        Verdict::Missed => "MISSED",
        Verdict::Shown => "shown",
    }
}

/// Digits of the printed value, and of the computed one: two more, but no more than six unless the printed has them.
fn digits(printed: f64) -> [usize; 2] {
    let text = format!("{printed:e}");
    let mantissa = text.split('e').next().unwrap_or_default();
    let count = mantissa.chars().filter(char::is_ascii_digit).count();
    // Nothing is printed with so many: it is a mean of printed values.
    let count = if count > MOST_PRINTED { MOST_DIGITS } else { count };
    [count, count.max(MOST_DIGITS.min(count + 2))]
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
    use super::{difference, digits, rounded};
    use crate::check::{Case, Tolerance};

    #[test]
    fn regression_computed_values_show_two_digits_more_than_printed_ones() {
        assert_eq!(digits(2.3), [2, 4]);
        assert_eq!(digits(9434.0), [4, 6]);
        assert_eq!(digits(1028.107), [7, 7]);
        assert_eq!(digits(3.61e8), [3, 5]);
    }

    #[test]
    fn regression_differences_show_two_digits_more_than_the_tolerance() {
        for (values, tolerance, text) in [
            ([9095.0, 9017.81], Tolerance::Relative(0.01), "-0.85 %"),
            ([2.3, 2.2638], Tolerance::Absolute(0.05), "-0.0362"),
            ([-149_960.0, -131_192.0], Tolerance::Absolute(35_251.0), "+18768"),
            ([1_028.107, 1_028.107_01], Tolerance::Relative(1e-4), "0.0000 %"),
            ([1.0, f64::NAN], Tolerance::Relative(0.01), "NaN %"),
        ] {
            let case = Case::new("a source", "a case");
            assert_eq!(difference(&case.compare("quantity", "", values, tolerance)), text);
        }
    }

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
