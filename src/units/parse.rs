//! Reads a quantity written as text: a number and a unit.
//!
//! Numbers are decimal (`7.4`), scientific (`1.19e-6`), fractions (`1/2`) or mixed (`7 1/2`),
//! with an optional sign. The space before the unit is optional. Feet may be followed by inches
//! (`7 ft 4 in`). Nothing is guessed: a decimal comma, a thousands separator or a number without
//! its unit is refused with what to type instead.

use std::ops::Range;

use super::quantity_error::{QuantityError, QuantityProblem as Problem};
use super::table::{Dimension, FOOT, INCH, REFUSED, UNITS, Unit, find_unit, normal_spelling};

/// Reads a quantity of the kind wanted and gives its value in the SI unit of that kind.
///
/// # Errors
/// If the text is not a finite number with a unit of that kind; the error carries the bytes that
/// are wrong, what is allowed and what to type instead.
pub fn parse_si(text: &str, wanted: Dimension) -> Result<f64, QuantityError> {
    let reader = Reader { text, wanted };
    let end = text.trim_end().len();
    let start = end - text[..end].trim_start().len();
    if start == end {
        return Err(reader.error(Problem::Empty, 0..text.len(), Some(reader.example())));
    }
    let (sign, at) = reader.sign(start, end);
    reader.refuse_words(at, start..end)?;
    reader.refuse_separators(at, end)?;
    let number = reader.number(at, end)?;
    let value = reader.with_unit(sign, &number, end)?;
    if value.is_finite() {
        Ok(value)
    } else {
        let problem = Problem::NotFinite(text[start..end].to_string());
        Err(reader.error(problem, start..end, None))
    }
}

/// A number and the bytes it takes.
struct Number {
    value: f64,
    span: Range<usize>,
}

/// The text being read and the kind of quantity wanted from it.
struct Reader<'a> {
    text: &'a str,
    wanted: Dimension,
}

impl Reader<'_> {
    fn error(&self, problem: Problem, span: Range<usize>, remedy: Option<String>) -> QuantityError {
        QuantityError { problem, span, wanted: self.wanted, remedy }
    }

    /// The unit that examples of the wanted kind carry.
    fn usual_unit(&self) -> &'static str {
        self.wanted.unit_symbols()[0]
    }

    fn example(&self) -> String {
        format!("write for example `5 {}`", self.usual_unit())
    }

    /// The sign at the start of the text and the place after it.
    fn sign(&self, start: usize, end: usize) -> (f64, usize) {
        let rest = &self.text[start..end];
        let (sign, after) = if let Some(after) = rest.strip_prefix(['-', '\u{2212}']) {
            (-1.0, after)
        } else {
            (1.0, rest.strip_prefix('+').unwrap_or(rest))
        };
        (sign, end - after.trim_start().len())
    }

    /// Refuses text that does not begin with a number.
    fn refuse_words(&self, at: usize, all: Range<usize>) -> Result<(), QuantityError> {
        let rest = &self.text[at..all.end];
        if rest.starts_with(|c: char| c.is_ascii_digit() || c == '.') {
            return Ok(());
        }
        let word: String =
            rest.chars().take_while(|c| c.is_alphabetic()).collect::<String>().to_ascii_lowercase();
        let whole = self.text[all.clone()].to_string();
        let problem = match word.as_str() {
            "inf" | "infinity" | "nan" => Problem::NotFinite(whole),
            _ => Problem::NoNumber(whole),
        };
        Err(self.error(problem, all, Some(self.example())))
    }

    /// Refuses commas, underscores and repeated points inside the leading number.
    fn refuse_separators(&self, at: usize, end: usize) -> Result<(), QuantityError> {
        let rest = &self.text[at..end];
        let length = rest
            .find(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | ',' | '_'))
            .unwrap_or(rest.len());
        let written = &rest[..length];
        let count = |sought: char| written.matches(sought).count();
        let (commas, points, lines) = (count(','), count('.'), count('_'));
        if commas == 0 && lines == 0 && points <= 1 {
            return Ok(());
        }
        let tail = self.tail(at + length, end);
        let group = written.rsplit(',').next().map_or(0, str::len);
        let joined: String = written.chars().filter(char::is_ascii_digit).collect();
        let own = || written.to_string();
        let (problem, remedy) = if commas == 1 && points + lines == 0 && group != 3 {
            let pointed = written.replace(',', ".");
            (Problem::DecimalComma(own()), format!("write `{pointed}{tail}`"))
        } else if commas == 1 && points + lines == 0 {
            let pointed = written.replace(',', ".");
            let remedy = format!("write `{joined}{tail}` or `{pointed}{tail}`");
            (Problem::AmbiguousComma(own()), remedy)
        } else {
            let plain = plain_number(written).unwrap_or(joined);
            (Problem::ThousandsSeparator(own()), format!("write `{plain}{tail}`"))
        };
        Err(self.error(problem, at..at + length, Some(remedy)))
    }

    /// What follows the number, with one space, or the usual unit if nothing follows.
    fn tail(&self, from: usize, end: usize) -> String {
        match self.text[from..end].trim() {
            "" => format!(" {}", self.usual_unit()),
            unit => format!(" {}", super::quantity_error::quoted(unit)),
        }
    }

    /// A decimal number, a fraction or a mixed number beginning at `at`.
    fn number(&self, at: usize, end: usize) -> Result<Number, QuantityError> {
        let rest = &self.text[at..end];
        let whole_digits = digits(rest);
        if let Some((numerator, length)) = fraction(rest) {
            return self.divided(0.0, numerator, at..at + length);
        }
        let after_whole = &rest[whole_digits..];
        let gap = mixed_number_gap(after_whole);
        if whole_digits > 0
            && gap > 0
            && let Some((parts, length)) = fraction(&after_whole[gap..])
        {
            let whole = parsed(&rest[..whole_digits]);
            return self.divided(whole, parts, at..at + whole_digits + gap + length);
        }
        let length = decimal_length(rest);
        let span = at..at + length;
        let text = &self.text[span.clone()];
        let value = parsed(text);
        if value.is_finite() {
            Ok(Number { value, span })
        } else if value.is_infinite() {
            Err(self.error(Problem::NotFinite(text.to_string()), span, None))
        } else {
            let problem = Problem::NoNumber(rest.to_string());
            Err(self.error(problem, at..end, Some(self.example())))
        }
    }

    fn divided(
        &self,
        whole: f64,
        (numerator, denominator): (f64, f64),
        span: Range<usize>,
    ) -> Result<Number, QuantityError> {
        if denominator == 0.0 {
            let problem = Problem::DividesByZero(self.text[span.clone()].to_string());
            return Err(self.error(problem, span, None));
        }
        let value = whole + numerator / denominator;
        Ok(Number { value, span })
    }

    /// The signed number in SI by the unit that stands after it.
    fn with_unit(&self, sign: f64, number: &Number, end: usize) -> Result<f64, QuantityError> {
        let rest = self.text[number.span.end..end].trim_start();
        if rest.is_empty() && self.wanted == Dimension::Fraction {
            return Ok(sign * number.value);
        }
        if rest.is_empty() {
            return Err(self.missing_unit(number, end));
        }
        let at = end - rest.len();
        let spelling = normal_spelling(rest);
        match find_unit(&spelling, self.wanted) {
            Some(unit) if unit.dimension == self.wanted => {
                Ok((sign * number.value + unit.offset) * unit.factor)
            }
            Some(unit) => Err(self.wrong_kind(unit, at..end)),
            None => match self.inches_after_feet(rest) {
                Some(from) => {
                    self.feet_and_inches(number.value, from, end).map(|length| sign * length)
                }
                None => Err(self.unknown_unit(number, &spelling, at..end)),
            },
        }
    }

    fn missing_unit(&self, number: &Number, end: usize) -> QuantityError {
        let written = self.text[number.span.clone()].to_string();
        let whole = self.text[..end].trim();
        let remedy = format!("write for example `{whole} {}`", self.usual_unit());
        self.error(Problem::MissingUnit(written), number.span.clone(), Some(remedy))
    }

    fn wrong_kind(&self, unit: &Unit, span: Range<usize>) -> QuantityError {
        let problem = Problem::WrongKind {
            unit: self.text[span.clone()].to_string(),
            found: unit.dimension,
            wanted: self.wanted,
        };
        self.error(problem, span, Some(self.example()))
    }

    /// Where the inches begin, if `rest` is a foot sign with digits after it.
    fn inches_after_feet(&self, rest: &str) -> Option<usize> {
        if self.wanted != Dimension::Length {
            return None;
        }
        let mut feet: Vec<&str> = FOOT.to_vec();
        feet.sort_by_key(|spelling| std::cmp::Reverse(spelling.len()));
        feet.iter()
            .filter_map(|spelling| rest.strip_prefix(spelling))
            .map(str::trim_start)
            .find(|after| after.starts_with(|c: char| c.is_ascii_digit() || c == '.'))
            .map(|after| self.text.trim_end().len() - after.len())
    }

    fn feet_and_inches(&self, feet: f64, from: usize, end: usize) -> Result<f64, QuantityError> {
        self.refuse_separators(from, end)?;
        let inches = self.number(from, end)?;
        let rest = self.text[inches.span.end..end].trim_start();
        let at = end - rest.len();
        if rest.is_empty() {
            let written = self.text[inches.span.clone()].to_string();
            let remedy = format!("write `{} in`", self.text[..end].trim());
            return Err(self.error(Problem::MissingUnit(written), inches.span, Some(remedy)));
        }
        if !INCH.contains(&normal_spelling(rest).as_str()) {
            let problem = Problem::MoreThanOne(self.text[..end].trim().to_string());
            let remedy = "after feet write inches, as in `7 ft 4 in`".to_string();
            return Err(self.error(problem, at..end, Some(remedy)));
        }
        Ok(feet * super::factor::M_PER_FOOT + inches.value * super::factor::M_PER_INCH)
    }

    fn unknown_unit(&self, number: &Number, spelling: &str, span: Range<usize>) -> QuantityError {
        let written = self.text[span.clone()].to_string();
        if let Some(joined) = self.spaced_thousands(number, &span) {
            return joined;
        }
        if spelling.starts_with(|c: char| c.is_ascii_digit()) || has_second_number(spelling) {
            let problem = Problem::MoreThanOne(self.text[..span.end].trim().to_string());
            let remedy = "only feet and inches may be joined, as in `7 ft 4 in`".to_string();
            return self.error(problem, span, Some(remedy));
        }
        let problem = Problem::UnknownUnit { unit: written, wanted: self.wanted };
        let remedy = refused_hint(spelling).or_else(|| self.other_case(spelling));
        self.error(problem, span, remedy)
    }

    /// The unit that differs only in capital letters, as a hint.
    fn other_case(&self, spelling: &str) -> Option<String> {
        UNITS
            .iter()
            .filter(|unit| unit.dimension == self.wanted)
            .flat_map(|unit| unit.spellings)
            .find(|known| known.eq_ignore_ascii_case(spelling))
            .map(|known| format!("write `{known}`"))
    }

    /// `1 000 kg`: groups of three digits set apart by spaces.
    fn spaced_thousands(&self, number: &Number, rest: &Range<usize>) -> Option<QuantityError> {
        let first = &self.text[number.span.clone()];
        let after = &self.text[rest.clone()];
        let length =
            after.find(|c: char| !c.is_ascii_digit() && !c.is_whitespace()).unwrap_or(after.len());
        let groups: Vec<&str> = after[..length].split_whitespace().collect();
        let all_threes = !groups.is_empty() && groups.iter().all(|group| group.len() == 3);
        if !all_threes || first.len() > 3 || !first.bytes().all(|b| b.is_ascii_digit()) {
            return None;
        }
        let tail = self.tail(rest.start + length, rest.end);
        let written_end = rest.start + after[..length].trim_end().len();
        let span = number.span.start..written_end;
        let problem = Problem::ThousandsSeparator(self.text[span.clone()].to_string());
        let remedy = format!("write `{first}{}{tail}`", groups.concat());
        Some(self.error(problem, span, Some(remedy)))
    }
}

fn refused_hint(spelling: &str) -> Option<String> {
    REFUSED
        .iter()
        .find(|(refused, _)| refused.eq_ignore_ascii_case(spelling))
        .map(|(_, hint)| (*hint).to_string())
}

/// Whether a digit follows a space, as in `in 7 ft`.
fn has_second_number(spelling: &str) -> bool {
    spelling.split(' ').skip(1).any(|word| word.starts_with(|c: char| c.is_ascii_digit()))
}

/// The number of ASCII digits at the start.
fn digits(text: &str) -> usize {
    text.bytes().take_while(u8::is_ascii_digit).count()
}

/// The bytes between the whole part and the fraction of a mixed number: spaces or one hyphen.
fn mixed_number_gap(text: &str) -> usize {
    if text.starts_with('-') { 1 } else { text.len() - text.trim_start_matches(' ').len() }
}

/// `3/4` at the start: numerator and denominator, and the bytes taken.
fn fraction(text: &str) -> Option<((f64, f64), usize)> {
    let above = digits(text);
    let after = text[above..].strip_prefix('/')?;
    let below = digits(after);
    if above == 0 || below == 0 {
        return None;
    }
    let length = above + 1 + below;
    Some(((parsed(&text[..above]), parsed(&after[..below])), length))
}

/// The bytes that a decimal or scientific number takes at the start.
fn decimal_length(text: &str) -> usize {
    let mut length = digits(text);
    if text[length..].starts_with('.') {
        length += 1 + digits(&text[length + 1..]);
    }
    let Some(after) = text[length..].strip_prefix(['e', 'E']) else {
        return length;
    };
    let unsigned = after.strip_prefix(['+', '-']).unwrap_or(after);
    match digits(unsigned) {
        0 => length,
        count => length + 1 + (after.len() - unsigned.len()) + count,
    }
}

/// The value of digits already checked; not-a-number where there were none.
fn parsed(text: &str) -> f64 {
    text.parse().unwrap_or(f64::NAN)
}

/// A number with its thousands separators taken out: `1,234.5` and `1.234,5` give `1234.5`.
fn plain_number(written: &str) -> Option<String> {
    let bare = written.replace('_', "");
    let decimal = bare.rfind(['.', ',']).filter(|&place| {
        let mark = &bare[place..=place];
        bare.matches(mark).count() == 1
            && (bare.len() - place != 4 || bare.matches(['.', ',']).count() > 1)
    });
    let plain: String = bare
        .char_indices()
        .filter_map(|(place, c)| match c {
            _ if Some(place) == decimal => Some('.'),
            '.' | ',' => None,
            digit => Some(digit),
        })
        .collect();
    plain.parse::<f64>().ok().map(|_| plain)
}

#[cfg(test)]
#[path = "parse_tests.rs"]
mod tests;
