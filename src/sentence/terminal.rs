//! Words that stand in no pieces yet, from a terminal's form to that of a page.

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
